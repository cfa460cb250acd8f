#include "app/app_post.h"

#include "app/app_parts.h"

/* The animal that was told beside the post, by an option or a name; NULL: that of the post. */
static const struct animal *given(const struct library *lib, const struct app_check_request *q, struct arena *arena) {
  struct app_check_answer complaints = {0};
  const struct animal *animal = NULL;
  if (!q->one_off && !q->animals.name) return NULL;
  diags_init(&complaints.recipe_diags, arena, q->recipe.name, q->recipe.text);
  diags_init(&complaints.animal_diags, arena, q->animals.name, q->animals.text);
  return app_find_animal(lib, q, NULL, &animal, &complaints, arena) ? animal : NULL; /* whoever answers finds it again */
}

void app_take_post(const struct library *lib, struct app_check_request *q, struct arena *arena) {
  if (!q->ask.posted) return;
  struct post *post = ARENA_NEW(arena, struct post, 1);
  const struct animal *beside = given(lib, q, arena);
  bool asked_for = q->one_off || q->for_name; /* else it is taken where the post tells of none */
  post_read(lib, q->recipe.text, asked_for ? beside : NULL, post, arena);
  if (beside && !asked_for && !post->animal_told) post_read(lib, q->recipe.text, beside, post, arena);
  q->ask.posted = false;
  q->post = post;
  q->recipe.text = span_of(post->recipe);
}

static const char *assumed_of(const struct post *post, int strict_line) {
  for (size_t i = 0; i < post->line_count; i++)
    if (post->line[i].strict_line == strict_line) return post->line[i].assumed;
  return "";
}

void app_assume(const struct post *post, struct ration *ration, struct arena *arena) {
  struct ration_line *lines = ARENA_NEW(arena, struct ration_line, ration->line_count + 1);
  for (size_t i = 0; i < ration->line_count; i++) {
    lines[i] = ration->line[i];
    const char *assumed = assumed_of(post, lines[i].line);
    if (assumed[0]) lines[i].assumed = assumed;
  }
  ration->line = lines;
}

/* ---- which question first ---- */

enum { TRIALS_MOST = 40, RIVALS_TRIED = 4 };
static const double CHANGES_A_VERDICT = 3, CHANGES_LITTLE = 1;

struct trial {
  const struct library *lib;
  const struct check_result *r;
  struct arena *arena;
  int made;
};

/* Does the answer judge any nutrient otherwise with this line in the place of the old one? */
static bool judges_otherwise(struct trial *t, size_t line, const struct ration_line *other) {
  const struct ration *is = t->r->ration;
  struct ration ration = *is;
  struct ration_line *lines = ARENA_NEW(t->arena, struct ration_line, is->line_count);
  if (t->made++ >= TRIALS_MOST) return false;
  memcpy(lines, is->line, is->line_count * sizeof *lines);
  lines[line] = *other;
  ration.line = lines;
  const struct check_result *got = check_numbers(t->lib, &ration, t->r->animal, &t->r->options, t->arena);
  for (int n = 0; n < NUT_COUNT; n++)
    if (got->nutrient[n].verdict != t->r->nutrient[n].verdict) return true;
  return false;
}

static struct ration_line scaled(const struct ration_line *l, double by) {
  struct ration_line out = *l;
  out.grams_fed *= by;
  for (int i = 0; i < out.part_count; i++) out.part[i].grams *= by;
  return out;
}

static bool line_matters(struct trial *t, size_t line) {
  const struct ration_line *l = &t->r->ration->line[line];
  if (l->grams_fed > 0 && l->high_g > l->low_g) {
    struct ration_line least = scaled(l, l->low_g / l->grams_fed), most = scaled(l, l->high_g / l->grams_fed);
    if (judges_otherwise(t, line, &least) || judges_otherwise(t, line, &most)) return true;
  }
  for (size_t i = 0; i < l->rival_count && i < RIVALS_TRIED; i++) {
    struct ration_line other = *l;
    if (other.part_count != 1) break;
    other.part[0].food = l->rivals[i];
    if (judges_otherwise(t, line, &other)) return true;
  }
  return false;
}

/* Of a line that is counted: what is left out has its own weight. */
static void weigh(struct trial *t, struct post_question *q) {
  const struct ration *ration = t->r->ration;
  for (size_t i = 0; i < ration->line_count && q->strict_line > 0; i++) {
    const struct ration_line *l = &ration->line[i];
    bool unsure = l->high_g > l->low_g || l->rival_count > 0;
    if (l->line != q->strict_line || !unsure || q->weight > CHANGES_A_VERDICT) continue;
    bool more = q->weight >= CHANGES_A_VERDICT; /* the label of a kelp matters whatever the spoon held */
    q->weight = more || line_matters(t, i) ? CHANGES_A_VERDICT : CHANGES_LITTLE;
  }
}

const struct post *app_rank_questions(const struct library *lib, const struct post *post, const struct check_result *r,
                                      struct arena *arena) {
  if (!r->animal || r->refusal != REFUSE_NOT || post->question_count == 0) return post;
  struct trial t = {lib, r, arena, 0};
  struct post *out = ARENA_NEW(arena, struct post, 1);
  struct post_question *q = ARENA_NEW(arena, struct post_question, post->question_count);
  for (size_t i = 0; i < post->question_count; i++) {
    struct post_question one = post->question[i];
    weigh(&t, &one);
    size_t k = i;
    for (; k > 0 && q[k - 1].weight < one.weight; k--) q[k] = q[k - 1];
    q[k] = one;
  }
  *out = *post;
  out->question = q;
  return out;
}
