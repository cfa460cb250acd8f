/* Headings of recipes that take turns, over the whole text, written as weeks ("Week 1:") that take turns or as the days that
 * the post gives to them: "Recipe A:", "Odd days:", "Fish week:", a numbered list of recipes "on rotation". */
#include "post/page/post_page.h"

enum { LABELS_MOST = 4 };

enum family {
  LABEL_NUMBERED, /* "Recipe A", "Bowl two" */
  LABEL_ODD,      /* "Odd days", "Even days" */
  LABEL_WEEK,     /* "Fish week", "Meat week" */
  LABEL_LIST,     /* "1)", "2)" below "three recipes on rotation" */
  LABEL_FAMILIES
};

struct labels {
  enum family family;
  int most; /* how many take turns */
  struct span word[LABELS_MOST + 1];
  unsigned days[LABELS_MOST + 1]; /* that the post gives to them, bits from Monday; 0 it tells none */
};

/* "A", "2", "two", "#1"; 0. */
static int label_number(const struct tokens *t, size_t at, size_t *used) {
  *used = 1;
  if (is_mark(t, at, '#')) at++, *used = 2;
  if (is_number(t, at)) return (int)(t->item[at].value >= 1 && t->item[at].value <= LABELS_MOST ? t->item[at].value : 0);
  if (!is_word(t, at)) return 0;
  struct span w = t->item[at].word;
  if (w.n == 1 && w.p[0] >= 'a' && w.p[0] < 'a' + LABELS_MOST) return w.p[0] - 'a' + 1;
  struct quantity q = quantity_at(t, at);
  bool word = w.n > 2 && q.fault == QUANTITY_FINE && q.tokens == 1 && q.low == q.high && q.low <= LABELS_MOST;
  return word && q.low == (int)q.low ? (int)q.low : 0;
}

/* Behind a label: "(per day)", ":", "-": how many tokens; SIZE_MAX where something else follows. */
static size_t behind_label(const struct tokens *t, size_t at) {
  size_t from = at;
  if (is_mark(t, at, '(')) {
    while (at < t->count && !is_mark(t, at, ')')) {
      if (is_word(t, at) && !says(t, at, "per day a each every daily all amounts in grams g for one turn")) return SIZE_MAX;
      if (is_number(t, at)) return SIZE_MAX;
      at++;
    }
    at++;
  } else if (says(t, at, "per a each every daily")) {
    size_t often = frequency_at(t, at).tokens;
    if (often == 0) return SIZE_MAX;
    at += often;
  }
  while (is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, '.') || is_mark(t, at, '=')) at++;
  return at > from || at >= t->count ? at - from : SIZE_MAX;
}

static int word_number(struct labels *l, struct span word) {
  for (int k = 1; k <= l->most; k++)
    if (span_eq_fold(l->word[k], word)) return k;
  if (l->most == LABELS_MOST) return 0;
  l->word[++l->most] = word;
  return l->most;
}

/* A label where the line or a sentence of it begins: which one, and its tokens; 0. */
static int label_at(const struct tokens *t, size_t at, struct labels *l, size_t *used) {
  bool line = at == 0 || (at == 1 && (is_mark(t, 0, '*') || is_mark(t, 0, '#') || is_mark(t, 0, '-')));
  bool begins = line || is_mark(t, at - 1, '.') || is_mark(t, at - 1, ';') || is_mark(t, at - 1, '!');
  size_t name = 0;
  int k = 0;
  if (!begins) return 0;
  if (l->family == LABEL_NUMBERED && says_a(t, at, CLASS_TURN_LABEL)) {
    k = label_number(t, at + 1, &name);
    name++;
  } else if (l->family == LABEL_ODD && says(t, at, "odd even") && says(t, at + 1, "days dates weeks numbered")) {
    k = says(t, at, "odd") ? 1 : 2;
    name = says(t, at + 1, "numbered") ? 3 : 2;
  } else if (l->family == LABEL_WEEK && is_word(t, at) && says(t, at + 1, "week weeks") &&
             !says_a(t, at, CLASS_NO_TURN_LABEL) && quantity_at(t, at).fault != QUANTITY_FINE &&
             !says(t, at, "every each one first second third per") && is_mark(t, at + 2, ':')) {
    k = word_number(l, t->item[at].word);
    name = 2;
  } else if (l->family == LABEL_LIST && line && is_number(t, at) && (is_mark(t, at + 1, ')') || is_mark(t, at + 1, '.')) &&
             t->item[at + 1].glued) {
    k = t->item[at].value >= 1 && t->item[at].value <= LABELS_MOST ? (int)t->item[at].value : 0;
    *used = 2;
    return k;
  }
  size_t behind = k > 0 ? behind_label(t, at + name) : SIZE_MAX;
  if (behind == SIZE_MAX) return 0;
  *used = name + behind;
  return k;
}

/* How many labels of the family there are, each of them once and with the same word; 0 when one is missing or stands there
 * twice. */
