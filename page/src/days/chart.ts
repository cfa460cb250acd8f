/** Where things stand in the drawings of days: plain arithmetic of places, none of nutrition. */

/** A quarter of the allowance to eight times it, by doublings; 0 at the bottom, 100 at the top. */
export const DOUBLINGS_BELOW = 2;
export const DOUBLINGS_ABOVE = 3;
export function heightOf(ratio: number): number {
  const at = (Math.log2(ratio) + DOUBLINGS_BELOW) / (DOUBLINGS_BELOW + DOUBLINGS_ABOVE);
  return 100 * Math.min(1, Math.max(0, Number.isFinite(at) ? at : 0));
}

/** A line through what is known, broken where nothing is; 'x' and 'y' from 0 to 100, y upwards. A point that stands alone is a short stroke. */
export function pathOf(points: (readonly [number, number] | null)[]): string {
  let path = '';
  points.forEach((p, i) => {
    if (!p) return;
    const begins = i === 0 || !points[i - 1];
    const alone = begins && !points[i + 1];
    path += `${begins ? 'M' : 'L'}${round(p[0])} ${round(100 - p[1])}${alone ? `l0.01 0` : ''}`;
  });
  return path;
}

/** An area between two lines over the same places. */
export function areaOf(points: { x: number; low: number; high: number }[]): string {
  if (points.length === 0) return '';
  const up = points.map((p) => `${round(p.x)} ${round(100 - p.high)}`);
  const down = [...points].reverse().map((p) => `${round(p.x)} ${round(100 - p.low)}`);
  return `M${[...up, ...down].join('L')}Z`;
}

const round = (x: number): number => Math.round(x * 100) / 100;

/** The middle of day 'i' of 'count'. */
export const dayAt = (i: number, count: number): number => (100 * (i + 0.5)) / count;

/** Round figures from 'low' to 'high', few enough to be read. */
export function ticks(low: number, high: number, most = 5): number[] {
  const span = high - low;
  if (!(span > 0) || !Number.isFinite(span)) return [];
  const rough = span / most;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((m) => m * ten).find((s) => s >= rough) ?? 10 * ten;
  const first = Math.ceil(low / step - 1e-9);
  const out: number[] = [];
  for (let k = first; k * step <= high + step * 1e-9; k++) out.push(Number((k * step).toPrecision(12)));
  return out;
}

const DAY_MS = 86_400_000;
export const dayNumber = (date: string): number => Math.round(Date.parse(`${date}T00:00:00Z`) / DAY_MS);

/** Letters for menus, in the order in which they first come: what is fed is told once below. */
export function lettersOf(menus: (string | null)[]): { letter: Map<string, string>; menus: string[] } {
  const letter = new Map<string, string>();
  for (const m of menus) if (m !== null && m !== '' && !letter.has(m)) letter.set(m, nth(letter.size));
  return { letter, menus: [...letter.keys()] };
}
const A = 65;
const LETTERS = 26;
const nth = (i: number): string => (i < LETTERS ? '' : nth(Math.floor(i / LETTERS) - 1)) + String.fromCharCode(A + (i % LETTERS));
