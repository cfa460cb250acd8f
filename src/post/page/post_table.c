/* Tables: the head names the columns, and each row becomes a line with commas. */
#include "base/num.h"
#include "post/page/post_page.h"

/* "Chicken thigh<TAB>250 g<TAB>raw" and "pork mince | 280 g": cells become commas. */
struct span post_join_cells(struct span line, struct arena *arena, bool *table) {
  struct buf b;
  buf_init(&b, arena, 2 * line.n + 8);
  *table = false;
  for (size_t i = 0; i < line.n; i++) {
    bool bar = line.p[i] == '|' || line.p[i] == '\t';
    if (!bar) {
      if (line.p[i] == ' ' && (b.n == 0 || (*table && b.p[b.n - 1] == ' '))) continue;
      buf_addc(&b, line.p[i]);
      continue;
    }
    *table = *table || b.n > 0;
    while (b.n > 0 && b.p[b.n - 1] == ' ') b.n--;
    if (b.n > 0) buf_adds(&b, ", ");
  }
  return buf_span(&b);
}

enum { COLUMNS_MOST = 8 };

static size_t cells_of(struct span line, struct span *cell) {
  size_t n = 0, from = 0;
  for (size_t i = 0; i <= line.n; i++) {
    if (i < line.n && line.p[i] != '|' && line.p[i] != '\t') continue;
    struct span c = trim_blanks(span_cut(line, from, i));
    if (n < COLUMNS_MOST && (c.n > 0 || n > 0)) cell[n++] = c;
    from = i + 1;
  }
  while (n > 0 && cell[n - 1].n == 0) n--;
  return n;
}

/* "g per meal" is an amount, "meals per day" and "times a day" say how often. */
static enum column column_of(struct span cell, struct arena *arena) {
  struct tokens t = tokens_of(cell, arena);
  if (t.count == 0) return COLUMN_WORDS;
  bool unit = says_a(&t, 0, CLASS_AMOUNT_COLUMN);
  for (size_t i = 0; i < t.count; i++) {
    bool day = says(&t, i, "day daily"), week = says(&t, i, "week weekly wk");
    if (!unit && says(&t, 0, "meals times feeds servings x feedings") && day) return COLUMN_TIMES_A_DAY;
    if (!unit && says(&t, 0, "days times x meals") && week) return COLUMN_DAYS_A_WEEK;
  }
  bool meal = false; /* "breakfast (g)", "am" */
  for (size_t i = 0; i < t.count && !unit; i++) meal = meal || (is_word(&t, i) && token_is_a(&t.item[i], CLASS_MEAL));
  return unit ? COLUMN_AMOUNT : meal && t.count <= 4 ? COLUMN_MEAL : COLUMN_WORDS;
}

/* The day of the week that a cell alone says, from 0; -1. */
static int day_of_cell(struct span cell, struct arena *arena) {
  struct tokens t = tokens_of(cell, arena);
  const char *number;
  size_t used = t.count > 0 ? meaning_at(&t, 0, CLASS_DAY_OF_WEEK, &number) : 0;
  return used > 0 && used == t.count ? number[0] - '1' : -1;
}

/* "| | Mon | Tue | ...": which column is which day; a first one without a day names the foods. */
static bool days_in_head(struct post_reader *r, struct span line) {
  enum { DAYS_LEAST = 3 };
  struct span cell[COLUMNS_MOST];
  size_t n = cells_of(line, cell), days = 0;
  for (size_t i = 0; i < n; i++) {
    int day = day_of_cell(cell[i], r->arena);
    if (day < 0 && i > 0) return false;
    if (day >= 0) r->day_column[days++] = day;
  }
  r->day_columns = days >= DAYS_LEAST ? days : 0;
  return r->day_columns > 0;
}

