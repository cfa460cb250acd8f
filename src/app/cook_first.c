/* cook_first.c: raw fish that carries thiaminase, written as cooked where the animal is a cat: the owner's fish stays, and
 * what it would do to the thiamin of the whole bowl does not. What cannot be written so goes (mend_dangerous). */
#include "app/app_parts.h"
#include "app/mend_parts.h"

static bool must_be_cooked(const struct library *lib, const struct app_mend_request *q, const struct ration_line *l,
                           enum species s) {
  for (size_t k = 0; k < q->check.ask.keep.count; k++)
    if (app_names_line(span_of(q->check.ask.keep.item[k]), l)) return false;
  return mend_thiaminase(lib, l, s);
}

static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

enum { RAW_LETTERS = 3 };

/* Where the word "raw" begins; n: it does not stand there. */
static size_t find_raw(struct span s) {
  for (size_t i = 0; i + RAW_LETTERS <= s.n; i++) {
    bool begins = i == 0 || !is_letter(s.p[i - 1]), ends = i + RAW_LETTERS == s.n || !is_letter(s.p[i + RAW_LETTERS]);
    if (begins && ends && span_starts_fold(span_cut(s, i, s.n), "raw")) return i;
  }
  return s.n;
}

/* "40 g raw herring [usda:15039]" -> "40 g herring, raw weight, steamed [usda:15039]": steamed, since then nobody has to ask
 * what becomes of the broth. */
static const char *as_cooked(struct span line, struct arena *arena) {
  struct buf b;
  size_t end = 0;
  while (end < line.n && line.p[end] != '[' && line.p[end] != '#') end++;
  while (end > 0 && (line.p[end - 1] == ' ' || line.p[end - 1] == '\t')) end--;
  struct span head = span_cut(line, 0, end), tail = span_cut(line, end, line.n);
  size_t at = find_raw(head), after = at < head.n ? at + RAW_LETTERS : at, before = at;
  while (before > 0 && (head.p[before - 1] == ' ' || head.p[before - 1] == ',')) before--;
  bool comma = at < head.n && memchr(head.p + before, ',', at - before) != NULL;
  if (!comma) { /* "raw herring": the blank behind it goes */
    before = at;
    while (after < head.n && head.p[after] == ' ') after++;
  }
  buf_init(&b, arena, line.n + 100);
  buf_add(&b, span_cut(head, 0, before));
  buf_add(&b, span_cut(head, after, head.n));
  buf_adds(&b, ", raw weight, steamed");
  buf_add(&b, tail);
  return buf_text(&b);
}

/* The text with one line exchanged; 'was' gets that line. */
static const char *with_line(struct span text, int line, const char *is, const char **was, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 2 * RECIPE_MOST_BYTES);
  for (int number = 1; text.n > 0; number++) {
    struct span whole = span_piece(&text, '\n');
    if (whole.n > 0 && whole.p[whole.n - 1] == '\r') whole.n--;
    if (number == line) *was = arena_text(arena, whole);
    if (number == line && is)
      buf_adds(&b, is);
    else
      buf_add(&b, whole);
    buf_addc(&b, '\n');
  }
  return buf_text(&b);
}

/* Is the text read as before, but for this line, which is cooked now? */
static bool reads_cooked(const struct library *lib, const struct app_mend_request *q, const char *text, size_t line,
                         const struct ration *was, struct arena *arena) {
  struct app_check_request trial = q->check;
  struct app_check_answer answer;
  const struct ration *ration;
  const struct animal *animal;
  trial.recipe.text = span_of(text);
  if (!app_understand(lib, &trial, &answer, &ration, &animal, arena) || ration->line_count != was->line_count) return false;
  return ration->line[line].shown_food == was->line[line].shown_food && state_is_cooked(ration->line[line].state);
}

bool cook_first(const struct library *lib, struct app_mend_request *q, const struct recipe *recipe,
                const struct ration *ration, enum species species, struct mended_answer *out, struct arena *arena) {
  struct cooked_first *c = ARENA_NEW(arena, struct cooked_first, ration->line_count + 1);
  const char *text = arena_text(arena, q->check.recipe.text);
  size_t count = 0;
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct recipe_line *words = recipe_line_of(recipe, ration->line[i].line);
    const char *was = "";
    if (!words || !must_be_cooked(lib, q, &ration->line[i], species)) continue;
    with_line(span_of(text), words->line, NULL, &was, arena);
    const char *is = as_cooked(span_of(was), arena), *next = with_line(span_of(text), words->line, is, &was, arena);
    if (!reads_cooked(lib, q, next, i, ration, arena)) continue;
    c[count++] = (struct cooked_first){words->line, was, is, arena_text(arena, words->food)};
    text = next;
  }
  if (count == 0) return false;
  q->check.recipe.text = span_of(text);
  out->cooked = c;
  out->cooked_count = count;
  return true;
}
