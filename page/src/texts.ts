/** The texts: written, kept, taken over from other tabs, brought in and out. Nothing is ever overwritten unseen, and what cannot
 * be kept where it belongs stays on the page and in a draft. */
import { batch, effect, signal } from '@preact/signals';
import eightyTenTen from '@examples/eighty-ten-ten.recipe?raw';
import gardenStew from '@examples/garden-stew.recipe?raw';
import pimsPlate from '@examples/pims-plate.recipe?raw';
import ricePot from '@examples/rice-pot.recipe?raw';
import chestFreezer from '@examples/chest-freezer.larder?raw';
import kitchenShelf from '@examples/kitchen-shelf.foods?raw';
import household from '@examples/saltmarsh.animals?raw';
import weeknight from '@examples/weeknight-bowl.recipe?raw';
import { textLines } from './core/here';
import { lastOpen } from './remember';
import { begin, end } from './settled';
import { caretIn, putCaret } from './writing/field-edit';
import { changed, redo, undo } from './writing/undo';
import { check, choice, dismiss, eaten, openId, recipeId, tell, texts } from './state';
import { ApiStore, servedBy } from './store/api';
import { openBrowserStore } from './store/browser';
import { dropDraft, readDraft, saveDraft } from './store/draft';
import { MemoryStore } from './store/memory';
import { newId, NoRoom, readBundle, Unreachable, type Bundle, type Kind, type Text, type TextStore } from './store/store';

export const savedAt = signal('');
export const where = signal('');
/** They are kept by the program that gives out this page. */
export const served = signal(false);
/** Why what is written is not kept just now; '' when it is. */
export const unkept = signal('');

const SAVE_AFTER_MS = 500;
const KEEP_EVERY_MS = 90_000;
const AGAIN_FIRST_MS = 1000;
const AGAIN_MOST_MS = 8000;
const UNANSWERED_MOST = 50;
const LONGEST_RECIPE = 200_000;
const LAST_OPEN = 'bowlwright.open';

let store: TextStore = new MemoryStore();
/** The store has shown what it holds. Until then nothing is put into it that was not written by hand. */
let loaded = false;
const dirty = new Map<string, { keep: boolean }>();
/** Of them, those about which the person is being asked: neither saved nor replaced until there is an answer. */
const asking = new Set<string>();
const lastKept = new Map<string, number>();
/** What was sent and not answered: it may have arrived all the same, and is then nobody else's change. */
const unanswered = new Map<string, Set<string>>();
let drafted = false;

function replace(t: Text): void {
  texts.value = texts.value.some((o) => o.id === t.id) ? texts.value.map((o) => (o.id === t.id ? t : o)) : [...texts.value, t];
}
const textOf = (id: string): Text | undefined => texts.value.find((o) => o.id === id);

// ---- saving -----------------------------------------------------------------------------------------------------------

let saveTimer = 0;
let againTimer = 0;
let againAfter = AGAIN_FIRST_MS;
let saving: Promise<void> = Promise.resolve();

/** 'keep': the text before this change is kept as a version of its own, however short the time since the last. */
export function write(id: string, body: string, keep = false): void {
  const t = textOf(id);
  if (!t || t.body === body) return;
  if (!goingBack) changed(id, t.body, body, caretIn(id));
  replace({ ...t, body });
  dirty.set(id, { keep: keep || (dirty.get(id)?.keep ?? false) });
  if (saveTimer) clearTimeout(saveTimer);
  else begin('kept');
  saveTimer = window.setTimeout(() => void saveAll(), SAVE_AFTER_MS);
}

let goingBack = false;

/** Takes the last change of a text back, or puts it there again; true when there was one. */
export function step(id: string, which: 'undo' | 'redo'): boolean {
  const t = textOf(id);
  const to = t ? (which === 'undo' ? undo : redo)(id, t.body) : null;
  if (!to) return false;
  goingBack = true;
  write(id, to.body);
  goingBack = false;
  putCaret(id, to.caret);
  return true;
}

/** The next change of this text is a larger one: the text as it is now will be kept as a version. */
export function keepAsItIs(id: string): void {
  lastKept.delete(id);
}