/* "| beef mince | 200 | 200 | 0 | ..." below such a head: a sentence for each amount, with its days. */
static struct span row_of_days(struct post_reader *r, struct span line) {
  struct span cell[COLUMNS_MOST];
  size_t n = cells_of(line, cell);
  double amount[COLUMNS_MOST];
  unsigned days[COLUMNS_MOST];
  size_t amounts = 0;
  struct buf b;
  if (n < 2 || n > r->day_columns + 1) return line;
  for (size_t i = 1; i < n; i++) {
    double x;
    size_t read = num_read(cell[i], &x);
    struct span unit = trim_blanks(span_cut(cell[i], read, cell[i].n));
    if (cell[i].n == 0 || (read == 0 && cell[i].n <= 3)) continue; /* "-" */
    if (read == 0 || !(unit.n == 0 || span_is_fold(unit, "g") || span_is_fold(unit, "gr"))) return line;
    size_t k = 0;
    while (k < amounts && amount[k] != x) k++;
    if (k == amounts) amount[k] = x, days[amounts++] = 0;
    days[k] |= 1u << r->day_column[i - 1];
  }
  buf_init(&b, r->keep, (amounts + 1) * (cell[0].n + 120));
  for (size_t k = 0; k < amounts; k++) {
    if (!(amount[k] > 0)) continue;
    if (b.n > 0) buf_addc(&b, 0x1F);
    num_sig(&b, amount[k], 6);
    buf_addf(&b, " %s %.*s", r->bare_unit[0] ? r->bare_unit : "g", SPAN_ARG(cell[0]));
    buf_adds(&b, days[k] == 0x7F ? ", daily" : ", on ");
    if (days[k] != 0x7F) frequency_print_days(&b, days[k]);
  }
  return b.n > 0 ? buf_span(&b) : line;
}

/* "100 g", "same", "-" below a meal. */
static bool cell_of_meal(struct span cell, double last, double *x) {
  if (cell.n == 0 || span_is(cell, "-") || span_is_fold(cell, "no") || span_is_fold(cell, "none") ||
      span_is_fold(cell, "nothing"))
    return *x = 0, true;
  if (span_is_fold(cell, "same") || span_is_fold(cell, "ditto") || span_is_fold(cell, "the same"))
    return *x = last, last >= 0;
  size_t read = num_read(cell, x);
  struct span unit = trim_blanks(span_cut(cell, read, cell.n));
  return read > 0 && *x >= 0 && (span_is_fold(unit, "g") || span_is_fold(unit, "gr") || span_is_fold(unit, "grams"));
}

/* A row of a table whose head says that one of its numbers is how often: "thigh | 95 | 2" is "190 g thigh". */
struct span post_table_row(struct post_reader *r, struct span line) {
  struct span cell[COLUMNS_MOST];
  size_t n = cells_of(line, cell);
  double amount = (double)NAN, last = (double)NAN, times = 1, days = 7, x;
  struct buf words;
  if (r->day_columns > 0 && (memchr(line.p, '|', line.n) || memchr(line.p, '\t', line.n))) return row_of_days(r, line);
  r->day_columns = 0;
  if (r->column_count == 0 || n != r->column_count) return line;
  buf_init(&words, r->keep, line.n + 100);
  for (size_t i = 0; i < n; i++) {
    bool number = (num_parse(cell[i], &x) && x >= 0) || (r->column[i] == COLUMN_MEAL && cell_of_meal(cell[i], last, &x));
    if (number) last = x;
    if (!number && cell[i].n > 0 && r->column[i] != COLUMN_MEAL)
      buf_addf(&words, "%s%.*s", words.n > 0 ? ", " : "", SPAN_ARG(cell[i]));
    else if (number && r->column[i] == COLUMN_AMOUNT)
      amount = x;
    else if (number && r->column[i] == COLUMN_MEAL)
      amount = amount >= 0 ? amount + x : x;
    else if (number && r->column[i] == COLUMN_TIMES_A_DAY)
      times = x;
    else if (number && r->column[i] == COLUMN_DAYS_A_WEEK)
      days = x;
  }
  if (!(amount >= 0) || !(times > 0) || words.n == 0) return line;
  struct buf b;
  buf_init(&b, r->keep, line.n + 140);
  num_sig(&b, amount * times, 6);
  buf_addf(&b, " %s %.*s", r->bare_unit[0] ? r->bare_unit : "g", SPAN_ARG(buf_span(&words)));
  if (days != 7) {
    buf_adds(&b, ", ");
    num_sig(&b, days, 3);
    buf_adds(&b, " days a week");
  }
  return buf_span(&b);
}

