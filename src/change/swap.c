/* swap.c: every offer judged in the line's place, by the judge itself. */
#include <math.h>

#include "base/table.h"
#include "change/swap.h"
#include "judge/check_steps.h"
#include "judge/exchange.h"

WORD_TABLE(swap_near_word, SWAP_NEARS, "rare", "common", "close");

struct swap {
  struct swap_ask ask;
  struct arena *arena;
  bool by_mass;
  double line_g, line_kcal; /* of the line that goes, on a feeding day; kcal as supplied */
  double trouble_now;
  bool too_fat, too_much; /* of the ration as it is: fat is over its limit; anything is */
  /* [offers] */
  double *grams, *trouble; /* grams NaN: cannot take the place */
  double *over;            /* by how much nutrients are over their limits with it, each as a share of that */
  uint8_t (*verdict)[NUT_COUNT];
};

/* ---- trouble ---------------------------------------------------------------------------------------------------- */

/* The order of worse and better that the answer is sorted by (docs/method/swap.md): a judgement, not a measurement. */
static const double THIN = 0.25, SHORT = 0.5, OVER = 1.0, FAR_BELOW = 0.7;

double swap_trouble(enum verdict v, double worst_share, double rich_share) {
  switch (v) {
  case VERDICT_THIN:
    return THIN;
  case VERDICT_UNPROVEN: /* what nobody knows is no help: as if it were nothing */
    if (worst_share >= FAR_BELOW) return THIN;
    return SHORT + (1 - fmax(0.0, worst_share));
  case VERDICT_SHORT:
    return SHORT + (1 - fmin(1.0, fmax(0.0, worst_share)));
  case VERDICT_OVER:
    return OVER + fmin(1.0, fmax(0.0, rich_share - 1));
  case VERDICT_MET:
  case VERDICT_NO_FIGURE:
  case VERDICT_COUNT:
    break;
  }
  return 0;
}

static double part_of(double x, double whole) { return whole > 0 ? x / whole : (double)NAN; }

double swap_trouble_of(const struct nutrient_result *n) {
  return swap_trouble(n->verdict, part_of(known_part(n->window_amount), n->allowance),
                      part_of(known_part(n->window_high), n->upper));
}

static double excess_of(const struct nutrient_result *n) {
  double rich = part_of(known_part(n->window_high), n->upper);
  return n->verdict == VERDICT_OVER && rich > 1 ? rich - 1 : 0;
}

static double trouble_of(const struct check_result *r) {
  double sum = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &r->nutrient[i];
    sum += swap_trouble_of(n);
  }
  return sum;
}

/* ---- offers ------------------------------------------------------------------------------------------------------ */

/* NaN where it is not known, or known in part only: a lower bound is no measure of what would be equal to it. */
static double kcal_of(const struct swap *s, const struct ration_line *line, struct arena *arena) {
  struct line_energy e = energy_of_line(s->ask.lib, s->ask.animal->species, &s->ask.options, line, arena);
  return energy_is_in_part(e.kcal, e.missing_most) ? (double)NAN : e.kcal;
}

static struct ration_line with_grams(const struct ration_line *offer, double grams) {
  struct ration_line l = *offer;
  double by = part_of(grams, offer->grams_fed);
  for (int k = 0; k < l.part_count; k++) l.part[k].grams *= by;
  l.grams_fed = grams;
  return l;
}

/* A food fed now and then may be more at a time than a day's portion, as long as it is no more over the days. */
static bool is_usual(const struct swap *s, size_t offer, double grams) {
  static const double AT_A_TIME = 3;
  if (!s->ask.most_g) return true;
  double most = s->ask.most_g[offer], often = s->ask.ration->line[s->ask.line].times_per_28 / CALENDAR_DAYS;
  return grams <= AT_A_TIME * most && grams * often <= most;
}

/* As a kitchen scale shows it: whole grams from 5 g on, tenths from 1 g on; of less two digits. */
static double measured(double grams) {
  double step = grams >= 5 ? 1 : grams >= 1 ? 0.1 : pow(10, floor(log10(grams)) - 1);
  return round(grams / step) * step;
}

static double grams_in_place(const struct swap *s, size_t offer, struct arena *scratch) {
  struct ration_line one = with_grams(&s->ask.offer[offer], 1);
  double grams = s->by_mass ? s->line_g : measured(part_of(s->line_kcal, kcal_of(s, &one, scratch)));
  double bulk = s->too_fat ? SWAP_BULK_OF_LEAN : SWAP_BULK;
  return grams > 0 && grams <= bulk * s->line_g && is_usual(s, offer, grams) ? grams : (double)NAN;
}

/* The offer as it would be fed: on the days of the line that goes. */
static struct ration_line in_place(const struct swap *s, size_t offer) {
  const struct ration_line *now = &s->ask.ration->line[s->ask.line];
  struct ration_line in = with_grams(&s->ask.offer[offer], s->grams[offer]);
  in.line = now->line;
  in.times_per_28 = now->times_per_28;
  in.frequency_stated = now->frequency_stated;
  memcpy(in.fed_on, now->fed_on, sizeof in.fed_on);
  return in;
}

