#include "report/helps.h"

#include "report/say.h"

static void write_paragraph(const struct pen *p, const char *text) {
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 4;
  prose_write(p, &how, text);
}

static const char *named(const struct pen *p, const struct library *lib, uint32_t food) {
  return say_text(p, "%s [%s]", library_name(lib, food), library_code(lib, food));
}

static bool is_among(const char *const *item, int count, const char *x) {
  for (int i = 0; i < count; i++)
    if (strcmp(item[i], x) == 0) return true;
  return false;
}

/* "iodine and vitamin D": of limits with a nutrient its name, else the limit as it was said; of several bowls once. */
static const char *relieved(const struct pen *p, const struct model_help *h) {
  const char *item[HELP_LIMITS];
  int count = 0;
  for (size_t i = 0; i < h->relieved; i++) {
    const struct limit *l = h->limit[i];
    const char *words = l->kind == LIMIT_ALLOWANCE && l->nutrient != NUT_NONE ? words_nutrient(p->arena, l->nutrient)
                                                                              : say_text(p, "\"%s\"", l->name);
    if (!is_among(item, count, words)) item[count++] = words;
  }
  return say_list(p, item, count, HELP_LIMITS);
}

static void say_help(const struct pen *p, const struct library *lib, const struct model_help *h) {
  const char *name = named(p, lib, h->food), *grams = words_number(p->arena, h->grams);
  if (h->enough)
    write_paragraph(p, say_text(p, "%s: with up to %s g a day this becomes possible.", name, grams));
  else
    write_paragraph(p, say_text(p, "%s: up to %s g a day would help with %s; %s of what is missing goes away.", name, grams,
                                relieved(p, h), say_percent(p, h->relief)));
}

static void say_team(const struct pen *p, const struct library *lib, const struct model_team *team) {
  const char *item[TEAM_MOST];
  if (team->count == 0) return;
  for (size_t i = 0; i < team->count; i++)
    item[i] =
        say_text(p, "up to %s g of %s", words_number(p->arena, team->food[i].grams), named(p, lib, team->food[i].food));
  write_paragraph(p, say_text(p, "Together they suffice: with %s a day this becomes possible.",
                              say_list(p, item, (int)team->count, TEAM_MOST)));
}

void say_helps(const struct pen *p, const struct library *lib, const struct model_helps *h) {
  for (size_t i = 0; i < h->count; i++) say_help(p, lib, &h->help[i]);
  say_team(p, lib, &h->team);
}
