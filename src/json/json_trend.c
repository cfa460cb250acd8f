/* Weights and what was eaten over time. */
#include "app/app_trend.h"

#include "text/date.h"
#include "json/json_parts.h"

static const struct app_trend_answer *answer(const struct at *at) { return at_within(at, &json_trend_shape); }
static const struct trend_result *trend(const struct at *at) { return answer(at)->told.trend; }

static void write_day(struct json *j, const char *key, long day) {
  struct buf b;
  buf_init(&b, j->out->arena, 16);
  date_print(&b, day);
  json_text(j, key, buf_text(&b));
}

/* ---- bands ------------------------------------------------------------------------------------------------------- */

static const struct field BAND[] = {
    NUMBER("mean", "", struct trend_band, mean, "kg, kg a week or kcal a day, as the key around it says"),
    NUMBER("low", "", struct trend_band, low, "5th percentile"),
    NUMBER("high", "", struct trend_band, high, "95th percentile"),
};
static const struct shape band_shape = SHAPE("TrendBand", BAND, "a figure with its interval of 90 per cent");
static const void *if_known(const struct trend_band *b) { return b->mean == b->mean ? b : NULL; }
static const void *weight_now(const struct at *at) { return if_known(&trend(at)->weight); }
static const void *per_week(const struct at *at) { return if_known(&trend(at)->per_week); }
static const void *need(const struct at *at) { return if_known(&trend(at)->need); }
static const void *balance(const struct at *at) { return if_known(&trend(at)->balance); }

/* ---- lists ------------------------------------------------------------------------------------------------------- */

static void write_day_date(struct json *j, const char *key, const struct at *at) {
  write_day(j, key, ((const struct trend_day *)at->it)->day);
}
static double day_mean(const struct at *at) { return ((const struct trend_day *)at->it)->weight.mean; }
static double day_low(const struct at *at) { return ((const struct trend_day *)at->it)->weight.low; }
static double day_high(const struct at *at) { return ((const struct trend_day *)at->it)->weight.high; }
static const struct field DAY[] = {
    FREE("date", write_day_date, "string", ""),
    NUMBER_OF("kg", "kg", day_mean, "of the animal"),
    NUMBER_OF("low_kg", "kg", day_low, "5th percentile"),
    NUMBER_OF("high_kg", "kg", day_high, "95th percentile"),
};
static const struct shape day_shape = SHAPE("TrendDay", DAY, "the weight on one day");

static void write_reading_date(struct json *j, const char *key, const struct at *at) {
  write_day(j, key, ((const struct trend_reading *)at->it)->day);
}
static const struct field READING[] = {
    FREE("date", write_reading_date, "string", ""),
    NUMBER_ALWAYS("kg", "kg", struct trend_reading, kg, "what the scale said"),
    NUMBER_ALWAYS("off_kg", "kg", struct trend_reading, off_kg, "less the weight of that day"),
    TRUTH("outlier", struct trend_reading, outlier, "far from the days around it: asked about, kept, hardly counted"),
};
static const struct shape reading_shape = SHAPE("TrendReading", READING, "a weighing");

static void write_change_date(struct json *j, const char *key, const struct at *at) {
  write_day(j, key, ((const struct trend_change *)at->it)->day);
}
static const struct field CHANGE[] = {
    FREE("date", write_change_date, "string", "about when"),
    NUMBER_ALWAYS("before_kg_week", "kg a week", struct trend_change, before, ""),
    NUMBER_ALWAYS("after_kg_week", "kg a week", struct trend_change, after, ""),
    NUMBER("kcal_before", "kcal a day", struct trend_change, kcal_before, "eaten in the four weeks before"),
    NUMBER("kcal_after", "kcal a day", struct trend_change, kcal_after, "eaten in the four weeks after"),
    TRUTH("need_changed", struct trend_change, need_changed, "more than the food explains"),
};
static const struct shape change_shape = SHAPE("TrendChange", CHANGE, "a change of the trend");

