/** What the page knows, and what changes it. */
import { batch, computed, effect, signal, untracked } from '@preact/signals';
import { proposed, stop } from './acting';
import type { Check, Complaint, Finding, LarderAnswer, LineChoices, Nutrient } from './core/answers';
import { Core, Overtaken } from './core/client';
import { early } from './core/early';
import { firstParts, firstWorker } from './core/start';
import { hereReady, openHere, readHere, take as takeLibrary } from './core/here';
import type { Page, Question, Request, Shelf } from './core/question';
import { begin, end } from './settled';
import { holdsNoFood } from './writing/text';
import type { Text } from './store/store';
import { BASES, STANDARDS } from './words';

export const core = new Core(() => firstWorker, firstParts);
firstParts.then((e) => openHere(e.module)).catch(() => undefined);
/* Where the first attempt failed, the worker's own may not have. */
core.ready.then(
  () => (hereReady.value ? undefined : early().then((e) => openHere(e.module))),
  () => undefined,
);

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
export const answer = signal<Page | null>(null);
/** The last answer about this recipe that could be judged: stays on the page while something is being written. */
export const check = signal<Check | null>(null);
/** The recipe that it is about. */
let checkOf = '';
export const review = signal<Finding[]>([]);
/** What lines leave open, by their text: it stays with a line that moves, and goes with one that changes. */
export const choices = signal<ReadonlyMap<string, LineChoices>>(new Map());
export const besideId = signal('');
export const beside = signal<Check | null>(null);
export const trouble = signal('');
export const ready = signal(false);
export const notices = signal<Notice[]>([]);
/** The recipe into which something was pasted, until it is read as a post. */
export const pasted = signal('');
/** For those who hear the page. */
export const said = signal('');

export const recipe = computed(() => texts.value.find((t) => t.id === recipeId.value) ?? null);
/** What is read: the recipe, or the recipe with the changes that are proposed and taken. */
export const recipeBody = computed(() => proposed.value ?? recipe.value?.body ?? '');
export const open = computed(() => texts.value.find((t) => t.id === openId.value) ?? recipe.value);
/* Of these alone, for what does not change with every letter of the text. */
export const shownId = computed(() => open.value?.id ?? '');
export const openKind = computed(() => open.value?.kind ?? null);
export const recipeIsOpen = computed(() => open.value !== null && open.value.id === recipe.value?.id);
export const animals = computed(() => texts.value.find((t) => t.kind === 'animals') ?? null);
export const animalsBody = computed(() => animals.value?.body ?? '');
/** Texts of own foods, in an order that does not change while one is written. */
export const shelves = computed(() => texts.value.filter((t) => t.kind === 'foods').sort((a, b) => (a.id < b.id ? -1 : 1)));
const ownJoined = computed(() => JSON.stringify(shelves.value.map((t) => t.body)));
export const ownBodies = computed(() => JSON.parse(ownJoined.value) as string[]);
/** What they were read as, in the same order. */
export const shelf = signal<Shelf[]>([]);
export const complaints = computed<Complaint[]>(() => answer.value?.complaints ?? []);
/** About the larder that is open. */
export const larderComplaints = signal<Complaint[]>([]);
/** About the plan and the journal: from the days' place, once it is there. */
export const daysComplaints = signal<Complaint[]>([]);
export const openComplaints = computed(() => {
  const kind = open.value?.kind ?? 'recipe';
  if (kind === 'larder') return larderComplaints.value;
  if (kind === 'plan' || kind === 'journal') return daysComplaints.value.filter((c) => c.text === kind);
  if (kind === 'foods') return shelf.value[shelves.value.findIndex((t) => t.id === open.value?.id)]?.complaints ?? [];
  if (kind !== 'recipe') return complaints.value.filter((c) => c.text === kind);
  return complaints.value.flatMap((c) => (c.text === kind ? c : c.text === 'animals' && !answer.value?.check ? inTheWay(c) : []));
});

/** A complaint about the animals that keeps the open recipe from being read, in words for the recipe's writer. */
function inTheWay(c: Complaint): Complaint[] {
  if (c.level !== 'error') return [];
  const where = c.code === 'which-animal' ? '' : `In the text about the animals${c.line > 0 ? `, line ${c.line}` : ''}: `;
  return [{ ...c, line: 0, message: where + c.message, fix: [] }];
}

export function tell(n: Notice): void {
  notices.value = [...notices.value.filter((o) => o.id !== n.id), n];
}
export function dismiss(id: string): void {
  notices.value = notices.value.filter((n) => n.id !== id);
}

