/* Food records: what a search found, and one record with the origin of every value. */
#include "base/table.h"
#include "foods/origin.h"
#include "report/answer.h"

#include <math.h>

/* ---- what a record is, in words -------------------------------------------------------------------------------- */

static const struct {
  uint32_t flag;
  const char *words;
} FLAG[] = {
    {FOOD_CUT, "piece with bone"},
    {FOOD_BONE, "bone"},
    {FOOD_SKIN, "with skin"},
    {FOOD_SKINLESS, "without skin"},
    {FOOD_LEAN_ONLY, "lean only"},
    {FOOD_WITH_FAT, "lean and fat"},
    {FOOD_DRAINED, "drained"},
    {FOOD_ENRICHED, "enriched"},
    {FOOD_BRAND, "a brand"},
    {FOOD_DISH, "a prepared dish"},
    {FOOD_SALTED, "salted, sweetened or sauced"},
    {FOOD_THIAMINASE, "thiaminase when raw"},
    {FOOD_HIGH_MERCURY, "often high in mercury"},
    {FOOD_HIGH_OXALATE, "high in oxalate"},
    {FOOD_OWN, "your own label"},
};

static const char *what_it_is(const struct pen *p, const struct img_food *f) {
  struct buf b;
  buf_init(&b, p->arena, 1024);
  buf_adds(&b, words_food_part((enum part)f->part));
  if (f->state < STATE_UNSTATED) buf_addf(&b, ", %s", state_word[f->state]);
  for (size_t i = 0; i < COUNT_OF(FLAG); i++)
    if (f->flags & FLAG[i].flag) buf_addf(&b, ", %s", FLAG[i].words);
  return buf_text(&b);
}

static double mean_of(struct img_value v) { return v.status == VALUE_UNKNOWN ? (double)NAN : (double)v.mean; }

/* ---- a list of hits -------------------------------------------------------------------------------------------- */

enum { HIT_AT = 6, WHAT_LEAST = 24 };

static const char *main_figures(const struct pen *p, const struct img_value *v) {
  double kcal = mean_of(v[NUT_ENERGY]), protein = mean_of(v[NUT_PROTEIN]), fat = mean_of(v[NUT_FAT]);
  return say_text(p, "%s kcal   protein %s   fat %s", isfinite(kcal) ? words_whole(p->arena, kcal) : "?",
                  isfinite(protein) ? say_with_unit(p, protein, "g") : "?",
                  isfinite(fat) ? say_with_unit(p, fat, "g") : "?");
}

static void write_hit(const struct pen *p, const struct library *lib, const struct search_hit *hit, size_t number) {
  int right = p->width - MARGIN;
  if (right > HIT_AT + PROSE_MOST) right = HIT_AT + PROSE_MOST;
  const char *pin = say_text(p, "[%s]", library_code(lib, hit->food));
  struct row r;
  row_start(&r, p);
  row_right(&r, HIT_AT - 2, 4, INK_DIM, say_text(p, "%zu", number));
  int at = row_right(&r, right, right - HIT_AT, INK_ACCENT, pin);
  row_end_whole(&r, HIT_AT, at - 2 - HIT_AT, INK_STRONG, library_name(lib, hit->food));
  const char *missed =
      hit->words_missed ? say_text(p, "%d word%s not in it; ", hit->words_missed, hit->words_missed == 1 ? "" : "s") : "";
  row_start(&r, p);
  at = row_right(&r, right, right - HIT_AT, INK_PLAIN, main_figures(p, library_values(lib, hit->food)));
  if (at - HIT_AT < WHAT_LEAST) { /* too narrow for both */
    row_end(&r);
    row_start(&r, p);
    at = right + 2;
  }
  row_fit(&r, HIT_AT, at - 2 - HIT_AT, INK_DIM, say_text(p, "%s%s", missed, what_it_is(p, library_food(lib, hit->food))));
  row_end(&r);
  struct prose how = prose_at(HIT_AT, INK_PLAIN);
  if (hit->note && hit->note[0]) prose_write(p, &how, say_text(p, "note: %s", hit->note));
}

