/** The worker: the C core as WebAssembly, with the food library handed over. One question after the other.
 *
 * The library comes in two parts (unpack.ts). The second is fetched when a question needs it: when an answer has to do with a food
 * whose values are not here yet, that answer is thrown away and the question put again; what looks through all foods waits for it. */
import restUrl from '@core/bowlwright.rest.packed?url';
import { allHere, Calls, made, type Argument } from './calls';
import { early, fetched, WAITS, WHOLE, wholeModule, type Early } from './early';
import type { Question } from './question';
import { unpackNear, unpackRest } from './unpack';

/** A long text, such as a journal of years; null: the one that was sent last, with 'more' behind it. */
export interface Long {
  long: string | null;
  more?: string;
}
export const isLong = (a: Argument | Long): a is Long => typeof a === 'object' && 'long' in a;

export interface Ask {
  id: number;
  call: string;
  args: (Argument | Long)[];
  question?: Question | 'same';
  /** A search ends as soon as its best is no more than this. */
  enough?: number;
}

/** Of a long search. 'best' is null as long as nothing is found; for mend both are numbers of lines. */
export interface Progress {
  best: number | null;
  bound: number;
}

/** A copy of the library, for the page's own core, and the foods whose values are in it; null: all. */
export interface Lent {
  library: ArrayBuffer;
  here: Set<string> | null;
}

export type Told =
  | { id: number; code: number; answer: string; ms: number }
  | { id: number; failed: string }
  | { progress: Progress }
  | { ready: true }
  | { lent: Lent }
  | { trouble: string };

let core: Calls;
let longSent = new Uint8Array();
const encoder = new TextEncoder();

function inFull(a: Argument | Long): Argument {
  if (!isLong(a)) return a;
  if (a.long !== null) longSent = encoder.encode(a.long);
  else if (a.more) {
    const more = encoder.encode(a.more);
    const both = new Uint8Array(longSent.length + more.length);
    both.set(longSent);
    both.set(more, longSent.length);
    longSent = both;
  }
  return longSent;
}
/** The last one that was not only called the same as before. */
let questionNow: Question | null = null;

/** After this a search ends with the best that it has found. */
const PATIENCE_MS = 45_000;
const TELL_EVERY_MS = 200;
let searching = 0;
let toldAt = 0;
let enough = -Infinity;

function goOn(best: number, bound: number): number {
  const now = performance.now();
  if (now - toldAt > TELL_EVERY_MS) {
    toldAt = now;
    self.postMessage({ progress: { best: Number.isFinite(best) ? best : null, bound } } satisfies Told);
  }
  return best <= enough || now - searching >= PATIENCE_MS ? 0 : 1;
}

/** The foods whose values are in the library; null when all are. */
let here: Set<string> | null = null;

/** From the page; null when it could not be had there, and is to be tried once more. */
let given: (e: Early | null) => void = () => undefined;
const first = new Promise<Early | null>((done) => (given = done));
if (self.name !== WAITS) given(null);

async function start(): Promise<void> {
  const { module, near } = (await first) ?? (await early(self.name === WHOLE ? wholeModule : undefined));
  const instance = made(module, goOn);
  const library = await unpackNear(new Uint8Array(near), async (bytes) => {
    core = new Calls(await instance);
    return core.room(bytes);
  });
  here = library.here;
  core.open();
}

/** For a call that the first module has not: the whole one takes its place, with the library as far as it is here. */
async function allCalls(): Promise<void> {
  const next = new Calls(await made(await wholeModule(), goOn));
  const old = core.library();
  next.room(old.length).set(old);
  core = next;
  core.open();
}

/** The page wants to have the library as well, now and when more of it is here. */
let lends = false;

function lend(): void {
  if (!lends) return;
  const library = core.library().slice().buffer;
  self.postMessage({ lent: { library, here } } satisfies Told, { transfer: [library] });
}

/** Asked for at once by a worker whose calls all need it. */
let rest: Promise<Response> | null = null;
function askRest(): Promise<Response> {
  rest ??= fetched(restUrl, 'the rest of the food library');
  rest.catch(() => (rest = null));
  return rest;
}

let coming: Promise<void> | null = null;

/** All values of all foods. */
function whole(): Promise<void> {
  if (!here) return Promise.resolve();
  coming ??= askRest()
    .then(async (r) => unpackRest(new Uint8Array(await r.arrayBuffer()), () => core.library()))
    .then(() => {
      core.open();
      here = null;
      lend();
    });
  /* Without a network now, with one later. */
  coming.catch(() => (coming = rest = null));
  return coming;
}

/** Calls that ask for names alone or for no food at all, and the one whose answer tells which foods it is about. */
const BY_NAME = new Set(['suggest', 'larder', 'shelf', 'journal', 'entry']);

/** A call that only the whole module has. */
const WHOLE_ONLY = 'check';
/** A note, a title or a remark that may tell of an illness; whether it does is heard by what reads posts. */
const MAY_BE_ILL =
  /^[ \t]*(#|notes?:|recipe:|status:).*(kidney|renal|ckd|liver|hepat|heart|cardi|pancrea|diabet|thyroid|bladder|cancer|tumou?r|disease|stage|ill|sick|well|poorly|blood|gums|pee|eat|breath|collaps|seiz|fit|pregnan|due|milk|nursing|lactat|pup|kitten|growing|mg|takes|\bon\b)/im;
/** Only the whole module reads what somebody posted, and what notes say of an animal. */
const isPosted = (args: Argument[]): boolean =>
  args.some(
    (a) =>
      (typeof a === 'string' && MAY_BE_ILL.test(a)) ||
      (typeof a === 'object' && !(a instanceof Uint8Array) && a['posted'] === true),
  );

function answer(ask: Ask, args: Argument[]): Told {
  const began = performance.now();
  searching = began;
  enough = ask.enough ?? -Infinity;
  if (ask.question && ask.question !== 'same') questionNow = ask.question;
  if (ask.question && questionNow) core.tell(questionNow);
  const told = ask.call === 'shelf' ? { code: 0, answer: `[${core.shelf.join(',')}]` } : core.call(ask.call, args);
  return { id: ask.id, ...told, ms: performance.now() - began };
}

const tell = (told: Told): void => self.postMessage(told);
if (self.name === WHOLE) askRest().catch(() => undefined);
const started = start().then(
  () => tell({ ready: true }),
  (e: unknown) => tell({ trouble: e instanceof Error ? e.message : String(e) }),
);

if (self.name === WHOLE) void started.then(whole).catch(() => undefined);

self.onmessage = async (event: MessageEvent<Ask | { early: Early | null } | { lend: true }>) => {
  if ('early' in event.data) return given(event.data.early);
  const ask = event.data;
  const args = 'lend' in ask ? [] : ask.args.map(inFull);
  await started;
  if ('lend' in ask) {
    lends = true;
    return lend();
  }
  try {
    if (ask.call !== 'shelf' && !(core.has(ask.call) && (core.has(WHOLE_ONLY) || !isPosted(args)))) await allCalls();
    if (!BY_NAME.has(ask.call) && ask.call !== 'page') await whole();
    let told = answer(ask, args);
    if (ask.call === 'page' && 'answer' in told && !allHere(told.answer, here)) {
      await whole();
      told = answer(ask, args);
    }
    tell(told);
  } catch (e) {
    tell({ id: ask.id, failed: e instanceof Error ? e.message : String(e) });
  }
};
