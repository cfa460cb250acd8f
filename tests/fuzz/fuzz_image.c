/* fuzz_image.c: the food library. The first letter says how the bytes are meant: 'w', a whole image, whose checksum is made
 * right; else pieces of eight bytes, each a change of the built library: section, kind of change, place, operand. The first
 * letter then also says what is asked. The image is refused, or it answers, and nothing leaves its bounds. */
#define _DEFAULT_SOURCE
#include "wasm/reactor.c"

#include <stdio.h>

#include "built_image.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static size_t opened, refused;
enum { CHANGE_BYTES = 8, CHANGES_MOST = 16, WHOLE_MOST = 4096 };
#define TEXT(t) (t), (sizeof(t) - 1)

static const char ANIMALS[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n\nAnimal: Pim\nSpecies: "
                              "cat\nAge: 3 years\nWeight: 4.6 kg\n";
static const char RECIPE[] =
    "For: Juniper\n\n250 g lamb shoulder, raw\n60 g duck neck, raw, bone-in\n1 large egg, every other "
    "day\n1 can (4.4 oz) mackerel in brine, drained, weekly\n3 grapes\n1/4 tsp kelp\n";
static const char OTHER[] = "For: Pim\n\n300 g chicken thigh, with skin, baked\n2 tbsp flaxseed oil\n1 clove garlic\n";
static const char POST[] = "my 40 lb dog gets a cup of rice, half a pound of beef mince 80/20 and a handful of spinach\n";

static void is_answered(int code) {
  if (code != UNDERSTOOD && code != USAGE && code != NOT_UNDERSTOOD && code != REFUSED) abort();
  if (bw_answer_bytes() == 0) abort();
}

static void ask_of(const void *bytes, size_t n, uint8_t what) {
  if (bw_open(bytes, n) != IMAGE_FINE) {
    refused++;
    return;
  }
  opened++;
  is_answered(bw_ask(TEXT(ANIMALS), TEXT("today=2026-11-02\neveryday=yes\nmost=5")));
  switch (what % 8) {
  case 0:
    is_answered(bw_page(TEXT(RECIPE), TEXT("why=zinc\nwhy=energy\nratio=80:10:5:5")));
    break;
  case 1:
    is_answered(bw_page(TEXT(POST), TEXT("posted=yes")));
    break;
  case 2:
    is_answered(bw_side(TEXT(RECIPE), TEXT(OTHER)));
    break;
  case 3:
    is_answered(bw_need("Pim", 3));
    break;
  case 4:
    is_answered(bw_swap(TEXT(RECIPE), TEXT("line=3")));
    break;
  case 5:
    is_answered(bw_foods(TEXT("lamb liver"), 20));
    is_answered(bw_suggest(TEXT("20 g chiken liv"), 10));
    break;
  case 6:
    is_answered(bw_food(TEXT("usda:17199")));
    is_answered(bw_near());
    break;
  default:
    is_answered(bw_library());
  }
}

/* ---- a whole image ---- */

static void whole(const uint8_t *data, size_t size) {
  static _Alignas(16) unsigned char bytes[WHOLE_MOST];
  struct img_header h;
  if (size > sizeof bytes) size = sizeof bytes;
  memcpy(bytes, data, size);
  if (size >= sizeof h) {
    memcpy(&h, bytes, sizeof h);
    h.checksum = image_checksum(bytes, size);
    memcpy(bytes, &h, sizeof h);
  }
  void *exact; /* a read past its end is seen */
  if (posix_memalign(&exact, 16, size > 0 ? size : 1) != 0) abort();
  memcpy(exact, bytes, size);
  ask_of(exact, size, size > 0 ? bytes[size - 1] : 0);
  free(exact);
}

/* ---- changes of the built one ---- */

static unsigned char *built_copy(size_t *n) {
  static unsigned char *copy;
  struct span good = built_bytes();
  *n = good.n;
  if (!copy) {
    copy = aligned_alloc(16, (good.n + 15) / 16 * 16);
    if (!copy) abort();
    memcpy(copy, good.p, good.n);
  }
  return copy;
}

static uint32_t changed(uint32_t word, uint8_t how, uint32_t by, uint32_t count) {
  static const float ODD[] = {NAN, INFINITY, -INFINITY, -1.0F, 1e30F, 1e-30F, 0.0F, -0.0F, 3.4e38F};
  switch (how % 6) {
  case 0:
    return by;
  case 1:
    return word ^ 1U << by % 32;
  case 2:
    return word + by % 256 - 128;
  case 3:
    return count + by % 3 - 1;
  case 4:
    memcpy(&word, &ODD[by % COUNT_OF(ODD)], sizeof word);
    return word;
  default:
    return by % 2 == 0 ? 0x7FFFFFFFU : 0xFFFFFFFFU;
  }
}

static void with_changes(const uint8_t *data, size_t size) {
  size_t n, place[CHANGES_MOST], changes = 0;
  unsigned char *bytes = built_copy(&n);
  struct span good = built_bytes();
  struct img_header *h = (void *)bytes;
  const struct img_section *dir = (const void *)(good.p + sizeof *h);
  for (size_t i = 1; i + CHANGE_BYTES <= size && changes < CHANGES_MOST; i += CHANGE_BYTES) {
    const struct img_section *s = &dir[data[i] % h->section_count];
    size_t words = (size_t)s->count * s->stride / 4;
    uint32_t word, by;
    if (words == 0) continue;
    size_t at = s->offset + 4 * (((size_t)data[i + 2] << 8 | data[i + 3]) * words >> 16);
    memcpy(&by, data + i + 4, sizeof by);
    memcpy(&word, bytes + at, sizeof word);
    word = changed(word, data[i + 1], by, (uint32_t)dir[by / 3 % h->section_count].count);
    memcpy(bytes + at, &word, sizeof word);
    place[changes++] = at;
  }
  h->checksum = image_checksum(bytes, n);
  ask_of(bytes, n, data[0]);
  for (size_t i = 0; i < changes; i++) memcpy(bytes + place[i], good.p + place[i], 4);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  if (size == 0) return 0;
  if (data[0] == 'w')
    whole(data + 1, size - 1);
  else
    with_changes(data, size);
  return 0;
}
