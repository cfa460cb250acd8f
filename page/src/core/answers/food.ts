/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { PartKey, Confidence, ValueStatus, FoodPart, FoodState } from './words';

/** the answer of `foods --json` */
export interface Foods {
  /** what was looked for */
  words: string;
  /** best first */
  foods: FoundFood[];
}

/** a record that the words fit */
export interface FoundFood {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** what it is of the animal or plant */
  part: FoodPart;
  /** how it was prepared */
  state: FoodState | null;
  /** key of the source */
  source: string | null;
  /** how well the words fit */
  score: number;
  /** the words are its everyday name */
  everyday_name: boolean;
  /** words that the record lacks */
  words_missed: number;
  /** how the record differs from the words */
  note: string | null;
}

/** the answer of `food --json` */
export interface FoodRecord {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** what it is of the animal or plant */
  part: FoodPart;
  /** how it was prepared */
  state: FoodState | null;
  /** key of the source */
  source: string | null;
  /** of the published table */
  group: string | null;
  /** a key of `parts` */
  class: PartKey;
  /** what to know of this record */
  note: string | null;
  origin: Source | null;
  /** share of the piece as bought that is not eaten */
  refuse: number | null;
  /** what that is */
  refuse_is: string | null;
  /** null: not a piece with bone */
  bone: Bone | null;
  /** household measures */
  measures: HouseholdMeasure[];
  /** of a food of your own */
  label_unit: LabelUnit | null;
  /** g: one usual piece */
  piece_g: number | null;
  /** g per ml */
  density_g_per_ml: number | null;
  /** the pin of the same food raw */
  raw_form: string | null;
  /** g: what the amounts are for: 100 */
  per_g: number;
  nutrients: FoodValue[];
}

/** where figures come from */
export interface Source {
  key: string;
  /** the publication, in one line */
  title: string | null;
  licence: string | null;
  /** how well it is known */
  confidence: Confidence;
}

/** the bone in a piece */
export interface Bone {
  /** of the piece, 0 to 1 */
  share: number | null;
  /** its coefficient of variation */
  share_cv: number | null;
  /** the pin of the bone's record */
  food: string | null;
  /** key of the source */
  source: string | null;
  /** counted unless the line says boneless */
  unless_boneless: boolean;
}

/** what a household measure weighs */
export interface HouseholdMeasure {
  /** one of these */
  words: string;
  /** g */
  grams: number | null;
}

/** the piece that a label speaks of */
export interface LabelUnit {
  /** "tablet" */
  word: string | null;
  /** g */
  grams: number | null;
}

/** what 100 g of the record contain of a nutrient */
export interface FoodValue {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of the amounts */
  unit: string;
  /** unit: per 100 g */
  amount: number | null;
  /** unit: 5th percentile */
  low: number | null;
  /** unit: 95th percentile */
  high: number | null;
  /** coefficient of variation */
  cv: number | null;
  /** what kind of figure it is */
  status: ValueStatus;
  /** key of the source */
  source: string | null;
  /** null for a value that does not rest on a class */
  estimate: FoodEstimate | null;
  /** null where the printed value is believed */
  set_aside: FoodSetAside | null;
}

/** what an estimate rests on */
export interface FoodEstimate {
  /** the class, and what of it stands in */
  from: string;
  /** printed values that were left out and guessed */
  tried: number;
  /** how far off, a coefficient of variation */
  within: number;
}

/** a printed value that its class contradicts */
export interface FoodSetAside {
  /** unit: by the table, per 100 g */
  printed: number;
  /** of the protein */
  share: number;
  /** share in the other analyses */
  least: number;
  /** share in the other analyses */
  most: number;
  /** the others */
  analyses: number;
  /** whose analyses */
  class: string;
}

/** the answer of `library --json` */
export interface Library {
  /** the packages it was built from */
  made_from: string | null;
  /** of the file's form */
  version: number;
  /** bytes */
  bytes: number;
  /** records */
  foods: number;
  /** foods of your own beside them */
  own_foods: number;
  /** how many figures are of each kind */
  values: Record<ValueStatus, number | null>;
  /** of each table */
  rows: Record<'allowances' | 'windows' | 'energy' | 'constants' | 'retention' | 'yields' | 'hazards' | 'densities' | 'findings' | 'measures' | 'everyday_names' | 'synonyms' | 'household' | 'kitchen', number | null>;
  sources: LibrarySource[];
  /** rules by which missing values are estimated */
  patterns: Pattern[];
  /** published values that are not used */
  quarantine: Quarantine[];
}

/** a source, and its records */
export interface LibrarySource {
  key: string;
  /** the publication, in one line */
  title: string | null;
  licence: string | null;
  /** how well it is known */
  confidence: Confidence;
  /** records that come from it */
  foods: number;
}

/** a rule by which missing values are estimated */
export interface Pattern {
  /** the foods that it holds for */
  name: string;
  /** of the nutrient */
  key: string | null;
  /** key of the nutrient that it is counted by; null: per 100 g of food, or the share kept where the name says "from its raw form" */
  base: string | null;
  /** unit per g of base */
  ratio: number | null;
  /** error when each record is estimated from the others */
  leave_one_out_cv: number | null;
  /** records behind it */
  foods: number;
  /** records that received an estimate */
  applied: number;
}

/** published values that are not used */
export interface Quarantine {
  /** where it stands */
  table: string | null;
  what: string | null;
  reason: string | null;
  /** how many */
  values: number;
}
