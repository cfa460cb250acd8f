/** What the days' place knows, and what it asks of the core: of one of its own, so that a long journal keeps nobody from writing. */
import { batch, computed, effect, signal } from '@preact/signals';
import type { Complaint, Envelope, EntryAnswer, JournalAnswer, Rotation, Slim, Trend, WeeksAnswer } from '../core/answers';
import { Core, Overtaken } from '../core/client';
import { WHOLE } from '../core/early';
import { animalNames, forWhom, nameOf } from '../writing/text';
import { animalsBody, basis, daysComplaints, open, ownBodies, question, recipe, standard, sure, texts } from '../state';
import { addText, write } from '../texts';
import type { Text } from '../store/store';

/** One journal a household: a text of this id, on the page and in the store of the program. */
export const JOURNAL = 'journal';

const core = new Core(() => new Worker(new URL('../core/worker.ts', import.meta.url), { type: 'module', name: WHOLE }));

export const trouble = signal('');
core.ready.catch((e: Error) => (trouble.value = e.message));

async function tell<T>(kind: string, call: string, args: Parameters<Core['ask']>[2]): Promise<Envelope<T> | null> {
  try {
    return await core.tell<T>(kind, call, args, question());
  } catch (e) {
    if (!(e instanceof Overtaken)) trouble.value = e instanceof Error ? e.message : String(e);
    return null;
  }
}

// ---- the texts --------------------------------------------------------------------------------------------------------

const EXAMPLE = 'example-';
/** What a plan or journal may call a recipe, besides its title: examples by their files, of two of one title the second by its number. */
function namesOf(all: Text[]): string[] {
  const seen = new Map<string, number>();
  return all.map((t) => {
    const name = t.id.startsWith(EXAMPLE) ? t.id.slice(EXAMPLE.length) : nameOf(t);
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return times > 1 ? `${name} (${times})` : name;
  });
}

/** All recipes, as plans and journals call them. */
const kitchen = computed(() => {
  const all = texts.value.filter((t) => t.kind === 'recipe').sort((a, b) => (a.id < b.id ? -1 : 1));
  const names = namesOf(all);
  return all.map((t, i) => ({ id: t.id, name: names[i]!, body: t.body }));
});
/** As one argument: "name\0text\0". */
const inOne = (of: { name: string; body: string }[]): string => of.map((r) => `${r.name}\0${r.body}\0`).join('');
const recipes = computed(() => inOne(kitchen.value));
export const journal = computed(() => texts.value.find((t) => t.kind === 'journal' && t.id === JOURNAL) ?? texts.value.find((t) => t.kind === 'journal') ?? null);
const journalBody = computed(() => journal.value?.body ?? '');
const plansListed = computed(() => JSON.stringify(texts.value.filter((t) => t.kind === 'plan').map((t) => ({ id: t.id, title: nameOf(t) }))));
export const plans = computed(() => JSON.parse(plansListed.value) as { id: string; title: string }[]);

/** The end of a long journal, where new lines stand: what was written lately, for a first answer while the whole is read. */
const NEAR_MOST = 96 * 1024;
function nearEnd(body: string): string | null {
  if (body.length <= 2 * NEAR_MOST) return null;
  const from = body.indexOf('\n', body.length - NEAR_MOST);
  return from < 0 ? null : body.slice(from + 1);
}

/** Puts a line at the end of the journal; the journal begins with its first one. */
export function addLine(line: string): void {
  const j = journal.value;
  if (!j) void addText('journal', `${line}\n`, false, JOURNAL);
  else write(j.id, `${j.body}${j.body === '' || j.body.endsWith('\n') ? '' : '\n'}${line}\n`, j.body.length < NEAR_MOST); /* a line more takes nothing away: a long journal is not kept whole for each */
}

// ---- the journal ------------------------------------------------------------------------------------------------------

export const held = signal<JournalAnswer | null>(null);
export const journalComplaints = signal<Complaint[]>([]);

export const suggest = (line: string): Promise<Envelope<EntryAnswer> | null> =>
  tell<EntryAnswer>('entry', 'entry', [journalBody.value, recipes.value, line]);

