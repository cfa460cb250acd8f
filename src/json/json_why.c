/* "why" of "check --json --why": every factor of the arithmetic, so that it can be done again from the printed numbers. */
#include "json/json_parts.h"

#define NOT_KNOWN ((double)NAN)

enum { FLOAT_DIGITS = 6 }; /* what the library stores */

static void write_source(struct json *j, const struct library *lib, uint32_t source) {
  const struct img_source *row = source ? library_source(lib, source) : NULL;
  json_text(j, "source", row ? lib_str(lib, row->key) : NULL);
  json_text(j, "source_title", row ? lib_str(lib, row->title) : NULL);
}

/* ---- lines ----------------------------------------------------------------------------------------------------- */

static void write_term(struct json *j, const struct library *lib, const struct why_term *t) {
  json_open(j, NULL, '{');
  json_text(j, "key", nutrient_info[t->nutrient].key);
  json_text(j, "unit", nutrient_info[t->nutrient].unit);
  json_number(j, "factor", t->factor);
  json_digits(j, "per_100g", t->value, FLOAT_DIGITS);
  json_text(j, "status", value_status_word[t->status]);
  json_digits(j, "cv", t->status == VALUE_UNKNOWN ? NOT_KNOWN : t->cv, FLOAT_DIGITS);
  write_source(j, lib, t->source);
  json_digits(j, "kept", t->kept, FLOAT_DIGITS);
  json_text(j, "kept_status", value_status_word[t->kept_status]);
  json_digits(j, "kept_cv", t->kept_cv, FLOAT_DIGITS);
  json_close(j, '}');
}

static void write_cooking(struct json *j, const struct library *lib, const struct img_retention *row) {
  if (!row) {
    json_nothing(j, "cooking_table");
    return;
  }
  json_open(j, "cooking_table", '{');
  json_text_or_null(j, "code", lib_str(lib, row->code));
  json_text_or_null(j, "words", lib_str(lib, row->words));
  write_source(j, lib, row->source);
  json_number(j, "row", row->row);
  json_close(j, '}');
}

static double share(double part, double whole) { return whole > 0 ? part / whole : NOT_KNOWN; }

static void write_portion(struct json *j, const struct library *lib, const struct check_result *r, const struct why_chain *c,
                          const struct why_portion *p) {
  const struct ration_line *l = &r->ration->line[p->line];
  json_open(j, NULL, '{');
  json_number(j, "line", l->line > 0 ? l->line : NOT_KNOWN);
  json_text(j, "text", l->text);
  json_text(j, "food", library_code(lib, p->food));
  json_text(j, "name", library_name(lib, p->food));
  json_text(j, "part", l->part_count < 2 ? "whole" : p->part == 0 ? "flesh" : "bone");
  json_text_or_null(j, "grams_from", l->grams_from);
  json_number(j, "grams_when_fed", p->grams_fed);
  json_number(j, "days_per_week", l->times_per_28 / 4.0);
  json_number(j, "grams_per_day", p->grams);
  json_number(j, "grams_cv", p->grams_cv);
  json_number(j, "grams_per_day_lean", p->lean_grams);
  json_number(j, "grams_per_day_rich", p->rich_grams);
  write_cooking(j, lib, p->cooked);
  json_open(j, "values", '[');
  for (int i = 0; i < p->term_count; i++) write_term(j, lib, &p->term[i]);
  json_close(j, ']');
  json_number(j, "per_100g", p->per_100g);
  json_number(j, "amount", p->amount);
  json_bool(j, "missing", p->missing);
  json_number(j, "could_hold", p->could_hold);
  json_number(j, "variance_share", share(p->from_content + p->from_kept + p->from_weight, c->variance));
  json_open(j, "variance", '{');
  json_number(j, "content", p->from_content);
  json_number(j, "cooking", p->from_kept);
  json_number(j, "weight", p->from_weight);
  json_close(j, '}');
  json_close(j, '}');
}

/* ---- window, need, chance -------------------------------------------------------------------------------------- */

static void write_run(struct json *j, const char *key, const struct why_window *w) {
  json_open(j, key, '{');
  json_number(j, "first_day", w->first + 1);
  json_number(j, "days", w->days);
  json_number(j, "amount", w->amount);
  json_number(j, "cv", w->cv);
  json_close(j, '}');
}

static void write_window(struct json *j, const struct library *lib, const struct why_chain *c) {
  const struct img_window *row = c->n->window;
  json_open(j, "window", '{');
  json_number(j, "days", c->n->window_days > 0 ? c->n->window_days : NOT_KNOWN);
  write_run(j, "lean", &c->lean);
  write_run(j, "rich", &c->rich);
  if (row) {
    json_open(j, "table", '{');
    write_source(j, lib, row->source);
    json_number(j, "row", row->row);
    json_text(j, "confidence", confidence_word[row->confidence]);
    json_text_or_null(j, "note", lib_str(lib, row->note));
    json_close(j, '}');
  } else {
    json_nothing(j, "table");
  }
  json_close(j, '}');
}

static void write_figure(struct json *j, const char *key, const struct library *lib, double amount,
                         const struct img_allowance *row) {
  if (!row) {
    json_nothing(j, key);
    return;
  }
  json_open(j, key, '{');
  json_number(j, "amount", amount);
  json_text(j, "standard", standard_key[row->standard]);
  json_text_or_null(j, "printed", lib_str(lib, row->printed));
  json_text(j, "confidence", confidence_word[row->confidence]);
  write_source(j, lib, row->source);
  json_number(j, "row", row->row);
  json_text_or_null(j, "note", lib_str(lib, row->note));
  json_close(j, '}');
}

