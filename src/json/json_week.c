/* Days and weeks: the calendar, every nutrient's days and windows, what averaging does. */
#include "app/app_week.h"

#include "text/date.h"
#include "time/week_words.h"
#include "json/json_parts.h"

static const struct app_week_one *one(const struct at *at) { return at_within(at, &json_week_shape); }
static const struct week *week(const struct at *at) { return one(at)->week; }
static const char *text_in(const struct at *at, const char *text) {
  (void)at;
  return text && text[0] ? text : NULL;
}

/* Strings made while an answer is written live as long as what it is written into. */
static void write_words(struct json *j, const char *key, const char *words) { json_text_or_null(j, key, words); }

/* ---- days -------------------------------------------------------------------------------------------------------- */

static const char *day_weekday(const struct at *at) { return week_day_short[week_weekday(week(at), (int)at->place)]; }
static void write_date(struct json *j, const char *key, const struct at *at) {
  long date = week(at)->days->day[at->place].date;
  struct buf b;
  buf_init(&b, j->out->arena, 16);
  if (date > 0) date_print(&b, date);
  write_words(j, key, buf_text(&b));
}
static double day_kcal(const struct at *at) { return week(at)->kcal[at->place]; }
static int day_fails(const struct at *at) {
  return week(at)->judged && week(at)->days->day[at->place].known ? week(at)->fails[at->place] : -1;
}
static void write_failing(struct json *j, const char *key, const struct at *at) {
  const struct week *w = week(at);
  json_open(j, key, '[');
  for (int n = 0; w->judged && n < NUT_COUNT; n++)
    if (n != NUT_ENERGY && week_fails_on(w, (enum nutrient)n, (int)at->place)) json_text(j, NULL, nutrient_info[n].key);
  json_close(j, ']');
}
static void write_says(struct json *j, const char *key, const struct at *at) {
  const struct week *w = week(at);
  write_words(j, key, w->judged ? week_day_words(w, (int)at->place, NUT_COUNT, j->out->arena) : "");
}

static const struct field DAY[] = {
    TEXT_OF_ALWAYS("weekday", day_weekday, "Mon to Sun"),
    FREE("date", write_date, "string | null", "null in a plan"),
    TEXT("menu", struct day_of_food, menu, "what is fed, in the writer's words"),
    TRUTH("known", struct day_of_food, known, "false: nobody wrote down what was eaten"),
    TRUTH("uncounted", struct day_of_food, uncounted, "something was eaten besides of which nothing is known"),
    NUMBER_OF("kcal", "kcal a day", day_kcal, "null: not known"),
    TRUTH_OR_NULL_OF("fails", day_fails, "something fails on this day that does not fail on all"),
    FREE("failing", write_failing, "string[]", "keys of all nutrients that fail on it"),
    FREE("says", write_says, "string | null",
         "those that do not fail on all days, with the share of the allowance; 'no food' of a day without"),
};
static const struct shape day_shape = SHAPE("WeekDay", DAY, "one day");

/* ---- nutrients --------------------------------------------------------------------------------------------------- */

static const struct shape nutrient_shape;
static const struct week_nutrient *nutrient(const struct at *at) { return at_within(at, &nutrient_shape); }
static double unless_unknown(const struct at *at, double x) { return nutrient(at)->known ? x : NOT_KNOWN; }
static double days_below(const struct at *at) { return unless_unknown(at, nutrient(at)->days_below); }

