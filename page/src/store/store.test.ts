import { describe, expect, it } from 'vitest';
import { MemoryStore } from './memory';
import { isText, readBundle } from './store';

describe('a store of texts', () => {
  it('saves only what was made from the newest text', async () => {
    const s = new MemoryStore();
    expect(await s.write('a', 'recipe', 'one', 0, false)).toMatchObject({ ok: true, rev: 1 });
    expect(await s.write('a', 'recipe', 'two', 1, true)).toMatchObject({ ok: true, rev: 2 });
    const late = await s.write('a', 'recipe', 'late', 1, true);
    expect(late).toMatchObject({ ok: false, theirs: { body: 'two' } });
    expect((await s.versions('a')).map((v) => v.body)).toEqual(['one']);
  });
  it('takes a bundle without losing what is there', async () => {
    const s = new MemoryStore();
    await s.write('a', 'recipe', 'mine', 0, false);
    await s.import({ bowlwright: 1, texts: [{ id: 'a', kind: 'recipe', body: 'theirs', rev: 1, saved: '' }], versions: [] });
    expect((await s.list()).texts[0]).toMatchObject({ body: 'theirs', rev: 2 });
    expect((await s.versions('a')).map((v) => v.body)).toEqual(['mine']);
  });
});

describe('what comes from outside', () => {
  it('is looked at before it is believed', () => {
    for (const bad of [null, 7, {}, { id: 'a', kind: 'recipe', body: 3, rev: 1, saved: '' }, { id: 'a', kind: 'virus', body: '', rev: 1, saved: '' }])
      expect(isText(bad)).toBe(false);
    expect(() => readBundle('not json')).toThrow('not a file');
    expect(() => readBundle('{"bowlwright":2,"texts":[]}')).toThrow('not a file');
    expect(() => readBundle('{"bowlwright":1,"texts":[{"id":7}]}')).toThrow('no text');
  });
});