export function saveAll(): Promise<void> {
  if (saveTimer) clearTimeout(saveTimer);
  else begin('kept');
  saveTimer = 0;
  clearTimeout(againTimer);
  saving = saving.then(saveDirty).finally(() => end('kept'));
  return saving;
}

async function saveDirty(): Promise<void> {
  const due = (): [string, { keep: boolean }][] => [...dirty].filter(([id]) => !asking.has(id));
  if (due().length === 0) {
    if (dirty.size > 0) draft(); /* what is written on while the person is being asked */
    return;
  }
  try {
    for (const [id, { keep }] of due()) await saveOne(id, keep);
    if (due().length === 0) allKept();
  } catch (e) {
    notKept(e);
  }
}

async function saveOne(id: string, keep: boolean): Promise<void> {
  const t = textOf(id);
  if (!t) {
    dirty.delete(id);
    return;
  }
  const now = performance.now(); /* a clock that is never set back */
  const keepVersion = keep || now - (lastKept.get(id) ?? -Infinity) > KEEP_EVERY_MS;
  const sent = unanswered.get(id) ?? new Set<string>();
  if (sent.size < UNANSWERED_MOST) unanswered.set(id, sent.add(t.body));
  const saved = await store.write(id, t.kind, t.body, t.rev, keepVersion);
  unanswered.delete(id);
  if (!saved.ok && !(saved.theirs && (saved.theirs.body === t.body || sent.has(saved.theirs.body)))) return conflict(t, saved.theirs);
  if (!saved.ok && saved.theirs && saved.theirs.body !== t.body) {
    replace({ ...(textOf(id) ?? t), rev: saved.theirs.rev, saved: saved.theirs.saved });
    return saveOne(id, keep);
  }
  const is = saved.ok ? saved : saved.theirs!;
  if (keepVersion && t.rev > 0) lastKept.set(id, now);
  const latest = textOf(id);
  if (latest) replace({ ...latest, rev: is.rev, saved: is.saved });
  if (!latest || latest.body === t.body) dirty.delete(id);
  savedAt.value = is.saved;
}

/** All texts, so that the page can be opened again and read while the program is stopped. */
function draft(): void {
  drafted = saveDraft({ texts: texts.value, dirty: [...dirty.keys()] });
}

function allKept(): void {
  const gone = unkept.value === 'gone';
  againAfter = AGAIN_FIRST_MS;
  unkept.value = '';
  dismiss('unkept');
  if (dirty.size > 0) {
    draft();
  } else {
    dropDraft();
    drafted = false;
  }
  if (gone) tell({ id: 'back', words: 'The program that keeps your texts answers again. Everything is kept.' });
}

function notKept(e: unknown): void {
  draft();
  const kind = e instanceof Unreachable ? 'gone' : e instanceof NoRoom ? 'room' : 'other';
  unkept.value = kind;
  dismiss('back');
  const stays = drafted
    ? 'What you write stays on this page, even if you close it and open it again'
    : 'What you write stays on this page: do not close it';
  const words = {
    gone: `The program that keeps your texts has stopped. ${stays}; it will be kept when “bowlwright serve” runs again.`,
    room: `Not kept: there is no room left. ${stays}; it will be kept as soon as there is room.`,
    other: `Not kept: ${e instanceof Error ? e.message : String(e)}. ${stays}.`,
  }[kind];
  tell({
    id: 'unkept',
    words,
    acts: [
      { words: 'Try now', act: () => void again() },
      { words: 'Export', act: () => void exportAll() },
    ],
  });
  clearTimeout(againTimer);
  againTimer = window.setTimeout(() => void again(), againAfter);
  againAfter = Math.min(2 * againAfter, AGAIN_MOST_MS);
}

async function again(): Promise<void> {
  try {
    if (!loaded) return await firstLoad();
    await saveAll();
    if ([...dirty.keys()].some((id) => !asking.has(id))) return;
    await look();
    allKept();
  } catch (e) {
    notKept(e);
  }
}