// ---- weeks ------------------------------------------------------------------------------------------------------------

/** "recipe": that of the page; "journal"; else the id of a plan. */
export const weekOf = signal('recipe');
export const span = signal(28);
export const weeks = signal<WeeksAnswer | null>(null);
export const weekComplaints = signal<Complaint[]>([]);

/** Of the journal's animals, the one whose days and weights are shown. */
const chosen = signal('');
const named = computed(() => held.value?.names ?? []);
export const who = computed(() => {
  const fits = (name: string): string => named.value.find((n) => n.toLowerCase() === name.toLowerCase()) ?? '';
  return fits(chosen.value) || fits(forWhom('recipe', recipe.value?.body ?? '')) || named.value[0] || '';
});
export const names = named;
export const choose = (name: string): void => void (chosen.value = name);

const DAY_MS = 86_400_000;
const daysBefore = (date: string, days: number): string => new Date(Date.parse(`${date}T00:00:00Z`) - days * DAY_MS).toISOString().slice(0, 10);

/** The last day on which something was eaten. */
const lastEaten = computed(() => held.value?.facts.find((f) => f.fact === 'ate' && f.animal === who.value)?.date ?? '');

async function askWeek(): Promise<void> {
  const of = weekOf.value;
  const plan = texts.value.find((t) => t.id === of);
  const until = lastEaten.value;
  const asked =
    of === 'journal'
      ? until === ''
        ? null
        : (['journal', journalBody.value, recipes.value, who.value, { since: daysBefore(until, span.value - 1), until }] as const)
      : of === ROTATE
        ? null
        : of === 'recipe'
          ? (['recipe', recipe.value?.body ?? '', '', '', {}] as const)
        : (['plan', plan?.body ?? '', recipes.value, '', {}] as const);
  const told = asked ? await tell<WeeksAnswer>('week', 'week', [...asked]) : null;
  if (asked && !told) return;
  batch(() => {
    weeks.value = told?.answer ?? null;
    weekComplaints.value = told?.complaints ?? [];
  });
}

// ---- rotations ---------------------------------------------------------------------------------------------------------

/** "several recipes", where a plan's id may stand. */
export const ROTATE = 'rotate';
export const ROTATE_MOST = 8;
const dishesListed = computed(() => JSON.stringify(kitchen.value.map(({ id, name }) => ({ id, name }))));
export const dishes = computed(() => JSON.parse(dishesListed.value) as { id: string; name: string }[]);
export const eaters = computed(() => animalNames(animalsBody.value));
export const rotateFor = signal('');
export const rotateDays = signal(7);
export const eater = computed(() => {
  const fits = (name: string): string => eaters.value.find((n) => n.toLowerCase() === name.toLowerCase()) ?? '';
  return fits(rotateFor.value) || fits(forWhom('recipe', recipe.value?.body ?? '')) || eaters.value[0] || '';
});
const picked = signal<ReadonlySet<string> | null>(null);
/** The open recipe, until others are chosen. */
export const rotating = computed<ReadonlySet<string>>(() => {
  const there = new Set(dishes.value.map((d) => d.id));
  return new Set([...(picked.value ?? [recipe.value?.id ?? ''])].filter((id) => there.has(id)));
});
export function chooseDish(id: string, in_: boolean): void {
  const next = new Set(rotating.value);
  if (in_) next.add(id);
  else next.delete(id);
  picked.value = next;
}
export const rotation = signal<Rotation | null>(null);
export const rotateComplaints = signal<Complaint[]>([]);
/** An answer is on its way. */
export const rotateAsked = signal(false);

async function askRotation(): Promise<void> {
  const of = kitchen.value.filter((r) => rotating.value.has(r.id));
  if (weekOf.value !== ROTATE || of.length < 2) {
    batch(() => ((rotation.value = null), (rotateComplaints.value = []), (rotateAsked.value = false)));
    return;
  }
  rotateAsked.value = true;
  const told = await tell<Rotation>('rotate', 'rotate', [inOne(of), eater.value, { days: rotateDays.value }]);
  if (!told) return;
  batch(() => ((rotation.value = told.answer), (rotateComplaints.value = told.complaints), (rotateAsked.value = false)));
}

