/* What is written otherwise before the lines of a post are read, in its order. */
#include "post/built/post_built.h"
#include "post/page/post_page.h"

struct span post_builds(struct post_reader *r, struct span text, struct arena *arena) {
  if (text.n == 0) return text;
  text = post_each_line(r, text, arena, post_short_words);
  text = post_shares_weighed(r, text, arena);
  text = post_percents(r, post_aliases(r, post_mixes(r, text, arena), arena), arena);
  text = post_columns(r, post_pairs(r, text, arena), arena);
  text = post_each_line(r, text, arena, post_unweighed);
  text = post_each_line(r, text, arena, post_form);
  text = post_interview(r, text, arena);
  text = post_each_line(r, text, arena, post_numbers);
  text = post_each_line(r, text, arena, post_correct_in_breath);
  text = post_each_line(r, text, arena, post_old_new);
  text = post_each_line(r, text, arena, post_dictated);
  text = post_each_line(r, text, arena, post_dry);
  text = post_each_line(r, text, arena, post_plain);
  text = post_each_line(r, text, arena, post_later);
  text = post_each_line(r, text, arena, post_loose);
  text = post_each_line(r, text, arena, post_refers);
  text = post_each_line(r, text, arena, post_letters);
  return post_each_line(r, text, arena, post_parts_of_batch);
}
