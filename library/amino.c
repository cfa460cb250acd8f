/* amino.c: the published amino and fatty acids (data/amino_fatty.tsv). Records whose figures cannot be what they say are
 * set aside by three rules; what a rule found goes into the quarantine section with its evidence. */
#include <math.h>

#include "base/table.h"
#include "library/foods.h"

/* Cystine and tyrosine are no nutrients of the image: they count in the sums met_cys and phe_tyr. */
enum acid { ARG, HIS, ILE, LEU, LYS, MET, CYS, PHE, TYR, THR, TRP, VAL, ACID_COUNT };
static const struct {
  const char *column;
  enum nutrient nutrient;
} ACID[] = {{"arginine", NUT_ARGININE},     {"histidine", NUT_HISTIDINE},
            {"isoleucine", NUT_ISOLEUCINE}, {"leucine", NUT_LEUCINE},
            {"lysine", NUT_LYSINE},         {"methionine", NUT_METHIONINE},
            {"cystine", NUT_NONE},          {"phenylalanine", NUT_PHENYLALANINE},
            {"tyrosine", NUT_NONE},         {"threonine", NUT_THREONINE},
            {"tryptophan", NUT_TRYPTOPHAN}, {"valine", NUT_VALINE}};
ROW_FOR_EACH(ACID, ACID_COUNT);

static const struct {
  const char *column;
  enum nutrient nutrient;
} FATTY[] = {{"linoleic", NUT_LINOLEIC},
             {"alpha_linolenic", NUT_ALPHA_LINOLENIC},
             {"arachidonic", NUT_ARACHIDONIC},
             {"epa", NUT_EPA},
             {"dha", NUT_DHA}};

struct profile {
  struct build_food *food;
  uint16_t source;
  bool recalled;
  double acid[ACID_COUNT]; /* g per 100 g of food; NaN not published */
};

/* ---- the rules ---------------------------------------------------------------------------------------------- */

/* Four different amino acids with the very same figure: one number was copied into the places of others. Below 0.1 g
 * per 100 g rounding alone makes figures equal, so those do not count. */
static bool has_one_figure_four_times(const struct profile *p) {
  for (int i = 0; i < ACID_COUNT; i++) {
    int same = 0;
    for (int j = 0; j < ACID_COUNT; j++) same += p->acid[i] > 0.1 && p->acid[j] == p->acid[i];
    if (same >= 4) return true;
  }
  return false;
}

/* Twelve amino acids cannot be over 70 % of the protein: the other eight are never under a third of it in any food whose
 * full analysis is published (glutamic and aspartic acid alone are about a quarter). */
static bool sums_to_too_much(const struct profile *p) {
  double protein = p->food->value[NUT_PROTEIN].mean, sum = 0;
  for (int i = 0; i < ACID_COUNT; i++)
    if (p->acid[i] >= 0) sum += p->acid[i];
  return sum > 0.70 * protein && sum > 0.1;
}

/* Which organ a record names, or 0. */
static int organ_of(const struct profile *p) {
  static const char *const ORGAN[] = {"heart", "liver", "kidney", "gizzard", "tripe", "tongue", "lungs", "spleen", "brain"};
  enum part part = (enum part)p->food->food.part;
  if (part != PART_ORGAN_LIVER && part != PART_ORGAN_SECRETING && part != PART_ORGAN_OTHER) return 0;
  for (size_t i = 0; i < COUNT_OF(ORGAN); i++)
    if (strstr(p->food->name, ORGAN[i])) return (int)i + 1;
  return 0;
}

/* Equal per gram of protein within 2 %. Organs that were analysed each for itself lie over 6 % apart in some acid. */
static bool same_profile(const struct profile *a, const struct profile *b) {
  int compared = 0;
  for (int i = 0; i < ACID_COUNT; i++) {
    double x = a->acid[i] / (double)a->food->value[NUT_PROTEIN].mean,
           y = b->acid[i] / (double)b->food->value[NUT_PROTEIN].mean;
    if (!isfinite(x) || !isfinite(y)) continue;
    if (!(fabs(x - y) <= 0.02 * fmax(x, y))) return false;
    compared++;
  }
  return compared >= 8;
}

/* Three different organs with one and the same profile: none of them was analysed as that organ. */
static bool is_shared_by_organs(const struct profile *all, size_t n, const struct profile *p) {
  unsigned organs = 0;
  if (organ_of(p) == 0) return false;
  for (size_t i = 0; i < n; i++)
    if (organ_of(&all[i]) != 0 && same_profile(p, &all[i])) organs |= 1u << organ_of(&all[i]);
  int different = 0;
  for (; organs; organs >>= 1) different += (organs & 1u) != 0;
  return different >= 3;
}

enum fault { FAULT_NONE, FAULT_COPIED, FAULT_SUM, FAULT_ORGANS, FAULT_COUNT };
static WORD_TABLE(
    FAULT_REASON, FAULT_COUNT, "",
    "four different amino acids carry one and the same figure (cheddar: arginine, histidine, methionine and tryptophan all "
    "0.547 g per 100 g, where other cheeses have 4.5, 2.9, 2.4 and 1.3 % of protein)",
    "twelve amino acids sum to more than 70 % of the protein (carrot 96 %, with threonine 20 %; other vegetables 24 to 54 "
    "%)",
    "three or more different organs share one profile within 2 % in every acid (New Zealand beef heart, kidney, liver and "
    "tripe; "
    "turkey gizzard, heart and liver), so none was analysed as that organ");

