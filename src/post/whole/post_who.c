/* Of several animals: what the others than the one that is asked about eat, which is left out, and one that eats as another
 * does. */
#include "post/whole/post_whole.h"

/* ---- whose food it is ---- */

struct eating {
  size_t token;
  struct span name;
};

/* "Jet (13 kg) and Otto (7 kg) both eat", "Jet and Otto eat": all of them, and not the one that stands last. */
static bool eat_together(const struct tokens *t, size_t name, size_t verb) {
  enum { FAR = 9 };
  if (verb > 0 && says(t, verb - 1, "both all together")) return true;
  if (!says(t, verb, "eat get have take share")) return false;
  for (size_t i = name; i-- > 0 && i + FAR > name && !is_mark(t, i, '.') && !is_mark(t, i, ';') && !is_mark(t, i, ':');) {
    if (says_a(t, i, CLASS_EATER_VERB)) return false;
    if (says(t, i, "and n") || is_mark(t, i, '&')) return true;
  }
  return false;
}

/* "Max gets two thirds: 600 g mince, ...", "half of it": of what is told there for all. */
static bool eats_part(const struct tokens *t, size_t at) {
  double part;
  size_t used = post_part_at(t, at, &part), behind = at + used;
  return used > 0 && (is_mark(t, behind, ':') || (says(t, behind, "of") && says(t, behind + 1, "it this that these them")));
}

/* Names with a verb of eating, or with a colon, in the order of the sentence; how many. */
static size_t eaters_of(struct post_reader *r, const struct tokens *t, struct eating *out, size_t most) {
  enum { ASIDE = 9 };
  size_t count = 0;
  for (size_t i = 0; i < t->count && count < most; i++) {
    size_t group = phrase_of(t, i, CLASS_OTHER_ANIMALS); /* "the boys have an egg on top" */
    if (group > 0 && says_a(t, i + group, CLASS_EATER_VERB)) {
      out[count++] = (struct eating){i, tokens_span(t, i, group)};
      i += group;
      continue;
    }
    size_t used;
    struct span name = post_one_named(r, t, i, &used);
    if (name.n == 0 || (used == 1 && name.n != t->item[i].at.n)) continue; /* "Ted's bowl" */
    size_t at = i + used;
    bool verb_goes = false;
    if (is_mark(t, at, '(') || is_mark(t, at, ',')) { /* "Tess (9 kg) has", "Bruno, the dog, 21 kg, has", "Rufus, 30 kg:" */
      size_t end = at + 1;
      while (end < t->count && end < at + ASIDE && !says_a(t, end, CLASS_EATER_VERB) && !is_mark(t, end, ':')) end++;
      at = end;
    }
    if (is_mark(t, i + 1, ',') && says(t, i + 2, "same")) at = i + 1, verb_goes = true; /* "Tam, same as above but ..." */
    while (says(t, at, "always only just then also usually now")) at++;
    bool verb =
        verb_goes || says_a(t, at, CLASS_EATER_VERB) || (i == 0 && is_mark(t, at, ':')) || (i == 0 && is_mark(t, at, '-'));
    struct post_amount a = post_amount_at(t, i + used); /* "Bob 300 g beef, Jim 200 g beef" */
    verb = verb || (a.is_mass && strcmp(a.unit, "g") == 0 && says_a(t, 0, CLASS_CHATTER));
    if (verb && (eat_together(t, i, at) || eats_part(t, at + 1))) continue;
    if (verb && at < i + ASIDE + 3) out[count++] = (struct eating){i, name};
  }
  return count;
}

static bool is_known_name(const struct post_reader *r, struct span name) {
  if (span_starts_fold(name, "the ") || span_holds_fold(name, SPAN_LIT(" one"))) return true;
  for (size_t i = 0; i < r->named_count; i++)
    if (post_same_name(r->named[i].name, name)) return true;
  for (size_t i = 0; i < r->part_count; i++)
    if (r->part[i].name.n > 0 && post_same_name(r->part[i].name, name)) return true;
  return post_same_name(r->asked_about, name);
}

/* Where the amount of an item stands in its sentence; t->count nowhere. */
static size_t place_of(const struct post_reader *r, const struct heard *h, const struct tokens *t, size_t item) {
  for (size_t c = h->claim_from; c < h->claim_to && c < r->claim_count; c++) {
    const struct claim *line = &r->claim[c];
    if (line->kind != CLAIM_AMOUNT || item < line->first || item >= line->last) continue;
    for (size_t i = 0; i < t->count; i++)
      if (t->item[i].at.p >= line->text.p && t->item[i].at.p < line->text.p + line->text.n) return i;
  }
  return t->count;
}

static void leave_to(struct post_reader *r, struct item *item, struct span owner) {
  struct buf why;
  buf_init(&why, r->keep, owner.n + 40);
  buf_addf(&why, "what %.*s eats", SPAN_ARG(owner));
  r->line = item->line;
  post_note(r, span_of(item->text), buf_text(&why));
  item->kind = ITEM_GONE;
}

