/* Tables under a row of names: "what,unit,amount,when", "Item<TAB>g per serving<TAB>servings/week", "Food | AM | PM", and
 * those with the foods in their head ("Day;chicken;rice"). Its rows become lines as people write them; the number of lines
 * stays. Cells stand between tabs, bars, semicolons, commas, or two blanks and more. */
#include "base/num.h"
#include "post/built/post_built.h"

enum { CELLS_MOST = 12, NAME_MOST_WORDS = 6, DAYS_LEAST = 3 };
enum cell {
  CELL_WORDS, /* said behind the food */
  CELL_FOOD,
  CELL_UNIT,
  CELL_AMOUNT,
  CELL_WHEN,  /* a meal, or how often in words */
  CELL_MEAL,  /* amounts at a meal */
  CELL_DAY,   /* amounts on a day of the week */
  CELL_TIMES, /* how many times in a period */
  CELL_OTHER  /* prices, energy, nutrients: no part of the line */
};
enum period { PERIOD_NONE, PERIOD_DAY, PERIOD_WEEK, PERIOD_MONTH };
static const char *const PERIOD_WORD[] = {"", "day", "week", "month"};

struct grid_column {
  enum cell is;
  const char *unit; /* "" */
  enum period period;
  struct span name;
  int day; /* of the week, from 0 */
};

struct grid {
  char mark; /* ' ': two blanks or more */
  size_t count;
  struct grid_column column[CELLS_MOST];
  bool foods_in_head;
};

static size_t cells_between(struct span line, char mark, struct span *cell) {
  size_t n = 0, from = 0;
  for (size_t i = 0; i <= line.n; i++) {
    bool apart = mark == ' ' ? i + 1 < line.n && line.p[i] == ' ' && line.p[i + 1] == ' ' : i < line.n && line.p[i] == mark;
    if (i < line.n && !apart) continue;
    struct span c = trim_blanks(span_cut(line, from, i));
    if (n == CELLS_MOST) return 0;
    bool edge =
        c.n == 0 && ((mark == '|' && (from == 0 || i == line.n)) || (mark == ' ' && i == line.n)); /* "| food | g |" */
    if (!edge) cell[n++] = c;
    while (mark == ' ' && i + 1 < line.n && line.p[i + 1] == ' ') i++;
    from = i + 1;
  }
  return n;
}

/* ---- the head ----------------------------------------------------------------------------------------------------------
 */

static bool any_word(const struct tokens *t, const char *words) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, words)) return true;
  return false;
}

static enum period period_of(const struct tokens *t) {
  if (any_word(t, "week weekly weeks wk")) return PERIOD_WEEK;
  if (any_word(t, "month monthly mth")) return PERIOD_MONTH;
  if (any_word(t, "day daily d")) return PERIOD_DAY;
  return PERIOD_NONE;
}

static const char *unit_of(const struct tokens *t, struct arena *arena) {
  for (size_t i = 0; i < t->count; i++) {
    if (says(t, i, "g gr gm gms gram grams grammes")) return "g";
    if (says(t, i, "kg kilo kilos")) return "kg";
    if (says(t, i, "ml oz lb lbs mg tsp tbsp cup cups")) return arena_text(arena, t->item[i].word);
    if (says(t, i, "percent") || is_mark(t, i, '%')) return "%";
  }
  return "";
}

static int day_of(const struct tokens *t) {
  const char *number;
  size_t used = t->count > 0 ? meaning_at(t, 0, CLASS_DAY_OF_WEEK, &number) : 0;
  return used > 0 && used == t->count ? number[0] - '1' : -1;
}

static bool is_a_meal(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (is_word(t, i) && token_is_a(&t->item[i], CLASS_MEAL) && !says(t, i, "meal feed supplement supplements")) return true;
  return false;
}

