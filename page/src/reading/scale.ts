/** Where things stand on a rail: a logarithmic scale from a quarter of the allowance to eight times it. Positions are per cent
 * of the rail's width. Only drawing: no figure is made here. */
import type { Group as NamedGroup, Nutrient, Verdict } from '../core/answers';

const LEAST = 1 / 4;
const MOST = 8;
const SPAN = Math.log2(MOST / LEAST);

export const MARKS = [
  { at: place(1 / 4), words: '¼' },
  { at: place(1 / 2), words: '½' },
  { at: place(1), words: 'need' },
  { at: place(2), words: '2×' },
  { at: place(4), words: '4×' },
  { at: place(8), words: '8×' },
];

/* A twentieth of a per cent is less than half a pixel on any rail: what moves by less is not drawn anew. */
function rounded(percent: number): number {
  return Math.round(percent * 20) / 20;
}

/** Of a multiple of the allowance; what lies beyond the rail is drawn at its end. */
export function place(multiple: number): number {
  if (!(multiple > LEAST)) return 0;
  if (multiple >= MOST) return 100;
  return rounded((Math.log2(multiple / LEAST) / SPAN) * 100);
}


export type End = 'inside' | 'below' | 'above';
export function end(multiple: number): End {
  return !(multiple >= LEAST) ? 'below' : multiple > MOST ? 'above' : 'inside';
}

export interface Rail {
  mark: number;
  markEnd: End;
  band: [number, number] | null;
  /** What foods without a value might add, from the known amount on. */
  hatched: [number, number] | null;
  minimum: number | null;
  upper: number | null;
  upperEnd: End;
  /** The leanest days, where they decide. */
  leanest: number | null;
}

/** Null where the standard has no figure to stand on. */
export function railOf(n: Nutrient): Rail | null {
  const unit = n.allowance ?? n.upper;
  if (unit === null || !(unit > 0) || n.amount === null) return null;
  const at = (x: number | null): number | null => (x === null ? null : place(x / unit));
  const band: [number, number] | null = n.low !== null && n.high !== null ? [place(n.low / unit), place(n.high / unit)] : null;
  const from = place(n.amount / unit);
  const to = n.possible !== null && n.missing.length > 0 ? place(n.possible / unit) : from;
  return {
    mark: from,
    markEnd: end(n.amount / unit),
    band: band && band[1] > band[0] ? band : null,
    hatched: to > from + 0.2 ? [from, to] : null,
    minimum: at(n.minimum),
    upper: at(n.upper),
    upperEnd: n.upper === null ? 'inside' : end(n.upper / unit),
    leanest: n.verdict_by_window && n.window_amount !== null ? place(n.window_amount / unit) : null,
  };
}

export interface Group {
  /** The core's key: a verdict, or "near limit". */
  key: string;
  title: string;
  words: string;
  rows: Nutrient[];
  repaired?: boolean;
}

/** The core's groups in the core's order. With 'before', what was wanting then and is met now stands on its own, before what was met all along. */
export function groupsOf(nutrients: Nutrient[], groups: NamedGroup[], before: Nutrient[] | null = null): Group[] {
  const known = new Map(nutrients.map((n) => [n.key, n]));
  const was = (n: Nutrient): Verdict | null => before?.find((b) => b.key === n.key)?.verdict ?? null;
  const repaired = before ? nutrients.filter((n) => n.verdict === 'met' && was(n) !== 'met' && was(n) !== 'no figure') : [];
  const all = groups.map(
    (g): Group => ({
      key: g.key,
      title: g.title,
      words: g.aside ?? '',
      rows: g.nutrients.flatMap((k) => known.get(k) ?? []).filter((n) => !repaired.includes(n)),
    }),
  );
  const better: Group = { key: 'met', repaired: true, title: 'Repaired', words: 'met now; the diamonds are the bowl as it was', rows: repaired };
  const met = all.findIndex((g) => g.key === 'met');
  return [...all.slice(0, met), better, ...all.slice(met)].filter((g) => g.rows.length > 0);
}
