/** What the page knows, and what changes it. */
import { batch, computed, effect, signal } from '@preact/signals';
import { proposed, stop } from './acts';
import eightyTenTen from '@examples/eighty-ten-ten.recipe?raw';
import gardenStew from '@examples/garden-stew.recipe?raw';
import pimsPlate from '@examples/pims-plate.recipe?raw';
import ricePot from '@examples/rice-pot.recipe?raw';
import chestFreezer from '@examples/chest-freezer.larder?raw';
import household from '@examples/saltmarsh.animals?raw';
import weeknight from '@examples/weeknight-bowl.recipe?raw';
import type { Check, Complaint, Finding, PageAnswer, Question } from './core/answers';
import { Core, Overtaken } from './core/client';
import { openBrowserStore } from './store/browser';
import { MemoryStore } from './store/memory';
import { newId, readBundle, type Kind, type Text, type TextStore } from './store/store';

export const core = new Core(() => new Worker(new URL('./core/worker.ts', import.meta.url), { type: 'module' }));

export type Choice = { kind: 'none' } | { kind: 'nutrient'; key: string } | { kind: 'line'; line: number };
export type Notice = { id: string; words: string; acts?: { words: string; act: () => void }[] };

export const texts = signal<Text[]>([]);
/** Which recipe is read, and which text is open for writing (the recipe itself, or the animals). */
export const recipeId = signal('');
export const openId = signal('');
export const standard = signal(0);
export const basis = signal(0);
export const sure = signal(0.75);
export const eaten = signal(1);
export const choice = signal<Choice>({ kind: 'none' });
export const answer = signal<PageAnswer | null>(null);
/** The last answer that could be judged: stays on the page while something is being written. */
export const check = signal<Check | null>(null);
export const review = signal<Finding[]>([]);
export const besideId = signal('');
export const beside = signal<Check | null>(null);
export const trouble = signal('');
export const ready = signal(false);
export const notices = signal<Notice[]>([]);
export const savedAt = signal('');
export const where = signal('');
/** Milliseconds that the core took for the last answer. */
export const said = signal('');

export const recipe = computed(() => texts.value.find((t) => t.id === recipeId.value) ?? null);
/** What is read: the recipe, or the recipe with the changes that are proposed and taken. */
export const recipeBody = computed(() => proposed.value ?? recipe.value?.body ?? '');
export const open = computed(() => texts.value.find((t) => t.id === openId.value) ?? recipe.value);
export const animals = computed(() => texts.value.find((t) => t.kind === 'animals') ?? null);
export const animalsBody = computed(() => animals.value?.body ?? '');
export const complaints = computed<Complaint[]>(() => answer.value?.complaints ?? []);
/** About the larder that is open. */
export const larderComplaints = signal<Complaint[]>([]);
export const openComplaints = computed(() => {
  const kind = open.value?.kind ?? 'recipe';
  if (kind === 'larder') return larderComplaints.value;
  return complaints.value.filter((c) => c.text === kind);
});

export function tell(n: Notice): void {
  notices.value = [...notices.value.filter((o) => o.id !== n.id), n];
}
export function dismiss(id: string): void {
  notices.value = notices.value.filter((n) => n.id !== id);
}

// ---- asking the core --------------------------------------------------------------------------------------------------

function today(): [number, number, number] {
  const d = new Date();
  return [d.getFullYear(), d.getMonth() + 1, d.getDate()];
}

export function question(): Question {
  return { animals: animals.value?.body ?? '', today: today(), standard: standard.value, basis: basis.value, sure: sure.value };
}

function take(a: PageAnswer, reviewed: boolean): void {
  batch(() => {
    answer.value = a;
    if (a.check) {
      check.value = a.check;
      if (reviewed) review.value = a.check.findings;
    }
  });
}

let reviewTimer = 0;
const REVIEW_AFTER_MS = 140;

/** Numbers at once; the written review when the hand rests. */
export async function askAgain(): Promise<void> {
  if (!recipe.value) return;
  const body = recipeBody.value;
  clearTimeout(reviewTimer);
  reviewTimer = window.setTimeout(() => void askFor(body, true), REVIEW_AFTER_MS);
  await askFor(body, false);
}

async function askFor(body: string, reviewed: boolean): Promise<void> {
  try {
    const a = await core.page(body, eaten.value, reviewed, question());
    if (recipeBody.value === body) take(a, reviewed);
  } catch (e) {
    if (!(e instanceof Overtaken)) trouble.value = e instanceof Error ? e.message : String(e);
  }
}

