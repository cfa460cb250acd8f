/** What is on the page and cannot be kept where it belongs: a copy in this browser, until it can. It also shows what was there
 * when the page is opened while the program that keeps the texts is stopped. */
import { isText, type Text } from './store';

const NAME = 'bowlwright.draft';

export interface Draft {
  texts: Text[];
  /** Of them, those with changes that are not kept. */
  dirty: string[];
}

/** A text that was never saved has rev 0 here. */
const fits = (t: unknown): t is Text => isText(t) || isText({ ...(t as Text), rev: 1 });

export function saveDraft(d: Draft): boolean {
  try {
    localStorage.setItem(NAME, JSON.stringify(d));
    return true;
  } catch {
    return false;
  }
}

export function readDraft(): Draft | null {
  try {
    const d = JSON.parse(localStorage.getItem(NAME) ?? 'null') as Partial<Draft> | null;
    if (!d || !Array.isArray(d.texts) || !Array.isArray(d.dirty)) return null;
    const texts = d.texts.filter(fits);
    return { texts, dirty: d.dirty.filter((id) => texts.some((t) => t.id === id)) };
  } catch {
    return null;
  }
}

export function dropDraft(): void {
  try {
    localStorage.removeItem(NAME);
  } catch {
    /* nothing was kept there */
  }
}