static int labels_of(struct post_reader *r, struct span text, struct labels *l) {
  int seen[LABELS_MOST + 1] = {0}, most = 0;
  struct span word = {"", 0}, line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++) {
      size_t used;
      int k = label_at(&t, i, l, &used);
      if (k == 0) continue;
      if (l->family == LABEL_NUMBERED && word.n > 0 && !span_eq_fold(word, t.item[i].at)) return 0;
      word = t.item[i].at;
      seen[k]++;
      if (k > most) most = k;
    }
  }
  for (int k = 1; k <= most; k++)
    if (seen[k] != 1) return 0;
  return l->most = most;
}

/* "Recipe B", "B", where it is no heading; 0. */
static int named_label(const struct tokens *t, size_t at, size_t *used) {
  size_t number = at + (says_a(t, at, CLASS_TURN_LABEL) ? 1 : 0);
  int k = number > at ? label_number(t, number, used) : 0;
  *used += 1;
  return k;
}

/* "Mondays and Fridays are recipe A, the rest recipe B": the days of each; how many tokens say so from 'at' on, 0 none. */
static size_t days_given(const struct tokens *t, size_t at, struct labels *l) {
  unsigned given = 0, day;
  size_t from = at, end = at;
  struct labels own = *l;
  for (int k = 0; k < l->most; k++) {
    while (is_mark(t, at, ',') || is_mark(t, at, ';') || is_mark(t, at, '-') ||
           says(t, at, "and on he she gets has i feed it's is"))
      at++;
    size_t used = post_days_named(t, at, &day), label;
    bool rest = used == 0;
    if (rest) {
      while (says(t, at + used, "the all other remaining on")) used++;
      if (says(t, at + used, "rest days") && used > 0)
        used++;
      else
        return 0;
      while (says(t, at + used, "of the week days")) used++;
      day = ~given & 0x7F;
    }
    at += used;
    while (is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, '=') ||
           says(t, at, "are is get gets he she it's for has on"))
      at++;
    int which = named_label(t, at, &label);
    if (which == 0 || which > l->most || own.days[which] != 0 || day == 0 || (day & given) != 0) return 0;
    own.days[which] = day;
    given |= day;
    end = at += label;
  }
  if (!(end >= t->count || is_mark(t, end, '.'))) return 0;
  *l = own;
  return end - from;
}

static bool says_turns(struct post_reader *r, struct span text, enum family family) {
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    bool recipes = family != LABEL_LIST;
    for (size_t i = 0; i < t.count; i++)
      recipes = recipes || says(&t, i, "recipes menus bowls mixes dinners stews pots batches");
    if (recipes && holds_a(&t, 0, t.count, CLASS_TAKING_TURNS_ABOUT)) return true;
  }
  return false;
}

static struct span write_labels(struct post_reader *r, struct span text, struct labels *l, struct arena *arena) {
  struct buf b;
  struct span line;
  buf_init(&b, arena, 4 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    const char *from = line.p;
    for (size_t i = 0; i < t.count; i++) {
      struct labels again = *l;
      size_t used, told = 0;
      memset(again.days, 0, sizeof again.days);
      int k = label_at(&t, i, l, &used);
      bool begins = i == 0 || is_mark(&t, i - 1, '.');
      if (k == 0 && l->days[1] != 0 && begins) told = days_given(&t, i, &again);
      if (k == 0 && told == 0) continue;
      buf_add(&b, (struct span){from, (size_t)(t.item[i].at.p - from)});
      if (told > 0)
        used = told;
      else if (l->days[k] != 0)
        frequency_print_days(&b, l->days[k]), buf_adds(&b, ":");
      else
        buf_addf(&b, "Week %d:", k);
      i += used - 1;
      from = t.item[i].at.p + t.item[i].at.n;
    }
    buf_add(&b, (struct span){from, (size_t)(line.p + line.n - from)});
    buf_addc(&b, '\n');
  }
  return buf_span(&b);
}

struct span post_labels_written(struct post_reader *r, struct span text, struct arena *arena) {
  bool weeks;
  if (post_day_rotation(text, &weeks) > 0) return text;
  for (int family = 0; family < LABEL_FAMILIES; family++) {
    struct labels l = {.family = (enum family)family};
    if (labels_of(r, text, &l) < 2) continue;
    struct span line;
    for (struct lines lines = lines_of(text); family == LABEL_NUMBERED && lines_next(&lines, &line);) {
      struct tokens t = post_tokens(r, line);
      for (size_t i = 0; i < t.count && l.days[1] == 0; i++)
        if (i == 0 || is_mark(&t, i - 1, '.')) days_given(&t, i, &l);
    }
    bool turns = family == LABEL_ODD || family == LABEL_WEEK || l.days[1] != 0 || says_turns(r, text, l.family);
    if (turns) return write_labels(r, text, &l, arena);
  }
  return text;
}