// ---- weights ----------------------------------------------------------------------------------------------------------

export const trend = signal<Trend | null>(null);
export const slim = signal<Slim | null>(null);

/** Whose plan is shown. */
let slimOf = '';

async function askWeight(): Promise<void> {
  const name = who.value;
  if (name === '') {
    batch(() => ((trend.value = null), (slim.value = null)));
    return;
  }
  const t = await tell<Trend>('trend', 'trend', [journalBody.value, recipes.value, name, {}]);
  if (!t) return;
  batch(() => {
    trend.value = t.answer;
    if (slimOf !== name) slim.value = null;
  });
  const s = await tell<Slim>('slim', 'slim', [journalBody.value, recipes.value, '', name, {}]);
  if (!s) return;
  slimOf = name;
  slim.value = s.answer;
}

/** The open recipe, mended so that it meets every allowance at the plan's lowest energy. */
export async function slimBowl(): Promise<Envelope<Slim> | null> {
  return tell<Slim>('bowl', 'slim', [journalBody.value, recipes.value, recipe.value?.body ?? '', who.value, {}]);
}

// ---- asking again -----------------------------------------------------------------------------------------------------

const AFTER_MS = 160;
const WHOLE_AFTER_MS = 1500; /* of a long journal: figures first, then what the whole of it is asked about */
function whenStill(act: () => Promise<void>, after = AFTER_MS): () => void {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = window.setTimeout(() => void act(), after);
  };
}

const common = (): unknown[] => [animalsBody.value, ownBodies.value, standard.value, basis.value, sure.value];
const later = { week: whenStill(askWeek), weight: whenStill(askWeight), rotation: whenStill(askRotation), journal: whenStill(askWholeJournal, WHOLE_AFTER_MS) };

async function askJournal(): Promise<void> {
  const body = journalBody.value;
  const near = nearEnd(body);
  if (near !== null) {
    const first = await tell<JournalAnswer>('journal near', 'journal', [near]);
    if (!first?.answer || body !== journalBody.value) return;
    /* The order of the animals is that of the whole text. */
    const names = held.value?.names ?? [];
    held.value = { ...first.answer, names: [...names, ...first.answer.names.filter((n) => !names.includes(n))] };
  }
  later.journal();
}
async function askWholeJournal(): Promise<void> {
  const told = await tell<JournalAnswer>('journal', 'journal', [journalBody.value]);
  if (!told) return;
  batch(() => ((held.value = told.answer), (journalComplaints.value = told.complaints)));
}
effect(() => {
  void [animalsBody.value, journalBody.value];
  void (journalBody.value.length > 2 * NEAR_MOST ? askJournal() : askWholeJournal());
});
const planBody = computed(() => texts.value.find((t) => t.id === weekOf.value)?.body ?? '');
const recipeText = computed(() => (weekOf.value === 'recipe' ? (recipe.value?.body ?? '') : ''));
effect(() => {
  void [...common(), weekOf.value, span.value, planBody.value, recipeText.value];
  if (weekOf.value !== 'recipe') void recipes.value;
  if (weekOf.value === 'journal') void [journalBody.value, lastEaten.value, who.value];
  later.week();
});
effect(() => {
  if (weekOf.value === ROTATE) void [...common(), rotating.value, recipes.value, eater.value, rotateDays.value];
  later.rotation();
});
effect(() => {
  void [...common(), journalBody.value, recipes.value, who.value];
  later.weight();
});
/* The plan that is open is the one that is looked at. */
effect(() => {
  const t = open.value;
  if (t?.kind === 'plan') weekOf.value = t.id;
  else if (t?.kind === 'journal') weekOf.value = 'journal';
});
effect(() => {
  daysComplaints.value = [...weekComplaints.value.filter((c) => c.text === 'plan'), ...journalComplaints.value.filter((c) => c.text === 'journal')];
});
