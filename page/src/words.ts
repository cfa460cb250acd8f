/** Figures and words for people. Rounded as src/words rounds, so that a figure is the same on the page and in a finding. */
import { BASIS_KEYS, type Animal, type Basis, type Nutrient } from './core/answers';

export function figure(x: number | null, digits = 3): string {
  if (x === null || !Number.isFinite(x)) return '–';
  if (x === 0) return '0';
  const size = Math.abs(x);
  if (size < 0.001) return '<0.001';
  return String(Number(x.toPrecision(size >= 1000 ? 4 : size < 0.01 ? Math.min(digits, 2) : digits)));
}

/** In a sentence: what nobody has published is never a dash and never 0. */
export function amount(x: number | null, unit: string): string {
  return x === null ? 'not known' : `${figure(x)} ${unit}`;
}

export function grams(x: number | null): string {
  if (x === null) return '–';
  return x > 0 && x < 0.1 ? `${figure(x * 1000, 2)} mg` : `${figure(x)} g`;
}

export function percent(x: number | null): string {
  if (x === null) return '–';
  if (x > 0 && x < 0.01) return '<1\u00a0%';
  if (x < 1 && x > 0.99) return '>99\u00a0%';
  return `${Math.round(x * 100)}\u00a0%`;
}

/** A chance is never quite nothing and never quite certain. */
export function chance(x: number | null): string {
  return x === null ? '–' : percent(Math.min(Math.max(x, 1e-9), 1 - 1e-9));
}

/** "Vitamin A" within a sentence: "vitamin A"; "EPA + DHA" stays. */
export function within(name: string): string {
  return /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/** "iodine, manganese and vitamin D" */
export function list(words: string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

export function days(n: number): string {
  return n === 1 ? '1 day' : `${n} days`;
}

const months = (n: number): string => (n === 12 ? '1 year' : n === 1 ? '1 month' : `${n} months`);

/** "dog, 18 kg, 6 years, neutered, moderate activity" */
export function describe(a: Animal): string {
  const parts = [a.species as string, `${figure(a.weight_kg, 4)} kg`];
  if (a.age_years !== null) parts.push(a.age_years >= 2 ? `${Math.floor(a.age_years)} years` : months(Math.round(a.age_years * 12)));
  if (a.neutered === true) parts.push('neutered');
  if (a.activity) parts.push(a.activity === 'resting' ? 'resting' : `${a.activity} activity`);
  return parts.join(', ');
}

/** What a rail shows beside its figures, for those who hear it: "thin, chance 61 %, upper limit 44, 1 line has no value". */
export function sentence(n: Nutrient): string {
  const likely = n.verdict === 'over' || n.near_upper ? n.chance_kept : n.chance_met;
  const parts: string[] = [n.verdict ?? 'not judged'];
  if (likely !== null) parts.push(`chance ${chance(likely)}`);
  if (n.upper !== null) parts.push(`upper limit ${figure(n.upper)}`);
  if (n.missing.length > 0) parts.push(`${n.missing.length} ${n.missing.length === 1 ? 'line has' : 'lines have'} no value`);
  if (n.window_days !== null) parts.push(`averaged over ${days(n.window_days)}`);
  return `, ${parts.join(', ')}`;
}

const CONFIDENCE: Record<string, string> = {
  confirmed: 'read in the source itself',
  memory: 'recalled, not read in the source itself',
  converted: 'read on another basis',
  'common practice': 'common practice, no published figure',
  conflicting: 'sources disagree',
};
export const confidenceWords = (key: string | null): string => (key ? (CONFIDENCE[key] ?? key) : '');

export { STANDARDS } from './core/answers';
const BASIS_NAME: Record<Basis, string> = { weight: 'by body weight', energy: 'per 1000 kcal' };
export const BASES = BASIS_KEYS.map((key) => ({ key, name: BASIS_NAME[key] }));

/** A name where there is little room: its first word, if the whole is long. */
export function shortName(name: string): string {
  const MOST = 16;
  if (name.length <= MOST) return name;
  const first = name.split(/\s/)[0] ?? '';
  return first.length > 0 && first.length <= MOST ? first : `${name.slice(0, MOST - 1)}…`;
}
