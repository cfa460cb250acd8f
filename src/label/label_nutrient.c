/* One nutrient of a label: which it is, and its amount in our unit. */
#include "label/label_nutrient.h"

#include <math.h>

#define SAY_OF(code, d, at, ...) diag_say((d), DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)

enum unit label_unit_at(const struct tokens *t, size_t at, size_t *used) {
  *used = 0;
  if (at >= t->count || t->item[at].kind != TOKEN_WORD) return UNIT_NONE;
  if (phrase_at(t, at, "fl oz") > 0) {
    *used = 2;
    return UNIT_FL_OZ;
  }
  enum unit u = unit_by_word(t->item[at].word);
  *used = u != UNIT_NONE;
  return u;
}

static const char *nearest_nutrient(struct span key) {
  const char *names[2 * NUT_COUNT];
  for (int i = 0; i < NUT_COUNT; i++) {
    names[2 * i] = nutrient_info[i].name;
    names[2 * i + 1] = nutrient_info[i].key;
  }
  return nearest_word(key, names, COUNT_OF(names));
}

/* A label says "Zinc (as picolinate)" or "Total fat" where the table says "Zinc" and "Fat". */
enum nutrient label_nutrient(struct span key) {
  enum nutrient n = nutrient_by_name(key);
  const char *bracket = memchr(key.p, '(', key.n);
  if (n == NUT_NONE && bracket) n = nutrient_by_name(trim_blanks(span_cut(key, 0, (size_t)(bracket - key.p))));
  if (n == NUT_NONE && span_starts_fold(key, "total ")) n = nutrient_by_name(trim_blanks(span_cut(key, 6, key.n)));
  return n;
}

void say_unknown_nutrient(struct diags *d, struct header h) {
  const char *near = nearest_nutrient(h.key);
  struct span shown = quoted(h.key);
  if (span_is_fold(h.key, "salt"))
    SAY_OF(UNKNOWN_WORD, d, h.key,
           "'Salt' is not a nutrient here; write 'Sodium' (0.39 g in a gram of salt) and 'Chloride' (0.61 g)");
  else if (near) {
    SAY_OF(MISSPELT, d, h.key, "unknown nutrient '%.*s'; did you mean '%s'?", SPAN_ARG(shown), near);
    misspelt_fix(d, h.key, near);
  } else
    SAY_OF(UNKNOWN_WORD, d, h.key, "unknown nutrient '%.*s'; begin the line with '#' if nothing of it is to be counted",
           SPAN_ARG(shown));
}

struct label_words {
  bool natural, synthetic, carotene, folate_equivalents, percent;
};

static bool has(const struct tokens *t, size_t from, const char *phrase) {
  for (size_t i = from; i < t->count; i++)
    if (phrase_at(t, i, phrase) > 0) return true;
  return false;
}

/* What stands around the number: the form of a vitamin, or a share of a daily value that is passed over. */
static struct label_words words_of(const struct tokens *t, size_t from, struct span key) {
  struct label_words w = {0};
  w.natural = has(t, from, "natural") || has(t, from, "d-alpha") || has(t, from, "rrr");
  w.synthetic = has(t, from, "synthetic") || has(t, from, "dl-alpha") || has(t, from, "all-rac");
  w.carotene = has(t, from, "beta-carotene") || has(t, from, "carotene");
  w.folate_equivalents = has(t, from, "dfe");
  w.percent = has(t, from, "%");
  for (size_t i = 0; i < key.n; i++) { /* "Vitamin E (as d-alpha tocopherol): 20 mg" */
    struct span rest = span_cut(key, i, key.n);
    bool word_start = i == 0 || key.p[i - 1] == ' ' || key.p[i - 1] == '(';
    if (!word_start) continue;
    w.natural = w.natural || span_starts_fold(rest, "natural") || span_starts_fold(rest, "d-alpha");
    w.synthetic = w.synthetic || span_starts_fold(rest, "synthetic") || span_starts_fold(rest, "dl-alpha");
    w.carotene = w.carotene || span_starts_fold(rest, "beta-carotene") || span_starts_fold(rest, "beta carotene");
  }
  return w;
}

