#include "app/trend_words.h"

#include <math.h>

#include "words/words.h"

static const double SURE = 0.95, LIKELY = 0.8;

struct teller {
  struct app_trend_answer *a;
  const struct trend_result *t;
  const struct app_diary *diary;
  struct arena *arena;
  struct trend_remark *remark;
  size_t cap;
};

static const char *day_words(struct arena *arena, long day) {
  struct buf b;
  buf_init(&b, arena, 16);
  date_print(&b, day);
  return buf_text(&b);
}

/* "17.6 kg"; small animals to the ten grams, large ones to the hundred. */
static const char *kg_words(struct arena *arena, double kg) { return words_text(arena, "%s kg", words_number(arena, kg)); }

/* "0.12 kg", below a tenth "95 g". */
static const char *mass_words(struct arena *arena, double kg) {
  kg = fabs(kg);
  return kg < 0.0995 ? words_text(arena, "%.0f g", kg * 1000) : words_text(arena, "%.2f kg", kg);
}

static const char *owner(const struct teller *w) { return words_called(w->a->animal); }

/* ---- which way the weight goes ------------------------------------------------------------------------------------ */

/* "losing 40 g a week to gaining 20 g", "losing 80 to 120 g a week" */
static const char *rate_range(const struct teller *w) {
  const struct trend_band *r = &w->t->per_week;
  if (r->low < 0 && r->high > 0)
    return words_text(w->arena, "anything from a loss of %s a week to a gain of %s", mass_words(w->arena, r->low),
                      mass_words(w->arena, r->high));
  double less = fmin(fabs(r->low), fabs(r->high)), more = fmax(fabs(r->low), fabs(r->high));
  return words_text(w->arena, "%s to %s", mass_words(w->arena, less), mass_words(w->arena, more));
}

static const char *direction_words(const struct teller *w) {
  const struct trend_result *t = w->t;
  const char *weighs = words_text(w->arena, "%s weighs %s (%s to %s)", owner(w), kg_words(w->arena, t->weight.mean),
                                  words_number(w->arena, t->weight.low), words_number(w->arena, t->weight.high));
  double loss = t->chance_loss, sure = fmax(loss, 1 - loss), share = fabs(t->per_week.mean) / t->weight.mean;
  const char *doing = loss > 0.5 ? "losing" : "gaining";
  const char *over = words_text(w->arena, "over the last %d days", t->rate_days);
  if (sure < LIKELY)
    return words_text(w->arena, "%s. Its weight has no clear direction %s: %s.", weighs, over, rate_range(w));
  return words_text(w->arena, "%s and is %s%s %s a week (%s; %s of its weight) %s. That it is %s is %s sure.", weighs,
                    sure < SURE ? "probably " : "", doing, mass_words(w->arena, t->per_week.mean), rate_range(w),
                    words_share(w->arena, share), over, doing, words_chance(w->arena, sure));
}

/* ---- the need ------------------------------------------------------------------------------------------------------ */

static const char *every(const struct teller *w) {
  int d = w->a->every_days;
  return d == 1 ? "every day" : d == 7 ? "once a week" : words_text(w->arena, "every %d days", d);
}

static const char *wanted_words(const struct teller *w) {
  int surer = w->a->wanted_surer, ten = w->a->wanted_ten;
  if (surer < 0)
    return words_text(w->arena,
                      "Weighed %s, the need would hardly become surer than the equation: weigh more often, at the same "
                      "hour, on the same scale.",
                      every(w));
  const char *first =
      words_text(w->arena, "%s more, %s, with every day's food written down, would make it surer than the equation",
                 surer == 1 ? "One weighing" : words_text(w->arena, "%d weighings", surer), every(w));
  if (ten <= surer || ten < 0) return words_text(w->arena, "%s.", first);
  return words_text(w->arena, "%s; %d would give it to within about 10 %%.", first, ten);
}

