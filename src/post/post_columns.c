/* A table whose cells stand between commas or semicolons under a row of their names: "what,unit,amount,when". Its rows
 * become lines as people write them. */
#include "base/num.h"
#include "post/post_builds.h"

enum { CELLS_MOST = 8, NAME_MOST_WORDS = 3 };
enum cell { CELL_OTHER, CELL_FOOD, CELL_UNIT, CELL_AMOUNT, CELL_WHEN };

struct columns {
  char mark;
  size_t count;
  enum cell cell[CELLS_MOST];
  const char *unit; /* "amount (g)"; "" */
};

static size_t cells_between(struct span line, char mark, struct span *cell) {
  size_t n = 0, from = 0;
  for (size_t i = 0; i <= line.n; i++) {
    if (i < line.n && line.p[i] != mark) continue;
    if (n == CELLS_MOST) return 0;
    cell[n++] = trim_blanks(span_cut(line, from, i));
    from = i + 1;
  }
  return n;
}

static enum cell kind_of(struct span name, const char **unit, struct arena *arena) {
  struct tokens t = tokens_of(name, arena);
  const char *means = NULL;
  for (size_t i = 0; i < t.count; i++)
    if (says(&t, i, "g grams gram ml kg oz")) means = arena_text(arena, t.item[i].word);
  if (means) *unit = strcmp(means, "grams") == 0 || strcmp(means, "gram") == 0 ? "g" : means;
  for (size_t i = 0; i < t.count; i++) {
    if (says(&t, i, "unit units measure")) return CELL_UNIT;
    if (says(&t, i, "when meal time often frequency feed day days")) return CELL_WHEN;
    if (says(&t, i, "amount quantity qty much many weight number") || means) return CELL_AMOUNT;
    if (says(&t, i, "what food item ingredient product name")) return CELL_FOOD;
  }
  return CELL_OTHER;
}

/* The head: a food and an amount among names alone. */
static bool head_of(struct span line, struct columns *c, struct arena *arena) {
  struct span cell[CELLS_MOST];
  for (const char *mark = ",;"; *mark; mark++) {
    size_t n = cells_between(line, *mark, cell), food = 0, amount = 0;
    *c = (struct columns){.mark = *mark, .count = n, .unit = ""};
    bool names = n >= 3;
    for (size_t i = 0; i < n && names; i++) {
      struct tokens t = tokens_of(cell[i], arena);
      for (size_t k = 0; k < t.count; k++) names = names && t.item[k].kind != TOKEN_NUMBER;
      names = names && t.count > 0 && t.count <= NAME_MOST_WORDS + 2;
      c->cell[i] = kind_of(cell[i], &c->unit, arena);
      food += c->cell[i] == CELL_FOOD, amount += c->cell[i] == CELL_AMOUNT;
    }
    if (names && food == 1 && amount == 1) return true;
  }
  return false;
}

static bool is_piece(struct span unit) {
  return word_in(unit, "piece pieces pc pcs pce whole each unit units count st no item items") || unit.n == 0;
}

/* "chicken breast,g,60,AM" as "AM: 60 g chicken breast"; false where it is no such row. */
static bool write_row(struct buf *b, struct span line, const struct columns *c, struct arena *arena) {
  struct span cell[CELLS_MOST], food = {"", 0}, unit = span_of(c->unit), amount = {"", 0}, when = {"", 0};
  struct buf others;
  if (cells_between(line, c->mark, cell) != c->count) return false;
  buf_init(&others, arena, line.n + 40);
  for (size_t i = 0; i < c->count; i++) {
    if (c->cell[i] == CELL_FOOD) food = cell[i];
    if (c->cell[i] == CELL_UNIT) unit = cell[i];
    if (c->cell[i] == CELL_AMOUNT) amount = cell[i];
    if (c->cell[i] == CELL_WHEN) when = cell[i];
    if (c->cell[i] == CELL_OTHER && cell[i].n > 0) buf_addf(&others, ", %.*s", SPAN_ARG(cell[i]));
  }
  struct tokens t = tokens_of(amount, arena), w = tokens_of(when, arena);
  if (food.n == 0 || t.count == 0 || quantity_at(&t, 0).fault != QUANTITY_FINE) return false;
  size_t meal = w.count > 0 ? post_meal_prefix(&w) : 0;
  bool heads = meal > 0 && meal == w.count;
  if (heads) buf_addf(b, "%.*s: ", SPAN_ARG(when));
  buf_add(b, amount);
  if (!is_piece(unit) && t.count == quantity_at(&t, 0).tokens) buf_addf(b, " %.*s", SPAN_ARG(unit));
  buf_addf(b, " %.*s%.*s", SPAN_ARG(food), SPAN_ARG(buf_span(&others)));
  if (!heads && when.n > 0) buf_addf(b, ", %.*s", SPAN_ARG(when));
  return true;
}

