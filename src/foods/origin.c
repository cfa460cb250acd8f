#include "foods/origin.h"

#include "base/num.h"

static const double HUNDRED = 100;

static void add_percent(struct buf *out, double share) {
  num_fixed(out, share * HUNDRED, share < 0.01 ? 2 : 0);
  buf_adds(out, " %");
}

/* "goat muscle (by mammal muscle)": the analyses are those of the class in parentheses. */
static struct span class_of(const char *name) {
  const char *by = strstr(name, " (by ");
  if (!by) return span_of(name);
  struct span s = span_of(by + strlen(" (by "));
  return span_cut(s, 0, s.n > 0 ? s.n - 1 : 0);
}

static void pattern_words(const struct library *lib, const struct img_pattern *p, struct buf *out) {
  const char *name = lib_str(lib, p->name), *how = strstr(name, ": ");
  if (how) {
    buf_addf(out, "estimated from %s (%.*s; %u printed values tried)", how + 2, (int)(how - name), name, p->foods);
  } else {
    buf_addf(out, "estimated from %u analyses of %.*s", p->foods, SPAN_ARG(class_of(name)));
  }
  buf_adds(out, ", within ");
  add_percent(out, (double)p->cv);
}

static void set_aside_words(const struct library *lib, const struct img_set_aside *a, struct buf *out) {
  const struct nutrient_info *info = &nutrient_info[a->nutrient];
  buf_adds(out, "; the table prints ");
  num_sig(out, (double)a->printed, 3);
  buf_addf(out, " %s, which is not believed: %u other analyses of %s have ", info->unit, a->analyses,
           lib_str(lib, a->class_name));
  num_fixed(out, HUNDRED * (double)a->least, 2);
  buf_adds(out, " to ");
  num_fixed(out, HUNDRED * (double)a->most, 2);
  buf_adds(out, " % of the protein, this one ");
  num_fixed(out, HUNDRED * (double)a->share, 2);
  buf_adds(out, " %");
}

void origin_words(const struct library *lib, uint32_t food, enum nutrient n, struct buf *out) {
  const struct img_value *v = &library_values(lib, food)[n];
  const struct img_pattern *p = library_value_pattern(lib, v);
  const struct img_set_aside *a = library_set_aside(lib, food, n);
  const char *title = lib_str(lib, library_source(lib, library_value_source(lib, v))->title);
  switch ((enum value_status)v->status) {
  case VALUE_MEASURED:
    buf_addf(out, "printed in a food table: %s", title);
    break;
  case VALUE_CITED:
    buf_addf(out, title[0] ? "single figure: %s" : "stated on a label%s", title);
    break;
  case VALUE_ESTIMATED:
    if (p) {
      pattern_words(lib, p, out);
    } else if (library_own(lib, food)) { /* label_text.c: no other is worked out */
      buf_adds(out, "worked out from the label: 100 g less its protein, fat, ash and water; its fibre is within it");
    } else {
      static const char WORD[] = "Estimated";
      bool said = strncmp(title, WORD, strlen(WORD)) == 0;
      buf_addf(out, "estimated%s%s", said ? "" : ": ", said ? title + strlen(WORD) : title);
    }
    break;
  case VALUE_NONE:
    buf_adds(out, "absent by nature");
    break;
  case VALUE_UNKNOWN:
  case VALUE_STATUS_COUNT:
    break;
  }
  if (a) set_aside_words(lib, a, out);
}
