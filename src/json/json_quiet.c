/* "quiet": how far the food can be cut; "ratio": parts against a stated ratio. */
#include "json/json_parts.h"

#define NOT_KNOWN ((double)NAN)

static const char *key_of(enum nutrient n) { return n < NUT_COUNT ? nutrient_info[n].key : NULL; }

static void write_lost(struct json *j, const struct quiet *q, const struct check_result *r) {
  static const struct {
    const char *key;
    double share;
  } AT[] = {{"0.9", 0.9}, {"0.8", 0.8}, {"0.7", 0.7}, {"0.6", 0.6}};
  json_open(j, "at", '{');
  for (size_t i = 0; i < COUNT_OF(AT); i++) {
    enum nutrient lost[NUT_COUNT];
    size_t n = quiet_lost_at(q, r, AT[i].share, lost);
    json_open(j, AT[i].key, '[');
    for (size_t k = 0; k < n; k++) json_text(j, NULL, nutrient_info[lost[k]].key);
    json_close(j, ']');
  }
  json_close(j, '}');
}

static void write_crossings(struct json *j, const struct quiet *q, const struct check_result *r) {
  struct quiet_crossing at[NUT_COUNT];
  size_t n = quiet_crossings(q, at);
  json_open(j, "crossings", '[');
  for (size_t i = 0; i < n; i++) {
    json_open(j, NULL, '{');
    json_text(j, "key", nutrient_info[at[i].id].key);
    json_number(j, "share", at[i].share);
    json_number(j, "kcal", at[i].share * r->energy.supply_kcal);
    json_number(j, "short_from", q->of[at[i].id].short_from);
    json_close(j, '}');
  }
  json_close(j, ']');
}

void json_quiet(struct json *j, const struct check_result *r) {
  struct quiet q = quiet_of(r);
  if (!q.applies) {
    json_nothing(j, "quiet");
    return;
  }
  json_open(j, "quiet", '{');
  json_number(j, "all_met_from", q.all_met_from);
  json_number(j, "smallest_kcal", q.smallest_kcal);
  json_text(j, "first_lost", key_of(q.first_lost));
  json_number(j, "highest_fat_share", q.highest_fat_share);
  write_lost(j, &q, r);
  write_crossings(j, &q, r);
  json_text(j, "last_met", key_of(q.last_met));
  json_number(j, "still_met_from", q.still_met_from);
  json_number(j, "unproven", q.unproven);
  json_close(j, '}');
}

/* ---- ratio ----------------------------------------------------------------------------------------------------- */

static void write_keys(struct json *j, unsigned parts) {
  json_open(j, "parts", '[');
  for (int i = 0; i < BOWL_COUNT; i++)
    if (parts & (1U << i)) json_text(j, NULL, json_part_key[i]);
  json_close(j, ']');
}

static void write_needs(struct json *j, const char *key, const struct check_result *r, const struct ratio_need *need,
                        int count) {
  json_open(j, key, '[');
  for (int i = 0; i < count; i++) {
    const struct nutrient_result *n = &r->nutrient[need[i].id];
    json_open(j, NULL, '{');
    json_text(j, "key", nutrient_info[n->id].key);
    json_text(j, "unit", nutrient_info[n->id].unit);
    json_number(j, "amount", n->amount);
    json_number(j, "allowance", n->allowance);
    json_number(j, "best", need[i].best);
    json_text(j, "verdict", verdict_word[n->verdict]);
    json_bool(j, "unproven", need[i].unproven);
    int line = need[i].line >= 0 ? r->ration->line[need[i].line].line : 0;
    json_number(j, "line", line > 0 ? line : NOT_KNOWN);
    json_close(j, '}');
  }
  json_close(j, ']');
}

void json_ratio(struct json *j, const struct check_result *r, const struct ratio_view *v) {
  json_open(j, "ratio", '{');
  json_number(j, "grams_per_day", v->total_g);
  json_open(j, "pieces", '[');
  for (int i = 0; i < v->ratio.count; i++) {
    json_open(j, NULL, '{');
    json_text(j, "name", v->ratio.piece[i].name);
    write_keys(j, v->ratio.piece[i].parts);
    json_number(j, "share_asked", v->ratio.piece[i].share);
    json_number(j, "share", v->row[i].share);
    json_number(j, "grams", v->row[i].grams);
    json_number(j, "grams_asked", v->row[i].asked_g);
    json_number(j, "difference_g", v->row[i].difference_g);
    json_close(j, '}');
  }
  json_close(j, ']');
  json_open(j, "beside", '{');
  for (int i = 0; i < BOWL_COUNT; i++)
    if (v->beside_g[i] > 0) json_number(j, json_part_key[i], v->beside_g[i]);
  json_close(j, '}');
  write_needs(j, "left_open", r, v->open, v->open_count);
  write_needs(j, "within_reach", r, v->within, v->within_count);
  json_close(j, '}');
}
