/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

/** The words under a rail's scale, in equal steps from 0 to 1. */
export const RAIL_SCALE = ['¼', '½', 'need', '2×', '4×', '8×'];
/** Where the need stands. */
export const RAIL_NEED = 0.4;
/** The height of the rails that marks are drawn for. */
export const RAIL_HEIGHT = 26;
/** The marks of a rail: 'd' goes through the mark's place, 'r' is a disc's radius or half of a bar's height. */
export const RAIL_SIGNS = {
  need: { words: 'the need, where all rails line up', d: 'M0 -13L0 13', r: 0, thick: 1.3, dashed: false },
  amount: { words: 'the amount a day', d: '', r: 4.8, thick: 0, dashed: false },
  unsure: { words: 'the amount, where it is thin or unproven', d: '', r: 4.1, thick: 2, dashed: false },
  below: { words: 'beyond the scale: less than a quarter, or more than eight times', d: 'M0 0L9 -5.5L9 5.5Z', r: 0, thick: 0, dashed: false },
  above: { words: 'beyond the scale: less than a quarter, or more than eight times', d: 'M0 0L-9 -5.5L-9 5.5Z', r: 0, thick: 0, dashed: false },
  spread: { words: 'where it lies nine times in ten', d: '', r: 2.5, thick: 0, dashed: false },
  unknown: { words: 'not known: what foods without a figure might add', d: '', r: 6.5, thick: 0, dashed: false },
  minimum: { words: 'the minimum', d: 'M0 -6L0 6', r: 0, thick: 1, dashed: false },
  limit: { words: 'the upper limit', d: 'M-3.5 -6L2 0L-3.5 6', r: 0, thick: 1.7, dashed: false },
  tested: { words: 'the highest level tested', d: 'M-3.5 -6L2 0L-3.5 6', r: 0, thick: 1.7, dashed: true },
  leanest: { words: 'its leanest days, where they decide', d: 'M-4 -4L4 4M-4 4L4 -4', r: 0, thick: 2, dashed: false },
  other: { words: 'the bowl as it was, or the one beside it', d: 'M0 -7L5 0L0 7L-5 0Z', r: 0, thick: 1.4, dashed: false },
} as const;
/** The tones of pictures on white. */
export const TONES = { ink: '#201f1b', dim: '#635e54', light: '#b9b3a9', pale: '#cfc6b2', paper: '#ffffff' } as const;
/** The tones of a bar's pieces, in turn. */
export const PIECE_TONES = ['ink', 'dim', 'pale', 'light', 'dots'] as const;
/** How much of the bowl may be set to be eaten. */
export const EATEN_PERCENT = [60, 140] as const;
