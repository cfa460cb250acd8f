/** What mend and compose have to say, and a proposal shown in the text. */
import { computed } from '@preact/signals';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Progress } from '../core/worker';
import { act, mendWith, stop } from '../acting';
import { compose, keep, mend, takeWay, toggle } from '../acts';
import { beside, check, dismiss, open, openKind, ready, said, tell, texts } from '../state';
import { step } from '../texts';
import { putCaret } from './field-edit';
import { Reply, ReplyButton } from './Reply';
import { SheetButton } from './SheetView';
import { figure, list } from '../words';
import { Pinned } from '../reasons/Swaps';
import { middle, rowsOf } from './changes';
import { nameOf } from './text';

export function Acts() {
  const kind = openKind.value;
  const a = act.value;
  const place = useRef<HTMLDivElement>(null);
  const arrived = useRef<HTMLDivElement>(null);
  /* Reasons are longer than the button that stood there. */
  useEffect(() => {
    if (a.kind === 'impossible') {
      place.current?.scrollIntoView({ block: 'nearest' });
      if (document.activeElement === document.body) arrived.current?.focus({ preventScroll: true });
    }
  }, [a.kind]);
  if (!kind) return null;
  if (a.kind === 'working') return <Working {...a} lines={kind === 'recipe'} />;
  /* What was said is answered by a change of the text, and then by asking again. */
  const ask = a.kind === 'none' || a.kind === 'said';
  return (
    <div class="acts no-print" ref={place}>
      {ask && kind === 'recipe' && (
        <p class="ask">
          <button type="button" class="deed" disabled={!ready.value} onClick={() => void mend()}>
            Mend it
          </button>
          <MendWith />
          <ReplyButton />
          <SheetButton />
        </p>
      )}
      {ask && kind === 'larder' && (
        <button type="button" class="deed" disabled={!ready.value} onClick={() => void compose(open.peek()?.body ?? '')}>
          Compose a bowl
        </button>
      )}
      {kind === 'recipe' && <Reply />}
      {a.kind === 'said' && (
        <p role="status">
          {a.words}{' '}
          <button type="button" class="quiet" onClick={stop}>
            close
          </button>
        </p>
      )}
      {a.kind === 'impossible' && (
        <div class="impossible" role="status" tabIndex={-1} ref={arrived}>
          <p>
            <b>It cannot be done within these limits.</b> They cannot all be kept:
          </p>
          <ul>
            {a.words.map((w) => (
              <li>{w}</li>
            ))}
          </ul>
          {a.help.length > 0 && (
            <>
              <p>What would help most:</p>
              <ul>
                {a.help.slice(0, 5).map((h) => (
                  <li>
                    {h.name}
                    {h.grams_per_day !== null ? `, ${figure(h.grams_per_day)} g a day` : ''}
                    {h.enough ? ' would be enough' : ' would help, not enough alone'}
                  </li>
                ))}
              </ul>
            </>
          )}
          <p>
            {a.nearest && (
              <button type="button" class="deed" onClick={a.nearest}>
                Show the nearest
              </button>
            )}{' '}
            <button type="button" class="quiet beside-deed" onClick={stop}>
              leave it
            </button>
          </p>
        </div>
      )}
    </div>
  );
}

const larderTitles = computed(() => JSON.stringify(texts.value.filter((t) => t.kind === 'larder').map((t) => ({ id: t.id, title: nameOf(t) }))));
const lardersHere = computed(() => JSON.parse(larderTitles.value) as { id: string; title: string }[]);

function MendWith() {
  const larders = lardersHere.value;
  const value = larders.some((t) => t.id === mendWith.value) || mendWith.value === 'foods' ? mendWith.value : '';
  return (
    <label class="as-text with">
      with{' '}
      <select aria-label="Mend with" value={value} onChange={(e) => (mendWith.value = e.currentTarget.value)}>
        <option value="">any food</option>
        <option value="foods">foods, no supplements</option>
        {larders.map((t) => (
          <option value={t.id}>{t.title} first</option>
        ))}
      </select>
    </label>
  );
}