static const char *equation_words(const struct teller *w) {
  const struct energy_need *e = &w->a->equation;
  if (!(e->kcal > 0)) return "";
  if (w->a->animal->energy_kcal > 0)
    return words_text(w->arena, "%s kcal a day are stated for it", words_whole(w->arena, e->kcal));
  return words_text(w->arena, "The equation says %s (usual: %s to %s)", words_whole(w->arena, e->kcal),
                    words_whole(w->arena, e->low_kcal), words_whole(w->arena, e->high_kcal));
}

static const char *lack_words(const struct teller *w) {
  const struct trend_result *t = w->t;
  size_t n = t->reading_count > 0 ? t->reading_count : w->diary->in.weight_count;
  switch (t->lack) {
  case TREND_LACKS_WEIGHTS:
    return words_text(w->arena,
                      "There are too few weighings for a trend: %zu where at least %d of the last two years are needed.", n,
                      TREND_LEAST_WEIGHTS);
  case TREND_LACKS_SPAN:
    return words_text(
        w->arena,
        "The weighings are too close together for a trend: at least %d days are needed from the first to the last.",
        TREND_LEAST_SPAN);
  case TREND_LACKS_INTAKE:
    return words_text(
        w->arena, "Its own need cannot be worked out yet: what it ate is known for %zu days, and at least %d are needed.",
        t->known_days, TREND_LEAST_KNOWN);
  case TREND_LACKS_NOTHING:
  case TREND_LACKS:
    break;
  }
  return "";
}

static const char *need_words(const struct teller *w) {
  const struct trend_result *t = w->t;
  const char *equation = equation_words(w);
  if (t->lack != TREND_LACKS_NOTHING)
    return words_text(w->arena, "%s %s%s %s", lack_words(w), equation, equation[0] ? "." : "", wanted_words(w));
  const char *own = words_text(w->arena, "Its own need is %s kcal a day, between %s and %s (nine chances in ten).",
                               words_whole(w->arena, t->need.mean), words_whole(w->arena, fmax(0, t->need.low)),
                               words_whole(w->arena, t->need.high));
  if (w->a->surer)
    return words_text(
        w->arena, "%s %s%s what the journal shows is surer; check, mend and compose use it when they are given the journal.",
        own, equation, equation[0] ? ";" : "");
  return words_text(w->arena, "%s %s%s the journal is not yet as sure as that. %s", own, equation, equation[0] ? ";" : "",
                    wanted_words(w));
}

static const char *eaten_words(const struct teller *w) {
  const struct trend_result *t = w->t;
  if (isnan(t->recent_kcal) && t->recent_known == 0) return "";
  if (isnan(t->recent_kcal))
    return words_text(w->arena, "Only %zu of the last %d days %s known, too few to say what it eats.", t->recent_known,
                      TREND_RECENT_DAYS, t->recent_known == 1 ? "is" : "are");
  const char *ate = words_text(w->arena, "Lately it ate %s kcal a day (%zu of the last %d days are known)",
                               words_whole(w->arena, t->recent_kcal), t->recent_known, TREND_RECENT_DAYS);
  if (isnan(t->balance.mean)) return words_text(w->arena, "%s.", ate);
  if (t->balance.low < 0 && t->balance.high > 0) return words_text(w->arena, "%s: about what it needs.", ate);
  return words_text(w->arena, "%s: %s kcal %s than it needs.", ate, words_whole(w->arena, fabs(t->balance.mean)),
                    t->balance.mean < 0 ? "less" : "more");
}

static const char *ahead_words(const struct teller *w) {
  const struct trend_result *t = w->t;
  if (t->forecast_count == 0) return "";
  const struct trend_forecast *f = &t->forecast[t->forecast_count - 1];
  const char *if_so = isnan(t->forecast_kcal)
                          ? "if it goes on like this"
                          : words_text(w->arena, "on %s kcal a day", words_whole(w->arena, t->forecast_kcal));
  return words_text(
      w->arena, "On %s, %s, it will weigh %s to %s kg; nine in ten readings of this scale will lie between %s and %s.",
      day_words(w->arena, f->day), if_so, words_number(w->arena, f->weight.low), words_number(w->arena, f->weight.high),
      words_number(w->arena, f->reading_low), words_number(w->arena, f->reading_high));
}

/* ---- remarks ------------------------------------------------------------------------------------------------------- */

