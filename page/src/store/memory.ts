/** For browsers that keep nothing (a private window with storage switched off), and for tests. */
import type { Bundle, Kind, Saved, Text, TextStore, Version, Watcher } from './store';

export class MemoryStore implements TextStore {
  readonly where = 'only until this tab is closed';
  readonly served = false;
  private texts = new Map<string, Text>();
  private old: Version[] = [];

  async list(): Promise<{ texts: Text[]; damaged: number }> {
    return { texts: [...this.texts.values()], damaged: 0 };
  }
  async write(id: string, kind: Kind, body: string, base: number, keepVersion: boolean): Promise<Saved> {
    const current = this.texts.get(id) ?? null;
    if ((current?.rev ?? 0) !== base) return { ok: false, theirs: current };
    if (current && keepVersion) this.old.push({ id, rev: current.rev, saved: current.saved, body: current.body });
    const saved = new Date().toISOString();
    this.texts.set(id, { id, kind, body, rev: base + 1, saved });
    return { ok: true, rev: base + 1, saved };
  }
  async remove(id: string, base: number): Promise<boolean> {
    if ((this.texts.get(id)?.rev ?? base) !== base) return false;
    this.texts.delete(id);
    this.old = this.old.filter((v) => v.id !== id);
    return true;
  }
  async versions(id: string): Promise<Version[]> {
    return this.old.filter((v) => v.id === id).reverse();
  }
  async export(): Promise<Bundle> {
    return { bowlwright: 1, texts: [...this.texts.values()], versions: [...this.old] };
  }
  async import(bundle: Bundle): Promise<number> {
    for (const t of bundle.texts) {
      const current = this.texts.get(t.id);
      if (current?.body === t.body) continue;
      if (current) this.old.push({ id: t.id, rev: current.rev, saved: current.saved, body: current.body });
      this.texts.set(t.id, { ...t, rev: Math.max(t.rev, (current?.rev ?? 0) + 1) });
    }
    for (const v of bundle.versions) if (!this.old.some((o) => o.id === v.id && o.rev === v.rev)) this.old.push(v);
    return bundle.texts.length;
  }
  /** Nobody else can know of these texts. */
  watch(_watcher: Watcher): () => void {
    return () => undefined;
  }
}