/** "A change of 9 lines is found; fewer than 6 do not suffice." */
function soFar(found: Progress | null, lines: boolean): string {
  if (!found || found.best === null) return '';
  if (!lines) return 'A bowl is found; looking for a better one.';
  const least = Math.max(1, Math.ceil(found.bound - 1e-6));
  const best = Math.round(found.best);
  return `A change of ${best} ${best === 1 ? 'line' : 'lines'} is found; ${least < best ? `fewer than ${least}` : 'fewer'} do not suffice.`;
}

/** The eye goes where something new stands, and so does the keyboard. Not when the person is at something else meanwhile. */
function useArrival<T extends HTMLElement>(): preact.RefObject<T> {
  const place = useRef<T>(null);
  useEffect(() => {
    const now = document.activeElement;
    if (now === null || now === document.body || !now.isConnected) place.current?.focus({ preventScroll: true });
  }, []);
  return place;
}

function Working(p: { words: string; since: number; found: Progress | null; take: (() => void) | null; lines: boolean }) {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    const t = setInterval(() => setSeconds(Math.floor((Date.now() - p.since) / 1000)), 500);
    return () => clearInterval(t);
  }, [p.since]);
  const stopper = useArrival<HTMLButtonElement>();
  return (
    <div class="acts working">
      <p role="status">
        <span class="moving" aria-hidden="true" /> {p.words}. {soFar(p.found, p.lines)}
      </p>
      <p>
        {seconds > 1 && <span class="seconds">{seconds} s </span>}
        {p.take && (
          <button type="button" class="deed" onClick={p.take}>
            Take it
          </button>
        )}{' '}
        <button type="button" class="deed" ref={stopper} onClick={stop}>
          Stop
        </button>
      </p>
    </div>
  );
}

/** What the proposal comes to, in figures that the core gave for both bowls. */
function inFigures(): string {
  const [was, is] = [beside.value?.energy, check.value?.energy];
  if (!was || !is) return '';
  const moved = (a: string, b: string, unit: string): string => (a === b ? `${b} ${unit} as before` : `${a} → ${b} ${unit}`);
  const kcal = (e: typeof was): string => `${e.supply_in_part ? 'at least ' : ''}${figure(e.supply_kcal)}`;
  return `${moved(figure(was.grams_per_day), figure(is.grams_per_day), 'g a day')}, ${moved(kcal(was), kcal(is), 'kcal')}`;
}

const WAYS = { both: 'foods and supplements', foods: 'foods alone', supplements: 'supplements alone' } as const;

const changesOf = (n: number): string => (n === 1 ? 'One change' : `${n} changes`);

/** Kept, said, and a way back; the caret goes where the text is different now. */
function keepIt(): void {
  const a = act.value;
  if (a.kind !== 'proposal') return;
  const taken = a.hunks.filter((h) => h.taken);
  const figures = inFigures();
  const first = a.old.split('\n').slice(0, taken[0]?.at ?? 0).join('\n').length + 1;
  keep();
  const words = `${changesOf(taken.length)} kept${figures ? `: ${figures}` : ''}.`;
  said.value = words;
  tell({
    id: 'kept',
    words,
    acts: [
      { words: 'print', act: () => window.print() },
      {
        words: 'Take it back',
        act: () => {
          dismiss('kept');
          const back = step(a.id, 'undo');
          tell({ id: 'kept', words: back ? 'The text is as it was.' : 'The text was changed since; an earlier version has it as it was.' });
        },
      },
    ],
  });
  if (!window.matchMedia('(pointer: coarse)').matches) putCaret(a.id, first);
}

function leaveIt(): void {
  const a = act.value;
  stop();
  said.value = 'The text is as it was.';
  if (a.kind === 'proposal' && !window.matchMedia('(pointer: coarse)').matches) putCaret(a.id, 0);
}

