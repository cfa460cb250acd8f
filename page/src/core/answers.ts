/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */

export const VERDICTS = ['short', 'thin', 'met', 'over', 'unproven', 'no figure'] as const;
export type Verdict = (typeof VERDICTS)[number];

export const KNOWN_WORDS = ['none', 'part', 'all'] as const;
export type Known = (typeof KNOWN_WORDS)[number];

export const WEIGHTS = ['act', 'watch', 'know'] as const;
export type Weight = (typeof WEIGHTS)[number];

export const STANDARD_KEYS = ['nrc2006', 'fediaf2021', 'aafco2016'] as const;
export type Standard = (typeof STANDARD_KEYS)[number];

export const BASIS_KEYS = ['weight', 'energy'] as const;
export type Basis = (typeof BASIS_KEYS)[number];

export const PART_KEYS = ['muscle', 'organ_liver', 'organ_secreting', 'bone', 'plant', 'fish', 'egg', 'dairy', 'fat_oil', 'supplement', 'other'] as const;
export type PartKey = (typeof PART_KEYS)[number];

export const SPECIES = ['dog', 'cat'] as const;
export type Species = (typeof SPECIES)[number];

export const ACTIVITIES = ['resting', 'low', 'moderate', 'high', 'working'] as const;
export type Activity = (typeof ACTIVITIES)[number];

export const CONFIDENCES = ['confirmed', 'converted', 'memory', 'common practice', 'conflicting'] as const;
export type Confidence = (typeof CONFIDENCES)[number];

export const VALUE_STATUSES = ['unknown', 'measured', 'cited', 'estimated', 'none'] as const;
export type ValueStatus = (typeof VALUE_STATUSES)[number];

export const FOOD_PARTS = ['muscle', 'organ_liver', 'organ_secreting', 'organ_other', 'bone', 'fish', 'shellfish', 'egg', 'dairy', 'vegetable', 'fruit', 'grain', 'legume', 'seed_nut', 'fat_oil', 'supplement', 'other'] as const;
export type FoodPart = (typeof FOOD_PARTS)[number];

export const FOOD_STATES = ['raw', 'boiled', 'simmered', 'baked', 'roasted', 'pan-fried', 'steamed', 'pressure-cooked', 'grilled', 'microwaved', 'canned', 'dried', 'freeze-dried', 'cooked', 'unstated'] as const;
export type FoodState = (typeof FOOD_STATES)[number];

export const BALANCE_KEYS = ['ca_p', 'zn_cu', 'n6_n3', 'k_na', 'phytate_zn'] as const;
export type BalanceKey = (typeof BALANCE_KEYS)[number];

export const COMPLAINT_CODES = ['misspelt', 'no-food', 'unknown-food', 'not-in-library', 'label-needed', 'no-weight', 'which-animal', 'animal-needed', 'danger', 'number', 'unit', 'no-amount', 'twice', 'empty', 'unknown-word', 'not-understood', 'cooking', 'limit', 'not-found', 'several', 'date', 'assumed', 'doubtful', 'not-text', 'period', 'left-open', 'request'] as const;
export type ComplaintCode = (typeof COMPLAINT_CODES)[number];

export const STANDARDS: { key: Standard; name: string }[] = [{ key: 'nrc2006', name: 'NRC 2006' }, { key: 'fediaf2021', name: 'FEDIAF 2021' }, { key: 'aafco2016', name: 'AAFCO 2016' }];

/** What people call a part of the bowl. */
export const PART_NAMES: Record<PartKey, string> = { muscle: 'muscle meat', organ_liver: 'liver', organ_secreting: 'other organs', bone: 'bone', plant: 'plants', fish: 'fish', egg: 'egg', dairy: 'dairy', fat_oil: 'fat and oil', supplement: 'supplements', other: 'other' };
/** What people call a ratio. */
export const BALANCE_NAMES: Record<BalanceKey, string> = { ca_p: 'calcium : phosphorus', zn_cu: 'zinc : copper', n6_n3: 'omega-6 : omega-3', k_na: 'potassium : sodium', phytate_zn: 'phytate : zinc' };
/** The heading over findings of a weight. */
export const WEIGHT_TITLES: Record<Weight, string> = { act: 'Act on', watch: 'Keep an eye on', know: 'Good to know' };
/** What allowances are reckoned by. */
export const BASES: { key: Basis; name: string }[] = [{ key: 'weight', name: 'by body weight' }, { key: 'energy', name: 'per 1000 kcal eaten' }];
/** How a figure came to be known. */
export const CONFIDENCE_WORDS: Record<Confidence, string> = { 'confirmed': 'read in the source itself', 'converted': 'read on another basis', 'memory': 'recalled, not read in the source itself', 'common practice': 'common practice, no published figure', 'conflicting': 'sources disagree' };

/** The words under a rail's scale, in equal steps from 0 to 1. */
export const RAIL_SCALE = ['¼', '½', 'need', '2×', '4×', '8×'];
/** Where the need stands. */
export const RAIL_NEED = 0.4;
/** The height of the rails that marks are drawn for. */
export const RAIL_HEIGHT = 26;
/** The marks of a rail: 'd' goes through the mark's place, 'r' is a disc's radius or half of a bar's height. */
export const RAIL_SIGNS = {
  need: { words: 'the need, on which all rails stand', d: 'M0 -13L0 13', r: 0, thick: 1.3, dashed: false },
  amount: { words: 'the amount a day', d: '', r: 4.8, thick: 0, dashed: false },
  unsure: { words: 'the amount, where it is thin or unproven', d: '', r: 4.1, thick: 2, dashed: false },
  below: { words: 'beyond the scale: less than a quarter, or more than eight times', d: 'M0 0L9 -5.5L9 5.5Z', r: 0, thick: 0, dashed: false },
  above: { words: 'beyond the scale: less than a quarter, or more than eight times', d: 'M0 0L-9 -5.5L-9 5.5Z', r: 0, thick: 0, dashed: false },
  spread: { words: 'where it lies nine times in ten', d: '', r: 2.5, thick: 0, dashed: false },
  unknown: { words: 'not known: what foods without a figure might add', d: '', r: 6.5, thick: 0, dashed: false },
  minimum: { words: 'the minimum', d: 'M0 -6L0 6', r: 0, thick: 1, dashed: false },
  limit: { words: 'the upper limit', d: 'M-3.5 -6L2 0L-3.5 6', r: 0, thick: 1.7, dashed: false },
  tested: { words: 'the highest level tested', d: 'M-3.5 -6L2 0L-3.5 6', r: 0, thick: 1.7, dashed: true },
  leanest: { words: 'its leanest days, where they decide', d: 'M-4 -4L4 4M-4 4L4 -4', r: 0, thick: 2, dashed: false },
  other: { words: 'the bowl as it was, or the one beside it', d: 'M0 -7L5 0L0 7L-5 0Z', r: 0, thick: 1.4, dashed: false },
} as const;
/** The tones of pictures on white. */
export const TONES = { ink: '#201f1b', dim: '#635e54', light: '#b9b3a9', pale: '#cfc6b2', paper: '#ffffff' } as const;
/** The tones of a bar's pieces, in turn. */
export const PIECE_TONES = ['ink', 'dim', 'pale', 'light', 'dots'] as const;
/** How much of the bowl may be set to be eaten. */
export const EATEN_PERCENT = [60, 140] as const;

