/* days.c: the whole module: every call of reactor.c, and those about weeks, the journal, the trend and the weight plan. A
 * page's first answer needs none of these.
 *
 * Several texts in one: "name\0text\0name\0text\0". */
#include "wasm/reactor.c"

#include "app/app_entry.h"
#include "app/app_rotate.h"
#include "app/app_slim.h"
#include "app/app_trend.h"

/* The recipes of such a list; at most WEEK_RECIPES_MOST, the others are left out. */
static size_t recipes_of(const char *list, size_t n, struct app_input *out) {
  size_t count = 0;
  struct span rest = {list, n};
  while (rest.n > 0 && count < WEEK_RECIPES_MOST) {
    const char *end = memchr(rest.p, '\0', rest.n);
    if (!end) break;
    struct span name = span_cut(rest, 0, (size_t)(end - rest.p));
    rest = span_cut(rest, name.n + 1, rest.n);
    end = memchr(rest.p, '\0', rest.n);
    struct span text = span_cut(rest, 0, end ? (size_t)(end - rest.p) : rest.n);
    rest = span_cut(rest, text.n + 1, rest.n);
    out[count++] = (struct app_input){arena_text(&arena, name), text};
  }
  return count;
}

static struct app_journal journal_of(const char *journal, size_t n, const char *recipes, size_t recipes_n) {
  struct app_input *recipe = ARENA_NEW(&arena, struct app_input, WEEK_RECIPES_MOST + 1);
  size_t count = recipes_of(recipes, recipes_n, recipe);
  return (struct app_journal){{"journal", {journal, n}}, recipe, count, 0};
}

static void add_all(struct about *texts, const struct diags *d, size_t count) {
  for (size_t i = 0; i < count; i++) add(texts, &d[i]);
}

static const char *name_or_null(const char *who, size_t n) {
  return n > 0 ? arena_text(&arena, (struct span){who, n}) : NULL;
}

/* A plan ("Plan: ..."), a journal, or a recipe's own days, as weeks of each animal: WeeksAnswer. 'kind': "plan", "journal"
 * or "recipe"; 'who' of several animals, may be empty; "since=2026-11-02", "until=2026-11-29" for a journal. */
EXPORT("bw_week")
int bw_week(const char *kind, size_t kind_n, const char *text, size_t n, const char *recipes, size_t recipes_n,
            const char *who, size_t who_n, const char *request, size_t request_n) {
  begin();
  struct app_week_request q = {0};
  struct app_week_answer a;
  struct about texts = {{NULL}, 0};
  struct span is = {kind, kind_n}, whole = {text, n};
  if (!about("", 0, request, request_n, &q.check)) return USAGE;
  q.check.for_name = name_or_null(who, who_n);
  struct app_input *recipe = ARENA_NEW(&arena, struct app_input, WEEK_RECIPES_MOST + 1);
  q.recipe = recipe;
  if (span_is(is, "recipe")) {
    recipe[0] = (struct app_input){"recipe", whole};
    q.count = q.named = 1;
  } else {
    q.count = recipes_of(recipes, recipes_n, recipe);
    if (span_is(is, "plan")) {
      q.plan = (struct app_input){"plan", whole};
    } else if (span_is(is, "journal")) {
      q.journal = (struct app_input){"journal", whole};
    } else {
      return cannot_ask("weeks are those of a plan, a journal or a recipe");
    }
  }
  app_week(&library, &q, &a, &arena);
  add(&texts, &a.texts.recipe_diags);
  add(&texts, &a.texts.animal_diags);
  add_all(&texts, a.recipe_diags, q.count);
  if (a.count == 0) return tell(&texts, NOT_UNDERSTOOD);
  json_weeks(&library, &a, &body);
  return tell(&texts, UNDERSTOOD);
}

/* Which of the recipes on which day: Rotation; "days=14". */
EXPORT("bw_rotate")
int bw_rotate(const char *recipes, size_t recipes_n, const char *who, size_t who_n, const char *request, size_t request_n) {
  begin();
  struct app_week_request q = {0};
  struct app_rotate_answer a;
  struct about texts = {{NULL}, 0};
  if (!about("", 0, request, request_n, &q.check)) return USAGE;
  q.check.for_name = name_or_null(who, who_n);
  struct app_input *recipe = ARENA_NEW(&arena, struct app_input, WEEK_RECIPES_MOST + 1);
  q.recipe = recipe;
  q.count = q.named = recipes_of(recipes, recipes_n, recipe);
  if (q.count < 2 || q.count > ROTATE_RECIPES_MOST) return cannot_ask("a rotation is made of 2 to 8 recipes");
  app_rotate(&library, &q, &a, &arena);
  add(&texts, &a.texts.animal_diags);
  add_all(&texts, a.recipe_diags, q.count);
  if (!a.understood) return tell(&texts, NOT_UNDERSTOOD);
  json_rotate(&library, &a, &body);
  return tell(&texts, a.alone[0]->refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED);
}