static void remark(struct teller *w, enum trend_remark_kind kind, enum trend_urgency urgency, const char *text) {
  struct trend_remark r = {kind, urgency, text};
  ARENA_PUSH(w->arena, w->remark, w->a->told.remark_count, w->cap, r);
}

static void remark_rate(struct teller *w) {
  const struct trend_result *t = w->t;
  double share = t->per_week.mean / t->weight.mean;
  bool cat = w->a->animal->species == SPECIES_CAT;
  if (t->chance_loss > LIKELY && -share > w->a->safe_high)
    remark(w, REMARK_LOSS_TOO_FAST, TREND_ACT,
           words_text(
               w->arena,
               "This is faster than is safe: %s of its weight a week, and %s is the most for a %s that is meant to lose. %s",
               words_share(w->arena, -share), words_share(w->arena, w->a->safe_high), cat ? "cat" : "dog",
               cat ? "A cat that eats too little can die of a fatty liver: feed it, and see the veterinarian now, today if "
                     "it refuses food."
                   : "Feed more, and if this was not planned let the veterinarian see it this week."));
  if (t->chance_loss < 1 - LIKELY && share > w->a->safe_high)
    remark(w, REMARK_GAIN_FAST, TREND_WATCH,
           words_text(w->arena,
                      "It gains %s of its weight a week, which is fast for an adult. Is the scale the same? Fluid in the "
                      "belly can look like fat: if nobody fed more, let the veterinarian see it.",
                      words_share(w->arena, share)));
}

static const char *rate_words(const struct teller *w, double kg) {
  return fabs(kg) < 0.0015 * w->t->weight.mean
             ? "steady"
             : words_text(w->arena, "%s %s a week", kg < 0 ? "losing" : "gaining", mass_words(w->arena, kg));
}

static void remark_change(struct teller *w, const struct trend_change *c) {
  const char *what = words_text(w->arena, "The trend changed about %s: before it was %s, since then %s.",
                                day_words(w->arena, c->day), rate_words(w, c->before), rate_words(w, c->after));
  const char *food = "";
  if (!isnan(c->kcal_before) && !isnan(c->kcal_after))
    food = words_text(w->arena, " It ate %s kcal a day before and %s after.", words_whole(w->arena, c->kcal_before),
                      words_whole(w->arena, c->kcal_after));
  if (c->need_changed && c->after < c->before) {
    remark(
        w, REMARK_LOSS_UNEXPLAINED, TREND_ACT,
        words_text(
            w->arena,
            "%s%s The food does not explain it. More exercise or cold may; so may an illness: let the veterinarian see it.",
            what, food));
  } else {
    const char *why =
        c->need_changed
            ? " The food does not explain it: less exercise, neutering or something eaten that nobody wrote down may."
            : "";
    remark(w, REMARK_CHANGE, c->need_changed ? TREND_WATCH : TREND_KNOW, words_text(w->arena, "%s%s%s", what, food, why));
  }
}

static void remark_step(struct teller *w, const struct trend_shift *s) {
  bool loss = s->kg < 0;
  remark(
      w, REMARK_STEP, TREND_WATCH,
      words_text(w->arena,
                 "Between %s and %s all readings %s at once by %s, and go on as before. Was it another scale, %s? Neither "
                 "fat nor muscle %s so fast, so the step is left out of the trend and the need. If it was the animal, let "
                 "the veterinarian see it.",
                 day_words(w->arena, s->before), day_words(w->arena, s->after), loss ? "fall" : "rise",
                 mass_words(w->arena, s->kg), loss ? "or a clip" : "or a harness", loss ? "goes" : "comes"));
}

static void remark_readings(struct teller *w) {
  enum { SHOWN = 5 };
  size_t shown = 0, all = 0;
  for (size_t i = 0; i < w->t->reading_count; i++) {
    const struct trend_reading *r = &w->t->reading[i];
    if (!r->outlier) continue;
    if (all++ >= SHOWN) continue;
    shown++;
    remark(w, REMARK_READING, TREND_WATCH,
           words_text(
               w->arena,
               "%s on %s is far from the %s that the days around it suggest. Was it read or written wrongly? It is kept, "
               "and hardly counts.",
               kg_words(w->arena, r->kg), day_words(w->arena, r->day), kg_words(w->arena, r->kg - r->off_kg)));
  }
  if (all > shown)
    remark(w, REMARK_READING, TREND_WATCH, words_text(w->arena, "%zu more readings are as far off.", all - shown));
}

