/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Species, Activity, ComplaintCode } from './words';
import type { Check } from './check';
import type { Question, LeftOut } from './post';
import type { Foods } from './food';

/** what is wrong with a text, and where */
export interface Complaint {
  /** which text it is about */
  text: string;
  level: 'error' | 'warning';
  /** what kind of complaint */
  code: ComplaintCode;
  /** from 1; 0: about the whole text */
  line: number;
  /** characters: from 1 */
  column: number;
  /** characters */
  width: number;
  /** what is wrong, for people */
  message: string;
  /** of a danger: from which dose, and what to do */
  more: string | null;
  /** what to type instead, best first */
  fix: Fix[];
}

/** what to type instead */
export interface Fix {
  /** of the text */
  line: number;
  /** characters: from 1: where it is written */
  column: number;
  /** characters: that give way to it; 0: nothing does */
  width: number;
  /** what to write there */
  write: string;
  /** the same for people */
  label: string;
}

/** a recipe while it is written */
export interface PageAnswer {
  /** lines that are not understood; the rest is judged */
  left_out: number[];
  /** share of the food that is judged */
  eaten: number;
  /** kcal a day: when all of it is eaten */
  all_kcal: number | null;
  /** what lines leave open; none with numbers-only */
  choices: LineChoices[];
  /** with posted; else null */
  post: Post | null;
  /** null when nothing can be judged */
  check: Check | null;
}

/** what a line leaves open */
export interface LineChoices {
  /** its number in the text */
  line: number;
  /** characters: from 1: `write` takes the place of the line from here on */
  column: number;
  /** of one kind after the other */
  options: Choice[];
}

/** one way to read a line */
export interface Choice {
  /** what is left open */
  about: 'amount' | 'size' | 'state' | 'record';
  /** for people */
  label: string;
  /** what the line would be */
  write: string;
  /** it is read so as it stands */
  taken: boolean;
}

/** what a post was read as */
export interface Post {
  /** the strict text that it amounts to; null when no food was found */
  text: string | null;
  /** then: what to do, in one sentence */
  sorry: string | null;
  /** lines of which something is assumed */
  assumed: number;
  /** most telling first */
  questions: Question[];
  /** not counted, in the order of the post */
  left_out: LeftOut[];
  animal: ToldAnimal;
}

/** what a post tells of the animal */
export interface ToldAnimal {
  /** null when not said, as the others */
  species: Species | null;
  /** kg */
  weight_kg: number | null;
  /** years */
  age_years: number | null;
  neutered: boolean | null;
  activity: Activity | null;
  /** kg: what it should weigh */
  ideal_kg: number | null;
  /** puppy, pregnant, nursing or what illness, as the text of an animal has it */
  status: string | null;
}

/** a larder while it is written */
export interface LarderAnswer {
  understood: boolean;
}

/** what one text of own foods was read as */
export interface ShelfAnswer {
  /** that were understood */
  foods: OwnFood[];
}

/** a food of one's own */
export interface OwnFood {
  /** the pin */
  food: string;
  name: string;
}

/** foods for a line that is being written */
export interface Suggestions {
  /** characters: of the food's words, from 1; 0: the line holds none yet */
  column: number;
  /** characters */
  width: number;
  /** a record is chosen already */
  pinned: boolean;
  /** everyday names that the words begin */
  names: EverydayName[];
  /** records that the words fit */
  found: Foods;
}

/** an everyday name */
export interface EverydayName {
  /** the everyday name */
  phrase: string;
  /** the pin of its record */
  food: string;
  /** of the record */
  name: string;
}
