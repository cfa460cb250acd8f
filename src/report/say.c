#include "report/say.h"

#include "base/num.h"
#include "foods/unit.h"

#include <math.h>
#include <stdarg.h>

enum { NUMBER_BYTES = 40, SENTENCE_BYTES = 1 << 20 };

static const char *kept(const struct pen *p, struct buf *b) {
  return arena_text(p->arena, (struct span){buf_text(b), b->n});
}

static struct buf scratch(const struct pen *p, size_t most) {
  struct buf b;
  buf_init(&b, p->arena, most);
  return b;
}

const char *say_text(const struct pen *p, const char *fmt, ...) {
  struct buf b = scratch(p, SENTENCE_BYTES);
  va_list args;
  va_start(args, fmt);
  buf_addv(&b, fmt, args);
  va_end(args);
  return buf_text(&b);
}

const char *say_amount(const struct pen *p, double x) {
  if (!isfinite(x)) return "not known";
  double size = fabs(x);
  struct buf b = scratch(p, NUMBER_BYTES);
  if (size == 0) return "0";
  if (size < 0.001) return x < 0 ? "-0" : "<0.001";
  if (size >= 999999.5) { /* absurd, but it must not break the columns */
    int power = (int)floor(log10(size));
    if (power > 99) return ">1e99";
    num_sig(&b, x / pow(10, power), 2);
    buf_addf(&b, "e%d", power);
  } else if (size < 0.1) {
    num_sig(&b, x, size < 0.01 ? 1 : 2);
  } else {
    num_sig(&b, x, size < 1000 ? 3 : 4);
  }
  return kept(p, &b);
}

const char *say_with_unit(const struct pen *p, double x, const char *unit) {
  if (!isfinite(x)) return "not" NBSP "known";
  return say_text(p, "%s" NBSP "%s", say_amount(p, x), unit);
}

const char *say_whole(const struct pen *p, double x) {
  if (!isfinite(x)) return "not known";
  if (fabs(x) >= 999999.5 || (x != 0 && fabs(x) < 0.95)) return say_amount(p, x);
  struct buf b = scratch(p, NUMBER_BYTES);
  num_fixed(&b, x, fabs(x) < 9.95 && fabs(x - round(x)) > 0.05 ? 1 : 0);
  return kept(p, &b);
}

const char *say_percent(const struct pen *p, double share) {
  if (!isfinite(share)) return "not known";
  if (share > 0 && share < 0.005) return "<1" NBSP "%";
  if (share < 1 && share >= 0.995) return ">99" NBSP "%";
  return say_text(p, "%s" NBSP "%%", say_whole(p, floor(share * 100 + 0.5)));
}

const char *say_chance(const struct pen *p, double chance) {
  if (!isfinite(chance)) return "";
  if (chance > 0.99) return ">99" NBSP "%";
  if (chance < 0.01) return "<1" NBSP "%";
  struct buf b = scratch(p, NUMBER_BYTES);
  num_fixed(&b, chance * 100, 0);
  buf_adds(&b, NBSP "%");
  return kept(p, &b);
}

const char *say_held(const struct pen *p, const char *text) {
  struct buf b = scratch(p, strlen(text) * 2 + 1);
  for (; *text; text++)
    if (*text == ' ') {
      buf_adds(&b, NBSP);
    } else {
      buf_addc(&b, *text);
    }
  return kept(p, &b);
}

static bool is_small(char c) { return c >= 'a' && c <= 'z'; }

const char *say_nutrient(const struct pen *p, enum nutrient n) {
  const char *name = nutrient_info[n].name;
  char *text = arena_text(p->arena, span_of(name));
  if (name[0] >= 'A' && name[0] <= 'Z' && is_small(name[1])) text[0] = (char)(name[0] - 'A' + 'a');
  return text;
}

static struct span first_word(struct span s) {
  size_t n = 0;
  while (n < s.n && s.p[n] != ' ') n++;
  return span_cut(s, 0, n);
}

