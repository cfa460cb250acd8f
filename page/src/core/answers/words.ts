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
