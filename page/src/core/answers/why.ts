/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict, Standard, Confidence, ValueStatus } from './words';

/** the chain behind a nutrient, or behind a ratio */
export interface Why {
  /** of the nutrient */
  key?: string;
  /** for people */
  name?: string;
  /** of every amount beside it */
  unit?: string;
  /** unit: a day */
  amount?: number | null;
  verdict?: Verdict | null;
  /** that decided the verdict */
  rule?: 'over' | 'above-tested' | 'no-figure' | 'unproven' | 'under-minimum' | 'far-under-allowance' | 'under-allowance' | 'not-sure' | 'limit-not-sure' | 'met' | null;
  /** the same in words */
  rule_text?: string | null;
  /** in the order of the recipe */
  lines?: WhyLine[];
  /** unit: a day */
  sum?: number | null;
  /** unit squared: of the sum */
  variance?: number | null;
  /** unit: 5th percentile */
  low?: number | null;
  /** unit: 95th percentile */
  high?: number | null;
  window?: WhyWindow;
  need?: WhyNeed;
  chance?: WhyChances;
  /** with energy */
  energy_need?: WhyEnergyNeed;
  /** with energy counted that way */
  four_step?: WhyFourStep;
  value?: number | null;
  above?: WhySum[];
  below?: WhySum[];
  /** the smaller of the two sides */
  known_share?: number | null;
}

/** one food of one line: the flesh, or the bone in it */
export interface WhyLine {
  /** of the recipe */
  line: number | null;
  /** as written */
  text: string | null;
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** of a piece with bone */
  part: 'whole' | 'flesh' | 'bone';
  /** how a count or spoon became grams */
  grams_from: string | null;
  /** g: on a day when it is fed, as the record counts it */
  grams_when_fed: number | null;
  /** days */
  days_per_week: number | null;
  /** g a day: over the calendar */
  grams_per_day: number | null;
  grams_cv: number | null;
  /** g a day: in the poorest window */
  grams_per_day_lean: number | null;
  /** g a day: in the richest window */
  grams_per_day_rich: number | null;
  /** null: uncooked, or published as cooked */
  cooking_table: WhyCooking | null;
  /** figures of the record */
  values: WhyTerm[];
  /** unit: sum over `values` */
  per_100g: number | null;
  /** unit: a day */
  amount: number | null;
  /** a figure is lacking */
  missing: boolean;
  /** unit: more a day, if it held what the richest of its class hold */
  could_hold: number | null;
  /** of the variance of the sum */
  variance_share: number | null;
  variance: WhyVariance;
}

/** the row behind the losses in cooking */
export interface WhyCooking {
  /** of the row, as its table prints it */
  code: string | null;
  /** what the row is about */
  words: string | null;
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** of the data file */
  row: number;
}

/** one figure of a record */
export interface WhyTerm {
  /** of the record's figure */
  key: string;
  /** of the figure */
  unit: string;
  /** 1, or what turns this figure into the nutrient */
  factor: number;
  /** unit: of the record */
  per_100g: number | null;
  /** what kind of figure it is */
  status: ValueStatus;
  /** its coefficient of variation */
  cv: number | null;
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** where the figure comes from, in one line */
  origin: string | null;
  /** share that cooking leaves */
  kept: number | null;
  kept_status: ValueStatus;
  kept_cv: number | null;
}

/** parts of the variance of the sum */
export interface WhyVariance {
  /** unit squared: by the spread of foods */
  content: number;
  /** unit squared: by what cooking leaves */
  cooking: number;
  /** unit squared: by the amount */
  weight: number;
}

/** the days over which the nutrient may average */
export interface WhyWindow {
  /** days: over which it may average */
  days: number | null;
  /** the poorest */
  lean: WhyRun;
  /** the richest */
  rich: WhyRun;
  table: WhyWindowTable | null;
}

/** a run of days */
export interface WhyRun {
  /** of the 28 */
  first_day: number | null;
  /** days */
  days: number;
  /** unit: a day */
  amount: number | null;
  cv: number | null;
}

/** the row behind the window */
export interface WhyWindowTable {
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** of the data file */
  row: number;
  confidence: Confidence;
  note: string | null;
}

/** what the amount is held against */
export interface WhyNeed {
  minimum: WhyFigure | null;
  allowance: WhyFigure | null;
  upper: WhyFigure | null;
  /** how the printed figure became the animal's */
  how: string | null;
  /** unit: what other nutrients made of it */
  adjusted_to: number | null;
  adjusted_why: string | null;
}

/** a figure of the standard and its row */
export interface WhyFigure {
  /** unit: a day */
  amount: number | null;
  standard: Standard;
  /** the figure as printed */
  printed: string | null;
  confidence: Confidence;
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** of the data file */
  row: number;
  note: string | null;
}

/** how sure it is */
export interface WhyChances {
  /** of reaching the allowance */
  met: WhyChance | null;
  /** of keeping the upper limit */
  kept: WhyChance | null;
}

/** a chance and how it comes about */
export interface WhyChance {
  /** unit: a day */
  mean: number | null;
  cv: number | null;
  /** unit: to be reached or kept */
  figure: number | null;
  /** of the logarithm */
  sigma: number | null;
  z: number | null;
  /** 0 to 1 */
  chance: number | null;
}

/** the animal's energy need */
export interface WhyEnergyNeed {
  /** kcal a day */
  kcal: number | null;
  /** the equation in words */
  from: string | null;
  /** key of the source */
  source?: string | null;
  /** the publication */
  source_title?: string | null;
  /** of the data file */
  row?: number | null;
  confidence?: Confidence | null;
}

/** the four-step equation */
export interface WhyFourStep {
  /** kcal a day */
  gross_kcal: number | null;
  /** % */
  digestible_percent: number | null;
  /** kcal a day: lost with the urine */
  urine_kcal: number | null;
  /** kcal a day */
  kcal: number | null;
}

/** one side of a ratio */
export interface WhySum {
  /** of the nutrient */
  key: string;
  unit: string;
  /** unit: a day */
  amount: number | null;
  /** g per mol: null: the ratio is of masses */
  molar_mass: number | null;
}
