/* From the journal's words to days with their kcal, and from there to the need that every verb can use. */
#include "app/measure.h"

#include <math.h>
#include <stdlib.h>

#include "app/week_parts.h"
#include "foods/constant_keys.h"
#include "judge/check_steps.h"
#include "words/words.h"

static const struct span WHOLE_TEXT = {NULL, 0};

struct diary_reader {
  const struct library *lib;
  const struct animal *animal;
  const struct check_options *options;
  struct kitchen kitchen;
  struct diags *d, asides; /* complaints about foods are told as warnings */
  size_t told;
  struct line_energy *of_recipe; /* of a day of each recipe; 0: not worked out, NaN: not known */
  struct arena *arena;
};

/* ---- energy of what was put down --------------------------------------------------------------------------------- */

static struct line_energy of_lines(const struct diary_reader *r, const struct ration_line *line, size_t count,
                                   bool by_calendar) {
  struct line_energy sum = {0, 0};
  for (size_t i = 0; i < count; i++) {
    struct line_energy e = energy_of_line(r->lib, r->animal->species, r->options, &line[i], r->arena);
    double times = by_calendar ? line[i].times_per_28 / CALENDAR_DAYS : 1;
    sum.kcal += e.kcal * times;
    sum.missing_most += e.missing_most * times;
  }
  return sum;
}

static struct line_energy energy_served(struct diary_reader *r, const struct served *s) {
  if (s->recipe < 0) return of_lines(r, s->line, s->line_count, false);
  struct line_energy *day = &r->of_recipe[s->recipe];
  const struct ration *ration = &r->kitchen.recipe[s->recipe].ration;
  if (day->kcal == 0 && day->missing_most == 0) {
    *day = of_lines(r, ration->line, ration->line_count, true);
    if (ration->uncounted_count > 0) day->kcal = (double)NAN;
  }
  return (struct line_energy){day->kcal * s->times, day->missing_most * s->times};
}

/* What the kitchen complained about the last thing, as warnings of the journal. */
static void tell_asides(struct diary_reader *r) {
  for (; r->told < r->asides.count; r->told++) {
    const struct diag *x = &r->asides.item[r->told];
    diag_again(r->d, x, DIAG_WARNING, x->level == DIAG_ERROR ? "That day counts as not known" : "");
  }
}

static double kcal_of_day(struct diary_reader *r, const struct dated_intake *day, struct app_diary *out) {
  double kcal = 0, grams = 0, missing_most = 0, most = 0;
  struct span most_from = WHOLE_TEXT;
  bool unread = false, unknown = day->unknown || day->left_unknown;
  for (size_t i = 0; i < day->item_count; i++) {
    if (day->item[i]->unknown) continue;
    const struct served *s = kitchen_serve(&r->kitchen, day->item[i], &r->asides);
    if (!s) unread = true;
    struct line_energy e = s ? energy_served(r, s) : (struct line_energy){NAN, 0};
    kcal += e.kcal;
    missing_most += e.missing_most;
    if (e.missing_most > most) {
      most = e.missing_most;
      most_from = day->item[i]->whole;
    }
    grams += s ? s->grams : 0;
  }
  tell_asides(r);
  out->days_unread += unread;
  out->days_in_part += unknown;
  double eaten = 1 - day->left_share - (grams > 0 ? day->left_g / grams : 0);
  if (unknown || unread) return (double)NAN;
  /* What is not known of a food's energy is no nothing: the animal has had that as well. */
  if (energy_is_in_part(kcal, missing_most)) {
    if (out->days_partly++ == 0) out->partly_from = arena_text(r->arena, most_from);
    return (double)NAN;
  }
  return kcal * fmax(0, eaten);
}

/* ---- the diary ---------------------------------------------------------------------------------------------------- */

/* Which of the journal's animals: the one of that name; without a name the only one. */
static int find_in_journal(const struct journal *j, const struct animal *animal, enum diag_level level, struct diags *d,
                           struct arena *arena) {
  int at = animal->name[0] ? journal_animal(j, span_of(animal->name)) : j->name_count == 1 ? 0 : -1;
  if (at >= 0) return at;
  if (j->name_count == 0)
    diag_say(d, level, DIAG_EMPTY, WHOLE_TEXT,
             "nothing is written down yet; write a line such as '2026-11-02 Juniper weighs 18.2 kg'");
  else if (animal->name[0])
    diag_say(d, level, DIAG_NOT_FOUND, WHOLE_TEXT, "there is no animal '%s' in this journal; it has %s", animal->name,
             words_list(arena, j->name, j->name_count, 8));
  else
    diag_say(d, level, DIAG_WHICH_ANIMAL, WHOLE_TEXT, "which animal? name one that the journal has: %s",
             words_list(arena, j->name, j->name_count, 8));
  return -1;
}

