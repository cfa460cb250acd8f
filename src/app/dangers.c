/* Dangers of a text that could not be read as a whole: there is no review to tell them. */
#include "app/app_parts.h"
#include "foods/hazard_words.h"
#include "text/scan.h"

static bool is_told(const struct diags *d, int line) {
  for (size_t i = 0; i < d->count; i++)
    if (d->item[i].line == line && d->item[i].code == DIAG_DANGER) return true;
  return false;
}

static void say(const struct library *lib, struct span line, int number, struct diags *d, struct arena *arena) {
  struct hazard_hit hit[HAZARD_HITS_MOST];
  size_t n = hazard_words_find(lib, line, hit, HAZARD_HITS_MOST, arena);
  for (size_t i = 0; i < n; i++) {
    const struct img_hazard *h = hazard_row(lib, hit[i].hazard);
    if (h->weight != FINDING_ACT || is_told(d, number)) continue;
    diag_say(d, DIAG_WARNING, DIAG_DANGER, hit[i].at, "danger: %s: %s. %s", lib_str(lib, h->words), lib_str(lib, h->dose),
             lib_str(lib, h->advice));
    diag_brief(d, "%s", lib_str(lib, h->words));
    diag_more(d, "%s. %s", lib_str(lib, h->dose), lib_str(lib, h->advice));
  }
}

/* A name like "Grape" is nobody's food, and what is asked is nobody's bowl. */
static bool is_of_the_bowl(struct span line) { return !span_starts_fold(line, "for:") && !span_starts_fold(line, "# ask:"); }

void app_say_dangers(const struct library *lib, struct diags *d, struct arena *arena) {
  struct library prepared = *lib;
  struct lines lines = lines_of(d->text);
  struct span line;
  prepared.hazards_said = hazard_words_prepare(lib, arena);
  while (lines_next(&lines, &line))
    if (is_of_the_bowl(trim_blanks(line))) say(&prepared, line, lines.number, d, arena);
}