static struct grid_column grid_column_of(struct span name, struct arena *arena) {
  struct tokens t = tokens_of(name, arena);
  struct grid_column c = {CELL_WORDS, unit_of(&t, arena), period_of(&t), name, day_of(&t)};
  if (any_word(&t, "kcal calories cal price cost kj protein fat carbs calcium phosphorus $"))
    c.is = CELL_OTHER;
  else if (c.day >= 0)
    c.is = CELL_DAY;
  else if (any_word(&t, "unit units measure") && !c.unit[0])
    c.is = CELL_UNIT;
  else if (c.unit[0] && !any_word(&t, "food foods"))
    c.is = is_a_meal(&t) ? CELL_MEAL : CELL_AMOUNT;
  else if (c.period != PERIOD_NONE &&
           any_word(&t, "servings serving times x meals portions feeds feedings days times freq number no how"))
    c.is = CELL_TIMES;
  else if (any_word(&t, "when meal time often frequency feed day days freq schedule"))
    c.is = CELL_WHEN;
  else if (any_word(&t, "amount amounts quantity qty much many weight number dose portion serving"))
    c.is = CELL_AMOUNT;
  else if (any_word(&t, "what food foods item items ingredient ingredients product name thing stuff"))
    c.is = CELL_FOOD;
  else if (is_a_meal(&t))
    c.is = CELL_MEAL;
  return c;
}

static size_t count_of(const struct grid *g, enum cell is) {
  size_t n = 0;
  for (size_t i = 0; i < g->count; i++) n += g->column[i].is == is;
  return n;
}

/* A row of short names without a number. */
static bool is_row_of_names(const struct span *cell, size_t n, struct arena *arena) {
  for (size_t i = 0; i < n; i++) {
    struct tokens t = tokens_of(cell[i], arena);
    for (size_t k = 0; k < t.count; k++)
      if (t.item[k].kind == TOKEN_NUMBER && !(is_mark(&t, k + 1, '%') && t.count > 2)) return false;
    if (t.count > NAME_MOST_WORDS || (t.count == 0 && i > 0)) return false;
  }
  return true;
}

/* What no name tells: the first column without another sense has the foods. */
static bool name_foods(struct grid *g) {
  for (size_t i = 0; i < g->count && count_of(g, CELL_FOOD) == 0; i++)
    if (g->column[i].is == CELL_WORDS) g->column[i].is = CELL_FOOD;
  return count_of(g, CELL_FOOD) == 1;
}

/* "grams | morning | evening" above rows of one cell more: the foods have no name. */
static bool shift_foods(struct grid *g) {
  if (g->count + 1 > CELLS_MOST || g->mark == ',') return false;
  memmove(g->column + 1, g->column, g->count * sizeof *g->column);
  g->column[0] = (struct grid_column){CELL_FOOD, "", PERIOD_NONE, {"", 0}, -1};
  g->count++;
  return true;
}

static bool says_enough(struct grid *g) {
  size_t amounts = count_of(g, CELL_AMOUNT) + count_of(g, CELL_MEAL);
  if (count_of(g, CELL_DAY) >= DAYS_LEAST && amounts == 0) return name_foods(g) || count_of(g, CELL_DAY) == g->count;
  if (amounts == 0 || count_of(g, CELL_DAY) > 0 || count_of(g, CELL_TIMES) > 1) return false;
  return name_foods(g) || shift_foods(g);
}

/* "Day;chicken;rice;liver", rows of a day or a meal and amounts: is each name but the first a food? */
static bool names_foods(struct post_reader *r, struct grid *g) {
  enum { FOODS_LEAST = 2 };
  struct tokens first = tokens_of(g->column[0].name, r->arena);
  bool fits = g->count >= 3 && (first.count == 0 || any_word(&first, "day days when meal time date weekday"));
  size_t foods = 0;
  bool other[CELLS_MOST] = {false};
  for (size_t i = 1; i < g->count && fits; i++) {
    struct tokens t = tokens_of(g->column[i].name, r->arena);
    bool food = t.count > 0 && post_names_food(r, &t, 0, t.count);
    other[i] =
        !food && t.count > 0 && any_word(&t, "walk walks walked exercise steps weight poo stool notes note remark remarks");
    foods += food;
    fits = food || other[i];
  }
  if (!fits || foods < FOODS_LEAST) return false;
  for (size_t i = 1; i < g->count; i++) g->column[i].is = other[i] ? CELL_OTHER : CELL_WORDS;
  return true;
}

