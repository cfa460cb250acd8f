/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

/** shares of the scale's width: 0 a quarter of the allowance, 1 eight times it, logarithmic */
export interface Rail {
  /** the amount */
  mark: number | null;
  /** whether the amount lies beyond the scale */
  mark_end: 'inside' | 'below' | 'above';
  /** 5th percentile */
  low: number | null;
  /** 95th percentile */
  high: number | null;
  /** what is known */
  unknown_from: number | null;
  /** what foods without a figure might make of it */
  unknown_to: number | null;
  minimum: number | null;
  /** the upper limit; null beyond the scale */
  limit: number | null;
  /** the leanest days, where they decide */
  leanest: number | null;
  /** the highest level tested, no proven limit */
  limit_is_tested: boolean;
  /** false: thin or unproven */
  sure: boolean;
}
