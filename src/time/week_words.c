#include "time/week_words.h"

#include <assert.h>
#include <math.h>

#include "judge/meal.h"
#include "text/date.h"
#include "words/verdicts.h"

const char *const week_day_short[7] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

enum { NAMED = 6 };

const char *week_days_words(int days, struct arena *arena) {
  return words_text(arena, "%d day%s", days, days == 1 ? "" : "s");
}

const char *week_day_name(const struct week *w, int day, struct arena *arena) {
  const struct day_of_food *d = &w->days->day[day];
  if (d->date == 0 && w->days->days <= 7) return week_day_short[day % 7];
  if (d->date == 0) return words_text(arena, "%s of week %d", week_day_short[day % 7], day / 7 + 1);
  struct buf b;
  buf_init(&b, arena, 16);
  date_print(&b, d->date);
  return buf_text(&b);
}

int week_weekday(const struct week *w, int day) {
  long date = w->days->day[day].date;
  return date > 0 ? date_weekday(date) : day % 7;
}

/* ---- which nutrients ------------------------------------------------------------------------------------------- */

/* As the review of the mean day tells them, and then the leanest first. */
static bool is_told_before(const struct week *w, const struct week_nutrient *a, const struct week_nutrient *b) {
  size_t place_a = words_place_of(w->mean, a->id), place_b = words_place_of(w->mean, b->id);
  return place_a != place_b ? place_a < place_b : week_leaner(a, b);
}

struct list {
  const char *item[NUT_COUNT];
  size_t count;
};

/* "zinc (3 days)" */
static const char *with_days(const struct week_nutrient *n, struct arena *arena) {
  return words_text(arena, "%s (%s)", words_nutrient(arena, n->id), week_days_words(n->window_days, arena));
}

/* The worst first. */
static size_t of_kind(const struct week *w, enum averaging kind, bool too_much, const struct week_nutrient **out) {
  size_t n = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct week_nutrient *x = &w->nutrient[i];
    if (i == NUT_ENERGY || x->averaging != kind || x->too_much != too_much) continue;
    if (kind == AVERAGING_NOT_ENOUGH && week_fails_by_fasts(w, x->id)) continue;
    size_t k = n++;
    for (; k > 0 && is_told_before(w, x, out[k - 1]); k--) out[k] = out[k - 1];
    out[k] = x;
  }
  return n;
}

static struct list list_of(const struct week *w, enum averaging kind, bool too_much, bool days, struct arena *arena) {
  const struct week_nutrient *n[NUT_COUNT];
  struct list l = {.count = of_kind(w, kind, too_much, n)};
  for (size_t i = 0; i < l.count; i++) l.item[i] = days ? with_days(n[i], arena) : words_nutrient(arena, n[i]->id);
  return l;
}

static void say(struct buf *out, const char *sentence) {
  if (out->n > 0) buf_addc(out, ' ');
  buf_adds(out, sentence);
}

static const char *plural(const struct list *l, const char *one, const char *many) { return l->count == 1 ? one : many; }

/* ---- groups ------------------------------------------------------------------------------------------------------ */

void week_groups(const struct week *w, struct week_group group[WEEK_GROUP_COUNT]) {
  static const struct {
    enum averaging kind;
    bool by_fasts;
    const char *key, *title;
  } GROUP[] = {{AVERAGING_NOT_ENOUGH, false, "not-enough", "Averaging does not help"},
               {AVERAGING_SHORT_ANYWAY, false, "short-anyway", "Not met on the mean of all days either"},
               {AVERAGING_UNPROVEN, false, "unproven", "Not decided by what is known"},
               {AVERAGING_HELPS, false, "helps", "Averaging covers"},
               {AVERAGING_COUNT, true, "fasts", "Failing only on days without food"},
               {AVERAGING_NOT_NEEDED, false, "met", "Met on every single day"}};
  static_assert(COUNT_OF(GROUP) == WEEK_GROUP_COUNT, "a row for each");
  for (size_t g = 0; g < WEEK_GROUP_COUNT; g++) {
    struct week_group *out = &group[g];
    *out = (struct week_group){.key = GROUP[g].key, .title = GROUP[g].title};
    for (int i = 0; i < NUT_COUNT; i++) {
      const struct week_nutrient *x = &w->nutrient[i];
      bool fasts = x->averaging != AVERAGING_NO_FIGURE && week_fails_by_fasts(w, x->id);
      if (i == NUT_ENERGY || (GROUP[g].by_fasts ? !fasts : fasts || x->averaging != GROUP[g].kind)) continue;
      size_t k = out->count++;
      for (; k > 0 && week_leaner(x, out->item[k - 1]); k--) out->item[k] = out->item[k - 1];
      out->item[k] = x;
    }
  }
}