/** What every call of the core says; the answer is null when there is none. */
export interface Envelope<T> {
  complaints: Complaint[];
  answer: T | null;
}

/** the answer of `check --json`, one object a recipe */
export interface Check {
  recipe: Recipe;
  /** null when none was given */
  animal: Animal | null;
  /** whose allowances */
  standard: Standard;
  /** by body weight, or per 1000 kcal: the one that was used */
  basis: Basis;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  energy: Energy;
  /** each one, always in the same order */
  nutrients: Nutrient[];
  balance: Balance;
  /** shares of the mass as eaten, 0 to 1 */
  parts: Record<PartKey, number | null>;
  /** dangers first, then by weight */
  findings: Finding[];
  /** null when a verdict is given */
  refused: Refused | null;
  /** how many nutrients have each verdict */
  verdicts: Record<Verdict, number | null> | null;
  /** the bowl in one sentence, as the terminal says it */
  lead: string;
  /** the nutrients by what is to be done, in the order in which they are told; null where nothing is judged */
  groups: Group[] | null;
  /** less of the same food; null where the need shrinks with it */
  quiet?: Quiet | null;
  /** with `--posted`: what only the owner can tell, most telling first */
  questions?: Question[];
  /** with `--posted`: what is not counted, in the order of the post */
  left_out?: LeftOut[];
  /** the strict text that a post amounts to, which `line` numbers; null without `--posted` */
  as_recipe: string | null;
  /** with `--ratio` */
  ratio?: Ratio;
  /** with `--why`, in the order asked */
  why?: Why[];
}

/** the recipe as it was read */
export interface Recipe {
  name: string | null;
  /** days: that the batch makes */
  days: number;
  /** those that hold a food */
  lines: Line[];
  /** null when not said */
  meals_per_day: number | null;
  /** fed, and not counted */
  uncounted: Uncounted[];
}

/** a line of the recipe */
export interface Line {
  /** its number in the text */
  line: number;
  /** as written */
  text: string;
  /** the pin of the record */
  food: string;
  /** of the record */
  name: string;
  /** g a day: average, as eaten, with bone */
  grams_per_day: number;
  /** a key of `parts` */
  class: PartKey;
  /** days: on which it is fed */
  days_per_week: number;
  /** g: on a day when it is fed */
  grams_when_fed: number;
  /** how a count or spoon became grams; null when a mass was written */
  grams_from: string | null;
  /** the household measure taken */
  assumed: string | null;
  /** g: least on a day when it is fed */
  low_g: number;
  /** g: most on a day when it is fed */
  high_g: number;
  /** what it is of the animal or plant */
  part: FoodPart;
  /** as eaten */
  state: FoodState | null;
  /** a piece with bone that is cooked */
  cooked_bone: boolean;
  /** something in this line must not be fed */
  danger: boolean;
  /** how the record was found */
  chosen_by: 'pin' | 'everyday name' | 'search';
  /** how the record differs from the food written */
  note: string | null;
  /** key of the record's source */
  source: string | null;
  /** records and grams behind the line */
  counted_as: Portion[];
  /** null when nothing is taken off for cooking */
  cooking_table: CookingTable | null;
  /** records that fit about as well */
  rivals: Rival[];
  /** what of the name the line does not say already */
  telling: string;
  /** the publication it is from, in one line */
  source_title: string | null;
}

/** a record behind a line, and its grams */
export interface Portion {
  /** the pin */
  food: string;
  /** g on a feeding day: as the record counts it: raw for a raw record */
  grams: number;
  /** coefficient of variation of the amount itself */
  grams_cv: number;
}

/** the row behind the losses in cooking */
export interface CookingTable {
  /** of the row, as its table prints it */
  code: string | null;
  /** what the row is about */
  words: string | null;
  /** key of the source */
  source: string | null;
  /** of the data file */
  row: number;
}

/** another record that fits about as well */
export interface Rival {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
}

/** something fed that is not counted */
export interface Uncounted {
  /** its number in the text */
  line: number;
  /** as written */
  text: string;
  /** records that fit its words; none: it can be anything */
  may_be: Rival[];
  /** g a day: so much of the first of them was allowed for, before anything is called short; null: any amount */
  most_g: number | null;
}

/** the animal that the answer is for */
export interface Animal {
  /** null when only a weight was given */
  name: string | null;
  species: Species;
  /** kg */
  weight_kg: number;
  /** kg: stated, estimated from the condition, or the weight */
  ideal_kg: number | null;
  /** kilograms to the power of `metabolic_exponent` */
  metabolic_kg: number | null;
  metabolic_exponent: number | null;
  /** where the ideal weight comes from */
  ideal_from: string | null;
  /** of 9: body condition score */
  condition: number | null;
  /** years */
  age_years: number | null;
  /** null when not said */
  neutered: boolean | null;
  /** null when not said */
  activity: Activity | null;
  /** healthy, or what is not */
  status: string | null;
  /** what it is, in words: dog, 18 kg, 6 years */
  told: string;
}

/** energy, needed and supplied */
export interface Energy {
  /** kcal a day: null without an animal and after a refusal */
  need_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_low_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_high_kcal: number | null;
  /** the equation in words, or where it was stated */
  need_from: string | null;
  /** kcal a day */
  supply_kcal: number | null;
  /** kcal per kg: of the food as eaten */
  kcal_per_kg: number | null;
  /** where the energy comes from */
  share: EnergyShare;
  /** kcal a day: 5th percentile */
  supply_low_kcal: number | null;
  /** kcal a day: 95th percentile */
  supply_high_kcal: number | null;
  /** how the energy was counted */
  energy_by: 'atwater' | 'published' | 'four-step';
  /** kcal a day: by the records' own energy figures */
  published_kcal: number | null;
  /** kcal a day: by the four-step equation */
  four_step_kcal: number | null;
  /** g a day: of food as eaten */
  grams_per_day: number | null;
  /** the lines, largest first; kcal */
  from: EnergySupply[];
  /** null when the need was stated */
  need_table: NeedTable | null;
  /** how it is drawn; null when neither is known */
  ribbon: Ribbon | null;
}

/** shares of the energy, 0 to 1 */
export interface EnergyShare {
  protein: number | null;
  fat: number | null;
  carbohydrate: number | null;
}

/** what a line supplies of the energy */
export interface EnergySupply {
  /** of the recipe */
  line: number;
  /** of the known amount, 0 to 1 */
  share: number;
  /** unit: a day */
  amount: number;
}

/** the row behind the need */
export interface NeedTable {
  /** key of the source */
  source: string | null;
  /** of the data file */
  row: number;
  /** what the row is about */
  words: string | null;
  /** how well the source is known */
  confidence: Confidence;
}

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

