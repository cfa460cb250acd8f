/* leave_out.c: what is fed without being counted and must not be fed at all ("? 1 tbsp peanut butter with xylitol") goes
 * before anything is looked for. A search takes out lines that are counted; of these nobody knows how much there is. */
#include "app/app_parts.h"
#include "app/mend_parts.h"

/* What the review says is to be done about a danger in this line; NULL: it names none. */
static const char *danger_advice(const struct check_result *r, int line) {
  for (size_t i = 0; i < r->finding_count; i++)
    if (r->finding[i].danger && r->finding[i].line == line) return r->finding[i].advice ? r->finding[i].advice : "";
  return NULL;
}

static const char *advice_of_uncounted(const struct check_result *r, int line) {
  for (size_t i = 0; i < r->ration->uncounted_count; i++)
    if (r->ration->uncounted[i].line == line) return danger_advice(r, line);
  return NULL;
}

/* "? 2 macadamia nuts" is "2 macadamia nuts" to whoever wrote it. */
static const char *as_said(struct span line, struct arena *arena) {
  struct span said = span_trim(line);
  if (said.n > 0 && said.p[0] == '?') said = span_trim(span_cut(said, 1, said.n));
  return arena_text(arena, said);
}

/* Its line becomes blank, so that all others keep their numbers. */
bool leave_out_first(struct app_mend_request *q, const struct check_result *before, struct mended_answer *out,
                     struct arena *arena) {
  struct left_out *gone = ARENA_NEW(arena, struct left_out, before->ration->uncounted_count + 1);
  struct span rest = q->check.recipe.text;
  struct buf b;
  size_t count = 0;
  buf_init(&b, arena, 2 * RECIPE_MOST_BYTES);
  for (int number = 1; rest.n > 0; number++) {
    struct span whole = span_piece(&rest, '\n');
    if (whole.n > 0 && whole.p[whole.n - 1] == '\r') whole.n--;
    const char *advice = advice_of_uncounted(before, number);
    if (advice && count < before->ration->uncounted_count)
      gone[count++] = (struct left_out){number, arena_text(arena, whole), as_said(whole, arena), advice};
    else
      buf_add(&b, whole);
    buf_addc(&b, '\n');
  }
  if (count == 0) return false;
  q->check.recipe.text = span_of(buf_text(&b));
  out->left_out = gone;
  out->left_out_count = count;
  return true;
}
