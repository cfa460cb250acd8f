/* A table whose cells stand between commas or semicolons under a row of their names: "what,unit,amount,when". Its rows
 * become lines as people write them. */
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

struct span post_columns(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct columns c = {.count = 0};
  struct span line;
  bool any = false;
  text = numbered_pairs(r, text, arena);
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
