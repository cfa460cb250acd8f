/* mend_text.c: the new recipe as an edit of the old text. Lines that nothing happens to stay as they are to the last byte;
 * in a changed line only the amount is written anew. */
#include <math.h>

#include "app/mend_parts.h"
#include "base/num.h"

struct lines_out {
  struct mended_line *item;
  size_t count, cap;
};

/* ---- one line ----------------------------------------------------------------------------------------------------------
 */

/* The amount as it stands (factor 1), or one that a kitchen measures: what is to be weighed is no range any more. */
static double written_amount(const struct recipe_line *l, double factor, bool fine) {
  double written = factor / l->scaled; /* "twice a day", "a week": the line's own words stay */
  return kitchen_rounded(l->unit, l->amount * written, l->amount / l->scaled, fine);
}

bool text_rounds(const struct text_edit *e, const struct mend_change *c) {
  const struct recipe_line *l = c->line >= 0 ? recipe_line_of(e->recipe, e->ration->line[c->line].line) : NULL;
  if (!l || !(c->from_g > 0) || !(c->to_g > 0)) return false;
  double factor = c->to_g / c->from_g, exact = l->amount * factor / l->scaled;
  return fabs(written_amount(l, factor, true) - exact) > 1e-6 * exact;
}

static void add_range(struct buf *b, const struct recipe_line *l, double factor, bool fine) {
  if (factor != 1) {
    kitchen_amount(b, l->unit, written_amount(l, factor, fine));
    return;
  }
  kitchen_amount(b, l->unit, l->amount_low / l->scaled);
  if (l->amount_high > l->amount_low) {
    buf_addc(b, '-');
    kitchen_amount(b, l->unit, l->amount_high / l->scaled);
  }
}

static bool is_any(struct span w, const char *const *of, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (span_is_fold(w, of[i])) return true;
  return false;
}

/* "2 cans", "2 leaves", "2 cups", "2 pinches" and, from a label, "2 chews"; but "2 large" and "2 tsp". */
static bool follows_number(enum unit u, struct span w) {
  static const char *const STAYS[] = {"small", "medium", "large", "extra large", "extra-large", "xl", "each", "whole",
                                      "tsp",   "tbsp",   "lb",    "oz",          "fl oz",       "g",  "gm",   "gr",
                                      "gms",   "kg",     "mg",    "mcg",         "ug",          "ml", "l",    "iu"};
  return unit_info[u].kind != UNIT_KIND_PERCENT && w.n > 0 && !is_any(w, STAYS, COUNT_OF(STAYS)) && w.p[0] != '%' &&
         !((unsigned char)w.p[0] >= 0x80);
}

/* Is it the food that is counted: "2 eggs", "2 large eggs"? */
static bool counts_food(const struct recipe_line *l) {
  enum unit u = l->unit;
  if (l->unit_at.n == 0) return u == UNIT_NONE || u == UNIT_EACH;
  return unit_info[u].kind == UNIT_KIND_COUNT && u <= UNIT_EXTRA_LARGE && !follows_number(u, l->unit_at);
}

/* What the line says between two of its places. */
static void add_between(struct buf *b, const char *from, const char *to) {
  if (to > from) buf_add(b, (struct span){from, (size_t)(to - from)});
}

/* "can" and "cans": counting words and measures that are written out follow the number. */
static void add_unit_word(struct buf *b, enum unit u, struct span w, double amount) {
  if (!follows_number(u, w) || !(amount > 1 ? word_as_several(b, w) : word_as_one(b, w))) buf_add(b, w);
}

/* "14 oz (12.6-15.4 oz)": the range in brackets belongs to the amount that is written anew, range and all. */
static const char *after_range(const char *at, const char *end) {
  const char *open = at;
  while (open < end && *open == ' ') open++;
  if (end - open < 2 || open[0] != '(' || open[1] < '0' || open[1] > '9') return at;
  const char *close = memchr(open, ')', (size_t)(end - open));
  return close && memchr(open, '-', (size_t)(close - open)) ? close + 1 : at;
}