/* An amount or a word that goes with one: "600", "1/2", "½", "(4.4", "oz)", "g", "a", "of". */
static bool is_amount_word(struct span w, bool in_bracket) {
  static const char *const WORDS[] = {"a", "an", "of", "one", "two", "three", "four", "five", "six", "half"};
  unsigned char c = w.n > 0 ? (unsigned char)w.p[0] : 0;
  if (in_bracket || c == '(' || (c >= '0' && c <= '9')) return true;
  if (w.n >= 2 && c == 0xc2 && (unsigned char)w.p[1] >= 0xbc && (unsigned char)w.p[1] <= 0xbe) return true; /* ¼ ½ ¾ */
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_is_fold(w, WORDS[i])) return true;
  return unit_by_word(w) != UNIT_NONE;
}

static bool is_bullet(struct span w) { return span_is(w, "-") || span_is(w, "*") || span_is(w, "\xE2\x80\xA2"); }

static struct span last_word(struct span s) {
  size_t from = s.n;
  while (from > 0 && s.p[from - 1] != ' ') from--;
  return span_cut(s, from, s.n);
}

/* An amount written behind the food: "salmon oil 1/2 tsp", "vitamin E 200 IU". */
static struct span without_trailing_amount(struct span s) {
  struct span unit = last_word(s), rest = span_trim(span_cut(s, 0, s.n - unit.n)), number = last_word(rest);
  if (number.n == rest.n || number.n == 0 || unit_by_word(unit) == UNIT_NONE) return s;
  if (!is_amount_word(number, false) || unit_by_word(number) != UNIT_NONE) return s;
  return span_trim(span_cut(rest, 0, rest.n - number.n));
}

static struct span food_words(struct span text) {
  bool in_bracket = false;
  struct span rest = span_trim(text);
  while (rest.n > 0) {
    struct span w = first_word(rest);
    if (!is_bullet(w) && !is_amount_word(w, in_bracket)) break;
    if (w.p[0] == '(') in_bracket = true;
    if (w.p[w.n - 1] == ')') in_bracket = false;
    rest = span_trim(span_cut(rest, w.n, rest.n));
  }
  for (size_t i = 0; i < rest.n; i++)
    if (rest.p[i] == ',' || rest.p[i] == '[' || rest.p[i] == '#') rest.n = i;
  return without_trailing_amount(span_trim(rest));
}

const char *say_food(const struct pen *p, const struct library *lib, const struct ration *ration, int line_index) {
  if (!ration || line_index < 0 || (size_t)line_index >= ration->line_count) return "a food";
  const struct ration_line *l = &ration->line[line_index];
  struct span words = food_words(span_of(l->text ? l->text : ""));
  if (words.n > 0) return arena_text(p->arena, words);
  if (l->shown_food < library_count(lib)) return library_name(lib, l->shown_food);
  return "a food";
}

const char *say_animal(const struct pen *p, const struct animal *a) {
  (void)p;
  if (a->name && a->name[0]) return a->name;
  return a->species == SPECIES_CAT ? "the cat" : "the dog";
}

const char *say_frequency(const struct pen *p, double times) {
  if (!isfinite(times)) return "not known how often";
  if (times >= 28) return "daily";
  if (times == 14) return "every other day";
  if (times == 4) return "weekly";
  if (times == 1) return "once in 28 days";
  if (fmod(times, 4) == 0) return say_text(p, "%s days in 7", say_whole(p, times / 4));
  return say_text(p, "%s days in 28", say_whole(p, times));
}

const char *say_list(const struct pen *p, const char *const *item, int count, int most) {
  if (count <= 0) return "";
  struct buf b = scratch(p, (size_t)64 * 1024);
  int shown = count <= most ? count : most;
  for (int i = 0; i < shown; i++) {
    if (i > 0) buf_adds(&b, i == count - 1 ? " and " : ", ");
    buf_adds(&b, say_held(p, item[i]));
  }
  if (shown < count) buf_addf(&b, shown > 0 ? " and %d" NBSP "more" : "%d of them", count - shown);
  return kept(p, &b);
}
