/* swap_bench.c: every food of the library in one line of a ration, by the judge's form for that, by whole checks, and by a
 * plain pass: for each food and nutrient the amount on each day, every window, the spread in the poorest and the richest,
 * the word, and nothing remembered from one food to the next.
 *
 * Usage: swap_bench LIBRARY. Prints milliseconds and microseconds a food of all three, best of several runs in one process,
 * and the ratios. The ration is twelve plain foods (fixed seed) for an 18 kg dog: all fed daily; another food twice a week,
 * so that windows are looked at; the exchanged one twice a week. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bench/bench_kit.h"
#include "judge/exchange.h"
#include "judge/verdict.h"

enum { LINES = 12, RUNS = 7 };

static uint64_t seed = 20260711;
static uint32_t draw(uint32_t below) {
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  return (uint32_t)(((seed >> 32) * below) >> 32);
}

static struct ration_line line_of(uint32_t food, double grams) {
  struct ration_line l = {
      .text = "", .part_count = 1, .grams_fed = grams, .shown_food = food, .state = STATE_UNSTATED, .grams_from = ""};
  l.part[0] = (struct portion){.food = food, .grams = grams, .retention = -1};
  ration_spread_days(&l, CALENDAR_DAYS, 0);
  return l;
}

struct took {
  double exchange, whole, plain; /* seconds */
};

static double best_of(double a, double b) { return a < b ? a : b; }

/* ---- the plain pass ---- */

struct plain_window {
  int first;
  double amount;
};

static double sum_of_days(const double day[CALENDAR_DAYS], int first, int days) {
  double sum = 0;
  for (int k = 0; k < days; k++) sum += day[(first + k) % CALENDAR_DAYS];
  return sum / days;
}

static double per_gram(const struct img_value *v) { return v->status == VALUE_UNKNOWN ? 0 : (double)v->mean / 100; }

static double cv_in(const struct library *lib, const struct ration *r, int n, struct plain_window w, int days) {
  double variance = 0;
  for (size_t i = 0; i < r->line_count; i++) {
    const struct portion *p = &r->line[i].part[0];
    const struct img_value *v = &library_values(lib, p->food)[n];
    int fed = 0;
    for (int k = 0; k < days; k++) fed += r->line[i].fed_on[(w.first + k) % CALENDAR_DAYS];
    double x = p->grams * fed / days * per_gram(v) * (double)img_cv(*v);
    variance += v->status == VALUE_UNKNOWN ? 0 : x * x;
  }
  return w.amount > 0 ? sqrt(variance) / w.amount : 0;
}

static bool plainly_met(const struct library *lib, const struct ration *r, const struct nutrient_result *n) {
  double day[CALENDAR_DAYS] = {0};
  struct plain_window worst = {0, INFINITY}, rich = {0, -INFINITY};
  for (size_t i = 0; i < r->line_count; i++) {
    const struct portion *p = &r->line[i].part[0];
    double x = p->grams * per_gram(&library_values(lib, p->food)[n->id]);
    for (int d = 0; d < CALENDAR_DAYS; d++) day[d] += r->line[i].fed_on[d] ? x : 0;
  }
  for (int first = 0; first < CALENDAR_DAYS; first++) {
    double amount = sum_of_days(day, first, n->window_days);
    if (amount < worst.amount) worst = (struct plain_window){first, amount};
    if (amount > rich.amount) rich = (struct plain_window){first, amount};
  }
  struct limits l = {n->minimum, n->allowance, n->upper, n->upper_greater_than};
  struct supply s = {worst.amount, cv_in(lib, r, (int)n->id, worst, n->window_days), worst.amount,
                     rich.amount,  cv_in(lib, r, (int)n->id, rich, n->window_days),  rich.amount};
  return verdict_of(&l, &s, CHECK_OPTIONS_DEFAULT.sure).verdict == VERDICT_MET;
}

/* ---- all three ---- */

struct bowl {
  const struct library *lib;
  const struct animal *dog;
  struct ration ration;
  struct ration_line line[LINES];
};

static void put(struct bowl *b, uint32_t food) {
  struct ration_line in = line_of(food, 60);
  memcpy(in.fed_on, b->line[0].fed_on, sizeof in.fed_on);
  b->line[0] = in;
}

struct counted {
  long met, zinc;
};

static void count(struct counted *c, const struct check_result *r) {
  c->met += r->verdict_count[VERDICT_MET];
  c->zinc += r->nutrient[NUT_ZINC].verdict == VERDICT_MET;
}