static const char *changed_line(const struct text_edit *e, struct span whole, const struct recipe_line *l, double factor,
                                bool fine) {
  struct buf b;
  buf_init(&b, e->arena, 2 * LINE_MOST_BYTES);
  const char *end = whole.p + whole.n, *after = l->amount_at.p + l->amount_at.n;
  add_between(&b, whole.p, l->amount_at.p);
  add_range(&b, l, factor, fine);
  /* "half a cup", "500g": a number and a letter do not stick together unless they did. */
  if (l->unit_at.n > 0 && l->unit_at.p >= after && l->unit_at.p < end) {
    add_between(&b, after, l->unit_at.p);
    add_unit_word(&b, l->unit, l->unit_at, written_amount(l, factor, fine));
    after = l->unit_at.p + l->unit_at.n;
    if (l->amount_high > l->amount_low) after = after_range(after, end);
  } else if (after < end && *after != ' ' && *after != '\t') {
    buf_addc(&b, ' ');
  }
  if (counts_food(l)) /* and not "1 can sardines" */
    after += add_counted(&b, e, after, end, factor == 1 ? l->amount / l->scaled : written_amount(l, factor, fine), l->amount / l->scaled);
  add_between(&b, after, end);
  return buf_text(&b);
}

const char *text_line_times(const struct text_edit *e, struct span whole, const struct recipe_line *l, double factor) {
  return changed_line(e, whole, l, factor, false);
}

/* What stood in the line, or what stands there now. "15 g (0-24 g)" was 15 g. */
static const char *amount_words(const struct text_edit *e, const struct recipe_line *l, double factor, bool fine) {
  struct buf b;
  buf_init(&b, e->arena, 200);
  double middle = (l->amount_low + l->amount_high) / 2;
  if (factor == 1 && fabs(middle - l->amount) > 1e-9 * l->amount)
    kitchen_amount(&b, l->unit, l->amount / l->scaled);
  else
    add_range(&b, l, factor, fine);
  if (l->unit_at.n > 0) {
    buf_addc(&b, ' ');
    add_unit_word(&b, l->unit, l->unit_at, factor == 1 ? l->amount / l->scaled : written_amount(l, factor, fine));
  }
  return buf_text(&b);
}

/* ---- added lines
 * ---------------------------------------------------------------------------------------------------------- */

/* What a kitchen scale shows: whole grams from 5 g on, tenths below; 'fine': tenths up to 60 g. Less than a tenth is a dose
 * of somebody's own powder, to two figures. */
static double weighed_out(double grams, bool fine) {
  static const double WHOLE_FROM = 5, FINE_TO = 60, TENTH = 0.1;
  double step = grams >= (fine ? FINE_TO : WHOLE_FROM) ? 1 : TENTH;
  if (grams > 0 && grams < TENTH) step = pow(10, floor(log10(grams)) - 1);
  return grams > 0 ? fmax(step, round(grams / step) * step) : grams;
}

/* Wholes and halves, of spoons eighths and one half of an eighth; a search that was ended may have found something between. */
static double counted_out(enum unit u, double n) {
  double parts = unit_info[u].kind == UNIT_KIND_VOLUME ? n < 0.1 ? 16 : 8 : 2;
  return fmax(1, round(n * parts)) / parts;
}

static const char *offer_amount(const struct text_edit *e, const struct offer_text *t, double grams_per_day, bool fine) {
  struct buf b;
  buf_init(&b, e->arena, 200);
  if (t->unit == UNIT_G) {
    kitchen_mass(&b, weighed_out(grams_per_day * t->per_day, fine));
    return buf_text(&b);
  }
  double n = counted_out(t->unit, grams_per_day * t->per_day / t->unit_g);
  kitchen_amount(&b, t->unit, n);
  if (t->unit_word[0]) {
    buf_addc(&b, ' ');
    add_unit_word(&b, t->unit, span_of(t->unit_word), n);
  }
  return buf_text(&b);
}

