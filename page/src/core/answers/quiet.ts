/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict } from './words';

/** what becomes short when the animal gets less of the same food */
export interface Quiet {
  /** share of the food, 1 as written; null when no share does */
  all_met_from: number | null;
  /** kcal a day: of that share */
  smallest_kcal: number | null;
  /** key of the nutrient that falls first */
  first_lost: string | null;
  /** of the energy, with the room filled by plain fat */
  highest_fat_share: number | null;
  /** `0.9` to `0.6`: keys that are met now and not then */
  at: Record<string, string[]>;
  /** the first to fall first */
  crossings: QuietCrossing[];
  /** key of the nutrient that decides `all_met_from` */
  last_met: string | null;
  /** the same over those met now */
  still_met_from: number | null;
  /** how many were left out for lack of data */
  unproven: number;
}

/** where a nutrient stops being met */
export interface QuietCrossing {
  /** of the nutrient */
  key: string;
  /** of the food, below which it is not met */
  share: number;
  /** kcal a day: of that much food */
  kcal: number | null;
  /** share of the food below which it is short */
  short_from: number | null;
}

/** the parts of the bowl against a stated ratio */
export interface Ratio {
  /** g a day */
  grams_per_day: number | null;
  pieces: RatioPiece[];
  /** g a day of parts that the ratio does not name */
  beside: Record<string, number>;
  /** no division by this ratio helps */
  left_open: RatioNeed[];
  /** another division could */
  within_reach: RatioNeed[];
}

/** one part of the stated ratio */
export interface RatioPiece {
  /** for people */
  name: string | null;
  /** keys of `parts` that it joins */
  parts: string[];
  /** 0 to 1 */
  share_asked: number;
  /** of the food as it is, 0 to 1 */
  share: number | null;
  /** g a day */
  grams: number | null;
  /** g a day */
  grams_asked: number | null;
  /** g a day: asked less what is there */
  difference_g: number | null;
}

/** a need that the ratio leaves open */
export interface RatioNeed {
  /** of the nutrient */
  key: string;
  /** of the amounts */
  unit: string;
  /** unit: a day */
  amount: number | null;
  /** unit: a day */
  allowance: number | null;
  /** unit: a day, with every part filled with its richest food */
  best: number | null;
  verdict: Verdict;
  /** a food that the ratio has room for lacks a value */
  unproven: boolean;
  /** of the recipe, that supplies most of `best` */
  line: number | null;
}
