#include "library/foods.h"
#include "base/table.h"

#include <math.h>

static uint32_t *code_slot(struct foods_build *b, const char *code) {
  size_t mask = b->code_hash_size - 1;
  for (size_t i = (size_t)checksum64(code, strlen(code)) & mask;; i = (i + 1) & mask) {
    uint32_t *slot = &b->code_hash[i];
    if (*slot == 0 || strcmp(b->food[*slot - 1].code, code) == 0) return slot;
  }
}

struct build_food *foods_add(struct foods_build *b, const char *code) {
  if (2 * (b->count + 1) > b->code_hash_size) build_fail("more than %zu food records", b->code_hash_size / 2);
  uint32_t *slot = code_slot(b, code);
  if (*slot) build_fail("food code '%s' is taken twice", code);
  if (b->count == b->cap) b->food = arena_grow(b->arena, b->food, b->count, &b->cap, sizeof *b->food);
  *slot = (uint32_t)b->count + 1;
  struct build_food *f = &b->food[b->count++];
  *f = (struct build_food){.code = code,
                           .name = "",
                           .short_name = "",
                           .group = "",
                           .note = "",
                           .group_code = "",
                           .scientific = "",
                           .common_name = "",
                           .maker = "",
                           .cystine = NAN,
                           .tyrosine = NAN};
  f->food = (struct img_food){.part = PART_OTHER,
                              .spread_class = SPREAD_OTHER,
                              .kind = KIND_OTHER,
                              .state = STATE_UNSTATED,
                              .bone_share = NAN,
                              .bone_share_cv = NAN,
                              .bone_food = NO_INDEX,
                              .refuse = NAN,
                              .hazard = NO_INDEX,
                              .retention_group = RETAIN_NO_GROUP,
                              .raw_form = NO_INDEX,
                              .density = NAN,
                              .piece_g = NAN};
  for (int n = 0; n < NUT_COUNT; n++) f->value[n] = (struct img_value){.mean = NAN, .status = VALUE_UNKNOWN};
  return f;
}

struct build_food *foods_by_code(struct foods_build *b, const char *code) {
  uint32_t slot = *code_slot(b, code);
  return slot ? &b->food[slot - 1] : NULL;
}

/* How well a value stands: a published figure is never replaced by a poorer one. */
static int standing(enum value_status s) {
  static const int STANDING[] = {
      [VALUE_UNKNOWN] = 0, [VALUE_NONE] = 1, [VALUE_ESTIMATED] = 2, [VALUE_CITED] = 3, [VALUE_MEASURED] = 4};
  ROW_FOR_EACH(STANDING, VALUE_STATUS_COUNT);
  return STANDING[s];
}

void foods_set(struct build_food *f, enum nutrient n, double mean, enum value_status status, double error_cv,
               uint16_t source) {
  struct img_value *v = &f->value[n];
  if (standing((enum value_status)v->status) >= standing(status)) return;
  if (!(mean >= 0)) build_fail("food %s: %s would be negative or no number", f->code, nutrient_info[n].key);
  *v = (struct img_value){.mean = (float)mean, .status = (uint8_t)status, .source = source};
  f->estimate_error[n] = error_cv;
}