static const char *key_of(const struct at *at) { return nutrient_info[nutrient(at)->id].key; }
static const char *name_of(const struct at *at) { return nutrient_info[nutrient(at)->id].name; }
static const char *unit_of(const struct at *at) { return nutrient_info[nutrient(at)->id].unit; }
static int verdict(const struct at *at) { return week(at)->judged ? (int)nutrient(at)->verdict : -1; }
static int mean_verdict(const struct at *at) { return week(at)->judged ? (int)nutrient(at)->mean_verdict : -1; }
static int day_verdict(const struct at *at) { return week(at)->judged ? (int)nutrient(at)->day_verdict : -1; }
static int averaging(const struct at *at) { return week(at)->judged ? (int)nutrient(at)->averaging : -1; }
static double mean_amount(const struct at *at) {
  return unless_unknown(at, week(at)->mean->nutrient[nutrient(at)->id].amount);
}
static size_t days(const struct at *at) { return (size_t)week(at)->days->days; }
static double on_day(const struct at *at, size_t i) { return unless_unknown(at, nutrient(at)->day[i]); }
static double in_window(const struct at *at, size_t i) { return unless_unknown(at, nutrient(at)->window[i]); }
static const char *window_word(const struct at *at, size_t i) { return verdict_word[nutrient(at)->window_verdict[i]]; }

static const struct week_window *window(const struct at *at) { return at->it; }
static double window_first(const struct at *at) { return window(at)->first; }
static double window_amount(const struct at *at) { return unless_unknown(at, window(at)->amount); }
static double window_ratio(const struct at *at) { return unless_unknown(at, window(at)->ratio); }
static double window_chance(const struct at *at) { return unless_unknown(at, window(at)->chance); }
static const struct field WINDOW[] = {
    NUMBER_OF_ALWAYS("first", "", window_first, "its first day, from 0"),
    NUMBER_OF("amount", "unit", window_amount, "mean a day of what is known; null: nothing is"),
    NUMBER_OF("ratio", "", window_ratio, "by the allowance"),
    NUMBER_OF("chance", "", window_chance, "leanest: that the allowance is reached; richest: that the upper limit is kept"),
};
static const struct shape window_shape = SHAPE("WeekWindow", WINDOW, "a run of days in a row");
static const void *if_any(const struct week_window *w) { return w->first >= 0 ? w : NULL; }
static const void *leanest(const struct at *at) { return if_any(&nutrient(at)->leanest); }
static const void *richest(const struct at *at) { return if_any(&nutrient(at)->richest); }

static const struct field RUN[] = {
    NUMBER_ALWAYS("first", "", struct day_run, first, "day, from 0"),
    NUMBER_ALWAYS("days", "days", struct day_run, days, ""),
};
static const struct shape run_shape = SHAPE("WeekRun", RUN, "days in a row");

static const struct field NUTRIENT[] = {
    TEXT_OF_ALWAYS("key", key_of, "of the nutrient"),
    TEXT_OF_ALWAYS("name", name_of, "for people"),
    TEXT_OF_ALWAYS("unit", unit_of, "of the amounts"),
    NUMBER_ALWAYS("window_days", "days", struct week_nutrient, window_days, "over which it may average"),
    NUMBER("minimum", "unit", struct week_nutrient, minimum, "a day"),
    NUMBER("allowance", "unit", struct week_nutrient, allowance, "a day"),
    NUMBER("upper", "unit", struct week_nutrient, upper, "a day"),
    NUMBER_OF("mean", "unit", mean_amount, "of all known days, a day"),
    OBJECT_OF("leanest", leanest, &window_shape, "null: no run of known days is long enough"),
    OBJECT_OF("richest", richest, &window_shape, ""),
    WORD_OF("verdict", verdict, verdict_word, VERDICT_COUNT, "of the leanest and the richest window"),
    WORD_OF("mean_verdict", mean_verdict, verdict_word, VERDICT_COUNT, "of the mean of all known days"),
    WORD_OF("day_verdict", day_verdict, verdict_word, VERDICT_COUNT, "if every day had to stand for itself"),
    WORD_OF("averaging", averaging, averaging_key, AVERAGING_COUNT, "what averaging over days does for it"),
    NUMBER_ALWAYS("windows", "", struct week_nutrient, windows, "that were judged"),
    NUMBER_ALWAYS("windows_failing", "", struct week_nutrient, windows_failing, "of them, not met"),
    NUMBER_OF("days_below", "days", days_below, "single days that are known to be under the allowance"),
    TRUTH("too_much", struct week_nutrient, too_much, "what fails is the upper side"),
    TRUTH("highest_day_over", struct week_nutrient, highest_day_over, "a single day passes the upper limit"),
    TRUTH("fails_by_fasts", struct week_nutrient, fails_by_fasts, "for no other reason than days on which nothing is fed"),
    ROWS("streaks", struct week_nutrient, streak, streak_count, &run_shape, "days in a row that matter, longest first"),
    ROWS("bridged", struct week_nutrient, bridged, bridged_count, &run_shape,
         "days in a row below the allowance that no window minds, longest first"),
    NUMBERS_WITH_GAPS_OF("by_day", days, on_day, "amount of each day; null: not known"),
    NUMBERS_WITH_GAPS_OF("by_window", days, in_window,
                         "mean a day of what is known of the window that begins on each day; null: none, or nothing"),
    TEXTS_OF("window_verdicts", days, window_word, "of the window that begins on each day"),
};
static const struct shape nutrient_shape = SHAPE("WeekNutrient", NUTRIENT, "one nutrient over the days");

