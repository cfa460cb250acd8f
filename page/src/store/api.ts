/** Texts kept by the program that serves this page (docs/internals/page-storage.md).
 *
 * The program may be stopped and started again while the page is open. It then has another token: the page asks for it and
 * goes on. One of the open tabs listens for changes and tells the others, so that many tabs do not use up the connections that a
 * browser allows itself. */
import { isText, isVersion, NoRoom, readBundle, Unreachable, type Bundle, type Kind, type Saved, type Text, type TextStore, type Version, type Watcher } from './store';

const PATIENCE_MS = 15_000;
const AGAIN_AFTER_MS = 1000;
/** The program sends a sign of life every 15 seconds. */
const SILENCE_MS = 40_000;
const NAME = 'bowlwright-changes';
/** Browsers finish what is as small as this even when the page is closed meanwhile. */
const SENT_ANYWAY_MOST = 20_000;

type News = { id: string; rev: number } | { missed: true } | { there: boolean };

/** When the document says that a program keeps the texts. */
export function servedBy(doc: Document): { token: string } | null {
  const meta = (name: string): string | null => doc.querySelector(`meta[name="${name}"]`)?.getAttribute('content') ?? null;
  return meta('bowlwright-store') === 'api' ? { token: meta('bowlwright-token') ?? '' } : null;
}

/** Half of a surrogate pair, which a text field can hold and UTF-8 cannot, becomes the mark for what is unreadable. */
function wellFormed(body: string): string {
  return new TextDecoder().decode(new TextEncoder().encode(body));
}

export class ApiStore implements TextStore {
  readonly where = 'by bowlwright on this machine';
  readonly served = true;
  private channel = new BroadcastChannel(NAME);
  private last = '';

  constructor(
    private token: string,
    private base = 'api/',
  ) {}

  private async send(path: string, init: RequestInit): Promise<Response> {
    try {
      return await fetch(this.base + path, {
        ...init,
        cache: 'no-store',
        headers: { ...(init.headers as Record<string, string>), 'X-Bowlwright-Token': this.token },
        signal: init.signal ?? AbortSignal.timeout(PATIENCE_MS),
      });
    } catch {
      throw new Unreachable('the program that keeps the texts does not answer');
    }
  }

  /** Started anew, the program has another token. */
  private async renew(): Promise<boolean> {
    const r = await this.send('token', {});
    const s = r.ok ? ((await r.json()) as { token?: unknown }) : {};
    if (typeof s.token !== 'string' || s.token === this.token) return false;
    this.token = s.token;
    return true;
  }

  private async ask(path: string, init: RequestInit = {}): Promise<Response> {
    const r = await this.send(path, init);
    if ((r.status === 403 || r.status === 401) && (await this.renew())) return this.send(path, init);
    return r;
  }

  /** What went wrong, in the program's own words. */
  private async fault(r: Response): Promise<Error> {
    if (r.status === 507) return new NoRoom();
    const said = (await r.json().catch(() => null)) as { error?: unknown } | null;
    return new Error(typeof said?.error === 'string' ? said.error : `the program that keeps the texts answered ${r.status}`);
  }

  private async json(path: string, init?: RequestInit): Promise<unknown> {
    const r = await this.ask(path, init);
    if (!r.ok) throw await this.fault(r);
    return r.json();
  }

  async list(): Promise<{ texts: Text[]; damaged: number }> {
    const said = (await this.json('texts')) as { texts?: unknown[]; damaged?: number };
    const all = said.texts ?? [];
    const texts = all.filter(isText);
    return { texts, damaged: (said.damaged ?? 0) + all.length - texts.length };
  }

  async write(id: string, kind: Kind, body: string, base: number, keepVersion: boolean): Promise<Saved> {
    const r = await this.ask(`texts/${id}`, {
      method: 'PUT',
      headers: { 'Content-Type': 'application/json', 'If-Match': `"${base}"` },
      body: JSON.stringify({ kind, body: wellFormed(body), keep: keepVersion }),
      keepalive: body.length <= SENT_ANYWAY_MOST,
    });
    if (r.status === 412) return { ok: false, theirs: await this.theirs(r) };
    if (!r.ok) throw await this.fault(r);
    const { rev, saved } = (await r.json()) as { rev: number; saved: string };
    return { ok: true, rev, saved };
  }

