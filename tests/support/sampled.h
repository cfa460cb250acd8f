/* sampled.h: under sanitizers a long test runs a sample: what it asks for is the same, the whole is run without them. */
#ifndef BW_TEST_SAMPLED_H
#define BW_TEST_SAMPLED_H

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SAMPLED(whole, sample) (sample)
#endif
#endif
#ifndef SAMPLED
#define SAMPLED(whole, sample) (whole)
#endif

#endif