/* ---- calcium to phosphorus ---------------------------------------------------------------------------------------- */

static double ratio_days(const struct at *at) { return week(at)->ca_p.window_days; }
static double ratio_low(const struct at *at) { return week(at)->ca_p.low.amount; }
static double ratio_high(const struct at *at) { return week(at)->ca_p.high.amount; }
static double ratio_in(const struct at *at, size_t i) { return week(at)->ca_p.window[i]; }
static const struct field RATIO[] = {
    NUMBER_OF_ALWAYS("window_days", "days", ratio_days, ""),
    NUMBER_OF("low", "", ratio_low, "the lowest of all windows"),
    NUMBER_OF("high", "", ratio_high, "the highest"),
    NUMBERS_WITH_GAPS_OF("by_window", days, ratio_in, "ratio of the window's sums"),
};
static const struct shape ratio_shape = SHAPE("WeekCalcium", RATIO, "calcium to phosphorus");

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static const char *name(const struct at *at) { return text_in(at, week(at)->days->name); }
static const struct check_result *mean(const struct at *at) { return week(at)->mean; }
static int standard(const struct at *at) { return (int)mean(at)->options.standard; }
static int basis(const struct at *at) {
  return (int)(week(at)->judged ? mean(at)->allowances.basis : mean(at)->options.basis);
}
static double sure(const struct at *at) { return mean(at)->options.sure; }
static double day_count(const struct at *at) { return week(at)->days->days; }
static int repeats(const struct at *at) { return week(at)->days->repeats; }
static double known_days(const struct at *at) { return week(at)->known_days; }
static double days_failing(const struct at *at) { return week(at)->judged ? week(at)->days_failing : NOT_KNOWN; }
static double supply(const struct at *at) { return week(at)->food_known ? mean(at)->energy.supply_kcal : NOT_KNOWN; }
static const char *refused(const struct at *at) {
  return mean(at)->refusal == REFUSE_NOT ? NULL : refusal_key(mean(at)->refusal);
}
static void write_lead(struct json *j, const char *key, const struct at *at) {
  write_words(j, key, week_lead(week(at), j->out->arena));
}
static size_t dangers(const struct at *at) { return mean(at)->finding_count; }
static const char *danger(const struct at *at, size_t i) {
  return mean(at)->finding[i].danger ? mean(at)->finding[i].text : NULL;
}
static size_t assumptions(const struct at *at) { return one(at)->assumed_count; }
static const char *assumption(const struct at *at, size_t i) { return one(at)->assumed[i]; }
static const void *a_day(const struct at *at, size_t i) { return &week(at)->days->day[i]; }
static size_t nutrients(const struct at *at) {
  (void)at;
  return NUT_COUNT;
}
static const void *a_nutrient(const struct at *at, size_t i) { return &week(at)->nutrient[i]; }

