import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ApiStore, servedBy } from './api';
import { NoRoom, Unreachable, type Watcher } from './store';

type Answer = { status?: number; json?: unknown };
const asked: { url: string; method: string; headers: Record<string, string>; body: unknown }[] = [];

/** Answers in turn; a string is a network that fails. */
function answers(...list: (Answer | 'down')[]): void {
  vi.stubGlobal('fetch', (url: string, init: RequestInit) => {
    asked.push({ url, method: init.method ?? 'GET', headers: init.headers as Record<string, string>, body: init.body ? JSON.parse(String(init.body)) : null });
    const a = list.shift() ?? 'down';
    if (a === 'down') return Promise.reject(new TypeError('Failed to fetch'));
    return Promise.resolve(new Response(a.status === 204 ? null : JSON.stringify(a.json ?? {}), { status: a.status ?? 200 }));
  });
}

beforeEach(() => void (asked.length = 0));
afterEach(() => vi.unstubAllGlobals());

describe('texts kept by the serving program', () => {
  it('names the rev a save was made from, and the token', async () => {
    answers({ json: { rev: 4, saved: '2026-11-02T09:30:00Z' } });
    expect(await new ApiStore('key').write('a', 'foods', 'Food: x', 3, true)).toEqual({ ok: true, rev: 4, saved: '2026-11-02T09:30:00Z' });
    expect(asked[0]).toMatchObject({ url: 'api/texts/a', method: 'PUT', body: { kind: 'foods', body: 'Food: x', keep: true } });
    expect(asked[0]?.headers).toMatchObject({ 'If-Match': '"3"', 'X-Bowlwright-Token': 'key' });
  });
  it('sends nothing that UTF-8 cannot hold', async () => {
    answers({ json: { rev: 1, saved: 'then' } });
    await new ApiStore('key').write('a', 'recipe', 'a\ud83db\ud83d\ude00', 0, false);
    expect(asked[0]?.body).toMatchObject({ body: 'a\ufffdb\ud83d\ude00' });
  });
  it('hands a conflict over with what is there', async () => {
    const theirs = { id: 'a', kind: 'recipe', body: 'theirs', rev: 5, saved: 'then' };
    answers({ status: 412, json: { theirs } }, { status: 412, json: { theirs: null } }, { status: 412, json: { theirs: { id: 7 } } });
    const s = new ApiStore('key');
    expect(await s.write('a', 'recipe', 'mine', 4, false)).toEqual({ ok: false, theirs });
    expect(await s.write('a', 'recipe', 'mine', 4, false)).toEqual({ ok: false, theirs: null });
    expect(await s.write('a', 'recipe', 'mine', 4, false)).toEqual({ ok: false, theirs: null });
  });
  it('asks for the new token when the program was started anew, and goes on', async () => {
    answers({ status: 403, json: { error: 'started anew', why: 'token' } }, { json: { token: 'new' } }, { json: { rev: 1, saved: 'now' } });
    expect(await new ApiStore('old').write('a', 'recipe', 'x', 0, false)).toMatchObject({ ok: true, rev: 1 });
    expect(asked.map((a) => a.url)).toEqual(['api/texts/a', 'api/token', 'api/texts/a']);
    expect(asked[2]?.headers['X-Bowlwright-Token']).toBe('new');
  });
  it('does not go round in circles when it is refused all the same', async () => {
    answers({ status: 403, json: { error: 'no' } }, { json: { token: 'old' } });
    await expect(new ApiStore('old').write('a', 'recipe', 'x', 0, false)).rejects.toThrow('no');
    expect(asked).toHaveLength(2);
  });
  it('tells a full disk from a stopped program and from anything else', async () => {
    answers({ status: 507, json: { error: 'full' } }, 'down', { status: 500, json: { error: "the store's file is damaged" } }, { status: 502 });
    const s = new ApiStore('key');
    await expect(s.write('a', 'recipe', 'x', 0, false)).rejects.toBeInstanceOf(NoRoom);
    await expect(s.write('a', 'recipe', 'x', 0, false)).rejects.toBeInstanceOf(Unreachable);
    await expect(s.list()).rejects.toThrow("the store's file is damaged");
    await expect(s.list()).rejects.toThrow('502');
  });
  it('counts what it cannot believe as damaged', async () => {
    const whole = { id: 'a', kind: 'recipe', body: 'x', rev: 1, saved: 's' };
    answers({ json: { texts: [whole, { ...whole, kind: 'virus' }], damaged: 2 } });
    expect(await new ApiStore('key').list()).toEqual({ texts: [whole], damaged: 3 });
  });
  it('gives versions the id that they belong to', async () => {
    answers({ json: { versions: [{ rev: 2, saved: 's', body: 'x' }] } });
    expect(await new ApiStore('key').versions('a')).toEqual([{ id: 'a', rev: 2, saved: 's', body: 'x' }]);
  });
});

describe('the stream of changes', () => {
  const stream = (text: string): Response => new Response(new Blob([text]).stream(), { status: 200 });
  const heard = (): { watcher: Watcher; said: string[] } => {
    const said: string[] = [];
    return { said, watcher: { told: (id, rev) => void said.push(`${id} ${rev}`), missed: () => void said.push('missed'), reach: (there) => void said.push(there ? 'there' : 'gone') } };
  };
  it('hears saves, says when the program is gone and when it is back, and looks for what was missed', async () => {
    vi.stubGlobal('navigator', {});
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const list: (() => Promise<Response>)[] = [
      async () => stream('retry: 2000\n\nid: 7\ndata: {"id":"a","rev":3}\n\n:\n\nid: 8\ndata: {"id":"b","rev":0}\n\n'),
      async () => Promise.reject(new TypeError('Failed to fetch')),
      async () => stream('retry: 2000\n\n'),
    ];
    const last: (string | undefined)[] = [];
    vi.stubGlobal('fetch', (_url: string, init: RequestInit) => {
      last.push((init.headers as Record<string, string>)['Last-Event-ID']);
      return (list.shift() ?? (() => new Promise<Response>(() => undefined)))();
    });
    const { watcher, said } = heard();
    const end = new ApiStore('key').watch(watcher);
    for (let i = 0; i < 40; i++) {
      await new Promise((go) => setImmediate(go));
      await vi.advanceTimersByTimeAsync(200);
    }
    end();
    vi.useRealTimers();
    expect(said).toEqual(['a 3', 'b 0', 'gone', 'there', 'missed']);
    expect(last.slice(0, 3)).toEqual([undefined, '8', '8']);
  });
});

describe('who keeps the texts', () => {
  const page = (metas: Record<string, string>): Document =>
    ({ querySelector: (q: string) => (/"(.*)"/.exec(q)![1]! in metas ? { getAttribute: () => metas[/"(.*)"/.exec(q)![1]!] } : null) }) as unknown as Document;
  it('is said by the document', () => {
    expect(servedBy(page({}))).toBeNull();
    expect(servedBy(page({ 'bowlwright-store': 'api', 'bowlwright-token': 'key' }))).toEqual({ token: 'key' });
    expect(servedBy(page({ 'bowlwright-store': 'api', 'bowlwright-token': '' }))).toEqual({ token: '' });
  });
});
