/* bowlwright check, bowlwright need: the answers about an animal. */
#include "cli/run.h"
#include "label/allowance_text.h"
#include "picture/poster.h"

/* "-- name ------------": between the answers of several recipes. */
static void add_rule(const struct report_style *style, const char *name, struct buf *out) {
  const char *dash = style->unicode ? "\xE2\x94\x80" : "-";
  size_t used = strlen(name) + 4, wide = (size_t)style->width;
  buf_repeat(out, dash, 2);
  buf_addf(out, " %s ", name);
  buf_repeat(out, dash, wide > used ? wide - used : 0);
  buf_addc(out, '\n');
}

static int code_of(const struct run *s, const struct check_result *r) {
  if (r->refusal != REFUSE_NOT) return EXIT_REFUSED;
  bool bad = r->verdict_count[VERDICT_SHORT] + r->verdict_count[VERDICT_OVER] > 0;
  return s->options->strict && bad ? EXIT_SHORT_OR_OVER : EXIT_COMPUTED;
}

/* In the drawn answer the refusal is in plain sight; beside JSON a person still wants to read it. */
static void tell_refusal(const struct run *s, const struct check_result *r) {
  if (s->options->json && r->refusal != REFUSE_NOT) note(s, "%s %s", refusal_text(r->refusal), refusal_ask(r->refusal));
}

/* ---- check ---- */

/* What is asked beside the answer, read once and understood before anything is computed. */
struct questions {
  struct why_key *why;
  size_t why_count;
  struct ratio ratio;
  bool has_ratio;
};

static int read_questions(const struct run *s, struct questions *q) {
  const struct options *o = s->options;
  *q = (struct questions){.why = ARENA_NEW(s->arena, struct why_key, o->ask.why.count + 1),
                          .has_ratio = o->ask.ratio != NULL};
  if (!read_whys(s, q->why, &q->why_count)) return EXIT_USAGE;
  struct buf complaint;
  buf_init(&complaint, s->arena, 4096);
  if (!q->has_ratio || ratio_read(span_of(o->ask.ratio), &q->ratio, &complaint)) return EXIT_COMPUTED;
  complain("--ratio: %s", buf_text(&complaint));
  return EXIT_USAGE;
}

static struct asked answer_questions(const struct run *s, const struct questions *q, const struct check_result *r,
                                     struct arena *arena) {
  struct asked a = {.why_count = q->why_count};
  if (q->why_count > 0) a.why = why_of(&s->lib, r, q->why, q->why_count, arena);
  if (q->has_ratio) a.ratio = ratio_view_of(&s->lib, r, &q->ratio, arena);
  return a;
}

static void draw_check(const struct run *s, const struct questions *q, const struct app_check_answer *a, const char *name,
                       struct buf *out) {
  const struct check_result *r = a->result;
  bool several = s->options->operand.count > 1;
  struct asked asked = answer_questions(s, q, r, out->arena);
  asked.post = a->post;
  if (s->options->json) {
    json_check_asked(&s->lib, r, &asked, out);
    buf_addc(out, '\n');
    return;
  }
  if (several) add_rule(&s->style, strcmp(name, "-") == 0 ? "standard input" : name, out);
  if (asked.why_count > 0) {
    report_why(&s->lib, r, &asked, &s->style, out);
  } else {
    report_check_asked(&s->lib, r, &asked, &s->style, out);
  }
  if (several) buf_addc(out, '\n');
}

/* The strict text of a post, or what is said of one without any food. */
static int answer_post(const struct run *s, const struct post *post, struct arena *arena) {
  struct buf out;
  buf_init(&out, arena, ANSWER_MOST_BYTES);
  if (post->recipe[0]) {
    buf_adds(&out, post->recipe);
  } else if (s->options->json) {
    json_unread(&s->lib, post, &out);
    buf_addc(&out, '\n');
  } else {
    report_unread(post, &s->style, &out);
  }
  int code = write_answer(&out);
  return code != EXIT_COMPUTED ? code : post->recipe[0] ? EXIT_COMPUTED : EXIT_NOT_UNDERSTOOD;
}

/* The picture in the place of the answer. */
static int draw_picture(const struct run *s, const struct questions *q, const struct check_result *r, struct arena *arena) {
  enum nutrient *asked = ARENA_NEW(arena, enum nutrient, q->why_count + 1);
  size_t count = 0;
  struct buf out;
  for (size_t i = 0; i < q->why_count; i++)
    if (q->why[i].nutrient != NUT_NONE) asked[count++] = q->why[i].nutrient;
  buf_init(&out, arena, ANSWER_MOST_BYTES);
  drawing_svg(picture_poster(&s->lib, r, asked, count, arena), 1, &out);
  buf_addc(&out, '\n');
  if (strcmp(s->options->svg, "-") == 0) return write_answer(&out);
  int code = write_file(s, s->options->svg, &out);
  if (code != EXIT_COMPUTED || s->options->quiet) return code;
  buf_init(&out, arena, 8192);
  buf_addf(&out, "%s is written\n", s->options->svg);
  return write_answer(&out);
}

