#include "json/json_helps.h"

static void write_food(struct json *j, const struct library *lib, const struct model_help *h) {
  json_text(j, "food", library_code(lib, h->food));
  json_text(j, "name", library_name(lib, h->food));
  json_number(j, "grams_per_day", h->grams);
  json_number(j, "most_grams_per_day", h->most_grams);
}

static void write_help(struct json *j, const struct library *lib, const struct model_help *h) {
  json_open(j, NULL, '{');
  write_food(j, lib, h);
  json_bool(j, "enough", h->enough);
  json_number(j, "relief", h->relief);
  json_open(j, "helps_with", '[');
  for (size_t i = 0; i < h->relieved; i++) json_text(j, NULL, h->limit[i]->name);
  json_close(j, ']');
  json_close(j, '}');
}

void json_helps(struct json *j, const struct library *lib, const struct model_helps *h) {
  json_open(j, "would_help", '[');
  for (size_t i = 0; i < h->count; i++) write_help(j, lib, &h->help[i]);
  json_close(j, ']');
  json_open(j, "would_help_together", '[');
  for (size_t i = 0; i < h->team.count; i++) {
    json_open(j, NULL, '{');
    write_food(j, lib, &h->team.food[i]);
    json_close(j, '}');
  }
  json_close(j, ']');
}
