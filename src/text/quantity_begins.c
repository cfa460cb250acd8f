/* Whether an amount may begin with a token: asked of each as it is split off, so that no reader asks again. */
#include "text/scan.h"

/* No word for a number (quantity.c) begins otherwise: most words of a text are done with here. */
static bool may_be_number(struct span word) {
  static const char *const BEGINS[26] = {['d' - 'a'] = "doz", ['e' - 'a'] = "eig ele", ['f' - 'a'] = "fif fiv fou for",
                                         ['h' - 'a'] = "hal", ['n' - 'a'] = "nin",     ['o' - 'a'] = "one",
                                         ['q' - 'a'] = "qua", ['s' - 'a'] = "sev six", ['t' - 'a'] = "ten thi thr twe two"};
  if (word.n < 3) return word.n > 0 && word.p[0] == 'a' && (word.n == 1 || word.p[1] == 'n');
  const char *begin = word.p[0] >= 'a' && word.p[0] <= 'z' ? BEGINS[word.p[0] - 'a'] : NULL;
  while (begin && begin[0] && (begin[1] != word.p[1] || begin[2] != word.p[2])) begin += begin[3] ? 4 : 3;
  return begin && begin[0];
}

bool quantity_may_begin(const struct token *k) {
  if (k->kind == TOKEN_WORD) return may_be_number(k->word);
  return k->kind != TOKEN_MARK || k->mark == '-';
}
