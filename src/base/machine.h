/* machine.h: how wide the registers are that long loops may use. Nothing else may hang on it: every width adds up to the
 * same last bit.
 *
 * The C library is asked, which looked when the program began. The compiler's own way (target_clones) would ask the
 * processor once more at every start, and where one machine is a guest of another each such question takes as long as some
 * hundred thousand sums. Layer: base. */
#ifndef BW_MACHINE_H
#define BW_MACHINE_H

#include <assert.h>
#include <stdatomic.h>

#include "base/base.h"

#if defined(__x86_64__) && defined(__GLIBC__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#if __GLIBC_PREREQ(2, 33)
#include <sys/platform/x86.h> /* only what the processor can do */
#define MACHINE_HAS_WIDTHS 1
#endif
#endif

enum machine_width { MACHINE_PLAIN, MACHINE_AVX2, MACHINE_AVX512 };

/* Defines the function 'type name params' with the body that follows, once for each width. 'args' are the names of the
 * parameters; 'kept' is a MACHINE_KEPT of the file. */
#ifdef MACHINE_HAS_WIDTHS
#define MACHINE_EACH_WIDTH(kept, type, name, params, args)                                                                  \
  static inline __attribute__((always_inline)) type name##_body params;                                                     \
  static __attribute__((target("avx512f"), noinline)) type name##_avx512 params { return name##_body args; }                \
  static __attribute__((target("avx2"), noinline)) type name##_avx2 params { return name##_body args; }                     \
  static __attribute__((noinline)) type name##_plain params { return name##_body args; }                                    \
  type name params {                                                                                                        \
    enum machine_width w = machine_width_kept(&(kept));                                                                     \
    if (w == MACHINE_AVX512) return name##_avx512 args;                                                                     \
    if (w == MACHINE_AVX2) return name##_avx2 args;                                                                         \
    return name##_plain args;                                                                                               \
  }                                                                                                                         \
  static inline __attribute__((always_inline)) type name##_body params
/* The same without the widest, which begins late and gains nothing in loops over some sixty numbers. */
#define MACHINE_BOTH_WIDTHS(kept, type, name, params, args)                                                                 \
  static inline __attribute__((always_inline)) type name##_body params;                                                     \
  static __attribute__((target("avx2"), noinline)) type name##_avx2 params { return name##_body args; }                     \
  static __attribute__((noinline)) type name##_plain params { return name##_body args; }                                    \
  type name params {                                                                                                        \
    if (machine_width_kept(&(kept)) != MACHINE_PLAIN) return name##_avx2 args;                                              \
    return name##_plain args;                                                                                               \
  }                                                                                                                         \
  static inline __attribute__((always_inline)) type name##_body params
/* No state: it is the same for as long as the program runs, and whoever looks at the same time writes the same. */
typedef _Atomic signed char machine_kept;
#define MACHINE_KEPT(name) static machine_kept name = -1
static __attribute__((noinline, cold, unused)) enum machine_width machine_width_look(machine_kept *kept) {
  enum machine_width w = CPU_FEATURE_ACTIVE(AVX512F) ? MACHINE_AVX512
                         : CPU_FEATURE_ACTIVE(AVX2)  ? MACHINE_AVX2
                                                     : MACHINE_PLAIN;
  atomic_store_explicit(kept, (signed char)w, memory_order_relaxed);
  return w;
}
static inline enum machine_width machine_width_kept(machine_kept *kept) {
  int w = atomic_load_explicit(kept, memory_order_relaxed);
  return w < 0 ? machine_width_look(kept) : (enum machine_width)w;
}
#else
#define MACHINE_EACH_WIDTH(kept, type, name, params, args) type name params
#define MACHINE_BOTH_WIDTHS(kept, type, name, params, args) type name params
#define MACHINE_KEPT(name) static_assert(true, "nothing to keep")
#endif

#endif
