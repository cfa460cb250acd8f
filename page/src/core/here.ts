/** A core on the page's own thread: it says what the lines of a text are and writes figures in words, at once, while somebody types. As soon as
 * the worker has lent it the food library, it reads the open recipe at once as well, so that a letter and its figures are one frame; what takes
 * longer is asked of the worker. */
import { signal } from '@preact/signals';
import type { Envelope, PageAnswer, TextLines } from './answers';
import { allHere, Calls, made } from './calls';
import type { Question } from './question';
import type { Lent } from './worker';
import type { Kind } from '../store/store';

let core: Calls | null = null;

/** What is drawn before it is there is drawn again. */
export const hereReady = signal(false);

export async function openHere(module: WebAssembly.Module): Promise<void> {
  if (core) return;
  core = new Calls(await made(module, () => 0));
  hereReady.value = true;
}

const answer = <T>(told: string): T | null => (JSON.parse(told) as Envelope<T>).answer;

// ---- the recipe, at once ----------------------------------------------------------------------------------------------

/** The foods whose values were lent; null: of all. */
let lent: Lent['here'] = new Set();
let reads = false;

export function take(l: Lent): void {
  if (!core) return;
  reads = false;
  try {
    core.room(l.library.byteLength).set(new Uint8Array(l.library));
    core.open();
    lent = l.here;
    reads = true;
  } catch {
    /* no memory for a second one: the worker goes on answering */
  }
}

/** A text that takes longer than this to read is read by the worker from then on, as is any longer one. */
const AT_ONCE_MS = 16;
/** Now and then may be chance: the machine has other things to do as well. */
const TOO_OFTEN = 5;
let tooLong = Infinity;
let slow = 0;

/** The figures of a recipe; null when the worker has to be asked for them. */
export function readHere(recipe: string, eaten: number, q: Question): Envelope<PageAnswer> | null {
  if (!core || !reads || recipe.length >= tooLong) return null;
  const began = performance.now();
  try {
    core.tell(q);
  } catch {
    return null; /* the worker says what is wrong with it */
  }
  const told = core.call('page', [recipe, { eaten, 'numbers-only': true }]).answer;
  slow = performance.now() - began > AT_ONCE_MS ? slow + 1 : 0;
  if (slow >= TOO_OFTEN) tooLong = recipe.length;
  return allHere(told, lent) ? (JSON.parse(told) as Envelope<PageAnswer>) : null;
}

// ---- lines and words --------------------------------------------------------------------------------------------------

/** The last ones are kept: most texts stay as they are while one of them is written. */
function remembering<T>(most: number, make: (key: string) => T): (key: string) => T {
  const kept = new Map<string, T>();
  return (key) => {
    const there = kept.get(key);
    if (there !== undefined) return there;
    const made = make(key);
    if (kept.size >= most) kept.delete(kept.keys().next().value as string);
    kept.set(key, made);
    return made;
  };
}

/** Plans and journals have lines of their own (src/plan, src/journal), which the core for days reads. */
const ofDays = (kind: Kind): boolean => kind === 'plan' || kind === 'journal';

const read = remembering(200, (key): TextLines => {
  const at = key.indexOf(' ');
  const body = key.slice(at + 1);
  return answer<TextLines>(core!.call('lines', [body, key.slice(0, at)]).answer) ?? plain(body);
});

/** Until the core is there: lines of which nothing is known. */
const plain = (body: string): TextLines => ({
  title: null,
  for_whom: null,
  names: [],
  begun: true,
  lines: body.split('\n').map((l) => ({
    kind: 'food',
    header: null,
    value: null,
    key_column: null,
    key_width: null,
    pin_column: null,
    pin_width: null,
    remark_column: null,
    end_column: [...l].length + 1,
    ask: null,
  })),
});

/** What the lines of a text are. */
export function textLines(kind: Kind, body: string): TextLines {
  if (ofDays(kind)) return { ...plain(body), title: /^[ \t]*Plan:[ \t]*(\S.*)$/m.exec(body)?.[1]?.trim() ?? null };
  return hereReady.value && core ? read(`${kind} ${body}`) : plain(body);
}

/* The few ways to say a figure stay in the core's memory; lists do not, for they are many. */
const ways = new Map<string, [number, number]>();

function wayAt(c: Calls, how: string): [number, number] {
  let at = ways.get(how);
  if (!at) ways.set(how, (at = c.text(how)));
  return at;
}

const said = remembering(4000, (key): string => {
  const c = core!;
  const at = key.indexOf('|');
  const how = key.slice(at + 1);
  const x = Number(key.slice(0, at));
  const { answer: told } = how.startsWith('list ') ? c.call('say', [how, x]) : c.call('say', [...wayAt(c, how), x]);
  return answer<string>(told) ?? '';
});

/** A figure in words, by src/words: 'how' as bw_say has it (src/wasm/reactor.c). '' until the core is there. */
export function say(how: string, x = NaN): string {
  return hereReady.value && core ? said(`${x}|${how}`) : '';
}
