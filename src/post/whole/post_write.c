/* The strict text that a post amounts to: headers, foods with what was assumed, '?' lines, and the questions as remarks. */
#include "base/num.h"
#include "post/whole/post_whole.h"
#include "text/plain.h"

static void write_number(struct buf *b, const char *before, double x, const char *after) {
  buf_adds(b, before);
  num_sig(b, x, 4);
  buf_adds(b, after);
}

/* Of the young in months or weeks, as they are told. */
static void write_age(struct buf *b, double years) {
  static const double WEEKS_PER_YEAR = 52.18, NEARLY = 0.005;
  double months = floor(years * 12 + 0.5), weeks = floor(years * WEEKS_PER_YEAR + 0.5);
  if (years >= 2 || years == 1 || years == 1.5)
    write_number(b, ", ", years, years == 1 ? " year" : " years");
  else if (fabs(years * 12 - months) < NEARLY)
    write_number(b, ", ", months, months == 1 ? " month" : " months");
  else
    write_number(b, ", ", weeks, weeks == 1 ? " week" : " weeks");
}

static void write_animal(struct buf *b, const struct post_reader *r) {
  bool named = r->given && r->given->name[0];
  if (!(r->weight_kg > 0)) return;
  if (named && !r->status[0]) {
    buf_addf(b, "For: %s\n", r->given->name);
    return;
  }
  buf_adds(b, r->species == SPECIES_CAT ? "Cat: " : "Dog: ");
  if (named) buf_addf(b, "%s, ", r->given->name);
  write_number(b, "", r->weight_kg, " kg");
  if (r->ideal_kg > 0) write_number(b, ", ideal ", r->ideal_kg, " kg");
  if (r->age_years > 0) write_age(b, r->age_years);
  if (r->neutered >= 0) buf_adds(b, r->neutered ? ", neutered" : ", not neutered");
  if (r->activity >= 0) buf_addf(b, ", %s activity", activity_word[r->activity]);
  if (r->status[0]) buf_addf(b, ", %s", r->status);
  if (!r->species_said) buf_adds(b, "  # the post does not say dog or cat");
  buf_addc(b, '\n');
}

static void write_whole(struct buf *b, const struct post_reader *r) {
  bool percent = false;
  for (size_t i = 0; i < r->count; i++)
    percent = percent || (r->item[i].kind == ITEM_FOOD &&
                          memchr(r->item[i].text, '%', 24 < strlen(r->item[i].text) ? 24 : strlen(r->item[i].text)));
  double part = r->pot_part > 0 && !r->part_in_lines ? r->pot_part : 1; /* taken once: of the lines, or by the days */
  if (r->makes_days > 0 && part < 1) { /* what lasts two animals five days lasts one of them ten */
    write_number(b, "Makes: ", r->makes_days / part, " days  # ");
    write_number(b, "", r->makes_days, r->makes_days == 1 ? " day" : " days");
    if (r->pot_told || r->by_need)
      write_number(b, " for all, of which this animal gets ", 100 * part, " %\n");
    else
      write_number(b, " for ", 1 / part, " animals\n");
  } else if (r->makes_days > 0)
    write_number(b, "Makes: ", r->makes_days, r->makes_days == 1 ? " day\n" : " days\n");
  else if (r->makes_meals > 0 && r->meals_a_day > 0)
    write_number(b, "Makes: ", r->makes_meals / r->meals_a_day / part, " days\n");
  for (size_t i = 0; i < r->never_count; i++) buf_addf(b, "%s%s", i > 0 ? ", " : "Never: ", r->never[i]);
  if (r->never_count > 0) buf_addc(b, '\n');
  if (r->per_meal && r->meals_a_day > 0) write_number(b, "Meals: ", r->meals_a_day, " a day\n");
  if (!r->any_percent && !percent) return;
  if (r->feeds_g > 0)
    write_number(b, "Feeds: ", r->feeds_g, " g a day\n");
  else if (r->feeds_percent > 0)
    write_number(b, "Feeds: ", r->feeds_percent, " % of body weight\n");
  else if (r->total_g > 0)
    write_number(b, "Total: ", r->total_g, " g\n");
}

/* One line: what strict text would take for an end, a remark or a pin becomes a blank. */
static void write_remark(struct buf *b, const char *text) {
  for (; *text; text++)
    buf_addc(b, *text == '\n' || *text == '\r' || *text == '\t' || *text == 0x1F || *text == '#' ? ' ' : *text);
}

/* What is said of every food, of three at least, is said once, below them. */
struct common {
  struct span piece[8];
  size_t count;
};

static bool says_piece(const struct item *item, struct span piece) {
  struct span rest = span_of(item->assumed ? item->assumed : "");
  bool has = false;
  while (rest.n > 0 && !has) has = span_eq(plain_next_piece(&rest), piece);
  return has;
}