static size_t bar_count(const struct tokens *t) {
  size_t n = 0;
  for (size_t i = 0; i < t->count; i++) n += t->item[i].kind == TOKEN_MARK;
  return n;
}

/* "| food | grams | notes |": the unit of the column's bare numbers. */
bool post_table_head(struct post_reader *r, struct span line) {
  struct tokens t = post_tokens(r, line);
  bool bars = memchr(line.p, '|', line.n) || memchr(line.p, '\t', line.n), named = false;
  const char *unit = "";
  for (size_t i = 0; i < t.count; i++) {
    if (t.item[i].kind == TOKEN_NUMBER) return false;
    named = named || says_a(&t, i, CLASS_TABLE_HEAD);
    if (says(&t, i, "g gr gm gms gram grams grammes")) unit = "g";
    if (says(&t, i, "kg kilo kilos")) unit = "kg";
    if (says(&t, i, "oz ounces")) unit = "oz";
    if (says(&t, i, "lb lbs pounds")) unit = "lb";
    if (says(&t, i, "percent") || is_mark(&t, i, '%')) unit = "%";
  }
  if (bars && days_in_head(r, line)) return true;
  bool unit_alone = unit[0] && t.count - bar_count(&t) == 1 && !is_number(&t, 0); /* a tab, and "kg" */
  if (!(bars && named) && !unit_alone) return false;
  if (t.count > 16) return false;
  struct span cell[COLUMNS_MOST];
  r->column_count = cells_of(line, cell);
  bool often = false;
  int meals = 0;
  for (size_t i = 0; i < r->column_count; i++) {
    r->column[i] = column_of(cell[i], r->arena);
    meals += r->column[i] == COLUMN_MEAL;
    often = often || r->column[i] == COLUMN_TIMES_A_DAY || r->column[i] == COLUMN_DAYS_A_WEEK || meals >= 2;
  }
  if (!often) r->column_count = 0;
  r->bare_unit = unit;
  r->unit_of_table = true;
  return true;
}

/* "beef mince<TAB>200", "rice<TAB>50": rows of a food and a bare number, two at least and no head to them. */
bool post_rows_without_unit(struct span text) {
  enum { ROWS_LEAST = 2 };
  static const double LEAST_G = 5; /* fewer may be pieces */
  struct lines lines = lines_of(text);
  struct span line, cell[COLUMNS_MOST];
  size_t rows = 0;
  while (lines_next(&lines, &line)) {
    double x;
    if (!memchr(line.p, '\t', line.n) && !memchr(line.p, '|', line.n)) continue;
    bool row = cells_of(line, cell) == 2 && cell[0].n > 2 && post_is_letter(cell[0].p[0]);
    if (row && !num_parse(cell[1], &x) && num_read(cell[1], &x) > 0) return false; /* another row has a unit */
    if (row && num_parse(cell[1], &x) && x >= LEAST_G) rows++;
  }
  return rows >= ROWS_LEAST;
}

/* ---- lists without a unit ---- */

static bool is_small_letter(char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; }

enum piece { PIECE_ELSE, PIECE_BARE, PIECE_OTHER_UNIT };

