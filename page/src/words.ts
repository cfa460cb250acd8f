/** Figures and words for people, as src/words says them: a figure is the same on the page and in a finding. What is done here is only
 * how they stand on the page: a dash where nothing is known, and no line end before a per cent sign. */
import { CONFIDENCE_WORDS, type Confidence, type Nutrient } from './core/answers';
import { say } from './core/here';

const none = (x: number | null): x is null => x === null || !Number.isFinite(x);
export const together = (words: string): string => words.replaceAll(' %', '\u00a0%');

export const figure = (x: number | null): string => (none(x) ? '–' : say('number', x));

/** In a sentence: what nobody has published is never a dash and never 0. */
export const amount = (x: number | null, unit: string): string => say(`amount ${unit}`, x ?? NaN);

export const grams = (x: number | null): string => (none(x) ? '–' : say('mass', x));

export const percent = (x: number | null): string => (none(x) ? '–' : together(say('share', x)));

/** A chance is never quite nothing and never quite certain. */
export const chance = (x: number | null): string => (none(x) ? '–' : together(say('chance', x)));

/** "iodine, manganese and vitamin D" */
export const list = (words: string[]): string => (words.length < 2 ? (words[0] ?? '') : say(`list ${words.join('\n')}`));

export const days = (n: number): string => (n === 1 ? '1 day' : `${n} days`);

/** What a rail shows beside its figures, for those who hear it: "thin: 98 % of what is needed, chance 61 %, upper limit 44, 1 line has no value". */
export function sentence(n: Nutrient): string {
  const likely = n.verdict === 'over' || n.near_upper ? n.chance_kept : n.chance_met;
  const parts: string[] = [n.verdict ? `${n.verdict}: ${n.rail_says}` : 'not judged'];
  if (likely !== null) parts.push(`chance ${chance(likely)}`);
  if (n.upper !== null) parts.push(`upper limit ${figure(n.upper)}`);
  if (n.missing.length > 0) parts.push(`${n.missing.length} ${n.missing.length === 1 ? 'line has' : 'lines have'} no value`);
  if (n.window_days !== null) parts.push(`averaged over ${days(n.window_days)}`);
  return `, ${parts.join(', ')}`;
}

export const confidenceWords = (key: Confidence | null): string => (key ? CONFIDENCE_WORDS[key] : '');

export { BASES, STANDARDS } from './core/answers';

/** A name where there is little room: its first word, if the whole is long. */
export function shortName(name: string): string {
  const MOST = 16;
  if (name.length <= MOST) return name;
  const first = name.split(/\s/)[0] ?? '';
  return first.length > 0 && first.length <= MOST ? first : `${name.slice(0, MOST - 1)}…`;
}
