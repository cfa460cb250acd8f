/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Species } from './words';

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
  id: 'loss-too-fast' | 'loss-unexplained' | 'gain-fast' | 'change' | 'step' | 'reading' | 'other-weight' | 'old' | 'unknown-days' | 'unread-days' | 'partly-known-days' | 'much-eaten';
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