/* Half a tablet is broken off; of half a capsule the powder is given. */
static bool is_halved_capsule(const struct offer_text *t, double grams_per_day) {
  double n = t->unit_g > 0 ? grams_per_day * t->per_day / t->unit_g : 0;
  return t->unit == UNIT_CAPSULE && fabs(n - round(n)) > 0.25;
}

/* "1 capsule twice a week", "1/2 capsule (half of its powder)" */
static const char *offer_words(const struct text_edit *e, const struct offer_text *t, double grams_per_day, bool fine) {
  struct buf b;
  buf_init(&b, e->arena, 240);
  buf_adds(&b, offer_amount(e, t, grams_per_day, fine));
  if (is_halved_capsule(t, grams_per_day))
    buf_adds(&b, grams_per_day * t->per_day > t->unit_g ? " (one of them opened: half of its powder)"
                                                        : " (opened: half of the powder)");
  const char *often = t->frequency[0] == ',' ? t->frequency + 1 : t->frequency;
  bool beside = strcmp(t->frequency, ", daily") == 0;
  buf_adds(&b, t->weekly ? " once a week" : beside ? " a day, over the bowl" : often);
  return buf_text(&b);
}

/* Added lines begin as the person's last line of food does: "- ", "* ". */
static const char *bullet_of(const struct lines_out *lines, const struct recipe *r) {
  if (r->line_count == 0) return "";
  int last = r->line[r->line_count - 1].line;
  for (size_t i = 0; i < lines->count; i++) {
    const char *t = lines->item[i].text;
    if (lines->item[i].line != last) continue;
    return t[0] == '-' && t[1] == ' ' ? "- " : t[0] == '*' && t[1] == ' ' ? "* " : "";
  }
  return "";
}

static const char *added_line(const struct text_edit *e, const struct offer_text *t, double grams_per_day,
                              const char *bullet, bool fine) {
  struct buf b;
  buf_init(&b, e->arena, 1024);
  buf_adds(&b, bullet);
  bool bare = t->food[0] == ' '; /* no words but the pin: the name is a remark */
  const char *food = t->many && grams_per_day * t->per_day > t->unit_g * (1 + 1e-9) ? t->many : t->food;
  buf_addf(&b, "%s %s%s", offer_amount(e, t, grams_per_day, fine), bare ? food + 1 : food, t->frequency);
  if (bare) buf_addf(&b, " # %s", t->name);
  bool halved = !bare && is_halved_capsule(t, grams_per_day), daily = !bare && strcmp(t->frequency, ", daily") == 0;
  if (daily) buf_adds(&b, " # over the bowl, not into the pot");
  if (halved) buf_adds(&b, daily ? "; one of them opened: half of its powder" : " # one of them opened: half of its powder");
  return buf_text(&b);
}

/* ---- shares as grams ---- */

static struct span next_line(struct span *rest) {
  struct span line = span_piece(rest, '\n');
  if (line.n > 0 && line.p[line.n - 1] == '\r') line.n--;
  return line;
}

/* "45 % beef mince" -> "410 g beef mince" */
static const char *line_in_grams(const struct text_edit *e, struct span whole, const struct recipe_line *l, double grams) {
  struct buf b;
  buf_init(&b, e->arena, 2 * LINE_MOST_BYTES);
  const char *end = whole.p + whole.n, *after = l->amount_at.p + l->amount_at.n;
  if (l->unit_at.n > 0 && l->unit_at.p >= after && l->unit_at.p < end) after = l->unit_at.p + l->unit_at.n;
  add_between(&b, whole.p, l->amount_at.p);
  double step = kitchen_step(UNIT_G, grams);
  kitchen_mass(&b, fmax(step, round(grams / step) * step));
  if (after < end && *after != ' ') buf_addc(&b, ' ');
  add_between(&b, after, end);
  return buf_text(&b);
}

