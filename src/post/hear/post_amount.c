/* Amounts as owners write them: "1lb 4oz", "2 heaped tbs", "half a pound", "x2", "2 C", "a handful of". */
#include "base/num.h"
#include "post/hear/post_hear.h"

/* ---- units ---- */

#define US_PINT_ML 473.176 /* NIST Handbook 44, appendix C */
#define IMPERIAL_PINT_ML 568.261

static bool is_percent_of_fat(const struct tokens *t, size_t at) {
  return phrase_at(t, at, "lean") > 0 || phrase_at(t, at, "extra lean") > 0 || phrase_at(t, at, "fat") > 0 ||
         phrase_at(t, at, "fett") > 0 || phrase_at(t, at, "milk") > 0 || phrase_at(t, at, "milkfat") > 0;
}

static void set_unit(struct post_amount *a, const char *unit, double factor) {
  size_t n = strlen(unit);
  memcpy(a->unit, unit, n + 1);
  a->low *= factor;
  a->high *= factor;
  a->bare = false;
  a->is_mass = word_in((struct span){unit, n}, "g kg lb oz mg mcg");
  a->is_volume = !a->is_mass && word_in((struct span){unit, n}, "tsp tbsp cup ml l");
}

/* "ml 473.176": the unit, and how many of it one is. */
static void set_unit_of_table(struct post_amount *a, struct token *k) {
  const char *means = token_means(k, CLASS_UNIT), *blank = strchr(means, ' ');
  char unit[sizeof a->unit];
  double factor = 1;
  size_t n = blank ? (size_t)(blank - means) : strlen(means);
  memcpy(unit, means, n);
  unit[n] = '\0';
  if (blank && !num_parse(span_of(blank + 1), &factor)) factor = 1; /* the build takes no row that is none */
  set_unit(a, unit, factor);
  if (word_in(k->word, "mug mugs mugful")) {
    a->mug = true;
    a->high *= 350.0 / 200; /* 200 to 350 ml: common practice */
  }
  if (word_in(k->word, "pint pints pt quart quarts qt"))
    a->high *= IMPERIAL_PINT_ML / US_PINT_ML; /* up to the imperial one */
}

/* "c", "C", "t", "T": only the case tells a teaspoon from a tablespoon. */
static const char *one_letter(struct span at) {
  if (at.n != 1) return NULL;
  switch (at.p[0]) {
  case 'T':
    return "tbsp";
  case 't':
    return "tsp";
  case 'c':
  case 'C':
    return "cup";
  case 'G':
    return "g";
  default:
    return NULL;
  }
}

/* A unit of several words: "fl oz", "dessert spoons", "spoons of coffee"; returns the tokens it took. */
static size_t longer_unit_here(const struct tokens *t, size_t at, struct post_amount *a) {
  static const char SPOONS[] = "spoon spoons spoonful spoonfuls";
  size_t used = ANY_OF(t, at, "fl oz", "fluid ounces", "fluid ounce");
  if (used > 0) {
    set_unit(a, "fl oz", 1);
    a->is_mass = false;
    a->is_volume = true;
  } else if (says(t, at, "dessert desert desserts deserts") && says(t, at + 1, SPOONS)) {
    set_unit(a, "ml", 10);
    used = 2;
  } else if (says(t, at, "tea coffee") && says(t, at + 1, SPOONS)) {
    set_unit(a, "tsp", 1);
    used = 2;
  } else if (says(t, at, "spoon spoons") && says(t, at + 1, "of") && says(t, at + 2, "coffee tea")) {
    set_unit(a, "tsp", 1);
    used = 3;
  } else if (says(t, at, "spoon spoons") && says(t, at + 1, "of") && says(t, at + 2, "soup")) {
    set_unit(a, "tbsp", 1);
    used = 3;
  } else if (says(t, at, "table soup") && says(t, at + 1, SPOONS)) {
    set_unit(a, "tbsp", 1);
    used = 2;
  } else if ((used = phrase_at(t, at, "extra large")) > 0) {
    set_unit(a, "extra large", 1);
  }
  return used;
}

