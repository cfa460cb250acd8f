#include <math.h>

#include "base/num.h"
#include "base/table.h"
#include "base/utf8.h"
#include "recipe/recipe_parser.h"
#include "text/headers.h"
#include "text/line_parts.h"

enum { MOST_MEALS_A_DAY = 24, MOST_LINES = 5000, HEADING_MOST = 80 };

/* ---- headers ---- */

/* One number above nothing; NaN after a complaint. */
static double positive(struct header_value *v, size_t *used) {
  double n = value_number(v->d, &v->t, v->value, v->row->example, used);
  if (n <= 0)
    diag_say(v->d, DIAG_ERROR, DIAG_NUMBER, v->value, "'%.*s': write one number above nothing, as in '%s'",
             SPAN_ARG(quoted(v->value)), v->row->example);
  return n > 0 ? n : (double)NAN;
}

/* What follows the number must be understood, too: "1200 g of food". */
static bool ends(struct header_value *v, size_t at) {
  return phrase_at(&v->t, at, "of") > 0 || value_ends(v->d, &v->t, at, v->row->example);
}

static void not_understood(struct header_value *v, enum diag_code code, const char *what) {
  diag_say(v->d, DIAG_ERROR, code, v->value, "'%.*s' %s; write it as in '%s'", SPAN_ARG(quoted(v->value)), what,
           v->row->example);
}

static struct recipe *recipe_of(struct header_value *v) { return v->into; }

static void read_name(struct header_value *v) {
  recipe_of(v)->name_at = v->line;
  header_text(v);
}

static void read_for(struct header_value *v) {
  recipe_of(v)->for_at = v->value;
  header_text(v);
}

static void read_makes(struct header_value *v) {
  size_t used = 0;
  double n = positive(v, &used);
  if (!(n > 0)) return;
  size_t days = ANY_OF(&v->t, used, "day", "days"), weeks = ANY_OF(&v->t, used, "week", "weeks");
  size_t meals = ANY_OF(&v->t, used, "meal", "meals", "bowl", "bowls", "portion", "portions", "serving", "servings");
  if (days + weeks + meals == 0) {
    diag_say(v->d, DIAG_ERROR, DIAG_UNIT, v->value, "'%.*s' of what? write '%s'", SPAN_ARG(quoted(v->value)),
             v->row->example);
    return;
  }
  if (!ends(v, used + 1)) return;
  if (meals > 0) {
    ((struct parser *)v->reader)->batch_meals = n;
  } else {
    recipe_of(v)->days = weeks > 0 ? 7 * n : n;
    recipe_of(v)->days_stated = true;
  }
}

static void read_meals(struct header_value *v) {
  size_t used = ANY_OF(&v->t, 0, "once", "twice");
  double n = used == 0 ? positive(v, &used) : phrase_at(&v->t, 0, "once") > 0 ? 1 : 2;
  if (!(n > 0)) return;
  used += ANY_OF(&v->t, used, "meals", "meal", "times", "x");
  if (ANY_OF(&v->t, used, "a", "per", "each", "/", "every") > 0 && phrase_at(&v->t, used + 1, "day") > 0)
    used += 2;
  else
    used += phrase_at(&v->t, used, "daily");
  if (!ends(v, used)) return;
  if (n > MOST_MEALS_A_DAY)
    diag_say(v->d, DIAG_ERROR, DIAG_LIMIT, v->value, "more than %d meals a day", MOST_MEALS_A_DAY);
  else
    recipe_of(v)->meals_per_day = n;
}

static void read_total(struct header_value *v) {
  size_t used = 0, unit_used = 0;
  double n = positive(v, &used);
  if (!(n > 0)) return;
  enum unit u = unit_at_token(&v->t, used, &unit_used);
  if (unit_used == 0 || unit_info[u].kind != UNIT_KIND_MASS)
    not_understood(v, DIAG_UNIT, "is not a weight");
  else if (ends(v, used + unit_used))
    recipe_of(v)->total_g = unit_convert(n, u);
}