/* "lamb mince 70", "rice 20 cooked", "- courgette: 20"; "chicken 6 oz" and "2 cups rice" have another unit. */
static enum piece piece_of(struct span piece, double *value) {
  enum { WORDS_MOST = 4 };
  piece = trim_blanks(piece);
  while (piece.n > 0 && memchr("-*+ ", piece.p[0], 4)) piece = span_cut(piece, 1, piece.n);
  size_t at = 0, words = 1, digits;
  if (piece.n < 4 || !is_small_letter(piece.p[0])) return PIECE_ELSE;
  while (at < piece.n && (is_small_letter(piece.p[at]) || memchr(" -:'", piece.p[at], 4))) words += piece.p[at++] == ' ';
  for (digits = at; digits < piece.n && piece.p[digits] >= '0' && piece.p[digits] <= '9';) digits++;
  struct span name = trim_blanks(span_cut(piece, 0, at)), rest = trim_blanks(span_cut(piece, digits, piece.n));
  if (at == 0 || digits == at || digits > at + 4 || piece.p[at - 1] == '-' || words > WORDS_MOST + 1) return PIECE_ELSE;
  while (name.n > 0 && memchr(" :-", name.p[name.n - 1], 3)) name.n--;
  if (name.n < 3 || text_holds(name, CLASS_NO_WEIGHED_NAME)) return PIECE_ELSE;
  if (rest.n > 0 && rest.p[0] == '.') rest = trim_blanks(span_cut(rest, 1, rest.n));
  if (rest.n > 0 && is_a(rest, CLASS_OUNCES_OR_CUPS)) return PIECE_OTHER_UNIT;
  if (rest.n > 0 && !word_in(rest, "cooked raw boiled dry steamed drained")) return PIECE_ELSE;
  return num_parse(span_cut(piece, at, digits), value) ? PIECE_BARE : PIECE_ELSE;
}

const char *post_list_without_unit(struct span text) {
  enum { PIECES_LEAST = 3, WEIGHTY_LEAST = 2 };
  static const double WEIGHTY_G = 15, MOST_G = 2000;
  struct lines lines = lines_of(text);
  struct span line;
  size_t bare = 0, weighty = 0;
  double sum = 0;
  while (lines_next(&lines, &line)) {
    for (size_t from = 0, at = 0; at <= line.n; at++) {
      bool end = at == line.n || line.p[at] == ',' || line.p[at] == ';' || line.p[at] == ':' ||
                 (line.p[at] == '.' && (at + 1 == line.n || line.p[at + 1] == ' '));
      if (!end || (at < line.n && line.p[at] == ':' && at + 2 < line.n && line.p[at + 2] >= '0' && line.p[at + 2] <= '9')) continue;
      double value = 0;
      enum piece is = piece_of(span_cut(line, from, at), &value);
      if (is == PIECE_OTHER_UNIT) return "";
      bare += is == PIECE_BARE && value >= 5;
      weighty += is == PIECE_BARE && value >= WEIGHTY_G && value <= MOST_G;
      sum += is == PIECE_BARE ? value : 0;
      from = at + 1;
    }
  }
  if (bare < PIECES_LEAST || weighty < WEIGHTY_LEAST) return "";
  if (text_holds(text, CLASS_OF_HUNDRED_PARTS)) return "%";
  return sum == 100 ? "" : "g"; /* grams of a cat's day, or parts */
}

bool post_is_bare_of(struct span line, const char *strict) {
  size_t n = strspn(strict, "0123456789");
  if (n == 0 || strncmp(strict + n, " g ", 3) != 0) return false;
  for (size_t at = 0; at + n <= line.n; at++) {
    bool alone = at == 0 || !(line.p[at - 1] >= '0' && line.p[at - 1] <= '9');
    if (!alone || memcmp(line.p + at, strict, n) != 0) continue;
    struct span rest = trim_blanks(span_cut(line, at + n, line.n));
    return !(rest.n > 0 && (rest.p[0] | 0x20) == 'g');
  }
  return false;
}
