/* Options of a line. Whatever is offered was read by the line's own reader first: nothing here knows what words mean. */
#include "recipe/recipe_choices.h"
#include "base/table.h"

#include <math.h>

#include "base/num.h"
#include "recipe/recipe_food.h"
#include "recipe/recipe_line.h"

const char *const choice_word[] = {
    [CHOICE_AMOUNT] = "amount", [CHOICE_SIZE] = "size", [CHOICE_STATE] = "state", [CHOICE_RECORD] = "record"};
ROW_FOR_EACH(choice_word, CHOICE_COUNT);

struct chooser {
  const struct library *lib;
  const struct recipe *recipe;
  const struct recipe_line *line;
  struct ration_line is; /* the line alone, as it stands */
  struct choice *out;
  size_t count;
  struct arena *arena;
};

/* Under the recipe's own headers; what a heading above says would hold for every option alike. */
static bool read_alone(struct chooser *c, struct span text, struct ration_line *got) {
  struct diags d;
  struct recipe_line line = {0};
  diags_init(&d, c->arena, "", text);
  struct line_reader reader = {.out = &line, .d = &d, .arena = c->arena};
  return text.n < LINE_MOST_BYTES && recipe_line_read(&reader, text, 1) && d.errors == 0 &&
         resolve_line(c->lib, c->recipe, &line, &d, got, c->arena) && d.errors == 0;
}

static bool near(double a, double b) { return fabs(a - b) <= 0.02 * fmax(fabs(a), fabs(b)); }

/* ---- the line with something else in it ---- */

/* 'whole' with the letters [from, to) replaced. */
static struct span with(struct chooser *c, const char *from, const char *to, const char *put) {
  struct span whole = c->line->whole;
  struct buf b;
  buf_init(&b, c->arena, 2 * LINE_MOST_BYTES);
  buf_add(&b, span_cut(whole, 0, (size_t)(from - whole.p)));
  buf_adds(&b, put);
  buf_add(&b, span_cut(whole, (size_t)(to - whole.p), whole.n));
  return buf_span(&b);
}

/* Pieces of the remark that tell what an amount was taken for are not true any more. */
static void add_remark(struct chooser *c, struct buf *b, const char *more) {
  struct span rest = trim_blanks(c->line->remark);
  bool any = false;
  if (rest.n > 0 && rest.p[0] == '#') rest = span_cut(rest, 1, rest.n);
  if (more) {
    buf_addf(b, "  # %s", more);
    any = true;
  }
  while (rest.n > 0) {
    size_t n = 0;
    while (n < rest.n && rest.p[n] != ';') n++;
    struct span piece = trim_blanks(span_cut(rest, 0, n));
    bool gone = piece.n == 0 || (more && span_holds_fold(piece, SPAN_LIT(" taken as ")));
    if (!gone) buf_addf(b, "%s%.*s", any ? "; " : "  # ", SPAN_ARG(piece));
    any = any || !gone;
    rest = span_cut(rest, n + 1, rest.n);
  }
}

static void offer(struct chooser *c, enum choice_about about, const char *label, struct span text, const char *remark,
                  bool taken) {
  struct buf b;
  if (c->count == CHOICES_MOST) return;
  buf_init(&b, c->arena, 2 * LINE_MOST_BYTES);
  buf_add(&b, text);
  add_remark(c, &b, remark);
  c->out[c->count++] = (struct choice){about, label, buf_text(&b), taken};
}

static const char *labelled(struct chooser *c, const char *word, double grams) {
  struct buf b;
  buf_init(&b, c->arena, 120);
  buf_addf(&b, "%s, ", word);
  num_sig(&b, grams, grams < 10 ? 2 : 3);
  buf_adds(&b, " g");
  return buf_text(&b);
}

/* Everything of one kind, or nothing: a choice of one is none. */
static void drop_lone(struct chooser *c, size_t before) {
  if (c->count == before + 1) c->count = before;
}

/* ---- how much ---- */

/* The letters of the amount and its measure. */
static bool amount_span(const struct recipe_line *l, const char **from, const char **to) {
  struct span a = l->amount_at, u = l->unit_at;
  if (a.n == 0) return false;
  *from = a.p;
  *to = a.p + a.n;
  if (u.n > 0 && u.p >= *to) *to = u.p + u.n;
  return *from >= l->whole.p && *to <= l->whole.p + l->whole.n;
}

/* The line in grams, so that it gives 'wanted' where it is read alone; n 0 when that cannot be had. */
static struct span in_grams(struct chooser *c, const char *from, const char *to, double wanted) {
  static const double TRIED_G = 100;
  struct ration_line got;
  struct buf b;
  if (!read_alone(c, with(c, from, to, "100 g"), &got) || !(got.grams_fed > 0)) return (struct span){NULL, 0};
  double grams = TRIED_G * wanted / got.grams_fed;
  buf_init(&b, c->arena, 40);
  num_sig(&b, grams, grams < 10 ? 2 : 3);
  buf_adds(&b, " g");
  struct span text = with(c, from, to, buf_text(&b));
  bool same = read_alone(c, text, &got) && near(got.grams_fed, wanted) && got.shown_food == c->is.shown_food;
  return same ? text : (struct span){NULL, 0};
}