/* ---- the sentences --------------------------------------------------------------------------------------------- */

static void say_helped(const struct week *w, struct buf *out, struct arena *arena) {
  struct list l = list_of(w, AVERAGING_HELPS, false, true, arena);
  if (l.count == 0) return;
  say(out, words_text(arena, "Averaging covers %s: single days fall short, but every run of that many days is enough.",
                      words_list(arena, l.item, l.count, NAMED)));
}

static void say_not_helped(const struct week *w, struct buf *out, struct arena *arena) {
  struct list low = list_of(w, AVERAGING_NOT_ENOUGH, false, true, arena);
  struct list high = list_of(w, AVERAGING_NOT_ENOUGH, true, true, arena);
  if (low.count > 0)
    say(out,
        words_text(arena,
                   "Averaging does not help %s: the mean of all days would be enough, but the body does not store %s long "
                   "enough to wait for it.",
                   words_list(arena, low.item, low.count, NAMED), plural(&low, "it", "them")));
  if (high.count > 0)
    say(out, words_text(arena, "%s %s within the limit on the mean, but some runs of days are not.",
                        words_capital(arena, words_list(arena, high.item, high.count, NAMED)), plural(&high, "is", "are")));
}

static void say_fasts(const struct week *w, struct buf *out, struct arena *arena) {
  const char *day[NAMED];
  size_t days = 0, needs = 0;
  bool written = false;
  for (int i = 0; i < w->days->days; i++) {
    if (!week_is_fast(w, i)) continue;
    written = written || w->days->day[i].menu[0];
    if (days < NAMED) day[days] = week_day_name(w, i, arena);
    days++;
  }
  for (int n = 0; n < NUT_COUNT; n++)
    needs += n != NUT_ENERGY && w->nutrient[n].averaging == AVERAGING_NOT_ENOUGH && week_fails_by_fasts(w, (enum nutrient)n);
  if (days == 0) return;
  if (days == (size_t)w->days->days) {
    say(out, "There is no food on any of these days.");
    return;
  }
  const char *when = words_list(arena, day, days, days < NAMED ? days : NAMED - 1);
  const char *what = written ? words_text(arena, "There is no food on %s", when)
                             : words_text(arena, "No food is written for %s: %s without food", when,
                                          days == 1 ? "it counts as a day" : "they count as days");
  if (needs == 0) {
    say(out, words_text(arena, "%s.", what));
    return;
  }
  say(out, words_text(arena, "%s%s for that alone, %zu %s that cannot wait for another day %s.", what, written ? ":" : ";",
                      needs, needs == 1 ? "need" : "needs", needs == 1 ? "fails" : "fail"));
}

static void say_anyway(const struct week *w, struct buf *out, struct arena *arena) {
  struct list low = list_of(w, AVERAGING_SHORT_ANYWAY, false, false, arena);
  struct list high = list_of(w, AVERAGING_SHORT_ANYWAY, true, false, arena);
  if (low.count > 0)
    say(out, words_text(arena, "No order of the days helps %s: even the mean of all days %s not clearly meet the allowance.",
                        words_list(arena, low.item, low.count, NAMED), "does"));
  if (high.count > 0)
    say(out, words_text(arena, "There is too much %s, or nearly too much, on the mean of all days as well.",
                        words_list(arena, high.item, high.count, NAMED)));
}

const char *week_lead(const struct week *w, struct arena *arena) {
  struct buf out;
  buf_init(&out, arena, 8192);
  if (!w->judged) return "";
  if (w->known_days == 0) return "Nothing is known of what was eaten.";
  const char *part = words_part_of_food(w->mean, arena);
  if (meal_is_part(w->mean)) return part;
  buf_adds(&out, part);
  say_helped(w, &out, arena);
  say_not_helped(w, &out, arena);
  say_fasts(w, &out, arena);
  say_anyway(w, &out, arena);
  struct list unproven = list_of(w, AVERAGING_UNPROVEN, false, false, arena);
  if (out.n == 0 && unproven.count == 0) return "Every single day meets every need: nothing has to average out.";
  if (out.n == 0) say(&out, "Nothing that is known has to average out.");
  if (unproven.count > 0)
    say(&out,
        words_text(arena, "What is known does not decide %s.", words_list(arena, unproven.item, unproven.count, NAMED)));
  return buf_text(&out);
}