const char *text_in_grams(const struct text_edit *e) {
  struct buf b;
  struct span rest = e->q->check.recipe.text;
  double days = e->recipe->days > 0 ? e->recipe->days : 1;
  buf_init(&b, e->arena, 2 * RECIPE_MOST_BYTES);
  for (int number = 1; rest.n > 0; number++) {
    struct span line = next_line(&rest);
    const struct recipe_line *l = recipe_line_of(e->recipe, number);
    double grams = NAN;
    for (size_t i = 0; l && l->unit == UNIT_PERCENT && i < e->ration->line_count; i++)
      if (e->ration->line[i].line == number) grams = ration_line_grams_per_day(&e->ration->line[i]) * days;
    if (grams > 0)
      buf_addf(&b, "%s\n", line_in_grams(e, line, l, grams));
    else if (span_starts_fold(span_trim(line), "total:")) /* of the shares, which are none any more */
      buf_addf(&b, "# %.*s\n", SPAN_ARG(line));
    else
      buf_addf(&b, "%.*s\n", SPAN_ARG(line));
  }
  return buf_text(&b);
}

/* ---- the text ----------------------------------------------------------------------------------------------------------
 */

static int change_of_line(const struct text_edit *e, const struct mend_proposal *p, int line) {
  for (size_t i = 0; i < p->count; i++)
    if (p->change[i].line >= 0 && e->ration->line[p->change[i].line].line == line) return (int)i;
  return -1;
}

static const struct cooked_first *cooked_at(const struct text_edit *e, int line) {
  for (size_t i = 0; i < e->cooked_count; i++)
    if (e->cooked[i].line == line) return &e->cooked[i];
  return NULL;
}

static const struct plate_line *plate_at(const struct text_edit *e, int line) {
  for (size_t i = 0; i < e->plate_count; i++)
    if (e->plate[i].line == line) return &e->plate[i];
  return NULL;
}

/* The line as the person has it, where it was changed before the search; NULL: it was not. */
static const char *was_at(const struct text_edit *e, int line) {
  const struct plate_line *plate = plate_at(e, line);
  const struct cooked_first *cooked = cooked_at(e, line);
  return plate ? plate->was : cooked ? cooked->was : NULL;
}

static const struct left_out *left_out_at(const struct text_edit *e, int line) {
  for (size_t i = 0; i < e->left_out_count; i++)
    if (e->left_out[i].line == line) return &e->left_out[i];
  return NULL;
}

static void put_line(const struct text_edit *e, struct lines_out *out, struct mended_line l) {
  ARENA_PUSH(e->arena, out->item, out->count, out->cap, l);
}

static void edit_line(const struct text_edit *e, const struct mend_proposal *p, int number, struct span whole, bool fine,
                      struct lines_out *lines, struct mended *out) {
  int c = change_of_line(e, p, number);
  const struct left_out *gone = left_out_at(e, number);
  const char *old = arena_text(e->arena, whole), *was = was_at(e, number);
  bool emptied = plate_at(e, number) && !plate_at(e, number)->is[0];
  if (gone || emptied) {
    put_line(e, lines, (struct mended_line){LINE_OUT, number, gone ? gone->was : was, -1});
    return;
  }
  if (c < 0 && was) put_line(e, lines, (struct mended_line){LINE_OUT, number, was, -1});
  if (c < 0) {
    put_line(e, lines, was ? (struct mended_line){LINE_IN, 0, old, -1} : (struct mended_line){LINE_SAME, number, old, -1});
    return;
  }
  const struct recipe_line *l = recipe_line_of(e->recipe, number);
  const struct mend_change *change = &p->change[c];
  double factor = change->from_g > 0 ? change->to_g / change->from_g : 0;
  put_line(e, lines, (struct mended_line){LINE_OUT, number, was ? was : old, c});
  out->text_line[c] = number;
  out->food[c] = arena_text(e->arena, l->food);
  out->from[c] = amount_words(e, l, 1, fine);
  if (!(change->to_g > 0)) return;
  out->to[c] = amount_words(e, l, factor, fine);
  put_line(e, lines, (struct mended_line){LINE_IN, 0, changed_line(e, whole, l, factor, fine), c});
}

