/* Several animals of which the post asks about one: "analyse A only" beside a pot of which A takes two thirds, or beside
 * lists "For the dog:", "For the cat:" and a part of the cat's food that the dog gets. */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

static bool is_animal(const struct tokens *t, size_t at, enum species *s) {
  return is_word(t, at) && is_animal_word(t->item[at].word, s);
}

/* A name that begins with a capital letter, a letter alone, or "dog", "cat". */
static bool is_name(const struct tokens *t, size_t at) {
  enum species s;
  if (!is_word(t, at)) return false;
  char c = t->item[at].at.p[0];
  return is_animal(t, at, &s) || (c >= 'A' && c <= 'Z' && !says(t, at, "i"));
}

/* ---- who is asked about ---- */

/* "Please analyse A only", "look at the dog only", "it's only Moss I want checked": the sentence, and the name. */
static size_t find_subject(const struct story *st, struct span *name) {
  enum { FAR = 7 };
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t verb = 0; verb < t->count; verb++) {
      if (!says_a(t, verb, CLASS_LOOKING_INTO)) continue;
      size_t from = verb, to = verb, found = t->count;
      bool only = false;
      while (from > 0 && from + FAR > verb && t->item[from - 1].kind == TOKEN_WORD) from--;
      while (to < t->count && to < verb + FAR && t->item[to].kind == TOKEN_WORD) to++;
      for (size_t k = from; k < to; k++) {
        only = only || says(t, k, "only just alone");
        if (k > from && k != verb && is_name(t, k)) found = found == t->count ? k : SIZE_MAX;
      }
      if (!only || found >= t->count) continue;
      *name = t->item[found].word;
      return i;
    }
  }
  return st->count;
}

static bool names(const struct tokens *t, size_t at, struct span name) {
  enum species own, other;
  if (!is_word(t, at)) return false;
  if (span_eq_fold(t->item[at].word, name)) return true;
  return is_animal_word(name, &own) && is_animal(t, at, &other) && own == other;
}

/* ---- a pot of which each takes its part ---- */

/* "A (25 kg) takes two thirds", "Mia 35 %": the part of the name at 'at'; 0. What stands behind another name is its own. */
static double part_taken(const struct tokens *t, size_t at) {
  enum { FAR = 9 };
  for (size_t k = at + 1; k < t->count && k < at + FAR; k++) {
    double part = 0, kg;
    size_t weight = post_weight_at(t, k, &kg), from = k;
    if (weight > 0) {
      k += weight - 1;
      continue;
    }
    if (is_mark(t, k, '(') || is_mark(t, k, ')')) continue;
    if (t->item[k].kind == TOKEN_MARK || is_name(t, k)) return 0;
    while (says(t, from, "takes gets has eats receives take get the about only")) from++;
    if (says(t, from, "half")) return 0.5;
    if (post_part_at(t, from, &part) > 0) return part;
    if (is_number(t, from) && is_mark(t, from + 1, '%')) return t->item[from].value / 100;
  }
  return 0;
}

/* "Pip (10 kg)", "Mia, 10 kg": what the name weighs; 0. */
static double weight_of(const struct story *st, struct span name) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k < t->count; k++) {
      double kg;
      size_t at = k + 1;
      if (!names(t, k, name)) continue;
      while (is_mark(t, at, '(') || is_mark(t, at, ',') || says(t, at, "is weighs at the a dog cat")) at++;
      if (post_weight_at(t, at, &kg) > 0) return kg;
    }
  }
  return 0;
}

/* "..., consumed in 14 days", "lasts 14 days" */
static double days_told(const struct tokens *t) {
  for (size_t k = 0; k + 1 < t->count; k++) {
    struct quantity q = quantity_at(t, k);
    size_t unit = k + q.tokens;
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 2)) continue;
    if (says(t, unit, "days")) return q.low;
    if (says(t, unit, "weeks")) return 7 * q.low;
  }
  return 0;
}

/* What is told of the pot: foods, and none of the animals. */
static bool is_of_pot(struct story *st, size_t i, struct span name) {
  const struct tokens *t = &st->s[i].t;
  if (!post_any_amount(t, 0) || !post_names_food(st->r, t, 0, t->count)) return false;
  for (size_t k = 0; k < t->count; k++)
    if (names(t, k, name) || phrase_of(t, k, CLASS_BESIDE_THE_BATCH) > 0 || phrase_of(t, k, CLASS_SERVED_BESIDE) > 0)
      return false;
  return true;
}

static void part_of_pot(struct story *st, struct span name) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k < t->count; k++) {
      double kg = weight_of(st, name), part = names(t, k, name) ? part_taken(t, k) : 0, days = days_told(t);
      if (!(part > 0 && part < 1)) continue;
      struct buf b;
      for (size_t m = 0; m < st->count; m++) {
        const struct tokens *pot = &st->s[m].t;
        if (m == i || pot->count < 2 || !is_of_pot(st, m, name)) continue;
        buf_init(&b, st->r->arena, 4 * st->s[m].text.n + 200);
        size_t head = 0;
        while (head < pot->count && head < 5 && !is_mark(pot, head, ':')) head++;
        head = is_mark(pot, head, ':') && !post_names_food(st->r, pot, 0, head) ? head + 1 : 0;
        if (refer_scaled(&b, pot, head, pot->count, part) > 0) refer_write(st, m, buf_text(&b));
      }
      buf_init(&b, st->r->arena, 120);
      if (kg > 0) {
        enum species s = SPECIES_DOG;
        bool cat = false;
        for (size_t m = 0; m < t->count; m++) cat = cat || (is_animal(t, m, &s) && s == SPECIES_CAT);
        buf_addf(&b, "%s ", cat ? "Cat" : "Dog");
        num_sig(&b, kg, 5);
        buf_addf(&b, " kg%c", 0x1F);
      }
      if (days > 0) {
        buf_adds(&b, "Makes ");
        num_sig(&b, days, 4);
        buf_adds(&b, " days");
      }
      refer_write(st, i, buf_text(&b));
      return;
    }
  }
}

