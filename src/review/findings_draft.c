/* A finding while it is being put together: its row, its words, the figures behind them. */
#include <math.h>

#include "review/findings_internal.h"

/* ---- rows and drafts ------------------------------------------------------------------------------------------- */

const char *review_letters(const struct library *lib, struct arena *arena) {
  const struct img_finding *rows = IMG_ROWS(&lib->image, IMG_FINDINGS, struct img_finding);
  size_t count = img_count(&lib->image, IMG_FINDINGS);
  char *letter = arena_raw(arena, count, 1);
  for (size_t i = 0; i < count; i++) letter[i] = *lib_str(lib, rows[i].id);
  return letter;
}

/* library_finding, some two hundred times for one review: most rows are told apart without a look at their texts. */
const struct img_finding *review_row(const struct review *r, const char *id) {
  if (!r->row_letters) return library_finding(r->lib, id);
  const struct img_finding *rows = IMG_ROWS(&r->lib->image, IMG_FINDINGS, struct img_finding);
  size_t count = img_count(&r->lib->image, IMG_FINDINGS);
  for (const char *at = r->row_letters, *end = at + count; at < end && (at = memchr(at, *id, (size_t)(end - at))); at++)
    if (strcmp(lib_str(r->lib, rows[at - r->row_letters].id), id) == 0) return &rows[at - r->row_letters];
  return NULL;
}

double row_threshold(const struct review *r, const char *id) {
  const struct img_finding *row = review_row(r, id);
  return row ? (double)row->threshold : (double)NAN;
}

double row_threshold2(const struct review *r, const char *id) {
  const struct img_finding *row = review_row(r, id);
  return row ? (double)row->threshold2 : (double)NAN;
}

bool draft_begin_as(struct draft *d, struct review *r, const char *id, const char *row_id) {
  *d = (struct draft){.review = r, .id = id, .severity = 500, .nutrient = NUT_NONE};
  d->row = review_row(r, row_id);
  if (!d->row) return false;
  d->weight = (enum finding_weight)d->row->weight;
  draft_word(d, "animal", words_called(r->result->animal));
  draft_word(d, "counted", r->result->ration->uncounted_count > 0 ? "in what is counted " : "");
  return true;
}

bool draft_begin(struct draft *d, struct review *r, const char *id, const char *fallback) {
  return draft_begin_as(d, r, id, id) || (fallback && draft_begin_as(d, r, id, fallback));
}

void draft_word(struct draft *d, const char *key, const char *text) {
  if (d->filler_count < FILLERS_MOST) d->filler[d->filler_count++] = (struct filler){key, text ? text : ""};
}

static void draft_because(struct draft *d, struct because b) {
  if (d->because_count < BECAUSE_MOST) d->because[d->because_count++] = b;
}

void draft_text_because(struct draft *d, const char *key, const char *text) {
  draft_because(d, (struct because){key, (double)NAN, text, NULL});
}

void draft_number_because(struct draft *d, const char *key, double x, const char *unit) {
  draft_because(d, (struct because){key, x, NULL, unit});
}

const char *amount_words(struct arena *a, double x, const char *unit) {
  return isfinite(x) ? words_amount(a, x, unit) : "an unknown amount";
}

void draft_number(struct draft *d, const char *key, double x, const char *unit) {
  draft_word(d, key, amount_words(d->review->arena, x, unit));
  draft_number_because(d, key, x, unit);
}

void draft_percent(struct draft *d, const char *key, double share) {
  draft_word(d, key, words_share(d->review->arena, share));
  draft_number_because(d, key, share, "share");
}

void draft_of(struct draft *d, enum nutrient n) { d->of[n] = true; }

/* Replaces {key}; a key that nobody filled shows as "?", which the tests look for. */
static const char *fill_in(const struct draft *d, const char *words) {
  struct buf out;
  buf_init(&out, d->review->arena, 4096);
  while (*words) {
    const char *open = strchr(words, '{'), *close = open ? strchr(open, '}') : NULL;
    if (!close) break;
    buf_add(&out, (struct span){words, (size_t)(open - words)});
    struct span key = {open + 1, (size_t)(close - open - 1)};
    const char *text = "?";
    for (size_t i = 0; i < d->filler_count; i++)
      if (span_is(key, d->filler[i].key)) text = d->filler[i].text;
    bool begins = out.n >= 2 && out.p[out.n - 2] == '.' && out.p[out.n - 1] == ' '; /* a sentence */
    buf_adds(&out, begins ? words_capital(d->review->arena, text) : text);
    words = close + 1;
  }
  buf_adds(&out, words);
  while (out.n > 0 && out.p[out.n - 1] == ' ') out.p[--out.n] = '\0';
  return buf_text(&out);
}

/* The same as a sentence. */
static const char *fill(const struct draft *d, const char *words) {
  return words_capital(d->review->arena, fill_in(d, words));
}

static void list_nutrients(struct draft *d, struct finding *f) {
  enum nutrient *n = ARENA_NEW(d->review->arena, enum nutrient, NUT_COUNT);
  if (d->nutrient != NUT_NONE) d->of[d->nutrient] = true;
  for (int i = 0; i < NUT_COUNT; i++)
    if (d->of[i]) n[f->nutrient_count++] = (enum nutrient)i;
  f->nutrient = n;
}

