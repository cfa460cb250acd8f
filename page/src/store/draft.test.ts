import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { dropDraft, readDraft, saveDraft } from './draft';
import type { Text } from './store';

const text = (id: string, rev: number): Text => ({ id, kind: 'recipe', body: `Recipe: ${id}`, rev, saved: '' });
let held: Map<string, string>;

beforeEach(() => {
  held = new Map();
  vi.stubGlobal('localStorage', {
    get length() {
      return held.size;
    },
    key: (i: number) => [...held.keys()][i] ?? null,
    getItem: (k: string) => held.get(k) ?? null,
    setItem: (k: string, v: string) => void held.set(k, v),
    removeItem: (k: string) => void held.delete(k),
  });
});
afterEach(() => vi.unstubAllGlobals());

describe('a draft', () => {
  it('comes back as it was, texts that were never saved too', () => {
    const d = { texts: [text('a', 3), text('new', 0)], dirty: ['new'] };
    expect(saveDraft(d)).toBe(true);
    expect(readDraft()).toEqual(d);
    dropDraft();
    expect(readDraft()).toBeNull();
  });
  it('is looked at before it is believed', () => {
    for (const bad of ['', '{', '7', '{"texts":7,"dirty":[]}', '{"texts":[]}']) {
      held.set('bowlwright.draft', bad);
      expect(readDraft()).toBeNull();
    }
    held.set('bowlwright.draft', JSON.stringify({ texts: [text('a', 1), { id: 7 }, { ...text('b', 1), kind: 'virus' }], dirty: ['a', 'b'] }));
    expect(readDraft()).toEqual({ texts: [text('a', 1)], dirty: ['a'] });
  });
  it('of another tab is taken over, not written over', () => {
    vi.stubGlobal('crypto', { randomUUID: () => 'own' });
    const of = (body: string, id = 'a'): Text => ({ ...text(id, 3), body });
    held.set('bowlwright.draft.one', JSON.stringify({ texts: [of('unchanged', 'b'), of('older')], dirty: ['a'], at: 1 }));
    held.set('bowlwright.draft.two', JSON.stringify({ texts: [of('changed', 'b'), of('newer')], dirty: ['a', 'b'], at: 2 }));
    expect(saveDraft({ texts: [of('mine', 'c')], dirty: ['c'] })).toBe(true);
    const d = readDraft();
    expect(d?.texts.map((t) => [t.id, t.rev, t.body]).sort()).toEqual([
      ['a', 3, 'newer'],
      ['b', 3, 'changed'],
      ['c', 3, 'mine'],
      ['own', 0, 'older'],
    ]);
    expect(d?.dirty.sort()).toEqual(['a', 'b', 'c', 'own']);
    expect(held.size).toBe(1);
    expect(readDraft()?.texts).toHaveLength(4);
    dropDraft();
    expect(held.size).toBe(0);
  });
  it('says when there is no room for it', () => {
    vi.stubGlobal('localStorage', {
      length: 0,
      setItem: () => {
        throw new DOMException('no room', 'QuotaExceededError');
      },
    });
    expect(saveDraft({ texts: [], dirty: [] })).toBe(false);
  });
});