/* "A gets 5 g of oil a day, B none": the clause of another one that gets none. */
static void none_for_others(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 2 < t->count; k++) {
    size_t name = says(t, k + 1, "and but the") ? k + 2 : k + 1;
    if (!is_mark(t, k, ',') || !is_name(t, name)) continue;
    size_t none = says(t, name + 1, "gets has takes") ? name + 2 : name + 1;
    if (!says(t, none, "none nothing") || none + 1 < t->count) continue;
    refer_between(st, i, k, t->count, "");
    return;
  }
}

/* ---- a list each ---- */

/* "For the cat:", "The cat's bowl:", "Cat -": whose list begins here; behind its mark, 0 none. */
static size_t list_of(const struct tokens *t, size_t *name) {
  size_t at = says(t, 0, "for") ? 1 : 0;
  while (says(t, at, "the my our")) at++;
  if (!is_name(t, at)) return 0;
  *name = at++;
  while (at < 6 && (says(t, at, "gets has eats bowl food day list meal") || (at < t->count && says(t, at, "s")))) at++;
  return is_mark(t, at, ':') || is_mark(t, at, '-') || (says(t, at - 1, "gets has eats") && at > *name + 1) ? at + 1 : 0;
}

/* "a fifth of the cat's chicken" from that list. */
static bool part_of_others(struct story *st, size_t list, size_t from) {
  const struct tokens *l = &st->s[list].t;
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k + 3 < t->count && i != list; k++) {
      double part;
      size_t used = says(t, k, "half") ? 1 : post_part_at(t, k, &part), of = k + used, owner;
      enum species s;
      if (says(t, k, "half")) part = 0.5;
      if (used == 0 || !says(t, of, "of")) continue;
      owner = says(t, of + 1, "the his her my") ? of + 2 : of + 1;
      if (owner >= t->count || !is_word(t, owner)) continue;
      struct span word = t->item[owner].word;
      bool possessive = word.n > 2 && word.p[word.n - 1] == 's' && word.p[word.n - 2] == '\'';
      if (!possessive && !is_animal(t, owner, &s)) continue;
      size_t food = owner + 1, end;
      while (is_mark(t, food, '\'') || says(t, food, "s")) food++;
      end = post_food_end(st->r, t, food);
      if (end == food) continue;
      for (size_t m = from; m < l->count; m++) {
        double grams;
        size_t mass = refer_grams(l, m, &grams), name = m + mass, last;
        if (mass == 0) continue;
        if (says(l, name, "of")) name++;
        last = post_food_end(st->r, l, name);
        if (last == name || !refer_same_food(tokens_span(t, food, end - food), tokens_span(l, name, last - name))) continue;
        struct buf b;
        buf_init(&b, st->r->arena, 200);
        num_sig(&b, grams * part, 4);
        buf_addf(&b, " g %.*s", SPAN_ARG(tokens_span(l, name, last - name)));
        refer_between(st, i, 0, end, buf_text(&b));
        refer_beside(st, i, arena_span(st->r->keep, tokens_span(l, name, last - name)),
                     "a part of another animal's food, as the post tells it");
        return true;
      }
    }
  }
  return false;
}

static void lists_of_others(struct story *st, struct span subject) {
  size_t own = 0, name = 0;
  for (size_t i = 0; i < st->count; i++) own += list_of(&st->s[i].t, &name) > 0 && names(&st->s[i].t, name, subject);
  for (size_t i = 0; i < st->count && own > 0; i++) {
    const struct tokens *t = &st->s[i].t;
    size_t from = list_of(t, &name);
    if (from == 0 || names(t, name, subject)) continue;
    bool whole = post_any_amount(t, from); /* its list stands in this sentence */
    for (size_t k = i; k < st->count; k++) {
      const struct tokens *said = &st->s[k].t;
      if (k > i && (whole || said->count == 0 || list_of(said, &name) > 0)) break;
      if (said->count == 0) continue;
      part_of_others(st, k, k == i ? from : 0);
      if (!post_any_amount(said, 0)) continue;
      refer_tell(st, k, "about an animal that is not asked about");
      refer_write(st, k, "");
    }
  }
}

void refer_eaters(struct story *st) {
  struct span name = {"", 0};
  enum species s;
  size_t asked = find_subject(st, &name);
  for (size_t i = 0; i < st->count; i++)
    if (st->s[i].t.count > 4) none_for_others(st, i);
  if (asked == st->count) return;
  name = arena_span(st->r->keep, name);
  part_of_pot(st, name);
  lists_of_others(st, name);
  if (is_animal_word(name, &s) && !post_any_amount(&st->s[asked].t, 0)) { /* "look at the dog only": whose weight counts */
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    buf_addf(&b, "I'm asking about the %.*s", SPAN_ARG(name));
    refer_write(st, asked, buf_text(&b));
  }
}
