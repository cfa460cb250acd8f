#include "explain/ratio.h"

#include <math.h>

#include "base/num.h"
#include "foods/constant_keys.h"
#include "judge/totals.h"

#define ONE(p) (1u << (p))

/* ---- reading --------------------------------------------------------------------------------------------------- */

static const struct {
  const char *word, *name;
  unsigned parts;
} NAMED[] = {
    {"muscle", "muscle meat", ONE(BOWL_MUSCLE)},
    {"meat", "muscle meat", ONE(BOWL_MUSCLE)},
    {"bone", "bone", ONE(BOWL_BONE)},
    {"liver", "liver", ONE(BOWL_ORGAN_LIVER)},
    {"secreting", "secreting organs", ONE(BOWL_ORGAN_SECRETING)},
    {"organ", "organs", ONE(BOWL_ORGAN_LIVER) | ONE(BOWL_ORGAN_SECRETING)},
    {"plant", "plants", ONE(BOWL_PLANT)},
    {"vegetable", "plants", ONE(BOWL_PLANT)},
    {"veg", "plants", ONE(BOWL_PLANT)},
    {"fish", "fish", ONE(BOWL_FISH)},
    {"egg", "egg", ONE(BOWL_EGG)},
    {"dairy", "dairy", ONE(BOWL_DAIRY)},
    {"fat", "fat and oil", ONE(BOWL_FAT_OIL)},
    {"oil", "fat and oil", ONE(BOWL_FAT_OIL)},
    {"supplement", "supplements", ONE(BOWL_SUPPLEMENT)},
};

static const char OTHER_ORGANS[] = "other secreting organs";

static bool add_piece(struct ratio *out, struct buf *complaint, const char *name, unsigned parts, double percent) {
  static const unsigned ORGANS = ONE(BOWL_ORGAN_LIVER) | ONE(BOWL_ORGAN_SECRETING);
  for (int i = 0; i < out->count; i++) { /* "organ" beside "liver" means the other ones */
    struct ratio_piece *p = &out->piece[i];
    bool meets_liver = parts == ORGANS && p->parts == ONE(BOWL_ORGAN_LIVER);
    bool meets_organs = parts == ONE(BOWL_ORGAN_LIVER) && p->parts == ORGANS;
    if (meets_organs) *p = (struct ratio_piece){OTHER_ORGANS, ONE(BOWL_ORGAN_SECRETING), p->share};
    if (!meets_liver) continue;
    name = OTHER_ORGANS;
    parts = ONE(BOWL_ORGAN_SECRETING);
  }
  for (int i = 0; i < out->count; i++) {
    if (!(out->piece[i].parts & parts)) continue;
    buf_addf(complaint, "%s is in the ratio twice", name);
    return false;
  }
  out->piece[out->count++] = (struct ratio_piece){name, parts, percent / 100.0};
  return true;
}

static bool ends(struct span s, const char *tail) {
  size_t n = strlen(tail);
  return s.n >= n && span_is_fold(span_cut(s, s.n - n, s.n), tail);
}

static int named(struct span word) {
  if (ends(word, "s") && word.n > 3) word.n--;
  for (size_t i = 0; i < COUNT_OF(NAMED); i++)
    if (span_is_fold(word, NAMED[i].word)) return (int)i;
  return -1;
}

/* "muscle 70", "70 muscle", "70% muscle" */
static bool read_named(struct span item, struct ratio *out, struct buf *complaint) {
  double percent = (double)NAN;
  int which = -1;
  struct span rest = span_trim(item);
  while (rest.n > 0) {
    double x;
    size_t used = num_read(rest, &x);
    if (used > 0) {
      percent = x;
      if (used < rest.n && rest.p[used] == '%') used++;
    } else {
      while (used < rest.n && rest.p[used] != ' ' && !(rest.p[used] >= '0' && rest.p[used] <= '9')) used++;
      int k = named(span_cut(rest, 0, used));
      if (k >= 0) which = k;
      if (k < 0 && !span_is(span_cut(rest, 0, used), "%")) {
        buf_addf(complaint,
                 "'%.*s' is not a part; parts are muscle, bone, liver, secreting, organ, plant, fish, egg, dairy, fat and "
                 "supplement",
                 SPAN_ARG(span_cut(rest, 0, used)));
        return false;
      }
    }
    rest = span_trim(span_cut(rest, used, rest.n));
  }
  if (which >= 0 && percent >= 0) return add_piece(out, complaint, NAMED[which].name, NAMED[which].parts, percent);
  buf_addf(complaint, "'%.*s' names no part with its share, like 'liver 5'", SPAN_ARG(span_trim(item)));
  return false;
}