/* "2.5 % of body weight", "450 g a day" */
static void read_feeds(struct header_value *v) {
  size_t used = 0, unit_used = 0;
  double n = positive(v, &used), per_28 = CALENDAR_DAYS;
  bool joined;
  if (!(n > 0)) return;
  enum unit u = unit_at_token(&v->t, used, &unit_used);
  size_t at = used + unit_used, body = 0;
  bool share = unit_used > 0 && u == UNIT_PERCENT, weight = unit_used > 0 && unit_info[u].kind == UNIT_KIND_MASS;
  if (share)
    at += body = ANY_OF(&v->t, at, "of body weight", "of bodyweight", "body weight", "bodyweight", "of the body weight",
                        "of his body weight", "of her body weight", "of its body weight", "bw", "of bw");
  at += frequency_period_at(&v->t, at, &per_28, &joined);
  if (weight) {
    if (ends(v, at)) ((struct parser *)v->reader)->feeds_g = unit_convert(n, u) * per_28 / CALENDAR_DAYS;
  } else if (body > 0 && per_28 == CALENDAR_DAYS) {
    if (ends(v, at)) recipe_of(v)->feeds_share = n / 100;
  } else {
    not_understood(v, DIAG_NOT_UNDERSTOOD, "is not understood");
  }
}

static void read_animal(struct header_value *v) {
  struct recipe *r = recipe_of(v);
  if (r->animal_at.n > 0) {
    diag_say(v->d, DIAG_ERROR, DIAG_TWICE, v->line, "a second animal; one recipe is judged for one animal");
    return;
  }
  r->animal_at = v->value;
  r->animal_species = span_is_fold(span_of(v->row->word), "Dog") ? SPECIES_DOG : SPECIES_CAT;
}

static void read_cook(struct header_value *v) {
  struct parser *p = v->reader;
  struct recipe_line said;
  if (!cook_read(v, &said)) return;
  recipe_of(v)->cook = said.state;
  p->cook_raw_weight = said.raw_weight;
  p->cook_broth = said.broth;
}

/* "chicken, beef and fish", each by itself. */
static void read_never(struct header_value *v) {
  struct parser *p = v->reader;
  for (struct span rest = v->value; rest.n > 0;) {
    size_t n = 0, next = rest.n;
    while (n < rest.n && next == rest.n) {
      struct span here = span_cut(rest, n, rest.n);
      size_t mark = here.p[0] == ',' || here.p[0] == ';' ? 1
                    : span_starts_fold(here, " and ")    ? 5
                    : span_starts_fold(here, " or ")     ? 4
                                                         : 0;
      if (mark > 0)
        next = n + mark;
      else
        n++;
    }
    struct span one = span_trim(span_cut(rest, 0, n));
    if (one.n > 0 && p->never_count < RECIPE_MOST_LINES)
      ARENA_PUSH(p->arena, p->never, p->never_count, p->never_cap, arena_text(p->arena, one));
    rest = span_cut(rest, next, rest.n);
  }
}

static void read_note(struct header_value *v) {
  struct buf *note = &((struct parser *)v->reader)->note;
  if (note->n > 0) buf_addc(note, '\n');
  buf_add(note, v->value);
}

static const struct header_row HEADERS[] = {
    {"Recipe", NULL, "name|title", "Recipe: Weeknight bowl", read_name, offsetof(struct recipe, name), false, false},
    {"For", NULL, "animal|pet", "For: Juniper", read_for, offsetof(struct recipe, for_whom), false, false},
    {"Makes", NULL, "days|yield|yields|serves|batch|make", "Makes: 3 days' or 'Makes: 14 meals", read_makes, 0, false,
     false},
    {"Meals", NULL, "portions", "Meals: 2 a day", read_meals, 0, false, false},
    {"Total", NULL, "weight", "Total: 1200 g", read_total, 0, false, false},
    {"Cook", NULL, "method|cooking|cooked", "Cook: simmered", read_cook, 0, false, false},
    {"Feeds", NULL, NULL, "Feeds: 450 g a day' or 'Feeds: 2.5 % of body weight", read_feeds, 0, false, true},
    {"Dog", NULL, NULL, "Dog: 18 kg, 6 years, neutered", read_animal, 0, false, true},
    {"Cat", NULL, NULL, "Cat: 4.6 kg, 6 years, neutered", read_animal, 0, false, true},
    {"Never", NULL, "exclude|excludes|avoid|avoids|without|allergic|allergic to|allergy|allergies", "Never: chicken, dairy",
     read_never, 0, true, false},
    {"Note", "Notes", "comment|remark", "Note: from the vet", read_note, 0, true, false}};
