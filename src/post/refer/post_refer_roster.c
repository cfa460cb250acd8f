/* Several animals and one that is asked about: a line for each of them ("Rex 34 kg: 500 g tripe", "PIP (6 kg) is the one I
 * ask for: 120 g turkey"), and one pot in as many equal bowls as there are eaters. */
#include "base/num.h"
#include "post/refer/post_refer.h"

enum { ROSTER_MOST = 8, NAME_LEAST = 2 };

/* ---- a line for each ---- */

struct roster_line {
  size_t sentence, colon; /* where its food begins */
  struct span name, weight;
  bool asked;
};

static bool says_asked(const struct tokens *t, size_t from, size_t to) {
  for (size_t k = from; k < to; k++) {
    if (phrase_of(t, k, CLASS_ASKED_ABOUT) > 0) return true;
    if (says(t, k, "worry worried asking") || phrase_at(t, k, "this is about") > 0 || phrase_at(t, k, "the reason") > 0 ||
        phrase_at(t, k, "the one") > 0)
      return true;
  }
  return false;
}

/* "Fig (6 kg): ...", "MISSY (15.5kg) is the one I'm asking for: ...": a name, a weight, a colon, and what is eaten. */
static bool roster_line_at(struct story *st, size_t i, struct roster_line *l) {
  enum { FAR = 18 };
  const struct tokens *t = &st->s[i].t;
  size_t at = 0, colon;
  double kg;
  while (at < t->count && t->item[at].kind == TOKEN_MARK && !is_mark(t, at, '(')) at++;
  if (!is_word(t, at) || t->item[at].at.n < NAME_LEAST + 1 || t->item[at].at.p[0] < 'A' || t->item[at].at.p[0] > 'Z')
    return false;
  enum species s;
  bool weighed = is_mark(t, at + 1, '(') && post_weight_at(t, at + 2, &kg) > 0; /* "Plum (4 kg): ..." */
  if ((post_mention_at(st->r, t, at) > 0 && !weighed) || is_animal_word(t->item[at].word, &s) ||
      token_is_a(&t->item[at], CLASS_MEAL))
    return false;
  for (colon = at + 1; colon < t->count && colon < at + FAR && !is_mark(t, colon, ':'); colon++)
    if (post_mention_at(st->r, t, colon) > 0) return false;
  if (!is_mark(t, colon, ':') || colon + 1 >= t->count) return false;
  *l = (struct roster_line){.sentence = i, .colon = colon, .name = t->item[at].at};
  for (size_t k = at + 1; k < colon && l->weight.n == 0; k++) {
    size_t used = post_weight_at(t, k, &kg);
    if (used > 0) l->weight = tokens_span(t, k, used);
  }
  l->asked = says_asked(t, at + 1, colon);
  return l->weight.n > 0;
}

static bool same_name(struct span a, struct span b) { return span_eq_fold(a, b); }

/* Which of them is asked about: its line says so, or another sentence does; 'count' none or several. */
static size_t asked_of(struct story *st, const struct roster_line *l, size_t count) {
  size_t found = count;
  for (size_t k = 0; k < count; k++) {
    if (!l[k].asked) continue;
    if (found < count) return count;
    found = k;
  }
  for (size_t i = 0; i < st->count && found == count; i++) {
    const struct tokens *t = &st->s[i].t;
    bool roster = false;
    for (size_t k = 0; k < count; k++) roster = roster || l[k].sentence == i;
    if (roster || !says_asked(t, 0, t->count)) continue;
    for (size_t k = 0; k < count; k++)
      for (size_t m = 0; m < t->count; m++)
        if (t->item[m].kind == TOKEN_WORD && same_name(t->item[m].at, l[k].name)) found = k;
  }
  return found;
}

/* "Three dogs in the house, feeding each differently": how many they are changes nothing of the one's bowl. */
static void forget_how_many(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k + 1 < t->count; k++) {
      struct quantity q = quantity_at(t, k);
      enum species s;
      size_t animal = k + q.tokens;
      if (q.fault != QUANTITY_FINE || !(q.low >= 2 && q.low <= 12)) continue;
      if (!is_word(t, animal) || !is_animal_word(t->item[animal].word, &s)) animal++;
      if (!is_word(t, animal) || !is_animal_word(t->item[animal].word, &s)) continue;
      if (post_names_food(st->r, t, 0, t->count)) continue;
      refer_write(st, i, s == SPECIES_CAT ? "A cat" : "A dog");
      break;
    }
  }
}

