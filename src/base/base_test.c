/* Spans, distances, numbers and memory.
 *
 * Outside checks: strtod and snprintf of the C library (in the C locale) as the independent reader and writer of numbers;
 * edit distances from published examples, named beside each. */
#define XXH_INLINE_ALL
#include <xxhash.h>

#include "base/arena.h"
#include "base/base.h"
#include "base/buf.h"
#include "base/num.h"

#include <limits.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

static void distances(void **state) {
  (void)state;
  /* kitten/sitting = 3: the textbook example, Wagner and Fischer's algorithm. */
  assert_int_equal(span_distance(SPAN_LIT("kitten"), SPAN_LIT("sitting"), 5), 3);
  /* CA/ABC = 3 under optimal string alignment (2 under unrestricted Damerau): Boytsov 2011, section 2. */
  assert_int_equal(span_distance(SPAN_LIT("ca"), SPAN_LIT("abc"), 5), 3);
  assert_int_equal(span_distance(SPAN_LIT("tbs"), SPAN_LIT("tbsp"), 2), 1);
  assert_int_equal(span_distance(SPAN_LIT("ilver"), SPAN_LIT("liver"), 2), 1); /* one swap of neighbours */
  assert_true(span_distance(SPAN_LIT("spinach"), SPAN_LIT("kidney"), 2) > 2);
  assert_int_equal(span_distance(SPAN_LIT(""), SPAN_LIT(""), 1), 0);
}

static void words_in_a_text(void **state) {
  (void)state;
  assert_true(span_holds_fold(SPAN_LIT("600 g Lamb shoulder"), SPAN_LIT("lamb SH")));
  assert_true(span_holds_fold(SPAN_LIT("lamb"), SPAN_LIT("lamb")));
  assert_false(span_holds_fold(SPAN_LIT("lam"), SPAN_LIT("lamb")));
  assert_false(span_holds_fold(SPAN_LIT("lame lambs"), SPAN_LIT("lamb shoulder")));
  assert_true(span_holds_fold((struct span){NULL, 0}, SPAN_LIT("")));
}

/* Every decimal text with up to 15 digits must read as the C library reads it. */
static void numbers_read_like_strtod(void **state) {
  (void)state;
  uint64_t seed = 12345;
  for (int i = 0; i < 200000; i++) {
    char text[40];
    seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
    int decimals = (int)(seed >> 60);
    uint64_t whole = (seed >> 20) % 1000000000ULL;
    int n = decimals > 5 ? snprintf(text, sizeof text, "%llu", (unsigned long long)whole)
                         : snprintf(text, sizeof text, "%llu.%0*llu", (unsigned long long)whole, decimals + 1,
                                    (unsigned long long)((seed >> 3) % 10));
    double x = -1;
    assert_int_equal(num_read((struct span){text, (size_t)n}, &x), n);
    assert_true(x == strtod(text, NULL));
  }
}

static void numbers_refused(void **state) {
  (void)state;
  double x = 7;
  assert_int_equal(num_read(SPAN_LIT(""), &x), 0);
  assert_int_equal(num_read(SPAN_LIT("."), &x), 0);
  assert_int_equal(num_read(SPAN_LIT("-1"), &x), 0);
  assert_int_equal(num_read(SPAN_LIT("inf"), &x), 0);
  assert_int_equal(num_read(SPAN_LIT("1234567890123456"), &x), 0); /* 16 digits: not exact */
  assert_int_equal(num_read(SPAN_LIT("12.5g"), &x), 4);
  assert_int_equal(num_read(SPAN_LIT("3."), &x), 1); /* the point is not part of the number */
  assert_false(num_parse(SPAN_LIT("1,5"), &x));
  assert_false(num_parse(SPAN_LIT("1 5"), &x));
  assert_false(num_parse(SPAN_LIT("nan"), &x));
  assert_true(num_parse(SPAN_LIT("-2.5e3"), &x) && x == -2500.0);
  assert_true(num_parse(SPAN_LIT("5e-2"), &x) && x == 0.05);
}

static const char *fixed(struct arena *a, double x, int decimals) {
  struct buf b;
  buf_init(&b, a, 100);
  num_fixed(&b, x, decimals);
  return buf_text(&b);
}

static const char *significant(struct arena *a, double x, int digits) {
  struct buf b;
  buf_init(&b, a, 100);
  num_sig(&b, x, digits);
  return buf_text(&b);
}

