/* "swap --json": the foods that could stand in a line's place, best first. */
#include "app/app_swap.h"
#include "judge/verdict.h"
#include "json/json.h"

static void write_moves(struct json *j, const char *key, const struct swapped *s, const struct swapped_hit *h,
                        const enum nutrient *list, size_t count) {
  json_open(j, key, '[');
  for (size_t i = 0; i < count; i++) {
    json_open(j, NULL, '{');
    json_text(j, "key", nutrient_info[list[i]].key);
    json_text(j, "before", verdict_word[s->before->nutrient[list[i]].verdict]);
    json_text(j, "after", verdict_word[h->after->nutrient[list[i]].verdict]);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_hit(struct json *j, const struct library *lib, const struct swapped *s, const struct swapped_hit *h) {
  json_open(j, NULL, '{');
  json_text(j, "food", library_code(lib, h->food));
  json_text(j, "name", library_name(lib, h->food));
  json_number(j, "grams", h->grams);
  json_digits(j, "score", h->score, 5);
  write_moves(j, "repairs", s, h, h->repairs, h->repair_count);
  write_moves(j, "breaks", s, h, h->breaks, h->break_count);
  json_number(j, "fat_g_change", h->fat_g);
  json_number(j, "kcal_change", h->kcal);
  json_number(j, "grams_change", h->eaten_g);
  json_number(j, "cost_per_day", h->cost);
  json_bool(j, "thiaminase", h->thiaminase);
  json_text(j, "text", h->text);
  json_close(j, '}');
}

void json_swap(const struct library *lib, const struct swapped *s, struct buf *out) {
  const struct ration_line *line = &s->ration->line[s->line];
  struct json j;
  json_init(&j, out);
  json_open(&j, NULL, '{');
  json_open(&j, "line", '{');
  json_number(&j, "line", line->line);
  json_text(&j, "text", line->text);
  json_text(&j, "food", library_code(lib, line->shown_food));
  json_number(&j, "grams", line->grams_fed);
  json_number(&j, "cost_per_day", s->cost);
  json_close(&j, '}');
  json_text(&j, "equal", s->by_mass ? "mass" : "energy");
  json_bool(&j, "everyday", s->everyday);
  json_text(&j, "part", s->part);
  json_text(&j, "standard", standard_key[s->before->options.standard]);
  json_number(&j, "sure", s->before->options.sure);
  json_number(&j, "offered", (double)s->offered);
  json_number(&j, "possible", (double)s->possible);
  json_open(&j, "hits", '[');
  for (size_t i = 0; i < s->count; i++) write_hit(&j, lib, s, &s->hit[i]);
  json_close(&j, ']');
  json_text(&j, "refused", s->refused ? refusal_text(animal_refusal(s->before->animal)) : NULL);
  json_close(&j, '}');
}
