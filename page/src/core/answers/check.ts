/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict, Known, Standard, Basis, PartKey, Species, Activity, Confidence, BalanceKey } from './words';
import type { Recipe } from './recipe';
import type { Ribbon, SupplyBar } from './ribbon';
import type { Rail } from './rail';
import type { Finding } from './finding';
import type { Quiet, Ratio } from './quiet';
import type { Question, LeftOut } from './post';
import type { Why } from './why';

/** the answer of `check --json`, one object a recipe */
export interface Check {
  recipe: Recipe;
  /** null when none was given */
  animal: Animal | null;
  /** whose allowances */
  standard: Standard;
  /** by body weight, or per 1000 kcal: the one that was used */
  basis: Basis;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  energy: Energy;
  /** each one, always in the same order */
  nutrients: Nutrient[];
  balance: Balance;
  /** shares of the mass as eaten, 0 to 1 */
  parts: Record<PartKey, number | null>;
  /** dangers first, then by weight */
  findings: Finding[];
  /** null when a verdict is given */
  refused: Refused | null;
  /** how many nutrients have each verdict */
  verdicts: Record<Verdict, number | null> | null;
  /** the bowl in one sentence, as the terminal says it */
  lead: string;
  /** with `--posted`: what the figures say to what the owner asks; absent where nothing is asked */
  answers?: string;
  /** the nutrients by what is to be done, in the order in which they are told; null where nothing is judged */
  groups: Group[] | null;
  /** less of the same food; null where the need shrinks with it */
  quiet?: Quiet | null;
  /** with `--posted`: what only the owner can tell, most telling first */
  questions?: Question[];
  /** with `--posted`: what is not counted, in the order of the post */
  left_out?: LeftOut[];
  /** the strict text that a post amounts to, which `line` numbers; null without `--posted` */
  as_recipe: string | null;
  /** with `--ratio` */
  ratio?: Ratio;
  /** with `--why`, in the order asked */
  why?: Why[];
}

/** the animal that the answer is for */
export interface Animal {
  /** null when only a weight was given */
  name: string | null;
  species: Species;
  /** kg */
  weight_kg: number;
  /** kg: stated, estimated from the condition, or the weight */
  ideal_kg: number | null;
  /** kilograms to the power of `metabolic_exponent` */
  metabolic_kg: number | null;
  metabolic_exponent: number | null;
  /** where the ideal weight comes from */
  ideal_from: string | null;
  /** of 9: body condition score */
  condition: number | null;
  /** years */
  age_years: number | null;
  /** null when not said */
  neutered: boolean | null;
  /** null when not said */
  activity: Activity | null;
  /** healthy, or what is not */
  status: string | null;
  /** what it is, in words: dog, 18 kg, 6 years */
  told: string;
}

/** energy, needed and supplied */
export interface Energy {
  /** kcal a day: null without an animal and after a refusal */
  need_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_low_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_high_kcal: number | null;
  /** the equation in words, or where it was stated */
  need_from: string | null;
  /** kcal a day */
  supply_kcal: number | null;
  /** kcal per kg: of the food as eaten */
  kcal_per_kg: number | null;
  /** where the energy comes from */
  share: EnergyShare;
  /** kcal a day: 5th percentile */
  supply_low_kcal: number | null;
  /** kcal a day: 95th percentile */
  supply_high_kcal: number | null;
  /** how the energy was counted */
  energy_by: 'atwater' | 'published' | 'four-step';
  /** kcal a day: by the records' own energy figures */
  published_kcal: number | null;
  /** kcal a day: by the four-step equation */
  four_step_kcal: number | null;
  /** g a day: of food as eaten */
  grams_per_day: number | null;
  /** the lines, largest first; kcal */
  from: EnergySupply[];
  /** null when the need was stated */
  need_table: NeedTable | null;
  /** how it is drawn; null when neither is known */
  ribbon: Ribbon | null;
  /** how much of supply_kcal is known; part: it is a lower bound, none: null */
  supply_known: Known;
  /** supply_kcal is a lower bound: some food's energy is known in part only, or food is fed that is not counted */
  supply_in_part: boolean;
}

/** shares of the energy, 0 to 1 */
export interface EnergyShare {
  protein: number | null;
  fat: number | null;
  carbohydrate: number | null;
}

/** what a line supplies of the energy */
export interface EnergySupply {
  /** of the recipe */
  line: number;
  /** of the known amount, 0 to 1 */
  share: number;
  /** unit: a day */
  amount: number;
}

/** the row behind the need */
export interface NeedTable {
  /** key of the source */
  source: string | null;
  /** of the data file */
  row: number;
  /** what the row is about */
  words: string | null;
  /** how well the source is known */
  confidence: Confidence;
}