/* ---- "food 1: pork mince" and, below it, "amount 1: 250 g" ---- */

/* The number of such a line, and what stands behind its colon; 0. */
static int numbered(struct span line, const char *names, struct span *value, struct arena *arena) {
  struct tokens t = tokens_of(line, arena);
  size_t at = says(&t, 0, names) ? 1 : 0;
  if (at == 0) return 0;
  if (is_mark(&t, at, '#')) at++;
  if (!is_number(&t, at) || !(is_mark(&t, at + 1, ':') || is_mark(&t, at + 1, '=')) || at + 2 >= t.count) return 0;
  *value = tokens_span(&t, at + 2, t.count - at - 2);
  return (int)t.item[at].value;
}

static const char OF_FOODS[] = "food ingredient item meat product",
                  OF_AMOUNTS[] = "amount qty quantity weight grams g portion";

/* Each food with the amount of its number, on the line of the amount. */
static struct span numbered_pairs(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct span line, food = {"", 0}, value;
  bool any = false;
  int open = 0;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    int foods = numbered(line, OF_FOODS, &value, r->arena),
        amounts = foods > 0 ? 0 : numbered(line, OF_AMOUNTS, &value, r->arena);
    struct lines ahead = lines;
    struct span next, after;
    bool followed = foods > 0 && lines_next(&ahead, &next) && numbered(next, OF_AMOUNTS, &after, r->arena) == foods;
    if (followed) {
      food = value, open = foods, any = true;
    } else if (open > 0 && amounts == open) {
      buf_addf(&b, "%.*s %.*s", SPAN_ARG(value), SPAN_ARG(food));
      open = 0;
    } else {
      buf_add(&b, line);
    }
    buf_addc(&b, '\n');
  }
  return any ? buf_span(&b) : text;
}

/* ---- "what else: zucchini", "how much: 30 g", "how often: every day" ---- */

/* What stands behind such a label; "" where it is none. */
static struct span behind_label(struct span line, const char *first, const char *second, struct arena *arena) {
  struct tokens t = tokens_of(line, arena);
  size_t at = says(&t, 0, first) ? 1 : 0;
  if (at == 0 || (second[0] && !says(&t, at, second))) return (struct span){"", 0};
  for (size_t i = at; i < t.count && i < at + 5; i++)
    if (is_mark(&t, i, ':') && i + 1 < t.count) return tokens_span(&t, i + 1, t.count - i - 1);
  return (struct span){"", 0};
}

/* A food in a line with a label, how much of it in the next, and how often in the one behind that. */
static struct span how_much_below(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct span line;
  bool any = false;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct lines ahead = lines;
    struct span next, third, much = {"", 0}, often = {"", 0};
    struct tokens t = tokens_of(line, r->arena);
    size_t colon = 0;
    while (colon < t.count && !is_mark(&t, colon, ':')) colon++;
    bool labelled = colon > 0 && colon < 6 && colon + 1 < t.count && !post_any_amount(&t, 0) && !says(&t, 0, "how");
    if (labelled && lines_next(&ahead, &next)) much = behind_label(next, "how", "much many", r->arena);
    struct tokens m = tokens_of(much, r->arena);
    if (much.n == 0 || !post_any_amount(&m, 0)) {
      buf_addf(&b, "%.*s\n", SPAN_ARG(line));
      continue;
    }
    any = true;
    lines = ahead;
    if (lines_next(&ahead, &third)) often = behind_label(third, "how", "often", r->arena);
    buf_addf(&b, "\n- %.*s %.*s%s%.*s\n", SPAN_ARG(much), SPAN_ARG(tokens_span(&t, colon + 1, t.count - colon - 1)),
             often.n > 0 ? ", " : "", SPAN_ARG(often));
    if (often.n > 0) lines = ahead, buf_addc(&b, '\n');
  }
  return any ? buf_span(&b) : text;
}

