/** What a figure rests on: where the value of each line comes from, and which verdicts hang on estimates. */
import { useEffect, useState } from 'preact/hooks';
import type { Check, Nutrient, Why } from '../core/answers';
import { core, eaten, question, recipeBody } from '../state';
import { choose } from '../view';

/** The chain behind a nutrient, asked for when it is wanted; null until it is there. */
export function useWhy(n: Nutrient, wanted: boolean): Why | null {
  const [why, setWhy] = useState<Why | null>(null);
  const body = recipeBody.value;
  useEffect(() => {
    if (!wanted) return;
    let alive = true;
    core.tell<Check>('why', 'why', [body, { eaten: eaten.value, why: n.key }], question()).then(
      (told) => alive && setWhy(told.answer?.why?.[0] ?? null),
      () => undefined,
    );
    return () => {
      alive = false;
    };
  }, [n.key, n.amount, body, wanted]);
  return why?.key === n.key ? why : null;
}

/** Of each line, where those of its figures come from that are not measured: "estimated from 42 analyses of beef, within 9 %". */
export function originsByLine(why: Why | null): ReadonlyMap<number, string> {
  const told = new Map<number, Set<string>>();
  const tell = (line: number, words: string) => told.set(line, (told.get(line) ?? new Set()).add(words));
  for (const l of why?.lines ?? [])
    for (const v of l.values) {
      if (l.line === null || v.status === 'unknown') continue;
      if (v.origin && v.status !== 'measured') tell(l.line, v.origin);
      if (l.cooking_table && v.kept_status === 'estimated') tell(l.line, 'what cooking leaves of it is estimated');
    }
  return new Map([...told].map(([line, origins]) => [line, [...origins].join('; ')]));
}

const NAMED = 4;

/** All that is drawn of it. */
export const lentOf = (c: Check): string => c.nutrients.flatMap((n) => (n.estimate_decides ? n.key : [])).join(' ');

/** How much of the verdicts rests on estimates, where these decide; each name goes to what it rests on. */
export function Lent({ check: c }: { check: Check }) {
  const lent = c.nutrients.filter((n) => n.estimate_decides);
  if (lent.length === 0) return null;
  const named = lent.length <= NAMED + 1 ? lent : lent.slice(0, NAMED);
  const more = lent.length - named.length;
  return (
    <p class="lent">
      Estimates decide {lent.length} of these:{' '}
      {named.map((n, i) => (
        <>
          {i === 0 ? '' : i === named.length - 1 && more === 0 ? ' and ' : ', '}
          <button type="button" class="quiet" onClick={() => choose({ kind: 'nutrient', key: n.key })}>
            {n.said}
          </button>
        </>
      ))}
      {more > 0 ? ` and ${more} more` : ''}.
    </p>
  );
}