static struct counted by_exchange(struct bowl *b, uint32_t foods, struct arena *arena) {
  struct counted c = {0, 0};
  struct exchange *x = exchange_open(b->lib, &b->ration, 0, b->dog, &CHECK_OPTIONS_DEFAULT, arena);
  for (uint32_t f = 0; f < foods; f++) {
    put(b, f);
    count(&c, exchange_line(x, &b->line[0]));
  }
  exchange_close(x);
  return c;
}

static struct counted by_checks(struct bowl *b, uint32_t foods, struct arena *arena) {
  struct counted c = {0, 0};
  for (uint32_t f = 0; f < foods; f++) {
    put(b, f);
    count(&c, check_numbers(b->lib, &b->ration, b->dog, &CHECK_OPTIONS_DEFAULT, arena));
    arena_free(arena);
  }
  return c;
}

static struct counted by_plain_pass(struct bowl *b, uint32_t foods, struct arena *arena) {
  struct counted c = {0, 0};
  const struct check_result *figures = check_numbers(b->lib, &b->ration, b->dog, &CHECK_OPTIONS_DEFAULT, arena);
  for (uint32_t f = 0; f < foods; f++) {
    put(b, f);
    for (int n = 0; n < NUT_COUNT; n++) {
      bool met = plainly_met(b->lib, &b->ration, &figures->nutrient[n]);
      c.met += met;
      if (n == NUT_ZINC) c.zinc += met;
    }
  }
  return c;
}

typedef struct counted pass(struct bowl *b, uint32_t foods, struct arena *arena);

static struct counted timed(pass *way, struct bowl b, double *best) {
  struct arena arena;
  arena_init(&arena, NULL);
  b.ration.line = b.line;
  double start = bench_seconds(CLOCK_PROCESS_CPUTIME_ID);
  struct counted c = way(&b, (uint32_t)library_count(b.lib), &arena);
  *best = best_of(*best, bench_seconds(CLOCK_PROCESS_CPUTIME_ID) - start);
  arena_free(&arena);
  return c;
}

/* Whole checks must count the same; the plain pass knows no sums of nutrients and no adjustments, but zinc needs neither. */
static struct took measure(const struct bowl *b) {
  struct took t = {INFINITY, INFINITY, INFINITY};
  for (int run = 0; run < RUNS; run++) {
    struct counted a = timed(by_exchange, *b, &t.exchange), c = timed(by_checks, *b, &t.whole);
    struct counted plain = timed(by_plain_pass, *b, &t.plain);
    if (a.met != c.met || a.zinc != c.zinc || a.zinc != plain.zinc) {
      fprintf(stderr, "met %ld and %ld, zinc %ld, %ld and %ld\n", a.met, c.met, a.zinc, c.zinc, plain.zinc);
      exit(1);
    }
  }
  return t;
}

static void show_ratio(const char *what, double ours, const char *baseline, double theirs, double foods) {
  printf("%s: %.0f ms for %.0f foods (%.1f us each); %s %.0f ms (%.1f us); ratio %.2f\n", what, 1e3 * ours, foods,
         1e6 * ours / foods, baseline, 1e3 * theirs, 1e6 * theirs / foods, theirs / ours);
}

static void show(const char *what, const struct bowl *b) {
  struct took t = measure(b);
  double foods = (double)library_count(b->lib);
  show_ratio(what, t.exchange, "whole checks", t.whole, foods);
  show_ratio(what, t.exchange, "plain pass", t.plain, foods);
}

int main(int argc, char **argv) {
  if (argc != 2) return 2;
  struct library lib = bench_library(argv[1]);
  struct bowl b = {.lib = &lib, .ration = {.name = "", .days = 1, .meals_per_day = NAN, .line_count = LINES}};
  for (int i = 0; i < LINES;) {
    uint32_t f = draw((uint32_t)library_count(&lib));
    if (library_food(&lib, f)->flags & FOOD_PLAIN) b.line[i++] = line_of(f, 10 + draw(90));
  }
  struct animal dog = animal_plain(SPECIES_DOG, 18);
  dog.age_years = 6;
  dog.neutered = 1;
  b.dog = &dog;
  show("fed daily", &b);
  ration_spread_days(&b.line[LINES - 1], 8, 0);
  show("another food twice a week", &b);
  ration_spread_days(&b.line[LINES - 1], CALENDAR_DAYS, 0);
  ration_spread_days(&b.line[0], 8, 0);
  show("itself twice a week", &b);
  return 0;
}
