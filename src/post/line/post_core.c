/* A line whose words are not all understood: the food that is surely named in it is counted, and what was passed over is
 * said. */
#include "foods/hazard_words.h"
#include "post/line/post_line.h"

/* Words that begin something else than a food's name: behind a name they end it. */
static bool is_border(const struct tokens *t, size_t at, size_t to) {
  if (at >= to) return true;
  if (t->item[at].taken) return true;
  if (t->item[at].kind == TOKEN_MARK) return t->item[at].mark != '/' && t->item[at].mark != '&' && t->item[at].mark != '+';
  if (t->item[at].kind != TOKEN_WORD) return is_mark(t, at + 1, '%');
  return token_is_a(&t->item[at], CLASS_CLAUSE_OPENER) || frequency_at(t, at).tokens > 0 ||
         says_a(t, at, CLASS_BEHIND_A_NAME);
}

/* Does it end so, behind three letters at least? */
static bool ends_with(struct span word, const char *end) {
  size_t n = strlen(end);
  return word.n >= n + 3 && span_is_fold(span_cut(word, word.n - n, word.n), end);
}

/* How it was prepared, cut or bought, in a word that leaves it the food that it is: "browned", "finely", "grinded", "fresh".
 */
static bool is_manner(const struct tokens *t, size_t at) {
  if (!is_word(t, at) || says_a(t, at, CLASS_CHANGES_THE_FOOD)) return false;
  return ends_with(t->item[at].word, "ed") || ends_with(t->item[at].word, "ly") || says_a(t, at, CLASS_MANNER);
}

/* Ways of cooking behind a name, which the strict text needs; NULL. */
static const char *state_said(const struct tokens *t, size_t from, size_t to) {
  const char *state;
  for (size_t i = from; i < to; i++)
    if (is_word(t, i) && meaning_at(t, i, CLASS_STATE_BEHIND_NAME, &state) > 0) return state;
  return NULL;
}

static bool post_cooking_word(const struct tokens *t, size_t at) {
  return state_said(t, at, at + 1) != NULL || says_a(t, at, CLASS_PREPARED);
}

/* Behind a comma or a bracket ("browned off, fat kept in") a word of what belongs to the food makes another of it only where
 * it stands nearly alone ("eggs, just the yolks"). */
static bool is_own_part_in_passing(const struct tokens *t, size_t from, size_t at, size_t to) {
  enum { NEARLY_ALONE = 2 };
  if (!says_a(t, at, CLASS_OWN_PART)) return false;
  size_t begin = at, end = at + 1;
  while (begin > from && t->item[begin - 1].kind != TOKEN_MARK) begin--;
  while (end < to && t->item[end].kind != TOKEN_MARK) end++;
  for (size_t k = begin; k < end; k++)
    if (says(t, k, "only just")) return false;
  return begin > from && end - begin > NEARLY_ALONE;
}

/* Words behind a name that make another food of it, or leave open which one it is. */
static bool says_another_food(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    size_t qualifier = qualifier_of_food_at(t, i);
    if (qualifier > 0)
      i += qualifier - 1;
    else if (says_a(t, i, CLASS_MAKES_ANOTHER_FOOD) && !is_own_part_in_passing(t, from, i, to))
      return true;
  }
  return false;
}

static size_t name_at(struct post_reader *r, const struct tokens *t, size_t at, size_t to) {
  size_t n = post_mention_at(r, t, at);
  if (n > 0) return at + n <= to ? n : 0;
  struct search_hit hit; /* a slip of the pen, where an amount stands by it */
  if (!is_word(t, at) || t->item[at].word.n < 5 || token_is_a(&t->item[at], CLASS_CHATTER)) return 0;
  bool typo = post_look_up(r, t->item[at].at, &hit) && hit.exact_name && hit.words_missed == 0;
  return typo && is_border(t, at + 1, to) ? 1 : 0;
}

/* Where the name of [from, to) ends; 0 when there is none, or more than one. */
static size_t core_end(struct post_reader *r, const struct tokens *t, size_t from, size_t to, size_t *name_from) {
  enum { WORDS_BEFORE = 4 };
  size_t words = 0, end = 0;
  for (size_t i = from; i < to; i++) {
    size_t n = name_at(r, t, i, to);
    if (n > 0 && end > 0) { /* another food: "salmon or tuna" */
      return 0;
    }
    if (n > 0) {
      *name_from = i;
      end = i + n;
      while (end < to && !is_border(t, end, to) && qualifier_of_food_at(t, end) == 0) { /* "chicken breast fillet" */
        struct search_hit hit;
        struct span longer = tokens_span(t, i, end + 1 - i);
        bool fits = post_look_up(r, longer, &hit) && hit.words_missed == 0 && hit.score >= 0.6;
        if (!fits && is_manner(t, end)) break; /* "beef muscle meat", "flax seeds grinded" */
        if (!fits) return 0;
        end++;
      }
      i = end - 1;
      continue;
    }
    if (end == 0 && is_word(t, i) && !token_is_a(&t->item[i], CLASS_CHATTER) && ++words > WORDS_BEFORE) return 0;
    if (end == 0 && is_word(t, i) && token_is_a(&t->item[i], CLASS_CLAUSE_OPENER) && i > from) return 0;
  }
  return end;
}

