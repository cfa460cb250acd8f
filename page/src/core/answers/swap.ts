/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict, Standard } from './words';

/** the answer of `swap --json` */
export interface Swap {
  line: SwapLine;
  /** what stays the same */
  equal: 'energy' | 'mass';
  /** only foods that have an everyday name were looked at */
  everyday: boolean;
  /** a key of `parts`: only foods of this part; null: any */
  part: string | null;
  standard: Standard;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  /** foods looked at */
  offered: number;
  /** of those, light enough to be eaten */
  possible: number;
  /** best first */
  hits: SwapHit[];
  /** why nothing is offered */
  refused: string | null;
}

/** the line to be exchanged */
export interface SwapLine {
  /** of the recipe */
  line: number;
  /** as written */
  text: string | null;
  /** the pin */
  food: string;
  /** g: as eaten on a feeding day */
  grams: number;
  /** currency: null without a price */
  cost_per_day: number | null;
}

/** a food for the line's place */
export interface SwapHit {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** g: as eaten on a feeding day */
  grams: number;
  /** what is repaired less what is broken */
  score: number | null;
  /** verdicts that get better */
  repairs: SwapMove[];
  /** verdicts that get worse */
  breaks: SwapMove[];
  /** g a day */
  fat_g_change: number | null;
  /** kcal a day */
  kcal_change: number | null;
  /** g a day */
  grams_change: number | null;
  /** currency: of this line; null without a price */
  cost_per_day: number | null;
  /** the same animal's, or the same kind of plant: these come first */
  familiar: boolean;
  /** close (as above), common (in most shops), rare: in this order */
  near: string;
  /** as fed it is reported to hold an enzyme that destroys thiamin */
  thiaminase: boolean;
  /** the line as it would be typed, grams rounded to three digits */
  text: string | null;
}

/** a verdict that changes */
export interface SwapMove {
  /** of the nutrient */
  key: string;
  /** as the recipe is */
  before: Verdict;
  /** with this food */
  after: Verdict;
}
