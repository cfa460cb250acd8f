/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict, Species } from './words';
import type { LeftFinding, HelpfulFood, HelpfulAmount } from './left';

/** the answer of `compose --json` */
export interface Compose {
  /** its name */
  larder: string | null;
  status: 'found' | 'stopped' | 'none-exists' | 'refused' | 'not-linear';
  aim: string | null;
  /** what the search made least */
  objective: number | null;
  objective_before_rounding: number | null;
  /** nothing better than this exists */
  bound: number | null;
  /** by arithmetic, not by patience */
  proven: boolean;
  /** the search for what comes nearest and what would help was not finished */
  cut_short: boolean;
  /** as the larder has it */
  currency: string | null;
  /** the recipe of the first animal, which `check` reads; null when there is none */
  text: string | null;
  /** g a day: of all bowls */
  grams_per_day?: number | null;
  /** currency a week: null when a food has no price */
  cost_per_week?: number | null;
  /** currency a day: null when a food has no price */
  cost_per_day?: number | null;
  /** amounts are whole steps */
  rounded?: boolean;
  /** one for each animal */
  bowls?: ComposeBowl[];
  /** household: the base for all in a day, a line a food */
  base?: string | null;
  /** a smallest set of limits that cannot all be kept, in words */
  conflict: string[];
  /** the same as a sentence */
  because: string | null;
  /** foods whose energy is not known: they are used sparingly or not at all */
  energy_unknown: string[];
  /** what comes closest */
  nearest: ComposeDish | null;
  /** limits beside the nutrients that it does not keep, in words */
  nearest_misses: string[];
  /** the animal whose bowl `would_help` is about */
  would_help_for: string | null;
  /** foods of the library, those that are enough first */
  would_help: HelpfulFood[];
  /** where no food is enough: a few that are */
  would_help_together: HelpfulAmount[];
  /** why no formula is given */
  refused: string | null;
}

/** what one animal gets */
export interface ComposeBowl {
  /** its name; null when only a weight was given */
  animal: string | null;
  species: Species;
  /** of the base, that this animal gets */
  base_share: number | null;
  /** kcal a day */
  need_kcal: number | null;
  /** kcal a day */
  supply_kcal: number | null;
  /** g a day: as eaten */
  grams_per_day: number | null;
  /** a recipe for this animal, which `check` reads */
  text: string | null;
  /** what goes on top of the base, a line a food */
  topper: string | null;
  /** the text, read again, keeps every promise */
  kept: boolean;
  lines: ComposeLine[];
  /** what is not met */
  wanting: ComposeWanting[];
  /** those to act on or to keep an eye on */
  findings: LeftFinding[];
}

/** a food of the bowl */
export interface ComposeLine {
  /** the pin */
  food: string;
  /** as the larder calls it */
  name: string;
  /** g a day: as eaten */
  grams_per_day: number;
  /** days */
  days_per_week: number;
  /** currency a day: null without a price */
  cost: number | null;
}

/** a nutrient that is not met */
export interface ComposeWanting {
  /** of the nutrient */
  key: string;
  verdict: Verdict;
  /** of the amounts */
  unit: string;
  /** unit: a day, in the poorest window */
  amount: number | null;
  /** unit: a day */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  chance_met: number | null;
}

/** what was composed */
export interface ComposeDish {
  /** the recipe of the first animal, which `check` reads */
  text: string | null;
  /** g a day: of all bowls */
  grams_per_day: number | null;
  /** currency a week: null when a food has no price */
  cost_per_week: number | null;
  /** currency a day: null when a food has no price */
  cost_per_day: number | null;
  /** amounts are whole steps */
  rounded: boolean;
  /** one for each animal */
  bowls: ComposeBowl[];
  /** household: the base for all in a day, a line a food */
  base: string | null;
}