  private async theirs(r: Response): Promise<Text | null> {
    const { theirs } = (await r.json()) as { theirs: unknown };
    return isText(theirs) ? theirs : null;
  }

  async remove(id: string, base: number): Promise<boolean> {
    const r = await this.ask(`texts/${id}`, { method: 'DELETE', headers: { 'If-Match': `"${base}"` } });
    if (r.status === 412) return false;
    if (!r.ok) throw await this.fault(r);
    return true;
  }

  async versions(id: string): Promise<Version[]> {
    const said = (await this.json(`texts/${id}/versions`)) as { versions?: unknown[] };
    return (said.versions ?? []).map((v) => ({ id, ...(v as object) })).filter(isVersion);
  }

  async export(): Promise<Bundle> {
    return readBundle(JSON.stringify(await this.json('bundle')));
  }

  async import(bundle: Bundle): Promise<number> {
    const said = (await this.json('bundle', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(bundle),
    })) as { texts?: number };
    return said.texts ?? 0;
  }

  // ---- what others change ------------------------------------------------------------------------------------------------

  watch(watcher: Watcher): () => void {
    const end = new AbortController();
    const heard = (news: News): void => {
      if ('id' in news) watcher.told(news.id, news.rev);
      else if ('missed' in news) watcher.missed();
      else watcher.reach(news.there);
    };
    const tell = (news: News): void => {
      heard(news);
      this.channel.postMessage(news);
    };
    const passOn = (e: MessageEvent<News>): void => heard(e.data);
    this.channel.addEventListener('message', passOn);
    const listen = (): Promise<void> => this.listen(tell, end.signal);
    /* The tab that holds the lock listens for all; when it is closed, the next one does. */
    if ('locks' in navigator) navigator.locks.request(NAME, { signal: end.signal }, listen).catch(() => undefined);
    else void listen();
    return () => {
      end.abort();
      this.channel.removeEventListener('message', passOn);
    };
  }

  private async listen(tell: (news: News) => void, end: AbortSignal): Promise<void> {
    let there = true;
    for (let first = true; !end.aborted; first = false) {
      try {
        await this.stream(tell, end, () => {
          if (!there) tell({ there: true });
          if (!first) tell({ missed: true });
          there = true;
        });
      } catch (e) {
        if (there && e instanceof Unreachable && !end.aborted) {
          there = false;
          tell({ there: false });
        }
      }
      await new Promise((go) => setTimeout(go, AGAIN_AFTER_MS));
    }
  }

  /** Until the stream ends. A program that only closed it is asked again before it is said to be gone. */
  private async stream(tell: (news: News) => void, end: AbortSignal, opened: () => void): Promise<void> {
    const silent = new AbortController();
    const stop = (): void => silent.abort();
    end.addEventListener('abort', stop);
    let timer = setTimeout(stop, PATIENCE_MS);
    try {
      const headers = { Accept: 'text/event-stream', ...(this.last ? { 'Last-Event-ID': this.last } : {}) };
      const r = await this.ask('changes', { headers, signal: silent.signal });
      if (!r.ok || !r.body) return;
      opened();
      const reader = r.body.pipeThrough(new TextDecoderStream()).getReader();
      for (let rest = ''; ; ) {
        clearTimeout(timer);
        timer = setTimeout(stop, SILENCE_MS);
        const { done, value } = await reader.read();
        if (done) return;
        const events = (rest + value).split('\n\n');
        rest = events.pop() ?? '';
        for (const e of events) this.event(e, tell);
      }
    } catch (e) {
      if (e instanceof Unreachable) throw e;
    } finally {
      clearTimeout(timer);
      end.removeEventListener('abort', stop);
    }
  }

  private event(lines: string, tell: (news: News) => void): void {
    const of = (key: string): string => new RegExp(`^${key}: ?(.*)$`, 'm').exec(lines)?.[1] ?? '';
    if (of('id')) this.last = of('id');
    if (!of('data')) return;
    const { id, rev } = JSON.parse(of('data')) as { id: unknown; rev: unknown };
    if (typeof id === 'string' && typeof rev === 'number') tell({ id, rev });
  }
}
