/* shell_first.c: eggs that are fed with their shells, written without them where calcium must come down: the owner's eggs stay,
 * and what is too much of the bowl's calcium goes. A shell holds about 2 g of calcium, two days' need of a dog of 15 kg. Where
 * calcium is then wanting, ground eggshell can be weighed, which a whole shell cannot. */
#include <math.h>

#include "app/app_parts.h"
#include "app/mend_parts.h"
#include "words/words.h"

/* Of the bowl's calcium: less is not what makes it too much (own choice). */
static const double SHARE_OF_SHELLS = 0.2;
/* Where so much less of the eggs would do the search can cut them like any other line. */
static const double CUT_LIKE_OTHERS = 1.0 / 3;

/* mg a day that are too much, by the upper limit or for the phosphorus; 0: none. */
static double too_much_calcium(const struct check_result *r) {
  const struct nutrient_result *ca = &r->nutrient[NUT_CALCIUM];
  double ratio = r->balance.ca_p, for_phosphorus = ratio > 2 ? ca->amount * (1 - 2 / ratio) : 0;
  bool over = ca->verdict == VERDICT_OVER && ca->upper > 0;
  return fmax(for_phosphorus, over ? ca->amount - ca->upper : 0);
}

/* Eggs with shell are the only pieces that come with something hard which is not bone. */
static bool has_shell(const struct library *lib, const struct ration_line *l) {
  const struct img_food *f = l->shown_food == NO_INDEX ? NULL : library_food(lib, l->shown_food);
  if (!f || !(f->bone_share > 0) || f->bone_food == NO_INDEX || l->part_count != 2) return false;
  return l->part[1].food == f->bone_food && !(library_food(lib, f->bone_food)->flags & FOOD_BONE);
}

/* mg a day that the shells of a line supply. */
static double shell_calcium(const struct library *lib, const struct ration_line *l) {
  double mg = library_values(lib, l->part[1].food)[NUT_CALCIUM].mean;
  double shell = l->part[1].grams / (l->part[0].grams + l->part[1].grams);
  return mg / 100 * shell * ration_line_grams_per_day(l);
}

/* ---- the line --------------------------------------------------------------------------------------------------------- */

static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/* The next word at 'at' or behind it; n 0: there is none. */
static struct span word_from(struct span s, size_t at) {
  while (at < s.n && !is_letter(s.p[at])) at++;
  size_t end = at;
  while (end < s.n && is_letter(s.p[end])) end++;
  return span_cut(s, at, end);
}

static bool is_one_of(struct span word, const char *const *list, size_t n) {
  for (size_t i = 0; i < n; i++)
    if (span_is_fold(word, list[i])) return true;
  return false;
}

/* Where the words of the shell stand in "3 large eggs, with their shells, daily": "with their shells". n 0: they do not. */
static struct span shell_words(struct span line) {
  static const char *const EGG[] = {"egg", "eggs"}, *const JOINS[] = {"with", "in", "and", "including", "incl"},
                           *const SHELL[] = {"shell", "shells", "eggshell", "eggshells"},
                           *const AFTER[] = {"on", "included"};
  const char *from = NULL;
  bool egg = false;
  for (size_t at = 0; at < line.n;) {
    struct span w = word_from(line, at);
    if (w.n == 0) break;
    at = (size_t)(w.p - line.p) + w.n;
    if (is_one_of(w, SHELL, COUNT_OF(SHELL)) && egg) {
      if (!from) from = w.p;
      struct span next = word_from(line, at);
      if (is_one_of(next, AFTER, COUNT_OF(AFTER))) at = (size_t)(next.p - line.p) + next.n;
      return (struct span){from, (size_t)(line.p + at - from)};
    }
    if (is_one_of(w, EGG, COUNT_OF(EGG)))
      egg = true, from = NULL;
    else if (egg && is_one_of(w, JOINS, COUNT_OF(JOINS)))
      from = w.p;
  }
  return span_cut(line, 0, 0);
}

/* "3 eggs with shell [cut:egg-with-shell], daily" -> "3 eggs without shell, daily": the pin names the shell too, and the words
 * without it are a name that the library knows. NULL: the words say nothing of a shell. */
static const char *without_shell(struct span line, struct arena *arena) {
  struct buf b;
  size_t end = 0, pin = 0;
  while (end < line.n && line.p[end] != '#') end++;
  while (pin < end && line.p[pin] != '[') pin++;
  struct span said = shell_words(span_cut(line, 0, pin));
  const char *close = pin < end ? memchr(line.p + pin, ']', end - pin) : NULL;
  if (said.n == 0 || (pin < end && !close)) return NULL;
  size_t behind = (size_t)(said.p + said.n - line.p), after = close ? (size_t)(close + 1 - line.p) : pin;
  if (close)
    while (pin > behind && line.p[pin - 1] == ' ') pin--;
  buf_init(&b, arena, line.n + 100);
  buf_add(&b, span_cut(line, 0, (size_t)(said.p - line.p)));
  buf_adds(&b, "without shell");
  buf_add(&b, span_cut(line, behind, pin));
  buf_add(&b, span_cut(line, after, line.n));
  return buf_text(&b);
}