async function askBeside(): Promise<void> {
  const before = proposed.value !== null ? recipe.value : null;
  const text = before ?? texts.value.find((t) => t.id === besideId.value);
  if (!text) {
    beside.value = null;
    return;
  }
  try {
    beside.value = (await core.page(text.body, 1, false, question(), 'beside')).check;
  } catch {
    /* overtaken by a newer question */
  }
}

async function askLarder(body: string): Promise<void> {
  try {
    const reply = await core.ask('larder', 'larder', [body]);
    larderComplaints.value = (JSON.parse(reply.answer) as { complaints: Complaint[] }).complaints;
  } catch {
    /* overtaken by a newer question */
  }
}

// ---- texts ------------------------------------------------------------------------------------------------------------

let store: TextStore = new MemoryStore();
/** Revs that this page has seen of each text, and texts with changes that are not saved yet. */
const dirty = new Map<string, { keep: boolean }>();
const lastKept = new Map<string, number>();
let saveTimer = 0;
let saving: Promise<void> = Promise.resolve();
const SAVE_AFTER_MS = 500;
const LONGEST_RECIPE = 200_000;
const KEEP_EVERY_MS = 90_000;

function replace(t: Text): void {
  texts.value = texts.value.some((o) => o.id === t.id) ? texts.value.map((o) => (o.id === t.id ? t : o)) : [...texts.value, t];
}

/** 'keep': the text before this change is kept as a version of its own, however short the time since the last. */
export function write(id: string, body: string, keep = false): void {
  const t = texts.value.find((o) => o.id === id);
  if (!t || t.body === body) return;
  replace({ ...t, body });
  dirty.set(id, { keep: keep || (dirty.get(id)?.keep ?? false) });
  clearTimeout(saveTimer);
  saveTimer = window.setTimeout(() => void saveAll(), SAVE_AFTER_MS);
}

export function saveAll(): Promise<void> {
  clearTimeout(saveTimer);
  saving = saving.then(async () => {
    for (const [id, { keep }] of [...dirty]) await saveOne(id, keep);
  });
  return saving;
}

async function saveOne(id: string, keep: boolean): Promise<void> {
  const t = texts.value.find((o) => o.id === id);
  if (!t) return;
  const now = Date.now();
  const keepVersion = keep || now - (lastKept.get(id) ?? 0) > KEEP_EVERY_MS;
  try {
    const saved = await store.write(id, t.kind, t.body, t.rev, keepVersion);
    if (!saved.ok) return conflict(t, saved.theirs);
    if (keepVersion && t.rev > 0) lastKept.set(id, now);
    const latest = texts.value.find((o) => o.id === id);
    if (latest) replace({ ...latest, rev: saved.rev, saved: saved.saved });
    if (latest?.body === t.body) dirty.delete(id);
    savedAt.value = saved.saved;
    dismiss('unsaved');
  } catch (e) {
    const why = e instanceof DOMException && e.name === 'QuotaExceededError' ? 'there is no room left' : String((e as Error).message);
    tell({
      id: 'unsaved',
      words: `Not saved: ${why}. What you wrote stays on this page; export it to keep it.`,
      acts: [
        { words: 'Try again', act: () => void saveAll() },
        { words: 'Export', act: () => void exportAll() },
      ],
    });
  }
}

/** Two tabs wrote the same text. Neither is lost: the one not taken becomes a version or a text of its own. */
function conflict(mine: Text, theirs: Text | null): void {
  dirty.delete(mine.id);
  const rev = theirs?.rev ?? 0;
  tell({
    id: `conflict-${mine.id}`,
    words: 'This text was changed in another tab since you last saw it. Nothing has been overwritten.',
    acts: [
      {
        words: 'Keep mine, theirs as an earlier version',
        act: () => {
          dismiss(`conflict-${mine.id}`);
          const now = texts.value.find((o) => o.id === mine.id) ?? mine;
          replace({ ...now, rev });
          dirty.set(mine.id, { keep: true });
          void saveAll();
        },
      },
      {
        words: 'Take theirs, mine as a text of its own',
        act: () => {
          dismiss(`conflict-${mine.id}`);
          const now = texts.value.find((o) => o.id === mine.id) ?? mine;
          if (theirs) replace(theirs);
          void addText(mine.kind === 'animals' ? 'recipe' : mine.kind, now.body, false);
        },
      },
    ],
  });
}

/** Another tab saved: take it over silently when nothing of ours is waiting. */
async function otherTab(id: string, rev: number): Promise<void> {
  const t = texts.value.find((o) => o.id === id);
  if (t && t.rev >= rev && rev !== 0) return;
  if (dirty.has(id)) return; /* our own save will meet the conflict */
  const { texts: all } = await store.list();
  const theirs = all.find((o) => o.id === id);
  if (theirs && !dirty.has(id)) replace(theirs);
  else if (!theirs && !dirty.has(id)) texts.value = texts.value.filter((o) => o.id !== id);
}

