/** One core and what it has been told: texts in, JSON out (src/wasm/reactor.c). The worker has one, and the page's own thread. */
import type { Question, Request } from './question';

interface Exports {
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

/** Texts and requests become (address, length); numbers go as they are. */
export type Argument = string | number | Request | Uint8Array;

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** The core writes nothing and opens nothing: whatever it asks of a system is refused. */
const noSystem = new Proxy({}, { get: () => () => 8 });

export const made = (module: WebAssembly.Module, goOn: (best: number, bound: number) => number): Promise<WebAssembly.Instance> =>
  WebAssembly.instantiate(module, { wasi_snapshot_preview1: noSystem, page: { go_on: goOn } });

/** One wish a line; a flag stands alone. */
const lines = (r: Request): string =>
  Object.entries(r)
    .filter(([, v]) => v !== undefined && v !== false)
    .map(([key, v]) => (v === true ? key : `${key}=${v}`))
    .join('\n');

export class Calls {
  private core: Exports;
  private image = { at: 0, bytes: 0 };
  private animalsAt = 0;
  private lastQuestion = '';
  private told: Question | null = null;
  private lastOwn = '[]';
  /** What the texts of own foods were read as. */
  shelf: string[] = [];

  constructor(instance: WebAssembly.Instance) {
    this.core = instance.exports as unknown as Exports;
    this.core._initialize();
  }

  has(call: string): boolean {
    return `bw_${call}` in this.core;
  }

  put(bytes: Uint8Array): [number, number] {
    const at = this.core.bw_alloc(Math.max(1, bytes.length));
    if (at === 0) throw new Error('out of memory');
    new Uint8Array(this.core.memory.buffer, at, bytes.length).set(bytes);
    return [at, bytes.length];
  }

  text(words: string): [number, number] {
    return this.put(encoder.encode(words));
  }

  free(at: number): void {
    this.core.bw_free(at);
  }

  /** The place for the library in this core's memory: the same one when there is one of that size already. */
  room(bytes: number): Uint8Array {
    if (this.image.bytes !== bytes) {
      if (this.image.at) this.core.bw_free(this.image.at);
      const at = this.core.bw_alloc(bytes);
      if (at === 0) throw new Error('out of memory');
      this.image = { at, bytes };
    }
    return this.library();
  }

  library(): Uint8Array {
    return new Uint8Array(this.core.memory.buffer, this.image.at, this.image.bytes);
  }

  /** Begins with what lies in that place. What the core made of own foods goes with a library: it is asked for again. */
  open(): void {
    if (this.core.bw_open(this.image.at, this.image.bytes) !== 0) throw new Error(`the food library cannot be used: ${this.complaint()}; reload the page`);
    this.lastOwn = '[]';
    this.lastQuestion = '';
    this.told = null;
  }

  answered(): string {
    return decoder.decode(new Uint8Array(this.core.memory.buffer, this.core.bw_answer(), this.core.bw_answer_bytes()));
  }

  private complaint(): string {
    return (JSON.parse(this.answered()) as { complaints: { message: string }[] }).complaints.map((c) => c.message).join(' ');
  }

  /** The core copies what it needs of a label. */
  private setOwn(texts: string[]): void {
    const written = JSON.stringify(texts);
    if (written === this.lastOwn) return;
    this.lastOwn = written;
    this.shelf = (texts.length > 0 ? texts : ['']).map((text, i) => {
      const [at, n] = this.text(text);
      this.core.bw_own(at, n, i > 0 ? 1 : 0);
      this.free(at);
      return this.answered();
    });
    if (texts.length === 0) this.shelf = [];
  }

  /** For the calls that follow. */
  tell(q: Question): void {
    if (q === this.told) return;
    this.setOwn(q.own);
    const written = JSON.stringify(q);
    this.told = q;
    if (written === this.lastQuestion) return;
    this.told = null;
    if (this.animalsAt) this.free(this.animalsAt);
    const [at, n] = this.text(q.animals);
    this.animalsAt = at;
    const request = this.text(lines(q.asked));
    const code = this.core.bw_ask(at, n, ...request);
    this.free(request[0]);
    if (code !== 0) throw new Error(this.complaint());
    this.lastQuestion = written;
    this.told = q;
  }

  call(name: string, args: Argument[]): { code: number; answer: string } {
    const given: number[] = [];
    const all = args.flatMap((a) => {
      if (typeof a === 'number') return [a];
      const [at, n] = a instanceof Uint8Array ? this.put(a) : this.text(typeof a === 'string' ? a : lines(a));
      given.push(at);
      return [at, n];
    });
    const call = (this.core as unknown as Record<string, (...args: number[]) => number>)[`bw_${name}`];
    if (!call) throw new Error(`no call ${name}`);
    const code = call(...all);
    const answer = this.answered();
    for (const at of given) this.free(at);
    return { code, answer };
  }
}

const PIN = /"((?:usda|ifct):[^"\s]+)"/g;

/** Whether an answer is about foods alone whose values are in the library; 'here' null: all are. */
export function allHere(answer: string, here: ReadonlySet<string> | null): boolean {
  if (!here) return true;
  for (const m of answer.matchAll(PIN)) if (!here.has(m[1]!)) return false;
  return true;
}