static void fill_weights(struct app_diary *out, struct arena *arena) {
  size_t count = 0, kept = 0;
  const struct dated_weight *w = journal_weights(out->journal, out->animal, &count, arena);
  struct trend_weight *weight = ARENA_NEW(arena, struct trend_weight, count + 1);
  struct dated_weight *from = ARENA_NEW(arena, struct dated_weight, count + 1);
  for (size_t i = 0; i < count; i++) {
    if (!(w[i].kg > 0)) continue;
    from[kept] = w[i];
    weight[kept++] = (struct trend_weight){w[i].day, w[i].kg};
  }
  out->weight = from;
  out->in.weight = weight;
  out->in.weight_count = kept;
}

static int by_kcal(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* A point left out makes ten days of one, and a stomach does not hold them: such a day is told, and not known. */
static void doubt_intakes(struct app_diary *out, struct trend_intake *intake, struct arena *arena) {
  static const double FAR_TIMES = 5;
  size_t known = 0;
  double *kcal = ARENA_NEW(arena, double, out->in.intake_count + 1);
  for (size_t i = 0; i < out->in.intake_count; i++)
    if (intake[i].kcal > 0) kcal[known++] = intake[i].kcal;
  if (known < TREND_LEAST_KNOWN) return;
  qsort(kcal, known, sizeof *kcal, by_kcal);
  out->usual_kcal = kcal[known / 2];
  for (size_t i = 0; i < out->in.intake_count; i++) {
    if (!(intake[i].kcal > FAR_TIMES * out->usual_kcal)) continue;
    if (out->days_far++ == 0) {
      out->far_day = intake[i].day;
      out->far_kcal = intake[i].kcal;
    }
    intake[i].kcal = (double)NAN;
  }
}

static void fill_intakes(struct diary_reader *r, struct app_diary *out) {
  size_t count = 0;
  const struct dated_intake *day = journal_intakes(out->journal, out->animal, &count, r->arena);
  struct trend_intake *intake = ARENA_NEW(r->arena, struct trend_intake, count + 1);
  for (size_t i = 0; i < count; i++) intake[i] = (struct trend_intake){day[i].day, kcal_of_day(r, &day[i], out)};
  out->in.intake = intake;
  out->in.intake_count = count;
  doubt_intakes(out, intake, r->arena);
}

static void fill_span(struct app_diary *out) {
  const struct trend_input *in = &out->in;
  if (in->weight_count > 0) {
    out->first = in->weight[0].day;
    out->last = in->weight[in->weight_count - 1].day;
  }
  if (in->intake_count == 0) return;
  if (out->first == 0 || in->intake[0].day < out->first) out->first = in->intake[0].day;
  if (in->intake[in->intake_count - 1].day > out->last) out->last = in->intake[in->intake_count - 1].day;
}

void app_journal_only(const struct app_check_request *q, const char *name, struct journal_known *known,
                      struct arena *arena) {
  struct animal *all = NULL;
  size_t count = 0;
  struct diags aside; /* whoever asks for the animal tells what is wrong with its text */
  if (!name || !name[0] || q->one_off || q->animals.text.n == 0) return;
  diags_init(&aside, arena, q->animals.name, q->animals.text);
  if (!app_animals(&q->animals, q->ask.today, &aside, &all, &count, arena)) return;
  const char **other = ARENA_NEW(arena, const char *, count + 1);
  for (size_t i = 0; i < count; i++)
    if (!span_eq_fold(span_of(all[i].name), span_of(name))) other[known->other_count++] = all[i].name;
  known->only = name;
  known->other = other;
}

bool app_read_diary(const struct library *lib, const struct app_check_request *q, const struct animal *animal,
                    enum diag_level level, struct app_diary *out, struct diags *d, struct arena *arena) {
  struct journal *j = ARENA_NEW(arena, struct journal, 1);
  struct journal_known known = {.today = q->ask.today.year > 0 ? date_days(q->ask.today) : 0};
  const struct img_constant *tissue = library_constant(lib, K_TISSUE_ENERGY, animal->species);
  *out = (struct app_diary){.journal = j};
  struct journal_known own = known;
  app_journal_only(q, animal->name, &own, arena);
  if (!journal_read(q->journal->text.text, &own, d, j, arena)) return false;
  /* Of an animal that is not in it, it is told which ones are. */
  if (own.only && journal_animal(j, span_of(own.only)) < 0 && !journal_read(q->journal->text.text, &known, d, j, arena))
    return false;
  out->animal = find_in_journal(j, animal, level, d, arena);
  if (out->animal < 0) return false;
  out->in.planned_kcal = (double)NAN;
  out->in.tissue_kcal = tissue ? tissue->value : (double)NAN;
  out->in.tissue_low = tissue ? tissue->low : (double)NAN;
  out->in.tissue_high = tissue ? tissue->high : (double)NAN;
  out->in.metabolic_exponent = library_constant_value(lib, K_METABOLIC_EXPONENT, animal->species);
  out->in.until = known.today;
  fill_weights(out, arena);
  struct app_week_request texts = {
      .check = *q, .recipe = q->journal->recipe, .count = q->journal->count, .named = q->journal->named};
  struct diary_reader r = {.lib = lib, .animal = animal, .options = &q->ask.check, .d = d, .arena = arena};
  diags_init(&r.asides, arena, q->journal->text.name, q->journal->text.text);
  kitchen_open(&r.kitchen, lib, &texts, ARENA_NEW(arena, struct diags, texts.count + 1), arena);
  kitchen_for(&r.kitchen, animal);
  r.of_recipe = ARENA_NEW(arena, struct line_energy, texts.count + 1);
  fill_intakes(&r, out);
  fill_span(out);
  return true;
}

const char *app_partly_words(const struct app_diary *diary, struct arena *arena) {
  size_t n = diary->days_partly;
  if (n == 0) return "";
  return words_text(arena,
                    "On %zu day%s something was eaten whose energy is not fully known (“%s”); %s as not known. State the "
                    "food's energy, or its protein, fat and carbohydrate.",
                    n, n == 1 ? "" : "s", diary->partly_from, n == 1 ? "it counts" : "they count");
}

/* ---- the need ------------------------------------------------------------------------------------------------------ */

double app_equation_half(const struct library *lib, enum species species) {
  return normal_quantile(0.95) * library_constant_value(lib, K_ENERGY_SD_SHARE, species);
}

bool app_is_surer(const struct library *lib, enum species species, const struct trend_result *t) {
  return (t->need.high - t->need.low) / 2 < app_equation_half(lib, species) * t->need.mean && t->need.low > 0;
}

const struct measured_energy *app_measured(const struct library *lib, enum species species, const struct app_diary *diary,
                                           const struct trend_result *t, struct arena *arena) {
  if (!app_is_surer(lib, species, t)) return NULL;
  struct measured_energy *m = ARENA_NEW(arena, struct measured_energy, 1);
  struct buf day;
  buf_init(&day, arena, 16);
  date_print(&day, diary->in.weight[diary->in.weight_count - 1].day);
  *m = (struct measured_energy){t->need.mean, t->need.low, t->need.high,
                                words_text(arena, "from the journal: %zu weighings to %s and %zu days of food",
                                           t->reading_count, buf_text(&day), t->known_days)};
  return m;
}

bool app_measure_animal(const struct library *lib, const struct app_check_request *q, const struct animal **animal,
                        struct diags *d, struct arena *arena) {
  const struct trend_result *trend;
  return app_measure_by_trend(lib, q, animal, &trend, d, arena);
}

bool app_measure_by_trend(const struct library *lib, const struct app_check_request *q, const struct animal **animal,
                          const struct trend_result **trend, struct diags *d, struct arena *arena) {
  struct app_diary diary;
  *trend = NULL;
  if (!q->journal || !*animal || (*animal)->measured || animal_refusal(*animal) != REFUSE_NOT) return true;
  if (!app_read_diary(lib, q, *animal, DIAG_WARNING, &diary, d, arena)) return d->errors == 0;
  if (diary.days_partly > 0) diag_say(d, DIAG_WARNING, DIAG_ASSUMED, WHOLE_TEXT, "%s", app_partly_words(&diary, arena));
  const struct trend_result *t = *trend = trend_estimate(&diary.in, arena);
  const struct measured_energy *m = app_measured(lib, (*animal)->species, &diary, t, arena);
  if (!m) {
    diag_say(
        d, DIAG_WARNING, DIAG_ASSUMED, WHOLE_TEXT,
        "the journal does not yet say what %s needs more surely than the equation does, so the %s is used ('trend' says "
        "what is missing)",
        words_called(*animal), (*animal)->energy_kcal > 0 ? "stated energy" : "equation");
    return true;
  }
  struct animal *own = ARENA_NEW(arena, struct animal, 1);
  *own = **animal;
  own->measured = m;
  *animal = own;
  return true;
}