ROW_FOR_EACH(HEADERS, HEADER_COUNT);
/* For whoever only asks which header a key is. */
static const struct header_reader KNOWN = {.row = HEADERS, .rows = HEADER_COUNT};

static void read_header(struct parser *p, int row, struct header h, struct span line) {
  if (!header_accept(&p->headers, row, h, line)) return;
  if (p->count > 0 && !HEADERS[row].repeats)
    diag_say(p->d, DIAG_WARNING, DIAG_DOUBTFUL, line, "'%s' belongs before the first ingredient; it is read all the same",
             HEADERS[row].word);
  header_read(&p->headers, row, h.value, line);
}

static bool near_a_header(struct parser *p, struct span key) { return header_near(&p->headers, key, true) >= 0; }

static void say_unknown_header(struct parser *p, struct header h, struct span line) {
  struct span shown = quoted(h.key);
  if (h.value.n == 0) {
    diag_say(p->d, DIAG_WARNING, DIAG_DOUBTFUL, line, "'%.*s:' is taken to be a heading; no food is read from this line",
             SPAN_ARG(shown));
  } else if (p->count > 0 && !near_a_header(p, h.key)) {
    diag_say(p->d, DIAG_ERROR, DIAG_NO_FOOD, h.value,
             "no amount after '%.*s:'; write it as in 'lamb heart: 200 g', or '#' before a remark", SPAN_ARG(shown));
    diag_fix(p->d, span_cut(line, 0, 0), "# ", "make it a remark");
  } else {
    header_unknown(&p->headers, h.key, DIAG_WARNING, " is not read");
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
    diag_say(p->d, DIAG_ERROR, DIAG_LIMIT, line, "more than %d ingredients; the rest is not read", RECIPE_MOST_LINES);
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
  if (text.n > 1 && text.p[0] == '-' && text.p[1] >= '0' && text.p[1] <= '9') { /* nothing is fed less than not at all */
    diag_say(p->d, DIAG_ERROR, DIAG_NUMBER, text, "an amount cannot be negative; write '? %.*s'",
             SPAN_ARG(quoted(span_cut(text, 1, text.n))));
    return true;
  }
  struct ration_uncounted u = {.line = number, .text = arena_text(p->arena, text)};
  ARENA_PUSH(p->arena, p->uncounted, p->uncounted_count, p->uncounted_cap, u);
  p->anything = true;
  return true;
}

/* "Monday:", "Breakfast", "Tue, Thu: 400 g beef heart": what it says, and what stands behind it. False when the line is none
 * of these. */
static bool heading_in(struct span line, struct heading *out, struct span *value, struct arena *arena) {
  const char *colon = memchr(line.p, ':', line.n);
  struct span key = colon ? span_cut(line, 0, (size_t)(colon - line.p)) : line;
  *value = colon ? trim_blanks(span_cut(line, key.n + 1, line.n)) : (struct span){line.p, 0};
  if (header_row_of(&KNOWN, trim_blanks(key)) >= 0 || key.n > HEADING_MOST) return false;
  if (!colon) {
    *out = heading_alone(line, arena);
    return out->kind != HEADING_NONE;
  }
  struct heading whole = heading_read(line, arena), h = value->n == 0 ? whole : heading_read(key, arena);
  if (value->n > 0 && whole.kind == HEADING_MEAL && whole.alone) value->n = 0; /* "AM 8:00" */
  if (h.kind == HEADING_NONE || (!h.alone && value->n > 0)) return false;
  *out = h;
  return true;
}

static bool read_heading(struct parser *p, struct span line, int number, bool *more) {
  const char *colon = memchr(line.p, ':', line.n);
  struct span key = colon ? span_cut(line, 0, (size_t)(colon - line.p)) : line, value;
  struct heading h;
  if (!heading_in(line, &h, &value, p->arena)) return false;
  if (h.kind == HEADING_DAY_NUMBER) {
    diag_say(p->d, DIAG_ERROR, DIAG_UNKNOWN_WORD, key,
             "'%.*s' is not a day of the week; name the days, as in 'Monday:' or 'Mon, Thu:'", SPAN_ARG(quoted(key)));
    return true;
  }
  if (h.kind == HEADING_WHEN && h.when.refuse) {
    diag_say(p->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, key, "'%.*s': %s", SPAN_ARG(quoted(key)), h.when.refuse);
    return true;
  }
  if (value.n > 0) {
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
    diag_say(p->d, DIAG_ERROR, DIAG_LIMIT, line, "more than %d lines; the rest is not read", MOST_LINES);
    return false;
  }
  bool more = true;
  if (line.p[0] == '?' && read_uncounted(p, line, number)) return true;
  if (read_heading(p, line, number, &more)) {
    p->anything = true;
    return more;
  }
  if (header_split(line, &h)) {
    int id = header_row_of(&p->headers, h.key);
    if (id >= 0)
      read_header(p, id, h, line);
    else if (starts_with_amount(h.value, p->arena) && !near_a_header(p, h.key))
      more = read_ingredient(p, line, number, &p->heading);
    else
      say_unknown_header(p, h, line);
  } else {
    more = read_ingredient(p, line, number, &p->heading);
  }
  p->anything = true;
  return more;
}

void recipe_line_kind(struct line_parts *line, size_t foods, struct arena *arena) {
  struct header h;
  if (line->kind != LINE_FOOD) return;
  struct span value;
  struct heading heading;
  if (heading_in(line->said, &heading, &value, arena)) {
    line->kind = value.n > 0 ? LINE_FOOD : LINE_HEADING;
  } else if (header_split(line->said, &h)) {
    int id = header_row_of(&KNOWN, h.key);
    if (id >= 0) line->header = HEADERS[id].word;
    bool food = starts_with_amount(h.value, arena) && header_near(&KNOWN, h.key, true) < 0;
    if (id >= 0 || (foods == 0 && !food)) line->kind = LINE_HEADER;
  }
  if (says_nothing(line->said)) line->kind = LINE_REMARK;
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
  int header = header_split(trim_blanks(read), &h) ? header_row_of(&p->headers, h.key) : -1;
  if (names_animal(header) || header == HEADER_NEVER)
    line = rest; /* an animal's name is no food, and this is none that is fed */
  if (says_nothing(line) || span_starts_fold(trim_blanks(line), "# ask:")) return; /* what is asked is nobody's bowl */
  struct ration_remark remark = {number, arena_text(p->arena, trim_blanks(line))};
  ARENA_PUSH(p->arena, p->remark, p->remark_count, p->remark_cap, remark);
}

bool recipe_parse(struct span text, struct diags *d, struct recipe *out, struct arena *arena) {
  struct parser p = {
      .out = out, .d = d, .arena = arena, .batch_meals = (double)NAN, .feeds_g = (double)NAN, .cook_broth = -1};
  size_t errors = d->errors;
  p.headers = (struct header_reader){HEADERS, HEADER_COUNT, DIAG_WARNING, "; keep one of them", d, arena, p.seen, &p, out};
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
  out->never = p.never;
  out->never_count = p.never_count;
  out->line = p.line;
  out->line_count = p.count;
  out->uncounted = p.uncounted;
  out->uncounted_count = p.uncounted_count;
  out->remark = p.remark;
  out->remark_count = p.remark_count;
  if (p.count == 0 && d->errors == errors)
    diag_say(d, DIAG_ERROR, DIAG_EMPTY, (struct span){NULL, 0},
             "no ingredient in this text; write one a line, as in '200 g lamb heart'");
  return d->errors == errors;
}