void report_foods(const struct library *lib, struct span words, const struct search_hit *hits, size_t count,
                  const struct report_style *style, struct buf *out) {
  struct pen pen = pen_start(style, out);
  const struct pen *p = &pen;
  struct prose how = prose_at(MARGIN, INK_STRONG);
  const char *asked = arena_text(p->arena, words);
  blank_line(p);
  if (count == 0) {
    prose_write(p, &how, say_text(p, "No record fits \"%s\".", asked));
    how.ink = INK_PLAIN;
    prose_write(p, &how, "Try fewer or plainer words: the food first, then the cut, then how it is prepared.");
    return;
  }
  prose_write(p, &how,
              count == 1 ? say_text(p, "One record for \"%s\"; figures per 100 g", asked)
                         : say_text(p, "%zu records for \"%s\", best first; figures per 100 g", count, asked));
  for (size_t i = 0; i < count; i++) write_hit(p, lib, &hits[i], i + 1);
  how.ink = INK_DIM;
  blank_line(p);
  prose_write(p, &how,
              "A [pin] at the end of a recipe line chooses that record; bowlwright food PIN shows every value of it.");
}

/* ---- one record ------------------------------------------------------------------------------------------------ */

enum { NAME_COLUMNS = 25, AMOUNT_COLUMNS = 11, RANGE_COLUMNS = 17, STATUS_COLUMNS = 10 };

static const char *source_key(const struct library *lib, uint32_t source) {
  const struct img_source *row = source ? library_source(lib, source) : NULL;
  return row ? lib_str(lib, row->key) : "";
}

static const char *range_words(const struct pen *p, struct img_value v) {
  if (!(v.mean > 0) || v.cv_code == 0) return "";
  double cv = img_cv(v), mean = (double)v.mean;
  return say_text(p, "%s to %s", words_number(p->arena, lognormal_quantile(mean, cv, 0.05)),
                  words_number(p->arena, lognormal_quantile(mean, cv, 0.95)));
}

/* Unfolded, every figure says where it comes from; folded, only one that replaces what the table prints, or that a label
 * does not state. */
static void write_origin(const struct pen *p, const struct library *lib, uint32_t food, enum nutrient n) {
  enum value_status status = (enum value_status)library_values(lib, food)[n].status;
  bool told = p->all && status != VALUE_NONE && status != VALUE_MEASURED;
  told = told || (status == VALUE_ESTIMATED && library_own(lib, food));
  if (!told && !library_set_aside(lib, food, n)) return;
  struct buf words;
  struct prose how = prose_at(MARGIN + 2, INK_DIM);
  buf_init(&words, p->arena, 1024);
  how.indent = MARGIN + 4;
  origin_words(lib, food, n, &words);
  prose_write(p, &how, buf_text(&words));
}

static void write_value(const struct pen *p, const struct library *lib, uint32_t food, enum nutrient n) {
  struct img_value v = library_values(lib, food)[n];
  const struct img_pattern *pattern = library_value_pattern(lib, &v);
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, NAME_COLUMNS, INK_PLAIN, nutrient_info[n].name);
  int right = MARGIN + NAME_COLUMNS + AMOUNT_COLUMNS;
  bool absent = v.status == VALUE_NONE;
  row_right(&r, right, AMOUNT_COLUMNS, absent ? INK_PLAIN : INK_STRONG,
            absent ? "none" : say_with_unit(p, (double)v.mean, nutrient_info[n].unit));
  if (p->width >= 76) {
    right += RANGE_COLUMNS;
    row_right(&r, right, RANGE_COLUMNS, INK_DIM, range_words(p, v));
  }
  int at = right + 2;
  row_put(&r, at, INK_PLAIN, absent ? "by nature" : v.status < VALUE_STATUS_COUNT ? value_status_word[v.status] : "");
  at += STATUS_COLUMNS;
  const char *from = pattern ? say_text(p, "within %s", say_percent(p, (double)pattern->cv))
                             : source_key(lib, library_value_source(lib, &v));
  row_fit(&r, at, p->width - at, INK_DIM, from);
  row_end(&r);
  write_origin(p, lib, food, n);
}

static void write_group(const struct pen *p, const struct library *lib, uint32_t food, enum nutrient_group g) {
  const struct img_value *value = library_values(lib, food);
  struct buf unknown;
  struct row r;
  buf_init(&unknown, p->arena, 4096);
  if (words_nutrient_group(g)[0]) {
    blank_line(p);
    row_start(&r, p);
    row_put(&r, MARGIN, INK_STRONG, words_nutrient_group(g));
    row_end(&r);
  }
  for (int i = 0; i < NUT_COUNT; i++) {
    if (nutrient_info[i].group != g || i == NUT_VITAMIN_A) continue; /* computed for the species, not stored */
    if (value[i].status != VALUE_UNKNOWN) {
      write_value(p, lib, food, (enum nutrient)i);
    } else {
      buf_addf(&unknown, "%s%s", unknown.n ? ", " : "", say_held(p, words_nutrient(p->arena, (enum nutrient)i)));
    }
  }
  struct prose how = prose_at(MARGIN, INK_DIM);
  how.indent = MARGIN + 2;
  if (unknown.n > 0) prose_write(p, &how, say_text(p, "not known: %s", buf_text(&unknown)));
}