/* "She also gets 50 g of peas": of the one that the sentence before spoke of. */
static bool goes_on(const struct tokens *t) {
  size_t at = says(t, 0, "and then but also") ? 1 : 0;
  return says(t, at, "she he she's he's");
}

/* ---- a part of another one's food ---- */

/* The name before 'at' that eats, or that a colon stands behind. */
static struct span eater_named_before(struct post_reader *r, const struct tokens *t, size_t at) {
  struct eating e[8];
  struct span name = {"", 0};
  for (size_t i = 0, n = eaters_of(r, t, e, COUNT_OF(e)); i < n; i++)
    if (e[i].token < at) name = e[i].name;
  return name;
}

/* "half", "a third", "twice": how many tokens; 0. */
static size_t times_at(const struct tokens *t, size_t at, double *times) {
  size_t used = post_part_at(t, at, times);
  if (used == 0 && says(t, at, "double twice")) *times = 2, used = 1;
  return used;
}

/* "the rice", "of the carrots": the food behind a part; t->count none. */
static size_t food_behind(struct post_reader *r, const struct tokens *t, size_t at) {
  if (says(t, at, "of")) at++;
  if (!says(t, at, "the his her that")) return t->count;
  at++;
  return at < t->count && (post_mention_at(r, t, at) > 0 || post_names_food(r, t, at, at + 1)) ? at : t->count;
}

/* "Dot, 10 kg: same but a third of it all", "Dot gets the same, but half" */
void post_hear_same(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    if (!says(t, i, "same") || says_a(t, i + 1, CLASS_THE_SAME_THING)) continue;
    struct span name = eater_named_before(r, t, i);
    double part = 1;
    size_t end = i + 1;
    for (size_t k = i + 1, used; k < t->count && k < i + 7; k++) {
      if (post_amount_at(t, k).is_mass) break; /* "the same but 50 g of peas" */
      used = times_at(t, k, &part);
      if (used > 0 && food_behind(r, t, k + used) < t->count) used = 0, part = 1; /* "half the rice" */
      if (used == 0) continue;
      end = k + used;
      break;
    }
    if (name.n == 0) continue;
    while (end < t->count && t->item[end].kind == TOKEN_WORD && !post_mention_at(r, t, end)) end++;
    while (end > i + 1 && says(t, end - 1, "but plus with and instead only")) end--;
    r->relative = (struct part_of){arena_span(r->keep, name), part};
    r->relative_sentence = r->heard_count;
    size_t begin = i > 0 && says(t, i - 1, "the") ? i - 1 : i;
    post_claim(r, tokens_span(t, begin, end - begin), CLAIM_TOLD, 0, 0);
    for (size_t k = end; k + 2 < t->count; k++) /* "chicken instead of beef": of the lines above */
      if (says(t, k, "instead") && says_a(t, k - 1, CLASS_ANIMAL_OF_FLESH) && says_a(t, k + 2, CLASS_ANIMAL_OF_FLESH))
        post_claim(r, tokens_span(t, k - 1, 4), CLAIM_TOLD, 0, 0);
    take(t, i, end - i);
    return;
  }
}

/* "same as above but chicken instead of beef": its line is of the other animal. */
static void change_animals(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    size_t of = says(t, i, "instead") && says(t, i + 1, "of") ? i + 2 : says(t, i, "not for") ? i + 1 : 0;
    if (says(t, of, "the")) of++;
    if (of == 0 || !says_a(t, i - 1, CLASS_ANIMAL_OF_FLESH) || !says_a(t, of, CLASS_ANIMAL_OF_FLESH)) continue;
    for (size_t k = 0; k < r->count; k++) {
      struct item *item = &r->item[k];
      struct tokens own = post_tokens(r, span_of(item->text));
      for (size_t w = 0; w < own.count && item->kind == ITEM_FOOD && item->sentence < r->relative_sentence; w++) {
        if (!is_word(&own, w) || !span_eq_fold(own.item[w].word, t->item[of].word)) continue;
        struct buf b;
        const char *assumed;
        buf_init(&b, r->keep, strlen(item->text) + 40);
        struct span before = {item->text, (size_t)(own.item[w].at.p - item->text)};
        buf_addf(&b, "%.*s%.*s%s", SPAN_ARG(before), SPAN_ARG(t->item[i - 1].word), own.item[w].at.p + own.item[w].at.n);
        if (!strict_takes(r, buf_text(&b), &assumed, NULL)) break;
        item->text = buf_text(&b);
        item->food = r->taken_food;
        item->words = span_of(arena_text(r->keep, r->taken_words));
        post_doubt(r, k, "another animal's, as the post says of this one");
        break;
      }
    }
  }
}

