#include "core/findings.h"

#include <math.h>

#include "base/num.h"
#include "core/findings_internal.h"

const struct img_finding *review_row(const struct review *r, const char *id) {
  const struct img_finding *rows = IMG_ROWS(&r->lib->image, IMG_FINDINGS, struct img_finding);
  size_t n = img_count(&r->lib->image, IMG_FINDINGS);
  for (size_t i = 0; i < n; i++)
    if (strcmp(lib_str(r->lib, rows[i].id), id) == 0) return &rows[i];
  return NULL;
}

bool draft_begin_as(struct draft *d, struct review *r, const char *id, const char *row_id) {
  *d = (struct draft){.review = r, .id = id, .severity = 500};
  d->row = review_row(r, row_id);
  if (!d->row) return false;
  draft_word(d, "animal", animal_name(r));
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
  draft_because(d, (struct because){key, NAN, text, NULL});
}

void draft_number(struct draft *d, const char *key, double x, const char *unit) {
  draft_word(d, key, amount_words(d->review->arena, x, unit));
  draft_because(d, (struct because){key, x, NULL, unit});
}

void draft_percent(struct draft *d, const char *key, double share) {
  struct buf b;
  buf_init(&b, d->review->arena, 32);
  if (share > 0 && share < 0.01) {
    buf_adds(&b, "under 1");
  } else {
    num_fixed(&b, share * 100, 0);
  }
  buf_adds(&b, " %");
  draft_word(d, key, buf_text(&b));
  draft_because(d, (struct because){key, share, NULL, "share"});
}

/* Replaces {key}; a key that nobody filled shows as "?", which the tests look for. */
static const char *fill(const struct draft *d, const char *words) {
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
    buf_adds(&out, text);
    words = close + 1;
  }
  buf_adds(&out, words);
  if (out.n > 0 && out.p[0] >= 'a' && out.p[0] <= 'z') out.p[0] = (char)(out.p[0] - 'a' + 'A');
  return buf_text(&out);
}

void draft_end(struct draft *d) {
  struct review *r = d->review;
  struct because *because = ARENA_NEW(r->arena, struct because, d->because_count);
  memcpy(because, d->because, d->because_count * sizeof *because);
  struct finding f = {.id = d->id,
                      .weight = d->row->weight,
                      .order = d->row->order * 1000 + (d->severity < 0     ? 0
                                                       : d->severity > 999 ? 999
                                                                           : d->severity),
                      .text = fill(d, lib_str(r->lib, d->row->words)),
                      .reason = fill(d, lib_str(r->lib, d->row->reason)),
                      .remedy = fill(d, lib_str(r->lib, d->row->remedy)),
                      .because = because,
                      .because_count = d->because_count,
                      .source = lib_str(r->lib, library_source(r->lib, d->row->source)->key),
                      .confidence = d->row->confidence};
  ARENA_PUSH(r->arena, r->item, r->count, r->cap, f);
}

void review_silence(struct review *r, const char *id) {
  ARENA_PUSH(r->arena, r->silenced, r->silenced_count, r->silenced_cap, id);
}

const char *review_id(struct review *r, enum nutrient n, const char *suffix) {
  struct buf b;
  buf_init(&b, r->arena, 64);
  buf_addf(&b, "%s-%s", nutrient_info[n].key, suffix);
  return buf_text(&b);
}

const char *amount_words(struct arena *a, double x, const char *unit) {
  struct buf b;
  buf_init(&b, a, 64);
  if (!isfinite(x)) return "an unknown amount";
  /* Grams of a nutrient below a tenth read better as milligrams. */
  if (unit && strcmp(unit, "g") == 0 && x != 0 && fabs(x) < 0.1) {
    x *= 1000;
    unit = "mg";
  }
  num_sig(&b, x, fabs(x) >= 1000 ? 4 : 3);
  if (unit && *unit) buf_addf(&b, " %s", unit);
  return buf_text(&b);
}

