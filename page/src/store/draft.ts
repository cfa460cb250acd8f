/** What is on the page and cannot be kept where it belongs: a copy in this browser, until it can. It also shows what was there
 * when the page is opened while the program that keeps the texts is stopped.
 *
 * Every visit of every tab has a draft under a name of its own, so that tabs never write over each other's; the next visit takes
 * over what it finds. */
import { isText, newId, type Text } from './store';

const NAME = 'bowlwright.draft';
const OWN = `${NAME}.${Date.now().toString(36)}${Math.random().toString(36).slice(2)}`;
/** Drafts of earlier visits, and of other tabs, that were taken over. */
let taken: string[] = [];

export interface Draft {
  texts: Text[];
  /** Of them, those with changes that are not kept. */
  dirty: string[];
}
type Stored = Draft & { at: number };

/** A text that was never saved has rev 0 here. */
const fits = (t: unknown): t is Text => isText(t) || isText({ ...(t as Text), rev: 1 });

export function saveDraft(d: Draft): boolean {
  try {
    localStorage.setItem(OWN, JSON.stringify({ ...d, at: Date.now() } satisfies Stored));
    return true;
  } catch {
    return false;
  }
}

function stored(name: string): Stored | null {
  try {
    const d = JSON.parse(localStorage.getItem(name) ?? 'null') as Partial<Stored> | null;
    if (!d || !Array.isArray(d.texts) || !Array.isArray(d.dirty)) return null;
    const texts = d.texts.filter(fits);
    return { texts, dirty: d.dirty.filter((id) => texts.some((t) => t.id === id)), at: typeof d.at === 'number' ? d.at : 0 };
  } catch {
    return null;
  }
}

function names(): string[] {
  try {
    return Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i) ?? '').filter((n) => n.startsWith(NAME));
  } catch {
    return [];
  }
}

/** The newer first. Changes win over what is unchanged; where both changed a text, the older one becomes a text of its own. */
function together(newer: Draft, older: Draft): Draft {
  const texts = new Map(newer.texts.map((t) => [t.id, t]));
  const dirty = new Set(newer.dirty);
  for (const t of older.texts) {
    const there = texts.get(t.id);
    const changed = older.dirty.includes(t.id);
    if (!there || (changed && !dirty.has(t.id))) {
      texts.set(t.id, t);
      if (changed) dirty.add(t.id);
    } else if (changed && there.body !== t.body) {
      /* There is one text about the animals: another stands among the recipes, for the person to look at. */
      const own: Text = { ...t, id: newId(), kind: t.kind === 'animals' ? 'recipe' : t.kind, rev: 0, saved: '' };
      texts.set(own.id, own);
      dirty.add(own.id);
    }
  }
  return { texts: [...texts.values()], dirty: [...dirty] };
}

export function readDraft(): Draft | null {
  taken = names();
  const all = taken.map(stored).filter((d) => d !== null);
  if (all.length === 0) return null;
  const { texts, dirty } = all.sort((a, b) => b.at - a.at).reduce<Draft>(together, { texts: [], dirty: [] });
  /* All in one place, before the others go; without room for that they stay until everything is kept. */
  if (saveDraft({ texts, dirty })) dropTaken();
  return { texts, dirty };
}

function drop(name: string): void {
  try {
    localStorage.removeItem(name);
  } catch {
    /* nothing was kept there */
  }
}

function dropTaken(): void {
  taken.filter((n) => n !== OWN).forEach(drop);
  taken = [];
}

export function dropDraft(): void {
  drop(OWN);
  dropTaken();
}
