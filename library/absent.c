#include "library/absent.h"

#include <math.h>

/* The nutrients that a cell may name at once. */
static bool is_in_group(struct span word, enum nutrient n) {
  enum nutrient_group g = nutrient_info[n].group;
  if (span_is(word, "amino-acids")) return g == NG_AMINO && n != NUT_TAURINE;
  if (span_is(word, "fatty-acids")) return g == NG_FATTY && n != NUT_CHOLESTEROL;
  return false;
}

static void read_nutrients(const struct tsv *t, size_t row, bool *set) {
  struct span cell = tsv_cell(t, row, "nutrients");
  while (cell.n > 0) {
    const char *mark = memchr(cell.p, '|', cell.n);
    size_t n = mark ? (size_t)(mark - cell.p) : cell.n;
    struct span word = span_trim(span_cut(cell, 0, n));
    bool found = false;
    for (int i = 0; i < NUT_COUNT; i++)
      if (span_is(word, nutrient_info[i].key) || is_in_group(word, (enum nutrient)i)) set[i] = found = true;
    if (!found) tsv_fail(t, row, "'%.*s' is no nutrient", SPAN_ARG(word));
    cell = span_cut(cell, n + (mark ? 1 : 0), cell.n);
  }
}

static struct absent_rule read_rule(const struct tsv *t, size_t row) {
  struct absent_rule r = {.food = food_rule_read(t, row),
                          .base = nutrient_by_key(tsv_cell(t, row, "base")),
                          .from = tsv_number(t, row, "from"),
                          .to = tsv_number(t, row, "to"),
                          .trace = tsv_number(t, row, "trace"),
                          .doubt = tsv_number(t, row, "doubt"),
                          .enriched_too = span_is(tsv_cell(t, row, "enriched"), "too"),
                          .source = source_index(t, row, "source"),
                          .id = tsv_cell(t, row, "id")};
  if (!(r.trace >= 0)) r.trace = 0;
  read_nutrients(t, row, r.nutrient);
  if (r.base == NUT_NONE && tsv_cell(t, row, "base").n > 0) tsv_fail(t, row, "the base is no nutrient");
  if (!(r.doubt >= 0 && r.doubt <= 0.05)) tsv_fail(t, row, "'doubt' must be a share from 0 to 0.05");
  return r;
}

struct absent_rule *absent_rules_read(struct foods_build *b, const char *data_dir, size_t *n) {
  static const char *const WANTED[] = {"id",       "nutrients", "part",       "kind",   "words", "unless",
                                       "enriched", "codes",     "base",       "from",   "to",    "trace",
                                       "doubt",    "reason",    "confidence", "source", NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "absent.tsv"), WANTED, b->arena);
  struct absent_rule *rule = ARENA_NEW(b->arena, struct absent_rule, t.rows);
  for (size_t i = 0; i < t.rows; i++) rule[i] = read_rule(&t, i);
  *n = t.rows;
  return rule;
}

bool absent_rule_fits(const struct absent_rule *r, const struct build_food *f) {
  if (r->base != NUT_NONE) {
    double amount = f->value[r->base].mean;
    if (f->value[r->base].status != VALUE_MEASURED || amount < r->from || amount > r->to) return false;
  } else if (f->food.flags & (FOOD_BRAND | FOOD_DISH | (r->enriched_too ? 0 : FOOD_ENRICHED))) {
    return false; /* what a kitchen or a factory put together or added is not "by nature" */
  }
  return food_rule_fits(&r->food, f);
}

/* A rule that the published tables speak against is a mistake of ours: of the figures printed for the foods and a nutrient
 * of the rule, at most the share 'doubt' may be over a trace. */
static void check_rule(const struct foods_build *b, const struct absent_rule *r, enum nutrient n) {
  size_t printed = 0, over_trace = 0;
  const char *example = "";
  for (size_t i = 0; i < b->count; i++) {
    const struct img_value *v = &b->food[i].value[n];
    if (v->status != VALUE_MEASURED || !absent_rule_fits(r, &b->food[i])) continue;
    printed++;
    if (!((double)v->mean > r->trace)) continue;
    over_trace++;
    example = b->food[i].code;
  }
  if ((double)over_trace > r->doubt * (double)printed)
    build_fail("data/absent.tsv: rule '%.*s' says no %s, but %zu of %zu foods print more (%s)", SPAN_ARG(r->id),
               nutrient_info[n].key, over_trace, printed, example);
}

void complete_absent(struct foods_build *b, const char *data_dir) {
  size_t rules;
  struct absent_rule *rule = absent_rules_read(b, data_dir, &rules);
  for (size_t k = 0; k < rules; k++)
    for (int n = 0; n < NUT_COUNT; n++)
      if (rule[k].nutrient[n]) check_rule(b, &rule[k], (enum nutrient)n);
  for (size_t i = 0; i < b->count; i++)
    for (size_t k = 0; k < rules; k++) {
      if (!absent_rule_fits(&rule[k], &b->food[i])) continue;
      for (int n = 0; n < NUT_COUNT; n++)
        if (rule[k].nutrient[n]) foods_set(&b->food[i], (enum nutrient)n, 0, VALUE_NONE, 0, rule[k].source);
    }
}
