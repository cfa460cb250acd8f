/* One line of the journal: day, animal, fact. */
#include <math.h>

#include "base/num.h"
#include "base/table.h"
#include "base/utf8.h"
#include "foods/unit.h"
#include "journal/journal_parts.h"

WORD_TABLE(journal_fact_word, JOURNAL_FACTS, "weighs", "ate", "left", "note"); /* ORDER JOURNAL_FACT */

static const struct {
  const char *word;
  enum journal_fact fact;
} SPELLINGS[] = {{"weighs", JOURNAL_WEIGHS}, {"weighed", JOURNAL_WEIGHS}, {"weight", JOURNAL_WEIGHS}, {"ate", JOURNAL_ATE},
                 {"eats", JOURNAL_ATE},      {"eaten", JOURNAL_ATE},      {"fed", JOURNAL_ATE},       {"left", JOURNAL_LEFT},
                 {"leaves", JOURNAL_LEFT},   {"note", JOURNAL_NOTE},      {"notes", JOURNAL_NOTE}};
static const char *const CORRECTIONS[] = {"correction", "corrected", "corrects"};
static const char *const NOBODY_KNOWS[] = {"unknown", "?", "not known"};

struct span journal_word(struct span *s) {
  size_t i = 0, n;
  uint32_t c = 0;
  while (i < s->n) {
    bool plain = s->p[i] > ' ' && s->p[i] < 0x7F;
    n = plain ? 1 : utf8_read(span_cut(*s, i, s->n), &c);
    if (n == 0 || (!plain && is_blank_point(c))) break;
    i += n;
  }
  struct span word = span_cut(*s, 0, i);
  while (i < s->n && s->p[i] == ' ') i++;
  *s = trim_blanks(span_cut(*s, i, s->n));
  return word;
}

static struct span without_colon(struct span word) {
  return word.n > 0 && word.p[word.n - 1] == ':' ? span_cut(word, 0, word.n - 1) : word;
}

static bool is_any(struct span s, const char *const *words, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (span_is_fold(s, words[i])) return true;
  return false;
}
#define IS_ANY(s, words) is_any((s), (words), COUNT_OF(words))

static bool fact_by_word(struct span word, enum journal_fact *fact) {
  word = without_colon(word);
  for (size_t i = 0; i < COUNT_OF(SPELLINGS); i++)
    if (span_is_fold(word, SPELLINGS[i].word)) {
      *fact = SPELLINGS[i].fact;
      return true;
    }
  return false;
}

/* ---- the animal ---- */

static int kept_name(struct journal_reader *r, struct span name) {
  for (size_t i = 0; i < r->name_count; i++)
    if (span_eq_fold(span_of(r->name[i]), name)) return (int)i;
  const char *spelled = NULL;
  for (size_t i = 0; r->known && r->known->name && i < r->known->name_count; i++)
    if (span_eq_fold(span_of(r->known->name[i]), name)) spelled = r->known->name[i];
  if (!spelled && r->known && r->known->name) return -1;
  if (!spelled) spelled = arena_text(r->arena, name);
  ARENA_PUSH(r->arena, r->name, r->name_count, r->name_cap, spelled);
  return (int)r->name_count - 1;
}

static void complain_of_animal(struct journal_reader *r, struct span name) {
  enum { MOST_SHOWN = 8 };
  const struct journal_known *k = r->known;
  const char *near = nearest_word(name, k->name, k->name_count);
  bool several = span_holds_fold(name, SPAN_LIT(" and ")) || memchr(name.p, ',', name.n) || memchr(name.p, '&', name.n);
  struct buf b;
  buf_init(&b, r->arena, 512);
  for (size_t i = 0; i < k->name_count && i < MOST_SHOWN; i++)
    buf_addf(&b, "%s%s", i == 0 ? "" : i + 1 == k->name_count ? " and " : ", ", k->name[i]);
  if (k->name_count > MOST_SHOWN) buf_adds(&b, " ...");
  if (several && !near) {
    diag_say(r->d, DIAG_ERROR, DIAG_WHICH_ANIMAL, name, "a line tells of one animal; write one for each of '%.*s'",
             SPAN_ARG(quoted(name)));
  } else if (near) {
    diag_say(r->d, DIAG_ERROR, DIAG_MISSPELT, name, "there is no animal '%.*s'; did you mean '%s'?", SPAN_ARG(quoted(name)),
             near);
    misspelt_fix(r->d, name, near);
  } else {
    diag_say(r->d, DIAG_ERROR, DIAG_WHICH_ANIMAL, name, "there is no animal '%.*s'; there %s %s", SPAN_ARG(quoted(name)),
             k->name_count == 1 ? "is" : "are", k->name_count > 0 ? buf_text(&b) : "none");
  }
}

