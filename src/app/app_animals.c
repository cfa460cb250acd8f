/* The animals of a text. */
#include "app/app.h"

bool app_animals(const struct app_input *animals, struct date today, struct diags *d, struct animal **out, size_t *count,
                 struct arena *arena) {
  diags_init(d, arena, animals->name, animals->text);
  return animal_read(animals->text, today, d, out, count, arena);
}
