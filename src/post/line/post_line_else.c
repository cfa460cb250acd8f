/* What the words of a food may mean where the strict reader does not take them as they stand: another language, a mineral, a
 * kind and then which one, an organ of the meat, a whole bird. */
#include "base/num.h"
#include "foods/search_words.h"
#include "post/line/post_line.h"

/* "carcasa de pollo", "arroz blanco": another language, though some of its words stand in names of the tables. */
static bool is_foreign(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  size_t n = 0;
  for (size_t i = 0; i < t.count; i++) {
    if (t.item[i].kind != TOKEN_WORD) continue;
    n++;
    if (says_a(&t, i, CLASS_FOREIGN_FOOD_WORD)) continue;
    struct span folded = search_fold(&r->lib->image, t.item[i].word, r->arena);
    if (search_token(&r->lib->image, folded)) return false;
  }
  return n > 0;
}

/* "wombat, ground": how it was made names no food. */
static bool says_only_minced(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  for (size_t i = 0; i < t.count; i++)
    if (!says_a(&t, i, CLASS_MINCED)) return false;
  return true;
}

/* "arroz (cooked white rice)", "frango / chicken breast": one language explains the other. */
static bool try_translation(struct post_reader *r, const struct wanted *w, struct span words) {
  for (size_t i = 1; i + 1 < words.n; i++) {
    if (words.p[i] != ',' && words.p[i] != '/') continue;
    struct span first = post_trimmed(span_cut(words, 0, i)), second = post_trimmed(span_cut(words, i + 1, words.n));
    enum diag_code why;
    if (says_only_minced(r, first) || says_only_minced(r, second)) continue;
    if (is_foreign(r, first) && post_try_words(r, w, second, &why)) return true;
    if (is_foreign(r, second) && post_try_words(r, w, first, &why)) return true;
  }
  return false;
}

/* "zinc 15 mg": labels state the mineral itself; which salt holds it makes no difference to the sum. */
static bool try_mineral(struct post_reader *r, const struct wanted *w, struct span words) {
  if (strcmp(w->amount.unit, "mg") != 0 && strcmp(w->amount.unit, "mcg") != 0) return false;
  struct span bare = post_trimmed(post_without_capsule(r, words));
  const char *code = means_as(bare, CLASS_MINERAL);
  if (!code) return false;
  struct tokens name = post_tokens(r, bare);
  struct buf b;
  buf_init(&b, r->arena, 300);
  amount_write(&b, &w->amount, w->times);
  buf_addf(&b, " %.*s [%s]", SPAN_ARG(name.item[0].word), code);
  if (w->often[0]) buf_addf(&b, ", %s", w->often);
  const char *assumed;
  if (!strict_takes(r, buf_text(&b), &assumed, NULL)) return false;
  post_add(r, ITEM_FOOD, buf_text(&b), "taken as the mineral itself, as labels state it; the form is not said");
  return true;
}

/* "fish, hake": the kind, and then which one. */
static bool try_without_kind(struct post_reader *r, const struct wanted *w, struct span words) {
  const char *comma = words.n == 0 ? NULL : memchr(words.p, ',', words.n);
  enum diag_code why;
  if (!comma) return false;
  struct span kind = post_trimmed(span_cut(words, 0, (size_t)(comma - words.p)));
  if (!span_is_fold(kind, "white fish") && !span_is_fold(kind, "oily fish") && !is_a(kind, CLASS_KIND_BEFORE_COMMA))
    return false;
  struct span which = post_trimmed(span_cut(words, (size_t)(comma - words.p) + 1, words.n));
  bool oil =
      word_in(kind, "oil oils Oil Oils OIL") || (kind.n > 4 && span_is_fold(span_cut(kind, kind.n - 4, kind.n), " oil"));
  if (oil && !span_holds_fold(which, SPAN_LIT("oil"))) { /* "oil, olive", "fish oil, krill" */
    struct buf b;
    buf_init(&b, r->arena, which.n + 8);
    buf_addf(&b, "%.*s oil", SPAN_ARG(which));
    which = buf_span(&b);
  }
  return post_try_words(r, w, which, &why);
}

