/** A proposal as insertions and deletions in the person's own text, each to be taken or left by itself. */

export interface Hunk {
  /** Lines of the old text that go, from 'at' (0-based), and lines that come in their place. */
  at: number;
  gone: string[];
  come: string[];
  taken: boolean;
}

/** Longest common run of lines, the plain way: recipes are short. */
export function hunksOf(old: string, proposed: string): Hunk[] {
  const [a, b] = [lines(old), lines(proposed)];
  const best: Uint16Array[] = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      best[i]![j] = a[i] === b[j] ? best[i + 1]![j + 1]! + 1 : Math.max(best[i + 1]![j]!, best[i]![j + 1]!);
  const hunks: Hunk[] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      i++;
      j++;
      continue;
    }
    const at = i;
    const gone: string[] = [];
    const come: string[] = [];
    while ((i < a.length || j < b.length) && !(i < a.length && j < b.length && a[i] === b[j])) {
      if (j >= b.length || (i < a.length && best[i + 1]![j]! >= best[i]![j + 1]!)) gone.push(a[i++]!);
      else come.push(b[j++]!);
    }
    hunks.push(...split(at, gone, come));
  }
  return hunks;
}

const lines = (text: string): string[] => text.replace(/\n+$/, '').split('\n');

/** The same line with another amount: enough of its words stand on both sides of what differs. */
function alike(old: string, now: string): boolean {
  const [start, gone, come, end] = middle(old, now);
  const words = (s: string): number => s.split(/\s+/).filter((w) => w !== '').length;
  return 2 * (words(start) + words(end)) >= Math.max(words(gone), words(come));
}

/** One change a line, so that each can be refused by itself. A line that goes and another that comes are two. */
function split(at: number, gone: string[], come: string[]): Hunk[] {
  const out: Hunk[] = [];
  let k = 0;
  gone.forEach((line, i) => {
    /* Lines that come before the one that this line became. */
    const to = come.findIndex((c, n) => n >= k && alike(line, c));
    for (; to >= 0 && k < to; k++) out.push({ at: at + i, gone: [], come: [come[k]!], taken: true });
    out.push({ at: at + i, gone: [line], come: to >= 0 ? [come[k++]!] : [], taken: true });
  });
  for (; k < come.length; k++) out.push({ at: at + gone.length, gone: [], come: [come[k]!], taken: true });
  return out;
}

/** The text with the hunks that are taken. */
export function withTaken(old: string, hunks: Hunk[]): string {
  const a = lines(old);
  const out: string[] = [];
  let i = 0;
  for (const h of hunks) {
    while (i < h.at) out.push(a[i++]!);
    if (!h.taken) continue;
    i += h.gone.length;
    out.push(...h.come);
  }
  while (i < a.length) out.push(a[i++]!);
  return `${out.join('\n')}\n`;
}

/** Rows for showing: unchanged lines, and hunks by their index. */
export function rowsOf(old: string, hunks: Hunk[]): ({ line: string } | { hunk: number })[] {
  const a = lines(old);
  const out: ({ line: string } | { hunk: number })[] = [];
  let i = 0;
  hunks.forEach((h, k) => {
    while (i < h.at) out.push({ line: a[i++]! });
    out.push({ hunk: k });
    i += h.gone.length;
  });
  while (i < a.length) out.push({ line: a[i++]! });
  return out;
}

/** The differing middle of two lines: [same start, old middle, new middle, same end]. */
export function middle(old: string, now: string): [string, string, string, string] {
  const [a, b] = [old.split(/(\s+)/), now.split(/(\s+)/)];
  let start = 0;
  while (start < Math.min(a.length, b.length) && a[start] === b[start]) start++;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  return [
    a.slice(0, start).join(''),
    a.slice(start, a.length - end).join(''),
    b.slice(start, b.length - end).join(''),
    a.slice(a.length - end).join(''),
  ];
}