/* May these words be passed over? Not what names a danger, another owner, or an amount. */
static bool may_pass_over(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  while (to > from && t->item[to - 1].kind == TOKEN_MARK) to--;
  if (from >= to) return true;
  if (says_a(t, to - 1, CLASS_LEAVES_OPEN)) return false;
  for (size_t i = from; i < to; i++) {
    struct post_amount a = post_amount_at(t, i);
    struct search_hit hit;
    if (a.tokens > 0 && !a.by_word) return false;
    if (frequency_at(t, i).tokens > 0) {
      i += frequency_at(t, i).tokens - 1;
      continue;
    }
    bool word = is_word(t, i) && t->item[i].word.n > 3 && !token_is_a(&t->item[i], CLASS_CHATTER) &&
                !token_is_a(&t->item[i], CLASS_MEAL);
    if (is_manner(t, i)) word = false;
    if (word && post_look_up(r, t->item[i].at, &hit) && hit.words_missed == 0 && hit.exact_name && !post_cooking_word(t, i))
      return false;
    if (says_a(t, i, CLASS_NOT_PASSED_OVER)) return false;
  }
  return hazard_words_danger(r->lib, tokens_span(t, from, to - from), SPECIES_BOTH, r->arena) == NO_INDEX;
}

/* Words of time among them: how often, or of what, was perhaps not understood. */
static bool tells_time(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    size_t known = frequency_at(t, i).tokens;
    if (known > 0) {
      i += known - 1;
      continue;
    }
    if (says_a(t, i, CLASS_TELLS_TIME)) return true;
  }
  return false;
}

bool post_try_core(struct post_reader *r, const struct wanted *w, const struct tokens *t, struct core_range at,
                   const char *often) {
  size_t from = at.from, to = at.to;
  if (!may_pass_over(r, t, at.behind, at.end)) return false;
  size_t name = 0, end = core_end(r, t, from, to, &name);
  if (end == 0 || says_another_food(t, end, to) || !may_pass_over(r, t, end, to)) return false;
  while (from < name && (t->item[from].kind != TOKEN_WORD || token_is_a(&t->item[from], CLASS_CHATTER))) from++;
  for (size_t i = from; i < name; i++) { /* before the name: ways of preparing it alone */
    struct search_hit hit;
    if (t->item[i].kind != TOKEN_WORD) return false;
    if (is_manner(t, i) && !(post_look_up(r, tokens_span(t, i, end - i), &hit) && hit.words_missed == 0))
      from = i + 1; /* "garden spinach" */
    else if (!token_is_a(&t->item[i], CLASS_CHATTER) && !post_look_up(r, tokens_span(t, i, end - i), &hit))
      return false;
  }
  struct words words = {0};
  buf_init(&words.text, r->arena, 4000);
  post_gather(r, t, from, end, &words);
  struct span core = post_trimmed(buf_span(&words.text));
  const char *state = state_said(t, end, to);
  enum diag_code why = DIAG_CODE_COUNT;
  if (core.n == 0) return false;
  struct buf kept; /* "(measured dry)", "off the bone": the strict text has words for these */
  buf_init(&kept, r->arena, 400);
  for (size_t i = end; i < to; i++) {
    size_t used = qualifier_of_food_at(t, i);
    if (used == 0) continue;
    buf_addf(&kept, "%s%.*s", kept.n > 0 ? ", " : "", SPAN_ARG(tokens_span(t, i, used)));
    i += used - 1;
  }
  if (kept.n > 0) state = buf_text(&kept);
  struct wanted plain = *w;
  plain.often = often;
  if (state && !plain.cooked) plain.cooked = state;
  struct buf note;
  buf_init(&note, r->arena, 400);
  struct span over = end < to ? tokens_span(t, end, to - end) : (struct span){"", 0};
  size_t item = r->count;
  if (!post_try_line(r, &plain, core, &why)) return false;
  over = post_own_words(r, over);
  if (over.n > 0 && content_words(r, t, end, to) > 0) {
    buf_addf(&note, "passed over: '%.*s'", SPAN_ARG(quoted(over)));
    bool time = tells_time(t, end, to);
    if (time) post_ask(r, 2, "How often, and at which meals, is '%.*s' fed?", SPAN_ARG(post_quote(r, w->whole)));
    for (size_t i = item; i < r->count; i++) r->item[i].doubted = r->item[i].doubted || time;
    for (size_t i = item; i < r->count; i++)
      if (r->item[i].kind == ITEM_FOOD)
        r->item[i].assumed = arena_text(r->keep, span_of(post_joined(r, buf_text(&note), r->item[i].assumed)));
  }
  return true;
}