/* The animal of the first flesh that was counted; "" none, or several. */
const char *post_animal_of_meat(struct post_reader *r) {
  struct span found = {"", 0};
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD) continue;
    struct tokens t = post_tokens(r, r->item[i].words);
    for (size_t k = 0; k < t.count; k++)
      if (is_word(&t, k) && token_is_a(&t.item[k], CLASS_ANIMAL_OF_FLESH)) {
        if (found.n > 0 && !span_eq_fold(found, t.item[k].word)) return "";
        found = t.item[k].word;
      }
  }
  return found.n > 0 ? arena_text(r->arena, found) : "";
}

/* Of several animals the one of which most was counted; "" none. */
static const char *animal_of_most(struct post_reader *r) {
  double most = 0;
  struct span found = {"", 0};
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD || !(r->item[i].grams >= most) || post_is_bony_piece(r->item[i].words)) continue;
    struct tokens t = post_tokens(r, r->item[i].words);
    for (size_t k = 0; k < t.count; k++)
      if (is_word(&t, k) && token_is_a(&t.item[k], CLASS_ANIMAL_OF_FLESH)) {
        bool even = r->item[i].grams == most && found.n > 0 && !span_eq_fold(found, t.item[k].word);
        found = even ? (struct span){"", 0} : t.item[k].word;
        most = r->item[i].grams;
      }
  }
  return found.n > 0 ? arena_text(r->arena, found) : "";
}

/* "80 % chicken, 10 % heart", "180 g chicken thigh, 25 g hearts": an organ without an animal is that of the meat, where
 * there is one. */
static bool try_organ_of_meat(struct post_reader *r, const struct wanted *w, struct span words) {
  struct tokens t = post_tokens(r, words);
  size_t organ = t.count;
  for (size_t i = 0; i < t.count; i++) {
    if (!is_word(&t, i) || says(&t, i, "raw fresh cooked minced ground")) continue;
    if (organ < t.count || !says_a(&t, i, CLASS_ORGAN_OF_MEAT)) return false;
    organ = i;
  }
  const char *animal = organ < t.count ? post_animal_of_meat(r) : "";
  bool several = organ < t.count && !animal[0];
  if (several) animal = animal_of_most(r);
  if (!animal[0]) return false;
  struct buf b, note;
  enum diag_code why;
  buf_init(&b, r->arena, words.n + 40);
  buf_addf(&b, "%s %.*s", animal, SPAN_ARG(words));
  size_t before = r->count;
  if (!post_try_words(r, w, buf_span(&b), &why)) return false;
  buf_init(&note, r->arena, 120);
  buf_addf(&note, "taken from %s, as %s; the post does not say which animal", animal,
           several ? "most of the meat" : "the meat");
  for (size_t i = before; i < r->count; i++) post_doubt(r, i, buf_text(&note));
  post_ask(r, several ? 3 : 2, "Which animal is the '%.*s' from? It was taken from %s, as %s is.",
           SPAN_ARG(post_quote(r, words)), animal, several ? "most of the meat" : "the meat");
  return true;
}

