/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Verdict, Standard, Basis } from './words';
import type { LeftFinding, HelpfulFood, HelpfulAmount } from './left';

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
  /** foods that the text says are not to be proposed, as it names them */
  never: string[];
  /** nothing needs to change */
  already_met: boolean;
  /** every amount was first multiplied by this to fit the energy; null: it fitted */
  scaled: number | null;
  /** dangers in what is not counted, taken out */
  left_out: MendLeftOut[];
  /** what is wrong with the dinner as a whole, and what was set right first */
  plate_words: string | null;
  /** lines that were changed for that */
  plate: MendPlate[];
  /** raw fish that a cat must not have raw, written as cooked */
  cooked: MendCooked[];
  /** the search was ended by whoever waited */
  stopped: boolean;
  /** why no formula is given: a key */
  refused: string | null;
  /** lines that change; none where nothing needs to change, or where no change was found */
  change: MendChange[];
  /** lines that are added; none in the same cases */
  added: MendAdded[];
  /** the new recipe, which `check` reads; null in the same cases */
  text: string | null;
  /** currency a day: at the larder's prices; null when a food has none */
  cost_per_day?: number | null;
  /** what it comes to, in a sentence */
  summary?: string | null;
  /** what it stretches, in words */
  asks?: string[];
  /** a main food of which less than half is left for the sake of other things; null: it is the same dinner */
  another_dinner?: string | null;
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
  /** a smallest set of limits that cannot all be kept, in words */
  conflict?: string[];
  /** the change that comes closest */
  nearest?: MendFound | null;
  /** foods of the library, those that are enough first */
  would_help?: HelpfulFood[];
  /** where no food is enough: a few that are */
  would_help_together?: HelpfulAmount[];
}

/** a line of something uncounted that is taken out, because it is dangerous */
export interface MendLeftOut {
  /** of the recipe */
  line: number;
  /** the whole line */
  from: string | null;
  /** what to do about it */
  advice: string | null;
}

/** a line that was changed first, because the proportions of the dinner were wrong */
export interface MendPlate {
  /** of the recipe */
  line: number;
  /** what the food was called */
  name: string | null;
  /** the whole line */
  from: string | null;
  /** the whole line as the search began with it; empty: taken out */
  to: string | null;
}

/** a line that is cooked, because raw it destroys thiamin */
export interface MendCooked {
  /** of the recipe */
  line: number;
  /** what the food is called */
  name: string | null;
  /** the whole line, raw */
  from: string | null;
  /** the whole line, cooked; its amount may change as well */
  to: string | null;
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
  /** a main food of which less than half is left for the sake of other things; null: it is the same dinner */
  another_dinner: string | null;
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
