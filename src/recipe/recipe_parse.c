#include <math.h>

#include "base/num.h"
#include "base/utf8.h"
#include "recipe/heading.h"
#include "recipe/recipe_line.h"

enum {
  HEADER_RECIPE,
  HEADER_FOR,
  HEADER_MAKES,
  HEADER_MEALS,
  HEADER_TOTAL,
  HEADER_COOK,
  HEADER_NOTE,
  HEADER_FEEDS,
  HEADER_DOG,
  HEADER_CAT,
  HEADER_COUNT
};

static const struct header_name HEADERS[] = {
    {"Recipe", HEADER_RECIPE, true}, {"For", HEADER_FOR, true},     {"Makes", HEADER_MAKES, true},
    {"Meals", HEADER_MEALS, true},   {"Total", HEADER_TOTAL, true}, {"Cook", HEADER_COOK, true},
    {"Feeds", HEADER_FEEDS, true},   {"Dog", HEADER_DOG, true},     {"Cat", HEADER_CAT, true},
    {"Note", HEADER_NOTE, true},     {"Notes", HEADER_NOTE, false}};

/* Words that mean a header but are not read as one: they lead to the right word in the complaint. */
static const struct {
  const char *word;
  int id;
} LEADS[] = {{"name", HEADER_RECIPE},   {"title", HEADER_RECIPE}, {"animal", HEADER_FOR},   {"pet", HEADER_FOR},
             {"days", HEADER_MAKES},    {"yield", HEADER_MAKES},  {"yields", HEADER_MAKES}, {"serves", HEADER_MAKES},
             {"batch", HEADER_MAKES},   {"make", HEADER_MAKES},   {"weight", HEADER_TOTAL}, {"method", HEADER_COOK},
             {"cooking", HEADER_COOK},  {"cooked", HEADER_COOK},  {"comment", HEADER_NOTE}, {"remark", HEADER_NOTE},
             {"portions", HEADER_MEALS}};

enum { MOST_DAYS = 366, MOST_MEALS_A_DAY = 24, MOST_LINES = 5000, HEADING_MOST = 80, SHARED_G_A_DAY = 1000 };

struct parser {
  struct recipe *out;
  struct diags *d;
  struct arena *arena;
  struct recipe_line *line;
  struct line_extra { /* what a line said that the headers complete; beside 'line' */
    struct frequency often;
    struct span each_meal_at;
  } * extra;
  size_t count, cap, extra_count, extra_cap;
  bool seen[HEADER_COUNT];
  double feeds_g;     /* a day; NaN */
  double batch_meals; /* "Makes: 14 meals"; NaN */
  struct span makes_at, total_at;
  bool cook_raw_weight;
  int8_t cook_broth;
  struct buf note;
  struct ration_remark *remark;
  size_t remark_count, remark_cap;
  struct ration_uncounted *uncounted;
  size_t uncounted_count, uncounted_cap;
  int said;               /* lines that say something */
  bool anything;          /* a line that says something was seen */
  struct heading heading; /* in force for the lines below it */
};

/* ---- headers ---- */

static size_t one_of(const struct tokens *t, size_t at, const char *const *words, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (phrase_at(t, at, words[i]) > 0) return 1;
  return 0;
}
#define ONE_OF(t, at, ...)                                                                                                  \
  one_of((t), (at), (const char *const[]){__VA_ARGS__}, COUNT_OF(((const char *const[]){__VA_ARGS__})))

/* The number that a header's value begins with; NaN after a complaint. */
static double header_number(struct parser *p, const struct tokens *t, struct span value, const char *example, size_t *used) {
  struct quantity q = quantity_at(t, 0);
  *used = q.tokens;
  if (q.fault == QUANTITY_NONE) {
    diag_add(p->d, DIAG_ERROR, value, "'%.*s' has no number; write it as in '%s'", SPAN_ARG(quoted(value)), example);
    return (double)NAN;
  }
  if (q.fault != QUANTITY_FINE) {
    quantity_complain(t, 0, q, p->d);
    return (double)NAN;
  }
  if (q.low != q.high || !(q.low > 0)) {
    diag_add(p->d, DIAG_ERROR, value, "'%.*s': write one number above nothing, as in '%s'", SPAN_ARG(quoted(value)),
             example);
    return (double)NAN;
  }
  return q.low;
}

