/** Foods that could take a line's place, each put there with a click: for one line, or for one nutrient over all lines. */
import { signal } from '@preact/signals';
import { useEffect, useState } from 'preact/hooks';
import { Fold } from '../Fold';
import type { Check, Line, Nutrient, Swap } from '../core/answers';
import { proposed } from '../acting';
import { putLine, swapsFor, type Hit } from '../acts';
import { answer } from '../state';
import { textLines } from '../core/here';
import { figure, grams, list } from '../words';
import { indexOf } from '../writing/text';

const SHOWN = 8;
/** Eight cuts of one animal are one idea. */
const OF_ONE_KIND = 2;
/** What helps one nutrient, or is of another kind, need not be among the first. */
const LOOKED_AT = 40;

const nameOf = (c: Check, key: string): string => c.nutrients.find((n) => n.key === key)?.said ?? key;

function names(c: Check, keys: { key: string }[]): string {
  return list(keys.slice(0, 4).map((k) => nameOf(c, k.key)).concat(keys.length > 4 ? [`${keys.length - 4} more`] : []));
}

function signed(x: number, unit: string): string {
  return `${x < 0 ? '−' : '+'}${figure(Math.abs(x))} ${unit}`;
}

/** Foods are ranked again as soon as the last line is understood. */
const everyLineRead = (): boolean => answer.value?.left_out.length === 0;

/** Caribou and frog legs do much, but few have them. */
const everyday = signal(true);

function Among() {
  return (
    <label class="as-text">
      <select aria-label="Which foods are tried" value={everyday.value ? 'everyday' : 'all'} onChange={(e) => (everyday.value = e.currentTarget.value === 'everyday')}>
        <option value="everyday">Everyday foods</option>
        <option value="all">All foods of the library</option>
      </select>
    </label>
  );
}

/** The pin steps back behind the words. */
export function Pinned({ text }: { text: string }) {
  const line = textLines('recipe', text).lines[0];
  if (!line || line.pin_column === null) return <>{text}</>;
  const [from, to] = [indexOf(text, line.pin_column), indexOf(text, line.pin_column + (line.pin_width ?? 0))];
  return (
    <>
      {text.slice(0, from)}
      <span class="pin">{text.slice(from, to)}</span>
      {text.slice(to)}
    </>
  );
}

/** The first ones, at most two whose names in the tables begin alike. */
function varied<T>(all: T[], hitOf: (x: T) => Hit): T[] {
  const seen = new Map<string, number>();
  return all
    .filter((x) => {
      const kind = hitOf(x).name.split(/[ ,]/)[0] ?? '';
      seen.set(kind, (seen.get(kind) ?? 0) + 1);
      return (seen.get(kind) ?? 0) <= OF_ONE_KIND;
    })
    .slice(0, SHOWN);
}

const judged = (m: Hit['repairs'][number]): boolean => m.before !== 'unproven';

/** What could not be judged before, and then can, is neither better nor worse for that. */
function settled(c: Check, h: Hit): string {
  const moves = [...h.repairs, ...h.breaks].filter((m) => !judged(m));
  return ['met', 'thin', 'short', 'over']
    .map((verdict) => ({ verdict, of: moves.filter((m) => m.after === verdict) }))
    .filter((s) => s.of.length > 0)
    .map((s) => `; settles as ${s.verdict === 'over' ? 'too much' : s.verdict}: ${names(c, s.of)}`)
    .join('');
}

function HitRow({ check: c, hit: h, line, old }: { check: Check; hit: Hit; line: number; old: string | null }) {
  const [repairs, breaks] = [h.repairs.filter(judged), h.breaks.filter(judged)];
  return (
    <li>
      <button type="button" class="swap" title={h.name} disabled={h.text === null || proposed.value !== null} onClick={() => h.text && putLine(line, h.text)}>
        <span class="what">
          {old !== null && <del>{old}</del>}
          <ins>
            <Pinned text={h.text ?? h.name} />
          </ins>
        </span>
        <small>
          {repairs.length > 0 ? <b>repairs {names(c, repairs)}</b> : 'repairs nothing'}
          {breaks.length > 0 ? `; breaks ${names(c, breaks)}` : '; breaks nothing'}
          {settled(c, h)}
          {h.fat_g_change !== null && Math.abs(h.fat_g_change) >= 0.5 ? `; ${signed(h.fat_g_change, 'g fat')}` : ''}
        </small>
      </button>
    </li>
  );
}