/* ---- masses ---- */

/* "430 g" as nearly all lines have it, without tokens. */
static size_t plain_mass(struct span s, double *grams) {
  double x;
  size_t used = s.n > 0 && s.p[0] >= '0' && s.p[0] <= '9' ? num_read(s, &x) : 0, blank = 0;
  while (used > 0 && used + blank < s.n && s.p[used + blank] == ' ') blank++;
  struct span rest = span_cut(s, used + blank, s.n);
  size_t unit = rest.n > 1 && rest.p[0] == 'k' && rest.p[1] == 'g' ? 2 : rest.n > 0 && rest.p[0] == 'g' ? 1 : 0;
  if (used == 0 || unit == 0 || (unit < rest.n && rest.p[unit] != ' ')) return 0;
  *grams = x * (unit == 2 ? 1000 : 1);
  return used + blank + unit;
}

static size_t one_mass(const struct tokens *t, size_t at, double *grams, enum unit *unit) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || at + q.tokens >= t->count || t->item[at + q.tokens].kind != TOKEN_WORD) return 0;
  *unit = unit_by_word(t->item[at + q.tokens].word);
  if (*unit == UNIT_NONE || unit_info[*unit].kind != UNIT_KIND_MASS) return 0;
  *grams = unit_convert((q.low + q.high) / 2, *unit);
  return q.tokens + 1;
}

size_t journal_mass(struct span s, double *grams, struct arena *arena) {
  size_t plain = plain_mass(s, grams);
  if (plain > 0) return plain;
  enum { ENOUGH = 96 };
  struct tokens t = tokens_of(span_cut(s, 0, ENOUGH), arena);
  enum unit unit, finer;
  double more;
  size_t used = one_mass(&t, 0, grams, &unit);
  if (used == 0) return 0;
  size_t second = one_mass(&t, used, &more, &finer);
  bool joined = second > 0 && ((unit == UNIT_LB && finer == UNIT_OZ) || (unit == UNIT_KG && finer == UNIT_G));
  if (joined) {
    used += second;
    *grams += more;
  }
  struct span last = t.item[used - 1].at;
  size_t bytes = (size_t)(last.p + last.n - s.p);
  return bytes < s.n && s.p[bytes] == '.' ? bytes + 1 : bytes; /* "40 lb." */
}

/* ---- the facts ---- */

static void complain_of_mass(struct journal_reader *r, struct span at, const char *example, const char *other,
                             const char *as_in) {
  struct tokens t = tokens_of(at, r->arena);
  struct quantity q = quantity_at(&t, 0);
  struct span number = tokens_span(&t, 0, q.tokens);
  if (q.fault != QUANTITY_FINE && q.fault != QUANTITY_NONE) {
    quantity_complain(&t, 0, q, r->d);
  } else if (q.fault == QUANTITY_FINE && q.tokens == t.count) {
    diag_say(r->d, DIAG_ERROR, DIAG_UNIT, at, "in which unit? write '%.*s %s' or '%.*s %s'", SPAN_ARG(quoted(number)),
             example, SPAN_ARG(quoted(number)), other);
  } else {
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, at, "'%.*s' is not %s", SPAN_ARG(quoted(at)), as_in);
  }
}

static bool read_weight(struct journal_reader *r, struct journal_entry *e) {
  double grams = NAN;
  e->kg = NAN;
  if (IS_ANY(e->said, NOBODY_KNOWS)) return true;
  size_t used = journal_mass(e->said, &grams, r->arena);
  struct span rest = trim_blanks(span_cut(e->said, used, e->said.n));
  if (e->said.n == 0) {
    diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, e->whole, "how much? write it as in 'weighs 18.2 kg'");
  } else if (used == 0) {
    complain_of_mass(r, e->said, "kg", "lb", "a weight; write it as in '18.2 kg' or '40 lb'");
  } else if (rest.n > 0) {
    diag_say(r->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, rest,
             "'%.*s' after the weight is not understood; a remark comes after '#'", SPAN_ARG(quoted(rest)));
  } else if (!(grams > 0)) {
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, e->said,
             "nothing weighs nothing; leave the line out, or write 'weighs unknown'");
  } else {
    e->kg = grams / 1000;
    return true;
  }
  return false;
}

