/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict, Standard, Basis, Species } from './words';

/** the answer of `week --json`, one object an animal */
export interface Week {
  /** of the plan or the recipe */
  name: string | null;
  /** null when none was given */
  animal: WeekAnimal | null;
  standard: Standard;
  basis: Basis;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  /** days */
  days: number;
  /** after the last day comes the first */
  repeats: boolean;
  /** days */
  known_days: number;
  /** days: on which something fails that does not fail on all */
  days_failing: number | null;
  /** kcal a day: of the mean of all known days */
  kcal: number | null;
  /** what averaging buys and what it does not */
  says: string | null;
  /** what must not be fed at all */
  dangers: string[];
  /** in words */
  assumed: string[];
  calendar: WeekDay[];
  /** in the order in which they are told */
  groups: WeekGroup[] | null;
  /** with their days and windows, to be drawn as lines */
  nutrients: WeekNutrient[];
  ca_p: WeekCalcium;
  /** why no verdict is given */
  refused: string | null;
}

/** whom it is for */
export interface WeekAnimal {
  /** null when only a weight was given */
  name: string | null;
  species: Species;
  /** kg */
  weight_kg: number | null;
  /** kcal a day */
  need_kcal: number | null;
}

/** one day */
export interface WeekDay {
  /** Mon to Sun */
  weekday: string;
  /** null in a plan */
  date: string | null;
  /** what is fed, in the writer's words */
  menu: string | null;
  /** false: nobody wrote down what was eaten */
  known: boolean;
  /** something was eaten besides of which nothing is known */
  uncounted: boolean;
  /** kcal a day: null: not known */
  kcal: number | null;
  /** something fails on this day that does not fail on all */
  fails: boolean | null;
  /** keys of all nutrients that fail on it */
  failing: string[];
  /** those that do not fail on all days, with the share of the allowance; 'no food' of a day without */
  says: string | null;
}

/** needs that ask the same of the reader */
export interface WeekGroup {
  key: string;
  title: string;
  /** their keys, worst first */
  nutrients: string[];
}

/** one nutrient over the days */
export interface WeekNutrient {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of the amounts */
  unit: string;
  /** days: over which it may average */
  window_days: number;
  /** unit: a day */
  minimum: number | null;
  /** unit: a day */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  /** unit: of all known days, a day */
  mean: number | null;
  /** null: no run of known days is long enough */
  leanest: WeekWindow | null;
  richest: WeekWindow | null;
  /** of the leanest and the richest window */
  verdict: Verdict | null;
  /** of the mean of all known days */
  mean_verdict: Verdict | null;
  /** if every day had to stand for itself */
  day_verdict: Verdict | null;
  /** what averaging over days does for it */
  averaging: 'no-figure' | 'not-needed' | 'helps' | 'not-enough' | 'short-anyway' | 'unproven' | null;
  /** that were judged */
  windows: number;
  /** of them, not met */
  windows_failing: number;
  /** days: single days that are known to be under the allowance */
  days_below: number | null;
  /** what fails is the upper side */
  too_much: boolean;
  /** a single day passes the upper limit */
  highest_day_over: boolean;
  /** for no other reason than days on which nothing is fed */
  fails_by_fasts: boolean;
  /** days in a row that matter, longest first */
  streaks: WeekRun[];
  /** days in a row below the allowance that no window minds, longest first */
  bridged: WeekRun[];
  /** amount of each day; null: not known */
  by_day: (number | null)[];
  /** mean a day of what is known of the window that begins on each day; null: none, or nothing */
  by_window: (number | null)[];
  /** of the window that begins on each day */
  window_verdicts: string[];
}

/** a run of days in a row */
export interface WeekWindow {
  /** its first day, from 0 */
  first: number;
  /** unit: mean a day of what is known; null: nothing is */
  amount: number | null;
  /** by the allowance */
  ratio: number | null;
  /** leanest: that the allowance is reached; richest: that the upper limit is kept */
  chance: number | null;
}

/** days in a row */
export interface WeekRun {
  /** day, from 0 */
  first: number;
  /** days */
  days: number;
}

/** calcium to phosphorus */
export interface WeekCalcium {
  /** days */
  window_days: number;
  /** the lowest of all windows */
  low: number | null;
  /** the highest */
  high: number | null;
  /** ratio of the window's sums */
  by_window: (number | null)[];
}
