/* A log of versions: "v1: 200 beef + 100 rice", "v2: beef +20 %", "v3: rice replaced by equal mass of millet", "v4
 * (current): as v3, but 15 liver substituted for the equal mass of beef". What is fed is the version of today, worked out
 * step by step; the others are told as older ones. Where one step is not understood whole, all of it stays as it was. */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

enum { VERSIONS_MOST = 9, PARTS_MOST = 12 };

struct fed {
  double grams;
  struct span food;
};
struct version {
  size_t sentence, body; /* where its words begin */
  bool current;
  struct fed fed[PARTS_MOST];
  size_t count;
};
struct log {
  struct version v[VERSIONS_MOST];
  size_t count;
  bool grams;   /* numbers without a unit are grams */
  size_t steps; /* changes of the version before, and references to one */
};

static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

/* ---- labels ---- */

/* "v2", "r 3", "Version 1", "1.2": the number of the version, and how many tokens; 0. */
static size_t version_at(const struct tokens *t, size_t at, bool points, double *number) {
  if (is_word(t, at)) {
    struct span w = t->item[at].word;
    if (w.n >= 2 && w.n <= 3 && (w.p[0] == 'v' || w.p[0] == 'r') && num_parse(span_cut(w, 1, w.n), number)) return 1;
    bool word = says(t, at, "v r version revision rev ver");
    if (word && is_mark(t, at + 1, '.')) at++;
    if (!word || !is_number(t, at + 1)) return 0;
    *number = t->item[at + 1].value;
    return 2;
  }
  bool point = points && is_number(t, at) && memchr(t->item[at].at.p, '.', t->item[at].at.n);
  if (point) *number = t->item[at].value;
  return point ? 1 : 0;
}

/* A sentence that begins with a version and a colon: where its words begin; 0. */
static size_t label_of(const struct tokens *t, bool points, double *number, bool *current) {
  size_t at = version_at(t, 0, points, number);
  *current = false;
  if (at == 0) return 0;
  for (; at < t->count && at < 12; at++) {
    if (is_mark(t, at, ':')) return at + 1;
    *current = *current || says_a(t, at, CLASS_VERSION_OF_TODAY) || (says(t, at, "in") && says(t, at + 1, "use"));
    if (post_amount_at(t, at).is_mass) return 0;
  }
  return 0;
}

static bool find_log(struct story *st, struct log *log) {
  bool points = false;
  double before = -1;
  *log = (struct log){.count = 0};
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      const struct tokens *t = &st->s[i].t;
      points = points || says_a(t, k, CLASS_LOG_OF_CHANGES);
      bool unit = says(t, k, "grams g gr") && (k == 0 || !is_number(t, k - 1)) &&
                  (says(t, k + 1, "per a daily") || is_mark(t, k + 1, '/'));
      log->grams = log->grams || unit;
    }
  for (size_t i = 0; i < st->count; i++) {
    struct version *v = &log->v[log->count];
    double number;
    size_t body = label_of(&st->s[i].t, points, &number, &v->current);
    if (body == 0) continue;
    if (number <= before || log->count + 1 == VERSIONS_MOST) return false;
    before = number;
    v->sentence = i;
    v->body = body;
    log->count++;
  }
  return log->count >= 2;
}

/* ---- steps ---- */

static struct fed *of_food(struct version *v, struct span words) {
  struct fed *found = NULL;
  for (size_t k = 0; k < v->count; k++) /* "beef" is the beef, and no beef liver */
    if (span_eq_fold(v->fed[k].food, words)) return &v->fed[k];
  for (size_t k = 0; k < v->count; k++)
    if (refer_same_food(words, v->fed[k].food)) {
      if (found) return NULL;
      found = &v->fed[k];
    }
  return found;
}

/* The end of a food's words from 'at' on, before what is done to it; 'at' where none is named. */
static size_t food_before_verb(struct story *st, const struct tokens *t, size_t at) {
  size_t stop = at;
  while (stop < t->count && is_word(t, stop) && !says_a(t, stop, CLASS_STANDS_FOR) &&
         !says(t, stop, "halved doubled was is up down raised increased reduced cut lowered plus minus by for with"))
    stop++;
  struct tokens words = {t->item, stop};
  return post_food_end(st->r, &words, at);
}

