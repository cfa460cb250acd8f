/* What a journal says was eaten, as days of food. docs/manual/week.md, docs/method/time.md. */
#include <math.h>

#include "app/week_parts.h"
#include "base/num.h"
#include "text/scan.h"
#include "words/words.h"

struct reading {
  struct kitchen *k;
  const struct journal *journal;
  struct diags *d;
  bool spread; /* some line of a recipe is not fed every day, and the journal does not say when it was */
};

/* The entry of this line, for complaints; entries stand in the order of their lines, and lines of other animals are none. */
static struct span line_at(const struct reading *r, int line) {
  size_t from = 0, to = r->journal->entry_count;
  while (from < to) {
    size_t middle = from + (to - from) / 2;
    if (r->journal->entry[middle].line < line)
      from = middle + 1;
    else
      to = middle;
  }
  bool there = from < r->journal->entry_count && r->journal->entry[from].line == line;
  return there ? r->journal->entry[from].whole : (struct span){NULL, 0};
}

/* The share of what was put down that was eaten; NaN when it is not known. */
static double share_eaten(const struct reading *r, const struct dated_intake *in, double grams) {
  double left = in->left_share;
  if (in->left_unknown) return (double)NAN;
  if (in->left_g > 0) left += in->left_g / grams;
  if (left <= 1 + 1e-9) return left < 1 ? 1 - left : 0;
  struct buf b;
  buf_init(&b, r->k->arena, 64);
  num_fixed(&b, grams, 0);
  diag_say(r->d, DIAG_WARNING, DIAG_DOUBTFUL, line_at(r, in->item_count > 0 ? in->item_line[0] : 0),
           "more was left on this day than was put down (%s g); the day is taken as not known", buf_text(&b));
  return (double)NAN;
}

static bool add_item(struct reading *r, const struct served *s, int weekday, double share, struct fed **fed, size_t *count,
                     size_t *cap) {
  struct kitchen_recipe *recipe = s->recipe >= 0 ? &r->k->recipe[s->recipe] : NULL;
  const struct ration_line *line = recipe ? recipe->ration.line : s->line;
  size_t lines = recipe ? recipe->ration.line_count : s->line_count;
  for (size_t i = 0; i < lines; i++) {
    double times = s->times * share;
    if (recipe && line[i].times_per_28 < CALENDAR_DAYS && kitchen_names_days(recipe, i)) {
      times *= line[i].fed_on[weekday];
    } else if (recipe && line[i].times_per_28 < CALENDAR_DAYS) {
      times *= line[i].times_per_28 / CALENDAR_DAYS;
      r->spread = true;
    }
    if (times > 0) ARENA_PUSH(r->k->arena, *fed, *count, *cap, ((struct fed){&line[i], times}));
  }
  return recipe && recipe->ration.uncounted_count > 0;
}

static const char *menu_of(struct kitchen *k, const struct dated_intake *in) {
  struct buf b;
  buf_init(&b, k->arena, 1024);
  if (in->item_count == 0) return "nothing";
  if (in->item_count == 1) return arena_text(k->arena, in->item[0]->whole);
  for (size_t i = 0; i < in->item_count; i++) {
    buf_adds(&b, i > 0 ? "; " : "");
    buf_add(&b, in->item[i]->whole);
  }
  return buf_text(&b);
}

/* False when something of it is not understood. */
static bool fill_day(struct reading *r, const struct dated_intake *in, struct day_of_food *out) {
  const struct served *served[64];
  size_t n = 0, cap = 0;
  double grams = 0;
  *out = (struct day_of_food){.date = in->day, .known = true, .uncounted = in->unknown, .menu = menu_of(r->k, in)};
  for (size_t i = 0; i < in->item_count; i++) {
    const struct journal_item *item = in->item[i];
    if (item->unknown) continue;
    const struct served *s = kitchen_serve(r->k, item, r->d);
    if (!s) return false;
    if (n == COUNT_OF(served)) {
      diag_say(r->d, DIAG_ERROR, DIAG_LIMIT, item->whole, "more than %zu things on one day are not read", COUNT_OF(served));
      return false;
    }
    served[n++] = s;
    grams += s->grams;
  }
  double share = share_eaten(r, in, grams);
  bool only_unknown = n == 0 && in->unknown;
  out->known = !isnan(share) && !only_unknown;
  if (!out->known) return true;
  struct fed *fed = NULL;
  for (size_t i = 0; i < n; i++)
    if (add_item(r, served[i], date_weekday(in->day), share, &fed, &out->count, &cap)) out->uncounted = true;
  out->fed = fed;
  return true;
}

/* What was eaten and not counted, told once for each way in which it is written. */
static void collect_uncounted(struct reading *r, const struct dated_intake *in, size_t count, struct days_of_food *out) {
  enum { MOST = 20 };
  struct ration_uncounted *list = ARENA_NEW(r->k->arena, struct ration_uncounted, MOST);
  for (size_t d = 0; d < count; d++)
    for (size_t i = 0; i < in[d].item_count && out->uncounted_count < MOST; i++) {
      const struct journal_item *item = in[d].item[i];
      bool told = !item->unknown;
      for (size_t k = 0; k < out->uncounted_count && !told; k++) told = span_is(item->food, list[k].text);
      if (told) continue;
      list[out->uncounted_count++] =
          (struct ration_uncounted){.line = in[d].item_line[i], .text = arena_text(r->k->arena, item->food)};
    }
  out->uncounted = list;
}

bool week_days_of_journal(struct kitchen *k, const struct journal *j, int animal, struct diags *d, struct days_of_food *out,
                          bool *spread) {
  size_t count;
  struct reading r = {.k = k, .journal = j, .d = d};
  const struct dated_intake *in = journal_intakes(j, animal, &count, k->arena);
  const struct date *since = &k->q->check.ask.since, *until = &k->q->check.ask.until;
  while (count > 0 && since->year > 0 && in[0].day < date_days(*since)) {
    in++;
    count--;
  }
  while (count > 0 && until->year > 0 && in[count - 1].day > date_days(*until)) count--;
  *out = (struct days_of_food){.name = words_text(k->arena, "What %s ate", j->name[animal])};
  *spread = false;
  if (count == 0) return true;
  long first = in[0].day, last = in[count - 1].day;
  if (last - first >= JOURNAL_DAYS_MOST) {
    diag_say(d, DIAG_ERROR, DIAG_PERIOD, (struct span){NULL, 0}, "more than %d days are not judged at once",
             JOURNAL_DAYS_MOST);
    return false;
  }
  struct day_of_food *day = ARENA_NEW(k->arena, struct day_of_food, (size_t)(last - first + 1));
  for (long i = first; i <= last; i++) day[i - first] = (struct day_of_food){.menu = "", .date = i};
  bool fine = true;
  for (size_t i = 0; i < count; i++) fine = fill_day(&r, &in[i], &day[in[i].day - first]) && fine;
  out->day = day;
  out->days = (int)(last - first + 1);
  out->known_days = days_known(day, out->days);
  collect_uncounted(&r, in, count, out);
  *spread = r.spread;
  return fine;
}