/* 'first' recipe of the run: complaints about the animals and the hint are said once. */
static int check_one(const struct run *s, const struct questions *questions, const struct app_check_request *asked,
                     const char *path, bool first, struct arena *arena) {
  struct app_check_request q = *asked;
  struct app_check_answer a;
  struct buf out;
  int code = read_text(path, &q.recipe, arena);
  if (code != EXIT_COMPUTED) return code;
  app_check(&s->lib, &q, &a, arena);
  if (a.post && (s->options->ask.as_recipe || !a.post->recipe[0])) return answer_post(s, a.post, arena);
  if (!a.post || a.recipe_diags.errors > 0) show_diags(s, &a.recipe_diags, arena);
  if (first) show_diags(s, &a.animal_diags, arena);
  if (first) show_diags(s, &a.journal_diags, arena);
  if (!a.result) return EXIT_NOT_UNDERSTOOD;
  if (s->options->strict && !a.result->animal) {
    complain("--strict needs an animal to judge for: --dog 18kg, --cat 4.6kg or --for FILE, or 'Dog: 18 kg' in the text");
    return EXIT_USAGE;
  }
  buf_init(&out, arena, ANSWER_MOST_BYTES);
  if (s->options->svg) {
    code = draw_picture(s, questions, a.result, arena);
  } else if (!s->unread) {
    draw_check(s, questions, &a, path, &out);
    code = write_answer(&out);
  }
  if (code != EXIT_COMPUTED) return code;
  tell_tally(s, a.result, a.post);
  tell_refusal(s, a.result);
  if (first && !a.result->animal) hint_at_animals(s, a.recipe);
  return code_of(s, a.result);
}

int verb_check(struct run *s) {
  struct app_check_request asked;
  struct questions questions;
  int worst = read_questions(s, &questions);
  if (s->options->svg && s->options->operand.count > 1) {
    complain("--svg draws one recipe; name one");
    return EXIT_USAGE;
  }
  if (worst == EXIT_COMPUTED) worst = ask_about(s, &asked);
  if (worst != EXIT_COMPUTED) return worst;
  for (size_t i = 0; i < s->options->operand.count && worst != EXIT_TROUBLE; i++) {
    struct arena arena;
    arena_init(&arena, out_of_memory);
    worst = worse_code(worst, check_one(s, &questions, &asked, s->options->operand.item[i], i == 0, &arena));
    arena_free(&arena);
  }
  return worst;
}

/* ---- need ---- */

static int need_one(const struct run *s, const struct app_check_request *q, bool several, struct arena *arena) {
  struct app_check_answer a;
  struct buf out;
  app_need(&s->lib, q, &a, arena);
  show_diags(s, &a.animal_diags, arena);
  show_diags(s, &a.journal_diags, arena);
  if (!a.result) return EXIT_NOT_UNDERSTOOD;
  buf_init(&out, arena, ANSWER_MOST_BYTES);
  if (s->options->worksheet) {
    allowances_write(&s->lib, a.result->options.standard, a.result->animal->species, &out);
  } else if (s->options->json) {
    json_need(&s->lib, a.result, &out);
    buf_addc(&out, '\n');
  } else {
    if (several) add_rule(&s->style, a.result->animal->name, &out);
    report_need(&s->lib, a.result, &s->style, &out);
    if (several) buf_addc(&out, '\n');
  }
  int code = write_answer(&out);
  if (code != EXIT_COMPUTED) return code;
  tell_refusal(s, a.result);
  return code_of(s, a.result);
}

/* A text with several animals and no name: each of them. */
static int need_each(const struct run *s, const struct app_check_request *asked, struct arena *arena) {
  struct diags d;
  struct animal *animal = NULL;
  size_t count = 0;
  struct app_check_request q = *asked;
  bool understood = app_animals(&asked->animals, s->today, &d, &animal, &count, arena);
  if (!understood || count == 0) return need_one(s, &q, false, arena);
  show_diags(s, &d, arena);
  int worst = EXIT_COMPUTED;
  for (size_t i = 0; i < count && worst != EXIT_TROUBLE; i++) {
    q.one_off = &animal[i];
    worst = worse_code(worst, need_one(s, &q, count > 1, arena));
  }
  return worst;
}

int verb_need(struct run *s) {
  struct app_check_request q;
  int code = ask_about(s, &q);
  if (code != EXIT_COMPUTED) return code;
  return q.one_off || q.for_name ? need_one(s, &q, false, s->arena) : need_each(s, &q, s->arena);
}