struct swap *swap_open(const struct swap_ask *ask, struct arena *arena) {
  if (animal_refusal(ask->animal) != REFUSE_NOT) return NULL;
  struct swap *s = ARENA_NEW(arena, struct swap, 1);
  s->ask = *ask;
  s->arena = arena;
  s->grams = ARENA_NEW(arena, double, ask->offers);
  s->trouble = ARENA_NEW(arena, double, ask->offers);
  s->over = ARENA_NEW(arena, double, ask->offers);
  s->verdict = arena_alloc(arena, ask->offers, sizeof *s->verdict);
  const struct ration_line *line = &ask->ration->line[ask->line];
  s->line_g = line->grams_fed;
  s->line_kcal = kcal_of(s, line, arena);
  s->by_mass = ask->equal_mass || !(s->line_kcal > 0);
  const struct check_result *now = check_numbers(ask->lib, ask->ration, ask->animal, &ask->options, arena);
  s->trouble_now = trouble_of(now);
  s->too_fat = now->nutrient[NUT_FAT].verdict == VERDICT_OVER;
  for (int n = 0; n < NUT_COUNT; n++) s->too_much |= now->nutrient[n].verdict == VERDICT_OVER;
  struct arena scratch;
  arena_init(&scratch, arena->on_full);
  for (size_t i = 0; i < ask->offers; i++) {
    s->grams[i] = grams_in_place(s, i, &scratch);
    arena_free(&scratch);
  }
  return s;
}

void swap_pass(struct swap *s) {
  const struct swap_ask *q = &s->ask;
  struct exchange *x = exchange_open(q->lib, q->ration, q->line, q->animal, &q->options, s->arena);
  for (size_t i = 0; i < q->offers; i++) {
    if (!(s->grams[i] > 0)) continue;
    struct ration_line in = in_place(s, i);
    const struct check_result *r = exchange_line(x, &in);
    for (int n = 0; n < NUT_COUNT; n++) {
      s->verdict[i][n] = (uint8_t)r->nutrient[n].verdict;
      s->over[i] += excess_of(&r->nutrient[n]);
    }
    s->trouble[i] = trouble_of(r);
  }
  exchange_close(x);
}

/* ---- reading ---------------------------------------------------------------------------------------------------- */

bool swap_is_by_mass(const struct swap *s) { return s->by_mass; }
bool swap_energy_is_unknown(const struct swap *s) { return isnan(s->line_kcal); }
double swap_grams(const struct swap *s, size_t offer) { return s->grams[offer]; }
double swap_score(const struct swap *s, size_t offer) { return s->trouble_now - s->trouble[offer]; }

enum verdict swap_verdict(const struct swap *s, size_t offer, enum nutrient n) { return (enum verdict)s->verdict[offer][n]; }

struct ration swap_ration(const struct swap *s, size_t offer, struct arena *arena) {
  struct ration r = *s->ask.ration;
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, r.line_count);
  memcpy(line, r.line, r.line_count * sizeof *line);
  line[s->ask.line] = in_place(s, offer);
  r.line = line;
  return r;
}

size_t swap_possible(const struct swap *s) {
  size_t n = 0;
  for (size_t i = 0; i < s->ask.offers; i++) n += s->grams[i] > 0;
  return n;
}

/* What is too much now is cured first: a food that repairs six other things and leaves that is no answer to it. */
static bool comes_before(const struct swap *s, size_t a, size_t b) {
  if (s->too_much && s->over[a] != s->over[b]) return s->over[a] < s->over[b];
  if (s->trouble[a] != s->trouble[b]) return s->trouble[a] < s->trouble[b];
  if (s->grams[a] != s->grams[b]) return s->grams[a] < s->grams[b];
  return a < b;
}

/* The best of those that are at least so near, of what is not chosen yet. */
static size_t best_of(const struct swap *s, enum swap_near least, const bool *chosen, size_t *offer, size_t most) {
  size_t n = 0;
  for (size_t i = 0; i < s->ask.offers; i++) {
    if (!(s->grams[i] > 0) || chosen[i] || (s->ask.near && s->ask.near[i] < least)) continue;
    if (n == most && (most == 0 || !comes_before(s, i, offer[n - 1]))) continue;
    size_t at = n < most ? n++ : n - 1;
    for (; at > 0 && comes_before(s, i, offer[at - 1]); at--) offer[at] = offer[at - 1];
    offer[at] = i;
  }
  return n;
}

size_t swap_best(const struct swap *s, size_t *offer, enum swap_near *part, size_t most) {
  bool *chosen = ARENA_NEW(s->arena, bool, s->ask.offers);
  size_t n = 0;
  for (int near = s->ask.near ? SWAP_CLOSE : SWAP_RARE; near >= SWAP_RARE; near--) {
    size_t room = near == SWAP_CLOSE ? (most + 1) / 2 : most - n;
    size_t more = best_of(s, (enum swap_near)near, chosen, offer + n, room);
    for (size_t end = n + more; n < end; n++) {
      chosen[offer[n]] = true;
      part[n] = (enum swap_near)near;
    }
  }
  return n;
}