static bool read_share(struct span said, double *share, struct arena *arena) {
  struct tokens t = tokens_of(said, arena);
  struct quantity q = quantity_at(&t, 0);
  if (span_is_fold(said, "all") || span_is_fold(said, "everything")) {
    *share = 1;
    return true;
  }
  if (q.fault != QUANTITY_FINE || q.tokens == 0) return false;
  *share = (q.low + q.high) / 2;
  bool percent = q.tokens + 1 == t.count && t.item[q.tokens].kind == TOKEN_MARK && t.item[q.tokens].mark == '%';
  if (percent) *share /= 100;
  bool words = t.item[0].kind == TOKEN_WORD || t.item[0].kind == TOKEN_FRACTION || q.tokens == 3;
  size_t behind = q.tokens + (phrase_at(&t, q.tokens, "of it") > 0 ? 2 : 0);
  return (percent || (words && behind == t.count)) && *share >= 0 && *share <= 1;
}

static bool read_left(struct journal_reader *r, struct journal_entry *e) {
  e->left_g = e->left_share = NAN;
  if (IS_ANY(e->said, NOBODY_KNOWS) || span_is_fold(e->said, "some")) return true;
  if (span_is_fold(e->said, "nothing") || span_is_fold(e->said, "none")) {
    e->left_g = 0;
    return true;
  }
  size_t used = journal_mass(e->said, &e->left_g, r->arena);
  if (used == e->said.n && used > 0) return true;
  e->left_g = NAN;
  if (read_share(e->said, &e->left_share, r->arena)) return true;
  bool too_much = e->left_share > 1 && e->said.p[e->said.n - 1] == '%';
  e->left_share = NAN;
  if (too_much) {
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, e->said, "more than all of it cannot be left; write 'left all', or the grams");
    return false;
  }
  if (used > 0) {
    struct span rest = trim_blanks(span_cut(e->said, used, e->said.n));
    diag_say(
        r->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, rest,
        "what is left is taken off all that was eaten that day; '%.*s' is not understood here. A remark comes after '#'",
        SPAN_ARG(quoted(rest)));
  } else if (e->said.n == 0) {
    diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, e->whole, "how much? write it as in 'left 60 g', 'left half' or 'left some'");
  } else {
    complain_of_mass(r, e->said, "g", "oz",
                     "understood; write it as in 'left 60 g', 'left half', 'left 20 %' or 'left some'");
  }
  return false;
}

static bool read_item(struct span piece, struct diags *d, struct journal_item *out, struct arena *arena) {
  *out = (struct journal_item){.whole = piece, .food = piece, .grams = NAN};
  if (piece.p[0] == '?' || IS_ANY(piece, NOBODY_KNOWS)) {
    out->unknown = true;
    if (piece.p[0] == '?') out->food = trim_blanks(span_cut(piece, 1, piece.n));
    return true;
  }
  size_t used = journal_mass(piece, &out->grams, arena);
  if (used == 0) {
    out->grams = NAN;
    struct tokens t = tokens_of(piece, arena);
    struct quantity q = quantity_at(&t, 0);
    if (q.fault == QUANTITY_NONE || (q.fault == QUANTITY_FINE && q.tokens < t.count))
      return true; /* "1 can sardines": whoever knows foods reads it */
    if (q.fault == QUANTITY_FINE) {
      diag_say(d, DIAG_ERROR, DIAG_EMPTY, piece, "%.*s of what? write it as in '%.*s g Weeknight bowl'",
               SPAN_ARG(quoted(piece)), SPAN_ARG(quoted(piece)));
    } else {
      quantity_complain(&t, 0, q, d);
    }
    return false;
  }
  out->food = trim_blanks(span_cut(piece, used, piece.n));
  struct span of = out->food;
  if (span_is_fold(journal_word(&of), "of") && of.n > 0) out->food = of;
  if (out->food.n > 0) return true;
  diag_say(d, DIAG_ERROR, DIAG_EMPTY, piece, "%.*s of what? write the recipe's name or the food after it",
           SPAN_ARG(quoted(piece)));
  return false;
}

bool journal_items_read(struct span said, struct diags *d, const struct journal_item **out, size_t *count,
                        struct arena *arena) {
  struct journal_item *item = NULL;
  size_t cap = 0;
  bool fine = true;
  *out = NULL;
  *count = 0;
  if (span_is_fold(said, "nothing")) return true;
  for (size_t from = 0; from <= said.n;) {
    const char *end = from < said.n ? memchr(said.p + from, ';', said.n - from) : NULL;
    size_t to = end ? (size_t)(end - said.p) : said.n;
    struct span piece = trim_blanks(span_cut(said, from, to));
    struct journal_item one;
    if (piece.n > 0 && read_item(piece, d, &one, arena)) {
      ARENA_PUSH(arena, item, *count, cap, one);
    } else if (piece.n > 0) {
      fine = false;
    }
    from = to + 1;
  }
  *out = item;
  if (!fine || *count > 0) return fine;
  diag_say(d, DIAG_ERROR, DIAG_EMPTY, said, "what? write it as in '430 g Weeknight bowl'");
  return false;
}

