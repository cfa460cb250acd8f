/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

/** a text as its lines */
export interface TextLines {
  /** what the text calls itself, else its first food */
  title: string | null;
  /** the animal it names */
  for_whom: string | null;
  /** of the animals, or of the own foods */
  names: string[];
  /** it holds more than headers, headings and remarks */
  begun: boolean;
  /** all of them */
  lines: TextLine[];
}

/** a line of a text, and its pieces */
export interface TextLine {
  /** what it is */
  kind: 'empty' | 'remark' | 'question' | 'header' | 'heading' | 'uncounted' | 'food';
  /** the header's own word; null when it is none that is known */
  header: string | null;
  /** what follows the colon */
  value: string | null;
  /** characters: from 1: where the words before the colon begin */
  key_column: number | null;
  /** characters: with the colon */
  key_width: number | null;
  /** characters: from 1 */
  pin_column: number | null;
  /** characters: with its brackets */
  pin_width: number | null;
  /** characters: from 1: where its sign stands */
  remark_column: number | null;
  /** characters: after what is said, before blanks and remark */
  end_column: number;
  /** of a question for the owner: what is asked */
  ask: string | null;
}
