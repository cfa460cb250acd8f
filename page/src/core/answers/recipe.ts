/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { PartKey, FoodPart, FoodState } from './words';

/** the recipe as it was read */
export interface Recipe {
  name: string | null;
  /** days: that the batch makes */
  days: number;
  /** those that hold a food */
  lines: Line[];
  /** null when not said */
  meals_per_day: number | null;
  /** fed, and not counted */
  uncounted: Uncounted[];
}

/** a line of the recipe */
export interface Line {
  /** its number in the text */
  line: number;
  /** as written */
  text: string;
  /** the pin of the record */
  food: string;
  /** of the record */
  name: string;
  /** g a day: average, as eaten, with bone */
  grams_per_day: number;
  /** a key of `parts` */
  class: PartKey;
  /** days: on which it is fed */
  days_per_week: number;
  /** g: on a day when it is fed */
  grams_when_fed: number;
  /** how a count or spoon became grams; null when a mass was written */
  grams_from: string | null;
  /** the household measure taken */
  assumed: string | null;
  /** g: least on a day when it is fed */
  low_g: number;
  /** g: most on a day when it is fed */
  high_g: number;
  /** what it is of the animal or plant */
  part: FoodPart;
  /** as eaten */
  state: FoodState | null;
  /** a piece with bone that is cooked */
  cooked_bone: boolean;
  /** something in this line must not be fed */
  danger: boolean;
  /** how the record was found */
  chosen_by: 'pin' | 'everyday name' | 'search';
  /** how the record differs from the food written */
  note: string | null;
  /** key of the record's source */
  source: string | null;
  /** records and grams behind the line */
  counted_as: Portion[];
  /** null when nothing is taken off for cooking */
  cooking_table: CookingTable | null;
  /** records that fit about as well */
  rivals: Rival[];
  /** what of the name the line does not say already */
  telling: string;
  /** the publication it is from, in one line */
  source_title: string | null;
}

/** a record behind a line, and its grams */
export interface Portion {
  /** the pin */
  food: string;
  /** g on a feeding day: as the record counts it: raw for a raw record */
  grams: number;
  /** coefficient of variation of the amount itself */
  grams_cv: number;
}

/** the row behind the losses in cooking */
export interface CookingTable {
  /** of the row, as its table prints it */
  code: string | null;
  /** what the row is about */
  words: string | null;
  /** key of the source */
  source: string | null;
  /** of the data file */
  row: number;
}

/** another record that fits about as well */
export interface Rival {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
}

/** something fed that is not counted */
export interface Uncounted {
  /** its number in the text */
  line: number;
  /** as written */
  text: string;
  /** records that fit its words; none: its kind says what it can hold */
  may_be: Rival[];
  /** what it is by its words: a multivitamin; without may_be and kind, anything */
  kind: string | null;
  /** a danger, which counts for nothing */
  goes_out: boolean;
  /** g a day: so much of the first of them, or of its kind, was allowed for, before anything is called short; null: any amount */
  most_g: number | null;
}
