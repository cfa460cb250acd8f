/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict, Standard, Basis, Species } from './words';
import type { EnergyShare } from './check';

/** the answer of `side --json` */
export interface Side {
  /** what is compared */
  kind: 'recipes' | 'foods' | 'ways';
  /** what the amounts are given for */
  per: 'day' | '1000kcal' | '100g';
  standard: Standard;
  basis: Basis;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  /** null when none was given */
  animal: SideAnimal | null;
  items: SideItem[];
  /** in the order of the drawing */
  nutrients: SideNutrient[];
  /** why no verdict is given */
  refused: string | null;
}

/** the animal that both are for */
export interface SideAnimal {
  /** null when only a weight was given */
  name: string | null;
  species: Species;
  /** kg */
  weight_kg: number | null;
  /** kcal a day */
  need_kcal: number | null;
}

/** a ration or food that is compared */
export interface SideItem {
  letter: 'A' | 'B' | 'C' | 'D' | 'E' | 'F';
  name: string | null;
  /** the pin */
  food?: string;
  /** its name */
  record?: string;
  /** g a day: as written; null for foods */
  grams_per_day: number | null;
  /** kcal a day: as written; null for foods */
  kcal_per_day: number | null;
  /** kcal per kg */
  kcal_per_kg: number | null;
  /** ml a day: without air between the pieces; null for foods */
  ml_per_day: number | null;
  /** where the energy comes from */
  share: EnergyShare;
  /** both are lower bounds: the energy of some food is known in part only, or food is fed that is not counted */
  kcal_in_part: boolean;
  way?: 'raw' | 'simmered-broth-kept' | 'simmered-drained' | 'baked';
  /** g a day: by the ranges of the yields */
  grams_low?: number | null;
  /** g a day: by the ranges of the yields */
  grams_high?: number | null;
  lines?: SideLine[];
}

/** a line, cooked this way */
export interface SideLine {
  /** of the recipe */
  line: number | null;
  /** g a day: as eaten */
  grams_per_day: number;
  cooked: boolean;
  /** why it is not cooked */
  left: string | null;
  /** g per g raw */
  yield: number | null;
  /** code of the row behind the losses */
  cooking_table: string | null;
}

/** one nutrient, side by side */
export interface SideNutrient {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of the amounts */
  unit: string;
  /** what the difference means */
  meaning: 'verdicts-differ' | 'same-verdict' | 'more-in' | 'known-in' | 'alike';
  /** largest by smallest amount */
  factor: number | null;
  /** who has most */
  most: 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | null;
  /** one for each of `items` */
  of: SideCell[];
}

/** what one of them supplies */
export interface SideCell {
  letter: 'A' | 'B' | 'C' | 'D' | 'E' | 'F';
  /** unit: for `per` */
  amount: number | null;
  /** unit: 5th percentile */
  low: number | null;
  /** unit: 95th percentile */
  high: number | null;
  /** unit */
  per_1000kcal: number | null;
  /** of the food's mass that has a value */
  known_share: number | null;
  /** unit: for `per` */
  need: number | null;
  /** unit: for `per` */
  upper: number | null;
  /** amount by need */
  ratio: number | null;
  verdict: Verdict | null;
}