static bool read_ate(struct journal_reader *r, struct journal_entry *e) {
  if (e->said.n > 0) return journal_items_read(e->said, r->d, &e->item, &e->item_count, r->arena);
  diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, e->whole,
           "what? write it as in 'ate 430 g Weeknight bowl', 'ate nothing' or 'ate unknown'");
  return false;
}

/* ---- all of it ---- */

/* As without_comment; and a '#' that follows a semicolon begins a remark, for a blank may stand between them. */
static struct span without_remark(struct span line) {
  struct span facts = without_comment(line);
  for (size_t i = 1; i < facts.n; i++)
    if (facts.p[i] == '#' && facts.p[i - 1] == ';') return span_cut(facts, 0, i);
  return facts;
}

/* The words up to the fact's are the animal's name: "Old Bess weighs 22 kg". */
static bool find_fact(struct journal_reader *r, struct span rest, struct journal_entry *e, struct span *name) {
  struct span words = rest, first = {NULL, 0};
  for (int i = 0; rest.n > 0; i++) {
    struct span before = rest, word = journal_word(&rest);
    size_t gone = (size_t)(before.p - words.p);
    if (i == 0) {
      first = word;
      continue;
    }
    if (IS_ANY(without_colon(word), CORRECTIONS)) {
      e->correction = true;
      word = journal_word(&rest);
    }
    if (fact_by_word(word, &e->fact)) {
      *name = trim_blanks(span_cut(words, 0, gone));
      e->said = rest;
      return true;
    }
    if (e->correction) {
      diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, word.n > 0 ? word : before,
               "a correction says the fact again, as in 'correction: weighs 18.4 kg'");
      return false;
    }
  }
  static const char *const FACTS[] = {"weighs", "ate", "left", "note"};
  struct span behind = words;
  journal_word(&behind);
  struct span second = behind.n > 0 ? journal_word(&behind) : first;
  const char *near = second.n > 0 ? nearest_word(second, FACTS, COUNT_OF(FACTS)) : NULL;
  if (near && second.p != first.p) {
    diag_say(r->d, DIAG_ERROR, DIAG_MISSPELT, second, "'%.*s' is not understood; did you mean '%s'?",
             SPAN_ARG(quoted(second)), near);
    misspelt_fix(r->d, second, near);
  } else {
    diag_say(r->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, words.n > 0 ? words : e->whole,
             "what happened? after the day come the animal and one of weighs, ate, left or note, as in 'Juniper ate 430 g "
             "Weeknight bowl'");
  }
  return false;
}

bool journal_begins_with_name(struct span s, const char *name) {
  enum { CAPITAL = 0x20 };
  if (s.n == 0 || ((s.p[0] ^ name[0]) & ~CAPITAL)) return false; /* of most lines this is all that is looked at */
  size_t n = strlen(name);
  if (s.n <= n || s.p[n] != ' ' || n == 0 || ((s.p[n - 1] ^ name[n - 1]) & ~CAPITAL)) return false;
  return span_eq_fold(span_cut(s, 0, n), span_of(name));
}

bool journal_of_others(const struct journal_known *known, struct span line) {
  enum { DAY = 10 };
  if (!known || !known->only || line.n <= DAY || line.p[4] != '-' || line.p[7] != '-' || line.p[DAY] != ' ') return false;
  struct span rest = span_cut(line, DAY + 1, line.n);
  if (rest.n == 0 || rest.p[0] <= ' ') rest = trim_blanks(rest);
  if (journal_begins_with_name(rest, known->only)) return false; /* first: "Old Bess" is not "Old" */
  for (size_t i = 0; i < known->other_count; i++)
    if (journal_begins_with_name(rest, known->other[i])) return true;
  return false;
}

bool journal_line_read(struct journal_reader *r, struct journal_entry *e) {
  struct span facts = trim_blanks(without_remark(e->whole)), rest = facts, name = {NULL, 0};
  e->remark = trim_blanks(span_cut(e->whole, facts.n, e->whole.n));
  struct span word = without_colon(journal_word(&rest));
  struct date date;
  bool dated = date_read(word, &date);
  if (!dated) journal_complain_of_day(r, facts, word);
  bool found = dated && find_fact(r, rest, e, &name);
  if (!found) return false;
  e->day = date_days(date);
  e->animal = kept_name(r, name);
  if (e->animal < 0) complain_of_animal(r, name);
  bool fine = e->fact == JOURNAL_WEIGHS ? read_weight(r, e)
              : e->fact == JOURNAL_ATE  ? read_ate(r, e)
              : e->fact == JOURNAL_LEFT ? read_left(r, e)
                                        : true;
  return fine && e->animal >= 0;
}