/* What the sentence that says "the same" changes of it: other animals, other amounts, and what is left out. */
static void change_relative(struct post_reader *r) {
  if (r->relative_sentence == 0 || r->relative_sentence > r->heard_count) return;
  struct tokens t = post_tokens(r, r->heard[r->relative_sentence - 1].text);
  change_animals(r, &t);
  for (size_t i = 0; i < t.count; i++) { /* "half the rice" */
    double times;
    size_t used = times_at(&t, i, &times), food = used > 0 ? food_behind(r, &t, i + used) : t.count;
    for (size_t k = 0; k < r->count && food < t.count; k++) {
      struct item *item = &r->item[k];
      if (item->kind != ITEM_FOOD || item->sentence >= r->relative_sentence ||
          !span_holds_fold(item->words, t.item[food].word))
        continue;
      struct tokens own = post_tokens(r, span_of(item->text));
      struct post_amount a = post_amount_at(&own, 0);
      if (a.tokens == 0 || a.tokens >= own.count) continue;
      struct buf b;
      buf_init(&b, r->keep, strlen(item->text) + 60);
      amount_write(&b, &a, times);
      buf_addf(&b, " %s", own.item[a.tokens].at.p);
      item->text = buf_text(&b);
      item->grams *= times;
    }
  }
  for (size_t i = 0; i < r->count; i++) {
    const struct item *now = &r->item[i];
    if (now->kind != ITEM_FOOD || now->sentence != r->relative_sentence) continue;
    r->item[i].own = true;
    struct tokens words = post_tokens(r, now->words);
    for (size_t k = 0; k < i && words.count > 0; k++) { /* "only 70 g of rice" is that of "cooked brown rice" */
      struct item *old = &r->item[k];
      struct span head = words.item[words.count - 1].word;
      if (old->kind != ITEM_FOOD || old->sentence >= now->sentence || !span_holds_fold(old->words, head)) continue;
      if (!post_restate(r, k, i)) continue;
      old->own = true;
      break;
    }
  }
  for (size_t i = 0; i + 1 < t.count; i++)
    for (size_t k = 0; k < r->count && says(&t, i, "no without minus"); k++)
      if (r->item[k].kind == ITEM_FOOD && r->item[k].sentence < r->relative_sentence && is_word(&t, i + 1) &&
          span_holds_fold(r->item[k].words, t.item[i + 1].word))
        leave_to(r, &r->item[k], SPAN_LIT("another one"));
}

/* "Is that enough for Dot?": of several that were weighed, the one that the last question names. */
static void find_in_question(struct post_reader *r) {
  for (size_t h = r->heard_count; h-- > 0 && r->asked_about.n == 0 && r->named_count > 1;) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    struct span found = {"", 0};
    if (t.count == 0 || !is_mark(&t, t.count - 1, '?')) continue;
    for (size_t i = 0; i < t.count; i++)
      for (size_t k = 0; k < r->named_count; k++) {
        struct span name = post_pet_name(r, &t, i);
        if (name.n == 0 || !post_same_name(name, r->named[k].name)) continue;
        if (found.n > 0 && !post_same_name(found, name)) return; /* of two of them */
        found = name;
      }
    if (found.n > 0) r->asked_about = arena_span(r->keep, found);
  }
}

/* The foods of one sentence, whose owner is 'owner' where none is named in it. */
static void leave_of_sentence(struct post_reader *r, size_t h, const struct tokens *t, const struct eating *e, size_t eaters,
                              struct span owner) {
  bool ours = false; /* beside the one that is asked about others are animals as well */
  for (size_t k = 0; k < eaters; k++) ours = ours || post_same_name(e[k].name, r->asked_about);
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    if (item->sentence != h + 1 || item->kind == ITEM_GONE) continue;
    size_t at = place_of(r, &r->heard[h], t, i);
    struct span mine = owner;
    for (size_t k = 0; k < eaters; k++)
      if (e[k].token < at && (ours || is_known_name(r, e[k].name))) mine = e[k].name;
    if (mine.n == 0) continue;
    if (post_same_name(mine, r->asked_about))
      item->own = true;
    else if (item->kind == ITEM_FOOD)
      leave_to(r, item, mine);
  }
}

void post_leave_others(struct post_reader *r) {
  struct span owner = {"", 0};
  int before = 0;
  find_in_question(r);
  bool pot = r->one_pot || r->makes_days > 0 || r->makes_meals > 0;
  r->derived = !pot && r->relative.name.n > 0 && r->asked_about.n > 0 && post_same_name(r->relative.name, r->asked_about);
  if (r->derived) change_relative(r);
  for (size_t h = 0; h < r->heard_count && r->asked_about.n > 0 && !r->derived; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    struct eating e[8];
    size_t eaters = eaters_of(r, &t, e, COUNT_OF(e));
    int line = r->heard[h].line;
    bool list = eaters == 0 && line == before + 1 && !holds_a(&t, 0, t.count, CLASS_OF_ALL_ANIMALS); /* below a heading */
    if (eaters == 0 && !list && !goes_on(&t)) owner = (struct span){"", 0};
    leave_of_sentence(r, h, &t, e, eaters, owner);
    if (eaters > 0) owner = is_known_name(r, e[eaters - 1].name) ? e[eaters - 1].name : (struct span){"", 0};
    before = line;
    arena_rewind(r->arena, r->begin);
  }
}