/** Two tabs wrote the same text. Neither is lost: the one not taken becomes a version or a text of its own. */
function conflict(mine: Text, theirs: Text | null): void {
  const id = `conflict-${mine.id}`;
  asking.add(mine.id);
  draft();
  const now = (): Text => textOf(mine.id) ?? mine;
  const answered = (): void => {
    dismiss(id);
    asking.delete(mine.id);
    dirty.delete(mine.id);
  };
  const keepMine = (): void => {
    answered();
    replace({ ...now(), rev: theirs?.rev ?? 0 });
    dirty.set(mine.id, { keep: true });
    void saveAll();
  };
  if (!theirs) {
    const letGo = (): void => (answered(), forget(mine.id));
    tell({
      id,
      words: 'This text was removed elsewhere while you wrote it.',
      acts: [
        { words: 'Keep mine', act: keepMine },
        { words: 'Let it go', act: letGo },
      ],
    });
    return;
  }
  const takeTheirs = (): void => {
    const body = now().body;
    answered();
    replace(theirs);
    if (mine.kind === 'animals') void asVersion(theirs, body);
    else void addText(mine.kind, body, false);
  };
  tell({
    id,
    words: 'This text was changed elsewhere, in another tab perhaps, since you last saw it. Nothing has been overwritten.',
    acts: [
      { words: 'Keep mine, theirs as an earlier version', act: keepMine },
      { words: `Take theirs, mine as ${mine.kind === 'animals' ? 'an earlier version' : 'a text of its own'}`, act: takeTheirs },
    ],
  });
}

/** There is one text about the animals: the one not taken is put below it. */
async function asVersion(theirs: Text, mine: string): Promise<void> {
  write(theirs.id, mine, true);
  await saveAll();
  write(theirs.id, theirs.body, true);
  await saveAll();
}

// ---- what others do ---------------------------------------------------------------------------------------------------

/** Everything as the store has it, but for what is being written here. */
function takeOver(all: Text[]): void {
  const mine = texts.value.filter((t) => dirty.has(t.id));
  const same = (t: Text): boolean => {
    const m = mine.find((o) => o.id === t.id);
    if (m && m.body === t.body) {
      dirty.delete(t.id);
      if (asking.delete(t.id)) dismiss(`conflict-${t.id}`);
    }
    return m === undefined || m.body === t.body;
  };
  const theirs = all.filter(same);
  const open = textOf(openId.value);
  batch(() => {
    texts.value = [...theirs, ...mine.filter((m) => !theirs.some((t) => t.id === m.id))];
    if (!textOf(recipeId.value)) showFirst();
    else if (!textOf(openId.value)) openId.value = recipeId.value;
  });
  if (open && !textOf(open.id)) tell({ id: 'removed', words: 'The text that was open here was removed elsewhere.', acts: [bringBack(open)] });
}

function bringBack(t: Text): { words: string; act: () => void } {
  return { words: 'Bring it back', act: () => (dismiss('removed'), void addText(t.kind, t.body)) };
}

/** In turn with the saves: a list that was read before one of them would take it back. */
function inTurn<T>(act: () => Promise<T>): Promise<T> {
  const done = saving.then(act);
  saving = done.then(
    () => undefined,
    () => undefined,
  );
  return done;
}

const look = (): Promise<void> => inTurn(lookNow);

/** Read while it was tried whether the store works. */
let listed: Awaited<ReturnType<TextStore['list']>> | null = null;

async function lookNow(): Promise<void> {
  const { texts: all, damaged } = listed ?? (await store.list());
  listed = null;
  if (damaged > 0)
    tell({
      id: 'damaged',
      words: `${damaged === 1 ? 'One stored text is' : `${damaged} stored texts are`} damaged and left alone; the others are all here.`,
    });
  takeOver(all);
}

/** Another tab saved: take it over silently when nothing of ours is waiting. */
async function heard(id: string, rev: number): Promise<void> {
  const t = textOf(id);
  if (!loaded || dirty.has(id)) return; /* our own save will meet the conflict */
  if (t ? t.rev >= rev && rev !== 0 : rev === 0) return;
  await look().catch(() => undefined);
}

function reach(there: boolean): void {
  if (there) void again();
  else notKept(new Unreachable());
}

// ---- texts come and go ------------------------------------------------------------------------------------------------

export async function addText(kind: Kind, body: string, show = true, id = newId()): Promise<string> {
  replace({ id, kind, body, rev: 0, saved: '' });
  dirty.set(id, { keep: false });
  if (show) {
    batch(() => {
      if (kind === 'recipe') recipeId.value = id;
      openId.value = id;
      choice.value = { kind: 'none' };
    });
  }
  await saveAll();
  return id;
}

