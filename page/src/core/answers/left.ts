/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Weight } from './words';

/** what the review says of the new bowl */
export interface LeftFinding {
  /** which finding */
  id: string;
  weight: Weight;
  /** the recipe as it was did not have it */
  new: boolean;
  /** the sentence */
  text: string;
}

/** a food that would help */
export interface HelpfulFood {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** g a day: no more than this is needed; null when it could not be computed */
  grams_per_day: number | null;
  /** g a day: the most that was tried */
  most_grams_per_day: number | null;
  /** by itself */
  enough: boolean;
  /** share of what is missed that it takes away, 0 to 1 */
  relief: number | null;
  /** limits, in words */
  helps_with: string[];
}

/** a food and how much of it */
export interface HelpfulAmount {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** g a day: no more than this is needed; null when it could not be computed */
  grams_per_day: number | null;
  /** g a day: the most that was tried */
  most_grams_per_day: number | null;
}