/* "       | Abe | Bea", "   until May | now": the amounts are in the column of the one that is asked about, or of today. */
static void choose_column(struct post_reader *r, struct span text, struct grid *g) {
  enum column_of of[CELLS_MOST];
  size_t fed = 0, open = 0;
  if (g->mark == ',') return;
  for (size_t i = 1; i < g->count; i++) {
    bool told = g->column[i].is != CELL_WORDS && g->column[i].is != CELL_AMOUNT;
    of[i] = told ? COLUMN_OF_ANYTHING : post_column_of(r, text, g->column[i].name);
    fed += of[i] == COLUMN_OF_NOW;
    open += of[i] == COLUMN_OF_ANYTHING;
  }
  for (size_t i = 1; i < g->count && fed == 1 && open == 0; i++) {
    g->column[i].is = of[i] == COLUMN_OF_NOW ? CELL_AMOUNT : CELL_OTHER;
    if (of[i] == COLUMN_OF_NOW && !g->column[i].unit[0]) g->column[i].unit = post_unit_of_numbers(r, text);
  }
}

static bool head_of(struct post_reader *r, struct span text, struct span line, struct grid *g) {
  struct span cell[CELLS_MOST];
  for (const char *mark = "\t|;, "; *mark; mark++) {
    *g = (struct grid){.mark = *mark};
    if (!memchr(line.p, *mark, line.n)) continue;
    g->count = cells_between(line, *mark, cell);
    if (g->count < 2 || !is_row_of_names(cell, g->count, r->arena)) continue;
    for (size_t i = 0; i < g->count; i++) g->column[i] = grid_column_of(cell[i], r->arena);
    choose_column(r, text, g);
    bool loose = *mark == ',' || *mark == ' '; /* a sentence has commas too */
    g->foods_in_head = names_foods(r, g);
    if (g->foods_in_head) return true;
    if (says_enough(g) && (!loose || g->count >= 3)) return true;
  }
  return false;
}

/* ---- a row
 * ---------------------------------------------------------------------------------------------------------------- */

static bool is_nothing(struct span cell) {
  return cell.n == 0 || word_in(cell, "- -- \xE2\x80\x93 \xE2\x80\x94 none n/a na nil no 0 x");
}

static bool is_same(struct span cell) { return word_in(cell, "same ditto \" \xE2\x80\x9D idem"); }

/* "100 g | same | same": what stands before it in its row. */
static void fill_same(const struct grid *g, struct span *cell) {
  for (size_t i = 1; i < g->count; i++)
    if (is_same(cell[i]) && g->column[i].is == g->column[i - 1].is) cell[i] = cell[i - 1];
}

static bool is_piece(struct span unit) {
  return word_in(unit, "piece pieces pc pcs pce whole each unit units count st no item items") || unit.n == 0;
}

/* An amount with the unit of its column, where it has none of its own; false: it is none. */
static bool write_amount(struct buf *b, struct span cell, struct span unit, double times, struct arena *arena) {
  double x;
  if (num_parse(cell, &x)) {
    num_sig(b, x * times, 6);
    if (!is_piece(unit)) buf_addf(b, " %.*s", SPAN_ARG(unit));
    return x >= 0;
  }
  struct tokens t = tokens_of(cell, arena);
  struct quantity q = quantity_at(&t, 0);
  if (t.count == 0 || q.tokens == 0 || q.fault != QUANTITY_FINE) return false;
  if (times != 1) {
    num_sig(b, times, 6);
    buf_adds(b, " x ");
  }
  buf_add(b, cell);
  if (!is_piece(unit) && t.count == q.tokens) buf_addf(b, " %.*s", SPAN_ARG(unit));
  return true;
}

