/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

/** the answer of `reply --json` */
export interface Reply {
  /** the answer, ready to paste */
  text: string;
  /** false: plain text */
  markdown: boolean;
  /** the recipe that it proposes; null when it proposes none */
  recipe: string | null;
  /** what its amounts began with, as a share of those of the recipe; null: with those */
  scaled: number | null;
}
