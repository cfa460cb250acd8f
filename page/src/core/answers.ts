/** What the core answers: the JSON of docs/manual/commands.md, as far as the page draws it. Missing is null, never 0. */

export type Verdict = 'short' | 'thin' | 'met' | 'over' | 'unproven' | 'no figure';
export type Weight = 'act' | 'watch' | 'know';

export interface Line {
  line: number;
  text: string;
  food: string;
  name: string;
  grams_per_day: number;
  class: string;
  days_per_week: number;
  grams_when_fed: number;
  grams_from: string | null;
  assumed: string | null;
  low_g: number;
  high_g: number;
  part: string;
  state: string | null;
  cooked_bone: boolean;
  /** Something in it must not be fed at all. */
  danger?: boolean;
  chosen_by: string;
  source: string | null;
  counted_as: { food: string; grams: number; grams_cv: number }[];
  cooking_table: unknown;
  rivals: { food: string; name: string }[];
}

export interface Supply {
  line: number;
  share: number;
  amount: number;
  status?: string;
}

export interface TableRow {
  source: string;
  row: number;
  printed: string;
  confidence: string;
}

export interface Nutrient {
  key: string;
  name: string;
  unit: string;
  amount: number | null;
  low: number | null;
  high: number | null;
  known_share: number | null;
  minimum: number | null;
  allowance: number | null;
  upper: number | null;
  ratio: number | null;
  chance_met: number | null;
  chance_kept: number | null;
  per_1000kcal: number | null;
  verdict: Verdict | null;
  window_days: number;
  adjusted: { from: number; to: number; why: string } | null;
  from: Supply[];
  missing: number[];
  upper_greater_than: boolean;
  near_upper: boolean;
  window_amount: number | null;
  window_high: number | null;
  verdict_by_window: boolean;
  lowest_day: number | null;
  highest_day: number | null;
  highest_day_over: boolean;
  possible: number | null;
  estimated_share: number | null;
  table: TableRow | null;
  minimum_table: TableRow | null;
  upper_table: TableRow | null;
  how: string | null;
}

export interface Finding {
  id: string;
  weight: Weight;
  /** Something in the bowl must not be fed at all. */
  danger: boolean;
  /** The line of the text that it speaks of; null when none or several. */
  line?: number | null;
  text: string;
  because: Record<string, unknown> | null;
  source: string | null;
  reason: string | null;
  remedy: string | null;
  confidence: string | null;
}

export interface Animal {
  name: string;
  species: 'dog' | 'cat';
  weight_kg: number;
  ideal_kg: number | null;
  metabolic_kg: number | null;
  metabolic_exponent: number | null;
  age_years: number | null;
  neutered: boolean | null;
  activity: string | null;
  status: string | null;
}

export interface Energy {
  need_kcal: number | null;
  need_low_kcal: number | null;
  need_high_kcal: number | null;
  need_from: string | null;
  supply_kcal: number;
  supply_low_kcal: number | null;
  supply_high_kcal: number | null;
  kcal_per_kg: number | null;
  share: { protein: number | null; fat: number | null; carbohydrate: number | null };
  grams_per_day: number | null;
  from: Supply[];
  need_table: { source: string; row: number; words: string; confidence: string } | null;
}

/** What belongs together on the rails, in the order of what has to be done. */
export interface NamedGroup {
  key: string;
  title: string;
  aside: string | null;
  nutrients: string[];
}

export interface Check {
  recipe: { name: string; days: number; lines: Line[]; meals_per_day: number | null };
  animal: Animal | null;
  standard: string;
  basis: string;
  sure: number;
  energy: Energy;
  nutrients: Nutrient[];
  balance: Record<string, unknown>;
  parts: Record<string, number | null>;
  findings: Finding[];
  refused: { why: string; text: string; ask: string } | null;
  verdicts: Record<string, number> | null;
  /** The bowl in one sentence. */
  lead: string;
  groups: NamedGroup[] | null;
}

export interface Complaint {
  text: 'recipe' | 'animals' | 'larder' | 'foods';
  level: 'error' | 'warning';
  line: number;
  column: number;
  width: number;
  message: string;
}

export interface PageAnswer {
  complaints: Complaint[];
  left_out: number[];
  eaten: number;
  all_kcal: number | null;
  check: Check | null;
}

export interface FoundFood {
  food: string;
  name: string;
  part: string;
  state: string | null;
  source: string | null;
  everyday_name: boolean;
}

export interface Suggestions {
  column: number;
  width: number;
  pinned: boolean;
  names: { phrase: string; food: string; name: string }[];
  found: { words: string; foods: FoundFood[] };
}

export interface FoodRecord {
  food: string;
  name: string;
  part: string;
  state: string | null;
  source: string | null;
  group: string | null;
  note: string | null;
  nutrients: {
    key: string;
    name: string;
    unit: string;
    amount: number | null;
    low: number | null;
    high: number | null;
    status: string;
    source: unknown;
  }[];
}

/** What one text of own foods was read as. */
export interface ShelfAnswer {
  complaints: Complaint[];
  foods: { food: string; name: string }[];
}

export interface Question {
  animals: string;
  /** Texts of own foods; their foods join the library. */
  own: string[];
  asked: Request;
}

/** What is asked beside the texts, by the core's own words (src/request/request.c). What is false or undefined is not said. */
export type Request = Record<string, string | number | boolean | undefined>;
