/** Questions to the core in its worker. Of questions of one kind only the newest waits: who types fast is not made to wait for
 * answers that nobody will see. */
import { begin, end } from '../settled';
import type { Envelope, FoodRecord, PageAnswer, ShelfAnswer, Suggestions } from './answers';
import type { Early } from './early';
import type { Page, Question, Shelf } from './question';
import type { Ask, Lent, Progress, Told } from './worker';

type Waiting = { ask: Ask; kind: string; resolve: (r: Reply) => void; reject: (e: Error) => void };
export type Reply = { code: number; answer: string; ms: number };

const list = (texts: string[]): string => texts.join('\u0000');

/** The question was overtaken by a newer one of its kind. */
export class Overtaken extends Error {}

const LONG_FROM = 65_536;

export class Core {
  private worker: Worker;
  private next = 1;
  private running: Waiting | null = null;
  private queue: Waiting[] = [];
  private failed: Error | null = null;
  private told: Question | null = null;
  private long = '';
  readonly ready: Promise<void>;
  /** Hears of long searches while they run. */
  onProgress: (p: Progress) => void = () => undefined;
  private onLent: ((l: Lent) => void) | null = null;

  /** 'first': what a worker that waits for it is given to begin with. */
  constructor(make: () => Worker, first?: Promise<Early>) {
    this.worker = make();
    first?.then(
      (early) => this.worker.postMessage({ early }, [early.near]),
      () => this.worker.postMessage({ early: null }),
    );
    let opened!: () => void;
    let failed!: (e: Error) => void;
    this.ready = new Promise((ok, no) => {
      opened = ok;
      failed = no;
    });
    this.ready.catch((e: Error) => {
      this.failed = e;
      this.drop(e);
    });
    this.worker.onmessage = (event: MessageEvent<Told>) => {
      const told = event.data;
      if ('ready' in told) opened();
      else if ('progress' in told) this.onProgress(told.progress);
      else if ('lent' in told) this.onLent?.(told.lent);
      else if ('trouble' in told) failed(new Error(told.trouble));
      else this.finish(told);
    };
    this.worker.onerror = (e) => failed(new Error(e.message || 'the core could not be started; reload the page'));
  }

  private finish(told: Extract<Told, { id: number }>): void {
    const done = this.running;
    this.running = null;
    if (done && done.ask.id === told.id) {
      if ('failed' in told) done.reject(new Error(told.failed));
      else done.resolve(told);
      end('core');
    }
    this.pump();
  }

  private pump(): void {
    if (this.running) return;
    const first = this.queue.shift();
    if (!first) return;
    this.running = first;
    this.worker.postMessage(this.brief(first.ask));
  }

  /** A long text is sent once, for as long as no other one is; of one that goes on from it only what is new. */
  private once(a: Ask['args'][number]): Ask['args'][number] {
    if (typeof a !== 'string' || a.length < LONG_FROM) return a;
    if (a === this.long) return { long: null };
    const before = this.long;
    this.long = a;
    return before !== '' && a.startsWith(before) && before.endsWith('\n') ? { long: null, more: a.slice(before.length) } : { long: a };
  }

  /** Animals and own foods are long and seldom change: the worker keeps the question that it was told last. */
  private brief(whole: Ask): Ask {
    const ask = { ...whole, args: whole.args.map((a) => this.once(a)) };
    const { question, ...rest } = ask;
    if (!question || question === 'same') return ask;
    const was = this.told;
    this.told = question;
    const same = was && was.animals === question.animals && list(was.own) === list(question.own) && JSON.stringify(was.asked) === JSON.stringify(question.asked);
    return same ? { ...rest, question: 'same' } : ask;
  }

  private drop(why: Error): void {
    const all = [this.running, ...this.queue];
    this.running = null;
    this.queue = [];
    for (const w of all) {
      if (!w) continue;
      w.reject(why);
      end('core');
    }
  }

  /** Nothing is asked just now. */
  get idle(): boolean {
    return this.running === null && this.queue.length === 0;
  }

  /** Stops at once, whatever is being worked out. */
  end(): void {
    this.worker.terminate();
    this.drop(new Overtaken());
  }

  ask(kind: string, call: string, args: Ask['args'], question?: Question, enough?: number): Promise<Reply> {
    if (this.failed) return Promise.reject(this.failed);
    return new Promise((resolve, reject) => {
      this.queue = this.queue.filter((w) => {
        if (w.kind !== kind) return true;
        w.reject(new Overtaken());
        end('core');
        return false;
      });
      const ask: Ask = { id: this.next++, call, args, ...(question ? { question } : {}), ...(enough !== undefined ? { enough } : {}) };
      begin('core');
      this.queue.push({ ask, kind, resolve, reject });
      this.pump();
    });
  }

  /** The same, with the answer read. */
  async tell<T>(kind: string, call: string, args: Ask['args'], question?: Question, enough?: number): Promise<Envelope<T>> {
    return JSON.parse((await this.ask(kind, call, args, question, enough)).answer) as Envelope<T>;
  }

  /** 'take' is given the library, now and again when there is more of it. */
  borrow(take: (l: Lent) => void): void {
    if (this.onLent) return;
    this.onLent = take;
    this.worker.postMessage({ lend: true });
  }

  /** Null when what was asked beside the recipe cannot be asked. */
  async page(recipe: string, eaten: number, review: boolean, q: Question, kind = 'page'): Promise<Page | null> {
    const { answer, complaints } = await this.tell<PageAnswer>(kind, 'page', [recipe, { eaten, 'numbers-only': !review }], q);
    return answer && { ...answer, complaints };
  }

  async suggest(line: string): Promise<Suggestions | null> {
    return (await this.tell<Suggestions>('suggest', 'suggest', [line, 7])).answer;
  }

  async food(pin: string): Promise<FoodRecord | null> {
    return (await this.tell<FoodRecord>('food', 'food', [pin])).answer;
  }

  /** What the own foods of the question were read as, text by text. */
  async shelf(q: Question): Promise<Shelf[]> {
    const told = JSON.parse((await this.ask('shelf', 'shelf', [], q)).answer) as Envelope<ShelfAnswer>[];
    return told.map((t) => ({ foods: t.answer?.foods ?? [], complaints: t.complaints }));
  }
}