/* Is the text read as before, but for this line, which has no shell now? */
static bool reads_shelled(const struct text_edit *e, const char *text, size_t line) {
  static const double CLOSE = 0.15; /* whole things and steps of a scale */
  struct app_check_request trial = e->q->check;
  struct app_check_answer answer;
  const struct ration *ration;
  const struct animal *animal;
  trial.recipe.text = span_of(text);
  if (!app_understand(e->lib, &trial, &answer, &ration, &animal, e->arena)) return false;
  if (ration->line_count != e->ration->line_count) return false;
  const struct ration_line *is = &ration->line[line], *was = &e->ration->line[line];
  double meat = was->part[0].grams / (was->part[0].grams + was->part[1].grams) * ration_line_grams_per_day(was);
  if (is->part_count != 1 || is->shown_food == NO_INDEX) return false;
  if (library_food(e->lib, is->shown_food)->part != PART_EGG) return false;
  return fabs(ration_line_grams_per_day(is) / meat - 1) < CLOSE;
}

/* ---- the text --------------------------------------------------------------------------------------------------------- */

/* The text with one line written without shells; 'change' tells which. NULL: it cannot be written so. */
static const char *with_line(const struct text_edit *e, const char *text, size_t i, struct plate_line *change) {
  const struct recipe_line *words = recipe_line_of(e->recipe, e->ration->line[i].line);
  const struct ration_line *l = &e->ration->line[i];
  struct span rest = span_of(text), own = e->q->check.recipe.text;
  struct buf b;
  buf_init(&b, e->arena, 2 * RECIPE_MOST_BYTES);
  for (int number = 1; rest.n > 0; number++) {
    struct span whole = span_piece(&rest, '\n'), at = span_piece(&own, '\n'); /* spans of 'words' point into the latter */
    if (whole.n > 0 && whole.p[whole.n - 1] == '\r') whole.n--;
    if (at.n > 0 && at.p[at.n - 1] == '\r') at.n--;
    if (number != words->line) {
      buf_addf(&b, "%.*s\n", SPAN_ARG(whole));
      continue;
    }
    bool weighed = unit_info[words->unit].kind == UNIT_KIND_MASS;
    double left = l->part[0].grams / (l->part[0].grams + l->part[1].grams);
    const char *is = weighed ? text_line_times(e, at, words, left) : arena_text(e->arena, at);
    is = without_shell(span_of(is), e->arena);
    if (!is) return NULL;
    *change = (struct plate_line){number, arena_text(e->arena, whole), is, arena_text(e->arena, words->food)};
    buf_addf(&b, "%s\n", is);
  }
  return buf_text(&b);
}

/* Beside the lines that were set right before: what such a line was, it was before that. */
static void remember(struct plate_line *plate, size_t *count, struct plate_line change) {
  for (size_t i = 0; i < *count; i++)
    if (plate[i].line == change.line) {
      plate[i].is = change.is;
      return;
    }
  plate[(*count)++] = change;
}

/* "The eggshells alone supply 6.4 g of calcium a day; the need is 0.99 g. So the eggs go in without their shells." */
static const char *shell_words_first(const struct text_edit *e, double mg, double need_mg, const char *before) {
  return words_text(e->arena,
                    "%s%sThe eggshells alone supply %s g of calcium a day; the need is %s g. So the eggs go in without their "
                    "shells.",
                    before ? before : "", before && before[0] ? " " : "", words_number(e->arena, mg / 1000),
                    words_number(e->arena, need_mg / 1000));
}

bool shell_first(const struct text_edit *e, const struct mend_own *own, const struct check_result *before,
                 struct app_mend_request *q, struct mended_answer *out) {
  const struct ration *r = e->ration;
  const struct nutrient_result *ca = &before->nutrient[NUT_CALCIUM];
  const char *text = arena_text(e->arena, q->check.recipe.text);
  double mg = 0, too_much = too_much_calcium(before);
  for (size_t i = 0; i < r->line_count; i++)
    if (has_shell(e->lib, &r->line[i]) && !own[i].keep) mg += shell_calcium(e->lib, &r->line[i]);
  if (!(mg > 0) || mg < SHARE_OF_SHELLS * ca->amount || too_much < CUT_LIKE_OTHERS * mg) return false;
  struct plate_line *all = ARENA_NEW(e->arena, struct plate_line, out->plate_count + r->line_count);
  size_t count = out->plate_count;
  if (count > 0) memcpy(all, out->plate, count * sizeof *all);
  mg = 0;
  for (size_t i = 0; i < r->line_count; i++) {
    struct plate_line change = {0};
    if (!has_shell(e->lib, &r->line[i]) || own[i].keep) continue;
    const char *next = with_line(e, text, i, &change);
    if (!next || !reads_shelled(e, next, i)) continue;
    mg += shell_calcium(e->lib, &r->line[i]);
    remember(all, &count, change);
    text = next;
  }
  if (!(mg > 0)) return false;
  out->plate = all;
  out->plate_count = count;
  out->plate_words = shell_words_first(e, mg, ca->allowance, out->plate_words);
  q->check.recipe.text = span_of(text);
  return true;
}
