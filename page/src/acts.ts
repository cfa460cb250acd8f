/** Acts that take a while: mend and compose. They run in a core of their own, so that writing never waits, and can be stopped. */
import { act, actCore, mendWith, stop, type Way } from './acting';
import type { Compose, Mend, SheetPage, Swap } from './core/answers';
import { Overtaken } from './core/client';
import { check, open, question, recipe, tell, texts } from './state';
import { addText, keepAsItIs, showText, write } from './texts';
import { complaintsInWords, lineAt, titleOf, withLine } from './writing/text';
import { replaceInField } from './writing/field-edit';
import type { Request } from './core/question';
import type { Ask, Progress } from './core/worker';
import { hunksOf, withTaken } from './writing/changes';

interface Search {
  words: string;
  call: string;
  args: Ask['args'];
  /** Given when this is such a second search. */
  enough: number | undefined;
  /** Searches again, up to a best that is known to be reached. */
  again: (enough: number) => void;
}

/* Nothing reaches a core in the middle of a search, and an ended worker hands nothing over. But a search goes the same way
 * every time: what it had found is found again, in the time that it took until then. */
const taking = (s: Search, found: Progress): (() => void) | null => {
  const best = found.best;
  return best === null || s.enough !== undefined ? null : () => (stop(), s.again(best));
};

async function run<T>(s: Search): Promise<T | null> {
  const since = Date.now();
  act.value = { kind: 'working', words: s.words, since, found: null, take: null };
  /* Of this act: another may have begun meanwhile. */
  const mine = (): boolean => act.value.kind === 'working' && act.value.since === since;
  actCore().onProgress = (found) => {
    if (mine()) act.value = { kind: 'working', words: s.words, since, found, take: taking(s, found) };
  };
  try {
    const { answer, complaints } = await actCore().tell<T>('act', s.call, s.args, question(), s.enough);
    if (!mine()) return null;
    if (answer) return answer;
    act.value = { kind: 'said', words: complaintsInWords(complaints) || 'This cannot be asked yet.' };
  } catch (e) {
    if (mine()) act.value = { kind: 'said', words: e instanceof Error ? e.message : String(e) };
  }
  return null;
}

function whyOf(old: string, w: Way): Map<string, string[]> {
  const why = new Map<string, string[]>();
  for (const a of w.added) if (a.text) why.set(a.text, a.repairs);
  const lines = old.split('\n');
  for (const c of w.change) why.set(lines[c.line - 1] ?? '', c.repairs);
  return why;
}

function propose(id: string, old: string, ways: Way[], complete: boolean, stopped: boolean, notCounted: string): void {
  const first = ways[0];
  if (first) act.value = { kind: 'proposal', id, old, ways, way: 0, hunks: hunksOf(old, first.text ?? old), why: whyOf(old, first), complete, stopped, notCounted };
}

/** Shows another of the ways; what was refused of the one before is not asked of it. */
export function takeWay(way: number): void {
  const a = act.value;
  const w = a.kind === 'proposal' ? a.ways[way] : undefined;
  if (a.kind === 'proposal' && w) act.value = { ...a, way, hunks: hunksOf(a.old, w.text ?? a.old), why: whyOf(a.old, w) };
}

const TAKING = 'Taking what was found';

export async function mend(r = recipe.value, allowed = mendWith.value, enough?: number): Promise<void> {
  if (!r) return;
  const larder = texts.value.find((t) => t.kind === 'larder' && t.id === allowed);
  const m = await run<Mend>({
    words: enough === undefined ? 'Looking for the smallest change that meets every need' : TAKING,
    call: 'mend',
    args: [r.body, larder?.body ?? '', { 'no-supplements': allowed === 'foods' }],
    enough,
    again: (best) => void mend(r, allowed, best),
  });
  if (m === null) return;
  const dangers = m.left_out.map((l) => `Do not feed “${(l.from ?? '').replace(/^\s*\?\s*/, '')}”. ${l.advice ?? ''}`);
  const notCounted = [...dangers, m.plate_words ?? '', m.not_counted ?? ''].filter((words) => words !== '').join(' ');
  if (m.already_met && m.scaled === null && m.plate.length === 0 && dangers.length === 0) act.value = { kind: 'said', words: 'Every need is met as it is.' };
  else if (m.status === 'found' && m.proposals?.some((w) => w.text))
    propose(r.id, r.body, m.proposals.filter((w) => w.text), true, m.stopped ?? false, notCounted);
  else if (m.status === 'stopped') act.value = { kind: 'said', words: 'The search was ended before anything was found.' };
  else if (m.status === 'refused') act.value = { kind: 'said', words: 'No formula is given for this animal.' };
  else {
    const nearest = m.nearest;
    act.value = {
      kind: 'impossible',
      words: m.conflict ?? [],
      help: m.would_help ?? [],
      nearest: nearest?.text ? () => propose(r.id, r.body, [nearest], false, false, notCounted) : null,
    };
  }
}

/** What somebody who knows the trade would answer the owner of this recipe; null when it cannot be written yet. */
export async function replyTo(r = recipe.value, asked: Request = {}): Promise<string | null> {
  if (!r) return null;
  const answer = await run<{ text: string }>({ words: 'Writing a reply', call: 'reply', args: [r.body, asked], enough: -Infinity, again: () => undefined });
  if (answer === null) return null;
  act.value = { kind: 'none' };
  return answer.text;
}