static struct common said_of_all(const struct post_reader *r) {
  enum { SAID_ONCE_FROM = 3 };
  struct common c = {.count = 0};
  size_t foods = 0;
  for (size_t i = 0; i < r->count; i++) {
    const struct item *item = &r->item[i];
    if (item->kind != ITEM_FOOD) continue;
    struct span rest = span_of(item->assumed && foods == 0 ? item->assumed : "");
    while (rest.n > 0 && c.count < COUNT_OF(c.piece)) {
      struct span piece = plain_next_piece(&rest);
      if (piece.n > 0) c.piece[c.count++] = piece;
    }
    size_t to = 0;
    for (size_t k = 0; k < c.count; k++)
      if (says_piece(item, c.piece[k])) c.piece[to++] = c.piece[k];
    c.count = to;
    foods++;
  }
  if (foods < SAID_ONCE_FROM) c.count = 0;
  return c;
}

static bool is_common(const struct common *c, struct span piece) {
  for (size_t i = 0; i < c->count; i++)
    if (span_eq(c->piece[i], piece)) return true;
  return false;
}

/* Of one line what is not said of every line. */
static void write_assumed(struct buf *b, struct arena *arena, const struct item *item, const struct common *common) {
  bool any = false;
  for (struct span rest = span_of(item->assumed ? item->assumed : ""); rest.n > 0;) {
    struct span piece = plain_next_piece(&rest);
    if (piece.n == 0 || is_common(common, piece)) continue;
    buf_adds(b, any ? "; " : "  # ");
    write_remark(b, arena_text(arena, piece));
    any = true;
  }
}

static void write_common(struct buf *b, struct arena *arena, const struct common *common) {
  for (size_t i = 0; i < common->count; i++) {
    buf_adds(b, i > 0 ? "; " : "# of all foods: ");
    write_remark(b, arena_text(arena, common->piece[i]));
  }
  if (common->count > 0) buf_addc(b, '\n');
}

static void write_unknown(struct buf *b, const char *text) {
  buf_adds(b, "? ");
  while (*text == '-' || *text == ' ') text++; /* a dash before an item is no minus */
  for (; *text; text++)
    buf_addc(b,
             *text == '\n' || *text == '\r' || *text == '\t' || *text == 0x1F || *text == '#' || *text == '[' || *text == ']'
                 ? ' '
                 : *text);
}

void post_write(struct post_reader *r, struct post *out) {
  struct buf b;
  buf_init(&b, r->keep, 8 * POST_MOST_BYTES);
  size_t cap = 0;
  struct post_line *lines = NULL;
  int at = 1;
  struct buf head;
  buf_init(&head, r->keep, 4000);
  write_animal(&head, r);
  write_whole(&head, r);
  struct span header = buf_span(&head);
  for (size_t i = 0; i < header.n; i++) at += header.p[i] == '\n';
  if (header.n > 0) {
    buf_add(&b, header);
    buf_addc(&b, '\n');
    at++;
  }
  const struct common common = said_of_all(r);
  for (size_t i = 0; i < r->count; i++) {
    const struct item *item = &r->item[i];
    if (item->kind == ITEM_GONE) {
      struct post_line none = {item->line, 0, "", false};
      ARENA_PUSH(r->keep, lines, out->line_count, cap, none);
      continue;
    }
    if (item->kind == ITEM_UNKNOWN) {
      write_unknown(&b, item->text);
    } else {
      buf_adds(&b, item->text);
      write_assumed(&b, r->arena, item, &common);
    }
    buf_addc(&b, '\n');
    struct post_line line = {item->line, at, item->assumed ? item->assumed : "", item->doubted || item->rough};
    ARENA_PUSH(r->keep, lines, out->line_count, cap, line);
    at++;
  }
  write_common(&b, r->arena, &common);
  for (size_t i = 0; i < r->left_count; i++)
    if (!r->left[i].fed && r->left[i].why != POST_REFUSED) { /* a refusal is nothing that a recipe has to say */
      buf_adds(&b, "# not counted: ");
      write_remark(&b, r->left[i].text);
      buf_addf(&b, " (%s)\n", r->left[i].why);
    }
  for (size_t i = 0; i < r->question_count; i++) {
    buf_adds(&b, i == 0 ? "\n# ask: " : "# ask: ");
    write_remark(&b, r->question[i].ask);
    buf_addc(&b, '\n');
  }
  out->line = lines;
  bool food = false;
  for (size_t i = 0; i < r->count; i++) food = food || r->item[i].kind == ITEM_FOOD;
  out->recipe = food || r->count > 0 ? buf_text(&b) : "";
}
