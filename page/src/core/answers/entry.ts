/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Week } from './week';

/** a plan or a journal as weeks */
export interface WeeksAnswer {
  /** one for each animal */
  weeks: Week[];
}

/** what a journal holds */
export interface JournalAnswer {
  /** that it tells of, in the order in which it first does */
  animals: JournalAnimal[];
  /** the newest day first */
  facts: JournalFact[];
  /** a first look at the newest days: last_ate and the complaints are not known of the whole */
  part: boolean;
}

/** an animal that a journal tells of */
export interface JournalAnimal {
  /** as its own text spells it */
  name: string;
  /** the last day of which it is written what it ate */
  last_ate: string | null;
}

/** one fact of a journal */
export interface JournalFact {
  /** of the text, from 1 */
  line: number;
  date: string;
  /** as its own text spells it */
  animal: string;
  fact: 'weighs' | 'ate' | 'left' | 'note';
  /** the line after the animal's name, without the remark */
  says: string;
  /** with its sign */
  remark: string | null;
  /** kg: of a weighing; null: not known */
  kg: number | null;
  /** a correction below takes its place: kept, not counted */
  replaced: boolean;
  /** a figure that can hardly be right: asked about, and counted */
  asked: boolean;
}

/** a line for the journal while it is written */
export interface EntryAnswer {
  /** as it would be added, with its day; null: not understood yet */
  line: string | null;
  /** what may be written next */
  offers: EntryOffer[];
}

/** what may be written next */
export interface EntryOffer {
  /** the whole line with it */
  write: string;
  /** what is offered */
  label: string;
  detail: string | null;
}
