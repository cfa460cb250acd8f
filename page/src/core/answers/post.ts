/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

/** what only the owner can tell */
export interface Question {
  /** of the post; null when it is about the whole */
  line: number | null;
  /** in words an owner can answer */
  ask: string;
}

/** words of a post that are not counted as a food */
export interface LeftOut {
  /** of the post */
  line: number | null;
  /** as the owner wrote it */
  text: string;
  /** why it is not counted */
  why: string;
  /** it may be fed, and counts as unknown; false: it is past, or advice */
  fed: boolean;
}

/** the answer to a post in which no food could be counted */
export interface Unread {
  /** what to do, in one sentence */
  sorry: string;
  /** most telling first */
  questions: Question[];
  /** not counted, in the order of the post */
  left_out: LeftOut[];
}