static void remark_days(struct teller *w) {
  enum { OLD_DAYS = 28 };
  const struct trend_input *in = &w->diary->in;
  const struct trend_result *t = w->t;
  size_t n = in->weight_count;
  while (n > 0 && in->weight[n - 1].day > w->a->told.until) n--;
  if (n > 0 && w->a->told.until - in->weight[n - 1].day > OLD_DAYS)
    remark(w, REMARK_OLD, TREND_WATCH,
           words_text(w->arena, "The last weighing is %ld days old, so what is said about today is uncertain.",
                      w->a->told.until - in->weight[n - 1].day));
  if (t->lack == TREND_LACKS_NOTHING && t->day_count > 0 && 2 * t->known_days < t->day_count)
    remark(w, REMARK_UNKNOWN_DAYS, TREND_WATCH,
           words_text(w->arena,
                      "Only %zu of %zu days have a known intake. If it eats more on the others, its need is higher than it "
                      "looks here.",
                      t->known_days, t->day_count));
  if (w->diary->days_unread > 0)
    remark(w, REMARK_UNREAD_DAYS, TREND_WATCH,
           words_text(w->arena, "On %zu day%s a food was not understood; %s as not known, never as nothing.",
                      w->diary->days_unread, w->diary->days_unread == 1 ? "" : "s",
                      w->diary->days_unread == 1 ? "it counts" : "they count"));
  if (w->diary->days_partly > 0) remark(w, REMARK_PARTLY_DAYS, TREND_WATCH, app_partly_words(w->diary, w->arena));
  if (w->diary->days_far > 0)
    remark(
        w, REMARK_MUCH_EATEN, TREND_WATCH,
        words_text(w->arena,
                   "On %s it ate %.0f kcal, %.0f times as much as usual%s. Is a point missing, or are the days of a batch "
                   "in one line? It counts as not known; put it right with 'correction: ate ...'.",
                   day_words(w->arena, w->diary->far_day), w->diary->far_kcal, w->diary->far_kcal / w->diary->usual_kcal,
                   w->diary->days_far > 1 ? words_text(w->arena, ", and so on %zu more days", w->diary->days_far - 1) : ""));
}

static void remark_weight(struct teller *w) {
  static const double MUCH = 0.05;
  double said = w->a->animal->weight_kg;
  if (!(fabs(said - w->t->weight.mean) > MUCH * w->t->weight.mean)) return;
  if (said >= w->t->weight.low && said <= w->t->weight.high) return;
  remark(w, REMARK_OTHER_WEIGHT, TREND_WATCH,
         words_text(w->arena, "The animal's text says %s. Bring it up to date: needs are reckoned from it.",
                    kg_words(w->arena, said)));
}

void trend_say(struct app_trend_answer *a, const struct app_diary *diary, struct arena *arena) {
  struct teller w = {.a = a, .t = a->told.trend, .diary = diary, .arena = arena};
  bool trend = a->told.trend->day_count > 0;
  a->told.direction = trend ? direction_words(&w) : lack_words(&w);
  if (a->refusal == REFUSE_NOT) {
    a->told.need = trend ? need_words(&w) : wanted_words(&w);
    a->told.eaten = eaten_words(&w);
    a->told.ahead = ahead_words(&w);
  }
  if (trend) {
    remark_rate(&w);
    for (size_t i = a->told.trend->change_count; i-- > 0;) remark_change(&w, &a->told.trend->change[i]);
    for (size_t i = 0; i < a->told.trend->shift_count; i++) remark_step(&w, &a->told.trend->shift[i]);
    remark_readings(&w);
    remark_weight(&w);
  }
  remark_days(&w);
  a->told.remark = w.remark;
}