static bool read_list(struct span words, struct ratio *out, struct buf *complaint) {
  while (words.n > 0) {
    const char *comma = memchr(words.p, ',', words.n);
    size_t n = comma ? (size_t)(comma - words.p) : words.n;
    struct span item = span_cut(words, 0, n);
    if (out->count == BOWL_COUNT) {
      buf_adds(complaint, "the ratio names too many parts");
      return false;
    }
    if (span_trim(item).n > 0 && !read_named(item, out, complaint)) return false;
    words = span_cut(words, comma ? n + 1 : n, words.n);
  }
  return true;
}

static bool read_numbers(struct span words, struct ratio *out, struct buf *complaint) {
  static const struct ratio_piece THREE[] = {{"muscle meat", ONE(BOWL_MUSCLE), 0},
                                             {"bone", ONE(BOWL_BONE), 0},
                                             {"organs", ONE(BOWL_ORGAN_LIVER) | ONE(BOWL_ORGAN_SECRETING), 0}};
  static const struct ratio_piece FOUR[] = {{"muscle meat", ONE(BOWL_MUSCLE), 0},
                                            {"bone", ONE(BOWL_BONE), 0},
                                            {"liver", ONE(BOWL_ORGAN_LIVER), 0},
                                            {OTHER_ORGANS, ONE(BOWL_ORGAN_SECRETING), 0}};
  double x[4];
  int n = 0;
  struct span rest = span_trim(words);
  while (rest.n > 0) {
    size_t used = n < 4 ? num_read(rest, &x[n]) : 0;
    if (used == 0) break;
    n++;
    rest = span_trim(span_cut(rest, used, rest.n));
    if (rest.n == 0) break;
    if (rest.p[0] != ':' && rest.p[0] != '/') break;
    rest = span_trim(span_cut(rest, 1, rest.n));
  }
  if (rest.n > 0 || n < 3) {
    buf_addf(
        complaint,
        "'%.*s' is not a ratio; write 80:10:5:5 (muscle:bone:liver:other organs), 80:10:10 (muscle:bone:organs) or parts by "
        "name, 'muscle 70, bone 10, liver 5, organ 5, plant 10'",
        SPAN_ARG(words));
    return false;
  }
  for (int i = 0; i < n; i++) {
    const struct ratio_piece *p = n == 3 ? &THREE[i] : &FOUR[i];
    if (!add_piece(out, complaint, p->name, p->parts, x[i])) return false;
  }
  return true;
}

static bool has_letter(struct span s) {
  for (size_t i = 0; i < s.n; i++)
    if ((s.p[i] >= 'a' && s.p[i] <= 'z') || (s.p[i] >= 'A' && s.p[i] <= 'Z')) return true;
  return false;
}

static bool names(const struct ratio *q, unsigned part) {
  for (int i = 0; i < q->count; i++)
    if (q->piece[i].parts & part) return true;
  return false;
}

bool ratio_read(struct span words, struct ratio *out, struct buf *complaint) {
  *out = (struct ratio){.count = 0};
  if (!(has_letter(words) ? read_list(words, out, complaint) : read_numbers(words, out, complaint))) return false;
  double sum = 0;
  for (int i = 0; i < out->count; i++) sum += out->piece[i].share;
  if (!(fabs(sum - 1) < 0.005)) {
    buf_adds(complaint, "the shares of the ratio add up to ");
    num_sig(complaint, sum * 100, 6);
    buf_adds(complaint, ", not to 100");
    return false;
  }
  for (int i = 0; i < out->count; i++) {
    out->piece[i].share /= sum;
    if ((out->piece[i].parts & ONE(BOWL_MUSCLE)) && !names(out, ONE(BOWL_FISH))) out->piece[i].parts |= ONE(BOWL_FISH);
  }
  return true;
}

