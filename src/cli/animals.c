/* From the command line to what every use case is asked: --for, --dog and --cat become the animals text and the name in it.
 */
#include "cli/run.h"

/* "examples/saltmarsh.animals:Juniper": the name behind the last colon, when the part before it is a file. */
static bool split_name(const char *value, const char **path, const char **name, struct arena *arena) {
  const char *colon = strrchr(value, ':');
  if (!colon || colon == value || colon[1] == '\0') return false;
  const char *before = arena_text(arena, (struct span){value, (size_t)(colon - value)});
  if (!file_exists(before)) return false;
  *path = before;
  *name = colon + 1;
  return true;
}

/* What is no file but is spelled like one was meant as one: reading it says that it does not exist. */
static bool spelled_like_a_path(const char *value) { return strchr(value, '/') || strchr(value, '.'); }

static int set_once(const char **slot, const char *value, const char *what) {
  if (*slot) {
    complain("--for names two %s, '%s' and '%s'; one is enough", what, *slot, value);
    return EXIT_USAGE;
  }
  *slot = value;
  return EXIT_COMPUTED;
}

static int sort_out(const char *value, const char **path, const char **name, struct arena *arena) {
  const char *p = NULL, *n = NULL;
  if (strcmp(value, "-") == 0 || file_exists(value)) {
    p = value;
  } else if (!split_name(value, &p, &n, arena)) {
    if (spelled_like_a_path(value)) {
      p = value;
    } else {
      n = value;
    }
  }
  int code = p ? set_once(path, p, "files") : EXIT_COMPUTED;
  if (code == EXIT_COMPUTED && n) code = set_once(name, n, "animals");
  return code;
}

static bool takes_texts(const struct run *s) { return s->verb->operands_are == OPERANDS_ARE_TEXTS; }

/* The folder in which animals are looked for: that of the first recipe. */
static const char *recipe_folder(const struct run *s) {
  const struct text_list *l = &s->options->operand;
  const char *journal = s->options->journal;
  const char *file = takes_texts(s) && l->count > 0 ? l->item[0] : journal ? journal : "-";
  const char *slash = strrchr(file, '/');
  if (!slash) return ".";
  return slash == file ? "/" : arena_text(s->arena, (struct span){file, (size_t)(slash - file)});
}

static int file_for_name(const struct run *s, const char *name, const char **path) {
  struct text_list found = {0};
  const char *folder = recipe_folder(s);
  find_animal_files(folder, &found, s->arena);
  if (found.count == 1) {
    *path = found.item[0];
    return EXIT_COMPUTED;
  }
  if (found.count == 0) {
    complain(
        "--for %s: there is no file of that name, and no *.animals file in '%s' to pick an animal from; say --for FILE:%s",
        name, folder, name);
  } else {
    complain("--for %s: '%s' has several animal files; say which, for example --for %s:%s", name, folder, found.item[0],
             name);
  }
  return EXIT_USAGE;
}

static bool reads_standard_input_twice(const struct run *s, const char *animals_path) {
  const struct options *o = s->options;
  size_t times = animals_path && strcmp(animals_path, "-") == 0;
  for (size_t i = 0; takes_texts(s) && i < o->operand.count; i++) times += strcmp(o->operand.item[i], "-") == 0;
  times += o->journal && strcmp(o->journal, "-") == 0;
  for (size_t i = 0; i < o->foods.count; i++) times += strcmp(o->foods.item[i], "-") == 0;
  return times > 1;
}

static int animals_from_file(const struct run *s, struct app_check_request *out) {
  const struct options *o = s->options;
  const char *path = NULL, *name = NULL;
  int code = EXIT_COMPUTED;
  for (size_t i = 0; code == EXIT_COMPUTED && i < o->for_whom.count; i++)
    code = sort_out(o->for_whom.item[i], &path, &name, s->arena);
  if (code == EXIT_COMPUTED && s->verb->operands_are == OPERANDS_ARE_ANIMALS && o->operand.count > 0)
    code = sort_out(o->operand.item[0], &path, &name, s->arena);
  if (code == EXIT_COMPUTED && name && !path) code = file_for_name(s, name, &path);
  if (code == EXIT_COMPUTED && reads_standard_input_twice(s, path)) {
    complain("standard input ('-') can be read only once");
    code = EXIT_USAGE;
  }
  if (code != EXIT_COMPUTED || !path) return code;
  out->for_name = name;
  return read_text(path, &out->animals, s->arena);
}

int ask_about(const struct run *s, struct app_check_request *out) {
  const struct options *o = s->options;
  *out = (struct app_check_request){.ask = o->ask};
  out->ask.today = s->today;
  if (o->journal && o->verb != VERB_WEEK) { /* week has its own use for it */
    struct app_journal *journal = ARENA_NEW(s->arena, struct app_journal, 1);
    int code = read_journal_and_recipes(s, o->journal, o->operand.count, journal);
    if (code != EXIT_COMPUTED) return code;
    out->journal = journal;
  }
  if (o->dog_kg > 0 || o->cat_kg > 0) {
    bool dog = o->dog_kg > 0;
    struct animal *one_off = ARENA_NEW(s->arena, struct animal, 1);
    *one_off = animal_plain(dog ? SPECIES_DOG : SPECIES_CAT, dog ? o->dog_kg : o->cat_kg);
    out->one_off = one_off;
  }
  return animals_from_file(s, out);
}

void hint_at_animals(const struct run *s, const struct recipe *recipe) {
  struct text_list found = {0};
  find_animal_files(recipe_folder(s), &found, s->arena);
  const char *whom = recipe && recipe->for_whom && recipe->for_whom[0] ? recipe->for_whom : NULL;
  if (found.count == 1) {
    note(s,
         "no animal was given, so only what the food contains is shown; for a verdict add --for %s, --dog 18kg or --cat "
         "4.6kg",
         found.item[0]);
  } else if (whom) {
    note(s,
         "no animal was given, so only what the food contains is shown; for a verdict add --for FILE (the text that "
         "describes "
         "%s), "
         "--dog 18kg or --cat 4.6kg",
         whom);
  } else {
    note(s,
         "no animal was given, so only what the food contains is shown; for a verdict add --dog 18kg, --cat 4.6kg or --for "
         "FILE");
  }
}