/* Fixed writing against snprintf, away from ties (where the two round differently by design). */
static void numbers_written_like_snprintf(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  uint64_t seed = 99;
  for (int i = 0; i < 100000; i++) {
    seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
    double x = (double)(int64_t)(seed >> 24) / 7919.0 * (seed & 1 ? 1 : -1);
    int decimals = (int)(seed >> 8) & 3;
    char want[64];
    snprintf(want, sizeof want, "%.*f", decimals, x);
    assert_string_equal(fixed(&a, x, decimals), want);
    if (i % 1000 == 0) arena_free(&a);
  }
  assert_string_equal(fixed(&a, 2.5, 0), "3"); /* ties go away from zero, as people round */
  assert_string_equal(fixed(&a, -0.04, 1), "0.0");
  assert_string_equal(fixed(&a, 0.285, 2), "0.29");
  assert_string_equal(fixed(&a, NAN, 2), "?");
  assert_string_equal(fixed(&a, 1e300, 2), "?");
  arena_free(&a);
}

static void significant_digits(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  assert_string_equal(significant(&a, 1480.4, 3), "1480");
  assert_string_equal(significant(&a, 0.012345, 3), "0.0123");
  assert_string_equal(significant(&a, 17.10, 3), "17.1");
  assert_string_equal(significant(&a, 999.96, 4), "1000");
  assert_string_equal(significant(&a, 0, 3), "0");
  assert_string_equal(significant(&a, -2.50, 3), "-2.5");
  assert_string_equal(significant(&a, 100, 3), "100");
  /* 9 digits come back to within half a unit of the ninth digit. */
  uint64_t seed = 5;
  for (int i = 0; i < 50000; i++) {
    seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
    double x = (double)(seed >> 11) * 1e-12, back = 0;
    if (!(x > 1e-2)) continue;
    assert_true(num_parse(span_of(significant(&a, x, 9)), &back));
    assert_true(fabs(back - x) <= 0.5000001e-8 * pow(10, floor(log10(x))));
    if (i % 1000 == 0) arena_free(&a);
  }
  arena_free(&a);
}

static void buffers_have_a_ceiling(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  struct buf b;
  buf_init(&b, &a, 10);
  buf_adds(&b, "0123456");
  assert_false(b.cut);
  buf_addf(&b, "%s-%d", "89", 7);
  assert_true(b.cut);
  assert_string_equal(buf_text(&b), "012345689-");
  arena_free(&a);
}

static jmp_buf out_of_memory;
static void jump_out(void) { longjmp(out_of_memory, 1); }

static void absurd_sizes_reach_the_handler(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, jump_out);
  if (setjmp(out_of_memory) == 0) {
    arena_alloc(&a, SIZE_MAX / 2, 4); /* n * size overflows */
    fail_msg("an overflowing size was served");
  }
  arena_free(&a);
}

/* Only what was allocated last can stay where it is; what it gains is zeroed and nobody else's. */
static void the_last_piece_of_an_arena_grows_in_place(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  char *first = arena_alloc(&a, 20, 1), *last = arena_alloc(&a, 20, 1);
  struct arena_mark mark = arena_mark(&a);
  memset(arena_alloc(&a, 500, 1), 'x', 500); /* what lay there before */
  arena_rewind(&a, mark);
  memset(last, 'o', 20);
  assert_false(arena_extend(&a, first, 20, 40));
  assert_true(arena_extend(&a, last, 20, 400));
  for (int i = 20; i < 400; i++) assert_int_equal(last[i], '\0');
  char *next = arena_alloc(&a, 8, 1);
  assert_true(next >= last + 400);
  assert_false(arena_extend(&a, next, 8, SIZE_MAX - 100));
  assert_false(arena_extend(&a, next, 8, 1 << 20)); /* more than the block has left */
  assert_true(last[19] == 'o');
  arena_free(&a);
}

static void arena_vectors_grow(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  int *v = NULL;
  size_t n = 0, cap = 0;
  for (int i = 0; i < 10000; i++) ARENA_PUSH(&a, v, n, cap, i);
  for (int i = 0; i < 10000; i++) assert_int_equal(v[i], i);
  arena_free(&a);
}