/* What follows the number must be understood, too. */
static bool value_ends(struct parser *p, const struct tokens *t, size_t at, const char *example) {
  if (at >= t->count || phrase_at(t, at, "of") > 0 || phrase_at(t, at, ".") > 0) return true;
  struct span rest = tokens_span(t, at, t->count - at);
  diag_add(p->d, DIAG_ERROR, rest, "'%.*s' is not understood here; write it as in '%s'", SPAN_ARG(quoted(rest)), example);
  return false;
}

static void read_makes(struct parser *p, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Makes: 3 days' or 'Makes: 14 meals";
  size_t used = 0;
  double n = header_number(p, t, value, EXAMPLE, &used);
  p->makes_at = value;
  if (!(n > 0)) return;
  bool days = ONE_OF(t, used, "day", "days"), weeks = ONE_OF(t, used, "week", "weeks");
  bool meals = ONE_OF(t, used, "meal", "meals", "bowl", "bowls", "portion", "portions", "serving", "servings");
  if (!days && !weeks && !meals) {
    diag_add(p->d, DIAG_ERROR, value, "'%.*s' of what? write '%s'", SPAN_ARG(quoted(value)), EXAMPLE);
    return;
  }
  if (!value_ends(p, t, used + 1, EXAMPLE)) return;
  if (meals) {
    p->batch_meals = n;
  } else {
    p->out->days = weeks ? 7 * n : n;
    p->out->days_stated = true;
  }
}

static void read_meals(struct parser *p, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Meals: 2 a day";
  size_t used = 0;
  double n = 0;
  if (ONE_OF(t, 0, "once", "twice")) {
    n = phrase_at(t, 0, "once") ? 1 : 2;
    used = 1;
  } else {
    n = header_number(p, t, value, EXAMPLE, &used);
  }
  if (!(n > 0)) return;
  used += ONE_OF(t, used, "meals", "meal", "times", "x");
  if (ONE_OF(t, used, "a", "per", "each", "/", "every") && ONE_OF(t, used + 1, "day"))
    used += 2;
  else
    used += ONE_OF(t, used, "daily");
  if (!value_ends(p, t, used, EXAMPLE)) return;
  if (n > MOST_MEALS_A_DAY) {
    diag_add(p->d, DIAG_ERROR, value, "more than %d meals a day", MOST_MEALS_A_DAY);
  } else {
    p->out->meals_per_day = n;
  }
}

static void read_total(struct parser *p, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Total: 1200 g";
  size_t used = 0, unit_used = 0;
  double n = header_number(p, t, value, EXAMPLE, &used);
  p->total_at = value;
  if (!(n > 0)) return;
  double grams = unit_convert(n, unit_at_token(t, used, &unit_used));
  enum unit u = unit_at_token(t, used, &unit_used);
  if (unit_used == 0 || unit_info[u].kind != UNIT_KIND_MASS) {
    diag_add(p->d, DIAG_ERROR, value, "'%.*s' is not a weight; write it as in '%s'", SPAN_ARG(quoted(value)), EXAMPLE);
    return;
  }
  if (value_ends(p, t, used + unit_used, EXAMPLE)) p->out->total_g = grams;
}