/* ---- days ------------------------------------------------------------------------------------------------------ */

/* "112 % (not clearly)" where the amount would do, and the confidence is not there. */
static const char *share_of(double amount, double of, struct arena *arena) {
  return words_text(arena, "%s%s", words_share_short(arena, amount / of), amount >= of ? " (not clearly)" : "");
}

/* 'most': with what foods without a value could hold, where nobody knows the amount. */
static const char *day_figure(const struct week_nutrient *n, double amount, double most, struct arena *arena) {
  double of = n->too_much ? n->upper : n->allowance;
  if (n->known && isnan(amount) && isfinite(most) && !n->too_much)
    return words_text(arena, "%s at most %s", words_nutrient(arena, n->id), words_share_short(arena, most / of));
  if (!n->known) return words_text(arena, "%s not known", words_nutrient(arena, n->id));
  if (n->too_much)
    return words_text(arena, "%s %s of its limit", words_nutrient(arena, n->id), words_share_short(arena, amount / of));
  return words_text(arena, "%s %s", words_nutrient(arena, n->id), share_of(amount, of, arena));
}

/* The days with food whose amount is known: the least and the most of them; NaN where there is none, 0 without any food. */
struct spread {
  double low, high;
};

static struct spread days_with_food(const struct week *w, const struct week_nutrient *n) {
  struct spread s = {NAN, NAN};
  bool fed = false;
  for (int i = 0; i < w->days->days; i++) {
    if (week_is_fast(w, i)) continue;
    fed = true;
    s.low = fmin(s.low, n->day[i]);
    s.high = fmax(s.high, n->day[i]);
  }
  return fed ? s : (struct spread){0, 0};
}

/* "chloride 45 to 70 %": no day's figure is told for another's. */
static const char *all_days_figure(const struct week *w, const struct week_nutrient *n, struct arena *arena) {
  struct spread s = days_with_food(w, n);
  double of = n->too_much ? n->upper : n->allowance, most = NAN;
  for (int i = 0; i < w->days->days; i++)
    if (!week_is_fast(w, i)) most = fmax(most, n->day_most[i]);
  const char *high = words_share_short(arena, s.high / of), *low = words_share_short(arena, s.low / of);
  const char *unit = strstr(low, " %");
  if (!n->known || isnan(s.low) || strcmp(low, high) == 0 || !unit) return day_figure(n, s.high, most, arena);
  return words_text(arena, "%s %.*s to %s%s", words_nutrient(arena, n->id), (int)(unit - low), low, high,
                    n->too_much   ? " of its limit"
                    : s.low >= of ? " (not clearly)"
                                  : "");
}

/* What nobody knows is taken at its most. */
static double share_for_order(const struct week *w, const struct week_nutrient *n, int day, bool always) {
  if (always) return known_part(days_with_food(w, n).low) / n->allowance;
  return (isnan(n->day[day]) ? n->day_most[day] : n->day[day]) / n->allowance;
}

static const char *failing(const struct week *w, int day, bool always, size_t most, struct arena *arena) {
  const struct week_nutrient *n[NUT_COUNT];
  const char *item[NUT_COUNT];
  size_t count = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct week_nutrient *x = &w->nutrient[i];
    if (i == NUT_ENERGY || week_fails_always(w, (enum nutrient)i) != always) continue;
    if (!always && !week_fails_on(w, (enum nutrient)i, day)) continue;
    double ratio = share_for_order(w, x, day, always);
    size_t k = count++;
    for (; k > 0 && ratio < share_for_order(w, n[k - 1], day, always); k--) n[k] = n[k - 1];
    n[k] = x;
  }
  for (size_t i = 0; i < count; i++)
    item[i] = always ? all_days_figure(w, n[i], arena) : day_figure(n[i], n[i]->day[day], n[i]->day_most[day], arena);
  if (always && count > most + 1) { /* a number here beside that of the lead would be another: the lines below hold them all */
    item[most] = "others below";
    count = ++most;
  }
  return count > 0 ? words_list(arena, item, count, most) : "";
}

const char *week_day_words(const struct week *w, int day, size_t most, struct arena *arena) {
  return week_is_fast(w, day) ? "no food" : failing(w, day, false, most, arena);
}

const char *week_always_words(const struct week *w, size_t most, struct arena *arena) {
  return failing(w, 0, true, most, arena);
}