/* A checksum that misses a damaged byte is useless: every single flipped bit of a block must change it. */
static void checksum_sees_every_bit(void **state) {
  (void)state;
  unsigned char block[203];
  for (size_t i = 0; i < sizeof block; i++) block[i] = (unsigned char)(i * 37);
  uint64_t clean = checksum64(block, sizeof block);
  for (size_t bit = 0; bit < sizeof block * 8; bit++) {
    block[bit / 8] ^= (unsigned char)(1U << (bit % 8));
    assert_true(checksum64(block, sizeof block) != clean);
    block[bit / 8] ^= (unsigned char)(1U << (bit % 8));
  }
  assert_true(checksum64(block, sizeof block - 1) != clean);
}

/* Two flipped bits, anywhere: the first one's neighbours in a word, a lane and a stripe among them. And the value that the
 * library's own documentation gives for the empty input (XXH3_64bits, seed 0: 0x2D06800538D394C2). */
static void checksum_sees_every_two_bits(void **state) {
  (void)state;
  unsigned char block[72];
  for (size_t i = 0; i < sizeof block; i++) block[i] = (unsigned char)(i * 37);
  uint64_t clean = checksum64(block, sizeof block);
  for (size_t a = 0; a < sizeof block * 8; a++)
    for (size_t b = 0; b < a; b++) {
      block[a / 8] ^= (unsigned char)(1U << (a % 8));
      block[b / 8] ^= (unsigned char)(1U << (b % 8));
      assert_true(checksum64(block, sizeof block) != clean);
      block[a / 8] ^= (unsigned char)(1U << (a % 8));
      block[b / 8] ^= (unsigned char)(1U << (b % 8));
    }
  assert_true(checksum64("", 0) == 0x2D06800538D394C2ULL);
}

/* Of every length about where wider registers begin, from every place: as the library's own code has it. */
static void checksum_is_the_same_in_wide_registers(void **state) {
  (void)state;
  static unsigned char block[5000];
  for (size_t i = 0; i < sizeof block; i++) block[i] = (unsigned char)(i * i * 31 + i);
  for (size_t n = 0; n + 64 <= sizeof block; n += n < 1200 ? 1 : 97)
    assert_true(checksum64(block + n % 64, n) == XXH3_64bits(block + n % 64, n));
}

/* Each directive as snprintf writes it, alone and together, and one that only the C library knows. */
static void formats_are_those_of_snprintf(void **state) {
  (void)state;
  struct arena a;
  struct buf b;
  arena_init(&a, NULL);
  const char letters[] = {'a', 'b', 'c'}; /* no NUL behind them */
#define SAME(...)                                                                                                           \
  do {                                                                                                                      \
    char want[900];                                                                                                         \
    snprintf(want, sizeof want, __VA_ARGS__);                                                                               \
    buf_init(&b, &a, 2000);                                                                                                 \
    buf_addf(&b, __VA_ARGS__);                                                                                              \
    assert_string_equal(buf_text(&b), want);                                                                                \
  } while (0)
  SAME("%s", "");
  SAME("plain %%");
  SAME("%s and %.*s%c", "one", 3, letters, '!');
  SAME("%.*s|%.*s|%.*s", 0, letters, 9, "short", -1, "all of it");
  SAME("%d %d %d %d", 0, -1, INT_MAX, INT_MIN);
  SAME("%u %zu %ld", UINT_MAX, SIZE_MAX, LONG_MIN);
  SAME("%s%d%s", "a", 10, "b");
  SAME("%04d|%5s|%x", 7, "abc", 255U);
  SAME("%s %600d", "long", 1);
#undef SAME
  buf_init(&b, &a, 8);
  buf_addf(&b, "%s-%s", "four", "five");
  assert_string_equal(buf_text(&b), "four-fiv");
  assert_true(b.cut);
  arena_free(&a);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(distances),
      cmocka_unit_test(the_last_piece_of_an_arena_grows_in_place),
      cmocka_unit_test(words_in_a_text),
      cmocka_unit_test(numbers_read_like_strtod),
      cmocka_unit_test(numbers_refused),
      cmocka_unit_test(numbers_written_like_snprintf),
      cmocka_unit_test(significant_digits),
      cmocka_unit_test(buffers_have_a_ceiling),
      cmocka_unit_test(formats_are_those_of_snprintf),
      cmocka_unit_test(absurd_sizes_reach_the_handler),
      cmocka_unit_test(arena_vectors_grow),
      cmocka_unit_test(checksum_sees_every_bit),
      cmocka_unit_test(checksum_sees_every_two_bits),
      cmocka_unit_test(checksum_is_the_same_in_wide_registers),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