static void write_measures(const struct pen *p, const struct library *lib, uint32_t food) {
  const struct img_food *f = library_food(lib, food);
  size_t measures;
  const struct img_measure *one = library_measures(lib, food, &measures);
  struct buf b;
  buf_init(&b, p->arena, 8192);
  for (size_t i = 0; i < measures; i++, one++)
    buf_addf(&b, "%s%s %s", b.n ? ", " : "", say_held(p, say_text(p, "1 %s", lib_str(lib, one->words))),
             say_with_unit(p, (double)one->grams, "g"));
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  if (b.n > 0) prose_write(p, &how, say_text(p, "Measures: %s.", buf_text(&b)));
  if (isfinite(f->piece_g)) prose_write(p, &how, say_text(p, "One piece: %s.", say_with_unit(p, (double)f->piece_g, "g")));
  if (isfinite(f->density)) prose_write(p, &how, say_text(p, "One ml: %s.", say_with_unit(p, (double)f->density, "g")));
}

/* Is there anything for the two to say? */
static bool has_pieces(const struct library *lib, uint32_t food) {
  const struct img_food *f = library_food(lib, food);
  size_t measures;
  (void)library_measures(lib, food, &measures);
  return measures > 0 || isfinite(f->piece_g) || isfinite(f->density) || isfinite(f->bone_share) || f->refuse > 0;
}

static void write_bone(const struct pen *p, const struct library *lib, const struct img_food *f) {
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  if (isfinite(f->bone_share)) {
    double share = (double)f->bone_share, cv = isfinite(f->bone_share_cv) ? (double)f->bone_share_cv : 0;
    const char *range = cv > 0 ? say_text(p, " (%s to %s)", say_percent(p, lognormal_quantile(share, cv, 0.05)),
                                          say_percent(p, fmin(1, lognormal_quantile(share, cv, 0.95))))
                               : "";
    const char *bone =
        f->bone_food < library_count(lib) ? say_text(p, ", counted as %s", library_name(lib, f->bone_food)) : "";
    prose_write(p, &how,
                say_text(p, "Bone: %s of the piece%s%s. Source: %s.", say_percent(p, share), range, bone,
                         source_key(lib, f->bone_source)));
  }
  const char *refuse = lib_str(lib, f->refuse_text);
  if (isfinite(f->refuse) && f->refuse > 0)
    prose_write(p, &how,
                say_text(p, "Thrown away: %s of the piece as bought%s%s.", say_percent(p, (double)f->refuse),
                         refuse[0] ? ", " : "", refuse));
}

static bool rests_on_a_class(const struct library *lib, uint32_t food) {
  for (int n = 0; n < NUT_COUNT; n++)
    if (library_value_pattern(lib, &library_values(lib, food)[n])) return true;
  return false;
}

void report_food(const struct library *lib, uint32_t food, const struct report_style *style, struct buf *out) {
  struct pen pen = pen_start(style, out);
  const struct pen *p = &pen;
  const struct img_food *f = library_food(lib, food);
  struct prose how = prose_at(MARGIN, INK_STRONG);
  blank_line(p);
  prose_write(p, &how, library_name(lib, food));
  how.ink = INK_ACCENT;
  prose_write(p, &how, say_text(p, "[%s]", library_code(lib, food)));
  how.ink = INK_PLAIN;
  prose_write(p, &how, what_it_is(p, f));
  const struct img_source *source = library_source(lib, f->source);
  const char *title = source ? lib_str(lib, source->title) : "";
  how.ink = INK_DIM;
  if (title[0]) prose_write(p, &how, say_text(p, "From: %s", title));
  const char *note = library_note(lib, food);
  if (note && note[0]) prose_write(p, &how, say_text(p, "Note: %s", note));
  if (has_pieces(lib, food)) {
    blank_line(p);
    write_measures(p, lib, food);
    write_bone(p, lib, f);
  }
  heading(p, "In 100 g", p->width >= 76 ? "mean, range 9 times in 10, how known, source" : "mean, how known, source");
  for (int g = 0; g < NG_COUNT; g++) write_group(p, lib, food, (enum nutrient_group)g);
  if (p->all || !rests_on_a_class(lib, food)) return;
  how.ink = INK_DIM;
  blank_line(p);
  prose_write(p, &how, "--all says of every estimate what it rests on.");
}