/* "200 beef", "200 g of beef", "beef 200 g": how much of what; where it ends, 'at' none. */
static size_t weight_of_food(struct story *st, const struct log *log, const struct tokens *t, size_t at, struct fed *f) {
  size_t used = refer_grams(t, at, &f->grams), food;
  struct post_amount a = used == 0 && is_number(t, at) ? post_amount_at(t, at) : (struct post_amount){0};
  if (used == 0 && log->grams && a.tokens > 0 && a.bare && !is_mark(t, at + 1, '%')) f->grams = a.low, used = a.tokens;
  if (used == 0) return at;
  food = at + used;
  if (says(t, food, "of")) food++;
  size_t end = food_before_verb(st, t, food);
  if (end == food) return at;
  f->food = tokens_span(t, food, end - food);
  return end;
}

/* "by (an) equal mass of", "for the same amount of": the tokens; 0. */
static size_t as_much_of(const struct tokens *t, size_t at) {
  size_t from = at;
  if (!says(t, at, "by with for to")) return 0;
  at++;
  while (says(t, at, "an the a")) at++;
  if (!says(t, at, "equal same identical")) return 0;
  at++;
  if (!says(t, at, "mass amount weight quantity share")) return 0;
  at++;
  return says(t, at, "of") ? at + 1 - from : 0;
}

/* "beef +20 %", "rice halved", "beef up 10 %": the factor; the tokens behind the food; 0. */
static size_t factor_at(const struct tokens *t, size_t at, double *factor) {
  size_t from = at;
  while (says(t, at, "was is")) at++;
  if (says(t, at, "halved")) return *factor = 0.5, at + 1 - from;
  if (says(t, at, "doubled")) return *factor = 2, at + 1 - from;
  double sign = is_mark(t, at, '+') || says(t, at, "up raised increased plus")         ? 1
                : is_mark(t, at, '-') || says(t, at, "down reduced cut lowered minus") ? -1
                                                                                       : 0;
  if (sign == 0) return 0;
  at++;
  if (says(t, at, "by")) at++;
  if (!is_number(t, at) || !is_mark(t, at + 1, '%')) return 0;
  *factor = 1 + sign * t->item[at].value / 100;
  return *factor > 0 ? at + 2 - from : 0;
}

/* "rice replaced by equal mass of cooked millet", "15 liver substituted for the equal mass of beef", from 'at' on, where a
 * food or its weight stands; the end, 'at' where it is none. */
static size_t substitution(struct story *st, const struct log *log, const struct tokens *t, size_t at, struct version *v) {
  struct fed added;
  size_t end = weight_of_food(st, log, t, at, &added);
  if (end > at) {
    if (!says_a(t, end, CLASS_STANDS_FOR)) return at;
    size_t much = as_much_of(t, end + 1), food = end + 1 + much, to = much > 0 ? food_before_verb(st, t, food) : food;
    struct fed *old = to > food ? of_food(v, tokens_span(t, food, to - food)) : NULL;
    if (!old || !(old->grams > added.grams) || v->count == PARTS_MOST) return at;
    old->grams -= added.grams;
    v->fed[v->count++] = added;
    return to;
  }
  size_t verb = food_before_verb(st, t, at);
  struct fed *old = verb > at ? of_food(v, tokens_span(t, at, verb - at)) : NULL;
  if (!old) return at;
  double factor;
  size_t used = factor_at(t, verb, &factor);
  if (used > 0) return old->grams *= factor, verb + used;
  while (says(t, verb, "is was")) verb++;
  if (!says_a(t, verb, CLASS_STANDS_FOR)) return at;
  size_t much = as_much_of(t, verb + 1), food = verb + 1 + much, to = much > 0 ? food_before_verb(st, t, food) : food;
  if (to == food) return at;
  old->food = tokens_span(t, food, to - food);
  return to;
}

/* "as v3", "same as version 2", "like r1": the tokens, with the number; 0. */
static size_t as_version(const struct tokens *t, size_t at, double *number) {
  size_t from = at;
  if (says(t, at, "the")) at++;
  if (says(t, at, "same")) at++;
  if (!says(t, at, "as like")) return 0;
  at++;
  if (says(t, at, "in")) at++;
  size_t used = version_at(t, at, true, number);
  return used > 0 ? at + used - from : 0;
}

