/* What stands before its food and is read behind it: "on Fridays instead of the beef he gets 150 g of cod"; and words that
 * say nothing: "I replace nothing but add 20 g of liver", "rice well cooked". */
#include "post/refer/post_refer.h"

static bool begins_feeding(const struct tokens *t, size_t at) {
  return says(t, at, "he she it they i we there there's") || says_a(t, at, CLASS_EATER_VERB);
}

/* "instead of the OLD he gets NEW": behind NEW, as everybody else writes it. */
static void instead_in_front(struct story *st, size_t i) {
  enum { FAR = 6 };
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 4 < t->count; k++) {
    size_t used = says(t, k, "instead") && says(t, k + 1, "of") ? 2 : phrase_at(t, k, "in place of");
    if (used == 0) continue;
    size_t old = k + used, end, now, last;
    while (says(t, old, "the his her their its my our")) old++;
    for (end = old; end < t->count && end < old + FAR && is_word(t, end) && !begins_feeding(t, end); end++) {
    }
    if (end == old || !post_names_food(st->r, t, old, end)) continue;
    now = is_mark(t, end, ',') ? end + 1 : end;
    if (!begins_feeding(t, now)) continue;
    for (last = now; last < t->count && !is_mark(t, last, ';') && !is_mark(t, last, '.'); last++) {
    }
    if (!post_any_amount(&(struct tokens){t->item, last}, now) && !post_names_food(st->r, t, now, last)) continue;
    struct tokens before = {t->item, k};
    if (post_any_amount(&before, 0)) continue; /* "200 g of cod instead of the beef he gets": it stands behind */
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b, ", instead of the %.*s", SPAN_ARG(tokens_span(t, old, end - old)));
    const char *behind = arena_text(st->r->keep, buf_span(&b));
    refer_between(st, i, last, last, behind);
    refer_between(st, i, k, now, "");
    return;
  }
}

/* "I replace nothing but add 20 g of liver": it is added, and that is all. */
static void nothing_replaced(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    if (!says(t, k, "replace swap change") || !says(t, k + 1, "nothing") || !says(t, k + 2, "but")) continue;
    size_t from = k, to = k + 3;
    if (says(t, to, "i we") && from > 0 && says(t, from - 1, "i we")) from--;
    refer_between(st, i, from, to, "");
    return;
  }
}

/* "rice well cooked", "pasta well boiled" */
static void well_cooked(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 1 < t->count; k++) {
    if (!says(t, k, "well") || !says(t, k + 1, "cooked boiled steamed washed mashed rinsed chopped ground drained done"))
      continue;
    if (!is_word(t, k - 1) || says(t, k - 1, "is are very as eats does doing") || says(t, k + 1, "done")) continue;
    refer_between(st, i, k, k + 1, "");
    return;
  }
}

/* "He makes 38 kg and has five years", as it is said elsewhere. */
static void makes_kilos(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  enum species s;
  double kg;
  for (size_t k = 1; k + 2 < t->count; k++) {
    bool animal = says(t, k - 1, "he she") || (is_word(t, k - 1) && is_animal_word(t->item[k - 1].word, &s));
    if (animal && says(t, k, "makes") && post_weight_at(t, k + 1, &kg) > 0) {
      refer_between(st, i, k, k + 1, "weighs");
      t = &st->s[i].t;
    }
    struct quantity q = quantity_at(t, k + 1);
    if (says(t, k, "has") && q.fault == QUANTITY_FINE && says(t, k + 1 + q.tokens, "years") &&
        !says(t, k + 2 + q.tokens, "of")) {
      refer_between(st, i, k, k + 1, "is");
      return;
    }
  }
}

/* "rabbit with bone, ground 140 g": how it was cut stands before its amount, and names no food of its own. */
static void cut_before_amount(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 2 < t->count; k++) {
    if ((!is_mark(t, k, ',') && !is_mark(t, k, ';')) ||
        !says(t, k + 1, "ground minced chopped cooked raw boiled diced frozen skinless boneless drained grated steamed"))
      continue;
    struct post_amount a = post_amount_at(t, k + 2);
    size_t end = k + 2 + a.tokens;
    if (!a.is_mass || (end < t->count && is_word(t, end))) continue;
    struct tokens before = {t->item, k};
    if (post_any_amount(&before, 0) || !post_names_food(st->r, t, 0, k)) continue;
    refer_between(st, i, k, k + 1, "");
    return;
  }
}

void refer_fronted(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    bool instead = false, nothing = false, well = false, makes = false;
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      const struct tokens *t = &st->s[i].t;
      instead = instead || says(t, k, "instead place");
      nothing = nothing || says(t, k, "nothing");
      well = well || says(t, k, "well");
      makes = makes || says(t, k, "makes has");
    }
    cut_before_amount(st, i);
    if (instead) instead_in_front(st, i);
    if (nothing) nothing_replaced(st, i);
    if (well) well_cooked(st, i);
    if (makes) makes_kilos(st, i);
  }
}
