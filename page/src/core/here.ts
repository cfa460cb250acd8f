/** A core on the page's own thread, without a library: it says what the lines of a text are and writes figures in words, at once, while
 * somebody types. Everything else is asked of the worker. */
import { signal } from '@preact/signals';
import type { Envelope, TextLines } from './answers';
import type { Kind } from '../store/store';

interface Exports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  bw_alloc(n: number): number;
  bw_free(at: number): void;
  bw_lines(text: number, n: number, kind: number, kindN: number): number;
  bw_say(how: number, n: number, x: number): number;
  bw_answer(): number;
  bw_answer_bytes(): number;
}

const encoder = new TextEncoder();
const decoder = new TextDecoder();
let core: Exports | null = null;

/** What is drawn before it is there is drawn again. */
export const hereReady = signal(false);

export async function openHere(module: WebAssembly.Module): Promise<void> {
  if (core) return;
  const noSystem = new Proxy({}, { get: () => () => 8 });
  const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: noSystem, page: { go_on: () => 0 } });
  core = instance.exports as unknown as Exports;
  core._initialize();
  hereReady.value = true;
}

function put(c: Exports, text: string): [number, number] {
  const bytes = encoder.encode(text);
  const at = c.bw_alloc(Math.max(1, bytes.length));
  if (at === 0) throw new Error('out of memory');
  new Uint8Array(c.memory.buffer, at, bytes.length).set(bytes);
  return [at, bytes.length];
}

function answer<T>(c: Exports): T | null {
  return (JSON.parse(decoder.decode(new Uint8Array(c.memory.buffer, c.bw_answer(), c.bw_answer_bytes()))) as Envelope<T>).answer;
}

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
  const c = core!;
  const at = key.indexOf(' ');
  const text = put(c, key.slice(at + 1));
  const kind = put(c, key.slice(0, at));
  c.bw_lines(...text, ...kind);
  const told = answer<TextLines>(c);
  c.bw_free(text[0]);
  c.bw_free(kind[0]);
  return told ?? plain(key.slice(at + 1));
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

function wayAt(c: Exports, how: string): [number, number] {
  let at = ways.get(how);
  if (!at) ways.set(how, (at = put(c, how)));
  return at;
}

const said = remembering(4000, (key): string => {
  const c = core!;
  const at = key.indexOf('|');
  const how = key.slice(at + 1);
  const list = how.startsWith('list ');
  const [way, n] = list ? put(c, how) : wayAt(c, how);
  c.bw_say(way, n, Number(key.slice(0, at)));
  const told = answer<string>(c);
  if (list) c.bw_free(way);
  return told ?? '';
});

/** A figure in words, by src/words: 'how' as bw_say has it (src/wasm/reactor.c). '' until the core is there. */
export function say(how: string, x = NaN): string {
  return hereReady.value && core ? said(`${x}|${how}`) : '';
}
