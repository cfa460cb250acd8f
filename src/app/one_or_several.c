/* one_or_several.c: words that follow a number. "2 raw egg whites" made half is "1 raw egg white", "1 pinch" doubled "2
 * pinches".
 *
 * Which word of a line is counted cannot be told by grammar alone, so the line is read again: a form is taken only where the
 * recipe's reader finds the same food and the same grams in it as without. */
#include <math.h>

#include "app/mend_parts.h"

static const struct {
  const char *one, *many;
} IRREGULAR[] = {{"foot", "feet"}, {"leaf", "leaves"}, {"loaf", "loaves"}, {"half", "halves"}, {"knife", "knives"}};

static bool ends(struct span w, const char *with) {
  size_t n = strlen(with);
  return w.n > n && span_is_fold(span_cut(w, w.n - n, w.n), with);
}

static bool ends_in_any(struct span w, const char *const *with, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (ends(w, with[i])) return true;
  return false;
}

/* "berries", "potatoes", "pinches", "eggs"; not "couscous", "skinless". */
bool word_as_one(struct buf *b, struct span w) {
  static const char *const NO_PLURAL[] = {"ss", "us", "is"}, *const WITH_ES[] = {"ches", "shes", "xes", "sses", "oes"};
  for (size_t i = 0; i < COUNT_OF(IRREGULAR); i++) {
    if (!span_is_fold(w, IRREGULAR[i].many)) continue;
    buf_adds(b, IRREGULAR[i].one);
    return true;
  }
  if (w.n < 3 || !ends(w, "s") || ends_in_any(w, NO_PLURAL, COUNT_OF(NO_PLURAL))) return false;
  if (w.n > 4 && ends(w, "ies"))
    buf_addf(b, "%.*sy", (int)w.n - 3, w.p);
  else
    buf_addf(b, "%.*s", (int)w.n - (ends_in_any(w, WITH_ES, COUNT_OF(WITH_ES)) ? 2 : 1), w.p);
  return true;
}

bool word_as_several(struct buf *b, struct span w) {
  static const char *const WITH_ES[] = {"ch", "sh", "x", "s", "potato", "tomato", "mango"}, *const VOWEL_Y[] = {"ay", "ey",
                                                                                                                "oy"};
  for (size_t i = 0; i < COUNT_OF(IRREGULAR); i++) {
    if (span_is_fold(w, IRREGULAR[i].many)) return false;
    if (!span_is_fold(w, IRREGULAR[i].one)) continue;
    buf_adds(b, IRREGULAR[i].many);
    return true;
  }
  bool es = ends_in_any(w, WITH_ES, COUNT_OF(WITH_ES)) || span_is_fold(w, "potato") || span_is_fold(w, "tomato") ||
            span_is_fold(w, "mango");
  if (w.n < 3 || (ends(w, "s") && !ends(w, "ss"))) return false;
  if (ends(w, "y") && !ends_in_any(w, VOWEL_Y, COUNT_OF(VOWEL_Y)))
    buf_addf(b, "%.*sies", (int)w.n - 1, w.p);
  else
    buf_addf(b, "%.*s%s", SPAN_ARG(w), es ? "es" : "s");
  return true;
}

/* ---- which word of a line ------------------------------------------------------------------------------------------- */

/* A line by itself: its food, and how much of it; false: it is not read. */
static bool read_line(const struct text_edit *e, const char *line, struct ration_line *out) {
  struct diags d;
  struct recipe recipe;
  struct ration ration;
  diags_init(&d, e->arena, "", span_of(line));
  if (!recipe_parse(span_of(line), &d, &recipe, e->arena)) return false;
  if (!recipe_resolve(e->lib, &recipe, &d, &ration, e->arena) || ration.line_count != 1 || d.errors > 0) return false;
  *out = ration.line[0];
  return out->grams_fed > 0;
}