export interface SheetWish {
  paper: 'a4' | 'letter';
  units: 'metric' | 'us';
  /** 0: as the recipe says. */
  days: number;
  meals: number;
  large: boolean;
  /** Id of the larder that prices are taken from, or ''. */
  larder: string;
}

/** The recipe as a sheet for the kitchen wall; words where it cannot be written; null when another was asked for meanwhile. */
export async function sheetOf(body: string, { larder, days, meals, ...wish }: SheetWish): Promise<SheetPage | string | null> {
  const prices = texts.value.find((t) => t.kind === 'larder' && t.id === larder)?.body ?? '';
  const asked = { ...wish, ...(days > 0 ? { days } : {}), ...(meals > 0 ? { meals } : {}) };
  try {
    const { answer, complaints } = await actCore().tell<SheetPage>('sheet', 'sheet', [body, prices, asked], question());
    return answer ?? (complaintsInWords(complaints) || 'The sheet can be written as soon as every line of the recipe is understood.');
  } catch (e) {
    if (e instanceof Overtaken) return null;
    return e instanceof Error ? e.message : String(e);
  }
}

export function toggle(hunk: number): void {
  const a = act.value;
  if (a.kind !== 'proposal') return;
  act.value = { ...a, hunks: a.hunks.map((h, i) => (i === hunk ? { ...h, taken: !h.taken } : h)) };
}

export function keep(): void {
  const a = act.value;
  if (a.kind !== 'proposal') return;
  const now = texts.value.find((t) => t.id === a.id);
  const text = withTaken(a.old, a.hunks);
  act.value = { kind: 'none' };
  if (now?.body === a.old) write(a.id, text, true);
  else {
    void addText('recipe', text);
    tell({ id: 'mended', words: 'The recipe was changed meanwhile; the proposal has become a text of its own.' });
  }
}

export async function compose(larder: string, enough?: number): Promise<void> {
  const c = await run<Compose>({
    words: enough === undefined ? 'Composing' : TAKING,
    call: 'compose',
    args: [larder],
    enough,
    again: (best) => void compose(larder, best),
  });
  if (c === null) return;
  if (c.text && (c.status === 'found' || c.status === 'stopped')) {
    act.value = { kind: 'none' };
    await addText('recipe', c.text);
    window.scrollTo(0, 0);
    const stopped = c.status === 'stopped' ? '; the search was ended before a better one was ruled out' : '';
    const unknown = c.energy_unknown.join(' and ');
    const sparing = unknown ? ` How much energy is in ${unknown} is not known, so little or none of it is used.` : '';
    tell({ id: 'composed', words: `${titleOf('recipe', c.text)} is a new recipe now${stopped}.${sparing}` });
  } else if (c.refused) act.value = { kind: 'said', words: c.refused };
  else if (c.because && !c.nearest && c.energy_unknown.length > 0) act.value = { kind: 'said', words: c.because };
  else {
    const nearest = c.nearest?.text;
    act.value = {
      kind: 'impossible',
      words: c.because ? [c.because] : c.conflict,
      help: c.would_help,
      nearest: nearest ? () => ((act.value = { kind: 'none' }), void addText('recipe', nearest)) : null,
    };
  }
}

// ---- swaps ------------------------------------------------------------------------------------------------------------

export type Hit = Swap['hits'][number];

/** Foods for the place of one line, best first; words when they cannot be ranked. */
export async function swapsFor(line: number, most: number, everyday: boolean): Promise<Swap | string> {
  const r = recipe.value;
  if (!r) return '';
  try {
    const { answer } = await actCore().tell<Swap>(`swap ${line}`, 'swap', [r.body, { line, most, everyday }], question());
    if (answer) return answer;
    return 'Foods can be ranked as soon as every line of the recipe is understood.';
  } catch (e) {
    if (e instanceof Overtaken) return 'Stopped.';
    throw e;
  }
}

/** Puts another text in a line's place, as if typed: the browser's own undo takes it back, and so does the note. */
export function putLine(line: number, text: string): void {
  const r = recipe.value;
  if (!r) return;
  const old = lineAt(r.body, line);
  const shown = check.value?.recipe.lines.find((l) => l.line === line)?.text ?? '';
  const now = withLine(old, shown, text);
  const replaced = (from: string, to: string): boolean => {
    const body = texts.value.find((t) => t.id === r.id)?.body ?? '';
    if (lineAt(body, line) !== from) return false;
    const start = body.split('\n').slice(0, line - 1).join('\n').length + (line > 1 ? 1 : 0);
    keepAsItIs(r.id);
    if (open.value?.id !== r.id) showText(r.id);
    if (!replaceInField(r.id, start, start + from.length, to)) write(r.id, body.slice(0, start) + to + body.slice(start + from.length), true);
    return true;
  };
  if (!replaced(old, now)) return;
  tell({
    id: 'swapped',
    words: `“${now.trim()}” has taken the place of “${old.trim()}”.`,
    acts: [
      {
        words: 'Take it back',
        act: () =>
          tell({
            id: 'swapped',
            words: replaced(now, old) ? `“${old.trim()}” is back.` : 'The line was changed since; an earlier version has it as it was.',
          }),
      },
    ],
  });
}