/** one nutrient, amounts a day */
export interface Nutrient {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of every amount beside it */
  unit: string;
  /** unit: a day: what is known */
  amount: number | null;
  /** unit: 5th percentile */
  low: number | null;
  /** unit: 95th percentile */
  high: number | null;
  /** of the food's mass that has a value, 0 to 1 */
  known_share: number | null;
  /** unit: a day */
  minimum: number | null;
  /** unit: a day, adjusted where `adjusted` says so */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  /** amount in the poorest window by the allowance */
  ratio: number | null;
  /** that the allowance is reached, in the poorest window */
  chance_met: number | null;
  /** unit: of the energy supplied */
  per_1000kcal: number | null;
  /** null without an animal and after a refusal */
  verdict: Verdict | null;
  /** days: over which it may average */
  window_days: number | null;
  /** null when the standard's own figure was used */
  adjusted: Adjusted | null;
  /** the lines that supply it, largest first */
  from: Supply[];
  /** lines whose record has no value */
  missing: number[];
  /** that the upper limit is kept, in the richest window */
  chance_kept: number | null;
  /** the highest level tested, no proven limit */
  upper_greater_than: boolean;
  /** whose limit `upper` is: another's where the standard asked for sets none */
  upper_standard: Standard | null;
  /** unit: a limit that ordinary food passes without harm: decides nothing */
  cautious_upper: number | null;
  /** how much of the amount is known */
  known: Known;
  /** below the limit, but not with the confidence asked */
  near_upper: boolean;
  /** thin for no other reason than its upper limit */
  close_to_limit: boolean;
  /** unit: a day, in the poorest window */
  window_amount: number | null;
  /** unit: a day, in the richest window */
  window_high: number | null;
  /** the average alone would have done better */
  verdict_by_window: boolean;
  /** unit */
  lowest_day: number | null;
  /** unit */
  highest_day: number | null;
  /** the richest day alone passes the limit */
  highest_day_over: boolean;
  /** coefficient of variation of the amount */
  cv: number | null;
  /** unit: if every food without a value held its class's high value */
  possible: number | null;
  /** with half of what is estimated from a class the word would be another */
  estimate_decides: boolean;
  /** of the amount that rests on estimates or cited figures */
  estimated_share: number | null;
  /** of the allowance */
  table: TableRow | null;
  /** of the minimum */
  minimum_table: TableRow | null;
  /** of the upper limit */
  upper_table: TableRow | null;
  /** how the printed figure became the animal's */
  how: string | null;
  /** the name within a sentence */
  said: string;
  /** where its marks are drawn; null without an allowance */
  rail: Rail | null;
  /** what its rail shows, for those who cannot see it */
  rail_says: string;
  /** how they are drawn; null when nothing is known */
  supply: SupplyBar | null;
}

/** an allowance that other nutrients moved */
export interface Adjusted {
  /** unit: the standard's own figure */
  from: number;
  /** unit: the figure used */
  to: number;
  why: string | null;
}

/** what a line supplies */
export interface Supply {
  /** of the recipe */
  line: number;
  /** of the known amount, 0 to 1 */
  share: number;
  /** unit: a day */
  amount: number;
  /** what kind of figure the record has */
  status: string;
}

/** the row behind a figure of the standard */
export interface TableRow {
  /** key of the source */
  source: string | null;
  /** of the data file */
  row: number;
  /** the figure as printed */
  printed: string | null;
  /** how well the source is known */
  confidence: Confidence;
  /** file, line and page of a row of your own; null for the built-in tables */
  own: string | null;
}

/** shares of the scale's width: 0 a quarter of the allowance, 1 eight times it, logarithmic */
export interface Rail {
  /** the amount */
  mark: number | null;
  /** whether the amount lies beyond the scale */
  mark_end: 'inside' | 'below' | 'above';
  /** 5th percentile */
  low: number | null;
  /** 95th percentile */
  high: number | null;
  /** what is known */
  unknown_from: number | null;
  /** what foods without a figure might make of it */
  unknown_to: number | null;
  minimum: number | null;
  /** the upper limit; null beyond the scale */
  limit: number | null;
  /** the leanest days, where they decide */
  leanest: number | null;
  /** the highest level tested, no proven limit */
  limit_is_tested: boolean;
  /** false: thin or unproven */
  sure: boolean;
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

/** what stands to what */
export interface Balance {
  /** g per g: calcium to phosphorus */
  ca_p: number | null;
  /** mg per mg: zinc to copper */
  zn_cu: number | null;
  /** g per g: omega-6 to omega-3 */
  n6_n3: number | null;
  /** mg per mg: potassium to sodium */
  k_na: number | null;
  /** mol per mol: phytate to zinc */
  phytate_zn: number | null;
  /** mmol per 1000 kcal */
  ca_phytate_zn_mmol_per_1000kcal: number | null;
  /** the smaller known share of the two sides */
  known_share: Record<BalanceKey, number | null>;
}

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
}

/** why no verdict is given */
export interface Refused {
  /** `growth`, `pregnant`, `nursing`, `unwell` */
  why: string;
  /** what is not done, and why */
  text: string;
  /** whom to ask */
  ask: string;
}

/** nutrients that ask the same of the reader */
export interface Group {
  key: string;
  title: string;
  /** what the title means */
  aside: string | null;
  /** their keys, worst first */
  nutrients: string[];
}

/** what becomes short when the animal gets less of the same food */
export interface Quiet {
  /** share of the food, 1 as written; null when no share does */
  all_met_from: number | null;
  /** kcal a day: of that share */
  smallest_kcal: number | null;
  /** key of the nutrient that falls first */
  first_lost: string | null;
  /** of the energy, with the room filled by plain fat */
  highest_fat_share: number | null;
  /** `0.9` to `0.6`: keys that are met now and not then */
  at: Record<string, string[]>;
  /** the first to fall first */
  crossings: QuietCrossing[];
  /** key of the nutrient that decides `all_met_from` */
  last_met: string | null;
  /** the same over those met now */
  still_met_from: number | null;
  /** how many were left out for lack of data */
  unproven: number;
}

/** where a nutrient stops being met */
export interface QuietCrossing {
  /** of the nutrient */
  key: string;
  /** of the food, below which it is not met */
  share: number;
  /** kcal a day: of that much food */
  kcal: number | null;
  /** share of the food below which it is short */
  short_from: number | null;
}

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
  /** it may be fed, and counts as unknown; false: told as past or as advice */
  fed: boolean;
}

/** the parts of the bowl against a stated ratio */
export interface Ratio {
  /** g a day */
  grams_per_day: number | null;
  pieces: RatioPiece[];
  /** g a day of parts that the ratio does not name */
  beside: Record<string, number>;
  /** no division by this ratio helps */
  left_open: RatioNeed[];
  /** another division could */
  within_reach: RatioNeed[];
}

/** one part of the stated ratio */
export interface RatioPiece {
  /** for people */
  name: string | null;
  /** keys of `parts` that it joins */
  parts: string[];
  /** 0 to 1 */
  share_asked: number;
  /** of the food as it is, 0 to 1 */
  share: number | null;
  /** g a day */
  grams: number | null;
  /** g a day */
  grams_asked: number | null;
  /** g a day: asked less what is there */
  difference_g: number | null;
}

/** a need that the ratio leaves open */
export interface RatioNeed {
  /** of the nutrient */
  key: string;
  /** of the amounts */
  unit: string;
  /** unit: a day */
  amount: number | null;
  /** unit: a day */
  allowance: number | null;
  /** unit: a day, with every part filled with its richest food */
  best: number | null;
  verdict: Verdict;
  /** a food that the ratio has room for lacks a value */
  unproven: boolean;
  /** of the recipe, that supplies most of `best` */
  line: number | null;
}