/** one nutrient, amounts a day */
export interface Nutrient {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of every amount beside it */
  unit: string;
  /** unit: a day: what is known */
  amount: number | null;
  /** unit: 5th percentile */
  low: number | null;
  /** unit: 95th percentile */
  high: number | null;
  /** of the food's mass that has a value, 0 to 1 */
  known_share: number | null;
  /** unit: a day */
  minimum: number | null;
  /** unit: a day, adjusted where `adjusted` says so */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  /** amount in the poorest window by the allowance */
  ratio: number | null;
  /** that the allowance is reached, in the poorest window */
  chance_met: number | null;
  /** unit: of the energy supplied */
  per_1000kcal: number | null;
  /** null without an animal and after a refusal */
  verdict: Verdict | null;
  /** days: over which it may average */
  window_days: number | null;
  /** null when the standard's own figure was used */
  adjusted: Adjusted | null;
  /** the lines that supply it, largest first */
  from: Supply[];
  /** lines whose record has no value */
  missing: number[];
  /** that the upper limit is kept, in the richest window */
  chance_kept: number | null;
  /** the highest level tested, no proven limit */
  upper_greater_than: boolean;
  /** whose limit `upper` is: another's where the standard asked for sets none */
  upper_standard: Standard | null;
  /** unit: a limit that ordinary food passes without harm: decides nothing */
  cautious_upper: number | null;
  /** how much of the amount is known */
  known: Known;
  /** below the limit, but not with the confidence asked */
  near_upper: boolean;
  /** thin for no other reason than its upper limit */
  close_to_limit: boolean;
  /** unit: a day, in the poorest window */
  window_amount: number | null;
  /** unit: a day, in the richest window */
  window_high: number | null;
  /** the average alone would have done better */
  verdict_by_window: boolean;
  /** unit */
  lowest_day: number | null;
  /** unit */
  highest_day: number | null;
  /** the richest day alone passes the limit */
  highest_day_over: boolean;
  /** coefficient of variation of the amount */
  cv: number | null;
  /** unit: if every food without a value held its class's high value */
  possible: number | null;
  /** with half of what is estimated from a class the word would be another */
  estimate_decides: boolean;
  /** of the amount that rests on estimates or cited figures */
  estimated_share: number | null;
  /** of the allowance */
  table: TableRow | null;
  /** of the minimum */
  minimum_table: TableRow | null;
  /** of the upper limit */
  upper_table: TableRow | null;
  /** how the printed figure became the animal's */
  how: string | null;
  /** the name within a sentence */
  said: string;
  /** where its marks are drawn; null without an allowance */
  rail: Rail | null;
  /** what its rail shows, for those who cannot see it */
  rail_says: string;
  /** how they are drawn; null when nothing is known */
  supply: SupplyBar | null;
}

/** an allowance that other nutrients moved */
export interface Adjusted {
  /** unit: the standard's own figure */
  from: number;
  /** unit: the figure used */
  to: number;
  why: string | null;
}

/** what a line supplies */
export interface Supply {
  /** of the recipe */
  line: number;
  /** of the known amount, 0 to 1 */
  share: number;
  /** unit: a day */
  amount: number;
  /** what kind of figure the record has */
  status: string;
}

/** the row behind a figure of the standard */
export interface TableRow {
  /** key of the source */
  source: string | null;
  /** of the data file */
  row: number;
  /** the figure as printed */
  printed: string | null;
  /** how well the source is known */
  confidence: Confidence;
  /** file, line and page of a row of your own; null for the built-in tables */
  own: string | null;
}

/** what stands to what */
export interface Balance {
  /** g per g: calcium to phosphorus */
  ca_p: number | null;
  /** mg per mg: zinc to copper */
  zn_cu: number | null;
  /** g per g: omega-6 to omega-3 */
  n6_n3: number | null;
  /** mg per mg: potassium to sodium */
  k_na: number | null;
  /** mol per mol: phytate to zinc */
  phytate_zn: number | null;
  /** mmol per 1000 kcal */
  ca_phytate_zn_mmol_per_1000kcal: number | null;
  /** the smaller known share of the two sides */
  known_share: Record<BalanceKey, number | null>;
}

/** why no verdict is given */
export interface Refused {
  /** `growth`, `pregnant`, `nursing`, `unwell`, `urgent` */
  why: string;
  /** what is not done, and why */
  text: string;
  /** whom to ask */
  ask: string;
}

/** nutrients that ask the same of the reader */
export interface Group {
  key: string;
  title: string;
  /** what the title means */
  aside: string | null;
  /** their keys, worst first */
  nutrients: string[];
}

/** the answer of `need --json` */
export interface Need {
  animal: Animal | null;
  /** whose allowances */
  standard: Standard;
  /** by body weight, or per 1000 kcal: the one that was used */
  basis: Basis;
  energy: NeedEnergy;
  /** those with a figure */
  nutrients: NeedNutrient[];
  /** null when a need is given */
  refused: Refused | null;
}

/** the energy needed */
export interface NeedEnergy {
  /** kcal a day: null without an animal and after a refusal */
  need_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_low_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_high_kcal: number | null;
  /** the equation in words, or where it was stated */
  need_from: string | null;
  /** null when the need was stated */
  need_table: NeedTable | null;
}

/** what is needed of a nutrient */
export interface NeedNutrient {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of every amount beside it */
  unit: string;
  /** unit: a day */
  minimum: number | null;
  /** unit: a day, adjusted where `adjusted` says so */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  /** the highest level tested, no proven limit */
  upper_greater_than: boolean;
  /** days: over which it may average */
  window_days: number | null;
  /** of the allowance */
  table: TableRow | null;
  /** of the minimum */
  minimum_table: TableRow | null;
  /** of the upper limit */
  upper_table: TableRow | null;
  /** how the printed figure became the animal's */
  how: string | null;
}
