/* Records that fit a line about as well as the one taken, and whether the choice matters; the parts against a ratio. */
#include <math.h>

#include "review/findings_internal.h"

/* The ration with one line's food taken from another record, amounts as they were: its sums. */
static const struct check_result *with_other_record(const struct review *r, struct exchange *x, size_t line, uint32_t food) {
  struct ration_line other = r->result->ration->line[line];
  other.part[0].food = food;
  other.shown_food = food;
  return exchange_sums(x, &other);
}

/* A record that merely lacks a value teaches nothing: only verdicts on figures count. */
static bool teaches(enum verdict now, enum verdict other) {
  return now != other && other != VERDICT_UNPROVEN && other != VERDICT_NO_FIGURE;
}

/* A choice that makes nothing short or over is a doubt about certainty, as there are many near a border. */
static bool is_grave(enum verdict v) { return v == VERDICT_SHORT || v == VERDICT_OVER; }

/* "zinc short, iron met" under the other record. */
static size_t verdicts_that_change(const struct review *r, struct exchange *x, const struct check_result *other,
                                   const char **words, bool *grave) {
  size_t count = 0;
  exchange_judge(x, 0, NUT_COUNT);
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &other->nutrient[k];
    if (isnan(n->allowance) && isnan(n->upper)) continue; /* no figure, no verdict */
    n = exchange_nutrient(x, (enum nutrient)k);
    if (!teaches(r->result->nutrient[k].verdict, n->verdict)) continue;
    *grave |= is_grave(n->verdict) || is_grave(r->result->nutrient[k].verdict);
    struct buf b;
    buf_init(&b, r->arena, 96);
    buf_addf(&b, "%s %s", words_nutrient(r->arena, (enum nutrient)k), verdict_word[n->verdict]);
    words[count++] = buf_text(&b);
  }
  return count;
}

enum { RIVALS_TRIED = 4, RIVALS_NAMED = 2, CHANGES_NAMED = 2 };

/* Names those of the rivals that matter; their number. */
static size_t rivals_that_matter(struct review *r, struct exchange *x, size_t line, struct draft *d, struct buf *list,
                                 bool *grave) {
  const struct ration_line *l = &r->result->ration->line[line];
  size_t matter = 0;
  for (size_t i = 0; i < l->rival_count && i < RIVALS_TRIED; i++) {
    const char *changed[NUT_COUNT], *code = library_code(r->lib, l->rivals[i]);
    size_t n = verdicts_that_change(r, x, with_other_record(r, x, line, l->rivals[i]), changed, grave);
    if (n == 0) continue;
    draft_text_because(d, "others", code);
    if (matter == 0)
      buf_addf(list, "%s%s (taken: %s)", list->n ? "; " : "", line_words(r, (int)line), library_name(r->lib, l->shown_food));
    if (matter++ < RIVALS_NAMED)
      buf_addf(list, "%s [%s] %s would make %s", matter == 1 ? ":" : ", and", code, library_name(r->lib, l->rivals[i]),
               list_of_few(r, changed, n, CHANGES_NAMED));
  }
  return matter;
}

/* Adds one line's doubt: which record was taken, and which pins would say something else. */
static bool other_records(struct review *r, size_t line, struct draft *d, struct buf *list, bool *grave) {
  const struct check_result *now = r->result;
  const struct ration_line *l = &now->ration->line[line];
  if (l->pinned || l->part_count != 1 || l->rival_count == 0) return false;
  struct arena scratch;
  arena_init(&scratch, r->arena->on_full);
  struct exchange *x = exchange_open(r->lib, now->ration, line, now->animal, &now->options, &scratch);
  size_t matter = rivals_that_matter(r, x, line, d, list, grave);
  exchange_close(x);
  arena_free(&scratch);
  if (matter > RIVALS_NAMED) buf_addf(list, ", and %zu more", matter - RIVALS_NAMED);
  if (matter > 0) draft_number_because(d, "line", l->line, "");
  return matter > 0;
}

static void records_that_matter(struct review *r) {
  struct draft d;
  struct buf list;
  size_t count = 0;
  bool grave = false;
  if (!draft_begin(&d, r, "other-records", NULL)) return;
  d.background = true;
  buf_init(&list, r->arena, 8192);
  for (size_t i = 0; i < r->result->ration->line_count; i++) count += other_records(r, i, &d, &list, &grave);
  if (count == 0) return;
  if (!grave) d.weight = FINDING_KNOW;
  draft_word(&d, "list", buf_text(&list));
  draft_end(&d);
}

/* What a ratio guide would see of this recipe. */
static void ratio_view(struct review *r) {
  const double *p = r->result->parts;
  struct draft d;
  if (!draft_begin(&d, r, "ratio-view", NULL)) return;
  draft_percent(&d, "muscle", p[BOWL_MUSCLE] + p[BOWL_FISH]);
  draft_percent(&d, "bone", p[BOWL_BONE]);
  draft_percent(&d, "liver", p[BOWL_ORGAN_LIVER]);
  draft_percent(&d, "secreting", p[BOWL_ORGAN_SECRETING]);
  draft_percent(&d, "rest",
                fmax(0, 1 - p[BOWL_MUSCLE] - p[BOWL_FISH] - p[BOWL_BONE] - p[BOWL_ORGAN_LIVER] - p[BOWL_ORGAN_SECRETING]));
  draft_end(&d);
}

void findings_records(struct review *r) {
  records_that_matter(r);
  if (r->result->parts[BOWL_MUSCLE] + r->result->parts[BOWL_BONE] > 0.5) ratio_view(r);
}