/* Of several columns of amounts the one a day, then the one a time, then any; a percentage last. */
static size_t amount_column(const struct grid *g, const struct span *cell) {
  size_t best = g->count;
  int best_rank = 9;
  for (size_t i = 0; i < g->count; i++) {
    const struct grid_column *c = &g->column[i];
    if (c->is != CELL_AMOUNT || is_nothing(cell[i])) continue;
    bool counted = count_of(g, CELL_TIMES) > 0;
    int rank = c->unit[0] == '%'          ? 5
               : c->period == PERIOD_DAY  ? (counted ? 1 : 0)
               : c->period == PERIOD_NONE ? (counted ? 0 : 1)
                                          : 2;
    if (rank < best_rank) best = i, best_rank = rank;
  }
  return best;
}

struct row {
  struct span food, unit, when;
  double times; /* a period; NaN */
  enum period of;
  struct buf words;
};

static void read_row(const struct grid *g, const struct span *cell, struct row *row, struct arena *arena) {
  *row = (struct row){{"", 0}, {"", 0}, {"", 0}, (double)NAN, PERIOD_NONE, {0}};
  buf_init(&row->words, arena, 2000);
  for (size_t i = 0; i < g->count; i++) {
    double x;
    if (g->column[i].is == CELL_FOOD) row->food = cell[i];
    if (g->column[i].is == CELL_UNIT) row->unit = cell[i];
    if (g->column[i].is == CELL_WHEN) row->when = cell[i];
    if (g->column[i].is == CELL_TIMES && num_parse(cell[i], &x)) row->times = x, row->of = g->column[i].period;
    if (g->column[i].is == CELL_TIMES && !num_parse(cell[i], &x)) row->when = cell[i];
    if (g->column[i].is == CELL_WORDS && !is_nothing(cell[i]) && !num_parse(cell[i], &x) && row->words.n < 600)
      buf_addf(&row->words, ", %.*s", SPAN_ARG(cell[i]));
  }
}

/* "3 times a day" is three times the amount; seven a week is daily. */
static double times_a_day(const struct row *row) {
  return isnan(row->times) || row->of != PERIOD_DAY || !(row->times > 0) ? 1 : row->times;
}

static void write_often(struct buf *b, const struct row *row, const struct grid_column *amount) {
  bool week = row->of == PERIOD_WEEK && row->times != 7, month = row->of == PERIOD_MONTH;
  if (!isnan(row->times) && (week || month)) {
    buf_adds(b, ", ");
    if (row->times != 1) num_sig(b, row->times, 4);
    buf_addf(b, "%s a %s", row->times == 1 ? "once" : " times", PERIOD_WORD[row->of]);
  } else if (isnan(row->times) && amount->period >= PERIOD_WEEK) {
    buf_addf(b, " per %s", PERIOD_WORD[amount->period]);
  }
}

/* What is fed at all meals together, in grams; NaN where one of them is told in another way. */
static double grams_of_meals(const struct grid *g, const struct span *cell, const struct row *row, struct arena *arena) {
  double sum = 0;
  for (size_t i = 0; i < g->count; i++) {
    double x;
    if (g->column[i].is != CELL_MEAL || is_nothing(cell[i])) continue;
    const char *unit = g->column[i].unit;
    bool grams = row->unit.n == 0 && (!unit[0] || strcmp(unit, "g") == 0);
    if (num_parse(cell[i], &x)) {
      sum += grams ? x : (double)NAN;
      continue;
    }
    struct tokens t = tokens_of(cell[i], arena);
    struct post_amount a = post_amount_at(&t, 0);
    bool fits = a.tokens == t.count && a.is_mass && strcmp(a.unit, "g") == 0 && a.low == a.high;
    sum += fits ? a.low : (double)NAN;
  }
  return sum;
}

