#include "recipe/heading.h"

#include "recipe/recipe_line.h"

static size_t meal_at(const struct tokens *t, size_t at) {
  static const char *const MEALS[] = {"breakfast", "brunch",   "lunch",      "dinner",      "supper",     "tea time",
                                      "teatime",   "morning",  "midday",     "noon",        "afternoon",  "evening",
                                      "night",     "bedtime",  "am",         "pm",          "a . m .",    "p . m .",
                                      "mornings",  "evenings", "first meal", "second meal", "third meal", "meal 1",
                                      "meal 2",    "meal 3",   "meal 4",     "meal one",    "meal two",   "meal three"};
  return any_of(t, at, MEALS, COUNT_OF(MEALS));
}

/* What may stand around the words of a meal or a day without being a food. */
static size_t filler_at(const struct tokens *t, size_t at) {
  static const char *const FILLERS[] = {"in the", "at",    "the",    "meal",   "meals",   "feed", "feeding", "food",
                                        "bowl",   "total", "totals", "amount", "amounts", "menu", "fed",     "for",
                                        "of",     "in",    "and",    "only",   "grams",   "each", "o'clock"};
  if (t->item[at].kind != TOKEN_WORD) return 1; /* marks, and the hours of "8:00" */
  return any_of(t, at, FILLERS, COUNT_OF(FILLERS));
}

/* "Weekly", "Every week": over a list of lines the amounts of a week, as "Per week" says. */
static double period_of_heading(const struct tokens *t, size_t at, size_t used) {
  double per_28 = 0;
  bool joined = false;
  return frequency_period_at(t, at, &per_28, &joined) == used && per_28 < CALENDAR_DAYS ? per_28 : 0;
}

static bool take_when(struct heading *h, const struct tokens *t, size_t at) {
  struct frequency f = frequency_at(t, at);
  bool short_day = f.tokens == 0 && t->item[at].kind == TOKEN_WORD;
  if (short_day) { /* "Mon:", "Sun": over a list nothing else can be meant */
    static const char *const SHORT[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun", "tues", "thur", "thurs", "weds"};
    static const int DAY[] = {0, 1, 2, 3, 4, 5, 6, 1, 3, 3, 2};
    for (size_t i = 0; i < COUNT_OF(SHORT); i++)
      if (phrase_at(t, at, SHORT[i]) > 0)
        f = (struct frequency){.tokens = 1, .feedings = 1, .times_per_28 = 4, .days = 1u << DAY[i]};
  }
  if (f.tokens == 0) return false;
  double period = period_of_heading(t, at, f.tokens);
  if (period > 0) {
    f.per_28 = period;
    f.times_per_28 = 28;
  }
  h->kind = HEADING_WHEN;
  h->when = f;
  return true;
}

static struct heading read_words(struct span words, bool alone, struct arena *arena) {
  struct tokens t = tokens_of(words, arena);
  struct heading h = {.kind = HEADING_NONE, .unit = UNIT_NONE, .alone = true};
  for (size_t i = 0, used; i < t.count; i += used) {
    enum unit unit = unit_at_token(&t, i, &used);
    if (used > 0 && t.item[i].kind == TOKEN_WORD && unit_info[unit].kind == UNIT_KIND_MASS) {
      h.unit = unit;
      continue;
    }
    if (h.kind != HEADING_WHEN && take_when(&h, &t, i)) {
      used = h.when.tokens;
      continue;
    }
    if (phrase_at(&t, i, "day") > 0 && i + 1 < t.count && t.item[i + 1].kind == TOKEN_NUMBER && h.kind == HEADING_NONE) {
      h.kind = HEADING_DAY_NUMBER;
      used = 2;
      continue;
    }
    used = meal_at(&t, i);
    if (used > 0 && h.kind == HEADING_NONE) h.kind = HEADING_MEAL;
    if (used == 0) used = filler_at(&t, i);
    h.alone = h.alone && used > 0;
    if (alone && !h.alone) return (struct heading){.kind = HEADING_NONE, .unit = UNIT_NONE};
    if (used == 0) used = 1;
  }
  if (h.kind == HEADING_MEAL && !h.alone) h.kind = HEADING_NONE;
  return h;
}

struct heading heading_read(struct span words, struct arena *arena) { return read_words(words, false, arena); }

struct heading heading_alone(struct span words, struct arena *arena) { return read_words(words, true, arena); }