static bool reads_the_same(const struct text_edit *e, const char *line, const char *as) {
  struct ration_line a, b;
  return read_line(e, line, &a) && read_line(e, as, &b) && a.shown_food == b.shown_food &&
         fabs(a.grams_fed - b.grams_fed) <= 1e-6 * a.grams_fed;
}

/* "egg whites" of "egg whites, raw": what may be counted stands before a comma, a bracket, a note or such a word. */
enum { WORDS_MOST = 6 };

static bool is_behind(struct span w) {
  static const char *const BEHIND[] = {"in",  "of",  "with", "without", "from", "and", "or",
                                       "for", "per", "a",    "each",    "on",   "at"};
  for (size_t i = 0; i < COUNT_OF(BEHIND); i++)
    if (span_is_fold(w, BEHIND[i])) return true;
  return false;
}

static size_t words_of(const char *from, const char *end, struct span *word) {
  size_t n = 0;
  for (const char *at = from; n < WORDS_MOST;) {
    while (at < end && *at == ' ') at++;
    const char *first = at;
    while (at < end && ((*at | 0x20) >= 'a' && (*at | 0x20) <= 'z')) at++;
    struct span w = {first, (size_t)(at - first)};
    if (w.n == 0 || is_behind(w)) break;
    word[n++] = w;
    if (at < end && *at != ' ') break;
  }
  return n;
}

/* "Grated", "skinless", "raw": how a thing is, never what it is. */
static bool says_how(struct span w) {
  static const char *const HOW[] = {"raw", "fresh", "frozen", "whole", "lean", "dry"};
  for (size_t i = 0; i < COUNT_OF(HOW); i++)
    if (span_is_fold(w, HOW[i])) return true;
  return ends(w, "ed") || ends(w, "less");
}

static bool is_measure(const struct library *lib, struct span w) {
  const struct img_household *row = IMG_ROWS(&lib->image, IMG_HOUSEHOLD, struct img_household);
  for (size_t i = 0; i < img_count(&lib->image, IMG_HOUSEHOLD); i++)
    for (struct span rest = span_of(lib_str(lib, row[i].words)); rest.n > 0;)
      if (span_eq_fold(span_piece(&rest, '|'), w)) return true;
  return false;
}

/* The other form of a word; false: it has none, or stands in it. */
static bool turned(struct buf *b, struct span w, bool one) { return one ? word_as_one(b, w) : word_as_several(b, w); }

size_t add_counted(struct buf *b, const struct text_edit *e, const char *from, const char *end, double amount, double was) {
  struct span word[WORDS_MOST];
  bool one = amount <= 1, any = one || was <= 1;
  size_t count = any ? words_of(from, end, word) : 0;
  struct span rest = {from, (size_t)(end - from)};
  for (size_t k = 0; k <= count && count > 0; k++) { /* a measure before all else, then the last word first */
    struct span w = k == 0 ? word[0] : word[count - k];
    struct buf form, line, as;
    buf_init(&form, e->arena, 80);
    if (says_how(w) || w.n > 40 || !turned(&form, w, one)) continue;
    bool measure = is_measure(e->lib, one ? buf_span(&form) : w);
    if (k == 0 && !measure) continue;
    buf_init(&line, e->arena, 2 * LINE_MOST_BYTES);
    buf_addf(&line, "%s%.*s", buf_text(b), SPAN_ARG(rest));
    buf_init(&as, e->arena, 2 * LINE_MOST_BYTES);
    buf_addf(&as, "%s%.*s%s%.*s", buf_text(b), (int)(w.p - from), from, buf_text(&form), (int)(end - (w.p + w.n)),
             w.p + w.n);
    if (!reads_the_same(e, buf_text(&line), buf_text(&as))) continue;
    buf_addf(b, "%.*s%s", (int)(w.p - from), from, buf_text(&form));
    return (size_t)(w.p + w.n - from);
  }
  return 0;
}
