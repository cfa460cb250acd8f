/** What the days' place knows, and what it asks of the core: of one of its own, so that a long journal keeps nobody from writing. */
import { batch, computed, effect, signal, untracked } from '@preact/signals';
import type { Complaint, Envelope, EntryAnswer, JournalAnswer, Rotation, Slim, Trend, WeeksAnswer } from '../core/answers';
import { Core, Overtaken } from '../core/client';
import { WHOLE } from '../core/early';
import { begin, end } from '../settled';
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

/** Of a longer journal the newest days are looked at first, wherever they stand in it, while the whole is read. */
const LONG_FROM = 192 * 1024;
const FIRST_DAYS = 8;

/** Puts a line at the end of the journal; the journal begins with its first one. */
export function addLine(line: string): void {
  const j = journal.value;
  if (!j) void addText('journal', `${line}\n`, false, JOURNAL);
  else write(j.id, `${j.body}${j.body === '' || j.body.endsWith('\n') ? '' : '\n'}${line}\n`, j.body.length < LONG_FROM); /* a line more takes nothing away: a long journal is not kept whole for each */
}

// ---- the journal ------------------------------------------------------------------------------------------------------

export const held = signal<JournalAnswer | null>(null);
export const journalComplaints = signal<Complaint[]>([]);
/** Only its newest days are here yet. */
export const inPart = computed(() => held.value?.part ?? false);

export const suggest = (line: string): Promise<Envelope<EntryAnswer> | null> =>
  tell<EntryAnswer>('entry', 'entry', [journalBody.value, recipes.value, line]);

// ---- weeks ------------------------------------------------------------------------------------------------------------

/** "recipe": that of the page; "journal"; else the id of a plan. */
export const weekOf = signal('recipe');
export const span = signal(28);
export const weeks = signal<WeeksAnswer | null>(null);
export const weekComplaints = signal<Complaint[]>([]);

/** What is drawn of weeks is of another choice or an older text: an answer is on its way. */
export const counting = signal(false);

/** Of the journal's animals, the one whose days and weights are shown. */
const chosen = signal('');
const namesListed = computed(() => JSON.stringify(held.value?.animals.map((a) => a.name) ?? []));
const named = computed(() => JSON.parse(namesListed.value) as string[]);
export const who = computed(() => {
  const fits = (name: string): string => named.value.find((n) => n.toLowerCase() === name.toLowerCase()) ?? '';
  return fits(chosen.value) || fits(forWhom('recipe', recipe.value?.body ?? '')) || named.value[0] || '';
});
export const names = named;
export const choose = (name: string): void => void (chosen.value = name);

const DAY_MS = 86_400_000;
const daysBefore = (date: string, days: number): string => new Date(Date.parse(`${date}T00:00:00Z`) - days * DAY_MS).toISOString().slice(0, 10);

/** The last day of which it is written what was eaten; null: of none; undefined: that is not known yet. */
export const lastEaten = computed(() => {
  const last = held.value?.animals.find((a) => a.name === who.value)?.last_ate;
  return last ?? (held.value && !held.value.part ? null : undefined);
});

