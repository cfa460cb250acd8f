/* "check --json" and "need --json": the keys of one answer, in the documented order. */
#include "review/findings.h"
#include "json/json_parts.h"

#define NOT_KNOWN ((double)NAN)

static const char *food_code(const struct library *lib, uint32_t food) {
  return food < library_count(lib) ? library_code(lib, food) : NULL;
}

static const char *source_key(const struct library *lib, uint32_t source) {
  const struct img_source *row = source ? library_source(lib, source) : NULL;
  return row ? lib_str(lib, row->key) : NULL;
}

/* Verdicts exist only where there is an animal that may be judged. */
static bool judged(const struct check_result *r) { return r->animal && r->refusal == REFUSE_NOT; }

/* ---- recipe ---- */

/* A ration built without a text has no line numbers: null. */
static double line_number(const struct ration_line *l) { return l->line > 0 ? l->line : NOT_KNOWN; }

static const char *chosen_by(const struct ration_line *l) {
  if (l->pinned) return "pin";
  return l->found_by_name ? "everyday name" : "search";
}

static void write_rivals(struct json *j, const struct library *lib, const struct ration_line *l) {
  json_open(j, "rivals", '[');
  for (size_t i = 0; i < l->rival_count; i++) {
    if (l->rivals[i] >= library_count(lib)) continue;
    json_open(j, NULL, '{');
    json_text(j, "food", library_code(lib, l->rivals[i]));
    json_text(j, "name", library_name(lib, l->rivals[i]));
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_retention(struct json *j, const struct library *lib, const struct ration_line *l) {
  int32_t row = l->part_count > 0 ? l->part[0].retention : -1;
  if (row < 0 || (size_t)row >= img_count(&lib->image, IMG_RETENTION)) {
    json_nothing(j, "cooking_table");
    return;
  }
  const struct img_retention *t = IMG_ROWS(&lib->image, IMG_RETENTION, struct img_retention) + row;
  json_open(j, "cooking_table", '{');
  json_text_or_null(j, "code", lib_str(lib, t->code));
  json_text_or_null(j, "words", lib_str(lib, t->words));
  json_text(j, "source", source_key(lib, t->source));
  json_number(j, "row", t->row);
  json_close(j, '}');
}

/* The foods that the line's arithmetic rests on: flesh, and the bone in it. */
static void write_portions(struct json *j, const struct library *lib, const struct ration_line *l) {
  json_open(j, "counted_as", '[');
  for (int i = 0; i < l->part_count; i++) {
    json_open(j, NULL, '{');
    json_text(j, "food", food_code(lib, l->part[i].food));
    json_number(j, "grams", l->part[i].grams);
    json_number(j, "grams_cv", l->part[i].grams_cv);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_line(struct json *j, const struct library *lib, const struct ration_line *l) {
  bool known = l->shown_food < library_count(lib);
  const struct img_food *food = known ? library_food(lib, l->shown_food) : NULL;
  json_open(j, NULL, '{');
  json_number(j, "line", line_number(l));
  json_text(j, "text", l->text);
  json_text(j, "food", food_code(lib, l->shown_food));
  json_text(j, "name", known ? library_name(lib, l->shown_food) : NULL);
  json_number(j, "grams_per_day", ration_line_grams_per_day(l));
  json_text(j, "class", food ? json_part_key[json_part_of((enum part)food->part)] : NULL);
  json_number(j, "days_per_week", l->times_per_28 / 4.0);
  json_number(j, "grams_when_fed", l->grams_fed);
  json_text_or_null(j, "grams_from", l->grams_from);
  json_text_or_null(j, "assumed", l->assumed ? l->assumed : "");
  json_number(j, "low_g", l->low_g > 0 ? l->low_g : l->grams_fed);
  json_number(j, "high_g", l->high_g > 0 ? l->high_g : l->grams_fed);
  json_text(j, "part", food ? part_word[food->part] : NULL);
  json_text(j, "state", l->state == STATE_UNSTATED ? NULL : state_word[l->state]);
  json_bool(j, "cooked_bone", l->cooked_bone);
  json_text(j, "chosen_by", chosen_by(l));
  json_text_or_null(j, "note", l->note ? l->note : "");
  json_text(j, "source", food ? source_key(lib, food->source) : NULL);
  write_portions(j, lib, l);
  write_retention(j, lib, l);
  write_rivals(j, lib, l);
  json_close(j, '}');
}

static void write_recipe(struct json *j, const struct library *lib, const struct ration *ration) {
  json_open(j, "recipe", '{');
  json_text_or_null(j, "name", ration->name);
  json_number(j, "days", ration->days);
  json_open(j, "lines", '[');
  for (size_t i = 0; i < ration->line_count; i++) write_line(j, lib, &ration->line[i]);
  json_close(j, ']');
  json_number(j, "meals_per_day", ration->meals_per_day);
  json_close(j, '}');
}

/* ---- animal and energy ---- */

static void write_animal(struct json *j, const struct check_result *r) {
  const struct animal *a = r->animal;
  if (!a) {
    json_nothing(j, "animal");
    return;
  }
  json_open(j, "animal", '{');
  json_text_or_null(j, "name", a->name);
  json_text(j, "species", species_word[a->species]);
  json_number(j, "weight_kg", a->weight_kg);
  json_number(j, "ideal_kg", r->body.ideal_kg);
  json_number(j, "metabolic_kg", r->body.metabolic_kg);
  json_number(j, "metabolic_exponent", r->body.exponent);
  json_text_or_null(j, "ideal_from", r->body.ideal_from);
  json_number(j, "condition", a->condition);
  json_number(j, "age_years", a->age_years);
  if (a->neutered < 0) {
    json_nothing(j, "neutered");
  } else {
    json_bool(j, "neutered", a->neutered != 0);
  }
  json_text(j, "activity", a->activity_stated ? activity_word[a->activity] : NULL);
  json_text_or_null(j, "status", a->status);
  json_close(j, '}');
}

static void write_need(struct json *j, const struct check_result *r) {
  const struct energy_need *need = &r->energy.need;
  bool known = judged(r);
  json_number(j, "need_kcal", known ? need->kcal : NOT_KNOWN);
  json_number(j, "need_low_kcal", known ? need->low_kcal : NOT_KNOWN);
  json_number(j, "need_high_kcal", known ? need->high_kcal : NOT_KNOWN);
  json_text_or_null(j, "need_from", known ? need->from : NULL);
}

static void write_need_table(struct json *j, const struct library *lib, const struct check_result *r) {
  const struct img_energy *row = judged(r) ? r->energy.need.row : NULL;
  if (!row) {
    json_nothing(j, "need_table");
    return;
  }
  json_open(j, "need_table", '{');
  json_text(j, "source", source_key(lib, row->source));
  json_number(j, "row", row->row);
  json_text_or_null(j, "words", lib_str(lib, row->words));
  json_text(j, "confidence", confidence_word[row->confidence]);
  json_close(j, '}');
}

static void write_energy(struct json *j, const struct library *lib, const struct check_result *r) {
  static const char *const BY[] = {"atwater", "published", "four-step"};
  const struct energy_result *e = &r->energy;
  json_open(j, "energy", '{');
  write_need(j, r);
  json_number(j, "supply_kcal", e->supply_kcal);
  json_number(j, "kcal_per_kg", e->kcal_per_kg);
  json_open(j, "share", '{');
  json_number(j, "protein", e->share_protein);
  json_number(j, "fat", e->share_fat);
  json_number(j, "carbohydrate", e->share_carbohydrate);
  json_close(j, '}');
  json_number(j, "supply_low_kcal", e->supply_low);
  json_number(j, "supply_high_kcal", e->supply_high);
  json_text(j, "energy_by", BY[r->options.energy_by]);
  json_number(j, "published_kcal", e->published_kcal);
  json_number(j, "four_step_kcal", e->four_step_kcal);
  json_number(j, "grams_per_day", e->grams_per_day);
  json_open(j, "from", '[');
  for (size_t i = 0; i < e->from_count; i++) {
    json_open(j, NULL, '{');
    json_number(j, "line", line_number(&r->ration->line[e->from[i].line]));
    json_number(j, "share", e->from[i].share);
    json_number(j, "amount", e->from[i].amount);
    json_close(j, '}');
  }
  json_close(j, ']');
  write_need_table(j, lib, r);
  json_close(j, '}');
}

/* ---- nutrients ---- */

static void write_table(struct json *j, const char *key, const struct library *lib, const struct img_allowance *row) {
  if (!row) {
    json_nothing(j, key);
    return;
  }
  json_open(j, key, '{');
  json_text(j, "source", source_key(lib, row->source));
  json_number(j, "row", row->row);
  json_text_or_null(j, "printed", lib_str(lib, row->printed));
  json_text(j, "confidence", confidence_word[row->confidence]);
  json_close(j, '}');
}

static void write_tables(struct json *j, const struct library *lib, const struct allowance *t) {
  write_table(j, "table", lib, t ? t->allowance_row : NULL);
  write_table(j, "minimum_table", lib, t ? t->minimum_row : NULL);
  write_table(j, "upper_table", lib, t ? t->upper_row : NULL);
  json_text_or_null(j, "how", t ? t->how : NULL);
}

static void write_suppliers(struct json *j, const struct check_result *r, const struct nutrient_result *n) {
  json_open(j, "from", '[');
  for (size_t i = 0; i < n->from_count; i++) {
    json_open(j, NULL, '{');
    json_number(j, "line", line_number(&r->ration->line[n->from[i].line]));
    json_number(j, "share", n->from[i].share);
    json_number(j, "amount", n->from[i].amount);
    json_text(j, "status", value_status_word[n->from[i].status]);
    json_close(j, '}');
  }
  json_close(j, ']');
  json_open(j, "missing", '[');
  for (size_t i = 0; i < n->missing_count; i++) json_number(j, NULL, line_number(&r->ration->line[n->missing[i]]));
  json_close(j, ']');
}

static void write_adjusted(struct json *j, const struct nutrient_result *n) {
  if (!n->adjusted) {
    json_nothing(j, "adjusted");
    return;
  }
  json_open(j, "adjusted", '{');
  json_number(j, "from", n->adjusted_from);
  json_number(j, "to", n->adjusted_to);
  json_text_or_null(j, "why", n->adjusted_why);
  json_close(j, '}');
}

static void write_days(struct json *j, const struct nutrient_result *n) {
  json_number(j, "window_amount", n->window_amount);
  json_number(j, "window_high", n->window_high);
  json_bool(j, "verdict_by_window", n->verdict_by_window);
  json_number(j, "lowest_day", n->lowest_day);
  json_number(j, "highest_day", n->highest_day);
  json_bool(j, "highest_day_over", n->highest_day_over);
}

static void write_nutrient(struct json *j, const struct library *lib, const struct check_result *r,
                           const struct nutrient_result *n) {
  const struct nutrient_info *info = &nutrient_info[n->id];
  json_open(j, NULL, '{');
  json_text(j, "key", info->key);
  json_text(j, "name", info->name);
  json_text(j, "unit", info->unit);
  json_number(j, "amount", n->amount);
  json_number(j, "low", n->low);
  json_number(j, "high", n->high);
  json_number(j, "known_share", n->known_share);
  json_number(j, "minimum", n->minimum);
  json_number(j, "allowance", n->allowance);
  json_number(j, "upper", n->upper);
  json_number(j, "ratio", n->ratio);
  json_number(j, "chance_met", n->chance_met);
  json_number(j, "per_1000kcal", n->per_1000kcal);
  json_text(j, "verdict", judged(r) ? verdict_word[n->verdict] : NULL);
  json_number(j, "window_days", n->window_days > 0 ? n->window_days : NOT_KNOWN);
  write_adjusted(j, n);
  write_suppliers(j, r, n);
  json_number(j, "chance_kept", n->chance_kept);
  json_bool(j, "upper_greater_than", n->upper_greater_than);
  json_bool(j, "near_upper", n->near_upper);
  write_days(j, n);
  json_number(j, "cv", n->cv);
  json_number(j, "possible", n->possible);
  json_number(j, "estimated_share", n->estimated_share);
  write_tables(j, lib, n->table);
  json_close(j, '}');
}

/* ---- balance, parts, findings ---- */

static void write_balance(struct json *j, const struct balance *b) {
  static const char *const KEY[] = {"ca_p", "zn_cu", "n6_n3", "k_na", "phytate_zn"};
  const double value[] = {b->ca_p, b->zn_cu, b->n6_n3, b->k_na, b->phytate_zn};
  json_open(j, "balance", '{');
  for (size_t i = 0; i < COUNT_OF(KEY); i++) json_number(j, KEY[i], value[i]);
  json_number(j, "ca_phytate_zn_mmol_per_1000kcal", b->ca_phytate_zn);
  json_open(j, "known_share", '{');
  for (size_t i = 0; i < COUNT_OF(KEY); i++) json_number(j, KEY[i], b->known_share[i]);
  json_close(j, '}');
  json_close(j, '}');
}

static void write_parts(struct json *j, const struct check_result *r) {
  json_open(j, "parts", '{');
  for (int i = 0; i < BOWL_COUNT; i++) json_number(j, json_part_key[i], r->parts[i]);
  json_close(j, '}');
}

static void write_because_value(struct json *j, const char *key, const struct because *b) {
  if (b->text) {
    json_text(j, key, b->text);
  } else {
    json_number(j, key, b->value);
  }
}

static size_t count_key(const struct finding *f, const char *key, size_t from, size_t to) {
  size_t n = 0;
  for (size_t i = from; i < to; i++) n += strcmp(f->because[i].key, key) == 0;
  return n;
}

static void write_because_unit(struct json *j, const struct because *b) {
  if (!b->unit || !b->unit[0]) return;
  char key[64];
  size_t n = strlen(b->key);
  if (n + sizeof "_unit" > sizeof key) return;
  memcpy(key, b->key, n);
  memcpy(key + n, "_unit", sizeof "_unit");
  json_text(j, key, b->unit);
}

/* An object has every key once: facts that share a key become one array. */
static void write_because(struct json *j, const struct finding *f) {
  json_open(j, "because", '{');
  for (size_t i = 0; i < f->because_count; i++) {
    const struct because *b = &f->because[i];
    if (count_key(f, b->key, 0, i) > 0) continue;
    if (count_key(f, b->key, i, f->because_count) == 1) {
      write_because_value(j, b->key, b);
    } else {
      json_open(j, b->key, '[');
      for (size_t k = i; k < f->because_count; k++)
        if (strcmp(f->because[k].key, b->key) == 0) write_because_value(j, NULL, &f->because[k]);
      json_close(j, ']');
    }
    write_because_unit(j, b);
  }
  json_close(j, '}');
}

static void write_findings(struct json *j, const struct check_result *r) {
  json_open(j, "findings", '[');
  for (size_t i = 0; i < r->finding_count; i++) {
    const struct finding *f = &r->finding[i];
    json_open(j, NULL, '{');
    json_text(j, "id", f->id);
    json_text(j, "weight", finding_weight_word[f->weight]);
    json_text(j, "text", f->text);
    write_because(j, f);
    json_text_or_null(j, "source", f->source);
    json_text_or_null(j, "reason", f->reason);
    json_text_or_null(j, "remedy", f->remedy);
    json_text(j, "confidence", confidence_word[f->confidence]);
    json_bool(j, "danger", finding_is_danger(f));
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_refused(struct json *j, enum refusal refusal) {
  if (refusal == REFUSE_NOT) {
    json_nothing(j, "refused");
    return;
  }
  json_open(j, "refused", '{');
  json_text(j, "why", refusal_key(refusal));
  json_text(j, "text", refusal_text(refusal));
  json_text(j, "ask", refusal_ask(refusal));
  json_close(j, '}');
}

static void write_verdict_counts(struct json *j, const struct check_result *r) {
  if (!judged(r)) {
    json_nothing(j, "verdicts");
    return;
  }
  json_open(j, "verdicts", '{');
  for (int v = 0; v < VERDICT_COUNT; v++) json_number(j, verdict_word[v], r->verdict_count[v]);
  json_close(j, '}');
}

static void write_measure_of_need(struct json *j, const struct check_result *r) {
  json_text(j, "standard", standard_key[r->options.standard]);
  json_text(j, "basis", basis_key[judged(r) ? r->allowances.basis : r->options.basis]);
}

void json_check(const struct library *lib, const struct check_result *r, struct buf *out) {
  static const struct asked NOTHING = {NULL, 0, NULL};
  json_check_asked(lib, r, &NOTHING, out);
}

void json_check_asked(const struct library *lib, const struct check_result *r, const struct asked *asked, struct buf *out) {
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  write_recipe(j, lib, r->ration);
  write_animal(j, r);
  write_measure_of_need(j, r);
  json_number(j, "sure", r->options.sure);
  write_energy(j, lib, r);
  json_open(j, "nutrients", '[');
  for (int i = 0; i < NUT_COUNT; i++) write_nutrient(j, lib, r, &r->nutrient[i]);
  json_close(j, ']');
  write_balance(j, &r->balance);
  write_parts(j, r);
  write_findings(j, r);
  write_refused(j, r->refusal);
  write_verdict_counts(j, r);
  json_quiet(j, r);
  if (asked->ratio) json_ratio(j, r, asked->ratio);
  if (asked->why_count > 0) json_why(j, lib, r, asked);
  json_close(j, '}');
}

/* ---- need ---- */

static bool has_figure(const struct nutrient_result *n) {
  return n->minimum == n->minimum || n->allowance == n->allowance || n->upper == n->upper;
}

static void write_need_nutrient(struct json *j, const struct library *lib, const struct nutrient_result *n) {
  const struct nutrient_info *info = &nutrient_info[n->id];
  json_open(j, NULL, '{');
  json_text(j, "key", info->key);
  json_text(j, "name", info->name);
  json_text(j, "unit", info->unit);
  json_number(j, "minimum", n->minimum);
  json_number(j, "allowance", n->allowance);
  json_number(j, "upper", n->upper);
  json_bool(j, "upper_greater_than", n->upper_greater_than);
  json_number(j, "window_days", n->window_days > 0 ? n->window_days : NOT_KNOWN);
  write_tables(j, lib, n->table);
  json_close(j, '}');
}

void json_need(const struct library *lib, const struct check_result *r, struct buf *out) {
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  write_animal(j, r);
  write_measure_of_need(j, r);
  json_open(j, "energy", '{');
  write_need(j, r);
  write_need_table(j, lib, r);
  json_close(j, '}');
  json_open(j, "nutrients", '[');
  for (int i = 0; judged(r) && i < NUT_COUNT; i++)
    if (has_figure(&r->nutrient[i])) write_need_nutrient(j, lib, &r->nutrient[i]);
  json_close(j, ']');
  write_refused(j, r->refusal);
  json_close(j, '}');
}