/* What must not be fed at all is told under one word; a danger that harms nobody here keeps its words only. */
static void write_danger(const struct draft *d, struct finding *f) {
  f->danger = d->weight == FINDING_ACT;
  f->bare = f->text;
  if (!d->asked) f->text = words_text(d->review->arena, "Stop: %s", fill_in(d, lib_str(d->review->lib, d->row->words)));
  f->asked = d->asked;
  f->about = d->about;
  f->named_only = d->named_only;
  f->advice = d->advice ? d->advice : f->remedy;
}

/* Is a food named in it that is never to be fed, "fish" or "egg" for "eggs"? */
static bool names_refused(const struct ration *r, struct span words) {
  for (size_t i = 0; i < r->never_count; i++) {
    struct span one = span_of(r->never[i]);
    if (one.n > 3 && (one.p[one.n - 1] | 0x20) == 's') one.n--;
    for (size_t at = 0; one.n > 2 && at + one.n <= words.n; at++)
      if ((at == 0 || words.p[at - 1] == ' ') && span_eq_fold(span_cut(words, at, at + one.n), one)) return true;
  }
  return false;
}

/* What the table says to do, without sentences that name what the text refuses. */
static const char *heeded(const struct draft *d, const char *remedy) {
  const struct ration *r = d->review->result->ration;
  struct buf b;
  if (!r || r->never_count == 0) return remedy;
  buf_init(&b, d->review->arena, 4096);
  for (struct span rest = span_of(remedy); rest.n > 0;) {
    size_t n = 0;
    while (n < rest.n && !(rest.p[n] == '.' && (n + 1 == rest.n || rest.p[n + 1] == ' '))) n++;
    struct span sentence = span_cut(rest, 0, n < rest.n ? n + 1 : n);
    if (!names_refused(r, sentence)) buf_addf(&b, "%s%.*s", b.n > 0 ? " " : "", SPAN_ARG(span_trim(sentence)));
    rest = span_cut(rest, sentence.n, rest.n);
  }
  return buf_text(&b);
}

/* How much of something an animal needs that is not judged, nobody here knows: "cut back on calcium carbonate" may be said
 * of what its veterinarian gave to bind phosphorus. What is dangerous is told all the same, and how to prepare what is fed.
 */
static bool may_advise(const struct draft *d) {
  const struct check_result *r = d->review->result;
  bool patient = r->animal && r->refusal != REFUSE_NOT, of_amounts = d->nutrient != NUT_NONE;
  for (int i = 0; i < NUT_COUNT; i++) of_amounts |= d->of[i];
  return !patient || d->danger || d->weight == FINDING_ACT || d->prepares || !of_amounts;
}

void draft_end(struct draft *d) {
  struct review *r = d->review;
  if (d->gap) draft_word(d, "fix", "{fix}");
  struct because *because = ARENA_NEW(r->arena, struct because, d->because_count);
  memcpy(because, d->because, d->because_count * sizeof *because);
  int severity = d->severity < 0 ? 0 : d->severity > 999 ? 999 : d->severity;
  struct noted n = {.f = {.id = d->id,
                          .weight = d->weight,
                          .order = d->row->order * FINDING_ORDER_STEP + severity,
                          .line = d->line,
                          .text = fill(d, lib_str(r->lib, d->row->words)),
                          .reason = fill(d, lib_str(r->lib, d->row->reason)),
                          .remedy = may_advise(d) ? fill(d, heeded(d, lib_str(r->lib, d->row->remedy))) : "",
                          .because = because,
                          .because_count = d->because_count,
                          .source = lib_str(r->lib, library_source(r->lib, d->row->source)->key),
                          .confidence = (enum confidence)d->row->confidence,
                          .covers = d->covers,
                          .background = d->background},
                    .fold = d->fold,
                    .nutrient = d->nutrient,
                    .score = d->score,
                    .gap = may_advise(d) ? d->gap : NULL};
  list_nutrients(d, &n.f);
  if (d->danger) write_danger(d, &n.f);
  ARENA_PUSH(r->arena, r->item, r->count, r->cap, n);
}

const char *review_fill_fix(struct review *r, const char *remedy, const char *fix) {
  struct draft d = {.review = r};
  draft_word(&d, "fix", fix);
  return fill(&d, remedy);
}

/* ---- one thing is said once ------------------------------------------------------------------------------------ */

void review_silence(struct review *r, const char *id) {
  ARENA_PUSH(r->arena, r->silenced, r->silenced_count, r->silenced_cap, id);
}

void review_silence_nutrient(struct review *r, enum nutrient n) {
  static const char *const SUFFIX[] = {"short", "thin", "unproven", "over", "near-upper", "above-tested", "rich-day"};
  for (size_t i = 0; i < COUNT_OF(SUFFIX); i++) review_silence(r, review_id(r, n, SUFFIX[i]));
}

bool review_has(const struct review *r, const char *id) {
  for (size_t i = 0; i < r->count; i++)
    if (strcmp(r->item[i].f.id, id) == 0) return true;
  return false;
}

const char *review_id(struct review *r, enum nutrient n, const char *suffix) {
  struct buf b;
  buf_init(&b, r->arena, 64);
  buf_addf(&b, "%s-%s", nutrient_info[n].key, suffix);
  return buf_text(&b);
}
