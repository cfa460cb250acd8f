/* A weight plan. */
#include "app/app_slim.h"

#include "text/date.h"
#include "json/json_parts.h"

static const struct app_slim_answer *answer(const struct at *at) { return at_within(at, &json_slim_shape); }
static void write_day(struct json *j, const char *key, long day) {
  struct buf b;
  buf_init(&b, j->out->arena, 16);
  date_print(&b, day);
  json_text(j, key, buf_text(&b));
}

static const struct slim_weighing *weighing(const struct at *at) { return at->it; }
static void write_date(struct json *j, const char *key, const struct at *at) {
  write_day(j, key, answer(at)->from + weighing(at)->day);
}
static double expected(const struct at *at) { return weighing(at)->weight.mean; }
static double expected_low(const struct at *at) { return weighing(at)->weight.low; }
static double expected_high(const struct at *at) { return weighing(at)->weight.high; }
static double grams(const struct at *at) {
  return answer(at)->grams_at_lowest * weighing(at)->kcal / answer(at)->plan.lowest_kcal;
}
static const struct field WEIGHING[] = {
    FREE("date", write_date, "string", "when to weigh"),
    NUMBER_ALWAYS("kcal", "kcal a day", struct slim_weighing, kcal, "to feed from that day on"),
    NUMBER_OF("grams", "g a day", grams, "of the mended bowl; null without one"),
    NUMBER_OF("kg", "kg", expected, "to expect"),
    NUMBER_OF("low_kg", "kg", expected_low, "if the need is at the high end of its interval; not below too_light_kg"),
    NUMBER_OF("high_kg", "kg", expected_high, "if it is at the low end"),
    NUMBER("too_light_kg", "kg", struct slim_weighing, too_light,
           "below this the loss since the first day is faster than is safe: feed more"),
};
static const struct shape weighing_shape = SHAPE("SlimWeighing", WEIGHING, "a day to weigh");

static const char *name(const struct at *at) { return answer(at)->animal->name; }
static int species(const struct at *at) { return (int)answer(at)->animal->species; }
static void write_from(struct json *j, const char *key, const struct at *at) { write_day(j, key, answer(at)->from); }
static int planned(const struct at *at) { return answer(at)->refusal == REFUSE_NOT; }
static int status(const struct at *at) { return planned(at) ? (int)answer(at)->plan.status : -1; }
static double if_found(const struct at *at, double x) {
  return planned(at) && answer(at)->plan.status == SLIM_FOUND ? x : NOT_KNOWN;
}
static double ideal(const struct at *at) { return answer(at)->body.ideal_kg; }
static double if_planned(const struct at *at, double x) { return planned(at) ? x : NOT_KNOWN; }
static double need(const struct at *at) { return if_planned(at, answer(at)->need.kcal); }
static double need_low(const struct at *at) { return if_planned(at, answer(at)->now.low); }
static double need_high(const struct at *at) { return if_planned(at, answer(at)->now.high); }
static const char *need_from(const struct at *at) { return answer(at)->need.from; }
static double floor_kcal(const struct at *at) { return if_planned(at, answer(at)->floor_kcal); }
static double safe_low(const struct at *at) { return if_planned(at, answer(at)->rate_low); }
static double safe_high(const struct at *at) { return if_planned(at, answer(at)->rate_high); }
static double lowest(const struct at *at) { return if_found(at, answer(at)->plan.lowest_kcal); }
static double per_week(const struct at *at) { return if_found(at, answer(at)->plan.per_week); }
static double days(const struct at *at) { return if_found(at, answer(at)->plan.days); }
static int reached(const struct at *at) { return answer(at)->plan.reached; }
static int at_floor(const struct at *at) { return answer(at)->plan.at_floor; }
static const char *lead(const struct at *at) { return answer(at)->lead; }
static size_t weighings(const struct at *at) { return answer(at)->plan.weighing_count; }
static const void *a_weighing(const struct at *at, size_t i) { return &answer(at)->plan.weighing[i]; }
static size_t rules(const struct at *at) { return answer(at)->rules; }
static const char *a_rule(const struct at *at, size_t i) { return answer(at)->rule[i]; }
static size_t stops(const struct at *at) { return answer(at)->stops; }
static const char *a_stop(const struct at *at, size_t i) { return answer(at)->stop[i]; }
static const char *text(const struct at *at) {
  const struct mended_answer *a = &answer(at)->bowl.answer;
  return a->count > 0 ? a->found[0].text : NULL;
}
static int already(const struct at *at) {
  const struct app_slim_answer *s = answer(at);
  return s->bowl_wanted && s->bowl.understood && s->bowl.answer.mend && s->bowl.answer.mend->already_met;
}
static const char *refused(const struct at *at) { return planned(at) ? NULL : refusal_key(answer(at)->refusal); }

static const struct field SLIM[] = {
    TEXT_OF("animal", name, "its name; null when only a weight was given"),
    WORD_OF_ALWAYS("species", species, species_word, SPECIES_COUNT, ""),
    FREE("from", write_from, "string", "the first day"),
    WORD_OF("status", status, slim_status_word, SLIM_STATUSES,
            "not-needed: not overweight; a-little: above the ideal weight, but too little for a plan; no-room: the floor "
            "leaves nothing to save"),
    NUMBER_ALWAYS("weight_kg", "kg", struct app_slim_answer, weight_kg, "today"),
    NUMBER_OF("ideal_kg", "kg", ideal, ""),
    NUMBER_OF("need_kcal", "kcal a day", need, "today"),
    NUMBER_OF("need_low_kcal", "kcal a day", need_low, ""),
    NUMBER_OF("need_high_kcal", "kcal a day", need_high, ""),
    TEXT_OF("need_from", need_from, "the journal, what was stated, or the equation"),
    NUMBER_OF("floor_kcal", "kcal a day", floor_kcal, "never less"),
    NUMBER_OF("safe_low", "", safe_low, "loss a week, share of the weight"),
    NUMBER_OF("safe_high", "", safe_high, ""),
    NUMBER_OF("lowest_kcal", "kcal a day", lowest, "of all steps: the bowl is mended for it"),
    NUMBER_OF("per_week", "", per_week, "expected loss in the first week of the full step, share of the weight"),
    NUMBER_OF("days", "days", days, "until the ideal weight; a year when it is not reached"),
    TRUTH_OF("reached", reached, "the ideal weight, within a year"),
    TRUTH_OF("at_floor", at_floor, "the floor holds the energy up"),
    TEXT_OF("says", lead, "in words"),
    ROWS_OF("weighings", weighings, a_weighing, &weighing_shape, ""),
    TEXTS_OF("meanwhile", rules, a_rule, ""),
    TEXTS_OF("stop", stops, a_stop, "when to stop and ask the veterinarian"),
    TEXT_OF("text", text,
            "the recipe mended for the lowest energy; null: none was given, none exists, or it is enough as it is"),
    TRUTH_OF("already_met", already, "the recipe, fed at that energy, meets everything as it is"),
    TEXT_OF("refused", refused, "why no plan is made"),
};
const struct shape json_slim_shape = SHAPE("Slim", SLIM, "the answer of `slim --json`");

void json_slim(const struct library *lib, const struct app_slim_answer *a, struct buf *out) {
  json_write(lib, &json_slim_shape, a, out);
}