/** the chain behind a nutrient, or behind a ratio */
export interface Why {
  /** of the nutrient */
  key?: string;
  /** for people */
  name?: string;
  /** of every amount beside it */
  unit?: string;
  /** unit: a day */
  amount?: number | null;
  verdict?: Verdict | null;
  /** that decided the verdict */
  rule?: 'over' | 'above-tested' | 'no-figure' | 'unproven' | 'under-minimum' | 'far-under-allowance' | 'under-allowance' | 'not-sure' | 'limit-not-sure' | 'met' | null;
  /** the same in words */
  rule_text?: string | null;
  /** in the order of the recipe */
  lines?: WhyLine[];
  /** unit: a day */
  sum?: number | null;
  /** unit squared: of the sum */
  variance?: number | null;
  /** unit: 5th percentile */
  low?: number | null;
  /** unit: 95th percentile */
  high?: number | null;
  window?: WhyWindow;
  need?: WhyNeed;
  chance?: WhyChances;
  /** with energy */
  energy_need?: WhyEnergyNeed;
  /** with energy counted that way */
  four_step?: WhyFourStep;
  value?: number | null;
  above?: WhySum[];
  below?: WhySum[];
  /** the smaller of the two sides */
  known_share?: number | null;
}

/** one food of one line: the flesh, or the bone in it */
export interface WhyLine {
  /** of the recipe */
  line: number | null;
  /** as written */
  text: string | null;
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** of a piece with bone */
  part: 'whole' | 'flesh' | 'bone';
  /** how a count or spoon became grams */
  grams_from: string | null;
  /** g: on a day when it is fed, as the record counts it */
  grams_when_fed: number | null;
  /** days */
  days_per_week: number | null;
  /** g a day: over the calendar */
  grams_per_day: number | null;
  grams_cv: number | null;
  /** g a day: in the poorest window */
  grams_per_day_lean: number | null;
  /** g a day: in the richest window */
  grams_per_day_rich: number | null;
  /** null: uncooked, or published as cooked */
  cooking_table: WhyCooking | null;
  /** figures of the record */
  values: WhyTerm[];
  /** unit: sum over `values` */
  per_100g: number | null;
  /** unit: a day */
  amount: number | null;
  /** a figure is lacking */
  missing: boolean;
  /** unit: more a day, if it held what the richest of its class hold */
  could_hold: number | null;
  /** of the variance of the sum */
  variance_share: number | null;
  variance: WhyVariance;
}

/** the row behind the losses in cooking */
export interface WhyCooking {
  /** of the row, as its table prints it */
  code: string | null;
  /** what the row is about */
  words: string | null;
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** of the data file */
  row: number;
}

/** one figure of a record */
export interface WhyTerm {
  /** of the record's figure */
  key: string;
  /** of the figure */
  unit: string;
  /** 1, or what turns this figure into the nutrient */
  factor: number;
  /** unit: of the record */
  per_100g: number | null;
  /** what kind of figure it is */
  status: ValueStatus;
  /** its coefficient of variation */
  cv: number | null;
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** where the figure comes from, in one line */
  origin: string | null;
  /** share that cooking leaves */
  kept: number | null;
  kept_status: ValueStatus;
  kept_cv: number | null;
}

/** parts of the variance of the sum */
export interface WhyVariance {
  /** unit squared: by the spread of foods */
  content: number;
  /** unit squared: by what cooking leaves */
  cooking: number;
  /** unit squared: by the amount */
  weight: number;
}

/** the days over which the nutrient may average */
export interface WhyWindow {
  /** days: over which it may average */
  days: number | null;
  /** the poorest */
  lean: WhyRun;
  /** the richest */
  rich: WhyRun;
  table: WhyWindowTable | null;
}

/** a run of days */
export interface WhyRun {
  /** of the 28 */
  first_day: number | null;
  /** days */
  days: number;
  /** unit: a day */
  amount: number | null;
  cv: number | null;
}

/** the row behind the window */
export interface WhyWindowTable {
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** of the data file */
  row: number;
  confidence: Confidence;
  note: string | null;
}

/** what the amount is held against */
export interface WhyNeed {
  minimum: WhyFigure | null;
  allowance: WhyFigure | null;
  upper: WhyFigure | null;
  /** how the printed figure became the animal's */
  how: string | null;
  /** unit: what other nutrients made of it */
  adjusted_to: number | null;
  adjusted_why: string | null;
}

/** a figure of the standard and its row */
export interface WhyFigure {
  /** unit: a day */
  amount: number | null;
  standard: Standard;
  /** the figure as printed */
  printed: string | null;
  confidence: Confidence;
  /** key of the source */
  source: string | null;
  /** the publication */
  source_title: string | null;
  /** of the data file */
  row: number;
  note: string | null;
}

/** how sure it is */
export interface WhyChances {
  /** of reaching the allowance */
  met: WhyChance | null;
  /** of keeping the upper limit */
  kept: WhyChance | null;
}

/** a chance and how it comes about */
export interface WhyChance {
  /** unit: a day */
  mean: number | null;
  cv: number | null;
  /** unit: to be reached or kept */
  figure: number | null;
  /** of the logarithm */
  sigma: number | null;
  z: number | null;
  /** 0 to 1 */
  chance: number | null;
}

/** the animal's energy need */
export interface WhyEnergyNeed {
  /** kcal a day */
  kcal: number | null;
  /** the equation in words */
  from: string | null;
  /** key of the source */
  source?: string | null;
  /** the publication */
  source_title?: string | null;
  /** of the data file */
  row?: number | null;
  confidence?: Confidence | null;
}

/** the four-step equation */
export interface WhyFourStep {
  /** kcal a day */
  gross_kcal: number | null;
  /** % */
  digestible_percent: number | null;
  /** kcal a day: lost with the urine */
  urine_kcal: number | null;
  /** kcal a day */
  kcal: number | null;
}

/** one side of a ratio */
export interface WhySum {
  /** of the nutrient */
  key: string;
  unit: string;
  /** unit: a day */
  amount: number | null;
  /** g per mol: null: the ratio is of masses */
  molar_mass: number | null;
}

/** the answer of `need --json` */
export interface Need {
  animal: Animal | null;
  /** whose allowances */
  standard: Standard;
  /** by body weight, or per 1000 kcal: the one that was used */
  basis: Basis;
  energy: NeedEnergy;
  /** those with a figure */
  nutrients: NeedNutrient[];
  /** null when a need is given */
  refused: Refused | null;
}

/** the energy needed */
export interface NeedEnergy {
  /** kcal a day: null without an animal and after a refusal */
  need_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_low_kcal: number | null;
  /** kcal a day: end of the usual range */
  need_high_kcal: number | null;
  /** the equation in words, or where it was stated */
  need_from: string | null;
  /** null when the need was stated */
  need_table: NeedTable | null;
}