/* The unit at a token; returns the tokens it took. */
static size_t unit_here(const struct tokens *t, size_t at, struct post_amount *a) {
  size_t from = at;
  size_t heaped = 0;
  if (is_word(t, at) && token_is_a(&t->item[at], CLASS_SIZE_OF_SPOON) && is_word(t, at + 1)) {
    struct post_amount try = *a;
    heaped = unit_here(t, at + 1, &try);
    bool spoon = heaped > 0 && (try.is_volume || word_in(span_of(try.unit), "pinch handful spoon can dollop"));
    if (spoon) {
      *a = try;
      a->heaped = word_in(t->item[at].word, "heaped heaping rounded generous big good");
      a->scant = word_in(t->item[at].word, "scant scanty skimpy meagre");
      return heaped + 1;
    }
  }
  if (is_mark(t, at, '%')) {
    if (is_percent_of_fat(t, at + 1)) return 0;
    a->is_percent = true;
    a->bare = false;
    memcpy(a->unit, "%", 2);
    return 1;
  }
  if (!is_word(t, at)) return 0;
  if (phrase_at(t, at, "cap full") > 0 || phrase_at(t, at, "cap fulls") > 0) {
    a->cannot = true;
    a->bare = false;
    return 2;
  }
  size_t used = token_is_a(&t->item[at], CLASS_BEGINS_LONGER_UNIT) ? longer_unit_here(t, at, a) : 0;
  const char *letter = used == 0 ? one_letter(t->item[at].at) : NULL;
  if (letter) {
    set_unit(a, letter, 1);
    used = 1;
  }
  if (used == 0 && says_a(t, at, CLASS_UNIT)) {
    set_unit_of_table(a, &t->item[at]);
    used = 1;
  }
  if (used == 0 && word_in(t->item[at].word, "cap") && !is_word(t, at + 1)) {
    set_unit(a, "capsule", 1);
    used = 1;
  }
  if (used == 0 && token_is_a(&t->item[at], CLASS_CANNOT_MEASURE)) {
    a->cannot = true;
    a->bare = false;
    return 1;
  }
  if (used == 0) return 0;
  size_t end = from + used;
  if (is_mark(t, end, '.') && t->item[end].glued) end++;
  return end - from;
}

/* ---- numbers that are no amounts ---- */

/* "8:00", "6.30pm", "7am", "08.00:" */
static size_t time_at(const struct tokens *t, size_t at) {
  if (!is_number(t, at) || !(t->item[at].value < 24)) return 0;
  double hour = t->item[at].value; /* "porridge at 7 (80 g)" */
  bool ends = at + 1 >= t->count || (t->item[at + 1].kind == TOKEN_MARK && !is_mark(t, at + 1, '%') &&
                                     !is_mark(t, at + 1, '-') && !is_mark(t, at + 1, '/') && !is_mark(t, at + 1, 'x'));
  if (at > 0 && says(t, at - 1, "at") && hour >= 1 && hour <= 12 && hour == floor(hour) && ends)
    return is_mark(t, at + 1, ':') && at + 2 < t->count && is_number(t, at + 2) && t->item[at + 1].glued ? 3 : 1;
  size_t used = 1;
  if (is_mark(t, at + 1, ':') && t->item[at + 1].glued && is_number(t, at + 2) && t->item[at + 2].glued &&
      t->item[at + 2].at.n == 2)
    used = 3;
  if (says_a(t, at + used, CLASS_CLOCK_MARK)) return used + 1;
  if (used == 3) return 3;
  bool clock = t->item[at].at.n >= 4 && memchr(t->item[at].at.p, '.', t->item[at].at.n) &&
               t->item[at].at.p[t->item[at].at.n - 3] == '.';
  return clock && at == 0 && is_mark(t, at + 1, ':') ? 1 : 0;
}

/* "80/20", "(90%)", "90% lean", "80:10:10" */
static size_t share_at(const struct tokens *t, size_t at) {
  if (!is_number(t, at)) return 0;
  double x = t->item[at].value;
  size_t used = 0;
  double sum = x;
  for (size_t i = at + 1;
       (is_mark(t, i, '/') || is_mark(t, i, ':')) && t->item[i].glued && is_number(t, i + 1) && t->item[i + 1].glued;
       i += 2) {
    sum += t->item[i + 1].value;
    used = i + 2 - at;
  }
  if (used > 0 && sum == 100) return used;
  if (is_mark(t, at + 1, '%') && is_percent_of_fat(t, at + 2)) return 2;
  bool bracket = at > 0 && t->item[at - 1].kind == TOKEN_MARK && t->item[at - 1].mark == '(';
  if (bracket && is_mark(t, at + 1, '%') && is_mark(t, at + 2, ')')) return 2;
  return 0;
}

