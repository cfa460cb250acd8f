/* A food that is told without an amount: left out and asked about, where its words leave no doubt that it is fed. */
#include "foods/search_words.h"
#include "post/line/post_line.h"

/* "In the morning he gets porridge": the everyday name of a food behind a word of feeding. */
static bool says_exact_food(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  size_t from = s->to;
  for (size_t i = s->from; i < s->to && from == s->to; i++)
    if (says_a(t, i, CLASS_FEEDING_VERB)) from = i + 1;
  for (size_t i = from; i < s->to; i++)
    for (size_t n = 1; n <= 3 && i + n <= s->to; n++) {
      struct search_hit hit;
      if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER) || t->item[i].word.n < 3) continue;
      if (post_look_up(r, tokens_span(t, i, n), &hit) && hit.exact_name && hit.words_missed == 0) return true;
    }
  return false;
}

/* "He gets a beef trachea twice a week": somebody is fed something, some of the time, that a food's name has in it. */
static bool told_as_fed(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  bool fed = false, food = false;
  for (size_t i = 0; i < t->count; i++) fed = fed || says_a(t, i, CLASS_TOLD_AS_FED);
  for (size_t i = s->from; i + 1 < s->to; i++)
    if (says_a(t, i, CLASS_DENYING) && says_a(t, i + 1, CLASS_TOLD_AS_FED)) return false; /* "he doesnt get bones" */
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "allergic allergy intolerant intolerance itchy loves")) return false;
  if (fed && !post_often_in(r, t, s->from, s->to)[0]) return says_exact_food(r, t, s);
  if (!fed) return false;
  for (size_t i = s->from; i < s->to; i++) {
    size_t sign = phrase_of(t, i, CLASS_HEALTH_SIGN); /* "he has sometimes white poop hard": no egg white */
    if (sign > 0 && says(t, i + sign, "hard white dry")) sign++;
    if (sign > 0) {
      i += sign - 1;
      continue;
    }
    if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER) || t->item[i].word.n < 3 || frequency_at(t, i).tokens > 0)
      continue;
    struct search_hit hit;
    food = food || (post_look_up(r, t->item[i].at, &hit) && hit.words_missed == 0 && hit.score >= 0.6);
  }
  return food;
}

/* A food without an amount. */
void post_take_amountless(struct post_reader *r, const struct tokens *t, const struct segment *s, bool bulleted) {
  struct words w = {0};
  size_t from = s->from;
  buf_init(&w.text, r->arena, 2000);
  if (s->vague && post_leave_product(r, t, s->from, s->to)) return;
  for (size_t i = s->from; i < s->to; i++) {
    if (says_a(t, i, CLASS_NOT_FED_HERE)) return;
    if (is_word(t, i) && token_is_a(&t->item[i], CLASS_VAGUE_AMOUNT)) from = i + 1;
  }
  const char *day = "";
  bulleted =
      bulleted || (s->from == 0 && post_day_prefix(r, t, &day) > 0 && post_names_food(r, t, s->from, s->to)); /* "sun egg" */
  bulleted = bulleted || (s->from == 0 && s->to == t->count && post_often_in(r, t, 0, t->count)[0] &&
                          post_names_food(r, t, 0, t->count)); /* "eggs 3 times a week" */
  post_gather(r, t, from, s->to, &w);
  struct span words = post_trimmed(buf_span(&w.text));
  if (!s->vague && !bulleted && told_as_fed(r, t, s)) {
    struct span said = tokens_span(t, s->from, s->to - s->from);
    if (is_mark(t, t->count - 1, '?') && phrase_of(t, 0, CLASS_OPENS_QUESTION) > 0) { /* "Does she get enough calcium?" */
      post_note(r, said, "a question, not what is fed");
      return;
    }
    if (!post_leave(r, said, "it is fed, and the post does not say how much", true)) /* of a danger it matters not */
      post_ask(r, 2, "What and how much is fed in '%.*s'?", SPAN_ARG(post_quote(r, said)));
    return;
  }
  for (size_t i = s->from; i < s->to; i++)
    if (says(t, i, "nicks steals pinches scrounges") && content_words(r, t, i + 1, s->to) > 0) {
      post_leave(r, tokens_span(t, i, s->to - i), "it is eaten, and nobody knows how much", true);
      post_ask(r, 1, "How often, and about how much, in '%.*s'?", SPAN_ARG(quoted(tokens_span(t, i, s->to - i))));
      return;
    }
  if (w.count == 0 || w.count > (s->vague ? 12u : 4u) || !(s->vague || bulleted)) return;
  struct span all = words;
  for (; words.n > 0;) {
    struct search_hit hit;
    if (post_look_up(r, words, &hit) && hit.words_missed == 0 && hit.score >= 0.6) {
      if (!post_leave(r, tokens_span(t, s->from, s->to - s->from), "the post does not say how much", true))
        post_ask(r, 2, "How many grams (or spoons) of %.*s a day?", SPAN_ARG(quoted(words)));
      return;
    }
    if (!s->vague) break;
    size_t last = words.n;
    while (last > 0 && words.p[last - 1] != ' ') last--;
    words = last > 0 ? post_trimmed(span_cut(words, 0, last)) : (struct span){"", 0};
  }
  if (s->vague && w.count <= 3 && all.n > 2 && r->count > r->line_from &&
      !says(t, t->count - 1, "help advice")) { /* "a few bikkies" */
    post_leave(r, tokens_span(t, s->from, s->to - s->from),
               "no food record fits these words, and the post does not say how much", true);
    post_ask(r, 2, "What is '%.*s', and how much of it a day?",
             SPAN_ARG(post_quote(r, tokens_span(t, s->from, s->to - s->from))));
    return;
  }
  for (size_t i = from; i < s->to; i++) { /* "few drops of fish oil" */
    struct search_hit hit;
    if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER) || t->item[i].word.n < 3) continue;
    if (!post_look_up(r, t->item[i].at, &hit) || hit.words_missed > 0) continue;
    post_leave(r, tokens_span(t, s->from, s->to - s->from), "the post does not say how much", true);
    post_ask(r, 2, "How much is '%.*s', in grams or spoons a day?",
             SPAN_ARG(post_quote(r, tokens_span(t, s->from, s->to - s->from))));
    return;
  }
}
