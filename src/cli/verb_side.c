/* bowlwright side: recipes or foods side by side. */
#include "app/app_side.h"
#include "cli/run.h"

/* An operand that names a file, or is spelled like one, is a recipe; anything else is a food. */
static bool is_recipe(const char *operand) {
  const char *dot = strrchr(operand, '.');
  return strcmp(operand, "-") == 0 || file_exists(operand) || strchr(operand, '/') ||
         (dot && (strcmp(dot, ".recipe") == 0 || strcmp(dot, ".txt") == 0));
}

struct given {
  const char *name[SIDE_MOST + 1];
  size_t recipes, foods;
};

static int take(struct given *g, const char *name, bool recipe) {
  size_t count = g->recipes + g->foods;
  if (count >= SIDE_MOST) {
    complain("'side' sets at most %d side by side", SIDE_MOST);
    return EXIT_USAGE;
  }
  g->name[count] = name;
  if (recipe) {
    g->recipes++;
  } else {
    g->foods++;
  }
  return EXIT_COMPUTED;
}

static int sort_operands(const struct run *s, struct given *g) {
  const struct options *o = s->options;
  int code = EXIT_COMPUTED;
  *g = (struct given){.recipes = 0};
  for (size_t i = 0; i < o->operand.count && code == EXIT_COMPUTED; i++)
    code = take(g, o->operand.item[i], is_recipe(o->operand.item[i]));
  for (size_t i = 0; i < o->food.count && code == EXIT_COMPUTED; i++) code = take(g, o->food.item[i], false);
  if (code != EXIT_COMPUTED) return code;
  if (g->recipes > 0 && g->foods > 0) {
    complain("recipes and foods do not mix: '%s' is %s; compare recipes with recipes, or foods with foods", g->name[0],
             is_recipe(g->name[0]) ? "a recipe" : "taken for a food, for there is no file of that name");
    return EXIT_USAGE;
  }
  if (o->ask.cooked) {
    if (g->recipes == 1) return EXIT_COMPUTED;
    complain("--cooked takes one recipe and sets it beside itself");
    return EXIT_USAGE;
  }
  if (g->recipes + g->foods >= SIDE_LEAST) return EXIT_COMPUTED;
  complain("'side' needs 2 to %d recipes or foods", SIDE_MOST);
  return EXIT_USAGE;
}

/* A food is no file: its complaint has no line and column. */
static void show_food_diags(const struct run *s, const char *words, const struct diags *d) {
  for (size_t i = 0; i < d->count; i++)
    if (d->item[i].level == DIAG_ERROR || !s->options->quiet) complain("%s: %s", words, d->item[i].message);
}

static void show_complaints(const struct run *s, const struct app_side_request *q, const struct app_side_answer *a,
                            struct arena *arena) {
  for (size_t i = 0; i < q->count; i++) {
    if (q->kind == SIDE_FOODS) {
      show_food_diags(s, q->input[i].name, &a->of[i].recipe_diags);
    } else {
      show_diags(s, &a->of[i].recipe_diags, arena);
    }
  }
  show_diags(s, &a->of[0].animal_diags, arena);
  show_diags(s, &a->of[0].journal_diags, arena);
}

static int answer(const struct run *s, const struct app_side_answer *a, struct arena *arena) {
  struct buf out;
  buf_init(&out, arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_side(&s->lib, a->side, a->ways, &out);
  } else {
    report_side(&s->lib, a->side, a->ways, &s->style, &out);
  }
  int code = finish_answer(s, &out);
  if (code != EXIT_COMPUTED) return code;
  enum refusal refusal = a->side->item[0].r->refusal;
  if (refusal == REFUSE_NOT) return EXIT_COMPUTED;
  if (s->options->json) note(s, "%s %s", refusal_text(refusal), refusal_ask(refusal));
  return EXIT_REFUSED;
}

int verb_side(struct run *s) {
  const struct options *o = s->options;
  struct given g;
  struct app_side_request q = {0};
  struct app_input input[SIDE_MOST];
  int code = sort_operands(s, &g);
  if (code == EXIT_COMPUTED) code = ask_about(s, &q.check);
  for (size_t i = 0; code == EXIT_COMPUTED && i < g.recipes + g.foods; i++) {
    input[i] = (struct app_input){g.name[i], {NULL, 0}};
    if (g.recipes > 0) code = read_text(g.name[i], &input[i], s->arena);
  }
  if (code != EXIT_COMPUTED) return code;
  q.kind = o->ask.cooked ? SIDE_WAYS : g.recipes > 0 ? SIDE_RECIPES : SIDE_FOODS;
  q.input = input;
  q.count = g.recipes + g.foods;
  q.per = o->ask.per != SIDE_PER_COUNT ? o->ask.per : q.kind == SIDE_FOODS ? SIDE_PER_1000KCAL : SIDE_PER_DAY;
  if (q.kind == SIDE_FOODS && q.per == SIDE_PER_DAY) {
    complain("foods are compared --per 1000kcal or --per 100g: there is no day's amount of them");
    return EXIT_USAGE;
  }
  struct app_side_answer a;
  app_side(&s->lib, &q, &a, s->arena);
  show_complaints(s, &q, &a, s->arena);
  if (!a.side) return EXIT_NOT_UNDERSTOOD;
  code = answer(s, &a, s->arena);
  if (code == EXIT_COMPUTED && !a.animal && q.kind != SIDE_FOODS) hint_at_animals(s, a.of[0].recipe);
  return code;
}
