/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { FoodState } from './words';

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

/** a sheet as one file of HTML */
export interface SheetPage {
  /** of the sheet: the recipe's name */
  title: string;
  /** one whole file */
  html: string;
}