/* One version from the one before it; false where a part of it is not understood. */
static bool work_out(struct story *st, struct log *log, size_t which) {
  struct version *v = &log->v[which];
  const struct tokens *t = &st->s[v->sentence].t;
  size_t at = v->body;
  bool whole = which > 0; /* a version without a step is told whole, and stands for the one before */
  if (which > 0) memcpy(v->fed, v[-1].fed, sizeof v->fed), v->count = v[-1].count;
  while (at < t->count) {
    double number, same;
    size_t used;
    if (t->item[at].kind == TOKEN_MARK && !is_mark(t, at, '%')) {
      at++;
      continue;
    }
    if (says(t, at, "but and plus with also now per a day daily d")) {
      whole = whole && !says(t, at, "plus also with but");
      at++;
      continue;
    }
    if ((used = as_version(t, at, &number)) > 0) {
      bool known = false;
      for (size_t k = 0; k < which; k++) {
        bool mine;
        if (label_of(&st->s[log->v[k].sentence].t, true, &same, &mine) == 0 || same != number) continue;
        memcpy(v->fed, log->v[k].fed, sizeof v->fed), v->count = log->v[k].count, known = true;
      }
      if (!known) return false;
      at += used;
      whole = false;
      log->steps++;
      continue;
    }
    size_t end = substitution(st, log, t, at, v);
    struct fed f;
    if (end > at) whole = false, log->steps++;
    if (end == at && (end = weight_of_food(st, log, t, at, &f)) > at) {
      if (whole) v->count = 0, whole = false;
      struct fed *old = which > 0 ? of_food(v, f.food) : NULL;
      if (old && span_eq_fold(old->food, f.food))
        old->grams = f.grams;
      else if (v->count < PARTS_MOST)
        v->fed[v->count++] = f;
      else
        return false;
    }
    if (end == at) return false;
    at = end;
  }
  return v->count > 0;
}

/* ---- what all of them have ---- */

/* "Constant in all versions: 40 carrots, 1 egg per 2 days": numbers that are no pieces are grams, too. */
static void write_constant(struct story *st, size_t i, const struct log *log) {
  enum { FEW = 4 };
  const struct tokens *t = &st->s[i].t;
  size_t from = 0;
  for (size_t k = 0; k + 1 < t->count && from == 0; k++)
    if (says(t, k, "all every each") && says(t, k + 1, "versions version revisions revision")) from = k + 2;
  if (from == 0 || !log->grams) return;
  while (from < t->count && (is_mark(t, from, ':') || is_mark(t, from, ',') || is_mark(t, from, '-'))) from++;
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  const char *at = t->item[from].at.p, *end = end_of(t, t->count - 1);
  for (size_t k = from; k + 1 < t->count; k++) {
    if (says(t, k, "per") && is_number(t, k + 1) && says(t, k + 2, "days")) { /* "1 egg per 2 days" */
      buf_addf(&b, "%.*severy", (int)(t->item[k].at.p - at), at);
      at = end_of(t, k);
      k++;
      continue;
    }
    struct post_amount a = is_number(t, k) ? post_amount_at(t, k) : (struct post_amount){0};
    if (a.tokens == 0 || !a.bare || !is_word(t, k + 1)) continue;
    bool oil = false;
    for (size_t m = k + 1; m < t->count && t->item[m].kind == TOKEN_WORD; m++) oil = oil || says(t, m, "oil powder salt");
    if (a.low <= FEW && !oil) continue;
    buf_addf(&b, "%.*s g", (int)(end_of(t, k) - at), at);
    at = end_of(t, k);
  }
  if (end > at) buf_add(&b, (struct span){at, (size_t)(end - at)});
  refer_write(st, i, buf_text(&b));
}

void refer_versions(struct story *st) {
  struct log log;
  bool told = false;
  if (!find_log(st, &log)) return;
  for (size_t i = 0; i < st->count; i++) /* versions that take turns are no log */
    if (holds_a(&st->s[i].t, 0, st->s[i].t.count, CLASS_TAKING_TURNS)) return;
  size_t now = log.count - 1;
  for (size_t k = 0; k < log.count; k++) {
    if (!work_out(st, &log, k)) return;
    if (log.v[k].current) now = k, told = true;
  }
  if (!told && log.steps == 0) return; /* they may be recipes beside each other */
  const struct version *v = &log.v[now];
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  for (size_t k = 0; k < v->count; k++) {
    buf_adds(&b, k > 0 ? ", " : "");
    num_sig(&b, v->fed[k].grams, 4);
    buf_addf(&b, " g %.*s", SPAN_ARG(v->fed[k].food));
  }
  for (size_t i = 0; i < st->count; i++) write_constant(st, i, &log);
  for (size_t k = 0; k < log.count; k++) {
    if (k != now) refer_tell(st, log.v[k].sentence, "another version than that of today");
    refer_write(st, log.v[k].sentence, k == now ? buf_text(&b) : "");
    if (k == now)
      refer_beside(st, log.v[k].sentence, (struct span){"", 0}, "worked out from the versions that the post tells");
  }
}