async function askWeek(): Promise<void> {
  const of = weekOf.value;
  const plan = texts.value.find((t) => t.id === of);
  const until = lastEaten.value;
  if (of === 'journal' && until === undefined) return;
  const asked =
    of === 'journal'
      ? until
        ? (['journal', journalBody.value, recipes.value, who.value, { since: daysBefore(until, span.value - 1), until }] as const)
        : null
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
    counting.value = false;
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
/** Why there is no weight, and what of the chosen animal's meals is not understood: whoever reads the journal alone knows no recipes. */
export const weightComplaints = signal<Complaint[]>([]);
const READ_ALL_THE_SAME: ReadonlySet<string> = new Set(['assumed', 'cooking']);
/** What the journal is asked about. */
export const journalAsked = computed(() => {
  const own = journalComplaints.value;
  const there = new Set(own.map((c) => `${c.line} ${c.message}`));
  const more = weightComplaints.value.filter((c) => c.text === 'journal' && c.line > 0 && c.level === 'warning' && !READ_ALL_THE_SAME.has(c.code));
  return [...own, ...more.filter((c) => !there.has(`${c.line} ${c.message}`))];
});
/** What is drawn is of another animal or an older text: an answer is on its way. */
export const weighing = signal(false);
/** Days of weight that are drawn. */
export const DRAWN_DAYS = 182;

/** Whose plan is shown. */
let slimOf = '';

async function askWeight(): Promise<void> {
  const name = who.value;
  if (name === '') {
    batch(() => ((trend.value = null), (slim.value = null), (weightComplaints.value = []), (weighing.value = held.value === null && journalBody.value !== '')));
    return;
  }
  const since = daysBefore(String(question().asked['today']), DRAWN_DAYS);
  const t = await tell<Trend>('trend', 'trend', [journalBody.value, recipes.value, name, { since }]);
  if (!t) return;
  batch(() => {
    trend.value = t.answer;
    weightComplaints.value = t.complaints;
    weighing.value = false;
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

/** Somebody writes: the hand is waited for. Somebody chooses: nobody waits. */
const AFTER_MS = 160;
const WHOLE_AFTER_MS = 1500; /* of a long journal: figures first, then what the whole of it is asked about */

const LOOK_AGAIN_MS = 30;

/** 'after' AFTER_MS or 0; the document says meanwhile that something is on its way. */
function whenStill(act: () => Promise<void>): (after: number) => void {
  let timer = 0;
  return (after) => {
    if (timer) clearTimeout(timer);
    else begin('core');
    timer = window.setTimeout(() => {
      timer = 0;
      void act().finally(() => end('core'));
    }, after);
  };
}

/** How long to wait: not at all where something else is looked at, or these texts are the ones that were asked about last. */
function patience(): (of: string, texts: unknown[]) => number {
  let before: unknown[] = [];
  return (of, texts) => {
    const now = [of, ...texts];
    const same = before[0] !== of || now.every((x, i) => x === before[i]);
    before = now;
    return same ? 0 : AFTER_MS;
  };
}
const wait = { week: patience(), weight: patience(), rotation: patience() };

const common = (): unknown[] => [animalsBody.value, ownBodies.value, standard.value, basis.value, sure.value];
const later = { week: whenStill(askWeek), weight: whenStill(askWeight), rotation: whenStill(askRotation) };

// ---- the journal, as it changes

let wholeTimer = 0;
/** What 'held' was read of. */
let heldOf = '';

/** What was read of the text that this one goes on from stays until the whole is read again. */
function onto(before: JournalAnswer | null, first: JournalAnswer, body: string): JournalAnswer {
  if (!before || !body.startsWith(heldOf)) return first;
  const oldest = first.facts[first.facts.length - 1]?.date ?? '';
  const last = new Map(before.animals.map((a) => [a.name, a.last_ate]));
  return {
    ...first,
    animals: first.animals.map((a) => ({ ...a, last_ate: a.last_ate ?? last.get(a.name) ?? null })),
    facts: [...first.facts, ...before.facts.filter((f) => f.date < oldest)],
  };
}

async function askFirst(): Promise<void> {
  const body = journalBody.value;
  const opened = held.value === null;
  const first = await tell<JournalAnswer>('journal first', 'journal', [body, FIRST_DAYS]);
  if (!first?.answer || body !== journalBody.value) return;
  held.value = first.answer.part ? onto(held.value, first.answer, body) : first.answer;
  if (first.answer.part) heldOf = body;
  else return takeWhole(first, body);
  clearTimeout(wholeTimer);
  wholeTimer = window.setTimeout(readOn, opened ? 0 : WHOLE_AFTER_MS);
}

/** What is seen at once is answered before the rest is read. */
function readOn(): void {
  if (core.idle) void askWhole();
  else wholeTimer = window.setTimeout(readOn, LOOK_AGAIN_MS);
}

function takeWhole(told: Envelope<JournalAnswer>, body: string): void {
  batch(() => ((held.value = told.answer), (journalComplaints.value = told.complaints)));
  heldOf = body;
}

async function askWhole(): Promise<void> {
  const body = journalBody.value;
  const told = await tell<JournalAnswer>('journal', 'journal', [body, 0]);
  if (told && body === journalBody.value) takeWhole(told, body);
}
effect(() => {
  void [animalsBody.value, journalBody.value];
  clearTimeout(wholeTimer);
  untracked(() => void (journalBody.value.length > LONG_FROM ? askFirst() : askWhole()));
});
const planBody = computed(() => texts.value.find((t) => t.id === weekOf.value)?.body ?? '');
const recipeText = computed(() => (weekOf.value === 'recipe' ? (recipe.value?.body ?? '') : ''));
effect(() => {
  const texts = [...common(), planBody.value, recipeText.value, weekOf.value === 'recipe' ? '' : recipes.value, weekOf.value === 'journal' ? journalBody.value : ''];
  void span.value;
  if (weekOf.value === 'journal') void [lastEaten.value, who.value];
  counting.value = true;
  later.week(wait.week(weekOf.value, texts));
});
effect(() => {
  if (weekOf.value === ROTATE) void [rotating.value, eater.value, rotateDays.value];
  later.rotation(weekOf.value === ROTATE ? wait.rotation(ROTATE, [...common(), recipes.value]) : 0);
});
effect(() => {
  weighing.value = true;
  later.weight(wait.weight(who.value, [...common(), journalBody.value, recipes.value]));
});
/* The plan that is open is the one that is looked at. */
effect(() => {
  const t = open.value;
  if (t?.kind === 'plan') weekOf.value = t.id;
  else if (t?.kind === 'journal') weekOf.value = 'journal';
});
effect(() => {
  daysComplaints.value = [...weekComplaints.value.filter((c) => c.text === 'plan'), ...journalAsked.value.filter((c) => c.text === 'journal')];
});