// ---- asking the core --------------------------------------------------------------------------------------------------

function today(): string {
  const d = new Date();
  return [String(d.getFullYear()).padStart(4, '0'), ...[d.getMonth() + 1, d.getDate()].map((n) => String(n).padStart(2, '0'))].join('-');
}

const asked = (): Request => ({
  today: today(),
  standard: STANDARDS[standard.value]?.key,
  basis: BASES[basis.value]?.key,
  sure: sure.value * 100,
});

export function question(): Question {
  return { animals: animals.value?.body ?? '', own: ownBodies.value, asked: asked() };
}

const NO_TABLES = { from: [], supply: null, table: null, minimum_table: null, upper_table: null, how: null };

/** Figures alone come without who supplies a nutrient and the rows behind it: these stay as they were until the whole answer is there, a moment
 * later. */
function completed(now: Check): Check {
  const before = new Map((check.value?.nutrients ?? []).map((n) => [n.key, n]));
  const nutrients = now.nutrients.map((n): Nutrient => {
    const { from, supply, table, minimum_table, upper_table, how } = before.get(n.key) ?? NO_TABLES;
    return { ...n, from, supply, table, minimum_table, upper_table, how };
  });
  return { ...now, nutrients };
}

/** What was read of another recipe, or before everything was deleted, must not look like a reading of this one. */
function take(a: Page, body: string, reviewed: boolean): void {
  batch(() => {
    answer.value = a;
    if (checkOf !== recipeId.value && !reviewed) review.value = [];
    if (a.check) {
      check.value = reviewed ? a.check : completed(a.check);
      checkOf = recipeId.value;
      if (reviewed) {
        review.value = a.check.findings;
        const lines = body.split('\n');
        choices.value = new Map(a.choices.map((c) => [lines[c.line - 1] ?? '', c]));
      }
    } else if (checkOf !== recipeId.value || holdsNoFood(body)) {
      check.value = null;
      review.value = [];
    }
  });
}

let reviewTimer = 0;
const REVIEW_AFTER_MS = 140;
/** Counts the questions about the recipe: an answer to an older one is not taken any more. */
let turn = 0;

/** Numbers at once; the written review when the hand rests. */
export async function askAgain(): Promise<void> {
  if (!recipe.value) return;
  const body = recipeBody.value;
  turn++;
  if (reviewTimer) clearTimeout(reviewTimer);
  else begin('core');
  reviewTimer = window.setTimeout(() => {
    reviewTimer = 0;
    void askFor(body, true).finally(() => end('core'));
  }, REVIEW_AFTER_MS);
  const told = readHere(body, eaten.value, question());
  if (!told) await askFor(body, false);
  else if (told.answer) take({ ...told.answer, complaints: told.complaints }, body, false);
}

async function askFor(body: string, reviewed: boolean): Promise<void> {
  const asked = turn;
  try {
    const a = await core.page(body, eaten.value, reviewed, question());
    if (a && asked === turn) take(a, body, reviewed);
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
    beside.value = (await core.page(text.body, 1, true, question(), 'beside'))?.check ?? null;
  } catch {
    /* overtaken by a newer question */
  }
}

async function askLarder(body: string): Promise<void> {
  try {
    larderComplaints.value = (await core.tell<LarderAnswer>('larder', 'larder', [body], question())).complaints;
  } catch {
    /* overtaken by a newer question */
  }
}

async function askShelf(): Promise<void> {
  try {
    shelf.value = await core.shelf(question());
  } catch {
    /* overtaken by a newer question */
  }
}

// ---- the beginning ----------------------------------------------------------------------------------------------------

export function startReading(): void {
  core.ready.then(
    () => (ready.value = true),
    (e: Error) => (trouble.value = e.message),
  );
  const unborrowed = effect(() => {
    /* Not before the first answer can be seen. */
    if (check.value) setTimeout(borrow, 0);
  });
  const borrow = (): void => {
    unborrowed();
    core.borrow(takeLibrary);
  };
  effect(() => {
    void [recipeBody.value, animalsBody.value, ownBodies.value, standard.value, basis.value, sure.value, eaten.value];
    untracked(() => void askAgain());
  });
  effect(() => {
    void [besideId.value, proposed.value !== null, animalsBody.value, ownBodies.value, standard.value, basis.value, sure.value];
    void askBeside();
  });
  effect(() => {
    void openId.value;
    untracked(stop);
  });
  effect(() => {
    const t = open.value;
    if (t?.kind === 'larder') void askLarder(t.body);
  });
  effect(() => {
    void ownBodies.value;
    void askShelf();
  });
}
