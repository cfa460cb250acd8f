/* "compose --json": the recipe, what it costs, and when there is none why, what comes nearest and what would help. */
#include <math.h>

#include "app/app_compose.h"
#include "json/json_helps.h"
#include "json/json_left.h"
#include "json/json.h"

static const char *status_word(const struct compose_result *r) {
  switch (r->status) {
  case COMPOSE_FOUND:
    return "found";
  case COMPOSE_STOPPED:
    return "stopped";
  case COMPOSE_NONE:
    return "none-exists";
  case COMPOSE_REFUSED:
    return "refused";
  case COMPOSE_NOT_LINEAR:
    break;
  }
  return "not-linear";
}

static void write_lines(struct json *j, const struct library *lib, const struct composed_answer *a,
                        const struct compose_bowl *b) {
  json_open(j, "lines", '[');
  for (size_t i = 0; i < b->ration->line_count; i++) {
    const struct ration_line *l = &b->ration->line[i];
    size_t c = (size_t)b->candidate[i];
    const struct compose_food *f = &a->request->food[a->result->food_of[c]];
    double grams = ration_line_grams_per_day(l);
    json_open(j, NULL, '{');
    json_text(j, "food", library_code(lib, l->shown_food));
    json_text(j, "name", f->food.name);
    json_number(j, "grams_per_day", grams);
    json_number(j, "days_per_week", a->result->times_of[c] / 4);
    json_number(j, "cost", grams * f->price);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_wanting(struct json *j, const struct check_result *r) {
  json_open(j, "wanting", '[');
  for (int i = 0; r && i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &r->nutrient[i];
    if (n->verdict == VERDICT_MET || n->verdict == VERDICT_NO_FIGURE) continue;
    json_open(j, NULL, '{');
    json_text(j, "key", nutrient_info[i].key);
    json_text(j, "verdict", verdict_word[n->verdict]);
    json_text(j, "unit", nutrient_info[i].unit);
    json_number(j, "amount", n->window_amount);
    json_number(j, "allowance", n->allowance);
    json_number(j, "upper", n->upper);
    json_number(j, "chance_met", n->chance_met);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_bowls(struct json *j, const struct library *lib, const struct composed_answer *a,
                        const struct composed *c) {
  json_open(j, "bowls", '[');
  for (size_t i = 0; i < a->request->animals; i++) {
    const struct compose_bowl *b = &c->dish->bowl[i];
    json_open(j, NULL, '{');
    json_text(j, "animal", b->animal->name);
    json_text(j, "species", species_word[b->animal->species]);
    json_number(j, "base_share", b->share);
    json_number(j, "need_kcal", b->need_kcal);
    json_number(j, "supply_kcal", b->after->energy.supply_kcal);
    json_number(j, "grams_per_day", b->after->energy.grams_per_day);
    json_text(j, "text", c->bowl[i].text);
    json_text_or_null(j, "topper", c->bowl[i].topper);
    json_bool(j, "kept", c->bowl[i].kept);
    write_lines(j, lib, a, b);
    write_wanting(j, c->bowl[i].after);
    json_left(j, NULL, c->bowl[i].after);
    json_close(j, '}');
  }
  json_close(j, ']');
  json_text_or_null(j, "base", c->base);
}

static void write_dish(struct json *j, const struct library *lib, const struct composed_answer *a,
                       const struct composed *c) {
  json_text(j, "text", c->bowl[0].text);
  json_number(j, "grams_per_day", c->dish->grams);
  json_number(j, "cost_per_day", a->priced ? c->dish->cost : (double)NAN);
  json_bool(j, "rounded", c->dish->rounded);
  write_bowls(j, lib, a, c);
}

static void write_none(struct json *j, const struct library *lib, const struct composed_answer *a) {
  const struct compose_result *r = a->result;
  json_open(j, "conflict", '[');
  for (size_t i = 0; i < r->conflict.count; i++) json_text(j, NULL, r->conflict.words[i]);
  json_close(j, ']');
  json_text_or_null(j, "because", r->conflict.sentence ? r->conflict.sentence : "");
  if (a->nearest) {
    json_open(j, "nearest", '{');
    write_dish(j, lib, a, a->nearest);
    json_close(j, '}');
  } else {
    json_nothing(j, "nearest");
  }
  json_text_or_null(j, "would_help_for", r->help_for ? r->help_for->name : "");
  json_helps(j, lib, &r->help);
}

void json_compose(const struct library *lib, const struct app_compose_answer *answer, struct buf *out) {
  const struct composed_answer *a = &answer->answer;
  const struct compose_result *r = a->result;
  struct json j;
  json_init(&j, out);
  json_open(&j, NULL, '{');
  json_text(&j, "larder", a->name);
  json_text(&j, "status", status_word(r));
  json_text(&j, "aim", a->aim);
  json_number(&j, "objective", a->found ? a->found->dish->objective : (double)NAN);
  json_number(&j, "objective_before_rounding", a->found ? r->objective : (double)NAN);
  json_number(&j, "bound", a->found ? r->bound : (double)NAN);
  json_bool(&j, "proven", r->proven);
  json_text(&j, "currency", a->currency);
  if (a->found) {
    write_dish(&j, lib, a, a->found);
  } else {
    json_nothing(&j, "text");
  }
  write_none(&j, lib, a);
  json_text(&j, "refused", r->status == COMPOSE_REFUSED ? refusal_text(animal_refusal(r->refused)) : NULL);
  json_close(&j, '}');
}
