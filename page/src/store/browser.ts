/** Texts kept in this browser, in IndexedDB. Every save compares and swaps within one transaction, so that two tabs cannot
 * write over each other unseen. */
import { isText, isVersion, NoRoom, type Bundle, type Kind, type Saved, type Text, type TextStore, type Version, type Watcher } from './store';

const NAME = 'bowlwright';

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('the browser gave no reason'));
  });
}

function finished(t: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    t.oncomplete = () => resolve();
    t.onabort = t.onerror = () => reject(t.error ?? new Error('the browser gave no reason'));
  });
}

function noRoom(e: unknown): never {
  throw e instanceof DOMException && e.name === 'QuotaExceededError' ? new NoRoom() : e;
}

export async function openBrowserStore(): Promise<TextStore> {
  const opening = indexedDB.open(NAME, 1);
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore('texts', { keyPath: 'id' });
    opening.result.createObjectStore('versions', { keyPath: ['id', 'rev'] });
  };
  return new BrowserStore(await done(opening));
}

const allVersionsOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);

class BrowserStore implements TextStore {
  readonly where = 'in this browser';
  readonly served = false;
  private channel = new BroadcastChannel(NAME);

  constructor(private db: IDBDatabase) {}

  private open(mode: IDBTransactionMode): { t: IDBTransaction; texts: IDBObjectStore; versions: IDBObjectStore } {
    const t = this.db.transaction(['texts', 'versions'], mode, { durability: mode === 'readwrite' ? 'strict' : 'default' });
    return { t, texts: t.objectStore('texts'), versions: t.objectStore('versions') };
  }

  async list(): Promise<{ texts: Text[]; damaged: number }> {
    const all: unknown[] = await done(this.open('readonly').texts.getAll());
    const texts = all.filter(isText);
    return { texts, damaged: all.length - texts.length };
  }

  write(id: string, kind: Kind, body: string, base: number, keepVersion: boolean): Promise<Saved> {
    return this.writeNow(id, kind, body, base, keepVersion).catch(noRoom);
  }

  private async writeNow(id: string, kind: Kind, body: string, base: number, keepVersion: boolean): Promise<Saved> {
    const { t, texts, versions } = this.open('readwrite');
    const end = finished(t);
    end.catch(() => undefined);
    const there: unknown = await done(texts.get(id));
    const current = isText(there) ? there : null;
    if ((current?.rev ?? 0) !== base) return { ok: false, theirs: current };
    const saved = new Date().toISOString();
    const rev = base + 1;
    if (current && keepVersion) versions.put({ id, rev: current.rev, saved: current.saved, body: current.body } satisfies Version);
    texts.put({ id, kind, body, rev, saved } satisfies Text);
    await end;
    this.channel.postMessage({ id, rev });
    return { ok: true, rev, saved };
  }

  async remove(id: string, base: number): Promise<boolean> {
    const { t, texts, versions } = this.open('readwrite');
    const end = finished(t);
    const there: unknown = await done(texts.get(id));
    if (isText(there) && there.rev !== base) return false;
    texts.delete(id);
    versions.delete(allVersionsOf(id));
    await end;
    this.channel.postMessage({ id, rev: 0 });
    return true;
  }

  async versions(id: string): Promise<Version[]> {
    const all: unknown[] = await done(this.open('readonly').versions.getAll(allVersionsOf(id)));
    return all.filter(isVersion).reverse();
  }

  async export(): Promise<Bundle> {
    const { texts, versions } = this.open('readonly');
    const [t, v]: [unknown[], unknown[]] = await Promise.all([done(texts.getAll()), done(versions.getAll())]);
    return { bowlwright: 1, texts: t.filter(isText), versions: v.filter(isVersion) };
  }

  async import(bundle: Bundle): Promise<number> {
    const { t, texts, versions } = this.open('readwrite');
    const end = finished(t);
    for (const text of bundle.texts) {
      const there: unknown = await done(texts.get(text.id));
      const current = isText(there) ? there : null;
      if (current && current.body === text.body) continue;
      if (current) versions.put({ id: current.id, rev: current.rev, saved: current.saved, body: current.body });
      texts.put({ ...text, rev: Math.max(text.rev, (current?.rev ?? 0) + 1) });
    }
    for (const v of bundle.versions) if (!(await done(versions.get([v.id, v.rev])))) versions.put(v);
    await end.catch(noRoom);
    for (const text of bundle.texts) this.channel.postMessage({ id: text.id, rev: text.rev });
    return bundle.texts.length;
  }

  watch(watcher: Watcher): () => void {
    const heard = (e: MessageEvent<{ id: string; rev: number }>): void => watcher.told(e.data.id, e.data.rev);
    this.channel.addEventListener('message', heard);
    return () => this.channel.removeEventListener('message', heard);
  }
}
