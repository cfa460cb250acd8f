#include "trend/slim.h"

#include <math.h>

#include "base/table.h"

WORD_TABLE(slim_status_word, SLIM_STATUSES, "found", "not-needed", "a-little", "no-room");

static const double NEAR_IDEAL = 1.02; /* within two per cent the plan is at its end */
static const double ROUNDING = 1e-9;   /* a weight that is a tenth more, to the last digit */
enum { EASY_DAYS = 14, STEP_DAYS = 28, LATELY_DAYS = 7 };

/* The likely animal, the one that loses fastest, and the one that loses slowest. */
enum { LIKELY, FAST, SLOW, ANIMALS };

struct walk {
  const struct slim_input *in;
  double kg[ANIMALS];
};

static double need_of(const struct slim_input *in, int who) {
  return who == FAST ? in->need.high : who == SLOW ? in->need.low : in->need.mean;
}

static double tissue_of(const struct slim_input *in, int who) {
  return who == FAST ? in->tissue_low : who == SLOW ? in->tissue_high : in->tissue_kcal;
}

/* The need follows the weight as metabolic weight does. */
static double need_at(const struct walk *w, int who) {
  return need_of(w->in, who) * pow(w->kg[who] / w->in->weight_kg, w->in->metabolic_exponent);
}

static void one_day(struct walk *w, double kcal) {
  for (int i = 0; i < ANIMALS; i++) w->kg[i] += (kcal - need_at(w, i)) / tissue_of(w->in, i);
}

static double rounded(const struct slim_input *in, double kcal) {
  double up = ceil(in->floor_kcal / in->round_kcal) * in->round_kcal, near = round(kcal / in->round_kcal) * in->round_kcal;
  return fmax(up, near);
}

/* What makes the likely animal lose as is aimed at. */
static double aimed(const struct walk *w) {
  const struct slim_input *in = w->in;
  return need_at(w, LIKELY) - in->rate_aim * w->kg[LIKELY] * in->tissue_kcal / 7;
}

struct plan_writer {
  struct slim_step *step;
  struct slim_weighing *weighing;
  struct slim_plan *out;
  double kcal;
};

static void next_step(struct plan_writer *p, const struct walk *w, int day) {
  double aim = aimed(w), kcal = day == 0 ? 0.5 * (w->in->need.mean + fmax(aim, w->in->floor_kcal)) : aim;
  kcal = rounded(w->in, kcal);
  if (day > 0 && aim < w->in->floor_kcal) p->out->at_floor = true;
  if (day > 0 && kcal >= p->kcal) return;
  p->kcal = kcal;
  p->step[p->out->step_count++] = (struct slim_step){day, kcal};
}

static void weigh(struct plan_writer *p, const struct walk *w, int day) {
  const struct slim_weighing *first = p->out->weighing_count > 0 ? &p->weighing[0] : NULL;
  double safest = first ? first->weight.mean * pow(1 - w->in->rate_high, (day - first->day) / 7.0) : (double)NAN;
  /* What is too light is nothing to expect, however fast the fastest animal may lose: the band ends where that begins. */
  double fastest = safest > w->kg[FAST] ? fmin(safest, w->kg[LIKELY]) : w->kg[FAST];
  struct trend_band b = {w->kg[LIKELY], fastest, w->kg[SLOW]};
  p->weighing[p->out->weighing_count++] = (struct slim_weighing){day, b, safest, p->kcal};
}

static bool is_there(const struct walk *w) { return w->kg[LIKELY] <= w->in->ideal_kg; }

static void walk_down(const struct slim_input *in, struct plan_writer *p) {
  struct walk w = {in, {in->weight_kg, in->weight_kg, in->weight_kg}};
  double full_from = in->weight_kg;
  int day = 0;
  for (; day < SLIM_DAYS_MOST && !is_there(&w); day++) {
    if (day == 0 || (day >= EASY_DAYS && (day - EASY_DAYS) % STEP_DAYS == 0)) next_step(p, &w, day);
    if (day % in->every_days == 0 && day <= in->days_told) weigh(p, &w, day);
    if (day == EASY_DAYS) full_from = w.kg[LIKELY];
    one_day(&w, p->kcal);
    if (day + 1 == EASY_DAYS + LATELY_DAYS) p->out->per_week = 1 - w.kg[LIKELY] / full_from;
  }
  if (day < EASY_DAYS + LATELY_DAYS) p->out->per_week = (1 - w.kg[LIKELY] / in->weight_kg) * 7 / day;
  if (day <= in->days_told) weigh(p, &w, day);
  p->out->days = day;
  p->out->reached = is_there(&w);
  p->out->lowest_kcal = p->kcal;
}

struct slim_plan slim_plan_for(const struct slim_input *in, struct arena *arena) {
  struct slim_plan out = {.status = SLIM_FOUND, .lowest_kcal = (double)NAN, .per_week = (double)NAN};
  if (!(in->weight_kg > NEAR_IDEAL * in->ideal_kg)) {
    out.status = SLIM_NOT_NEEDED;
    return out;
  }
  if (!in->heavy_before && !(in->weight_kg >= (1 + in->start_share) * in->ideal_kg * (1 - ROUNDING))) {
    out.status = SLIM_LITTLE;
    return out;
  }
  if (!(rounded(in, in->floor_kcal) < in->need.mean)) {
    out.status = SLIM_NO_ROOM;
    return out;
  }
  struct plan_writer p = {.out = &out};
  p.step = ARENA_NEW(arena, struct slim_step, SLIM_DAYS_MOST / STEP_DAYS + 3);
  p.weighing = ARENA_NEW(arena, struct slim_weighing, (size_t)(SLIM_DAYS_MOST / in->every_days) + 3);
  walk_down(in, &p);
  out.step = p.step;
  out.weighing = p.weighing;
  return out;
}