export function Swaps({ check: c, line: l }: { check: Check; line: Line }) {
  const [swapped, setSwapped] = useState<Swap | string | null>(null);
  const [wanted, setWanted] = useState(false);
  useEffect(() => {
    if (!wanted) return;
    let alive = true;
    setSwapped(null);
    swapsFor(l.line, LOOKED_AT, everyday.value).then(
      (s) => alive && setSwapped(s),
      (e: Error) => alive && setSwapped(e.message),
    );
    return () => {
      alive = false;
    };
  }, [l.line, l.text, l.food, wanted, everyday.value, everyLineRead()]);
  return (
    <Fold name="swaps" class="swaps weighty no-print" summary="What could take its place" seen={setWanted}>
      {swapped === null && wanted && <p class="hint">Trying every food of its kind.</p>}
      {typeof swapped === 'string' && <p class="hint">{swapped}</p>}
      {swapped !== null && typeof swapped !== 'string' && (
        <>
          <p class="hint">
            <Among />
            {swapped.hits.length > 0
              ? ` of equal ${swapped.equal}, ${grams(l.grams_when_fed)} now. A click puts the food into the recipe. At most two of a kind are shown.`
              : ': nothing of its kind could take its place.'}
          </p>
          <ol>
            {varied(swapped.hits, (h) => h).map((h) => (
              <HitRow key={h.food} check={c} hit={h} line={l.line} old={null} />
            ))}
          </ol>
        </>
      )}
    </Fold>
  );
}

interface Found {
  line: Line;
  hit: Hit;
}

/** Fewest new faults first, then most repaired; lines in their order. */
function ranked(found: Found[]): Found[] {
  const worth = (f: Found): number => f.hit.breaks.length * 100 - f.hit.repairs.length;
  return [...found].sort((a, b) => worth(a) - worth(b));
}

export function SwapsForNutrient({ check: c, n }: { check: Check; n: Nutrient }) {
  const [found, setFound] = useState<Found[]>([]);
  const [at, setAt] = useState(0);
  const [words, setWords] = useState('');
  const [wanted, setWanted] = useState(false);
  const lines = c.recipe.lines;
  const text = lines.map((l) => `${l.line} ${l.text} ${l.food}`).join('\n');
  useEffect(() => {
    if (!wanted) return;
    let alive = true;
    setFound([]);
    setWords('');
    const run = async (): Promise<void> => {
      const all: Found[] = [];
      for (const [i, line] of lines.entries()) {
        if (!alive) return;
        setAt(i);
        const s = await swapsFor(line.line, LOOKED_AT, everyday.value);
        if (typeof s === 'string') return setWords(s);
        for (const hit of s.hits) if (hit.repairs.some((r) => r.key === n.key)) all.push({ line, hit });
        if (alive) setFound(varied(ranked(all), (f) => f.hit));
      }
      if (alive) setAt(lines.length);
    };
    run().catch((e: Error) => alive && setWords(e.message));
    return () => {
      alive = false;
    };
  }, [n.key, text, wanted, everyday.value, everyLineRead()]);
  const done = at >= lines.length;
  return (
    <Fold name="swaps-for" class="swaps weighty no-print" summary="Which single swap would help" seen={setWanted}>
      {words !== '' && <p class="hint">{words}</p>}
      {wanted && words === '' && done && (
        <p class="hint">
          <Among /> are tried in every line’s place.
        </p>
      )}
      {wanted && words === '' && !done && (
        <p class="hint">
          Trying other foods in place of line {at + 1} of {lines.length}.
        </p>
      )}
      {done && found.length === 0 && words === '' && (
        <p class="hint">No other {everyday.value ? 'everyday food' : 'food'} of the same kind in any line’s place makes {n.said} better. Mend looks further: at amounts, and at foods that are not in the bowl.</p>
      )}
      {found.length > 0 && (
        <ol>
          {found.map((f) => (
            <HitRow key={`${f.line.line} ${f.hit.food}`} check={c} hit={f.hit} line={f.line.line} old={f.line.text} />
          ))}
        </ol>
      )}
    </Fold>
  );
}