export async function addText(kind: Kind, body: string, show = true): Promise<string> {
  const id = newId();
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

export async function removeText(id: string): Promise<void> {
  const t = texts.value.find((o) => o.id === id);
  if (!t || t.kind === 'animals') return;
  await saveAll();
  const now = texts.value.find((o) => o.id === id) ?? t;
  if (!(await store.remove(id, now.rev))) {
    tell({ id: 'remove', words: 'Not removed: the text was changed in another tab.' });
    return;
  }
  texts.value = texts.value.filter((o) => o.id !== id);
  const rest = texts.value.find((o) => o.kind === 'recipe');
  if (rest) showText(rest.id);
  else await addText('recipe', 'Recipe: \n');
  tell({
    id: 'removed',
    words: 'Removed.',
    acts: [{ words: 'Bring it back', act: () => (dismiss('removed'), void addText(t.kind, now.body)) }],
  });
}

export function showText(id: string): void {
  const t = texts.value.find((o) => o.id === id);
  if (!t) return;
  if (id !== openId.value) stop();
  batch(() => {
    openId.value = id;
    if (t.kind === 'recipe' && recipeId.value !== id) {
      recipeId.value = id;
      choice.value = { kind: 'none' };
      eaten.value = 1;
    }
  });
  try {
    localStorage.setItem('bowlwright.open', recipeId.value);
  } catch {
    /* a convenience only */
  }
}

export const versionsOf = (id: string): ReturnType<TextStore['versions']> => store.versions(id);

export async function exportAll(): Promise<void> {
  await saveAll();
  const bundle = await store.export();
  for (const t of texts.value) {
    const i = bundle.texts.findIndex((o) => o.id === t.id);
    const mine = { ...t, rev: Math.max(1, t.rev) };
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

export async function importFile(file: File): Promise<void> {
  try {
    const body = await file.text();
    if (!body.trimStart().startsWith('{')) {
      if (body.length > LONGEST_RECIPE) throw new Error('This file is far longer than a recipe; it was not read.');
      await addText('recipe', body);
      return;
    }
    const bundle = readBundle(body);
    await saveAll();
    const count = await store.import(bundle);
    await load();
    tell({ id: 'imported', words: count === 1 ? 'One text was read.' : `${count} texts were read; older ones are kept as versions.` });
  } catch (e) {
    tell({ id: 'imported', words: e instanceof Error ? e.message : String(e) });
  }
}

async function load(): Promise<void> {
  const { texts: all, damaged } = await store.list();
  if (damaged > 0)
    tell({
      id: 'damaged',
      words: `${damaged === 1 ? 'One stored text is' : `${damaged} stored texts are`} damaged and left alone; the others are all here.`,
    });
  texts.value = all;
}

async function firstRun(): Promise<void> {
  const has = (kind: Kind): boolean => texts.value.some((t) => t.kind === kind);
  const fresh = texts.value.length === 0;
  if (!has('animals')) await addText('animals', household, false);
  if (fresh) for (const body of [weeknight, ricePot, eightyTenTen, gardenStew, pimsPlate]) await addText('recipe', body, false);
  if (fresh) await addText('larder', chestFreezer, false);
  if (!has('recipe')) await addText('recipe', 'Recipe: \n', false);
}

export async function start(): Promise<void> {
  try {
    store = await openBrowserStore();
    await load();
  } catch {
    tell({ id: 'nostore', words: 'This browser keeps nothing from this page: export what you want to keep before you close it.' });
    store = new MemoryStore();
  }
  where.value = store.where;
  await firstRun();
  let last = '';
  try {
    last = localStorage.getItem('bowlwright.open') ?? '';
  } catch {
    /* a convenience only */
  }
  const first = texts.value.find((t) => t.id === last && t.kind === 'recipe') ?? texts.value.find((t) => t.kind === 'recipe');
  if (first) showText(first.id);
  store.watch((id, rev) => void otherTab(id, rev));
  const leaving = (): void => {
    if (document.visibilityState === 'hidden') void saveAll();
  };
  document.addEventListener('visibilitychange', leaving);
  window.addEventListener('pagehide', () => void saveAll());
  core.ready.then(
    () => (ready.value = true),
    (e: Error) => (trouble.value = e.message),
  );
  effect(() => {
    void [recipeBody.value, animalsBody.value, standard.value, basis.value, sure.value, eaten.value];
    void askAgain();
  });
  effect(() => {
    void [besideId.value, proposed.value !== null, animalsBody.value, standard.value, basis.value, sure.value];
    void askBeside();
  });
  effect(() => {
    const t = open.value;
    if (t?.kind === 'larder') void askLarder(t.body);
  });
}