/* "2.5 % of body weight", "450 g a day" */
static void read_feeds(struct parser *p, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Feeds: 450 g a day' or 'Feeds: 2.5 % of body weight";
  size_t used = 0, unit_used = 0;
  double n = header_number(p, t, value, EXAMPLE, &used), per_28 = CALENDAR_DAYS;
  bool joined;
  if (!(n > 0)) return;
  enum unit u = unit_at_token(t, used, &unit_used);
  size_t at = used + unit_used;
  if (unit_used > 0 && u == UNIT_PERCENT) {
    static const char *const BODY[] = {
        "of body weight",     "of bodyweight",      "body weight",        "bodyweight", "of the body weight",
        "of his body weight", "of her body weight", "of its body weight", "bw",         "of bw"};
    size_t body = 0;
    for (size_t i = 0; i < COUNT_OF(BODY) && body == 0; i++) body = phrase_at(t, at, BODY[i]);
    at += body;
    at += frequency_period_at(t, at, &per_28, &joined);
    if (body > 0 && value_ends(p, t, at, EXAMPLE) && per_28 == CALENDAR_DAYS) {
      p->out->feeds_share = n / 100;
      return;
    }
  } else if (unit_used > 0 && unit_info[u].kind == UNIT_KIND_MASS) {
    at += frequency_period_at(t, at, &per_28, &joined);
    if (value_ends(p, t, at, EXAMPLE)) p->feeds_g = unit_convert(n, u) * per_28 / CALENDAR_DAYS;
    return;
  }
  diag_add(p->d, DIAG_ERROR, value, "'%.*s' is not understood; write '%s'", SPAN_ARG(quoted(value)), EXAMPLE);
}

static void read_animal(struct parser *p, struct span value, enum species species, struct span line) {
  if (p->out->animal_at.n > 0) {
    diag_add(p->d, DIAG_ERROR, line, "a second animal; one recipe is judged for one animal");
    return;
  }
  p->out->animal_at = value;
  p->out->animal_species = species;
}

static void say_unknown_method(struct parser *p, struct span value) {
  struct buf b;
  buf_init(&b, p->arena, 512);
  for (int s = STATE_BOILED; s < STATE_CANNED; s++) buf_addf(&b, "%s%s", s > STATE_BOILED ? ", " : "", state_word[s]);
  diag_add(p->d, DIAG_ERROR, value, "'%.*s' is not a cooking method; the methods are raw, %s", SPAN_ARG(quoted(value)),
           buf_text(&b));
}

static void read_cook(struct parser *p, struct span value, struct tokens *t) {
  struct recipe_line said = {.state = STATE_UNSTATED, .broth = -1, .wish = SEARCH_WISH_NONE};
  for (size_t i = 0, used; i < t->count; i++) {
    enum state s = method_by_words(t, i, &used);
    if (used > 0 && said.state == STATE_UNSTATED) {
      said.state = s;
      take(t, i, used);
    }
  }
  struct line_reader r = {.t = *t, .out = &said, .d = p->d, .arena = p->arena};
  read_qualifiers(&r);
  bool all = true;
  for (size_t i = 0; i < t->count; i++)
    if (!t->item[i].taken && t->item[i].kind == TOKEN_WORD)
      all = all && ONE_OF(t, i, "and", "gently", "all", "everything", "in", "water", "with", "the");
  if (said.state == STATE_UNSTATED && (said.raw_weight || said.cooked_weight)) said.state = STATE_COOKED_OTHER;
  if (!all || !(said.state == STATE_RAW || (state_is_cooked(said.state) && said.state != STATE_CANNED))) {
    say_unknown_method(p, value);
    return;
  }
  p->out->cook = said.state;
  p->cook_raw_weight = said.raw_weight;
  p->cook_broth = said.broth;
}

static void read_note(struct parser *p, struct span value) {
  if (p->note.n > 0) buf_addc(&p->note, '\n');
  buf_add(&p->note, value);
}

