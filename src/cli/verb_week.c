/* bowlwright week: days and weeks. */
#include "app/app_rotate.h"
#include "app/app_week.h"
#include "cli/run.h"
#include "plan/plan_text.h"
#include "report/rotate.h"
#include "report/week.h"

static int rotation_texts(const struct app_week_request *q) {
  if (q->plan.name || q->journal.name) {
    complain("--rotate looks for the days by itself: give it recipes alone");
    return EXIT_USAGE;
  }
  if (q->count < 2 || q->count > ROTATE_RECIPES_MOST) {
    complain("--rotate takes 2 to %d recipes", ROTATE_RECIPES_MOST);
    return EXIT_USAGE;
  }
  if (q->check.ask.days != 0 && (q->check.ask.days < 2 || q->check.ask.days > ROTATE_DAYS_MOST)) {
    complain("a rotation has 2 to %d days", ROTATE_DAYS_MOST);
    return EXIT_USAGE;
  }
  return EXIT_COMPUTED;
}

static int read_texts(const struct run *s, struct app_week_request *q) {
  const struct text_list *l = &s->options->operand;
  struct app_input *recipe = ARENA_NEW(s->arena, struct app_input, WEEK_RECIPES_MOST + 1);
  const char *beside = s->options->journal;
  if (l->count == 0 && !beside) {
    complain("'week' needs a recipe, a plan, or --journal FILE");
    return EXIT_USAGE;
  }
  if (beside) {
    int code = read_journal(s, beside, &q->journal);
    if (code != EXIT_COMPUTED) return code;
  }
  for (size_t i = 0; i < l->count; i++) {
    struct app_input text;
    int code = read_text(l->item[i], &text, s->arena);
    if (code != EXIT_COMPUTED) return code;
    if (plan_is(text.text)) {
      if (q->plan.name) {
        complain("'%s' and '%s' are both plans; one is enough", q->plan.name, text.name);
        return EXIT_USAGE;
      }
      q->plan = text;
      if (!beside) beside = l->item[i];
    } else if (q->count < WEEK_RECIPES_MOST) {
      recipe[q->count++] = text;
    }
  }
  q->recipe = recipe;
  q->named = q->count;
  if (q->plan.name && q->journal.name) {
    complain("a plan says what will be fed, a journal what was eaten; look at one of them at a time");
    return EXIT_USAGE;
  }
  if (s->options->ask.posted && (q->count != 1 || q->plan.name || q->journal.name || s->options->ask.rotate)) {
    complain("--posted reads one post, and its own days: give it alone");
    return EXIT_USAGE;
  }
  if (s->options->ask.rotate) return rotation_texts(q);
  if (!q->plan.name && !q->journal.name && q->count > 1) {
    complain(
        "%zu recipes and no plan: say which day has which in a text that begins with 'Plan:', or try them with --rotate",
        q->count);
    return EXIT_USAGE;
  }
  return beside ? read_recipes_of_journal(s, beside, recipe, &q->count, WEEK_RECIPES_MOST) : EXIT_COMPUTED;
}

static void show_complaints(const struct run *s, const struct app_week_request *q, const struct app_week_answer *a) {
  show_diags(s, &a->texts.recipe_diags, s->arena);
  for (size_t i = 0; i < q->count; i++) show_diags(s, &a->recipe_diags[i], s->arena);
  show_diags(s, &a->texts.animal_diags, s->arena);
}

/* ---- which recipe on which day ---- */

static void draw_rotation(const struct run *s, const struct app_rotate_answer *a, struct buf *out) {
  const char *name[ROTATE_RECIPES_MOST], *told[ROTATE_RECIPES_MOST], *addition[NUT_COUNT];
  double batches[ROTATE_RECIPES_MOST];
  for (int i = 0; i < a->recipes; i++) {
    name[i] = a->recipe[i].name;
    told[i] = a->recipe[i].says;
    batches[i] = a->recipe[i].batches;
  }
  for (size_t i = 0; i < a->additions; i++) addition[i] = a->addition[i].says;
  const struct rotation *found = a->helps ? &a->with : a->rotation.status == ROTATION_FOUND ? &a->rotation : NULL;
  struct rotate_view v = {a->animal, a->says, a->says_with, found,        a->recipes, name,
                          told,      batches, addition,     a->additions, a->plan};
  report_rotate(&v, &s->style, out);
  if (a->week.week) report_week(&s->lib, a->week.week, NULL, 0, &s->style, out);
}

static int rotate_verb(struct run *s, const struct app_week_request *q) {
  struct app_rotate_answer a;
  struct buf out;
  app_rotate(&s->lib, q, &a, s->arena);
  for (size_t i = 0; i < q->count; i++) show_diags(s, &a.recipe_diags[i], s->arena);
  show_diags(s, &a.texts.animal_diags, s->arena);
  if (!a.understood) return not_understood(&a.texts.animal_diags);
  enum refusal refusal = a.alone[0]->refusal;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (refusal != REFUSE_NOT) {
    complain("%s %s", refusal_text(refusal), refusal_ask(refusal));
    return EXIT_REFUSED;
  }
  if (s->options->json) {
    json_rotate(&s->lib, &a, &out);
  } else {
    draw_rotation(s, &a, &out);
  }
  int code = finish_answer(s, &out);
  if (code != EXIT_COMPUTED) return code;
  return a.rotation.status == ROTATION_FOUND ? EXIT_COMPUTED : EXIT_NONE_EXISTS;
}

int verb_week(struct run *s) {
  struct app_week_request q = {0};
  struct app_week_answer a;
  int code = ask_about(s, &q.check), worst = EXIT_COMPUTED;
  if (code == EXIT_COMPUTED) code = read_texts(s, &q);
  if (code != EXIT_COMPUTED) return code;
  if (s->options->ask.rotate) return rotate_verb(s, &q);
  app_week(&s->lib, &q, &a, s->arena);
  show_complaints(s, &q, &a);
  if (a.texts.post && !a.texts.post->recipe[0]) complain("%s", a.texts.post->sorry);
  if (a.count == 0) return not_understood(&a.texts.recipe_diags);
  struct buf out;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  for (size_t i = 0; i < a.count; i++) {
    const struct app_week_one *one = &a.of[i];
    if (s->options->json) {
      json_week(&s->lib, one, &out);
      if (i + 1 < a.count) buf_addc(&out, '\n');
    } else {
      report_week(&s->lib, one->week, one->assumed, one->assumed_count, &s->style, &out);
    }
    const struct check_result *mean = one->week->mean;
    if (mean->refusal != REFUSE_NOT) worst = worse_code(worst, EXIT_REFUSED);
    if (s->options->json && mean->refusal != REFUSE_NOT)
      note(s, "%s %s", refusal_text(mean->refusal), refusal_ask(mean->refusal));
  }
  code = finish_answer(s, &out);
  if (code != EXIT_COMPUTED) return code;
  if (!a.of[0].animal) hint_at_animals(s, a.texts.recipe);
  return worst;
}
