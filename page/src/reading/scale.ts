/** The rails in groups. Only drawing: no figure is made here. */
import { RAIL_SCALE, type Group as NamedGroup, type Nutrient, type Verdict } from '../core/answers';

export const MARKS = RAIL_SCALE.map((words, i) => ({ at: (i / (RAIL_SCALE.length - 1)) * 100, words }));

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
