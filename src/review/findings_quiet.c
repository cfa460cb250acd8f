/* The quiet animal: what becomes short when it gets less of the same food, the smallest amount that still does, and how
 * much fat its energy leaves room for. The crossing points are computed in quiet.c, not sampled. */
#include <math.h>

#include "base/num.h"
#include "explain/quiet.h"
#include "review/findings_internal.h"

static const double CUTS[] = {0.9, 0.8, 0.7, 0.6};

static void add_step(const struct review *r, struct buf *b, const struct quiet *q, double share, double before) {
  enum nutrient lost[NUT_COUNT];
  const char *name[NUT_COUNT];
  size_t n = quiet_lost_at(q, r->result, share, lost), fresh = 0;
  for (size_t i = 0; i < n; i++)
    if (!(q->of[lost[i]].met_from > before)) name[fresh++] = words_nutrient(r->arena, lost[i]);
  if (fresh == 0) return;
  buf_addf(b, "%sat %s %s%s", b->n ? "; " : "", words_share(r->arena, share), b->n ? "also " : "",
           list_of_few(r, name, fresh, 4));
}

/* Every recipe that just meets the needs loses them with less of it; only where less is to be expected is that more than a
 * fact about it: an animal that is to lose weight, or gets more than it is thought to need. */
static bool will_get_less(const struct review *r) {
  const struct animal *a = r->result->animal;
  const struct energy_result *e = &r->result->energy;
  return a->ideal_kg < a->weight_kg || e->supply_kcal > row_threshold(r, "energy-high") * e->need.kcal;
}

static void less_food(struct review *r, const struct quiet *q) {
  struct draft d;
  if (q->first_lost == NUT_NONE || !draft_begin(&d, r, "less-food", NULL)) return;
  d.background = true;
  if (r->result->verdict_count[VERDICT_SHORT] > (int)d.row->threshold) return;
  struct buf steps;
  buf_init(&steps, r->arena, 1024);
  double before = INFINITY;
  for (size_t i = 0; i < COUNT_OF(CUTS); i++) {
    add_step(r, &steps, q, CUTS[i], before);
    before = CUTS[i];
  }
  if (steps.n == 0) return; /* nothing is lost down to 60 %: the smallest energy says it */
  draft_word(&d, "steps", buf_text(&steps));
  static const double NEARLY_ALL = 0.99; /* what would read as ">99 %" */
  draft_percent(&d, "until", q->still_met_from);
  draft_word(&d, "below",
             q->still_met_from >= NEARLY_ALL
                 ? "with any less of this food"
                 : words_text(r->arena, "below %s of this food", words_share(r->arena, q->still_met_from)));
  draft_word(&d, "first", words_nutrient(r->arena, q->first_lost));
  draft_text_because(&d, "first_lost", nutrient_info[q->first_lost].key);
  if (!will_get_less(r)) d.weight = FINDING_KNOW;
  draft_end(&d);
}

/* From all of the food down to this share everything holds; or only more of it would. */
static void smallest_energy(struct review *r, const struct quiet *q) {
  if (q->last_met == NUT_NONE || !isfinite(q->smallest_kcal)) return;
  bool room = q->smallest_kcal <= r->result->energy.need.kcal;
  const char *id = room && q->all_met_from <= 1 ? "energy-floor" : "energy-floor-above";
  struct draft d;
  if (!draft_begin(&d, r, id, NULL)) return;
  draft_of(&d, NUT_ENERGY);
  /* Feeding several times the food is no advice. */
  if (!(q->all_met_from < (double)d.row->threshold) && q->all_met_from > 1) return;
  draft_number(&d, "smallest", q->smallest_kcal, "kcal");
  draft_percent(&d, "percent", q->all_met_from);
  draft_word(&d, "last", words_nutrient(r->arena, q->last_met));
  draft_text_because(&d, "decides", nutrient_info[q->last_met].key);
  draft_number(&d, "need", r->result->energy.need.kcal, "kcal");
  if (room) draft_number(&d, "room", q->room_kcal, "kcal");
  if (room && isfinite(q->highest_fat_share)) {
    draft_percent(&d, "fat", q->highest_fat_share);
  } else {
    draft_word(&d, "fat", "no more than now");
  }
  draft_end(&d);
}

void findings_quiet(struct review *r) {
  struct quiet q = quiet_of(r->result);
  if (!q.applies) return;
  less_food(r, &q);
  smallest_energy(r, &q);
}
