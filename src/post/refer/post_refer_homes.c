/* An animal that lives a week in one home and a week in another: "he has a week with me and a week with my ex. With me he
 * gets
 * ..., with my ex it's ..., in both homes ...": as weeks that take turns. */
#include "post/refer/post_refer.h"

/* "with my ex", "at mine", "here": how many tokens; 'name' is its last word. 0. */
static size_t place_at(const struct tokens *t, size_t at, struct span *name) {
  size_t i = at;
  *name = (struct span){"", 0};
  if (says(t, i, "here")) {
    *name = t->item[i].word;
    return 1;
  }
  if (!says(t, i, "with at")) return 0;
  i++;
  while (says(t, i, "my the his her our their")) i++;
  if (!is_word(t, i)) return 0;
  *name = t->item[i].word;
  return i + 1 - at;
}

/* "a week with me", "one week she is with me", "with us one week": the tokens; 0. */
static size_t week_at_place(const struct tokens *t, size_t at, struct span *name) {
  size_t i = at, used;
  if ((used = place_at(t, i, name)) > 0 && says(t, i + used, "one a") && says(t, i + used + 1, "week")) return used + 2;
  if (!says(t, i, "one a") || !says(t, i + 1, "week")) return 0;
  i += 2;
  while (says(t, i, "she he it they is she's he's it's they're are lives stays spends")) i++;
  used = place_at(t, i, name);
  return used > 0 ? i + used - at : 0;
}

/* "and a week with my mum", "and the next with my ex", "and with my parents the other" */
static bool other_week_follows(const struct tokens *t, size_t at, struct span *name) {
  size_t i = at, used;
  while (is_mark(t, i, ',') || says(t, i, "and then")) i++;
  if (i == at) return false;
  if (week_at_place(t, i, name) > 0) return true;
  if ((used = place_at(t, i, name)) > 0) return says(t, i + used, "the") && says(t, i + used + 1, "other next");
  if (says(t, i, "the")) i++;
  if (!says(t, i, "next other following")) return false;
  i += says(t, i + 1, "week one") ? 2 : 1;
  while (says(t, i, "she he it they is she's he's it's")) i++;
  return place_at(t, i, name) > 0;
}

/* "in both homes", "everywhere", "both give him" */
static size_t both_at(const struct tokens *t) {
  size_t i = says(t, 0, "in at") ? 1 : 0;
  if (says(t, 0, "everywhere")) return 1;
  if (!says(t, i, "both either each")) return 0;
  if (says(t, i + 1, "houses homes places flats house home place households")) return i + 2;
  if (says(t, i + 1, "of") && says(t, i + 2, "us them")) i += 2;
  return says(t, i + 1, "give gives feed add") ? i + 1 : 0;
}

static void write_head(struct story *st, size_t i, const char *head, size_t used) {
  const struct tokens *t = &st->s[i].t;
  while (is_mark(t, used, ':') || is_mark(t, used, ',') || says(t, used, "it's")) used++;
  refer_between(st, i, 0, used, head);
}

/* "He gets 5 g of fish oil in both places" */
static bool both_behind(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t n = t->count;
  bool both =
      n > 4 && says(t, n - 3, "in at") && says(t, n - 2, "both") && says(t, n - 1, "houses homes places flats households");
  if (!both && !(n > 2 && says(t, n - 1, "everywhere"))) return false;
  refer_between(st, i, both ? n - 3 : n - 1, n, "");
  struct buf b;
  buf_init(&b, st->r->arena, st->s[i].text.n + 20);
  buf_addf(&b, "Every day: %.*s", SPAN_ARG(st->s[i].text));
  refer_write(st, i, buf_text(&b));
  return true;
}

static bool take_homes(struct story *st, size_t told, struct span first, struct span second) {
  struct span name;
  unsigned seen = 0;
  int week[SAID_MOST] = {0};
  for (size_t i = told + 1; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    size_t used = t->count > 2 ? place_at(t, 0, &name) : 0;
    if (used == 0 || !post_any_amount(t, used)) continue;
    bool is_first = span_eq_fold(name, first),
         is_second = span_eq_fold(name, second) || span_is_fold(second, "him") || span_is_fold(second, "her");
    if (!is_first && !is_second) continue;
    week[i] = is_first ? 1 : 2;
    seen |= 1u << week[i];
  }
  if (seen != 6) return false;
  for (size_t i = told + 1; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    if (t->count < 3) continue;
    if (week[i] > 0) {
      write_head(st, i, week[i] == 1 ? "Week 1: " : "Week 2: ", place_at(t, 0, &name));
    } else if (post_any_amount(t, 0) && both_at(t) > 0) {
      write_head(st, i, "Every day: ", both_at(t));
    } else if (post_any_amount(t, 0)) {
      both_behind(st, i);
    }
  }
  return true;
}

void refer_homes(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    struct span first, second;
    for (size_t k = 0; k + 4 < t->count; k++) {
      size_t used = week_at_place(t, k, &first);
      if (used == 0 || !other_week_follows(t, k + used, &second)) continue;
      if (!take_homes(st, i, first, second)) return;
      size_t from = k, end = k + used;
      while (from > 0 &&
             (t->item[from - 1].kind == TOKEN_MARK || says(t, from - 1, "and he she it has is lives spends he's she's")))
        from--;
      while (end < t->count && !is_mark(t, end, '(') && !is_mark(t, end, ';')) end++;
      refer_between(st, i, from, end, "");
      return;
    }
  }
}