function forget(id: string): void {
  texts.value = texts.value.filter((o) => o.id !== id);
  dirty.delete(id);
  asking.delete(id);
  if (openId.value === id || recipeId.value === id) showFirst();
}

export async function removeText(id: string): Promise<void> {
  const t = textOf(id);
  if (!t || t.kind === 'animals') return;
  begin('kept');
  await saveAll();
  const now = textOf(id) ?? t;
  try {
    if (now.rev > 0 && !(await inTurn(() => store.remove(id, now.rev)))) {
      tell({ id: 'remove', words: 'Not removed: the text was changed elsewhere.' });
      return;
    }
  } catch (e) {
    tell({ id: 'remove', words: `Not removed: ${e instanceof Error ? e.message : String(e)}.` });
    return;
  } finally {
    end('kept');
  }
  forget(id);
  if (!texts.value.some((o) => o.kind === 'recipe')) await addText('recipe', 'Recipe: \n');
  tell({
    id: 'removed',
    words: 'Removed.',
    acts: [bringBack(now)],
  });
}

export function showText(id: string): void {
  const t = textOf(id);
  if (!t) return;
  batch(() => {
    openId.value = id;
    if (t.kind === 'recipe' && recipeId.value !== id) {
      recipeId.value = id;
      choice.value = { kind: 'none' };
      eaten.value = 1;
    }
  });
  try {
    localStorage.setItem(LAST_OPEN, recipeId.value);
  } catch {
    /* a convenience only */
  }
}

function showFirst(): void {
  let last = '';
  try {
    last = localStorage.getItem(LAST_OPEN) ?? '';
  } catch {
    /* a convenience only */
  }
  const opened = textOf(lastOpen());
  const recipes = texts.value.filter((t) => t.kind === 'recipe');
  const newest = recipes.reduce<Text | undefined>((a, b) => (a && a.saved >= b.saved ? a : b), undefined);
  const first = recipes.find((t) => t.id === last) ?? recipes.find((t) => t.id === FIRST) ?? newest;
  if (first) showText(first.id);
  if (opened && opened.kind !== 'recipe') showText(opened.id);
}

export const versionsOf = (id: string): ReturnType<TextStore['versions']> => store.versions(id);

// ---- one file out and in ----------------------------------------------------------------------------------------------

