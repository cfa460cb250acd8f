/* A food library whose checksum is right and whose rows are not: every section in turn has figures, indices and lengths
 * overwritten with what does harm in other programs (all ones, the largest, the number of rows, not-a-number, infinities,
 * chance). It is refused, or read without leaving its bounds: what the page may ask of it is asked. The sanitizers are the
 * judge, in an ordinary build the processor.
 *
 * BW_LONG=1 takes more damages a section, BW_LONG=all more still. */
#define _DEFAULT_SOURCE
#include "wasm/reactor.c"

#include <stdio.h>

#include "built_image.h"
#include "unit_random.h"

static const char ANIMALS[] =
    "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n\nAnimal: Pim\nSpecies: cat\nAge: 3 "
    "years\nWeight: 4.6 kg\n";
static const char REQUEST[] = "today=2026-11-02\neveryday=yes\nmost=20";
static const char RECIPE[] =
    "For: Juniper\n\n250 g lamb shoulder, raw\n60 g duck neck, raw, bone-in\n20 g lamb liver\n1 large egg, "
    "every other day\n1 can (4.4 oz) mackerel in brine, drained, weekly\n80 g pumpkin, simmered\n3 "
    "grapes\n1/4 tsp kelp\n";
static const char OTHER[] = "For: Juniper\n\n300 g chicken thigh, with skin, baked\n2 tbsp flaxseed oil\n1 clove garlic\n";
static const char POST[] = "my 40 lb dog gets a cup of rice, half a pound of beef mince 80/20 and a handful of spinach\n";

static size_t answers, refusals;

/* Whatever is said, it is said. */
static void is_answered(int code) {
  if (code != UNDERSTOOD && code != USAGE && code != NOT_UNDERSTOOD && code != REFUSED) abort();
  if (bw_answer_bytes() == 0) abort();
  answers++;
}

#define TEXT(t) (t), (sizeof(t) - 1)
static void ask_everything(void) {
  static const char POSTED[] = "posted=yes", WHY[] = "why=zinc\nwhy=energy\nratio=80:10:5:5", LINE[] = "line=3";
  is_answered(bw_ask(TEXT(ANIMALS), TEXT(REQUEST)));
  is_answered(bw_page(TEXT(RECIPE), TEXT(WHY)));
  is_answered(bw_page(TEXT(POST), TEXT(POSTED)));
  is_answered(bw_side(TEXT(RECIPE), TEXT(OTHER)));
  is_answered(bw_need("Pim", 3));
  is_answered(bw_swap(TEXT(RECIPE), TEXT(LINE)));
  is_answered(bw_foods("lamb liver", 10, 20));
  is_answered(bw_suggest("20 g chiken liv", 15, 10));
  is_answered(bw_food("usda:17199", 10));
  is_answered(bw_near());
  is_answered(bw_library());
}

/* Four bytes, or one, somewhere in the section. */
static void damage(unsigned char *bytes, const struct img_section *s, const struct img_section *all, uint32_t sections) {
  const float odd[] = {NAN, INFINITY, -INFINITY, -1.0F, 1e30F, 1e-30F, 0.0F, -0.0F, 3.4e38F};
  size_t n = (size_t)s->count * s->stride, words = n / 4;
  uint32_t word;
  for (int times = 1 + (int)(unit_random() * 6); times > 0; times--) {
    size_t at = s->offset + 4 * (size_t)(unit_random() * (double)words);
    switch ((int)(unit_random() * 6)) {
    case 0:
      memset(&word, 0xFF, sizeof word);
      break;
    case 1:
      word = (uint32_t)all[(size_t)(unit_random() * sections)].count;
      break;
    case 2:
      word = unit_random() < 0.5 ? 0x7FFFFFFF : 0x80000000;
      break;
    case 3:
      memcpy(&word, &odd[(size_t)(unit_random() * COUNT_OF(odd))], sizeof word);
      break;
    case 4:
      word = (uint32_t)(unit_random() * 4294967295.0);
      break;
    default:
      memcpy(&word, bytes + at, sizeof word);
      word ^= 1U << (unsigned)(unit_random() * 32);
    }
    if (n >= 4) memcpy(bytes + at, &word, sizeof word);
  }
}

static void try_section(unsigned char *bytes, size_t n, const struct img_section *dir, uint32_t i, uint32_t sections) {
  const struct img_section s = dir[i];
  size_t length = (size_t)s.count * s.stride;
  struct span good = built_bytes();
  struct img_header *h = (void *)bytes;
  damage(bytes, &s, dir, sections);
  h->checksum = image_checksum(bytes, n);
  if (bw_open(bytes, n) == IMAGE_FINE) {
    ask_everything();
  } else {
    refusals++;
  }
  memcpy(bytes + s.offset, good.p + s.offset, length);
}

int main(void) {
  const char *more = getenv("BW_LONG");
  const int times = !more ? 4 : strcmp(more, "all") == 0 ? 200 : 25;
  struct span good = built_bytes();
  unsigned char *bytes = aligned_alloc(16, (good.n + 15) / 16 * 16);
  if (!bytes) return 1;
  memcpy(bytes, good.p, good.n);
  const uint32_t sections = ((const struct img_header *)(const void *)good.p)->section_count;
  const struct img_section *dir = (const void *)(good.p + sizeof(struct img_header));
  if (bw_open(bytes, good.n) != IMAGE_FINE) return 1; /* whole, it opens */
  ask_everything();
  for (int t = 0; t < times; t++)
    for (uint32_t i = 0; i < sections; i++) try_section(bytes, good.n, dir, i, sections);
  printf("%u sections, %d damages each: %zu refused, %zu answers\n", sections, times, refusals, answers);
  free(bytes);
  return refusals > 0 && answers > 20 ? 0 : 1;
}
