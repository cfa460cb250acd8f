/* Does the owner say that the food is cooked, wherever the lines stand? "I cook on Sundays", "cooked in the instant pot",
 * "raw weight, I cook it". What it is counted as is no matter of this: the lines say that. */
#include "post/whole/post_whole.h"

enum { HEARD_WORDS = 4 };

struct last_words {
  struct span word[HEARD_WORDS]; /* the last ones, newest first */
};

static bool is_letter(char c) { return post_is_letter(c) || c == '\'' || (unsigned char)c >= 0x80; }

static struct span next_word(struct span *rest) {
  size_t from = 0, to;
  while (from < rest->n && !is_letter(rest->p[from])) from++;
  for (to = from; to < rest->n && is_letter(rest->p[to]);) to++;
  struct span word = span_cut(*rest, from, to);
  *rest = span_cut(*rest, to, rest->n);
  return word;
}

/* "I don't cook it"; "the rice is cooked in broth" tells nothing of the meat. */
static bool is_of_other_food(const struct last_words *h) {
  for (size_t i = 0; i < HEARD_WORDS; i++)
    if (word_in(h->word[i],
                "not don't dont never no without stop stopped used rice pasta oats oatmeal barley quinoa lentils "
                "potato potatoes veg veggies vegetables carrots"))
      return true;
  return false;
}

bool post_says_cooked(struct span text) {
  struct last_words h = {0};
  bool cooked = false;
  for (struct span word = next_word(&text); word.n > 0; word = next_word(&text)) {
    struct span ahead = text, next = next_word(&ahead);
    if (word_in(word, "raw") && !word_in(next, "weight weights") && !word_in(h.word[0], "weigh weighed weights"))
      return false;
    bool by_us = word_in(h.word[0], "i we") ||
                 (word_in(h.word[0], "slow pressure batch then always lightly") && word_in(h.word[1], "i we"));
    bool all = word_in(next, "in it it's everything all together") || word_in(h.word[0], "all everything");
    if (word_in(word, "cook cooks") && (by_us || all) && !is_of_other_food(&h) &&
        !word_in(next, "rice pasta veg veggies the"))
      cooked = true;
    if (word_in(word, "cooked boiled simmered stewed poached baked roasted") && all && !is_of_other_food(&h)) cooked = true;
    memmove(h.word + 1, h.word, (HEARD_WORDS - 1) * sizeof *h.word);
    h.word[0] = word;
  }
  return cooked;
}