/* "3 times a week", "every 3 days", "3x per week", "3 yrs", "for 3 months" */
static size_t period_number_at(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE) return 0;
  size_t end = at + q.tokens;
  if (says(t, end, "day") && says(t, end + 1, "old") && says(t, end + 2, "chick chicks")) return 0;
  if (says_a(t, end, CLASS_COUNTS_TIME)) return q.tokens + 1;
  if (phrase_at(t, end, "x") > 0 && (says_a(t, end + 1, CLASS_BEHIND_TIMES) || is_mark(t, end + 1, '/')))
    return q.tokens + 1;
  return 0;
}

/* "since 2019", "in 2020": a year. */
static bool is_year(const struct tokens *t, size_t at) {
  if (at == 0 || !is_number(t, at) || !says(t, at - 1, "since in from until till of spring summer autumn winter early late"))
    return false;
  double x = t->item[at].value;
  return x >= 1990 && x <= 2040 && x == floor(x) &&
         (at + 1 >= t->count || t->item[at + 1].kind == TOKEN_MARK || is_word(t, at + 1)) &&
         !means_as(at + 1 < t->count && is_word(t, at + 1) ? t->item[at + 1].word : (struct span){"", 0}, CLASS_UNIT);
}

size_t not_an_amount(const struct tokens *t, size_t at) {
  size_t used = is_year(t, at) ? 1 : time_at(t, at);
  if (used == 0) used = share_at(t, at);
  if (used == 0) used = period_number_at(t, at);
  bool per_day =
      at > 1 && says(t, at - 1, "day week") &&
      says(t, at - 2, "per a each every the other second third fourth fifth alternate"); /* "per day 85 g chicken" */
  if (used == 0 && !per_day && is_number(t, at) && at > 0 && t->item[at - 1].kind == TOKEN_WORD &&
      token_is_a(&t->item[at - 1], CLASS_BEFORE_A_NAME_NUMBER))
    used = 1;
  return used;
}

/* ---- amounts ---- */

static bool is_second_mass(const struct post_amount *a, const struct post_amount *b) {
  return a->is_mass && b->is_mass && b->tokens > 0 &&
         ((!strcmp(a->unit, "lb") && !strcmp(b->unit, "oz")) || (!strcmp(a->unit, "kg") && !strcmp(b->unit, "g")));
}

enum { AMOUNTS_WITHIN = 4 }; /* "2 x one 15 oz can" */
static struct post_amount amount_within(const struct tokens *t, size_t at, int depth);

/* A weight and what is packed in it: "15 oz can"; none without both. */
static struct post_amount packed_at(const struct tokens *t, size_t at, int depth) {
  struct post_amount none = {0};
  if (!is_number(t, at)) return none;
  struct post_amount one = amount_within(t, at, depth);
  if (one.tokens == 0 || !(one.is_mass || one.is_volume) || one.low != one.high) return none;
  if (is_mark(t, at + one.tokens, '-')) one.tokens++;
  if (!says_a(t, at + one.tokens, CLASS_PACK_WITH_WEIGHT)) return none;
  one.tinned = says(t, at + one.tokens, "tin tins can cans");
  one.tokens++;
  return one;
}

