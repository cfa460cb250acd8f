/* What was done to a recipe before a change was looked for: dangers out, shares in grams, proportions, size, cooking. */
#include "report/mend_first.h"

#include <math.h>

#include "report/answer.h"

static void say(const struct pen *p, enum ink ink, const char *text) {
  struct prose how = prose_at(MARGIN, ink);
  prose_write(p, &how, text);
}

/* Why everything was multiplied: it was too far from the need, or another amount was asked for. */
static void say_scaled(const struct pen *p, const struct mended_answer *a) {
  const struct energy_result *e = &a->before->energy;
  double was = e->supply_kcal / a->scaled;
  bool for_need = fabs(e->supply_kcal / e->need.kcal - 1) < 0.05;
  const char *why =
      for_need ? say_text(p, "As written it supplies %s kcal a day, %s of the %s that this animal is expected to need. ",
                          words_whole(p->arena, was), words_share(p->arena, was / e->need.kcal),
                          words_whole(p->arena, e->need.kcal))
               : "";
  say(p, INK_PLAIN,
      say_text(
          p,
          "%sThe whole recipe was scaled first, to %s kcal a day: %s of every amount. The old text below is the scaled one.",
          why, words_whole(p->arena, e->supply_kcal), words_share(p->arena, a->scaled)));
}

/* Fish that must not stay raw, named. */
static void say_cooked(const struct pen *p, const struct mended_answer *a) {
  const char *item[4];
  size_t n = 0, all = a->cooked_count;
  for (size_t i = 0; i < all && n < COUNT_OF(item); i++) item[n++] = a->cooked[i].food;
  say(p, INK_PLAIN,
      say_text(p,
               "Cook the %s: raw, %s an enzyme that destroys thiamin, of the whole bowl too, and freezing does not help. "
               "Cooked, %s no harm.",
               say_list(p, item, (int)n, (int)n), all > 1 ? "they contain" : "it contains",
               all > 1 ? "they do" : "it does"));
}

/* What must not be fed stands above everything, with what is to be done. */
void say_dangers(const struct pen *p, const struct mended_answer *a) {
  for (size_t i = 0; i < a->left_out_count; i++) {
    const struct left_out *l = &a->left_out[i];
    blank_line(p);
    say(p, INK_STRONG, say_text(p, "Do not feed “%s”: it is dangerous to this animal. %s", l->said, l->advice));
  }
  for (size_t i = 0; i < a->before->finding_count; i++) {
    const struct finding *f = &a->before->finding[i];
    if (!f->danger || f->named_only) continue; /* what words only mention, 'check' tells */
    blank_line(p);
    say(p, INK_STRONG, say_text(p, "%s %s", f->bare, f->advice));
  }
}

/* What is wrong with the whole dinner, and what was set right. */
static void say_plate(const struct pen *p, const struct mended_answer *a) { say(p, INK_STRONG, a->plate_words); }

void say_what_came_first(const struct pen *p, const struct mended_answer *a) {
  if (a->in_grams) {
    blank_line(p);
    say(p, INK_PLAIN,
        say_text(p,
                 "Your shares were first turned into grams, %s g of food a day, because what is added has no share in them.",
                 words_whole(p->arena, a->before->energy.grams_per_day)));
  }
  if (a->plate_count > 0) {
    blank_line(p);
    say_plate(p, a);
  }
  if (a->scaled > 0) {
    blank_line(p);
    say_scaled(p, a);
  }
  if (a->cooked_count > 0) {
    blank_line(p);
    say_cooked(p, a);
  }
}
