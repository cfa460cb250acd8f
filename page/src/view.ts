/** How the page is being looked at: how much room there is, on paper or not, and what is open. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { options } from 'preact';
import type { Finding } from './core/answers';
import { answer, check, choice, type Choice } from './state';

/* Without a window (tests of single pieces) there is room. */
const query = (words: string): MediaQueryList | null => (typeof window === 'undefined' ? null : window.matchMedia(words));

function follow(words: string, told: (yes: boolean) => void): void {
  const q = query(words);
  if (!q) return;
  told(q.matches);
  q.addEventListener('change', () => told(q.matches));
}

/** Too narrow for reasons beside the rails: they open in place, under what was chosen. */
export const narrow = signal(false);
follow('(max-width: 1099px)', (yes) => (narrow.value = yes));

/** Written on paper: everything is unfolded, for paper has no folds. */
export const printing = signal(false);

/* The browser takes the page as it stands when this event has been heard: what follows must be drawn at once. */
function print(now: boolean): void {
  const usual = options.debounceRendering;
  options.debounceRendering = (draw) => draw();
  printing.value = now;
  if (usual) options.debounceRendering = usual;
  else delete options.debounceRendering;
}
follow('print', print);
if (typeof window !== 'undefined') {
  window.addEventListener('beforeprint', () => print(true));
  window.addEventListener('afterprint', () => print(false));
}

/** What is drawn was read of an older text than the one that stands in the field: it must not look like an answer to this one. */
export const stale = computed(() => answer.value !== null && answer.value.check === null && check.value !== null);

/** The lines of the recipe that a finding is about. */
export function linesOf(f: Finding): number[] {
  if (typeof f.line === 'number') return [f.line];
  const b = f.because ?? {};
  const named = typeof b.line === 'number' ? [b.line] : Array.isArray(b.line) ? (b.line as number[]) : [];
  if (named.length > 0 || typeof b.food !== 'string') return named;
  return check.value?.recipe.lines.filter((l) => l.food === b.food || l.counted_as.some((c) => c.food === b.food)).map((l) => l.line) ?? [];
}

/** The groups of rails that have been unfolded: they stay so while the text changes, and when the page is opened again. */
export const unfolded = signal<ReadonlySet<string>>(new Set());

// ---- what is chosen, and the way back ---------------------------------------------------------------------------------

const sameChoice = (a: Choice, b: Choice): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Where what was chosen stands: its rail, or its line's margin. */
function placeOf(c: Choice): HTMLElement | null {
  if (c.kind === 'nutrient') return document.querySelector<HTMLElement>(`button.rail[data-key="${c.key}"]`);
  if (c.kind === 'line') return document.querySelector<HTMLElement>(`button.margin[data-line="${c.line}"]`);
  return null;
}

/** Opens the reasons of something, or closes them when they are open. */
export function choose(c: Choice): void {
  choice.value = sameChoice(choice.value, c) ? { kind: 'none' } : c;
}

/** Closes what is open and goes back to where it was opened. */
export function close(): void {
  const from = placeOf(choice.value);
  choice.value = { kind: 'none' };
  from?.focus({ preventScroll: true });
  from?.scrollIntoView({ block: 'nearest' });
}

interface Kept {
  chosen?: Choice;
}

/** What is opened is one step of the browser's history: Back closes it, and a reload finds it open. */
export function followHistory(): void {
  const kept = (history.state as Kept | null)?.chosen;
  let stepped = kept !== undefined && kept.kind !== 'none';
  if (kept && stepped) choice.value = kept;
  history.scrollRestoration = 'auto';
  effect(() => {
    const now = choice.value;
    untracked(() => {
      if (now.kind !== 'none') {
        const state = { chosen: now } satisfies Kept;
        if (stepped) return history.replaceState(state, '');
        history.scrollRestoration = 'manual'; /* the page stays where it is when it comes back here */
        history.pushState(state, '');
        stepped = true;
      } else if (stepped) {
        stepped = false;
        history.back();
      }
    });
  });
  window.addEventListener('popstate', (e) => {
    const back = (e.state as Kept | null)?.chosen;
    if (back && back.kind !== 'none') {
      stepped = true;
      choice.value = back;
    } else if (stepped) {
      stepped = false;
      close();
    }
  });
  document.addEventListener('keydown', (e) => {
    if (e.key !== 'Escape' || e.defaultPrevented || choice.value.kind === 'none') return;
    e.preventDefault();
    close();
  });
}