/* "AM" and "PM" columns: what is fed at each meal, one after another; grams together. */
static bool write_meals(struct buf *b, const struct grid *g, const struct span *cell, const struct row *row,
                        struct arena *arena) {
  size_t written = 0;
  double all = grams_of_meals(g, cell, row, arena);
  if (all > 0) {
    num_sig(b, all, 6);
    buf_addf(b, " g %.*s%.*s", SPAN_ARG(row->food), SPAN_ARG(buf_span(&row->words)));
    return true;
  }
  for (size_t i = 0; i < g->count; i++) {
    if (g->column[i].is != CELL_MEAL || is_nothing(cell[i])) continue;
    struct span unit = row->unit.n > 0 ? row->unit : span_of(g->column[i].unit[0] ? g->column[i].unit : "g");
    if (written++ > 0) buf_adds(b, "; ");
    if (!write_amount(b, cell[i], unit, 1, arena)) return false;
    buf_addf(b, " %.*s%.*s", SPAN_ARG(row->food), SPAN_ARG(buf_span(&row->words)));
  }
  return written > 0;
}

/* Columns of days: "rabbit;120;;120" as "120 g rabbit, on Monday and Wednesday", and where the cells hold foods each with
 * its day. */
static bool write_days(struct buf *b, const struct grid *g, const struct span *cell, const struct row *row,
                       struct arena *arena) {
  size_t written = 0;
  unsigned done = 0;
  for (size_t i = 0; i < g->count; i++) {
    if (g->column[i].is != CELL_DAY || is_nothing(cell[i]) || (done & 1u << i)) continue;
    unsigned days = 0;
    for (size_t k = i; k < g->count; k++) {
      if (g->column[k].is != CELL_DAY || !span_eq(cell[k], cell[i])) continue;
      days |= 1u << g->column[k].day;
      done |= 1u << k;
    }
    if (written++ > 0) buf_addc(b, 0x1F);
    struct span unit = row->unit.n > 0 ? row->unit : span_of(g->column[i].unit[0] ? g->column[i].unit : "g");
    if (row->food.n == 0)
      buf_add(b, cell[i]);
    else if (!write_amount(b, cell[i], unit, 1, arena))
      return false;
    if (row->food.n > 0) buf_addf(b, " %.*s%.*s", SPAN_ARG(row->food), SPAN_ARG(buf_span(&row->words)));
    buf_adds(b, days == 0x7F ? ", daily" : ", on ");
    if (days != 0x7F) frequency_print_days(b, days);
  }
  return written > 0;
}

/* Below how many meals there is a cross: "| potato | 90 | x | x |". */
static size_t crosses(const struct grid *g, const struct span *cell) {
  size_t n = 0;
  for (size_t i = 0; i < g->count; i++)
    n += g->column[i].is == CELL_MEAL && cell[i].n > 0 && word_in(cell[i], "x yes y + \xE2\x9C\x93 \xE2\x9C\x94");
  return n;
}

/* "chicken breast,g,60,AM" as "AM: 60 g chicken breast"; false where it is no such row. */
static bool write_row(struct buf *b, const struct span *cell, const struct grid *g, struct arena *arena) {
  struct row row;
  read_row(g, cell, &row, arena);
  struct tokens name = tokens_of(row.food, arena), when = tokens_of(row.when, arena);
  if (count_of(g, CELL_DAY) > 0) return !any_word(&name, "total totals sum") && write_days(b, g, cell, &row, arena);
  if (row.food.n == 0 || any_word(&name, "total totals sum")) return false;
  if (count_of(g, CELL_MEAL) > 0 && amount_column(g, cell) == g->count) return write_meals(b, g, cell, &row, arena);
  size_t at = amount_column(g, cell);
  if (at == g->count || row.times == 0) { /* "lamb hearts, -, -": named, and not fed */
    bool empty = count_of(g, CELL_AMOUNT) > 0;
    if (empty) buf_addf(b, "no %.*s%.*s", SPAN_ARG(row.food), SPAN_ARG(buf_span(&row.words)));
    return empty;
  }
  size_t meal = when.count > 0 ? post_meal_prefix(&when) : 0;
  bool heads = when.count > 0 && (meal == when.count || day_of(&when) >= 0); /* "Mon" heads its line as well */
  if (heads) buf_addf(b, "%.*s: ", SPAN_ARG(row.when));
  struct span unit = row.unit.n > 0 ? row.unit : span_of(g->column[at].unit);
  bool grams = unit.n == 0 && count_of(g, CELL_UNIT) == 0 && !isnan(row.times); /* "portion, times": of what is not said */
  if (!write_amount(b, cell[at], grams ? span_of("g") : unit, times_a_day(&row), arena)) return false;
  buf_addf(b, " %.*s%.*s", SPAN_ARG(row.food), SPAN_ARG(buf_span(&row.words)));
  write_often(b, &row, &g->column[at]);
  if (!heads && !is_nothing(row.when)) buf_addf(b, ", %.*s", SPAN_ARG(row.when));
  size_t meals = crosses(g, cell);
  if (meals > 1) buf_addf(b, meals == 2 ? ", twice a day" : ", %zu times a day", meals);
  return true;
}