static void amounts(struct chooser *c) {
  const struct ration_line *is = &c->is;
  const char *from, *to;
  if (!(is->low_g > 0 && is->high_g > 1.02 * is->low_g) || !amount_span(c->line, &from, &to)) return;
  const char *said = arena_text(c->arena, (struct span){from, (size_t)(to - from)});
  size_t before = c->count;
  const struct {
    const char *word;
    double grams;
  } of[] = {{"little", is->low_g}, {"usual", is->grams_fed}, {"much", is->high_g}};
  for (size_t i = 0; i < COUNT_OF(of); i++) {
    struct span text = in_grams(c, from, to, of[i].grams);
    if (text.n > 0) offer(c, CHOICE_AMOUNT, labelled(c, of[i].word, of[i].grams), text, said, i == 1);
  }
  drop_lone(c, before);
}

/* ---- which size of a piece ---- */

static void sizes(struct chooser *c) {
  static const char *const SIZE[] = {"small", "medium", "large", "extra large"};
  const struct recipe_line *l = c->line;
  const char *from, *to;
  size_t before = c->count;
  bool plain = l->unit == UNIT_EACH && l->unit_at.n == 0 && !(l->package_g > 0) && isnan(l->dose);
  bool different = false;
  if (!plain || c->is.assumed || !amount_span(l, &from, &to)) return;
  for (size_t i = 0; i < COUNT_OF(SIZE); i++) {
    struct ration_line got;
    struct buf b;
    buf_init(&b, c->arena, 20);
    buf_addf(&b, " %s", SIZE[i]);
    struct span text = with(c, to, to, buf_text(&b));
    if (!read_alone(c, text, &got) || got.shown_food != c->is.shown_food || got.assumed) continue;
    bool taken = near(got.grams_fed, c->is.grams_fed);
    different = different || !taken;
    offer(c, CHOICE_SIZE, labelled(c, SIZE[i], got.grams_fed), text, NULL, taken);
  }
  if (!different) c->count = before;
  drop_lone(c, before);
}

/* ---- weighed raw or cooked ---- */

static void states(struct chooser *c) {
  static const struct { const char *words, *label; } WAY[] = {{", raw", "weighed dry"}, {", boiled", "weighed cooked"}};
  const struct recipe_line *l = c->line;
  const struct img_food *food = library_food(c->lib, c->is.shown_food);
  const char *end = l->whole.p + l->whole.n;
  size_t before = c->count;
  bool swells = food && (food->part == PART_GRAIN || food->part == PART_LEGUME);
  bool open = l->state == STATE_UNSTATED && l->pin.n == 0 && c->recipe->cook == STATE_UNSTATED;
  if (!swells || !open) return;
  for (size_t i = 0; i < COUNT_OF(WAY); i++) {
    struct ration_line got;
    struct span text = with(c, end, end, WAY[i].words);
    if (!read_alone(c, text, &got)) continue;
    offer(c, CHOICE_STATE, WAY[i].label, text, NULL, got.shown_food == c->is.shown_food);
  }
  drop_lone(c, before);
}

/* ---- which record ---- */

static struct span next_part(struct span *rest) { return trim_blanks(span_piece(rest, ',')); }

static bool has_part(struct span name, struct span part) {
  while (name.n > 0)
    if (span_eq(next_part(&name), part)) return true;
  return false;
}

/* What tells this record from the others: the parts of its name that not all of them have. */
static const char *telling(struct chooser *c, uint32_t food, const uint32_t *all, size_t count) {
  struct span name = span_of(library_name(c->lib, food)), rest = name;
  struct buf b;
  buf_init(&b, c->arena, name.n + 1);
  while (rest.n > 0) {
    struct span part = next_part(&rest);
    bool shared = true;
    for (size_t i = 0; i < count; i++) shared = shared && has_part(span_of(library_name(c->lib, all[i])), part);
    if (!shared) buf_addf(&b, "%s%.*s", b.n > 0 ? ", " : "", SPAN_ARG(part));
  }
  return b.n > 0 ? buf_text(&b) : library_name(c->lib, food);
}

static void records(struct chooser *c) {
  enum { RECORDS_MOST = 6 };
  const struct recipe_line *l = c->line;
  const char *end = l->whole.p + l->whole.n;
  uint32_t all[RECORDS_MOST + 1] = {c->is.shown_food};
  size_t count = 1, before = c->count;
  if (l->pin.n > 0) return;
  for (size_t i = 0; i < c->is.rival_count && count <= RECORDS_MOST; i++) all[count++] = c->is.rivals[i];
  for (size_t i = 0; i < count && count > 1; i++) {
    struct ration_line got;
    struct buf b;
    buf_init(&b, c->arena, 60);
    buf_addf(&b, " [%s]", library_code(c->lib, all[i]));
    struct span text = with(c, end, end, buf_text(&b));
    if (!read_alone(c, text, &got) || got.shown_food != all[i]) continue;
    offer(c, CHOICE_RECORD, telling(c, all[i], all, count), text, NULL, i == 0);
  }
  drop_lone(c, before);
}

size_t recipe_choices(const struct library *lib, const struct recipe *recipe, const struct recipe_line *line,
                      struct choice out[CHOICES_MOST], struct arena *arena) {
  struct chooser c = {.lib = lib, .recipe = recipe, .line = line, .out = out, .arena = arena};
  if (!read_alone(&c, line->whole, &c.is)) return 0;
  amounts(&c);
  sizes(&c);
  states(&c);
  records(&c);
  return c.count;
}
