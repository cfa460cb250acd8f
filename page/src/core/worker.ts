/** The worker: the C core as WebAssembly, with the food library handed over. One question after the other.
 *
 * The library comes in two parts (unpack.ts). The second is fetched when a question needs it: when an answer has to do with a food
 * whose values are not here yet, that answer is thrown away and the question put again; what looks through all foods waits for it. */
import restUrl from '@core/bowlwright.rest.packed?url';
import type { Envelope } from './answers';
import { early, fetched, WAITS, WHOLE, wholeModule, type Early } from './early';
import type { Question, Request } from './question';
import { unpackNear, unpackRest } from './unpack';

interface Core {
  memory: WebAssembly.Memory;
  _initialize(): void;
  bw_alloc(n: number): number;
  bw_free(at: number): void;
  bw_open(at: number, n: number): number;
  bw_ask(at: number, n: number, request: number, requestN: number): number;
  bw_own(at: number, n: number, more: number): number;
  bw_answer(): number;
  bw_answer_bytes(): number;
}

export interface Ask {
  id: number;
  call: string;
  /** Texts and requests become (address, length); numbers go as they are. */
  args: (string | number | Request)[];
  question?: Question | 'same';
  /** A search ends as soon as its best is no more than this. */
  enough?: number;
}

/** Of a long search. 'best' is null as long as nothing is found; for mend both are numbers of lines. */
export interface Progress {
  best: number | null;
  bound: number;
}

export type Told =
  | { id: number; code: number; answer: string; ms: number }
  | { id: number; failed: string }
  | { progress: Progress }
  | { ready: true }
  | { trouble: string };

const encoder = new TextEncoder();
const decoder = new TextDecoder();

let core: Core;
let animalsAt = 0;
let lastQuestion = '';
/** The last one that was not only called the same as before. */
let questionNow: Question | null = null;
let lastOwn = '[]';
/** What the texts of own foods were read as. */
let shelf: string[] = [];

function put(bytes: Uint8Array): [number, number] {
  const at = core.bw_alloc(Math.max(1, bytes.length));
  if (at === 0) throw new Error('out of memory');
  new Uint8Array(core.memory.buffer, at, bytes.length).set(bytes);
  return [at, bytes.length];
}

/** The core writes nothing and opens nothing: whatever it asks of a system is refused. */
const noSystem = new Proxy({}, { get: () => () => 8 });

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

/** Where the image lies in the core's memory, and the foods whose values are in it; null when all are. */
let image: { at: number; bytes: number } = { at: 0, bytes: 0 };
let here: Set<string> | null = null;

function openLibrary(): void {
  if (core.bw_open(image.at, image.bytes) !== 0) throw new Error(`the food library cannot be used: ${complaint()}; reload the page`);
}

/** From the page; null when it could not be had there, and is to be tried once more. */
let given: (e: Early | null) => void = () => undefined;
const first = new Promise<Early | null>((done) => (given = done));
if (self.name !== WAITS) given(null);

const made = (module: WebAssembly.Module): Promise<WebAssembly.Instance> =>
  WebAssembly.instantiate(module, { wasi_snapshot_preview1: noSystem, page: { go_on: goOn } });

/** The core is this instance now; gives the place for the image in its memory. */
function begin(instance: WebAssembly.Instance, bytes: number): Uint8Array {
  core = instance.exports as unknown as Core;
  core._initialize();
  const at = core.bw_alloc(bytes);
  if (at === 0) throw new Error('out of memory');
  image = { at, bytes };
  return new Uint8Array(core.memory.buffer, at, bytes);
}

async function start(): Promise<void> {
  const { module, near } = (await first) ?? (await early(self.name === WHOLE ? wholeModule : undefined));
  const instance = made(module);
  const library = await unpackNear(new Uint8Array(near), async (bytes) => begin(await instance, bytes));
  here = library.here;
  openLibrary();
}

const has = (call: string): boolean => call === 'shelf' || `bw_${call}` in core;

/** For a call that the first module has not: the whole one takes its place, with the library as far as it is here. */
async function allCalls(): Promise<void> {
  const next = await made(await wholeModule());
  const old = new Uint8Array(core.memory.buffer, image.at, image.bytes);
  begin(next, image.bytes).set(old);
  openLibrary();
  animalsAt = 0;
  forget();
}

/** What the core made of own foods goes with a library, and with a core: it is asked for again. */
function forget(): void {
  lastOwn = '[]';
  lastQuestion = '';
}

