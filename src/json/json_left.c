/* What the review says of a bowl that was found, and the foods that would make an impossible one possible. */
#include "review/findings.h"
#include "json/json_parts.h"

/* ---- what is left ------------------------------------------------------------------------------------------------ */

static const struct left_seen *seen(const struct at *at) { return at_within(at, &json_left_shape); }
static int is_new(const struct at *at) { return !findings_say(seen(at)->before, ((const struct finding *)at->it)->id); }

static const struct field FINDING[] = {
    TEXT_ALWAYS("id", struct finding, id, "which finding"),
    WORD("weight", struct finding, weight, finding_weight_word, FINDING_WEIGHT_COUNT, ""),
    TRUTH_OF("new", is_new, "the recipe as it was did not have it"),
    TEXT_ALWAYS("text", struct finding, text, "the sentence"),
};
static const struct shape finding_shape = SHAPE("LeftFinding", FINDING, "what the review says of the new bowl");

static size_t findings(const struct at *at) { return seen(at)->after ? seen(at)->after->finding_count : 0; }
static const void *finding(const struct at *at, size_t i) {
  const struct finding *f = &seen(at)->after->finding[i];
  return f->weight == FINDING_ACT || f->weight == FINDING_WATCH ? f : NULL;
}

static const struct field LEFT[] = {
    ROWS_OF("findings", findings, finding, &finding_shape, "those to act on or to keep an eye on")};
const struct shape json_left_shape = SHAPE("Left", LEFT, "what is left to say");

void json_left(struct json *j, const struct at *at, const struct check_result *before, const struct check_result *after) {
  struct left_seen it = {before, after};
  struct at inner = {at->lib, &json_left_shape, &it, at, 0};
  json_fields(j, &inner);
}

/* ---- what would help --------------------------------------------------------------------------------------------- */

static const struct model_help *help(const struct at *at) { return at->it; }
static const char *help_code(const struct at *at) { return library_code(at->lib, help(at)->food); }
static const char *help_name(const struct at *at) { return library_name(at->lib, help(at)->food); }

static const struct field AMOUNT[] = {
    TEXT_OF_ALWAYS("food", help_code, "the pin"),
    TEXT_OF_ALWAYS("name", help_name, "of the record"),
    NUMBER("grams_per_day", "g a day", struct model_help, grams,
           "no more than this is needed; null when it could not be computed"),
    NUMBER("most_grams_per_day", "g a day", struct model_help, most_grams, "the most that was tried"),
};
static const struct shape amount_shape = SHAPE("HelpfulAmount", AMOUNT, "a food and how much of it");

static size_t helped(const struct at *at) { return help(at)->relieved; }
static const char *helped_limit(const struct at *at, size_t i) { return help(at)->limit[i]->name; }

static const struct field HELP[] = {
    SAME_AS(&amount_shape),
    TRUTH("enough", struct model_help, enough, "by itself"),
    NUMBER("relief", "", struct model_help, relief, "share of what is missed that it takes away, 0 to 1"),
    TEXTS_OF("helps_with", helped, helped_limit, "limits, in words"),
};
static const struct shape help_shape = SHAPE("HelpfulFood", HELP, "a food that would help");

static const struct field HELPS[] = {
    ROWS("would_help", struct model_helps, help, count, &help_shape, "foods of the library, those that are enough first"),
    ROWS_IN("would_help_together", struct model_helps, team.food, team.count, &amount_shape,
            "where no food is enough: a few that are"),
};
const struct shape json_helps_shape = SHAPE("Helps", HELPS, "what would make it possible");