export async function exportAll(): Promise<void> {
  await saveAll();
  const bundle = await store.export().catch((): Bundle => {
    tell({ id: 'exported', words: 'The file has the texts of this page, but not their earlier versions: the place where they are kept does not answer.' });
    return { bowlwright: 1, texts: [], versions: [] };
  });
  for (const t of texts.value) {
    const i = bundle.texts.findIndex((o) => o.id === t.id);
    const mine = { ...t, rev: Math.max(1, t.rev), saved: t.saved || new Date().toISOString() };
    if (i < 0) bundle.texts.push(mine);
    else if (dirty.has(t.id)) bundle.texts[i] = mine;
  }
  const url = URL.createObjectURL(new Blob([JSON.stringify(bundle, null, 1)], { type: 'application/json' }));
  const a = document.createElement('a');
  a.href = url;
  a.download = `bowlwright-${new Date().toISOString().slice(0, 10)}.json`;
  a.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** What a text that somebody brings is, by how it begins. */
function kindOf(body: string, name: string): Kind {
  if (/\.journal$/i.test(name)) return 'journal';
  const first = body.split('\n').find((l) => l.trim() !== '' && !l.trimStart().startsWith('#'))?.trim() ?? '';
  if (/^Plan:/i.test(first)) return 'plan';
  if (/^\d{4}-\d\d-\d\d\s/.test(first)) return 'journal';
  return textLines('foods', body).names.length > 0 && !textLines('recipe', body).lines.some((l) => l.header === 'Recipe') ? 'foods' : 'recipe';
}

export async function importFile(file: File): Promise<void> {
  begin('kept');
  try {
    const body = await file.text();
    if (!body.trimStart().startsWith('{')) {
      const kind = kindOf(body, file.name);
      if (kind !== 'journal' && body.length > LONGEST_RECIPE) throw new Error('This file is far longer than a recipe; it was not read.');
      const there = kind === 'journal' ? texts.value.find((t) => t.kind === 'journal') : undefined;
      if (!there) await addText(kind, body, true, kind === 'journal' ? kind : newId());
      else {
        write(there.id, body, true);
        tell({ id: 'imported', words: 'The journal is the one of the file now; the one before is kept as an earlier version.' });
      }
      return;
    }
    const bundle = readBundle(body);
    await saveAll();
    const count = await store.import(bundle);
    await look();
    tell({ id: 'imported', words: count === 1 ? 'One text was read.' : `${count} texts were read; older ones are kept as versions.` });
  } catch (e) {
    tell({ id: 'imported', words: e instanceof Error ? e.message : String(e) });
  } finally {
    end('kept');
  }
}

// ---- the beginning ----------------------------------------------------------------------------------------------------

const FIRST = 'example-weeknight-bowl';
/** Known ids: two tabs that open an empty store at once do not fill it twice. */
const EXAMPLES: [string, Kind, string][] = [
  ['animals', 'animals', household],
  [FIRST, 'recipe', weeknight],
  ['example-rice-pot', 'recipe', ricePot],
  ['example-eighty-ten-ten', 'recipe', eightyTenTen],
  ['example-garden-stew', 'recipe', gardenStew],
  ['example-pims-plate', 'recipe', pimsPlate],
  ['example-chest-freezer', 'larder', chestFreezer],
  ['example-kitchen-shelf', 'foods', kitchenShelf],
];

function fillWhatIsMissing(): void {
  const has = (kind: Kind): boolean => texts.value.some((t) => t.kind === kind);
  const fresh = texts.value.length === 0;
  const add = (id: string, kind: Kind, body: string): void => {
    replace({ id, kind, body, rev: 0, saved: '' });
    dirty.set(id, { keep: false });
  };
  for (const [id, kind, body] of EXAMPLES) if (fresh || (kind === 'animals' && !has(kind))) add(id, kind, body);
  if (!has('recipe')) add(newId(), 'recipe', 'Recipe: \n');
}

async function firstLoad(): Promise<void> {
  await look();
  loaded = true;
  batch(() => {
    fillWhatIsMissing();
    if (!textOf(recipeId.value)) showFirst();
  });
  if (dirty.size > 0) afterFirstAnswer(saveAll);
  else allKept();
}

const NO_ANSWER_MS = 2000;

/** Nobody waits for what was not written by hand to be kept, but everybody for the first answer. */
function afterFirstAnswer(act: () => Promise<void>): void {
  begin('kept');
  const answered = effect(() => {
    if (check.value) setTimeout(now, 0);
  });
  const timer = setTimeout(now, NO_ANSWER_MS);
  let done = false;
  function now(): void {
    if (done) return;
    done = true;
    answered();
    clearTimeout(timer);
    void act().finally(() => end('kept'));
  }
}

/** What could not be kept last time, or was on the page while the program was stopped. */
function takeDraft(): void {
  const d = readDraft();
  if (!d) return;
  for (const id of d.dirty) dirty.set(id, { keep: true });
  texts.value = d.texts;
}

async function openStore(): Promise<TextStore> {
  const served = servedBy(document);
  if (served) return new ApiStore(served.token);
  try {
    const opened = await openBrowserStore();
    listed = await opened.list();
    return opened;
  } catch {
    tell({ id: 'nostore', words: 'This browser keeps nothing from this page: export what you want to keep before you close it.' });
    return new MemoryStore();
  }
}

function leaving(): void {
  if (dirty.size > 0) draft();
  void saveAll();
}

export async function openTexts(): Promise<void> {
  begin('kept');
  store = await openStore();
  where.value = store.where;
  served.value = store.served;
  takeDraft();
  try {
    await firstLoad();
  } catch (e) {
    showFirst();
    notKept(e);
  }
  end('kept');
  store.watch({ told: (id, rev) => void heard(id, rev), missed: () => void again(), reach });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') leaving();
  });
  window.addEventListener('pagehide', leaving);
  window.addEventListener('beforeunload', (e) => {
    if (dirty.size > 0 && unkept.value !== '' && !drafted) e.preventDefault();
  });
}