static void read_header(struct parser *p, int id, struct header h, struct span line) {
  if (h.value.n == 0) {
    diag_add(p->d, DIAG_WARNING, line, "nothing stands after '%.*s:'", SPAN_ARG(quoted(h.key)));
    return;
  }
  if (p->seen[id] && id != HEADER_NOTE) {
    diag_add(p->d, DIAG_ERROR, line, "a second '%s'; keep one of them", header_word(id, HEADERS, COUNT_OF(HEADERS)));
    return;
  }
  p->seen[id] = true;
  if (p->count > 0 && id != HEADER_NOTE)
    diag_add(p->d, DIAG_WARNING, line, "'%s' belongs before the first ingredient; it is read all the same",
             header_word(id, HEADERS, COUNT_OF(HEADERS)));
  struct tokens t = tokens_of(h.value, p->arena);
  switch (id) {
  case HEADER_RECIPE:
    p->out->name_at = line;
    p->out->name = arena_text(p->arena, h.value);
    break;
  case HEADER_FOR:
    p->out->for_at = h.value;
    p->out->for_whom = arena_text(p->arena, h.value);
    break;
  case HEADER_MAKES:
    read_makes(p, h.value, &t);
    break;
  case HEADER_MEALS:
    read_meals(p, h.value, &t);
    break;
  case HEADER_TOTAL:
    read_total(p, h.value, &t);
    break;
  case HEADER_FEEDS:
    read_feeds(p, h.value, &t);
    break;
  case HEADER_DOG:
    read_animal(p, h.value, SPECIES_DOG, line);
    break;
  case HEADER_CAT:
    read_animal(p, h.value, SPECIES_CAT, line);
    break;
  case HEADER_COOK:
    read_cook(p, h.value, &t);
    break;
  default:
    read_note(p, h.value);
    break;
  }
}

static int lead(struct span key) {
  for (size_t i = 0; i < COUNT_OF(LEADS); i++)
    if (span_is_fold(key, LEADS[i].word)) return LEADS[i].id;
  return -1;
}

static bool near_a_header(struct span key) {
  const char *words[HEADER_FEEDS]; /* "Seeds: 5 g" and "Fat: 5 g" are foods */
  for (int i = 0; i < HEADER_FEEDS; i++) words[i] = header_word(i, HEADERS, COUNT_OF(HEADERS));
  return lead(key) >= 0 || nearest_word(key, words, HEADER_FEEDS);
}

static void say_unknown_header(struct parser *p, struct header h, struct span line) {
  struct span shown = quoted(h.key);
  int id = lead(h.key);
  if (h.value.n == 0) {
    diag_add(p->d, DIAG_WARNING, line, "'%.*s:' is taken for a heading; no food is read from this line", SPAN_ARG(shown));
  } else if (p->count > 0 && !near_a_header(h.key)) {
    diag_add(p->d, DIAG_ERROR, h.value,
             "no amount after '%.*s:'; write it as in 'lamb heart: 200 g', or '#' before a remark", SPAN_ARG(shown));
    diag_code(p->d, DIAG_NO_FOOD);
    diag_fix(p->d, span_cut(line, 0, 0), "# ", "make it a remark");
  } else if (id >= 0) {
    diag_add(p->d, DIAG_WARNING, h.key, "unknown header '%.*s' is not read; did you mean '%s'?", SPAN_ARG(shown),
             header_word(id, HEADERS, COUNT_OF(HEADERS)));
    misspelt_fix(p->d, h.key, header_word(id, HEADERS, COUNT_OF(HEADERS)));
  } else {
    diag_add(p->d, DIAG_WARNING, h.key, "unknown header '%.*s' is not read%s", SPAN_ARG(shown),
             header_hint(h.key, HEADERS, COUNT_OF(HEADERS), p->arena));
    header_fix(p->d, h.key, HEADERS, COUNT_OF(HEADERS));
  }
}

/* ---- lines ---- */