/* A number and its unit, nothing before it; 'depth' amounts stand around it. */
static struct post_amount amount_within(const struct tokens *t, size_t at, int depth) {
  struct post_amount a = {0};
  if (depth > AMOUNTS_WITHIN) return a;
  struct quantity q = quantity_at(t, at);
  if (q.fault == QUANTITY_DESCENDING || q.fault == QUANTITY_NONE || q.fault == QUANTITY_NEGATIVE) return a;
  if (q.fault != QUANTITY_FINE) return a;
  a.low = q.low;
  a.high = q.high;
  a.bare = true;
  a.by_word = t->item[at].kind == TOKEN_WORD;
  size_t end = at + q.tokens;
  if (phrase_at(t, end, "couple of") > 0 && q.low == 1) {
    a.low = a.high = 2;
    end += 2;
  } else if (phrase_at(t, end, "couple") > 0 && q.low == 1) { /* "a couple oz" */
    a.low = a.high = 2;
    end++;
  }
  if (phrase_at(t, end, "doz") > 0 || phrase_at(t, end, "dozen") > 0) {
    a.low *= 12;
    a.high *= 12;
    a.by_word = false;
    end++;
  }
  if (phrase_at(t, end, "x") > 0) { /* "2 x 110 g", "10 x sardines" */
    struct post_amount one = amount_within(t, end + 1, depth + 1);
    if (one.tokens > 0 && !one.by_word) {
      one.low *= a.low;
      one.high *= a.high;
      one.tokens += end + 1 - at;
      return one;
    }
    end++;
    a.by_word = false;
  }
  size_t article = says(t, end, "of") && says(t, end + 1, "a") ? 2 : says(t, end, "a") ? 1 : 0; /* "1/2 a 400 g tin" */
  struct post_amount pack = packed_at(t, end, depth + 1); /* "one 15 oz can", "half a 400 g tin" */
  if (pack.tokens == 0 && article > 0 && (pack = packed_at(t, end + article, depth + 1)).tokens > 0) pack.tokens += article;
  if (pack.tokens > 0) {
    pack.low *= a.low;
    pack.high *= a.high;
    pack.tokens += end - at;
    return pack;
  }
  size_t unit = unit_here(t, end, &a);
  if (unit == 0 && phrase_at(t, end, "of a") > 0 && (unit = unit_here(t, end + 2, &a)) > 0) unit += 2; /* "half of a tin" */
  if (unit == 0 && phrase_at(t, end, "a") > 0 && (unit = unit_here(t, end + 1, &a)) > 0) unit += 1;    /* "half a pound" */
  end += unit;
  if (unit > 0 && phrase_at(t, end, "and a half") > 0) { /* "a teaspoon and a half of bone meal" */
    double one = a.low == a.high && q.low > 0 ? a.low / q.low : 0;
    a.low += 0.5 * one;
    a.high += 0.5 * one;
    end += 3;
  }
  /* "200 g - 250 g" */
  if (a.is_mass && is_mark(t, end, '-') && is_number(t, end + 1)) {
    struct post_amount high = amount_within(t, end + 1, depth + 1);
    if (high.is_mass && !strcmp(high.unit, a.unit) && high.low == high.high && high.low > a.low) {
      a.high = high.low;
      end += 1 + high.tokens;
    }
  }
  a.tokens = end - at;
  return a;
}

static struct post_amount simple_at(const struct tokens *t, size_t at) { return amount_within(t, at, 0); }

/* A measure that may stand without a number, or a word that stands before one ("a heaped handful"). */
static bool may_be_household(const struct tokens *t, size_t at) {
  if (!says_a(t, at, CLASS_MEASURE_BEFORE_OF) && !says_a(t, at, CLASS_MEASURE_ALONE) && !says_a(t, at, CLASS_CANNOT_MEASURE))
    return false;
  bool begins = at == 0 || t->item[at - 1].kind == TOKEN_MARK; /* "handful spinach"; else "a few handfuls of spinach" */
  if (!begins && !says(t, at + 1, "of") && !says(t, at + 2, "of") && !says(t, at + 3, "of")) return false;
  if (is_word(t, at) && token_is_a(&t->item[at], CLASS_MEASURE_BEFORE_OF) &&
      (says(t, at + 1, "of") || says(t, at + 2, "of")))
    return true;
  return is_word(t, at) && (token_is_a(&t->item[at], CLASS_MEASURE_ALONE) || token_is_a(&t->item[at], CLASS_CANNOT_MEASURE));
}