/** what is needed of a nutrient */
export interface NeedNutrient {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of every amount beside it */
  unit: string;
  /** unit: a day */
  minimum: number | null;
  /** unit: a day, adjusted where `adjusted` says so */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  /** the highest level tested, no proven limit */
  upper_greater_than: boolean;
  /** days: over which it may average */
  window_days: number | null;
  /** of the allowance */
  table: TableRow | null;
  /** of the minimum */
  minimum_table: TableRow | null;
  /** of the upper limit */
  upper_table: TableRow | null;
  /** how the printed figure became the animal's */
  how: string | null;
}

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

/** the answer of `side --json` */
export interface Side {
  /** what is compared */
  kind: 'recipes' | 'foods' | 'ways';
  /** what the amounts are given for */
  per: 'day' | '1000kcal' | '100g';
  standard: Standard;
  basis: Basis;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  /** null when none was given */
  animal: SideAnimal | null;
  items: SideItem[];
  /** in the order of the drawing */
  nutrients: SideNutrient[];
  /** why no verdict is given */
  refused: string | null;
}

/** the animal that both are for */
export interface SideAnimal {
  /** null when only a weight was given */
  name: string | null;
  species: Species;
  /** kg */
  weight_kg: number | null;
  /** kcal a day */
  need_kcal: number | null;
}

/** a ration or food that is compared */
export interface SideItem {
  letter: 'A' | 'B' | 'C' | 'D' | 'E' | 'F';
  name: string | null;
  /** the pin */
  food?: string;
  /** its name */
  record?: string;
  /** g a day: as written; null for foods */
  grams_per_day: number | null;
  /** kcal a day: as written; null for foods */
  kcal_per_day: number | null;
  /** kcal per kg */
  kcal_per_kg: number | null;
  /** ml a day: without air between the pieces; null for foods */
  ml_per_day: number | null;
  /** where the energy comes from */
  share: EnergyShare;
  way?: 'raw' | 'simmered-broth-kept' | 'simmered-drained' | 'baked';
  /** g a day: by the ranges of the yields */
  grams_low?: number | null;
  /** g a day: by the ranges of the yields */
  grams_high?: number | null;
  lines?: SideLine[];
}

/** a line, cooked this way */
export interface SideLine {
  /** of the recipe */
  line: number | null;
  /** g a day: as eaten */
  grams_per_day: number;
  cooked: boolean;
  /** why it is not cooked */
  left: string | null;
  /** g per g raw */
  yield: number | null;
  /** code of the row behind the losses */
  cooking_table: string | null;
}

/** one nutrient, side by side */
export interface SideNutrient {
  /** of the nutrient */
  key: string;
  /** for people */
  name: string;
  /** of the amounts */
  unit: string;
  /** what the difference means */
  meaning: 'verdicts-differ' | 'same-verdict' | 'more-in' | 'known-in' | 'alike';
  /** largest by smallest amount */
  factor: number | null;
  /** who has most */
  most: 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | null;
  /** one for each of `items` */
  of: SideCell[];
}

/** what one of them supplies */
export interface SideCell {
  letter: 'A' | 'B' | 'C' | 'D' | 'E' | 'F';
  /** unit: for `per` */
  amount: number | null;
  /** unit: 5th percentile */
  low: number | null;
  /** unit: 95th percentile */
  high: number | null;
  /** unit */
  per_1000kcal: number | null;
  /** of the food's mass that has a value */
  known_share: number | null;
  /** unit: for `per` */
  need: number | null;
  /** unit: for `per` */
  upper: number | null;
  /** amount by need */
  ratio: number | null;
  verdict: Verdict | null;
}

/** the answer of `swap --json` */
export interface Swap {
  line: SwapLine;
  /** what stays the same */
  equal: 'energy' | 'mass';
  /** only foods that have an everyday name were looked at */
  everyday: boolean;
  /** a key of `parts`: only foods of this part; null: any */
  part: string | null;
  standard: Standard;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  /** foods looked at */
  offered: number;
  /** of those, light enough to be eaten */
  possible: number;
  /** best first */
  hits: SwapHit[];
  /** why nothing is offered */
  refused: string | null;
}

/** the line to be exchanged */
export interface SwapLine {
  /** of the recipe */
  line: number;
  /** as written */
  text: string | null;
  /** the pin */
  food: string;
  /** g: as eaten on a feeding day */
  grams: number;
  /** currency: null without a price */
  cost_per_day: number | null;
}

/** a food for the line's place */
export interface SwapHit {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** g: as eaten on a feeding day */
  grams: number;
  /** what is repaired less what is broken */
  score: number | null;
  /** verdicts that get better */
  repairs: SwapMove[];
  /** verdicts that get worse */
  breaks: SwapMove[];
  /** g a day */
  fat_g_change: number | null;
  /** kcal a day */
  kcal_change: number | null;
  /** g a day */
  grams_change: number | null;
  /** currency: of this line; null without a price */
  cost_per_day: number | null;
  /** the same animal's, or the same kind of plant: these come first */
  familiar: boolean;
  /** close (as above), common (in most shops), rare: in this order */
  near: string;
  /** as fed it is reported to hold an enzyme that destroys thiamin */
  thiaminase: boolean;
  /** the line as it would be typed, grams rounded to three digits */
  text: string | null;
}

/** a verdict that changes */
export interface SwapMove {
  /** of the nutrient */
  key: string;
  /** as the recipe is */
  before: Verdict;
  /** with this food */
  after: Verdict;
}

/** the answer of `mend --json` */
export interface Mend {
  status: 'found' | 'none-exists' | 'stopped' | 'refused' | 'not-linear';
  /** its name */
  recipe: string | null;
  /** its name; null when only a weight was given */
  animal: string | null;
  standard: Standard;
  basis: Basis;
  /** the confidence asked for, 0.5 to 0.99 */
  sure: number;
  /** what is fed but not counted, what to do about it first, and whether that kept the rest from being scaled */
  not_counted: string | null;
  /** nothing needs to change */
  already_met: boolean;
  /** every amount was first multiplied by this to fit the energy; null: it fitted */
  scaled: number | null;
  /** the search was ended by whoever waited */
  stopped: boolean;
  /** why no formula is given: a key */
  refused: string | null;
  /** lines that change */
  change?: MendChange[];
  /** lines that are added */
  added?: MendAdded[];
  /** the new recipe, which `check` reads */
  text?: string | null;
  /** currency a day: at the larder's prices; null when a food has none */
  cost_per_day?: number | null;
  /** what it comes to, in a sentence */
  summary?: string | null;
  /** what it stretches, in words */
  asks?: string[];
  /** what the search made least */
  objective?: number | null;
  lines_touched?: number;
  /** no change of fewer lines exists within the two bounds below */
  fewest_possible?: number;
  /** it has no more lines than that */
  fewest_proven?: boolean;
  /** before rounding none of as many lines costs a thousandth less */
  least_proven?: boolean;
  /** with fewer, amounts would not have been measurable */
  one_line_more_for_round_amounts?: boolean;
  /** what it is made with */
  with?: 'both' | 'foods' | 'supplements';
  /** nutrients that were to be put in order */
  open?: number;
  /** the first steps only: things stay open */
  partial?: boolean;
  /** share of a main food that could be taken away */
  cut_at_most?: number | null;
  /** how many times the usual portion could be passed */
  stretched_at_most_times?: number | null;
  /** kcal a day */
  supply_kcal_before?: number | null;
  /** kcal a day */
  supply_kcal?: number | null;
  /** those with a figure */
  nutrients?: MendNutrient[];
  /** those to act on or to keep an eye on */
  findings?: LeftFinding[];
  /** all of them, the one shown first first */
  proposals: MendFound[];
  /** by arithmetic, not by patience */
  proven?: boolean;
  /** a smallest set of limits that cannot hold together, in words */
  conflict?: string[];
  /** the change that comes closest */
  nearest?: MendFound | null;
  /** foods of the library, those that are enough first */
  would_help?: HelpfulFood[];
  /** where no food is enough: a few that are */
  would_help_together?: HelpfulAmount[];
}