/* What the journal holds: JournalAnswer; 'newest_days' above 0: a first look at these (app_entry.h). */
EXPORT("bw_journal") int bw_journal(const char *journal, size_t n, int newest_days) {
  begin();
  struct app_journal_answer a;
  struct about texts = {{NULL}, 0};
  struct app_check_request q = asked;
  const struct app_input in = {"journal", {journal, n}};
  app_journal_read(&q, &in, newest_days, &a, &arena);
  add(&texts, &a.diags);
  add(&texts, &a.animal_diags);
  json_journal(&library, &a, &body);
  return tell(&texts, UNDERSTOOD);
}

/* A line for the journal while it is written: EntryAnswer. */
EXPORT("bw_entry")
int bw_entry(const char *journal, size_t n, const char *recipes, size_t recipes_n, const char *line, size_t line_n) {
  begin();
  struct app_entry_answer a;
  struct about texts = {{NULL}, 0};
  const struct app_journal j = journal_of(journal, n, recipes, recipes_n);
  app_entry(&library, &asked, &j, (struct span){line, line_n}, &a, &arena);
  add(&texts, &a.diags);
  json_entry(&library, &a, &body);
  return tell(&texts, UNDERSTOOD);
}

/* Of days that nobody draws only the weight is left out; it was worked out with them. */
static void draw_since(struct app_trend_answer *a, const struct date *since) {
  struct trend_result *drawn = ARENA_NEW(&arena, struct trend_result, 1);
  if (since->year == 0) return;
  *drawn = *a->told.trend;
  while (drawn->day_count > 0 && drawn->day[0].day < date_days(*since)) {
    drawn->day++;
    drawn->day_count--;
  }
  a->told.trend = drawn;
}

/* Where the weight goes, and the animal's own need: Trend; "forecast=56", "kcal=700", "until=2026-11-02", "since=2026-06-01"
 * for the days that are drawn. */
EXPORT("bw_trend")
int bw_trend(const char *journal, size_t n, const char *recipes, size_t recipes_n, const char *who, size_t who_n,
             const char *request, size_t request_n) {
  begin();
  struct app_check_request q;
  struct app_trend_answer a;
  struct about texts = {{NULL}, 0};
  const struct app_journal j = journal_of(journal, n, recipes, recipes_n);
  if (!about("", 0, request, request_n, &q)) return USAGE;
  q.for_name = name_or_null(who, who_n);
  q.journal = &j;
  app_trend(&library, &q, &a, &arena);
  add(&texts, &a.journal_diags);
  add(&texts, &a.animal_diags);
  if (!a.told.trend) return tell(&texts, NOT_UNDERSTOOD);
  draw_since(&a, &q.ask.since);
  json_trend(&library, &a, &body);
  return tell(&texts, a.refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED);
}

/* A weight plan: Slim; 'journal' and 'recipe' may be empty: the need is then the equation's, and no bowl is mended. */
EXPORT("bw_slim")
int bw_slim(const char *journal, size_t n, const char *recipes, size_t recipes_n, const char *recipe, size_t recipe_n,
            const char *who, size_t who_n, const char *request, size_t request_n) {
  begin();
  struct app_slim_request q = {.mend = {.go_on = ask_host, .one_way = true}};
  struct app_slim_answer a;
  struct about texts = {{NULL}, 0};
  const struct app_journal j = journal_of(journal, n, recipes, recipes_n);
  if (!about(recipe, recipe_n, request, request_n, &q.mend.check)) return USAGE;
  if (recipe_n == 0) q.mend.check.recipe = (struct app_input){NULL, {NULL, 0}};
  q.mend.check.for_name = name_or_null(who, who_n);
  if (n > 0) q.mend.check.journal = &j;
  app_slim(&library, &q, &a, &arena);
  if (a.bowl_wanted) add(&texts, &a.bowl.check.recipe_diags);
  add(&texts, &a.animal_diags);
  add(&texts, &a.journal_diags);
  if (!a.understood) return tell(&texts, NOT_UNDERSTOOD);
  json_slim(&library, &a, &body);
  return tell(&texts, a.refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED);
}