export function Proposal() {
  const a = act.value;
  const head = useArrival<HTMLParagraphElement>();
  const seen = a.kind === 'proposal' ? a.hunks.length : 0;
  useEffect(() => {
    if (seen > 0) said.value = `A change is proposed: ${changesOf(seen)}.`;
  }, [seen]);
  if (a.kind !== 'proposal') return null;
  const names = new Map((check.value?.nutrients ?? []).map((n) => [n.key, n.said]));
  const taken = a.hunks.filter((h) => h.taken).length;
  const figures = inFigures();
  const way = a.ways[a.way];
  return (
    <div class="proposal">
      {a.ways.length > 1 && (
        <p class="ways no-print" role="radiogroup" aria-label="Mend with">
          {a.ways.map((w, i) => (
            <label>
              <input type="radio" name="way" checked={i === a.way} onChange={() => takeWay(i)} /> {WAYS[w.with ?? 'both']}
            </label>
          ))}
        </p>
      )}
      <p class="sum-up" tabIndex={-1} ref={head}>
        {taken === a.hunks.length ? changesOf(taken) : `${taken} of ${a.hunks.length} changes`}
        {figures !== '' && `: ${figures}`}.{a.complete ? '' : ' This comes nearest; not everything is met.'}
        {way?.partial ? ' These are the first steps; things stay open.' : ''}
        {a.stopped ? ' The search was ended before it was over: a smaller change may exist.' : ''}
      </p>
      {a.notCounted !== '' && <p class="hint">{a.notCounted}</p>}
      {way?.summary && taken === a.hunks.length && <p class="hint">{way.summary}</p>}
      {way && way.asks.length > 0 && (
        <ul class="asks" aria-label="What it asks of you">
          {way.asks.map((ask) => (
            <li>{ask}</li>
          ))}
        </ul>
      )}
      <ol class="changes" aria-label="The proposal, in the text">
        {rowsOf(a.old, a.hunks).map((row) => {
          if ('line' in row) return <li class="same">{row.line || '\u200b'}</li>;
          const h = a.hunks[row.hunk]!;
          const [old, now] = [h.gone[0], h.come[0]];
          const why = a.why.get(now ?? '') ?? a.why.get(old ?? '') ?? [];
          return (
            <li class={h.taken ? 'hunk' : 'hunk left'}>
              <span class="words">
                <Change old={old} now={now} />
              </span>
              <button type="button" class="quiet no-print" aria-pressed={!h.taken} onClick={() => toggle(row.hunk)}>
                {h.taken ? 'refuse' : 'accept'}
                <span class="unseen"> {now ?? old}</span>
              </button>
              {why.length > 0 && <small>for {list(why.slice(0, 5).map((k) => names.get(k) ?? k).concat(why.length > 5 ? [`${why.length - 5} more`] : []))}</small>}
            </li>
          );
        })}
      </ol>
      <p class="acts no-print">
        <button type="button" class="deed strong" disabled={taken === 0} onClick={keepIt}>
          Keep {taken === a.hunks.length ? 'these changes' : `${taken} of ${a.hunks.length} changes`}
        </button>{' '}
        <button type="button" class="deed" onClick={leaveIt}>
          Leave it as it was
        </button>
      </p>
      <p class="hint">The rails show the bowl with the changes you accept; the open diamonds are the bowl as it was.</p>
    </div>
  );
}

function Change({ old, now }: { old: string | undefined; now: string | undefined }) {
  if (old === undefined)
    return (
      <ins>
        <Pinned text={now ?? ''} />
      </ins>
    );
  if (now === undefined) return <del>{old}</del>;
  const [start, gone, come, end] = middle(old, now);
  return (
    <>
      {start}
      {gone.trim() !== '' && <del>{gone}</del>} {come.trim() !== '' && <ins>{come}</ins>}
      {end}
    </>
  );
}