/** a line that changes */
export interface MendChange {
  /** of the recipe */
  line: number;
  /** what the food is called */
  name: string;
  /** the pin */
  food: string;
  /** g a day: as eaten */
  from_g: number;
  /** g a day: as eaten; 0: the line goes */
  to_g: number;
  /** the amount as the text has it */
  from: string | null;
  /** the amount as the new text has it; null when the line goes */
  to: string | null;
  /** taken out because it must not be fed */
  dangerous: boolean;
  /** keys of nutrients that would miss without it */
  repairs: string[];
  /** of these, those from this place on would be too much, those before it too little */
  too_much_from: number;
  /** without it energy would leave its limits */
  for_energy: boolean;
  /** without it calcium to phosphorus would */
  for_balance: boolean;
  /** how many of 'open' are in order once this change and those before it are made */
  covered: number;
  /** g a day: the usual portion that it passes; null: none */
  usual_most_g: number | null;
}

/** a line that is added */
export interface MendAdded {
  /** what the food is called */
  name: string;
  /** g a day: as eaten */
  to_g: number;
  /** the amount as the new text has it */
  to: string | null;
  /** the new line */
  text: string | null;
  /** keys of nutrients that would miss without it */
  repairs: string[];
  /** of these, those from this place on would be too much, those before it too little */
  too_much_from: number;
  /** without it energy would leave its limits */
  for_energy: boolean;
  /** without it calcium to phosphorus would */
  for_balance: boolean;
  /** how many of 'open' are in order once this change and those before it are made */
  covered: number;
  /** g a day: the usual portion that it passes; null: none */
  usual_most_g: number | null;
}

/** a nutrient before and after */
export interface MendNutrient {
  /** of the nutrient */
  key: string;
  /** of the amounts */
  unit: string;
  /** unit: a day, in the poorest window */
  before: number | null;
  /** unit: a day, in the poorest window */
  after: number | null;
  /** unit: a day */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  /** afterwards */
  chance_met: number | null;
  verdict_before: Verdict;
  verdict: Verdict;
}

/** what the review says of the new bowl */
export interface LeftFinding {
  /** which finding */
  id: string;
  weight: Weight;
  /** the recipe as it was did not have it */
  new: boolean;
  /** the sentence */
  text: string;
}

/** a change of the recipe */
export interface MendFound {
  /** lines that change */
  change: MendChange[];
  /** lines that are added */
  added: MendAdded[];
  /** the new recipe, which `check` reads */
  text: string | null;
  /** currency a day: at the larder's prices; null when a food has none */
  cost_per_day: number | null;
  /** what it comes to, in a sentence */
  summary: string | null;
  /** what it stretches, in words */
  asks: string[];
  /** what the search made least */
  objective: number | null;
  lines_touched: number;
  /** no change of fewer lines exists within the two bounds below */
  fewest_possible: number;
  /** it has no more lines than that */
  fewest_proven: boolean;
  /** before rounding none of as many lines costs a thousandth less */
  least_proven: boolean;
  /** with fewer, amounts would not have been measurable */
  one_line_more_for_round_amounts: boolean;
  /** what it is made with */
  with: 'both' | 'foods' | 'supplements';
  /** nutrients that were to be put in order */
  open: number;
  /** the first steps only: things stay open */
  partial: boolean;
  /** share of a main food that could be taken away */
  cut_at_most: number | null;
  /** how many times the usual portion could be passed */
  stretched_at_most_times: number | null;
  /** kcal a day */
  supply_kcal_before: number | null;
  /** kcal a day */
  supply_kcal: number | null;
  /** those with a figure */
  nutrients: MendNutrient[];
  /** those to act on or to keep an eye on */
  findings: LeftFinding[];
}

/** a food that would help */
export interface HelpfulFood {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** g a day: no more than this is needed; null when it could not be computed */
  grams_per_day: number | null;
  /** g a day: the most that was tried */
  most_grams_per_day: number | null;
  /** by itself */
  enough: boolean;
  /** share of what is missed that it takes away, 0 to 1 */
  relief: number | null;
  /** limits, in words */
  helps_with: string[];
}

/** a food and how much of it */
export interface HelpfulAmount {
  /** the pin */
  food: string;
  /** of the record */
  name: string;
  /** g a day: no more than this is needed; null when it could not be computed */
  grams_per_day: number | null;
  /** g a day: the most that was tried */
  most_grams_per_day: number | null;
}

/** the answer of `compose --json` */
export interface Compose {
  /** its name */
  larder: string | null;
  status: 'found' | 'stopped' | 'none-exists' | 'refused' | 'not-linear';
  aim: string | null;
  /** what the search made least */
  objective: number | null;
  objective_before_rounding: number | null;
  /** nothing better than this exists */
  bound: number | null;
  /** by arithmetic, not by patience */
  proven: boolean;
  /** what comes nearest and what would help were not looked for to the end */
  cut_short: boolean;
  /** as the larder has it */
  currency: string | null;
  /** the recipe of the first animal, which `check` reads; null when there is none */
  text: string | null;
  /** g a day: of all bowls */
  grams_per_day?: number | null;
  /** currency a week: null when a food has no price */
  cost_per_week?: number | null;
  /** currency a day: null when a food has no price */
  cost_per_day?: number | null;
  /** amounts are whole steps */
  rounded?: boolean;
  /** one for each animal */
  bowls?: ComposeBowl[];
  /** household: the base for all in a day, a line a food */
  base?: string | null;
  /** a smallest set of limits that cannot hold together, in words */
  conflict: string[];
  /** the same as a sentence */
  because: string | null;
  /** what comes closest */
  nearest: ComposeDish | null;
  /** limits beside the nutrients that it does not keep, in words */
  nearest_misses: string[];
  /** the animal whose bowl `would_help` is about */
  would_help_for: string | null;
  /** foods of the library, those that are enough first */
  would_help: HelpfulFood[];
  /** where no food is enough: a few that are */
  would_help_together: HelpfulAmount[];
  /** why no formula is given */
  refused: string | null;
}

/** what one animal gets */
export interface ComposeBowl {
  /** its name; null when only a weight was given */
  animal: string | null;
  species: Species;
  /** of the base, that this animal gets */
  base_share: number | null;
  /** kcal a day */
  need_kcal: number | null;
  /** kcal a day */
  supply_kcal: number | null;
  /** g a day: as eaten */
  grams_per_day: number | null;
  /** a recipe for this animal, which `check` reads */
  text: string | null;
  /** what goes on top of the base, a line a food */
  topper: string | null;
  /** the text, read again, keeps every promise */
  kept: boolean;
  lines: ComposeLine[];
  /** what is not met */
  wanting: ComposeWanting[];
  /** those to act on or to keep an eye on */
  findings: LeftFinding[];
}

