#include "words/usual.h"
#include "base/table.h"

#include <math.h>

static double threshold(const struct library *lib, const char *id) {
  const struct img_finding *row = id ? library_finding(lib, id) : NULL;
  return row ? (double)row->threshold : (double)NAN;
}

static const struct {
  const char *key, *name, *low, *high, *at_most; /* rows of data/findings.tsv; NULL none */
} RATIO[USUAL_COUNT] = {
    {"ca_p", "calcium : phosphorus", "ca-p-low", "ca-p-high", NULL},
    {"zn_cu", "zinc : copper", "zn-cu-low", "zn-cu-high", NULL},
    {"n6_n3", "omega-6 : omega-3", NULL, "omega-high", "omega-over"},
    {"k_na", "potassium : sodium", NULL, NULL, NULL},
    {"phytate_zn", "phytate : zinc", NULL, "phytate-zinc", NULL},
};

const char *words_usual_name(size_t i) { return RATIO[i].name; }
const char *words_usual_key(size_t i) { return RATIO[i].key; }

void words_usual(const struct library *lib, struct usual out[USUAL_COUNT]) {
  for (size_t i = 0; i < USUAL_COUNT; i++)
    out[i] = (struct usual){RATIO[i].key, RATIO[i].name, threshold(lib, RATIO[i].low), threshold(lib, RATIO[i].high),
                            threshold(lib, RATIO[i].at_most)};
}

const char *words_usual_range(struct arena *a, const struct usual *u) {
  if (!isfinite(u->high)) return "no usual range";
  const char *high = words_number(a, u->high);
  if (isfinite(u->low)) return words_text(a, "%s to %s", words_number(a, u->low), high);
  if (!isfinite(u->at_most)) return words_text(a, "up to %s", high);
  return words_text(a, "up to %s, %s at most", high, words_number(a, u->at_most));
}
