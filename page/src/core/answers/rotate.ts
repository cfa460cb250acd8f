/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Week } from './week';

/** the answer of `week --rotate --json` */
export interface Rotation {
  /** of the recipes as they are */
  status: 'found' | 'none-exists' | 'not-found';
  /** days */
  days: number;
  /** of recipe, from the last day to the first included; null when none was found */
  changes: number | null;
  /** the recipe of each day; with `additions` in every bowl where `helps` is true */
  calendar: string[];
  recipes: RotationRecipe[];
  /** for each need that no rotation of these meets */
  additions: RotationAddition[];
  /** with all additions in every bowl a rotation was found */
  helps: boolean;
  /** which rotation there is, or what none meets, in sentences */
  says: string | null;
  /** what the additions make possible, and what stays open with them */
  says_with: string | null;
  /** keys that some rotation meets each, and none together */
  conflict: string[];
  /** the rotation as a plan's text */
  plan: string | null;
  /** the rotation judged; null when none was found */
  week: Week | null;
}

/** a recipe that was offered */
export interface RotationRecipe {
  name: string | null;
  file: string | null;
  /** days: of the rotation, on which it is fed */
  days: number;
  /** days: that a batch makes; null when it is not said */
  batch_days: number | null;
  /** for the whole rotation */
  batches: number | null;
  /** kcal a day */
  kcal: number | null;
  /** it meets what is counted by the day, so that it may stand on a day */
  usable: boolean;
  /** what it does not meet alone, and why it fits on no day, as a sentence */
  says: string | null;
  /** keys of what it does not meet, fed alone every day */
  fails: string[];
}

/** what would mend a need */
export interface RotationAddition {
  /** of the nutrient that no rotation meets */
  key: string;
  /** null: none is known, or there is too much of the nutrient */
  food: string | null;
  name: string | null;
  /** g a day */
  grams: number | null;
  /** as a line of a recipe has it, in amounts that can be bought */
  dose: string | null;
  /** that it is the smallest for */
  recipe: string | null;
  /** a sentence */
  says: string | null;
}