/* ---- parts ----------------------------------------------------------------------------------------------------- */

static unsigned part_of(const struct totals *t, int row) {
  const struct img_food *food = library_food(t->lib, t->stream[t->row[row].stream]->food);
  return ONE(json_part_of(food ? (enum part)food->part : PART_OTHER));
}

static void weigh_parts(const struct totals *t, struct ratio_view *v) {
  v->total_g = t->eaten_g;
  for (int i = 0; i < v->ratio.count; i++) v->row[i].absent = v->ratio.piece[i].share > 0;
  for (int r = 0; r < t->row_count; r++) {
    unsigned part = part_of(t, r);
    bool named_part = false;
    for (int i = 0; i < v->ratio.count; i++) {
      if (!(v->ratio.piece[i].parts & part)) continue;
      v->row[i].grams += t->row[r].eaten_g;
      v->row[i].absent = false;
      named_part = true;
    }
    if (named_part) continue;
    v->beside_total_g += t->row[r].eaten_g;
    for (int k = 0; k < BOWL_COUNT; k++)
      if (part == ONE(k)) v->beside_g[k] += t->row[r].eaten_g;
  }
  for (int i = 0; i < v->ratio.count; i++) {
    struct ratio_row *row = &v->row[i];
    row->share = v->total_g > 0 ? row->grams / v->total_g : 0;
    row->asked_g = v->ratio.piece[i].share * v->total_g;
    row->difference_g = row->asked_g - row->grams;
  }
}

/* ---- needs ----------------------------------------------------------------------------------------------------- */

/* The best food of one part: amount in a gram as eaten. */
static struct ratio_need best_of(const struct totals *t, const struct ratio_view *v, enum nutrient n) {
  struct ratio_need need = {.id = n, .line = -1};
  double largest = 0;
  for (int i = 0; i < v->ratio.count; i++) {
    double best = 0;
    int line = -1;
    for (int r = 0; r < t->row_count; r++) {
      const struct portion_row *row = &t->row[r];
      const struct stream *s = t->stream[row->stream];
      if (!(v->ratio.piece[i].parts & part_of(t, r)) || !(row->eaten_g > 0)) continue;
      if (v->ratio.piece[i].share > 0) need.unproven = need.unproven || s->missing[n];
      double per_g = s->per_g[n] * row->day_g / row->eaten_g;
      if (!(per_g > best)) continue;
      best = per_g;
      line = row->line;
    }
    double brings = v->row[i].asked_g * best;
    need.best += brings;
    if (!(brings > largest)) continue;
    largest = brings;
    need.line = line;
  }
  return need;
}

static bool is_open(const struct nutrient_result *n) {
  bool low = n->verdict == VERDICT_SHORT || n->verdict == VERDICT_UNPROVEN || n->verdict == VERDICT_THIN;
  return low && n->id != NUT_ENERGY && n->allowance > 0 && known_part(n->window_amount) < n->allowance;
}

const struct ratio_view *ratio_view_of(const struct library *lib, const struct check_result *r, const struct ratio *ratio,
                                       struct arena *arena) {
  struct ratio_view *v = ARENA_NEW(arena, struct ratio_view, 1);
  double carotene = r->animal ? library_constant_value(lib, K_CAROTENE_FACTOR, r->animal->species) : 0.0;
  const struct totals *t = totals_gather(lib, r->ration, carotene, arena);
  v->ratio = *ratio;
  weigh_parts(t, v);
  if (!r->animal || r->refusal != REFUSE_NOT) return v;
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->nutrient[k];
    if (!is_open(n)) continue;
    struct ratio_need need = best_of(t, v, n->id);
    if (need.best < n->allowance) {
      if (need.best == 0 && need.unproven) need.best = (double)NAN;
      v->open[v->open_count++] = need;
    } else {
      v->within[v->within_count++] = need;
    }
  }
  return v;
}
