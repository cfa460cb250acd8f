/* One line of a recipe, step by step: what stands at its front, how often, how it is prepared, the amount, the food. */
#include <math.h>

#include "recipe/recipe_line.h"

enum { WORDS_MOST = 200 }; /* with numbers and marks; longer ones would only cost time */

/* ---- the front of the line ---- */

static void take_pin(struct line_reader *r) {
  struct tokens *t = &r->t;
  for (size_t i = 0; i < t->count; i++) {
    if (!is_mark(t, i, '[')) continue;
    size_t end = i + 1;
    while (end < t->count && !is_mark(t, end, ']')) end++;
    struct span at = tokens_span(t, i, end - i + 1);
    bool closed = end < t->count;
    struct span code = closed ? trim_blanks(span_cut(at, 1, at.n - 1)) : (struct span){NULL, 0};
    take(t, i, end - i + 1);
    if (i == 0 && closed && (code.n == 0 || span_is_fold(code, "x"))) continue; /* "[ ]", a box to tick */
    if (!closed) {
      diag_say(r->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, at, "this pin is not closed; write it as [usda:17199]");
    } else if (!memchr(code.p, ':', code.n)) {
      diag_say(r->d, DIAG_ERROR, DIAG_UNKNOWN_WORD, at,
               "'%.*s' is not a pin; write the source and its number, as in [usda:17199], or use ( )",
               SPAN_ARG(quoted(code)));
    } else if (r->out->pin.n > 0) {
      diag_say(r->d, DIAG_ERROR, DIAG_TWICE, at, "a second pin in one line; keep one of them");
    } else {
      r->out->pin = code;
      r->out->pin_at = at;
    }
  }
}

/* "- ", "* ", a bullet, "1. " or "2) " at the start. */
static void take_bullet(struct tokens *t) {
  size_t i = next_free(t, 0);
  bool spaced = i + 1 < t->count && !t->item[i + 1].glued;
  static const uint32_t BULLETS[] = {'-',    '*',    '+',    '>',    0xB7,   0x2022, 0x2023, 0x2043,
                                     0x25CF, 0x25CB, 0x25E6, 0x25AA, 0x25A0, 0x25B8, 0x2713, 0x2610};
  if (i < t->count && t->item[i].kind == TOKEN_MARK) {
    for (size_t k = 0; k < COUNT_OF(BULLETS); k++)
      if (t->item[i].mark == BULLETS[k] && (spaced || BULLETS[k] > 0x7F)) {
        take(t, i, 1);
        return;
      }
  }
  bool numbered = i + 2 < t->count && t->item[i].kind == TOKEN_NUMBER && t->item[i + 1].glued && !t->item[i + 2].glued &&
                  (is_mark(t, i + 1, '.') || is_mark(t, i + 1, ')'));
  if (numbered) take(t, i, 2);
}

/* ---- the food's words ---- */

