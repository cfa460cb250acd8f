/** Undo for each text, by the page itself: the browser's own forgets everything when the field shows another text or a proposal.
 * Every change of a text is told to it, whoever made it; typing in one go is one step. */

export interface Step {
  before: string;
  after: string;
  /** Where the caret stood before and after. */
  from: number;
  to: number;
}

const MOST_STEPS = 300;
const ONE_GO_MS = 1200;
const PIECE = 4096;
/** Letters that all steps of a text hold together: long texts have fewer steps. */
const MOST_HELD = 40_000_000;

interface Stack {
  done: Step[];
  undone: Step[];
  /** When the last step was written on, and whether more typing belongs to it. */
  at: number;
  open: boolean;
}

const stacks = new Map<string, Stack>();
const stackOf = (id: string): Stack => {
  const there = stacks.get(id);
  if (there) return there;
  const fresh: Stack = { done: [], undone: [], at: 0, open: false };
  stacks.set(id, fresh);
  return fresh;
};

/** One letter more or less, beside the last one: that is typing. A new line begins a new step. */
function goesOn(s: Stack, before: string, after: string, now: number): boolean {
  const last = s.done[s.done.length - 1];
  if (!last || !s.open || last.after !== before || now - s.at > ONE_GO_MS) return false;
  if (Math.abs(after.length - before.length) !== 1) return false;
  const grows = after.length > before.length;
  return grows === last.after.length > last.before.length && !(grows && after.split('\n').length > before.split('\n').length);
}

/** A text was changed. 'caret' is where it stands now, or null where nobody is typing. */
export function changed(id: string, before: string, after: string, caret: number | null, now = Date.now()): void {
  if (before === after) return;
  const s = stackOf(id);
  s.undone = [];
  const last = s.done[s.done.length - 1];
  const typed = caret !== null && Math.abs(after.length - before.length) === 1;
  if (last && typed && goesOn(s, before, after, now)) {
    last.after = after;
    last.to = caret;
  } else {
    const at = firstDifference(before, after);
    s.done.push({ before, after, from: caret === null ? at : Math.max(0, caret - Math.max(0, after.length - before.length)), to: caret ?? at });
    if (s.done.length > MOST_STEPS || s.done.length * after.length > MOST_HELD) s.done.shift();
  }
  s.at = now;
  s.open = typed;
}

function firstDifference(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  let i = 0;
  /* A journal of years is compared by pieces first. */
  while (i + PIECE <= most && a.slice(i, i + PIECE) === b.slice(i, i + PIECE)) i += PIECE;
  while (i < most && a[i] === b[i]) i++;
  return i;
}

/** What the text becomes, and where the caret goes; null when there is nothing to take back. A text that was changed elsewhere
 * meanwhile (another tab) has no way back from here. */
export function undo(id: string, body: string): { body: string; caret: number } | null {
  const s = stackOf(id);
  const step = s.done[s.done.length - 1];
  if (!step || step.after !== body) return null;
  s.done.pop();
  s.undone.push(step);
  s.open = false;
  return { body: step.before, caret: Math.min(step.from, step.before.length) };
}

export function redo(id: string, body: string): { body: string; caret: number } | null {
  const s = stackOf(id);
  const step = s.undone[s.undone.length - 1];
  if (!step || step.before !== body) return null;
  s.undone.pop();
  s.done.push(step);
  s.open = false;
  return { body: step.after, caret: Math.min(step.to, step.after.length) };
}