let coming: Promise<void> | null = null;

/** All values of all foods. */
function whole(): Promise<void> {
  if (!here) return Promise.resolve();
  coming ??= fetched(restUrl, 'the rest of the food library')
    .then(async (r) => unpackRest(new Uint8Array(await r.arrayBuffer()), () => new Uint8Array(core.memory.buffer, image.at, image.bytes)))
    .then(() => {
      openLibrary();
      here = null;
      forget();
    });
  /* Without a network now, with one later. */
  coming.catch(() => (coming = null));
  return coming;
}

const PIN = /"((?:usda|ifct):[^"\s]+)"/g;
/** Calls that ask for names alone, and the one whose answer tells which foods it is about. */
const BY_NAME = new Set(['suggest', 'larder', 'shelf']);
const allHere = (answer: string): boolean => !here || [...answer.matchAll(PIN)].every((m) => here!.has(m[1]!));

const answered = (): string => decoder.decode(new Uint8Array(core.memory.buffer, core.bw_answer(), core.bw_answer_bytes()));

const complaint = (): string => (JSON.parse(answered()) as Envelope<unknown>).complaints.map((c) => c.message).join(' ');

/** One wish a line; a flag stands alone. */
const lines = (r: Request): string =>
  Object.entries(r)
    .filter(([, v]) => v !== undefined && v !== false)
    .map(([key, v]) => (v === true ? key : `${key}=${v}`))
    .join('\n');

/** The core copies what it needs of a label. */
function setOwn(texts: string[]): void {
  const written = JSON.stringify(texts);
  if (written === lastOwn) return;
  lastOwn = written;
  shelf = (texts.length > 0 ? texts : ['']).map((text, i) => {
    const [at, n] = put(encoder.encode(text));
    core.bw_own(at, n, i > 0 ? 1 : 0);
    core.bw_free(at);
    return answered();
  });
  if (texts.length === 0) shelf = [];
}

function set(q: Question | 'same'): void {
  if (q === 'same' && lastQuestion !== '') return;
  if (q !== 'same') questionNow = q;
  if (questionNow) tellCore(questionNow);
}

function tellCore(q: Question): void {
  setOwn(q.own);
  const written = JSON.stringify(q);
  if (written === lastQuestion) return;
  if (animalsAt) core.bw_free(animalsAt);
  const [at, n] = put(encoder.encode(q.animals));
  animalsAt = at;
  const request = put(encoder.encode(lines(q.asked)));
  const code = core.bw_ask(at, n, ...request);
  core.bw_free(request[0]);
  if (code !== 0) throw new Error(complaint());
  lastQuestion = written;
}

function answer(ask: Ask): Told {
  const began = performance.now();
  searching = began;
  enough = ask.enough ?? -Infinity;
  if (ask.question) set(ask.question);
  if (ask.call === 'shelf') return { id: ask.id, code: 0, answer: `[${shelf.join(',')}]`, ms: performance.now() - began };
  const given: number[] = [];
  const args = ask.args.flatMap((a) => {
    if (typeof a === 'number') return [a];
    const [at, n] = put(encoder.encode(typeof a === 'string' ? a : lines(a)));
    given.push(at);
    return [at, n];
  });
  const call = (core as unknown as Record<string, (...args: number[]) => number>)[`bw_${ask.call}`];
  if (!call) throw new Error(`no call ${ask.call}`);
  const code = call(...args);
  const text = answered();
  for (const at of given) core.bw_free(at);
  return { id: ask.id, code, answer: text, ms: performance.now() - began };
}

const tell = (told: Told): void => self.postMessage(told);
const started = start().then(
  () => tell({ ready: true }),
  (e: unknown) => tell({ trouble: e instanceof Error ? e.message : String(e) }),
);

self.onmessage = async (event: MessageEvent<Ask | { early: Early | null }>) => {
  if ('early' in event.data) return given(event.data.early);
  const ask = event.data;
  await started;
  try {
    if (!has(ask.call)) await allCalls();
    if (!BY_NAME.has(ask.call) && ask.call !== 'page') await whole();
    let told = answer(ask);
    if (ask.call === 'page' && 'answer' in told && !allHere(told.answer)) {
      await whole();
      told = answer(ask);
    }
    tell(told);
  } catch (e) {
    tell({ id: ask.id, failed: e instanceof Error ? e.message : String(e) });
  }
};
