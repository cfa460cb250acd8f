/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Weight, Confidence } from './words';

/** one finding of the written review */
export interface Finding {
  /** which finding, as in docs/method/findings.md */
  id: string;
  /** do something, keep an eye on it, good to know */
  weight: Weight;
  /** the sentence */
  text: string;
  /** the facts behind it; keys differ from finding to finding */
  because: Record<string, unknown>;
  /** key of the source */
  source: string | null;
  /** why it matters */
  reason: string | null;
  /** what would help */
  remedy: string | null;
  /** how well the source is known */
  confidence: Confidence;
  /** something in the bowl must not be fed at all */
  danger: boolean;
  /** the line of the text that it speaks of; null when none or several */
  line: number | null;
  /** keys of the nutrients that it is about */
  nutrients: string[];
}