static enum fault fault_of(const struct profile *all, size_t n, const struct profile *p) {
  if (has_one_figure_four_times(p)) return FAULT_COPIED;
  if (sums_to_too_much(p)) return FAULT_SUM;
  return is_shared_by_organs(all, n, p) ? FAULT_ORGANS : FAULT_NONE;
}

/* ---- setting values ----------------------------------------------------------------------------------------- */

/* A row that was recalled and not read stands as cited, with an error for that. */
static const double RECALLED_ERROR = 0.1;

static void set_read(struct build_food *f, enum nutrient n, double amount, const struct profile *p) {
  enum value_status status = p->recalled ? VALUE_CITED : VALUE_MEASURED;
  if (amount >= 0) foods_set(f, n, amount, status, p->recalled ? RECALLED_ERROR : 0, p->source);
}

static void set_amino(const struct profile *p) {
  struct build_food *f = p->food;
  for (int i = 0; i < ACID_COUNT; i++)
    if (ACID[i].nutrient != NUT_NONE) set_read(f, ACID[i].nutrient, p->acid[i], p);
  f->cystine = p->acid[CYS];
  f->tyrosine = p->acid[TYR];
  set_read(f, NUT_MET_CYS, p->acid[MET] + p->acid[CYS], p);
  set_read(f, NUT_PHE_TYR, p->acid[PHE] + p->acid[TYR], p);
  f->amino_published = isfinite(p->acid[LYS]);
}

static void set_fatty(const struct tsv *t, size_t row, const struct profile *p) {
  for (size_t i = 0; i < COUNT_OF(FATTY); i++) set_read(p->food, FATTY[i].nutrient, tsv_number(t, row, FATTY[i].column), p);
  set_read(p->food, NUT_EPA_DHA, tsv_number(t, row, "epa") + tsv_number(t, row, "dha"), p);
}

static struct profile read_profile(struct foods_build *b, const struct tsv *t, size_t row) {
  struct span code = tsv_cell(t, row, "code");
  struct profile p = {.food = foods_by_code(b, arena_text(b->arena, code)), .source = source_index(t, row, "source")};
  if (!p.food) tsv_fail(t, row, "there is no food '%.*s'", SPAN_ARG(code));
  p.recalled = tsv_word(t, row, "confidence", confidence_word, CONF_COUNT) != CONF_CONFIRMED;
  for (int i = 0; i < ACID_COUNT; i++) p.acid[i] = tsv_number(t, row, ACID[i].column);
  return p;
}

void quarantine_add(struct writer *w, const struct img_quarantine *more, size_t n) {
  struct writer_section *s = &w->section[IMG_QUARANTINE];
  struct img_quarantine *row = ARENA_NEW(w->arena, struct img_quarantine, s->count + n);
  if (s->count > 0) memcpy(row, s->rows, s->count * sizeof *row);
  memcpy(row + s->count, more, n * sizeof *row);
  if (s->stride == 0)
    writer_section(w, IMG_QUARANTINE, row, n, sizeof *row);
  else
    *s = (struct writer_section){row, s->count + n, sizeof *row};
}

static void report_fault(struct foods_build *b, const struct profile *all, size_t n, const enum fault *fault,
                         enum fault which) {
  struct buf what;
  buf_init(&what, b->arena, 4000);
  buf_adds(&what, "amino acids of ");
  uint32_t values = 0;
  for (size_t i = 0; i < n; i++) {
    if (fault[i] != which) continue;
    buf_addf(&what, "%s%s (%s)", values ? "; " : "", all[i].food->name, all[i].food->code);
    for (int a = 0; a < ACID_COUNT; a++) values += isfinite(all[i].acid[a]) ? 1 : 0;
  }
  if (values == 0) return;
  struct img_quarantine row = {writer_textz(b->w, "usda_sr28"), writer_textz(b->w, buf_text(&what)),
                               writer_textz(b->w, FAULT_REASON[which]), values};
  quarantine_add(b->w, &row, 1);
}

void complete_amino_fatty(struct foods_build *b, const char *data_dir) {
  static const char *const WANTED[] = {"code", "lysine", "cystine",    "tyrosine", "linoleic",
                                       "dpa",  "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "amino_fatty.tsv"), WANTED, b->arena);
  struct profile *all = ARENA_NEW(b->arena, struct profile, t.rows);
  enum fault *fault = ARENA_NEW(b->arena, enum fault, t.rows);
  for (size_t i = 0; i < t.rows; i++) all[i] = read_profile(b, &t, i);
  for (size_t i = 0; i < t.rows; i++) {
    fault[i] = fault_of(all, t.rows, &all[i]);
    if (fault[i] == FAULT_NONE) set_amino(&all[i]);
    set_fatty(&t, i, &all[i]);
  }
  for (enum fault which = FAULT_COPIED; which < FAULT_COUNT; which++) report_fault(b, all, t.rows, fault, which);
}