static bool is_joining_word(const struct token *t) {
  static const char *const WORDS[] = {"and", "the", "of", "some", "a", "an", "is", "are", "then"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (t->kind == TOKEN_WORD && span_is(t->word, WORDS[i])) return true;
  return false;
}

/* Marks that belong to a name: "2% milk", "A & B", "5/6". */
static bool kept_mark(const struct tokens *t, size_t i) {
  if (t->item[i].mark == '&') return true;
  bool number_before = i > 0 && !t->item[i - 1].taken && t->item[i - 1].kind == TOKEN_NUMBER && t->item[i].glued;
  if (t->item[i].mark == '%') return number_before;
  return t->item[i].mark == '/' && number_before && i + 1 < t->count && t->item[i + 1].glued;
}

/* The pin says which food it is, so that nobody looks up these words: whether they may be passed over is asked later. */
static void keep_behind_pin(struct line_reader *r, size_t first, size_t last) {
  struct tokens *t = &r->t;
  size_t from = first;
  struct buf b;
  if (r->out->pin.n == 0) return;
  while (from < t->count && (t->item[from].taken || t->item[from].at.p < r->out->pin_at.p)) from++;
  if (from <= first || from > last) return;
  buf_init(&b, r->arena, LINE_MOST_BYTES);
  for (size_t i = from; i <= last; i++)
    if (!t->item[i].taken) buf_addf(&b, "%s%.*s", b.n > 0 ? " " : "", SPAN_ARG(t->item[i].at));
  r->out->behind_pin = buf_span(&b);
  r->out->behind_pin_at = tokens_span(t, from, last - from + 1);
}

/* False when the words leave open which food is meant. */
static bool collect_food(struct line_reader *r) {
  struct tokens *t = &r->t;
  size_t first = t->count, last = 0;
  for (size_t i = 0; i < t->count; i++) {
    bool keep = !t->item[i].taken && (t->item[i].kind != TOKEN_MARK || kept_mark(t, i));
    if (!keep) {
      t->item[i].taken = true;
      continue;
    }
    if (first == t->count && is_joining_word(&t->item[i])) {
      t->item[i].taken = true;
      continue;
    }
    if (first == t->count) first = i;
    last = i;
  }
  while (first < t->count && last > first && (t->item[last].taken || is_joining_word(&t->item[last])))
    t->item[last--].taken = true;
  /* "roast potatoes" are roasted; "a chuck roast" is a cut. */
  if (first < last && phrase_at(t, first, "roast") > 0 && r->out->state == STATE_UNSTATED) {
    r->out->state = STATE_ROASTED;
    take(t, first, 1);
    first = next_free(t, first);
  }
  struct buf b;
  buf_init(&b, r->arena, LINE_MOST_BYTES);
  for (size_t i = first; i < t->count && i <= last; i++) {
    if (t->item[i].taken) continue;
    if (phrase_at(t, i, "or") > 0) {
      diag_say(r->d, DIAG_ERROR, DIAG_LEFT_OPEN, t->item[i].at, "'or' leaves open which food it is; write one of them");
      return false;
    }
    if (b.n > 0 && !(t->item[i].glued && !t->item[i - 1].taken)) buf_addc(&b, ' ');
    buf_add(&b, t->item[i].at);
  }
  r->out->food = span_of(buf_text(&b));
  if (first < t->count) r->out->food_at = tokens_span(t, first, last - first + 1);
  keep_behind_pin(r, first, last);
  return true;
}

/* ---- the whole line ---- */

static void say_no_amount(struct line_reader *r) {
  static const char *const VAGUE[] = {"to taste", "some", "a few", "few", "several", "a bit", "a little", "leftover"};
  for (size_t i = 0; i < r->t.count; i++)
    for (size_t k = 0; k < COUNT_OF(VAGUE); k++)
      if (phrase_at(&r->t, i, VAGUE[k]) > 0) {
        diag_say(r->d, DIAG_ERROR, DIAG_NO_WEIGHT, r->t.item[i].at,
                 "'%s' is not an amount; write grams, or a measure such as '1/4 tsp'", VAGUE[k]);
        return;
      }
  diag_say(r->d, DIAG_ERROR, DIAG_NO_FOOD, r->text,
           r->first ? "no amount here; write 'Recipe: ...' if this is the recipe's name, '#' before a remark, and an "
                      "ingredient as in '200 g lamb heart'"
                    : "no amount here; write an ingredient as in '200 g lamb heart', or '#' before a remark");
  diag_fix(r->d, span_cut(r->text, 0, 0), "# ", "make it a remark");
}

static void check_weights(struct line_reader *r) {
  struct recipe_line *l = r->out;
  if (l->cooked_weight && l->state == STATE_RAW)
    diag_say(r->d, DIAG_ERROR, DIAG_TWICE, l->whole,
             "'raw' and 'cooked weight' contradict each other; name the method, as in 'simmered'");
  if (l->raw_weight && l->state == STATE_RAW) l->raw_weight = false; /* weighed raw and fed raw */
  if (l->cooked_weight && l->state == STATE_UNSTATED) l->state = STATE_COOKED_OTHER;
}

static void begin(struct line_reader *r, struct span line, int number) {
  *r->out = (struct recipe_line){.line = number,
                                 .whole = trim_blanks(line),
                                 .shown = trim_blanks(line),
                                 .amount = (double)NAN,
                                 .amount_low = (double)NAN,
                                 .amount_high = (double)NAN,
                                 .unit = UNIT_EACH,
                                 .package_g = (double)NAN,
                                 .dose = (double)NAN,
                                 .wish = SEARCH_WISH_NONE,
                                 .state = STATE_UNSTATED,
                                 .broth = -1,
                                 .times_per_28 = CALENDAR_DAYS,
                                 .scaled = 1};
  r->text = r->out->whole;
  r->often = (struct frequency){.feedings = 1};
  r->t = tokens_of(r->text, r->arena);
}

static void read_frequency(struct line_reader *r) {
  for (size_t i = 0; i < r->t.count; i++) {
    if (r->t.item[i].taken) continue;
    struct frequency f = frequency_at(&r->t, i);
    if (f.tokens == 0) continue;
    struct span at = tokens_span(&r->t, i, f.tokens), shown = quoted(at);
    take(&r->t, i, f.tokens);
    if (f.refuse) {
      diag_say(r->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, at, "'%.*s': %s", SPAN_ARG(shown), f.refuse);
    } else if (r->out->frequency_stated) {
      diag_say(r->d, DIAG_ERROR, DIAG_TWICE, at, "a second frequency, '%.*s', in one line; keep one of them",
               SPAN_ARG(shown));
    } else if (f.is_range) {
      diag_say(r->d, DIAG_WARNING, DIAG_NUMBER, at, "'%.*s' is read as its middle", SPAN_ARG(shown));
    }
    r->out->frequency_stated = true;
    r->out->times_per_28 = f.refuse ? CALENDAR_DAYS : f.times_per_28;
    r->out->days = f.days;
    r->often = f;
    if (f.each_meal || f.other_days) r->each_meal_at = at;
  }
}

bool recipe_line_read(struct line_reader *r, struct span line, int number) {
  begin(r, line, number);
  struct recipe_line *l = r->out;
  if (r->t.count > WORDS_MOST) {
    diag_say(r->d, DIAG_ERROR, DIAG_NO_FOOD, span_cut(r->text, 0, 1),
             "a line of %zu words is not an ingredient; write one food a line", r->t.count);
    return false;
  }
  take_pin(r);
  take_bullet(&r->t);
  size_t shown = next_free(&r->t, 0);
  if (l->pin.n == 0 && shown > 0 && shown < r->t.count) { /* a bullet is no part of what people see again */
    const char *from = r->t.item[shown].at.p;
    l->shown = (struct span){from, (size_t)(l->whole.p + l->whole.n - from)};
  }
  read_frequency(r);
  read_qualifiers(r);
  bool amount = read_front_amount(r);
  if (!amount && l->amount_at.n > 0) return false; /* spoilt, and said so: what follows would be read askew */
  read_tail_amounts(r, amount);
  if (l->amount_at.n == 0) {
    say_no_amount(r);
    return false;
  }
  read_trailing_unit(r);
  if (!collect_food(r)) return false;
  if (l->food.n == 0 && l->pin.n == 0) {
    diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, l->whole, "no food after the amount; write it as in '200 g lamb heart'");
    return false;
  }
  check_weights(r);
  l->wish.state = l->state;
  return true;
}
