/* What every verb has at hand. */
#include <stdarg.h>
#include <stdio.h>

#include "app/app_week.h"
#include "cli/run.h"

int worse_code(int a, int b) {
  static const int WORST_FIRST[] = {EXIT_TROUBLE, EXIT_USAGE,       EXIT_NOT_UNDERSTOOD,
                                    EXIT_REFUSED, EXIT_NONE_EXISTS, EXIT_SHORT_OR_OVER};
  for (size_t i = 0; i < COUNT_OF(WORST_FIRST); i++)
    if (a == WORST_FIRST[i] || b == WORST_FIRST[i]) return WORST_FIRST[i];
  return EXIT_COMPUTED;
}

/* What only a command line has to offer. */
static const char *const HINT[DIAG_CODE_COUNT] = {
    [DIAG_NOT_IN_LIBRARY] = " (--foods FILE)",
    [DIAG_LABEL_NEEDED] = " (--foods FILE)",
    [DIAG_WHICH_ANIMAL] = "; or choose with --for",
    [DIAG_PERIOD] = "; choose fewer with --since and --until",
    [DIAG_ANIMAL_NEEDED] = "; add --for FILE, --dog 18kg or --cat 4.6kg, or write 'Dog: 18 kg' in the text",
};

void show_diags(const struct run *s, const struct diags *d, struct arena *arena) {
  struct buf b;
  if (d->count == 0 || (s->options->quiet && d->errors == 0)) return;
  buf_init(&b, arena, 1024 * 1024);
  diags_print_with(d, &b, true, HINT);
  write_errors(buf_span(&b));
}

void note(const struct run *s, const char *fmt, ...) {
  char line[2048];
  va_list args;
  if (s->options->quiet) return;
  va_start(args, fmt);
  vsnprintf(line, sizeof line, fmt, args);
  va_end(args);
  complain("%s", line);
}

int read_recipe_and_larder(const struct run *s, struct app_input *recipe, struct app_input *larder) {
  int code = read_text(s->options->operand.item[0], recipe, s->arena);
  return code == EXIT_COMPUTED && s->options->larder ? read_text(s->options->larder, larder, s->arena) : code;
}

int read_journal(const struct run *s, const char *path, struct app_input *out) {
  if (!is_a_store(path)) return read_long_text(path, out, s->arena);
  int code = store_ready(s);
  return code == EXIT_COMPUTED ? journal_from_store(s, path, out) : code;
}

int read_recipes_of_journal(const struct run *s, const char *path, struct app_input *recipe, size_t *count, size_t most) {
  if (is_a_store(path)) {
    int code = recipes_from_store(s, path, recipe, count, most);
    if (code != EXIT_COMPUTED) return code;
  }
  return read_recipes_beside(path, recipe, count, most, s->arena);
}

int read_journal_and_recipes(const struct run *s, const char *path, size_t named, struct app_journal *out) {
  const struct text_list *l = &s->options->operand;
  struct app_input *recipe = ARENA_NEW(s->arena, struct app_input, WEEK_RECIPES_MOST + 1);
  *out = (struct app_journal){.recipe = recipe};
  int code = read_journal(s, path, &out->text);
  for (size_t i = named; code == EXIT_COMPUTED && i < l->count && out->count < WEEK_RECIPES_MOST; i++)
    code = read_text(l->item[i], &recipe[out->count++], s->arena);
  out->named = out->count;
  return code == EXIT_COMPUTED ? read_recipes_of_journal(s, path, recipe, &out->count, WEEK_RECIPES_MOST) : code;
}

void show_recipe_diags(const struct run *s, const struct app_check_answer *a) {
  show_diags(s, &a->journal_diags, s->arena);
  if (a->post && !a->post->recipe[0])
    complain("%s", a->post->sorry);
  else if (!a->post || a->recipe_diags.errors > 0)
    show_diags(s, &a->recipe_diags, s->arena);
}

void tell_tally(const struct run *s, const struct check_result *r, const struct post *post) {
  size_t left = 0;
  for (size_t i = 0; post && i < post->left_count; i++) left += post->left[i].fed;
  if (s->tally && r) tally_of(r, left, s->tally, s->arena);
}

int not_understood(const struct diags *d) {
  for (size_t i = 0; i < d->count; i++)
    if (d->item[i].code == DIAG_ANIMAL_NEEDED) return EXIT_USAGE;
  return EXIT_NOT_UNDERSTOOD;
}

int finish_answer(const struct run *s, struct buf *out) {
  if (s->options->json) buf_addc(out, '\n');
  return write_answer(out);
}