/* "(136 % DV)", "natural", "(as picolinate)", "RAE": words that are understood or may be passed over behind an amount. */
static bool tail_is_known(const struct tokens *t, size_t from) {
  static const char *const WORDS[] = {"natural",
                                      "synthetic",
                                      "d-alpha",
                                      "dl-alpha",
                                      "d-alpha-tocopherol",
                                      "dl-alpha-tocopherol",
                                      "tocopherol",
                                      "tocopheryl",
                                      "acetate",
                                      "succinate",
                                      "all-rac",
                                      "rrr",
                                      "rae",
                                      "re",
                                      "ne",
                                      "te",
                                      "alpha-te",
                                      "dv",
                                      "nrv",
                                      "rda",
                                      "ri",
                                      "daily",
                                      "value",
                                      "of",
                                      "form",
                                      "elemental",
                                      "preformed",
                                      "retinol",
                                      "beta-carotene",
                                      "carotene",
                                      "beta"};
  for (size_t i = from; i < t->count; i++) {
    const struct token *x = &t->item[i];
    if (phrase_at(t, i, "as") > 0) return true; /* "as zinc picolinate" */
    bool known = x->kind == TOKEN_MARK &&
                 (x->mark == '(' || x->mark == ')' || x->mark == ',' || x->mark == '%' || x->mark == '*' || x->mark == '.');
    if (x->kind == TOKEN_NUMBER) known = phrase_at(t, i + 1, "%") > 0;
    for (size_t k = 0; k < COUNT_OF(WORDS) && !known; k++) known = phrase_at(t, i, WORDS[k]) > 0;
    if (!known) return false;
  }
  return true;
}

static bool energy_amount(struct diags *d, const struct tokens *t, struct span value, size_t used, double *x, size_t *unit) {
  *unit = 1;
  if (phrase_at(t, used, "kcal") > 0 || phrase_at(t, used, "calories") > 0 || phrase_at(t, used, "cal") > 0) return true;
  if (phrase_at(t, used, "kj") > 0) {
    *x /= 4.184;
    return true;
  }
  SAY_OF(UNIT, d, value, "'%.*s': energy is written in kcal or kJ, as in '120 kcal'", SPAN_ARG(quoted(value)));
  return false;
}

/* The amount in the nutrient's unit; NaN after a complaint. */
double label_nutrient_amount(struct diags *d, enum nutrient *n, struct header h, const struct tokens *t) {
  size_t used = 0, unit_used = 0;
  if (phrase_at(t, 0, "<") > 0) {
    SAY_OF(NUMBER, d, h.value, "'%.*s' says only that it is less; leave the line out, and it counts as unknown",
           SPAN_ARG(quoted(h.value)));
    return (double)NAN;
  }
  double x = value_number(d, t, h.value, "15 mg", &used);
  if (isnan(x)) return x;
  if (phrase_at(t, used, "%") > 0) {
    SAY_OF(UNIT, d, h.value,
           "a share of a daily value is not read: daily values are those of people and differ between countries; write the "
           "amount, as in '15 mg'");
    return (double)NAN;
  }
  struct label_words w = words_of(t, used, h.key);
  if (*n == NUT_ENERGY) {
    if (!energy_amount(d, t, h.value, used, &x, &unit_used)) return (double)NAN;
    return value_ends(d, t, used + unit_used, "Energy: 120 kcal") ? x : (double)NAN;
  }
  enum unit u = label_unit_at(t, used, &unit_used);
  if (*n == NUT_VITAMIN_A) *n = w.carotene ? NUT_BETA_CAROTENE : NUT_RETINOL;
  if (*n == NUT_FOLATE && w.folate_equivalents) {
    SAY_OF(UNIT, d, h.value, "'DFE' counts added folic acid 1.7 times; write the micrograms of folic acid themselves");
    return (double)NAN;
  }
  if (*n == NUT_VITAMIN_E && u == UNIT_IU && w.natural == w.synthetic) {
    SAY_OF(UNIT, d, h.value,
           "an IU of vitamin E depends on the form; write 'natural' (d-alpha) or 'synthetic' (dl-alpha) after it, or "
           "milligrams");
    return (double)NAN;
  }
  double amount = unit_nutrient_amount(x, u, *n, !w.synthetic);
  if (isnan(amount)) {
    SAY_OF(UNIT, d, h.value, "'%.*s': %s is written in %s%s", SPAN_ARG(quoted(h.value)), nutrient_inside(d->arena, *n),
           nutrient_info[*n].unit, isnan(unit_nutrient_amount(1, UNIT_IU, *n, true)) ? "" : " or IU");
    return amount;
  }
  if (!tail_is_known(t, used + unit_used)) {
    struct span rest = tokens_span(t, used + unit_used, t->count - used - unit_used);
    SAY_OF(NOT_UNDERSTOOD, d, rest,
           "'%.*s' is not understood after an amount; write it as in '15 mg', and remarks after '#'",
           SPAN_ARG(quoted(rest)));
    return (double)NAN;
  }
  return amount;
}
