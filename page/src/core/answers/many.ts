/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

/** the summary of a folder, with `--json` */
export interface Many {
  /** files of the folder that were taken for texts */
  texts: number;
  /** other files of the folder, left alone */
  other: number;
  /** fewer than 'texts' when it was stopped */
  reached: number;
  judged: number;
  /** not judged, for the animal's sake */
  refused: number;
  /** not understood */
  unread: number;
  /** texts in which something is fed that could not be counted */
  uncounted: number;
  with_danger: number;
  /** texts in which every need is met */
  all_met: number;
  /** most often short first */
  nutrients: ManyNutrient[];
  /** in the order of their names */
  files: ManyFile[];
}

/** how one need stands in many texts */
export interface ManyNutrient {
  key: string;
  name: string;
  /** of how many texts it is short */
  short: number;
  thin: number;
  over: number;
  close_to_limit: number;
  unproven: number;
  met: number;
}

/** one text of a folder */
export interface ManyFile {
  /** its name in the folder */
  file: string;
  /** the exit code that this text alone gives; null: not reached */
  code: number | null;
  /** false: no animal, an animal that is not judged, or a text that was not understood */
  judged: boolean;
  /** the bowl in one row */
  lead: string | null;
  dangers: number;
  /** what is fed and could not be counted */
  left_out: number;
  /** nutrient keys */
  short: string[];
  /** nutrient keys */
  over: string[];
  /** nutrient keys */
  unproven: string[];
  /** why it could not be answered */
  complaint: string | null;
  /** the file of its answer; null: none was written */
  written: string | null;
}