static const struct animal *animal(const struct at *at) { return one(at)->animal; }
static const char *animal_name(const struct at *at) { return animal(at)->name; }
static int animal_species(const struct at *at) { return (int)animal(at)->species; }
static double animal_weight(const struct at *at) { return animal(at)->weight_kg; }
static double animal_need(const struct at *at) { return mean(at)->energy.need.kcal; }
static const struct field ANIMAL[] = {
    TEXT_OF("name", animal_name, "null when only a weight was given"),
    WORD_OF_ALWAYS("species", animal_species, species_word, SPECIES_COUNT, ""),
    NUMBER_OF("weight_kg", "kg", animal_weight, ""),
    NUMBER_OF("need_kcal", "kcal a day", animal_need, ""),
};
static const struct shape animal_shape = SHAPE("WeekAnimal", ANIMAL, "whom it is for");
static const void *the_animal(const struct at *at) { return animal(at); }

static size_t group_count(const struct at *at) { return ((const struct week_group *)at->it)->count; }
static const char *group_item(const struct at *at, size_t i) {
  return nutrient_info[((const struct week_group *)at->it)->item[i]->id].key;
}
static const struct field GROUP[] = {
    TEXT_ALWAYS("key", struct week_group, key, ""),
    TEXT_ALWAYS("title", struct week_group, title, ""),
    TEXTS_OF("nutrients", group_count, group_item, "their keys, worst first"),
};
static const struct shape group_shape = SHAPE("WeekGroup", GROUP, "needs that ask the same of the reader");

static void write_groups(struct json *j, const char *key, const struct at *at) {
  struct week_group group[WEEK_GROUP_COUNT];
  if (!week(at)->judged) {
    json_nothing(j, key);
    return;
  }
  week_groups(week(at), group);
  json_open(j, key, '[');
  for (size_t i = 0; i < WEEK_GROUP_COUNT; i++) {
    struct at inner = {at->lib, &group_shape, &group[i], at, i};
    json_shape(j, NULL, &group_shape, &inner);
  }
  json_close(j, ']');
}

static const struct field WEEK[] = {
    TEXT_OF("name", name, "of the plan or the recipe"),
    OBJECT_OF("animal", the_animal, &animal_shape, "null when none was given"),
    WORD_OF_ALWAYS("standard", standard, standard_key, STANDARD_COUNT, ""),
    WORD_OF_ALWAYS("basis", basis, basis_key, BASIS_COUNT, ""),
    NUMBER_OF_ALWAYS("sure", "", sure, "the confidence asked for, 0.5 to 0.99"),
    NUMBER_OF_ALWAYS("days", "days", day_count, ""),
    TRUTH_OF("repeats", repeats, "after the last day comes the first"),
    NUMBER_OF_ALWAYS("known_days", "days", known_days, ""),
    NUMBER_OF("days_failing", "days", days_failing, "on which something fails that does not fail on all"),
    NUMBER_OF("kcal", "kcal a day", supply, "of the mean of all known days"),
    FREE("says", write_lead, "string | null", "what averaging buys and what it does not"),
    TEXTS_OF("dangers", dangers, danger, "what must not be fed at all"),
    TEXTS_OF("assumed", assumptions, assumption, "in words"),
    ROWS_OF("calendar", days, a_day, &day_shape, ""),
    FREE_OF("groups", write_groups, "WeekGroup[] | null", &group_shape, "in the order in which they are told"),
    ROWS_OF("nutrients", nutrients, a_nutrient, &nutrient_shape, "with their days and windows, to be drawn as lines"),
    OBJECT_HERE("ca_p", &ratio_shape, ""),
    TEXT_OF("refused", refused, "why no verdict is given"),
};
const struct shape json_week_shape = SHAPE("Week", WEEK, "the answer of `week --json`, one object an animal");

void json_week(const struct library *lib, const struct app_week_one *a, struct buf *out) {
  json_write(lib, &json_week_shape, a, out);
}
