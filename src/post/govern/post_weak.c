/* Names that were read by a weak match: a word of the owner's that is nowhere in the record's name, or one that was put
 * right from very few letters. The line is counted, says so, and is asked about. */
#include "foods/search_words.h"
#include "post/govern/post_govern.h"

/* Does one begin as the other does, as far as a slip of the pen or another number leaves them alike? */
static bool weak_alike(struct span a, struct span b) {
  enum { ENOUGH = 4 };
  size_t n = 0;
  while (n < a.n && n < b.n && a.p[n] == b.p[n]) n++;
  return n >= ENOUGH || (n == a.n && n == b.n);
}

static bool weak_holds(const struct search_words *w, struct span word) {
  for (size_t i = 0; i < w->count; i++)
    if (weak_alike(w->at[i].text, word)) return true;
  return false;
}

/* The words of a text as the search has them; 'typed' before synonyms are put in their place. */
static struct search_words weak_words(struct post_reader *r, struct span text, struct search_words *typed) {
  struct synonyms syn = search_synonyms(&r->lib->image);
  *typed = search_split(search_fold(&r->lib->image, text, r->arena));
  return search_canonical(&syn, typed);
}

/* Words that tell how the food was cut, cooked, bought or measured, and not which one it is. */
static bool weak_says_nothing(const struct tokens *t, size_t at) {
  const struct token *k = &t->item[at];
  return k->word.n < 3 || token_is_a(&t->item[at], CLASS_CHATTER) || says_a(t, at, CLASS_MANNER) ||
         says_a(t, at, CLASS_PREPARED) || says_a(t, at, CLASS_SAYS_NOTHING) || says_a(t, at, CLASS_MINCED) ||
         says_a(t, at, CLASS_COOKING_VERB) || says_a(t, at, CLASS_UNIT) || says_a(t, at, CLASS_CANNOT_MEASURE) ||
         says_a(t, at, CLASS_MAY_GO) || says_a(t, at, CLASS_SHAPE_MAY_GO) || says_a(t, at, CLASS_STATE_BEHIND_NAME) ||
         says_a(t, at, CLASS_SIZE_OF_SPOON) || says_a(t, at, CLASS_CAPSULE) || says_a(t, at, CLASS_KIND_OF_FOOD) ||
         qualifier_of_food_at(t, at) > 0 || frequency_at(t, at).tokens > 0;
}

/* Is it part of an everyday name that stands for this very record? */
static bool weak_in_a_name(struct post_reader *r, const struct tokens *t, size_t at, uint32_t food) {
  for (size_t n = 1; n <= 3; n++)
    for (size_t from = at + 1 >= n ? at + 1 - n : 0; from <= at && from + n <= t->count; from++) {
      struct search_hit hit;
      if (post_look_up_name(r, tokens_span(t, from, n), &hit) && hit.words_missed == 0 &&
          (hit.food == food || (n > 1 && library_food(r->lib, hit.food)->part == library_food(r->lib, food)->part)))
        return true;
    }
  return false;
}

/* The first word of the owner's that the record's name does not account for; t->count none. */
static size_t weak_word(struct post_reader *r, const struct tokens *t, uint32_t food) {
  struct search_words raw, name = weak_words(r, span_of(library_name(r->lib, food)), &raw), typed;
  for (size_t i = 0; i < t->count; i++) {
    if (!is_word(t, i) || weak_says_nothing(t, i)) continue;
    struct search_words own = weak_words(r, t->item[i].at, &typed);
    bool found = own.count == 0;
    for (size_t k = 0; k < own.count && !found; k++)
      found = weak_holds(&name, own.at[k].text) || weak_holds(&raw, own.at[k].text);
    for (size_t k = 0; k < typed.count && !found; k++) found = weak_holds(&raw, typed.at[k].text);
    if (!found && !weak_in_a_name(r, t, i, food)) return i;
  }
  return t->count;
}

/* "Zinc picolinate 15 mg": labels mostly mean the zinc in it, and it was read so; of other salts the salt was weighed. */
static void ask_of_salt(struct post_reader *r, size_t at) {
  struct item *item = &r->item[at];
  r->line = item->line;
  r->ask_of = at + 1;
  item->doubted = true;
  post_ask(r, 2, "In '%.*s', is that the weight of the whole tablet's salt, or of the mineral in it? The label says.",
           SPAN_ARG(post_quote(r, span_of(item->text))));
  r->ask_of = 0;
}

void post_doubt_weak(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    struct search_hit hit;
    bool salt = strstr(item->assumed, "read as the weight of '") || strstr(item->assumed, "as labels mean it");
    if (item->kind == ITEM_FOOD && !item->doubted && salt) ask_of_salt(r, i);
    if (item->kind != ITEM_FOOD || item->words.n == 0 || item->doubted) continue;
    if (post_look_up_name(r, item->words, &hit) && hit.food == item->food) continue;
    struct tokens t = post_tokens(r, item->words);
    size_t at = weak_word(r, &t, item->food);
    if (at < t.count) {
      const char *name = library_name(r->lib, item->food);
      struct buf b;
      buf_init(&b, r->arena, 400);
      buf_addf(&b, "'%.*s' is not in the name of the record", SPAN_ARG(t.item[at].at));
      r->line = item->line;
      r->ask_of = i + 1;
      post_doubt(r, i, buf_text(&b));
      post_ask(r, 2, "'%.*s' was read as '%s'. Is that right?", SPAN_ARG(quoted(item->words)), name);
      r->ask_of = 0;
    }
    arena_rewind(r->arena, r->begin);
  }
}
