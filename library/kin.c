#include "library/kin.h"
#include "base/table.h"

#include <ctype.h>
#include <math.h>

WORD_TABLE(preparation_word, PREP_COUNT, "raw", "cooked", "canned", "dried", "as sold");

enum preparation preparation_of(const struct build_food *f) {
  enum state s = (enum state)f->food.state;
  if (s == STATE_RAW) return PREP_RAW;
  if (s == STATE_CANNED) return PREP_CANNED;
  if (s == STATE_DRIED || s == STATE_FREEZE_DRIED) return PREP_DRIED;
  return state_is_cooked(s) ? PREP_COOKED : PREP_AS_SOLD;
}

/* ---- kin and cut ------------------------------------------------------------------------------------------------- */

/* The first 'parts' parts of a name, as the table parts them by commas. */
static struct span first_parts(const char *name, int parts) {
  size_t n = 0;
  for (int i = 0; i < parts; i++) {
    n += strcspn(name + n, ",");
    if (!name[n]) break;
    if (i + 1 < parts) n++;
  }
  return (struct span){name, n};
}

/* Names of land animals that are kept begin with the cut; those of fish and game with "Fish" and "Game meat". */
static int kin_parts(const struct build_food *f) {
  switch ((enum kind)f->food.kind) {
  case KIND_FISH:
  case KIND_SHELLFISH:
  case KIND_GAME:
  case KIND_RABBIT:
  case KIND_OTHER:
    return 2;
  case KIND_PLANT:
  case KIND_BIRD_OTHER:
    return 1;
  default:
    return 0;
  }
}

static uint64_t key_of(const struct build_food *f, int parts) {
  char key[160];
  size_t n = 0;
  struct span s = first_parts(f->name, parts);
  key[n++] = (char)('A' + f->food.kind);
  for (size_t i = 0; i < s.n && n < sizeof key; i++)
    if (!isspace((unsigned char)s.p[i])) key[n++] = (char)tolower((unsigned char)s.p[i]);
  return checksum64(key, n);
}

static int place_of(uint64_t *seen, int *count, uint64_t key) {
  for (int i = 0; i < *count; i++)
    if (seen[i] == key) return i;
  seen[*count] = key;
  return (*count)++;
}

struct kinship kinship_of(const struct foods_build *b) {
  enum { CUT_PARTS = 3 };
  struct kinship k = {ARENA_NEW(b->arena, int, b->count), ARENA_NEW(b->arena, int, b->count), 0, 0};
  uint64_t *kin = ARENA_NEW(b->arena, uint64_t, b->count), *cut = ARENA_NEW(b->arena, uint64_t, b->count);
  for (size_t i = 0; i < b->count; i++) {
    const struct build_food *f = &b->food[i];
    k.kin[i] = k.cut[i] = -1;
    if (!blanks_is_plain(f)) continue;
    k.kin[i] = place_of(kin, &k.kins, key_of(f, kin_parts(f)));
    k.cut[i] = place_of(cut, &k.cuts, key_of(f, CUT_PARTS) ^ (uint64_t)k.kin[i]);
  }
  return k;
}

/* ---- composition ------------------------------------------------------------------------------------------------- */

static const enum nutrient FEATURE[FEATURES] = {NUT_PROTEIN, NUT_FAT,        NUT_WATER,     NUT_ASH,       NUT_CARBOHYDRATE,
                                                NUT_FIBER,   NUT_PHOSPHORUS, NUT_POTASSIUM, NUT_SODIUM,    NUT_CALCIUM,
                                                NUT_IRON,    NUT_ZINC,       NUT_NIACIN,    NUT_RIBOFLAVIN};

static bool is_printed(const struct img_value *v) { return v->status == VALUE_MEASURED || v->status == VALUE_CITED; }

struct features features_of(const struct build_food *f) {
  /* An amount far below this says as little as none. */
  static const double TRACE[FEATURES] = {0.5, 0.5, 1, 0.2, 0.5, 0.3, 10, 20, 5, 3, 0.2, 0.1, 0.1, 0.02};
  struct features x;
  for (int i = 0; i < FEATURES; i++) {
    const struct img_value *v = &f->value[FEATURE[i]];
    x.x[i] = is_printed(v) ? (float)log((double)v->mean + TRACE[i]) : NAN;
  }
  return x;
}

double features_distance(const struct features *a, const struct features *b, const struct features *scale,
                         enum nutrient without) {
  double sum = 0;
  int compared = 0;
  for (int i = 0; i < FEATURES; i++) {
    double d = ((double)a->x[i] - (double)b->x[i]) / (double)scale->x[i];
    if (FEATURE[i] == without || !isfinite(d)) continue;
    sum += d * d;
    compared++;
  }
  return compared >= 4 ? sum / compared : INFINITY;
}