static void add_offers(const struct text_edit *e, const struct mend_proposal *p, bool fine, struct lines_out *lines,
                       struct mended *out) {
  const char *bullet = bullet_of(lines, e->recipe);
  for (size_t i = 0; i < p->count; i++) {
    if (p->change[i].offer < 0) continue;
    const struct offer_text *t = &e->offers->text[p->change[i].offer];
    out->food[i] = t->name;
    out->to[i] = offer_words(e, t, p->change[i].to_g, fine);
    put_line(e, lines, (struct mended_line){LINE_IN, 0, added_line(e, t, p->change[i].to_g, bullet, fine), (int)i});
  }
}

/* "For: Juniper" of a text that is made for Moss is "For: Moss"; an animal without a name is none that a text can name. */
static bool edit_for_line(const struct text_edit *e, int number, struct span whole, struct lines_out *lines) {
  const struct recipe *r = e->recipe;
  struct span at = r->for_at;
  if (!e->animal || at.n == 0 || at.p < whole.p || at.p >= whole.p + whole.n) return false;
  const char *name = e->animal->name;
  if (span_eq_fold(span_trim(at), span_of(name))) return false;
  if (!name[0] && r->animal_at.n > 0 && !e->q->check.for_name) return false; /* described in the text itself */
  put_line(e, lines, (struct mended_line){LINE_OUT, number, arena_text(e->arena, whole), -1});
  if (!name[0]) return true;
  struct buf b;
  buf_init(&b, e->arena, 2 * LINE_MOST_BYTES);
  add_between(&b, whole.p, at.p);
  buf_adds(&b, name);
  add_between(&b, at.p + at.n, whole.p + whole.n);
  put_line(e, lines, (struct mended_line){LINE_IN, 0, buf_text(&b), -1});
  return true;
}

/* Blank lines at the end stay at the end. */
static size_t end_of_text(struct span text) {
  size_t n = text.n;
  while (n > 0 && (text.p[n - 1] == '\n' || text.p[n - 1] == '\r' || text.p[n - 1] == ' ' || text.p[n - 1] == '\t')) n--;
  return n;
}

static const char *join(const struct text_edit *e, const struct lines_out *lines) {
  struct buf b;
  buf_init(&b, e->arena, 2 * RECIPE_MOST_BYTES);
  struct span text = e->q->check.recipe.text;
  const char *first = memchr(text.p, '\n', text.n), *end = first && first > text.p && first[-1] == '\r' ? "\r\n" : "\n";
  for (size_t i = 0; i < lines->count; i++)
    if (lines->item[i].kind != LINE_OUT) buf_addf(&b, "%s%s", lines->item[i].text, end);
  return buf_text(&b);
}

void edit_text(const struct text_edit *e, const struct mend_proposal *p, bool fine, struct mended *out) {
  struct lines_out lines = {NULL, 0, 0};
  struct span rest = span_cut(e->q->check.recipe.text, 0, end_of_text(e->q->check.recipe.text));
  size_t n = p->count > 0 ? p->count : 1;
  *out = (struct mended){.proposal = p};
  out->from = ARENA_NEW(e->arena, const char *, n);
  out->to = ARENA_NEW(e->arena, const char *, n);
  out->food = ARENA_NEW(e->arena, const char *, n);
  out->text_line = ARENA_NEW(e->arena, int, n);
  int number = 1;
  for (; rest.n > 0; number++) {
    struct span line = next_line(&rest);
    if (!edit_for_line(e, number, line, &lines)) edit_line(e, p, number, line, fine, &lines, out);
  }
  for (size_t i = 0; i < e->plate_count; i++)
    if (e->plate[i].line >= number)
      put_line(e, &lines, (struct mended_line){LINE_OUT, e->plate[i].line, e->plate[i].was, -1});
  for (size_t i = 0; i < e->left_out_count; i++) /* at the end of the text they are no lines of it any more */
    if (e->left_out[i].line >= number)
      put_line(e, &lines, (struct mended_line){LINE_OUT, e->left_out[i].line, e->left_out[i].was, -1});
  add_offers(e, p, fine, &lines, out);
  out->line = lines.item;
  out->lines = lines.count;
  out->text = join(e, &lines);
}