/* Asked of every token by a dozen readers: most words and marks begin no amount. */
static bool may_begin_amount(const struct tokens *t, size_t at) {
  if (at >= t->count || t->item[at].taken) return false;
  const struct token *k = &t->item[at];
  if (k->kind == TOKEN_MARK) return k->mark == '~' || k->mark == 'x';
  return k->kind != TOKEN_WORD || k->word.p[0] == 'x' || quantity_at(t, at).fault != QUANTITY_NONE ||
         may_be_household(t, at);
}

struct post_amount post_amount_at(const struct tokens *t, size_t at) {
  struct post_amount none = {0};
  size_t from = at;
  bool about = false;
  if (!may_begin_amount(t, at) || not_an_amount(t, at) > 0) return none;
  if (is_mark(t, at, '~')) {
    about = true;
    at++;
  }
  if (at > 0 && phrase_at(t, at, "x") > 0 && is_number(t, at + 1)) { /* "chicken thighs x 4" */
    struct post_amount times = {.tokens = 2, .low = t->item[at + 1].value, .high = t->item[at + 1].value, .bare = true};
    struct post_amount unit = times;
    if (unit_here(t, at + 2, &unit) == 0) return times;
  }
  double glued = 0; /* "x4" */
  if (at > 0 && is_word(t, at) && t->item[at].word.n >= 2 && t->item[at].word.p[0] == 'x' &&
      num_parse(span_cut(t->item[at].word, 1, t->item[at].word.n), &glued) && glued > 0)
    return (struct post_amount){.tokens = 1, .low = glued, .high = glued, .bare = true};
  struct post_amount a = simple_at(t, at);
  bool sized = at > 1 && (is_number(t, at - 2) || t->item[at - 2].kind == TOKEN_FRACTION) && is_word(t, at - 1); /* "2 desert
                                                                                                          spoons" */
  if (a.tokens == 0 && at == from && !sized && may_be_household(t, at)) { /* "handful of spinach", "pinch of salt" */
    struct post_amount one = {.low = 1, .high = 1};
    size_t used = unit_here(t, at, &one);
    bool household = used > 0 && (is_a(span_of(one.unit), CLASS_HOUSEHOLD_UNIT) || one.is_volume || one.cannot);
    if (household && (phrase_at(t, at + used, "of") > 0 || at == 0 || t->item[at - 1].kind == TOKEN_MARK)) {
      struct span word = t->item[at].word;
      one.tokens = used;
      one.cannot = one.cannot || (used == 1 && word.p[word.n - 1] == 's'); /* "drops of oil": nobody says how many */
      return one;
    }
  }
  if (a.tokens == 0) return none;
  struct post_amount more = simple_at(t, at + a.tokens);
  if (is_second_mass(&a, &more)) {
    double by = strcmp(a.unit, "lb") == 0 ? 16 : 1000;
    a.low = a.low * by + more.low;
    a.high = a.high * by + more.high;
    memcpy(a.unit, more.unit, sizeof a.unit);
    a.tokens += more.tokens;
  }
  a.tokens += at - from;
  a.about = about;
  return a;
}

/* A pint is 473 or 568 ml: a jug shows fives. */
static double on_a_jug(const struct post_amount *a, double x) {
  static const double LINE_ML = 5;
  bool rough = a->high > a->low && strcmp(a->unit, "ml") == 0 && x > 10 * LINE_ML;
  return rough ? round(x / LINE_ML) * LINE_ML : x;
}

void amount_write(struct buf *b, const struct post_amount *a, double by) {
  num_sig(b, on_a_jug(a, a->low * by), 6);
  if (a->high > a->low) {
    buf_addc(b, '-');
    num_sig(b, on_a_jug(a, a->high * by), 6);
  }
  if (!a->unit[0]) return;
  bool counted = is_a(span_of(a->unit), CLASS_UNIT_WITH_PLURAL);
  bool pinch = strcmp(a->unit, "pinch") == 0;
  buf_addf(b, " %s%s", a->unit, a->high * by > 1 && counted ? "s" : a->high * by > 1 && pinch ? "es" : "");
}

/* A mass as grams. */
double post_in_grams(const struct post_amount *a) {
  return a->low * (strcmp(a->unit, "kg") == 0   ? 1000
                   : strcmp(a->unit, "lb") == 0 ? 453.59237
                   : strcmp(a->unit, "oz") == 0 ? 28.349523
                                                : 1);
}