static void roster_of_lines(struct story *st) {
  struct roster_line l[ROSTER_MOST];
  size_t count = 0;
  for (size_t i = 0; i < st->count && count < ROSTER_MOST; i++) {
    bool begins = i == 0 || st->s[i - 1].line != st->s[i].line;
    if (begins && st->s[i].t.count > 3 && roster_line_at(st, i, &l[count])) count++;
  }
  size_t asked = count >= 2 ? asked_of(st, l, count) : count;
  if (count < 2 || asked == count) return;
  for (size_t k = 0; k < count; k++) {
    struct buf why;
    buf_init(&why, st->r->keep, l[k].name.n + 20);
    buf_addf(&why, "what %.*s eats", SPAN_ARG(l[k].name));
    const char *eats = buf_text(&why);
    int line = st->s[l[k].sentence].line;
    for (size_t i = l[k].sentence; i < st->count && st->s[i].line == line && k != asked; i++) {
      if (st->s[i].t.count == 0) continue;
      refer_tell(st, i, eats);
      refer_write(st, i, "");
    }
    if (k != asked) continue;
    const struct tokens *t = &st->s[l[k].sentence].t;
    struct buf b;
    buf_init(&b, st->r->arena, st->s[l[k].sentence].text.n + 80);
    buf_addf(&b, "%.*s weighs %.*s%c%.*s", SPAN_ARG(l[k].name), SPAN_ARG(l[k].weight), 0x1F,
             SPAN_ARG(tokens_span(t, l[k].colon + 1, t->count - l[k].colon - 1)));
    refer_write(st, l[k].sentence, buf_text(&b));
  }
  forget_how_many(st);
}

/* ---- as many bowls as eaters ---- */

/* "five of our huskies", "three beagles", "the four of them", "a pair of Shelties": is it said that they are so many? */
static bool told_so_many(struct story *st, double many) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k + 1 < t->count; k++) {
      struct quantity q = quantity_at(t, k);
      size_t end = k + q.tokens;
      bool pair = says(t, k, "pair") && many == 2;
      if (pair) end = k + 1;
      if (!pair && (q.fault != QUANTITY_FINE || q.low != many || q.high != many)) continue;
      if (says(t, end, "of") && says(t, end + 1, "them us our my these those the")) return true;
      for (size_t m = end; m < end + 4 && is_word(t, m); m++) {
        enum species s;
        if (is_animal_word(t->item[m].word, &s)) return true;
      }
    }
  }
  return false;
}

static enum species species_told(const struct story *st) {
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      enum species s;
      if (is_word(&st->s[i].t, k) && is_animal_word(st->s[i].t.item[k].word, &s)) return s;
    }
  return SPECIES_DOG;
}

/* "in five equal bowls", "and divide it into three equal bowls", of five and three eaters. */
static void equal_bowls(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 1; k + 2 < t->count; k++) {
      if (!says(t, k, "in into between among")) continue;
      struct quantity q = quantity_at(t, k + 1);
      size_t equal = k + 1 + q.tokens;
      if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 2 && q.low <= 8)) continue;
      if (!says(t, equal, "equal even identical same-sized similar") ||
          !says(t, equal + 1, "bowls dishes portions shares servings parts plates helpings"))
        continue;
      if (!told_so_many(st, q.low)) return;
      size_t from = k;
      while (from > 0 && says(t, from - 1,
                              "it them all everything that and i we divide split portion share dished put split divided "
                              "portioned shared goes"))
        from--;
      while (from > 0 && t->item[from - 1].kind == TOKEN_MARK) from--;
      struct buf b;
      buf_init(&b, st->r->arena, 120);
      buf_addf(&b, "%cIt is split evenly between %d %s", 0x1F, (int)q.low,
               species_told(st) == SPECIES_CAT ? "cats" : "dogs");
      refer_between(st, i, from, equal + 2, buf_text(&b));
      return;
    }
  }
}

void refer_roster(struct story *st) {
  bool colon = false, equal = false;
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      colon = colon || is_mark(&st->s[i].t, k, ':');
      equal = equal || says(&st->s[i].t, k, "equal even identical");
    }
  if (colon) roster_of_lines(st);
  if (equal) equal_bowls(st);
}