/* "Mon;200;100" under "Day;chicken;rice": "Mon: 200 g chicken; 100 g rice". */
static bool write_turned(struct buf *b, const struct span *cell, const struct grid *g, struct arena *arena) {
  struct tokens t = tokens_of(cell[0], arena);
  bool every = any_word(&t, "daily every all each");
  size_t written = 0;
  if (t.count == 0 || any_word(&t, "total totals sum average")) return false;
  static const char *const SHORT[] = {"Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"};
  static const char *const DAY[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  struct span day = cell[0];
  for (size_t i = 0; i < COUNT_OF(DAY); i++)
    if (span_is_fold(cell[0], SHORT[i])) day = span_of(DAY[i]);
  if (!every) buf_addf(b, "%.*s: ", SPAN_ARG(day));
  for (size_t i = 1; i < g->count; i++) {
    double x;
    if (is_nothing(cell[i]) || g->column[i].is == CELL_OTHER) continue;
    if (written++ > 0) buf_adds(b, ", ");
    bool own = g->column[i].unit[0] && g->column[i].unit[0] != '%'; /* "beef mince 15% fat" */
    struct span unit = span_of(own ? g->column[i].unit : "g");
    if (num_parse(cell[i], &x) && x < 5 && !own) unit = span_of(""); /* "1" egg */
    if (!write_amount(b, cell[i], unit, 1, arena)) return false;
    buf_addf(b, " %.*s", SPAN_ARG(g->column[i].name));
  }
  return written > 0;
}

static bool is_rule(struct span line) {
  for (size_t i = 0; i < line.n; i++)
    if (!memchr("-=_|+: \t;", line.p[i], 9)) return false;
  return true;
}

static bool written_row(struct buf *b, struct span line, const struct grid *g, struct arena *arena) {
  struct span cell[CELLS_MOST];
  size_t begin = b->n, n = cells_between(line, g->mark, cell);
  if (g->mark == ' ' && n > g->count - 1 && n > 0 && cell[0].n == 0) memmove(cell, cell + 1, --n * sizeof *cell);
  bool tail = n > 1 && n < g->count && g->mark != ',';
  while (tail && n < g->count) cell[n++] = (struct span){"", 0};
  if (n == g->count) fill_same(g, cell);
  if (n == g->count && (g->foods_in_head ? write_turned(b, cell, g, arena) : write_row(b, cell, g, arena))) return true;
  b->n = begin;
  return false;
}

struct span post_columns(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct grid g = {.count = 0};
  struct span line;
  bool any = false;
  buf_init(&b, arena, 6 * text.n + 2000);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct grid head;
    if (head_of(r, text, line, &head)) {
      struct lines rest = lines;
      struct span next = {"", 0};
      do {
        if (!lines_next(&rest, &next)) next = (struct span){"", 0};
      } while (next.n > 0 && is_rule(next));
      size_t at = b.n;
      if (written_row(&b, next, &head, r->arena)) { /* a head has a row below it */
        b.n = at;
        g = head;
        any = true;
        buf_addc(&b, '\n');
        continue;
      }
    }
    bool row = g.count > 0 && memchr(line.p, g.mark, line.n);
    if ((g.mark == ',' || g.mark == ' ') && trim_blanks(line).n == 0) g.count = 0;
    if (!(row && g.count > 0 && written_row(&b, line, &g, r->arena))) buf_add(&b, line);
    buf_addc(&b, '\n');
  }
  return any ? buf_span(&b) : text;
}
