/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

/** energy as one line: places as shares of its length */
export interface Ribbon {
  /** kcal a day: at the right end; the left one is 0 */
  top_kcal: number | null;
  need: number | null;
  /** where the usual range begins */
  need_low: number | null;
  /** where it ends */
  need_high: number | null;
  /** where the bowl's bar ends */
  bowl: number | null;
  /** the bar */
  parts: Piece[];
  need_words: string | null;
  low_words: string | null;
  high_words: string | null;
  range_words: string | null;
  bowl_words: string | null;
  /** all of it, for those who cannot see it */
  says: string;
  /** page: where a handle's way begins */
  least_eaten: number | null;
  /** page: where it ends */
  most_eaten: number | null;
}

/** one piece of a bar; places as shares of the line's length */
export interface Piece {
  /** its name and its share */
  words: string;
  /** of the whole bar */
  share: number | null;
  from: number | null;
  to: number | null;
  /** of energy: what it comes from */
  key: string | null;
}

/** who supplies a nutrient as one bar: places as shares of the line's length */
export interface SupplyBar {
  /** in the order of `from` */
  pieces: SupplyPiece[];
  /** place of the allowance; null without one */
  need: number | null;
  /** how much more is needed */
  gap: string | null;
  /** all of it, for those who cannot see it */
  says: string;
}

/** one line, or all smaller ones together */
export interface SupplyPiece {
  /** its name and its share */
  words: string;
  /** where it ends; it begins where the one before it ends */
  to: number | null;
}
