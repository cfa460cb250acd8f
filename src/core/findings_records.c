/* Records that fit a line about as well as the one taken, and whether the choice matters; the parts against a ratio. */
#include <math.h>

#include "core/findings_internal.h"

/* The ration with one line's food taken from another record, amounts as they were. */
static const struct check_result *with_other_record(const struct review *r, size_t line, uint32_t food) {
  const struct check_result *now = r->result;
  struct ration *other = ARENA_NEW(r->arena, struct ration, 1);
  struct ration_line *lines = ARENA_NEW(r->arena, struct ration_line, now->ration->line_count);
  memcpy(lines, now->ration->line, now->ration->line_count * sizeof *lines);
  lines[line].part[0].food = food;
  lines[line].shown_food = food;
  *other = *now->ration;
  other->line = lines;
  return check_numbers(r->lib, other, now->animal, &now->options, r->arena);
}

static size_t verdicts_that_change(const struct review *r, const struct check_result *other, struct buf *names) {
  size_t count = 0;
  for (int k = 0; k < NUT_COUNT; k++)
    if (other->nutrient[k].verdict != r->result->nutrient[k].verdict)
      buf_addf(names, "%s%s %s instead of %s", count++ ? ", " : "", nutrient_info[k].name,
               verdict_word[other->nutrient[k].verdict], verdict_word[r->result->nutrient[k].verdict]);
  return count;
}

enum { RIVALS_TRIED = 4 };

static void other_records(struct review *r, size_t line) {
  const struct ration_line *l = &r->result->ration->line[line];
  if (l->pinned || l->part_count != 1) return;
  struct buf pins;
  buf_init(&pins, r->arena, 2048);
  size_t matter = 0;
  for (size_t i = 0; i < l->rival_count && i < RIVALS_TRIED; i++) {
    struct buf names;
    buf_init(&names, r->arena, 512);
    if (verdicts_that_change(r, with_other_record(r, line, l->rivals[i]), &names) == 0) continue;
    buf_addf(&pins, "%s[%s] %s (%s)", matter++ ? "; " : "", library_code(r->lib, l->rivals[i]),
             library_name(r->lib, l->rivals[i]), buf_text(&names));
  }
  struct draft d;
  if (matter == 0 || !draft_begin(&d, r, "other-records", NULL)) return;
  draft_word(&d, "food", line_words(r, (int)line));
  draft_word(&d, "taken", library_name(r->lib, l->shown_food));
  draft_word(&d, "pins", buf_text(&pins));
  draft_text_because(&d, "others", buf_text(&pins));
  draft_number(&d, "line", l->line, "");
  d.severity = (int)line;
  draft_end(&d);
}

/* What a ratio guide would see of this recipe. */
static void ratio_view(struct review *r) {
  const double *p = r->result->parts;
  struct draft d;
  if (!draft_begin(&d, r, "ratio-view", NULL)) return;
  draft_percent(&d, "muscle", p[JP_MUSCLE] + p[JP_FISH]);
  draft_percent(&d, "bone", p[JP_BONE]);
  draft_percent(&d, "liver", p[JP_ORGAN_LIVER]);
  draft_percent(&d, "secreting", p[JP_ORGAN_SECRETING]);
  draft_percent(&d, "rest", fmax(0, 1 - p[JP_MUSCLE] - p[JP_FISH] - p[JP_BONE] - p[JP_ORGAN_LIVER] - p[JP_ORGAN_SECRETING]));
  draft_end(&d);
}

void findings_records(struct review *r) {
  for (size_t i = 0; i < r->result->ration->line_count; i++) other_records(r, i);
  if (r->result->parts[JP_MUSCLE] + r->result->parts[JP_BONE] > 0.5) ratio_view(r);
}