/* "chicken mince with bone", of which no table has the bone: the whole bird. */
static bool try_whole_bird(struct post_reader *r, const struct wanted *w, struct span words) {
  struct tokens t = post_tokens(r, words);
  const char *animal = "";
  struct wanted with = *w;
  bool minced = false, bone = false;
  for (size_t i = 0; i < t.count; i++) {
    double per_28;
    bool joined;
    size_t often = frequency_at(&t, i).tokens; /* "chicken mince with bone on Mondays", "... a week" */
    if (often == 0) often = frequency_period_at(&t, i, &per_28, &joined);
    if (often > 0) {
      with.often = arena_text(r->arena, tokens_span(&t, i, often));
      i += often - 1;
      continue;
    }
    if (!is_word(&t, i)) continue;
    if (token_is_a(&t.item[i], CLASS_ANIMAL_OF_FLESH) && !animal[0])
      animal = arena_text(r->arena, t.item[i].word);
    else if (says(&t, i, "mince minced ground"))
      minced = true;
    else if (says(&t, i, "bone bones bone-in"))
      bone = true;
    else if (!says_a(&t, i, CLASS_WITHIN_WHOLE_BIRD) && !token_is_a(&t.item[i], CLASS_CHATTER))
      return false;
  }
  if (!animal[0] || !minced || !bone) return false;
  struct buf b;
  enum diag_code why;
  buf_init(&b, r->arena, 80);
  buf_addf(&b, "whole %s, with bone", animal);
  size_t before = r->count;
  if (!post_try_words(r, &with, buf_span(&b), &why)) return false;
  for (size_t i = before; i < r->count; i++)
    post_doubt(r, i, "minced with its bone: counted as the whole animal; its label tells how much bone it holds");
  post_ask(r, 3, "How much bone does the label of the '%.*s' state? The whole animal was counted.",
           SPAN_ARG(post_quote(r, words)));
  return true;
}

/* "duck feet": the nearest record, where no table has these; it is said. */
static bool try_stand_in(struct post_reader *r, const struct wanted *w, struct span words) {
  struct tokens t = post_tokens(r, words);
  for (size_t i = 0; i < t.count; i++) {
    const char *code;
    size_t used = meaning_at(&t, i, CLASS_STANDS_IN, &code);
    if (used == 0) continue;
    struct buf b, note;
    enum diag_code why;
    buf_init(&b, r->arena, words.n + 80);
    buf_addf(&b, "%.*s [%s]", SPAN_ARG(words), code);
    size_t before = r->count;
    if (!post_try_words(r, w, buf_span(&b), &why)) return false;
    buf_init(&note, r->arena, 300);
    buf_addf(&note, "no table has %.*s; counted as %s", SPAN_ARG(tokens_span(&t, i, used)),
             library_name(r->lib, r->taken_food));
    for (size_t k = before; k < r->count; k++) post_doubt(r, k, buf_text(&note));
    return true;
  }
  return false;
}

bool post_leave_product(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  bool product = false;
  for (size_t i = from; i < to && !product; i++) product = phrase_of(t, i, CLASS_PRODUCT) > 0;
  if (!product || holds_a(t, from, to, CLASS_DENYING) || holds_a(t, from, to, CLASS_NOT_FED_HERE)) return false;
  while (from + 1 < to && says_a(t, from, CLASS_ARTICLE)) from++;
  struct span said = tokens_span(t, from, to - from);
  post_leave(r, said, "what is in it stands on its label alone", true);
  post_ask(r, 2.5,
           "What does the label of '%.*s' state for each nutrient, per tablet, scoop or gram, and how much of it is fed?",
           SPAN_ARG(post_quote(r, said)));
  return true;
}

/* "A tablespoon of pumpkin" is the puree of a tin; cubes are weighed, or said to be cubes. */
static bool try_by_spoon(struct post_reader *r, const struct wanted *w, struct span words) {
  enum diag_code why;
  struct wanted with = *w;
  struct tokens t = post_tokens(r, words);
  for (size_t i = 1; i < t.count && !w->often[0]; i++) { /* "pumpkin every day" */
    struct frequency f = frequency_at(&t, i);
    if (f.tokens == 0 || f.refuse || i + f.tokens < t.count) continue;
    with.often = arena_text(r->arena, tokens_span(&t, i, f.tokens));
    words = span_cut(words, 0, (size_t)(token_begin(&t, i) - words.p));
    break;
  }
  const char *form = w->amount.is_volume && !w->cooked ? means_as(post_trimmed(words), CLASS_BY_SPOON) : NULL;
  return form && post_try_words(r, &with, span_of(form), &why);
}

bool post_try_line(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why) {
  if (try_without_kind(r, w, words) || try_by_spoon(r, w, words)) return true;
  return post_try_words(r, w, words, why) || try_stand_in(r, w, words) || try_whole_bird(r, w, words) ||
         try_organ_of_meat(r, w, words) || try_mineral(r, w, words) || try_translation(r, w, words);
}