static void write_forecast_date(struct json *j, const char *key, const struct at *at) {
  write_day(j, key, ((const struct trend_forecast *)at->it)->day);
}
static double ahead_mean(const struct at *at) { return ((const struct trend_forecast *)at->it)->weight.mean; }
static double ahead_low(const struct at *at) { return ((const struct trend_forecast *)at->it)->weight.low; }
static double ahead_high(const struct at *at) { return ((const struct trend_forecast *)at->it)->weight.high; }
static const struct field FORECAST[] = {
    FREE("date", write_forecast_date, "string", ""),
    NUMBER_OF("kg", "kg", ahead_mean, ""),
    NUMBER_OF("low_kg", "kg", ahead_low, "of the animal: 5th percentile"),
    NUMBER_OF("high_kg", "kg", ahead_high, "95th percentile"),
    NUMBER_ALWAYS("reading_low_kg", "kg", struct trend_forecast, reading_low, "of a reading of the scale"),
    NUMBER_ALWAYS("reading_high_kg", "kg", struct trend_forecast, reading_high, ""),
};
static const struct shape forecast_shape = SHAPE("TrendForecast", FORECAST, "a day to come");

static const struct field REMARK[] = {
    WORD("id", struct trend_remark, kind, trend_remark_key, REMARK_KINDS, "of the remark"),
    WORD("weight", struct trend_remark, urgency, trend_urgency_word, TREND_URGENCIES, "what matters first"),
    TEXT_ALWAYS("text", struct trend_remark, text, ""),
};
static const struct shape remark_shape = SHAPE("TrendRemark", REMARK, "what is remarked beside the figures");

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static const char *name(const struct at *at) { return answer(at)->animal->name; }
static int species(const struct at *at) { return (int)answer(at)->animal->species; }
static const struct field ANIMAL[] = {
    TEXT_OF("name", name, "null when only a weight was given"),
    WORD_OF_ALWAYS("species", species, species_word, SPECIES_COUNT, ""),
};
static const struct shape animal_shape = SHAPE("TrendAnimal", ANIMAL, "whom it is about");

static void write_until(struct json *j, const char *key, const struct at *at) { write_day(j, key, answer(at)->told.until); }
static int lack(const struct at *at) { return (int)trend(at)->lack; }
static double rate_days(const struct at *at) { return trend(at)->day_count > 0 ? trend(at)->rate_days : NOT_KNOWN; }
static double chance_loss(const struct at *at) { return trend(at)->chance_loss; }
static double equation(const struct at *at) { return answer(at)->equation.kcal; }
static double equation_low(const struct at *at) { return answer(at)->equation.low_kcal; }
static double equation_high(const struct at *at) { return answer(at)->equation.high_kcal; }
static double recent(const struct at *at) { return trend(at)->recent_kcal; }
static double recent_known(const struct at *at) { return (double)trend(at)->recent_known; }
static double known_days(const struct at *at) { return (double)trend(at)->known_days; }
static double scale_sd(const struct at *at) { return trend(at)->scale_sd; }
static double forecast_kcal(const struct at *at) { return trend(at)->forecast_kcal; }
static double wanted(const struct at *at, int n) {
  return n < 0 || answer(at)->refusal != REFUSE_NOT ? NOT_KNOWN : (double)n;
}
static double wanted_surer(const struct at *at) { return wanted(at, answer(at)->wanted_surer); }
static double wanted_ten(const struct at *at) { return wanted(at, answer(at)->wanted_ten); }
static const char *direction(const struct at *at) { return answer(at)->told.direction; }
static const char *need_words(const struct at *at) { return answer(at)->told.need; }
static const char *eaten_words(const struct at *at) { return answer(at)->told.eaten; }
static const char *ahead_words(const struct at *at) { return answer(at)->told.ahead; }
static const char *refused(const struct at *at) {
  return answer(at)->refusal == REFUSE_NOT ? NULL : refusal_key(answer(at)->refusal);
}
static size_t days(const struct at *at) { return trend(at)->day_count; }
static const void *a_day(const struct at *at, size_t i) { return &trend(at)->day[i]; }
static size_t readings(const struct at *at) { return trend(at)->reading_count; }
static const void *a_reading(const struct at *at, size_t i) { return &trend(at)->reading[i]; }
static size_t changes(const struct at *at) { return trend(at)->change_count; }
static const void *a_change(const struct at *at, size_t i) { return &trend(at)->change[i]; }
static size_t days_ahead(const struct at *at) { return trend(at)->forecast_count; }
static const void *a_day_ahead(const struct at *at, size_t i) { return &trend(at)->forecast[i]; }
static size_t remarks(const struct at *at) { return answer(at)->told.remark_count; }
static const void *a_remark(const struct at *at, size_t i) { return &answer(at)->told.remark[i]; }

