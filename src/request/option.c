#include "request/option.h"

#include <assert.h>
#include <math.h>

#include "base/num.h"
#include "foods/unit.h"

const char *option_nearest_word(struct span word, const char *const *words, int count) {
  int most = word.n < 4 ? 1 : word.n < 9 ? 2 : 3, best = most + 1;
  const char *found = NULL;
  for (int i = 0; i < count; i++) {
    struct span known = span_of(words[i]);
    if (word.n >= 2 && known.n > word.n && span_eq_fold(span_cut(known, 0, word.n), word)) return known.p;
    int d = span_distance(word, known, most);
    if (d < best) {
      best = d;
      found = known.p;
    }
  }
  return found;
}

/* One value on its way into its field. */
struct reading {
  const struct option *o;
  const char *text, *before;
  void *field;
  struct buf *complaint;
  struct arena *arena;
};

static bool takes(const struct reading *r, const char *what) {
  buf_addf(r->complaint, "%s%s takes %s, not '%s'", r->before, r->o->word, what, r->text);
  return false;
}

static bool in_range(const struct reading *r, double x, const char *unit) {
  if (x >= r->o->low && x <= r->o->high) return true;
  buf_addf(r->complaint, "%s%s takes ", r->before, r->o->word);
  num_sig(r->complaint, r->o->low, 6);
  buf_adds(r->complaint, " to ");
  num_sig(r->complaint, r->o->high, 6);
  buf_addf(r->complaint, "%s, not ", unit);
  num_sig(r->complaint, x, 6);
  return false;
}

/* Programs write a flag as "word=yes". */
static bool read_flag(const struct reading *r) {
  bool no = strcmp(r->text, "no") == 0;
  if (!no && r->text[0] && strcmp(r->text, "yes") != 0) return takes(r, "yes or no");
  *(bool *)r->field = !no;
  return true;
}

void option_value(const struct option *o, struct buf *out) {
  for (int i = 0; i < o->word_count; i++) buf_addf(out, "%s%s", i > 0 ? "|" : "", o->words[i]);
  if (o->value) buf_adds(out, o->value);
}

static bool needs_value(const struct reading *r) {
  if (r->text[0]) return true;
  buf_addf(r->complaint, "%s%s needs a value: %s%s ", r->before, r->o->word, r->before, r->o->word);
  option_value(r->o, r->complaint);
  return false;
}

static bool read_text(const struct reading *r) {
  if (!needs_value(r)) return false;
  *(const char **)r->field = r->text;
  return true;
}

static bool read_texts(const struct reading *r) {
  struct text_list *l = r->field;
  if (!needs_value(r)) return false;
  ARENA_PUSH(r->arena, l->item, l->count, l->cap, r->text);
  return true;
}

static bool number_of(const struct reading *r, double *x) {
  struct span t = span_trim(span_of(r->text));
  size_t used = num_read(t, x);
  if (used > 0 && used + 1 == t.n && t.p[used] == '%' && r->o->kind == OPTION_PERCENT) used++;
  return used > 0 && used == t.n ? true : takes(r, "a number");
}

static bool read_number(const struct reading *r) {
  double x = NAN;
  if (!number_of(r, &x) || !in_range(r, x, "")) return false;
  *(double *)r->field = x;
  return true;
}

static bool read_percent(const struct reading *r) {
  double x = NAN;
  if (!number_of(r, &x) || !in_range(r, x, " per cent")) return false;
  *(double *)r->field = x / 100.0;
  return true;
}

static bool read_count(const struct reading *r) {
  double x = NAN;
  if (!number_of(r, &x)) return false;
  if (x != floor(x)) return takes(r, "a whole number");
  if (!in_range(r, x, "")) return false;
  *(int *)r->field = (int)x;
  return true;
}

static bool read_weight(const struct reading *r) {
  struct span t = span_trim(span_of(r->text));
  double x = 0;
  size_t used = num_read(t, &x);
  struct span unit_word = span_trim(span_cut(t, used, t.n));
  enum unit u = unit_word.n == 0 ? UNIT_KG : unit_by_word(unit_word);
  if (used > 0 && unit_word.n > 1 && unit_word.p[0] == ',') return takes(r, "a weight with a decimal point, like 4.6kg");
  if (used == 0 || unit_info[u].kind != UNIT_KIND_MASS) return takes(r, "a weight such as 18kg or 40lb");
  double kg = unit_convert(x, u) / 1000.0;
  if (!in_range(r, kg, " kg")) return false;
  *(double *)r->field = kg;
  return true;
}

static bool read_word(const struct reading *r) {
  for (int i = 0; i < r->o->word_count; i++) {
    if (!span_is_fold(span_of(r->text), r->o->words[i])) continue;
    *(unsigned int *)r->field = (unsigned int)i;
    return true;
  }
  struct buf words;
  buf_init(&words, r->arena, 256);
  option_value(r->o, &words);
  takes(r, buf_text(&words));
  const char *near = option_nearest_word(span_of(r->text), r->o->words, r->o->word_count);
  if (near) buf_addf(r->complaint, "; did you mean '%s'?", near);
  return false;
}

static bool read_date(const struct reading *r) {
  return date_read(span_of(r->text), (struct date *)r->field) ? true : takes(r, "a date such as 2026-11-02");
}

bool option_read(const struct option *o, const char *text, void *into, const char *before, struct buf *complaint,
                 struct arena *arena) {
  static bool (*const READ[])(const struct reading *) = {read_flag,  read_text,    read_texts, read_weight, read_number,
                                                         read_count, read_percent, read_word,  read_date};
  static_assert(COUNT_OF(READ) == OPTION_KINDS, "READ has an entry for every kind");
  const struct reading r = {o, text, before, (char *)into + o->at, complaint, arena};
  return READ[o->kind](&r);
}