/** a food of the bowl */
export interface ComposeLine {
  /** the pin */
  food: string;
  /** as the larder calls it */
  name: string;
  /** g a day: as eaten */
  grams_per_day: number;
  /** days */
  days_per_week: number;
  /** currency a day: null without a price */
  cost: number | null;
}

/** a nutrient that is not met */
export interface ComposeWanting {
  /** of the nutrient */
  key: string;
  verdict: Verdict;
  /** of the amounts */
  unit: string;
  /** unit: a day, in the poorest window */
  amount: number | null;
  /** unit: a day */
  allowance: number | null;
  /** unit: a day */
  upper: number | null;
  chance_met: number | null;
}

/** what was composed */
export interface ComposeDish {
  /** the recipe of the first animal, which `check` reads */
  text: string | null;
  /** g a day: of all bowls */
  grams_per_day: number | null;
  /** currency a week: null when a food has no price */
  cost_per_week: number | null;
  /** currency a day: null when a food has no price */
  cost_per_day: number | null;
  /** amounts are whole steps */
  rounded: boolean;
  /** one for each animal */
  bowls: ComposeBowl[];
  /** household: the base for all in a day, a line a food */
  base: string | null;
}

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

/** the answer of `sheet --json`; its other figures are those of `check --json` */
export interface Sheet {
  kitchen: Kitchen;
  /** every text of the sheet in reading order, but for the figures within pictures */
  text: string[];
}

/** a batch, its shopping and its keeping */
export interface Kitchen {
  /** days: of the batch */
  days: number;
  /** a day */
  meals: number;
  /** g a day: average, as eaten */
  bowl_g: number | null;
  /** ml a day: without air between the pieces */
  volume_ml: number | null;
  /** ml: that a box for one day should hold */
  box_ml: number | null;
  /** of the boxes, one a day */
  boxes_fridge: number;
  boxes_freezer: number;
  /** days: that the bowl keeps when all is mixed */
  fridge_low_days: number | null;
  /** days */
  fridge_high_days: number | null;
  /** months */
  freezer_low_months: number | null;
  /** months */
  freezer_high_months: number | null;
  /** the row of the kitchen table that decides */
  keeps_as: string | null;
  /** in the order of the recipe */
  lines: KitchenLine[];
  /** lines of the same food are one */
  shopping: Buy[];
  /** the sign of the larder */
  currency: string | null;
  /** of what has a price; null: nothing has */
  cost: number | null;
  /** foods without a price */
  cost_unknown: number;
}

/** a line of the recipe in the kitchen */
export interface KitchenLine {
  /** of the line in `recipe.lines` of `check --json`, from 0 */
  index: number;
  /** as the person calls it */
  food: string;
  /** must not be fed: not bought and not cooked */
  danger: boolean;
  /** g: in the bowl on a day when it is fed */
  grams_when_fed: number | null;
  /** g: in a meal of such a day; all of it when `whole` */
  meal_g: number | null;
  /** counted or spooned on such a day; null when it was weighed */
  units: number | null;
  /** of `units`; null for pieces */
  unit: string | null;
  /** goes into one meal */
  whole: boolean;
  /** days: the most of its days that fall into the batch */
  feedings: number;
  /** g: for the batch, uncooked; null when not known */
  weigh_g: number | null;
  /** g: for the batch, as it is in the bowl; null when not known */
  ready_g: number | null;
  /** how it is cooked at home; null: not */
  cook: FoodState | null;
  /** cooked grams of one raw gram; null when not known */
  yield: number | null;
  /** row of the kitchen table that says how long it keeps */
  keeps_as: string | null;
}

/** a food to be bought */
export interface Buy {
  /** as the person calls it */
  name: string;
  /** the pin of the record as bought */
  food: string;
  /** its name */
  record: string;
  /** the raw form of what the recipe names */
  raw_of_cooked: boolean;
  /** no raw weight is known: `needed_g` is cooked */
  cooked_weight: boolean;
  /** bone and flesh are both fed */
  with_bone: boolean;
  /** g: that must be left of it */
  needed_g: number | null;
  /** share thrown away, 0 to 1, as published; null: no figure */
  refuse: number | null;
  /** what that is */
  refuse_what: string | null;
  /** g: as bought, not rounded; without bone where only bone is thrown away */
  buy_g: number | null;
  /** g: bought with its bone; null where that does not apply */
  bone_in_g: number | null;
  /** things, whole ones; null when bought by weight */
  count: number | null;
  /** of `count`; null for pieces */
  unit: string | null;
  /** where the larder says how it is sold */
  packs: number | null;
  /** g: of one pack */
  pack_g: number | null;
  /** things in one pack */
  pack_count: number | null;
  /** null when no price is known */
  cost: number | null;
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
  /** those that do not fail on all days, with the share of the allowance */
  says: string | null;
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
  /** mean a day of the window that begins on each day; null: none, or not known */
  by_window: (number | null)[];
  /** of the window that begins on each day */
  window_verdicts: string[];
}