static void write_needs(struct json *j, const struct library *lib, const struct nutrient_result *n) {
  const struct allowance *t = n->table;
  json_open(j, "need", '{');
  write_figure(j, "minimum", lib, t ? t->minimum : NOT_KNOWN, t ? t->minimum_row : NULL);
  write_figure(j, "allowance", lib, t ? t->allowance : NOT_KNOWN, t ? t->allowance_row : NULL);
  write_figure(j, "upper", lib, t ? t->upper : NOT_KNOWN, t ? t->upper_row : NULL);
  json_text_or_null(j, "how", t ? t->how : NULL);
  json_number(j, "adjusted_to", n->adjusted ? n->adjusted_to : NOT_KNOWN);
  json_text_or_null(j, "adjusted_why", n->adjusted ? n->adjusted_why : NULL);
  json_close(j, '}');
}

static void write_chance(struct json *j, const char *key, const struct why_chance *c) {
  if (!(c->chance == c->chance)) {
    json_nothing(j, key);
    return;
  }
  json_open(j, key, '{');
  json_number(j, "mean", c->mean);
  json_number(j, "cv", c->cv);
  json_number(j, "figure", c->figure);
  json_number(j, "sigma", c->sigma);
  json_number(j, "z", c->z);
  json_number(j, "chance", c->chance);
  json_close(j, '}');
}

static void write_energy_need(struct json *j, const struct library *lib, const struct check_result *r) {
  const struct energy_need *e = &r->energy.need;
  json_open(j, "energy_need", '{');
  json_number(j, "kcal", e->kcal);
  json_text_or_null(j, "from", e->from);
  if (e->row) {
    write_source(j, lib, e->row->source);
    json_number(j, "row", e->row->row);
    json_text(j, "confidence", confidence_word[e->row->confidence]);
  }
  json_close(j, '}');
}

static void write_four_step(struct json *j, const struct why_four_step *f) {
  if (!(f->kcal == f->kcal)) return;
  json_open(j, "four_step", '{');
  json_number(j, "gross_kcal", f->gross);
  json_number(j, "digestible_percent", f->digestible_percent);
  json_number(j, "urine_kcal", f->urine);
  json_number(j, "kcal", f->kcal);
  json_close(j, '}');
}

static void write_chain(struct json *j, const struct library *lib, const struct check_result *r, const struct why_chain *c) {
  const struct nutrient_result *n = c->n;
  bool judged = r->animal && r->refusal == REFUSE_NOT;
  json_text(j, "key", nutrient_info[n->id].key);
  json_text(j, "name", nutrient_info[n->id].name);
  json_text(j, "unit", nutrient_info[n->id].unit);
  json_number(j, "amount", n->amount);
  json_text(j, "verdict", judged ? verdict_word[n->verdict] : NULL);
  json_text(j, "rule", judged ? verdict_rule_key[c->rule] : NULL);
  json_text(j, "rule_text", judged ? verdict_rule_text[c->rule] : NULL);
  json_open(j, "lines", '[');
  for (size_t i = 0; i < c->count; i++) write_portion(j, lib, r, c, &c->portion[i]);
  json_close(j, ']');
  json_number(j, "sum", c->sum);
  json_number(j, "variance", c->variance);
  json_number(j, "low", n->low);
  json_number(j, "high", n->high);
  write_window(j, lib, c);
  write_needs(j, lib, n);
  json_open(j, "chance", '{');
  write_chance(j, "met", &c->met);
  write_chance(j, "kept", &c->kept);
  json_close(j, '}');
  if (n->id == NUT_ENERGY) {
    write_energy_need(j, lib, r);
    write_four_step(j, &c->four_step);
  }
}

/* ---- ratios ---------------------------------------------------------------------------------------------------- */

static void write_sums(struct json *j, const char *key, const struct why_sum *s, int count) {
  json_open(j, key, '[');
  for (int i = 0; i < count; i++) {
    json_open(j, NULL, '{');
    json_text(j, "key", nutrient_info[s[i].nutrient].key);
    json_text(j, "unit", nutrient_info[s[i].nutrient].unit);
    json_number(j, "amount", s[i].amount);
    json_number(j, "molar_mass", s[i].molar_mass);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_ratio(struct json *j, const struct why_ratio *q) {
  json_text(j, "key", balance_key[q->id]);
  json_text(j, "name", balance_name[q->id]);
  json_number(j, "value", q->value);
  write_sums(j, "above", q->top, q->top_count);
  write_sums(j, "below", q->bottom, q->bottom_count);
  json_number(j, "known_share", q->known_share);
}

void json_why(struct json *j, const struct library *lib, const struct check_result *r, const struct asked *asked) {
  json_open(j, "why", '[');
  for (size_t i = 0; i < asked->why_count; i++) {
    const struct why *w = &asked->why[i];
    json_open(j, NULL, '{');
    if (w->chain) {
      write_chain(j, lib, r, w->chain);
    } else {
      write_ratio(j, &w->ratio);
    }
    json_close(j, '}');
  }
  json_close(j, ']');
}
