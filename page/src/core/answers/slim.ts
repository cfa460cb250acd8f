/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Species } from './words';

/** the answer of `slim --json` */
export interface Slim {
  /** its name; null when only a weight was given */
  animal: string | null;
  species: Species;
  /** the first day */
  from: string;
  /** not-needed: not overweight; a-little: above the ideal weight, but too little for a plan; no-room: the floor leaves nothing to save */
  status: 'found' | 'not-needed' | 'a-little' | 'no-room' | null;
  /** kg: today */
  weight_kg: number;
  /** kg */
  ideal_kg: number | null;
  /** kcal a day: today */
  need_kcal: number | null;
  /** kcal a day */
  need_low_kcal: number | null;
  /** kcal a day */
  need_high_kcal: number | null;
  /** the journal, what was stated, or the equation */
  need_from: string | null;
  /** kcal a day: never less */
  floor_kcal: number | null;
  /** loss a week, share of the weight */
  safe_low: number | null;
  safe_high: number | null;
  /** kcal a day: of all steps: the bowl is mended for it */
  lowest_kcal: number | null;
  /** expected loss in the first week of the full step, share of the weight */
  per_week: number | null;
  /** days: until the ideal weight; a year when it is not reached */
  days: number | null;
  /** the ideal weight, within a year */
  reached: boolean;
  /** the floor holds the energy up */
  at_floor: boolean;
  /** in words */
  says: string | null;
  weighings: SlimWeighing[];
  meanwhile: string[];
  /** when to stop and ask the veterinarian */
  stop: string[];
  /** the recipe mended for the lowest energy; null: none was given, none exists, or it is enough as it is */
  text: string | null;
  /** the recipe, fed at that energy, meets everything as it is */
  already_met: boolean;
  /** why no plan is made */
  refused: string | null;
}

/** a day to weigh */
export interface SlimWeighing {
  /** when to weigh */
  date: string;
  /** kcal a day: to feed from that day on */
  kcal: number;
  /** g a day: of the mended bowl; null without one */
  grams: number | null;
  /** kg: to expect */
  kg: number | null;
  /** kg: if the need is at the high end of its interval; not below too_light_kg */
  low_kg: number | null;
  /** kg: if it is at the low end */
  high_kg: number | null;
  /** kg: below this the loss since the first day is faster than is safe: feed more */
  too_light_kg: number | null;
}