static const struct field TREND[] = {
    OBJECT_HERE("animal", &animal_shape, ""),
    FREE("until", write_until, "string", "the day spoken of"),
    WORD_OF_ALWAYS("lacks", lack, trend_lack_word, TREND_LACKS,
                   "why there is no trend (weighings, span) or no need (intake)"),
    OBJECT_OF("weight_kg", weight_now, &band_shape, "of the animal on that day"),
    OBJECT_OF("per_week_kg", per_week, &band_shape, "change of weight, kg a week; below 0 a loss"),
    NUMBER_OF("per_week_days", "days", rate_days, "over which that is"),
    NUMBER_OF("chance_loss", "", chance_loss, "that the weight went down over these days"),
    OBJECT_OF("need_kcal", need, &band_shape, "the animal's own need, kcal a day"),
    NUMBER_OF("equation_kcal", "kcal a day", equation, "what is stated, or what the equation says"),
    NUMBER_OF("equation_low_kcal", "kcal a day", equation_low, "end of the usual range"),
    NUMBER_OF("equation_high_kcal", "kcal a day", equation_high, ""),
    TRUTH("surer", struct app_trend_answer, surer,
          "the animal's own need is surer than the equation, and is used with --journal"),
    NUMBER_OF("eaten_kcal", "kcal a day", recent, "mean of the known days of the last 28"),
    NUMBER_OF("eaten_days", "days", recent_known, "of the last 28, with a known intake"),
    NUMBER_OF("known_days", "days", known_days, "of all"),
    OBJECT_OF("balance_kcal", balance, &band_shape, "eaten lately less needed, kcal a day"),
    NUMBER_OF("scale_sd_kg", "kg", scale_sd, "noise of an ordinary reading"),
    NUMBER("safe_loss_low", "", struct app_trend_answer, safe_low, "a week, share of the weight"),
    NUMBER("safe_loss_high", "", struct app_trend_answer, safe_high, ""),
    NUMBER_ALWAYS("every_days", "days", struct app_trend_answer, every_days, "between weighings"),
    NUMBER_OF("wanted_surer", "", wanted_surer,
              "weighings more until the need is surer than the equation; null: more than 200"),
    NUMBER_OF("wanted_ten", "", wanted_ten, "weighings more until it is known to a tenth"),
    TEXT_OF("says", direction, "which way the weight goes, in words"),
    TEXT_OF("says_need", need_words, ""),
    TEXT_OF("says_eaten", eaten_words, ""),
    TEXT_OF("says_ahead", ahead_words, ""),
    ROWS_OF("remarks", remarks, a_remark, &remark_shape, ""),
    ROWS_OF("days", days, a_day, &day_shape, "from the first weighing on, to be drawn as a line with its band"),
    ROWS_OF("readings", readings, a_reading, &reading_shape, ""),
    ROWS_OF("changes", changes, a_change, &change_shape, ""),
    NUMBER_OF("forecast_kcal", "kcal a day", forecast_kcal, "what is taken to be eaten; null: the same trend goes on"),
    ROWS_OF("forecast", days_ahead, a_day_ahead, &forecast_shape, ""),
    TEXT_OF("refused", refused, "why there is no need and no forecast"),
};
const struct shape json_trend_shape = SHAPE("Trend", TREND, "the answer of `trend --json`");

void json_trend(const struct library *lib, const struct app_trend_answer *a, struct buf *out) {
  json_write(lib, &json_trend_shape, a, out);
}