/* ---- "| | grams | morning | evening |" and crosses below the meals ---- */

static size_t cells_of_bars(struct span line, struct span *cell) {
  line = trim_blanks(line);
  if (line.n > 0 && line.p[0] == '|') line = span_cut(line, 1, line.n);
  if (line.n > 0 && line.p[line.n - 1] == '|') line = span_cut(line, 0, line.n - 1);
  return cells_between(line, '|', cell);
}

/* "| potato | 90 | x | x |" as "90 g potato, twice a day"; false where it is no such row. */
static bool write_crosses(struct buf *b, struct span line, const struct columns *c) {
  struct span cell[CELLS_MOST], food = {"", 0}, amount = {"", 0};
  size_t crosses = 0;
  if (cells_of_bars(line, cell) != c->count) return false;
  for (size_t i = 0; i < c->count; i++) {
    if (c->cell[i] == CELL_FOOD) food = cell[i];
    if (c->cell[i] == CELL_AMOUNT) amount = cell[i];
    if (c->cell[i] == CELL_WHEN && cell[i].n > 0 && !span_is(cell[i], "-")) {
      if (!span_is_fold(cell[i], "x") && !span_is_fold(cell[i], "yes")) return false;
      crosses++;
    }
  }
  double x;
  if (food.n == 0 || crosses == 0 || num_read(amount, &x) == 0) return false;
  bool bare = num_parse(amount, &x);
  buf_addf(b, "%.*s%s%s %.*s", SPAN_ARG(amount), bare ? " " : "", bare ? c->unit : "", SPAN_ARG(food));
  if (crosses == 2) buf_adds(b, ", twice a day");
  if (crosses > 2) buf_addf(b, ", %zu times a day", crosses);
  return true;
}

/* Its head: grams, and two meals at least; the first cell may be empty. */
static bool head_of_crosses(struct span line, struct columns *c, struct arena *arena) {
  struct span cell[CELLS_MOST];
  size_t meals = 0, amounts = 0;
  *c = (struct columns){.mark = '|', .count = cells_of_bars(line, cell), .unit = ""};
  for (size_t i = 0; i < c->count; i++) {
    struct tokens t = tokens_of(cell[i], arena);
    bool meal = t.count == 1 && is_word(&t, 0) && is_meal_word(t.item[0].word);
    c->cell[i] = meal ? CELL_WHEN : i == 0 ? CELL_FOOD : kind_of(cell[i], &c->unit, arena);
    meals += meal, amounts += c->cell[i] == CELL_AMOUNT;
  }
  const char *unit = "";
  if (c->count > 0 && c->count < CELLS_MOST && kind_of(cell[0], &unit, arena) == CELL_AMOUNT) { /* no name above the foods */
    memmove(c->cell + 1, c->cell, c->count * sizeof c->cell[0]);
    c->cell[0] = CELL_FOOD, c->cell[1] = CELL_AMOUNT, c->unit = unit;
    c->count++, amounts = 1;
  }
  return c->count >= 4 && meals >= 2 && amounts == 1 && c->unit[0];
}

static struct span crosses_below(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct columns c = {.count = 0};
  struct span line;
  bool any = false;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct columns head;
    bool bars = memchr(line.p, '|', line.n) != NULL, written = false;
    if (bars && head_of_crosses(line, &head, r->arena)) {
      c = head;
    } else {
      written = bars && c.count > 0 && write_crosses(&b, line, &c);
      if (!written) buf_add(&b, line);
    }
    any = any || written;
    buf_addc(&b, '\n');
  }
  return any ? buf_span(&b) : text;
}

struct span post_columns(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct columns c = {.count = 0};
  struct span line;
  bool any = false;
  text = numbered_pairs(r, text, arena);
  text = how_much_below(r, text, arena);
  if (memchr(text.p, '|', text.n)) text = crosses_below(r, text, arena);
  buf_init(&b, arena, 4 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct columns head;
    bool commas = memchr(line.p, ',', line.n) || memchr(line.p, ';', line.n);
    if (commas && head_of(line, &head, r->arena))
      c = head, any = true;
    else if (!(c.count > 0 && commas && write_row(&b, line, &c, r->arena)))
      buf_add(&b, line);
    buf_addc(&b, '\n');
  }
  return any ? buf_span(&b) : text;
}
