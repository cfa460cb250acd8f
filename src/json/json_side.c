/* "side --json": the rations or foods, and row by row what each brings. */
#include "json/json_parts.h"

#define NOT_KNOWN ((double)NAN)

static const char *const LETTER[SIDE_MOST] = {"A", "B", "C", "D", "E", "F"};

static void write_cooking(struct json *j, const struct library *lib, const struct cooked_way *way) {
  json_text(j, "way", way_key[way->way]);
  json_number(j, "grams_low", way->grams_low);
  json_number(j, "grams_high", way->grams_high);
  json_open(j, "lines", '[');
  for (size_t i = 0; i < way->ration.line_count; i++) {
    const struct ration_line *l = &way->ration.line[i];
    const struct way_line *w = &way->line[i];
    json_open(j, NULL, '{');
    json_number(j, "line", l->line > 0 ? l->line : NOT_KNOWN);
    json_number(j, "grams_per_day", ration_line_grams_per_day(l));
    json_bool(j, "cooked", w->row != NULL);
    json_text_or_null(j, "left", way_left_text[w->left]);
    json_number(j, "yield", w->row ? w->yield.mean : NOT_KNOWN);
    json_text(j, "cooking_table", w->row ? lib_str(lib, w->row->code) : NULL);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_item(struct json *j, const struct library *lib, const struct side *s, int i,
                       const struct cooked_way *ways) {
  const struct side_item *x = &s->item[i];
  const struct energy_result *e = &x->r->energy;
  json_open(j, NULL, '{');
  json_text(j, "letter", LETTER[i]);
  json_text_or_null(j, "name", x->name);
  if (s->kind == SIDE_FOODS) {
    json_text(j, "food", library_code(lib, x->food));
    json_text(j, "record", library_name(lib, x->food));
  }
  json_number(j, "grams_per_day", s->kind == SIDE_FOODS ? NOT_KNOWN : x->grams_per_day);
  json_number(j, "kcal_per_day", s->kind == SIDE_FOODS ? NOT_KNOWN : x->kcal_per_day);
  json_number(j, "kcal_per_kg", e->kcal_per_kg);
  json_number(j, "ml_per_day",
              s->kind == SIDE_FOODS ? NOT_KNOWN : volume_of(lib, x->r) * x->grams_per_day / e->grams_per_day);
  json_open(j, "share", '{');
  json_number(j, "protein", e->share_protein);
  json_number(j, "fat", e->share_fat);
  json_number(j, "carbohydrate", e->share_carbohydrate);
  json_close(j, '}');
  if (ways) write_cooking(j, lib, &ways[i]);
  json_close(j, '}');
}

static void write_row(struct json *j, const struct side *s, const struct side_row *row, const struct side_group *g) {
  static const char *const MEANING[] = {"verdicts-differ", "same-verdict", "more-in", "known-in", "alike"};
  json_open(j, NULL, '{');
  json_text(j, "key", nutrient_info[row->id].key);
  json_text(j, "name", nutrient_info[row->id].name);
  json_text(j, "unit", nutrient_info[row->id].unit);
  json_text(j, "meaning", MEANING[g->meaning]);
  json_number(j, "factor", row->factor);
  json_text(j, "most", row->most >= 0 ? LETTER[row->most] : NULL);
  json_open(j, "of", '[');
  for (int i = 0; i < s->count; i++) {
    const struct nutrient_result *n = &s->item[i].r->nutrient[row->id];
    json_open(j, NULL, '{');
    json_text(j, "letter", LETTER[i]);
    json_number(j, "amount", row->amount[i]);
    json_number(j, "low", row->low[i]);
    json_number(j, "high", row->high[i]);
    json_number(j, "per_1000kcal", isnan(row->amount[i]) ? NOT_KNOWN : n->per_1000kcal);
    json_number(j, "known_share", n->known_share);
    json_number(j, "need", row->need[i]);
    json_number(j, "upper", row->upper[i]);
    json_number(j, "ratio", row->ratio[i]);
    bool judged = s->judged && s->per != SIDE_PER_100G && s->kind != SIDE_FOODS;
    json_text(j, "verdict", judged ? verdict_word[row->verdict[i]] : NULL);
    json_close(j, '}');
  }
  json_close(j, ']');
  json_close(j, '}');
}

void json_side(const struct library *lib, const struct side *s, const struct cooked_way *ways, struct buf *out) {
  struct json writer, *j = &writer;
  const struct check_result *first = s->item[0].r;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_text(j, "kind", side_kind_key[s->kind]);
  json_text(j, "per", side_per_key[s->per]);
  json_text(j, "standard", standard_key[first->options.standard]);
  json_text(j, "basis", basis_key[s->judged ? first->allowances.basis : first->options.basis]);
  json_number(j, "sure", first->options.sure);
  if (s->animal) {
    json_open(j, "animal", '{');
    json_text_or_null(j, "name", s->animal->name);
    json_text(j, "species", species_word[s->animal->species]);
    json_number(j, "weight_kg", s->animal->weight_kg);
    json_number(j, "need_kcal", first->energy.need.kcal);
    json_close(j, '}');
  } else {
    json_nothing(j, "animal");
  }
  json_open(j, "items", '[');
  for (int i = 0; i < s->count; i++) write_item(j, lib, s, i, ways);
  json_close(j, ']');
  json_open(j, "nutrients", '[');
  for (int g = 0; g < s->group_count; g++)
    for (int i = 0; i < s->group[g].count; i++) write_row(j, s, &s->row[s->group[g].first + i], &s->group[g]);
  json_close(j, ']');
  if (first->refusal != REFUSE_NOT) {
    json_text(j, "refused", refusal_key(first->refusal));
  } else {
    json_nothing(j, "refused");
  }
  json_close(j, '}');
}
