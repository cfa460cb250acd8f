/* What a piece that could not be read says of the lines that were counted: it names one of their foods, goes on with the
 * line before it, or tells of days, meals and eaters without a food of its own. */
#include "post/govern/post_govern.h"

static const char *beside(struct post_reader *r, const char *before, struct span text) {
  struct buf b;
  buf_init(&b, r->arena, text.n + 120);
  buf_addf(&b, "%s: '%.*s'", before, SPAN_ARG(quoted(text)));
  return buf_text(&b);
}

/* The last word of a name: of "minced lamb, browned" that is "lamb". */
static struct span head_of(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  struct span head = {"", 0};
  for (size_t i = 0; i < t.count && (t.item[i].kind == TOKEN_WORD || head.n == 0); i++)
    if (is_word(&t, i)) head = t.item[i].word;
  return head;
}

static bool is_minced(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  return holds_a(&t, 0, t.count, CLASS_MINCED);
}

/* "the mince", "tripe is 150 now": the food of a line by the chief word of its name, and of no other food: of "lamb heart"
 * the line "ox heart" is none. */
static bool names_by_word(const struct net *n, const struct item *item, size_t at, struct span head) {
  const struct tokens *t = &n->t;
  if (!is_word(t, at) || word_is_filler(t->item[at].word) || head.n < 3) return false;
  struct span pair = t->item[at].word;
  bool minced = says_a(t, at, CLASS_MINCED) && is_minced(n->r, item->words);
  if (!minced && !net_has_word(head, pair)) return false;
  if (at == 0 || !is_word(t, at - 1)) return true;
  struct token *before = &t->item[at - 1];
  if (net_has_word(item->words, before->word)) return true;
  size_t own = before->word.n > 2 && before->word.p[before->word.n - 2] == '\'' ? before->word.n - 2 : before->word.n;
  return !is_a(span_cut(before->word, 0, own), CLASS_ANIMAL_OF_FLESH) && post_mention_at(n->r, t, at - 1) != 1;
}

/* Days, meals, eaters, turns and the like, and no amount that a food of its own could have. */
static bool tells_of_all(const struct net *n) {
  const struct tokens *t = &n->t;
  bool told = false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    double part;
    bool body = a.is_mass && (strcmp(a.unit, "kg") == 0 || strcmp(a.unit, "lb") == 0) && i > 0 &&
                says(t, i - 1, "is weighs weigh at for");
    if (a.tokens > 0 && (a.is_mass || a.is_volume) && !body) return false;
    if (post_is_thing(t, i)) return false; /* "half a zorbix at bedtime" */
    told = told || post_part_at(t, i, &part) > 0 || says(t, i, "times");
    struct frequency f = frequency_at(t, i);
    bool some = f.tokens > 0 && (f.days != 0 || f.each_meal || f.feedings > 1 || f.other_days || f.per_28 > 0 ||
                                 f.times_per_28 != CALENDAR_DAYS);
    enum governs kind;
    size_t used = governs_at(t, i, &kind);
    told = told || some || (used > 0 && kind != GOVERNS_NOTHING && kind != GOVERNS_PAST);
    told = told || says(t, i, "days weeks") || (!n->r->pot_told && says(t, i, "mouths pets animals dogs cats"));
    if (f.tokens > 1) i += f.tokens - 1;
  }
  return told;
}

/* "looks like breakfast except for 60 g of pepper", "120 g of the same meat": of what stands elsewhere. */
static bool refers_to_a_meal(const struct tokens *t) {
  bool refers = false, meal = false;
  for (size_t i = 0; i < t->count; i++) {
    enum governs kind;
    refers = refers || (governs_at(t, i, &kind) > 0 && (kind == GOVERNS_SAME || kind == GOVERNS_TIMES));
    meal = meal || governs_main_meal(t, i) || (says(t, i, "same") && post_any_amount(t, 0)) ||
           (refers && says(t, i, "meat fish veg mix stuff thing things food"));
  }
  return refers && meal;
}

/* The counted line that the piece goes on with: "They're about 150 g each". */
static size_t line_before(const struct post_reader *r, const struct net *n, size_t left) {
  if (!says(&n->t, 0, "it it's its they they're theyre they'll that that's thats this these those which")) return r->count;
  size_t found = r->count;
  for (size_t k = 0; k < r->count; k++) {
    const struct item *item = &r->item[k];
    if (item->kind == ITEM_UNKNOWN && span_eq(span_of(item->text), span_of(r->left[left].text))) break;
    if (item->kind == ITEM_FOOD && item->line <= r->left[left].line) found = k;
  }
  return found < r->count && r->left[left].line - r->item[found].line <= 1 ? found : r->count;
}

static void doubt_by(struct net *n, size_t left, const struct span *head) {
  struct post_reader *r = n->r;
  struct span text = span_of(r->left[left].text);
  const char *more = beside(r, "of it the post says more, which could not be read", text);
  bool named = false;
  for (size_t at = 0; at < n->t.count; at++) {
    bool of_whole = is_number(&n->t, at) && is_mark(&n->t, at + 1, '%') && not_an_amount(&n->t, at) == 0;
    size_t used = post_mention_at(r, &n->t, at);
    named = named || used > 0 || says(&n->t, at, "vit vits vitamin vitamins supplement supplements probiotic probiotics") ||
            phrase_of(&n->t, at, CLASS_FED_THING) > 0 || says(&n->t, at, "steals nicks pinches scrounges");
    if (used > 0 && net_is_kind(n->t.item[at + used - 1].word)) used = 0;
    for (size_t k = 0; k < r->count; k++) {
      struct item *item = &r->item[k];
      if (item->kind != ITEM_FOOD) continue;
      const char *mark = strstr(item->text, " % ");
      if (of_whole && mark && mark < item->text + 10)
        post_doubt(r, k, beside(r, "without a share that could not be read", text));
      else if ((used > 0 && net_item_is(n, item, at, used)) || names_by_word(n, item, at, head[k]))
        post_doubt(r, k, more), named = true;
    }
    if (used > 1) at += used - 1;
  }
  size_t before = line_before(r, n, left);
  if (before < r->count) post_doubt(r, before, more);
  bool meal = refers_to_a_meal(&n->t);
  if (!meal && (named || before < r->count || !tells_of_all(n))) return;
  const char *all = beside(r, "counted without what could not be read", text);
  for (size_t k = 0; k < r->count; k++)
    if (!meal || r->item[k].line <= r->left[left].line) post_doubt(r, k, all);
}

void doubt_by_what_was_left(struct post_reader *r) {
  struct span *head = ARENA_NEW(r->keep, struct span, r->count + 1);
  for (size_t k = 0; k < r->count; k++) head[k] = arena_span(r->keep, head_of(r, r->item[k].words));
  for (size_t i = 0; i < r->left_count; i++) {
    if (!r->left[i].fed) continue;
    struct net n = {.r = r, .t = post_tokens(r, span_of(r->left[i].text))};
    doubt_by(&n, i, head);
    arena_rewind(r->arena, r->begin);
  }
}