const char *animal_name(const struct review *r) {
  const struct animal *a = r->result->animal;
  if (!a) return "the animal";
  if (a->name && *a->name) return a->name;
  return a->species == SPECIES_CAT ? "the cat" : "the dog";
}

const char *line_words(const struct review *r, int line) {
  struct span s = span_of(r->result->ration->line[line].text);
  for (size_t i = 0; i < s.n; i++)
    if (s.p[i] == ',' || s.p[i] == '[' || s.p[i] == '#') {
      s = span_cut(s, 0, i);
      break;
    }
  return arena_text(r->arena, span_trim(s));
}

const char *lines_list(const struct review *r, const int *line, size_t count, size_t most) {
  struct buf b;
  buf_init(&b, r->arena, 1024);
  size_t shown = count < most ? count : most;
  for (size_t i = 0; i < shown; i++) {
    if (i > 0) buf_adds(&b, i + 1 == count ? " and " : ", ");
    buf_adds(&b, line_words(r, line[i]));
  }
  if (count > shown) buf_addf(&b, " and %zu more", count - shown);
  return buf_text(&b);
}

bool any_line_with_flag(const struct review *r, uint32_t flag, const int **lines, size_t *count) {
  const struct ration *ration = r->result->ration;
  int *found = ARENA_NEW(r->arena, int, ration->line_count);
  size_t n = 0;
  for (size_t i = 0; i < ration->line_count; i++)
    if (ration->line[i].grams_fed > 0 && (library_food(r->lib, ration->line[i].shown_food)->flags & flag))
      found[n++] = (int)i;
  if (lines) *lines = found;
  if (count) *count = n;
  return n > 0;
}

double grams_of_part(const struct review *r, enum part p) {
  const struct ration *ration = r->result->ration;
  double grams = 0;
  for (size_t i = 0; i < ration->line_count; i++)
    if (library_food(r->lib, ration->line[i].shown_food)->part == p) grams += ration_line_grams_per_day(&ration->line[i]);
  return grams;
}

double constant_of(const struct review *r, const char *key) {
  enum species s = r->result->animal ? r->result->animal->species : SPECIES_DOG;
  return library_constant_value(r->lib, key, s);
}

static bool silenced(const struct review *r, const char *id) {
  for (size_t i = 0; i < r->silenced_count; i++)
    if (strcmp(r->silenced[i], id) == 0) return true;
  return false;
}

static bool comes_first(const struct finding *a, const struct finding *b) {
  if (a->weight != b->weight) return a->weight < b->weight;
  return a->order < b->order;
}

/* Insertion: a few dozen items, and equal ones keep the order in which they were found. */
static void sort_findings(struct finding *f, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct finding x = f[i];
    size_t k = i;
    for (; k > 0 && comes_first(&x, &f[k - 1]); k--) f[k] = f[k - 1];
    f[k] = x;
  }
}

/* One finding an id, and none that another one covers. */
static size_t drop_repeats(const struct review *r, struct finding *f, size_t n) {
  size_t kept = 0;
  for (size_t i = 0; i < n; i++) {
    bool repeat = silenced(r, f[i].id);
    for (size_t k = 0; k < kept && !repeat; k++) repeat = strcmp(f[k].id, f[i].id) == 0 && strcmp(f[k].text, f[i].text) == 0;
    if (!repeat) f[kept++] = f[i];
  }
  return kept;
}

void findings_write(const struct library *lib, struct check_result *result, struct arena *arena) {
  struct review r = {.lib = lib, .result = result, .arena = arena};
  findings_dangers(&r);
  if (result->ration->line_count > 0) {
    if (result->animal && result->refusal == REFUSE_NOT) {
      findings_energy(&r);
      findings_verdicts(&r);
      findings_animal(&r);
      findings_records(&r);
    }
    findings_minerals(&r);
    findings_foods(&r);
  }
  sort_findings(r.item, r.count);
  result->finding_count = drop_repeats(&r, r.item, r.count);
  result->finding = r.item;
}