/* Nothing but marks: a drawn line between parts of a post. */
static bool says_nothing(struct span line) {
  uint32_t c = 0;
  for (size_t i = 0, n; i < line.n && (n = utf8_read(span_cut(line, i, line.n), &c)) > 0; i += n)
    if ((c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c >= 0xBC || c == '[') return false;
  return true;
}

/* What a heading says counts for a line that says nothing else. */
static void apply_heading(const struct heading *h, struct line_reader *r) {
  struct recipe_line *l = r->out;
  bool bare = l->unit == UNIT_EACH && l->unit_at.n == 0 && l->amount_at.n > 0;
  /* Under "kg per week" a number is kilograms, unless it counts: "2 eggs". */
  bool behind = l->food_at.n > 0 && l->amount_at.p > l->food_at.p;
  if (bare && h->unit != UNIT_NONE && (behind || l->amount != floor(l->amount) || h->unit == UNIT_G)) l->unit = h->unit;
  if (h->kind != HEADING_WHEN || l->frequency_stated) return;
  l->frequency_stated = true;
  l->times_per_28 = h->when.times_per_28;
  l->days = h->when.days;
  r->often = h->when;
  r->each_meal_at = l->whole;
}

static bool read_ingredient(struct parser *p, struct span line, int number, const struct heading *heading) {
  struct recipe_line out;
  struct line_reader r = {.out = &out, .d = p->d, .arena = p->arena, .first = !p->anything};
  if (!recipe_line_read(&r, line, number)) return true;
  if (p->count == RECIPE_MOST_LINES) {
    diag_add(p->d, DIAG_ERROR, line, "more than %d ingredients; the rest is not read", RECIPE_MOST_LINES);
    return false;
  }
  apply_heading(heading, &r);
  struct line_extra extra = {r.often, r.each_meal_at};
  ARENA_PUSH(p->arena, p->line, p->count, p->cap, out);
  ARENA_PUSH(p->arena, p->extra, p->extra_count, p->extra_cap, extra);
  return true;
}

/* "? 1 scoop of a multivitamin": fed, and unknown. */
static bool read_uncounted(struct parser *p, struct span line, int number) {
  struct span text = trim_blanks(span_cut(line, 1, line.n));
  if (text.n == 0) return false;
  struct ration_uncounted u = {number, arena_text(p->arena, text)};
  ARENA_PUSH(p->arena, p->uncounted, p->uncounted_count, p->uncounted_cap, u);
  p->anything = true;
  return true;
}

/* "Monday:", "Breakfast", "Tue, Thu: 400 g beef heart". False when the line is none of these. */
static bool read_heading(struct parser *p, struct span line, int number, bool *more) {
  const char *colon = memchr(line.p, ':', line.n);
  struct span key = colon ? span_cut(line, 0, (size_t)(colon - line.p)) : line;
  struct span value = colon ? trim_blanks(span_cut(line, key.n + 1, line.n)) : (struct span){line.p, 0};
  if (header_id(trim_blanks(key), HEADERS, COUNT_OF(HEADERS)) >= 0 || key.n > HEADING_MOST) return false;
  struct heading whole = heading_read(line, p->arena), h = value.n == 0 ? whole : heading_read(key, p->arena);
  if (value.n > 0 && whole.kind == HEADING_MEAL && whole.alone) value.n = 0; /* "AM 8:00" */
  if (h.kind == HEADING_NONE || (!h.alone && (!colon || value.n > 0))) return false;
  if (h.kind == HEADING_DAY_NUMBER) {
    diag_add(p->d, DIAG_ERROR, key, "'%.*s' is not a day of the week; name the days, as in 'Monday:' or 'Mon, Thu:'",
             SPAN_ARG(quoted(key)));
    return true;
  }
  if (h.kind == HEADING_WHEN && h.when.refuse) {
    diag_add(p->d, DIAG_ERROR, key, "'%.*s': %s", SPAN_ARG(quoted(key)), h.when.refuse);
    return true;
  }
  if (value.n > 0) {
    if (!starts_with_amount(value, p->arena) && !colon) return false;
    *more = read_ingredient(p, value, number, h.kind == HEADING_WHEN ? &h : &p->heading);
  } else if (h.kind == HEADING_WHEN) {
    p->heading = h;
  }
  return true;
}

/* False when nothing more is to be read. */
static bool read_line(struct parser *p, struct span line, int number) {
  struct header h;
  line = trim_blanks(without_comment(line));
  if (line.n == 0 || says_nothing(line)) return true;
  if (++p->said > MOST_LINES) {
    diag_add(p->d, DIAG_ERROR, line, "more than %d lines; the rest is not read", MOST_LINES);
    return false;
  }
  bool more = true;
  if (line.p[0] == '?' && read_uncounted(p, line, number)) return true;
  if (read_heading(p, line, number, &more)) {
    p->anything = true;
    return more;
  }
  if (header_split(line, &h)) {
    int id = header_id(h.key, HEADERS, COUNT_OF(HEADERS));
    if (id >= 0)
      read_header(p, id, h, line);
    else if (starts_with_amount(h.value, p->arena) && !near_a_header(h.key))
      more = read_ingredient(p, line, number, &p->heading);
    else
      say_unknown_header(p, h, line);
  } else {
    more = read_ingredient(p, line, number, &p->heading);
  }
  p->anything = true;
  return more;
}

static bool names_animal(int header) { return header == HEADER_FOR || header == HEADER_DOG || header == HEADER_CAT; }

/* What a line says beside an ingredient is kept: dangers are looked for in it. 'before': ingredients before this line. */
static void keep_remark(struct parser *p, struct span line, int number, size_t before) {
  struct header h;
  struct span read = without_comment(line), rest = trim_blanks(span_cut(line, read.n, line.n));
  if (p->count > before) {
    p->line[p->count - 1].remark = rest;
    return;
  }
  if (header_split(trim_blanks(read), &h) && names_animal(header_id(h.key, HEADERS, COUNT_OF(HEADERS)))) line = rest;
  if (says_nothing(line) || span_starts_fold(trim_blanks(line), "# ask:")) return; /* what is asked is nobody's bowl */
  struct ration_remark remark = {number, arena_text(p->arena, trim_blanks(line))};
  ARENA_PUSH(p->arena, p->remark, p->remark_count, p->remark_cap, remark);
}

/* ---- what needs the whole text ---- */

static void scale(struct recipe_line *l, double by) {
  l->amount *= by;
  l->scaled *= by;
  l->amount_low *= by;
  l->amount_high *= by;
}

static void settle_makes(struct parser *p) {
  struct recipe *r = p->out;
  if (p->batch_meals > 0) {
    if (!(r->meals_per_day > 0)) {
      diag_add(p->d, DIAG_ERROR, p->makes_at, "how many of them are fed a day? add the line 'Meals: 2 a day'");
      return;
    }
    r->days = p->batch_meals / r->meals_per_day;
    r->days_stated = true;
  }
  if (r->days > MOST_DAYS) diag_add(p->d, DIAG_ERROR, p->makes_at, "a batch for more than %d days", MOST_DAYS);
}

/* "2 eggs a week" are one egg on two days; "600 g a week" are a seventh of it every day. */
static void settle_period(struct recipe_line *l, double per_28) {
  bool pieces = unit_info[l->unit].kind == UNIT_KIND_COUNT && l->amount_low == l->amount_high && l->amount >= 1;
  if (pieces && l->amount == floor(l->amount) && l->amount * per_28 <= CALENDAR_DAYS) {
    l->times_per_28 = l->amount * per_28;
    scale(l, 1 / l->amount);
  } else {
    scale(l, per_28 / CALENDAR_DAYS);
  }
}

static void settle_other_days(struct parser *p, size_t i) {
  unsigned before = i > 0 ? p->line[i - 1].days : 0;
  enum { WEEK = 0x7F };
  if (before == 0 || before == WEEK) {
    diag_add(p->d, DIAG_ERROR, p->extra[i].each_meal_at,
             "which other days? name the days of the line before, as in 'on Monday and Thursday'");
    return;
  }
  p->line[i].days = ~before & WEEK;
  p->line[i].times_per_28 = CALENDAR_DAYS - p->line[i - 1].times_per_28;
}

static void settle_lines(struct parser *p) {
  struct recipe *r = p->out;
  for (size_t i = 0; i < p->count; i++) {
    struct recipe_line *l = &p->line[i];
    const struct frequency *often = &p->extra[i].often;
    if (often->tokens > 0 && often->feedings != 1) scale(l, often->feedings);
    if (often->per_28 > 0) settle_period(l, often->per_28);
    if (often->other_days) settle_other_days(p, i);
    if (often->each_meal) {
      if (!(r->meals_per_day > 0))
        diag_add(p->d, DIAG_ERROR, p->extra[i].each_meal_at,
                 "how many meals are there a day? add the line 'Meals: 2 a day' at the top");
      scale(l, r->meals_per_day);
    }
    if (l->raw_weight && l->state == STATE_UNSTATED && r->cook == STATE_UNSTATED)
      diag_add(p->d, DIAG_WARNING, l->whole,
               "a raw weight without a method is read as fed raw; write 'raw weight, simmered' if it is cooked");
    if (l->state == STATE_UNSTATED && state_is_cooked(r->cook)) {
      if (!l->cooked_weight && p->cook_raw_weight) l->raw_weight = true;
      if (l->broth < 0) l->broth = p->cook_broth;
    }
  }
}

/* False when Feeds was not understood, which was said. */
static bool settle_feeds(struct parser *p) {
  if (p->out->feeds_share > 0) {
    p->out->shares_of = SHARES_OF_BODY;
    p->out->total_g = SHARED_G_A_DAY * p->out->days;
  } else {
    p->out->total_g = p->feeds_g * p->out->days;
  }
  return p->out->total_g > 0;
}

static void settle_percent(struct parser *p) {
  double sum = 0;
  size_t percent = 0, faulty = 0;
  const struct recipe_line *first = NULL;
  for (size_t i = 0; i < p->count; i++) {
    faulty += isnan(p->line[i].amount) ? 1 : 0;
    if (p->line[i].unit != UNIT_PERCENT) continue;
    if (!first) first = &p->line[i];
    sum += isnan(p->line[i].amount) ? 0 : p->line[i].amount;
    percent++;
  }
  if (!first) return;
  if (!(p->out->total_g > 0) && (p->seen[HEADER_TOTAL] || (p->seen[HEADER_FEEDS] && !settle_feeds(p)))) return;
  if (!(p->out->total_g > 0)) {
    p->out->shares_of = SHARES_OF_NEED;
    p->out->total_g = SHARED_G_A_DAY * p->out->days;
  }
  /* Rounded shares may miss 100 by a little. */
  struct buf b;
  buf_init(&b, p->arena, 64);
  num_sig(&b, sum, 4);
  if (sum > 102) {
    diag_add(p->d, DIAG_ERROR, first->amount_at, "the shares add up to %s %%, which is more than the whole", buf_text(&b));
  } else if (sum < 98 && percent == p->count && faulty == 0) {
    diag_add(p->d, DIAG_ERROR, first->amount_at,
             "the shares add up to %s %%; write what the rest is, or grams in place of per cent", buf_text(&b));
  }
}

bool recipe_parse(struct span text, struct diags *d, struct recipe *out, struct arena *arena) {
  struct parser p = {
      .out = out, .d = d, .arena = arena, .batch_meals = (double)NAN, .feeds_g = (double)NAN, .cook_broth = -1};
  size_t errors = d->errors;
  *out = (struct recipe){.name = "",
                         .for_whom = "",
                         .note = "",
                         .days = 1,
                         .meals_per_day = (double)NAN,
                         .total_g = (double)NAN,
                         .feeds_share = (double)NAN,
                         .cook = STATE_UNSTATED};
  if (!text_fit(text, RECIPE_MOST_BYTES, LINE_MOST_BYTES, d)) return false;
  buf_init(&p.note, arena, RECIPE_MOST_BYTES);
  struct lines lines = lines_of(text);
  struct span line;
  while (lines_next(&lines, &line) && d->errors < DIAG_MOST) { /* whoever has so many errors sent another kind of file */
    size_t before = p.count;
    bool more = read_line(&p, line, lines.number);
    keep_remark(&p, line, lines.number, before);
    if (!more) break;
  }
  settle_makes(&p);
  settle_lines(&p);
  settle_percent(&p);
  out->note = buf_text(&p.note);
  out->line = p.line;
  out->line_count = p.count;
  out->uncounted = p.uncounted;
  out->uncounted_count = p.uncounted_count;
  out->remark = p.remark;
  out->remark_count = p.remark_count;
  if (p.count == 0 && d->errors == errors)
    diag_add(d, DIAG_ERROR, (struct span){NULL, 0},
             "no ingredient in this text; write one a line, as in '200 g lamb heart'");
  return d->errors == errors;
}
