/* bowlwright sheet: the recipe on the kitchen wall, as a page or on paper. */
#include "app/app_sheet.h"
#include "cli/many.h"
#include "explain/why.h"
#include "sheet/sheet.h"

enum format { FORMAT_HTML, FORMAT_PDF };

static bool ends_with(const char *path, const char *end) {
  size_t n = strlen(path), k = strlen(end);
  return n > k && span_is_fold((struct span){path + n - k, k}, end);
}

/* As it was said, else as the file's name ends. */
static int choose_format(const struct run *s, enum format *out) {
  const struct options *o = s->options;
  *out = FORMAT_HTML;
  if (o->json) return EXIT_COMPUTED;
  if (o->format < FORMAT_UNSAID) {
    *out = (enum format)o->format;
    return EXIT_COMPUTED;
  }
  if (!o->out || is_folder(o->operand.item[0]) || ends_with(o->out, ".html") || ends_with(o->out, ".htm"))
    return EXIT_COMPUTED;
  *out = FORMAT_PDF;
  if (ends_with(o->out, ".pdf")) return EXIT_COMPUTED;
  complain("--out %s: name a file that ends in .html or .pdf, or say --format html or --format pdf", o->out);
  return EXIT_USAGE;
}

static struct sheet_style style_of(const struct run *s) {
  const struct request *ask = &s->options->ask;
  return (struct sheet_style){
      .paper = (enum sheet_paper)ask->paper, .units = (enum sheet_units)ask->units, .large = ask->large, .date = s->today};
}

static int write_out(const struct run *s, struct buf *b) {
  const char *path = s->options->out;
  if (!path || strcmp(path, "-") == 0) return write_answer(b);
  int code = write_file(s, path, b);
  if (code != EXIT_COMPUTED) return code;
  struct buf done;
  buf_init(&done, s->arena, 8192);
  buf_addf(&done, "%s is written\n", path);
  return s->options->quiet ? EXIT_COMPUTED : write_answer(&done);
}

static int show(const struct run *s, const struct app_sheet_answer *a, enum format format) {
  const size_t asked = s->options->ask.why.count;
  struct why_key *why = ARENA_NEW(s->arena, struct why_key, asked + 1);
  enum nutrient *supply = ARENA_NEW(s->arena, enum nutrient, asked + 1);
  size_t whys = 0;
  struct sheet_facts facts = {
      .lib = &s->lib, .check = a->check.result, .kitchen = a->kitchen, .post = a->check.post, .supply = supply};
  if (!read_whys(s, why, &whys)) return EXIT_USAGE;
  for (size_t i = 0; i < whys; i++)
    if (why[i].nutrient != NUT_NONE) supply[facts.supplies++] = why[i].nutrient;
  const struct sheet_style style = style_of(s);
  const struct sheet *sheet = sheet_of(&facts, &style, s->arena);
  struct buf out;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_sheet(&s->lib, a->kitchen, sheet, &out);
    buf_addc(&out, '\n');
    return write_out(s, &out);
  }
  if (format == FORMAT_PDF) {
    int code = paper_write(s, sheet, &out);
    return code == EXIT_COMPUTED ? write_out(s, &out) : code;
  }
  sheet_html(sheet, &out);
  return write_out(s, &out);
}

int sheet_begin(const struct run *s) {
  const struct options *o = s->options;
  enum format format = FORMAT_HTML;
  int code = choose_format(s, &format);
  if (code != EXIT_COMPUTED) return code;
  struct why_key *why = ARENA_NEW(s->arena, struct why_key, o->ask.why.count + 1);
  size_t whys;
  if (!read_whys(s, why, &whys)) return EXIT_USAGE;
  if (o->out && is_an_input(s, o->out)) {
    complain("'%s' is one of the texts that this is made from; name another file to write to", o->out);
    return EXIT_USAGE;
  }
  return format == FORMAT_PDF ? paper_begin(s) : EXIT_COMPUTED;
}

int verb_sheet(struct run *s) {
  struct app_sheet_request q = {0};
  struct app_sheet_answer a;
  enum format format = FORMAT_HTML;
  int code = choose_format(s, &format);
  if (code == EXIT_COMPUTED) code = ask_about(s, &q.check);
  if (code == EXIT_COMPUTED) code = read_recipe_and_larder(s, &q.check.recipe, &q.larder);
  if (code != EXIT_COMPUTED) return code;
  app_sheet(&s->lib, &q, &a, s->arena);
  show_recipe_diags(s, &a.check);
  show_diags(s, &a.check.animal_diags, s->arena);
  show_diags(s, &a.larder_diags, s->arena);
  if (!a.kitchen) return EXIT_NOT_UNDERSTOOD;
  tell_tally(s, a.check.result, a.check.post);
  code = show(s, &a, format);
  if (code != EXIT_COMPUTED) return code;
  if (!a.check.result->animal) hint_at_animals(s, a.check.recipe);
  return a.check.result->animal && a.check.result->refusal != REFUSE_NOT ? EXIT_REFUSED : EXIT_COMPUTED;
}