/** a run of days in a row */
export interface WeekWindow {
  /** its first day, from 0 */
  first: number;
  /** unit: mean a day */
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

/** the answer of `week --rotate --json` */
export interface Rotation {
  /** of the recipes as they are */
  status: 'found' | 'none-exists' | 'not-found';
  /** days */
  days: number;
  /** of recipe, from the last day to the first included; null when none was found */
  changes: number | null;
  /** the recipe of each day; with `additions` in every bowl where `helps` is true */
  calendar: string[];
  recipes: RotationRecipe[];
  /** for each need that no rotation of these meets */
  additions: RotationAddition[];
  /** with all additions in every bowl a rotation was found */
  helps: boolean;
  /** which rotation there is, or what none meets, in sentences */
  says: string | null;
  /** what the additions make possible, and what stays open with them */
  says_with: string | null;
  /** keys that some rotation meets each, and none together */
  conflict: string[];
  /** the rotation as a plan's text */
  plan: string | null;
  /** the rotation judged; null when none was found */
  week: Week | null;
}

/** a recipe that was offered */
export interface RotationRecipe {
  name: string | null;
  file: string | null;
  /** days: of the rotation, on which it is fed */
  days: number;
  /** days: that a batch makes; null when it is not said */
  batch_days: number | null;
  /** for the whole rotation */
  batches: number | null;
  /** kcal a day */
  kcal: number | null;
  /** it meets what is counted by the day, so that it may stand on a day */
  usable: boolean;
  /** what it does not meet alone, and why it fits on no day, as a sentence */
  says: string | null;
  /** keys of what it does not meet, fed alone every day */
  fails: string[];
}

/** what would mend a need */
export interface RotationAddition {
  /** of the nutrient that no rotation meets */
  key: string;
  /** null: none is known, or there is too much of the nutrient */
  food: string | null;
  name: string | null;
  /** g a day */
  grams: number | null;
  /** as a line of a recipe has it, in amounts that can be bought */
  dose: string | null;
  /** that it is the smallest for */
  recipe: string | null;
  /** a sentence */
  says: string | null;
}

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

/** the answer of `trend --json` */
export interface Trend {
  animal: TrendAnimal;
  /** the day spoken of */
  until: string;
  /** why there is no trend (weighings, span) or no need (intake) */
  lacks: 'nothing' | 'weighings' | 'span' | 'intake';
  /** of the animal on that day */
  weight_kg: TrendBand | null;
  /** change of weight, kg a week; below 0 a loss */
  per_week_kg: TrendBand | null;
  /** days: over which that is */
  per_week_days: number | null;
  /** that the weight went down over these days */
  chance_loss: number | null;
  /** the animal's own need, kcal a day */
  need_kcal: TrendBand | null;
  /** kcal a day: what is stated, or what the equation says */
  equation_kcal: number | null;
  /** kcal a day: end of the usual range */
  equation_low_kcal: number | null;
  /** kcal a day */
  equation_high_kcal: number | null;
  /** the animal's own need is surer than the equation, and is used with --journal */
  surer: boolean;
  /** kcal a day: mean of the known days of the last 28 */
  eaten_kcal: number | null;
  /** days: of the last 28, with a known intake */
  eaten_days: number | null;
  /** days: of all */
  known_days: number | null;
  /** eaten lately less needed, kcal a day */
  balance_kcal: TrendBand | null;
  /** kg: noise of an ordinary reading */
  scale_sd_kg: number | null;
  /** a week, share of the weight */
  safe_loss_low: number | null;
  safe_loss_high: number | null;
  /** days: between weighings */
  every_days: number;
  /** weighings more until the need is surer than the equation; null: more than 200 */
  wanted_surer: number | null;
  /** weighings more until it is known to a tenth */
  wanted_ten: number | null;
  /** which way the weight goes, in words */
  says: string | null;
  says_need: string | null;
  says_eaten: string | null;
  says_ahead: string | null;
  remarks: TrendRemark[];
  /** from the first weighing on, to be drawn as a line with its band */
  days: TrendDay[];
  readings: TrendReading[];
  changes: TrendChange[];
  /** kcal a day: what is taken to be eaten; null: the same trend goes on */
  forecast_kcal: number | null;
  forecast: TrendForecast[];
  /** why there is no need and no forecast */
  refused: string | null;
}

/** whom it is about */
export interface TrendAnimal {
  /** null when only a weight was given */
  name: string | null;
  species: Species;
}

/** a figure with its interval of 90 per cent */
export interface TrendBand {
  /** kg, kg a week or kcal a day, as the key around it says */
  mean: number | null;
  /** 5th percentile */
  low: number | null;
  /** 95th percentile */
  high: number | null;
}

/** what is remarked beside the figures */
export interface TrendRemark {
  /** of the remark */
  id: 'loss-too-fast' | 'loss-unexplained' | 'gain-fast' | 'change' | 'reading' | 'other-weight' | 'old' | 'unknown-days' | 'unread-days';
  /** what matters first */
  weight: 'act' | 'watch' | 'know';
  text: string;
}

/** the weight on one day */
export interface TrendDay {
  date: string;
  /** kg: of the animal */
  kg: number | null;
  /** kg: 5th percentile */
  low_kg: number | null;
  /** kg: 95th percentile */
  high_kg: number | null;
}

/** a weighing */
export interface TrendReading {
  date: string;
  /** kg: what the scale said */
  kg: number;
  /** kg: less the weight of that day */
  off_kg: number;
  /** far from the days around it: asked about, kept, hardly counted */
  outlier: boolean;
}

/** a change of the trend */
export interface TrendChange {
  /** about when */
  date: string;
  /** kg a week */
  before_kg_week: number;
  /** kg a week */
  after_kg_week: number;
  /** kcal a day: eaten in the four weeks before */
  kcal_before: number | null;
  /** kcal a day: eaten in the four weeks after */
  kcal_after: number | null;
  /** more than the food explains */
  need_changed: boolean;
}

/** a day to come */
export interface TrendForecast {
  date: string;
  /** kg */
  kg: number | null;
  /** kg: of the animal: 5th percentile */
  low_kg: number | null;
  /** kg: 95th percentile */
  high_kg: number | null;
  /** kg: of a reading of the scale */
  reading_low_kg: number;
  /** kg */
  reading_high_kg: number;
}

/** the answer of `slim --json` */
export interface Slim {
  /** its name; null when only a weight was given */
  animal: string | null;
  species: Species;
  /** the first day */
  from: string;
  /** not-needed: not overweight; a-little: above the ideal weight, but too little for a plan; no-room: the floor leaves nothing to save */
  status: 'found' | 'not-needed' | 'a-little' | 'no-room' | null;
  /** kg: today */
  weight_kg: number;
  /** kg */
  ideal_kg: number | null;
  /** kcal a day: today */
  need_kcal: number | null;
  /** kcal a day */
  need_low_kcal: number | null;
  /** kcal a day */
  need_high_kcal: number | null;
  /** the journal, what was stated, or the equation */
  need_from: string | null;
  /** kcal a day: never less */
  floor_kcal: number | null;
  /** loss a week, share of the weight */
  safe_low: number | null;
  safe_high: number | null;
  /** kcal a day: of all steps: the bowl is mended for it */
  lowest_kcal: number | null;
  /** expected loss in the first week of the full step, share of the weight */
  per_week: number | null;
  /** days: until the ideal weight; a year when it is not reached */
  days: number | null;
  /** the ideal weight, within a year */
  reached: boolean;
  /** the floor holds the energy up */
  at_floor: boolean;
  /** in words */
  says: string | null;
  weighings: SlimWeighing[];
  meanwhile: string[];
  /** when to stop and ask the veterinarian */
  stop: string[];
  /** the recipe mended for the lowest energy; null: none was given, none exists, or it is enough as it is */
  text: string | null;
  /** the recipe, fed at that energy, meets everything as it is */
  already_met: boolean;
  /** why no plan is made */
  refused: string | null;
}

/** a day to weigh */
export interface SlimWeighing {
  /** when to weigh */
  date: string;
  /** kcal a day: to feed from that day on */
  kcal: number;
  /** g a day: of the mended bowl; null without one */
  grams: number | null;
  /** kg: to expect */
  kg: number | null;
  /** kg: if the need is at the high end of its interval */
  low_kg: number | null;
  /** kg: if it is at the low end */
  high_kg: number | null;
  /** kg: below this the loss is faster than is safe: feed more */
  too_light_kg: number | null;
}

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
}

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
  /** behind the colon */
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
  /** characters: behind what is said, before blanks and remark */
  end_column: number;
  /** of a question for the owner: what is asked */
  ask: string | null;
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

/** a sheet as one file of HTML */
export interface SheetPage {
  /** of the sheet: the recipe's name */
  title: string;
  /** one whole file */
  html: string;
}

/** a plan or a journal as weeks */
export interface WeeksAnswer {
  /** one for each animal */
  weeks: Week[];
}

/** what a journal holds */
export interface JournalAnswer {
  /** of the animals that it tells of */
  names: string[];
  /** the newest day first */
  facts: JournalFact[];
}

/** one fact of a journal */
export interface JournalFact {
  /** of the text, from 1 */
  line: number;
  date: string;
  /** as its own text spells it */
  animal: string;
  fact: 'weighs' | 'ate' | 'left' | 'note';
  /** the line behind the animal's name, without the remark */
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
