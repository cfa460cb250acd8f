#include "plan/plan_text.h"

#include "recipe/heading.h"
#include "text/scan.h"

enum { LINE_MOST = 4096, KEY_MOST = 80 };

struct plan_reader {
  struct diags *d;
  struct arena *arena;
  struct plan *out;
  struct plan_part *part;
  unsigned weeks; /* bit 0 the first: those that lines belong to; 0: all of them */
  int stated;     /* "Weeks: 4" */
  int longest;    /* the last week that is named */
  struct plan_day every[WEEK_DAYS];
  bool any_day;
};

/* "key: value" with a key of any characters; false without a colon. */
static bool split(struct span line, struct span *key, struct span *value) {
  const char *colon = line.n > 0 ? memchr(line.p, ':', line.n) : NULL;
  if (!colon || (size_t)(colon - line.p) > KEY_MOST) return false;
  *key = trim_blanks(span_cut(line, 0, (size_t)(colon - line.p)));
  *value = trim_blanks(span_cut(line, (size_t)(colon - line.p) + 1, line.n));
  return key->n > 0;
}

bool plan_is(struct span text) {
  struct lines lines = lines_of(text);
  struct span line, key, value;
  while (lines_next(&lines, &line)) {
    line = trim_blanks(without_comment(line));
    if (line.n == 0) continue;
    return split(line, &key, &value) && span_is_fold(key, "plan");
  }
  return false;
}

/* ---- weeks and days ---- */

/* "Week 3", "Weeks 2-4", "Week 1, 3"; 0 when it is none, all bits when it is none that there is. */
static unsigned weeks_named(struct span key, struct arena *arena, bool *bad) {
  struct tokens t = tokens_of(key, arena);
  unsigned weeks = 0;
  int before = 0;
  bool range = false;
  *bad = false;
  if (t.count < 2 || t.item[0].kind != TOKEN_WORD || !(span_is(t.item[0].word, "week") || span_is(t.item[0].word, "weeks")))
    return 0;
  for (size_t i = 1; i < t.count; i++) {
    const struct token *k = &t.item[i];
    if (k->kind == TOKEN_NUMBER) {
      int week = k->value >= 1 && k->value <= PLAN_WEEKS_MOST ? (int)k->value : 0;
      *bad = *bad || week == 0 || (double)week != k->value || (range && week < before);
      for (int w = range ? before : week; w > 0 && w <= week; w++) weeks |= 1u << (w - 1);
      before = week;
      range = false;
    } else {
      range = (k->kind == TOKEN_MARK && k->mark == '-') || (k->kind == TOKEN_WORD && span_is(k->word, "to"));
      bool list = (k->kind == TOKEN_MARK && (k->mark == ',' || k->mark == '&')) ||
                  (k->kind == TOKEN_WORD && span_is(k->word, "and"));
      *bad = *bad || !(range || list);
    }
  }
  return weeks;
}

static int last_of(unsigned weeks) {
  int last = 0;
  for (int w = 0; w < PLAN_WEEKS_MOST; w++)
    if (weeks >> w & 1u) last = w + 1;
  return last;
}

/* Bit 0 Monday; 0 when these are no days. */
static unsigned days_named(struct span key, struct arena *arena) {
  enum { ALL = (1 << WEEK_DAYS) - 1, EVERY_DAY = 28 };
  struct heading h = heading_read(key, arena);
  if (h.kind != HEADING_WHEN || !h.alone || h.when.refuse) return 0;
  if (h.when.days > 0) return h.when.days;
  return h.when.times_per_28 == EVERY_DAY && h.when.feedings == 1 ? ALL : 0;
}

static void put_day(struct plan_reader *r, struct plan_day *at, const struct plan_day *day, struct span key) {
  if (at->line > 0 && at->any != day->any) {
    if (at->any) *at = *day;
    return;
  }
  if (at->line > 0) {
    diag_say(r->d, DIAG_ERROR, DIAG_TWICE, key,
             "line %d already has one of these days; write all of that day on one line, with ';'", at->line);
    return;
  }
  *at = *day;
}

static void read_days(struct plan_reader *r, unsigned days, struct span key, struct span value, int line) {
  struct plan_day day = {.line = line, .any = days == (1u << WEEK_DAYS) - 1, .said = value};
  if (value.n == 0) {
    diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, key, "what is fed? write it as in '%.*s: Weeknight bowl', or '%.*s: nothing'",
             SPAN_ARG(quoted(key)), SPAN_ARG(quoted(key)));
    return;
  }
  if (!journal_items_read(value, r->d, &day.item, &day.item_count, r->arena)) return;
  r->any_day = true;
  size_t errors = r->d->errors;
  for (int k = 0; k < WEEK_DAYS; k++) {
    if (!(days >> k & 1u) || r->d->errors > errors) continue;
    if (r->weeks == 0) put_day(r, &r->every[k], &day, key);
    for (int w = 0; w < PLAN_WEEKS_MOST; w++)
      if (r->weeks >> w & 1u) put_day(r, &r->part->day[w][k], &day, key);
  }
}

/* ---- parts ---- */

static void end_part(struct plan_reader *r, struct span at) {
  static const char *const DAY[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
  struct plan_part *p = r->part;
  p->weeks = r->stated > r->longest ? r->stated : r->longest;
  if (p->weeks == 0) p->weeks = 1;
  if (r->stated > 0 && r->longest > r->stated)
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, at, "there is a week %d, though the plan has %d weeks", r->longest, r->stated);
  for (int w = 0; w < p->weeks; w++)
    for (int k = 0; k < WEEK_DAYS; k++)
      if (p->day[w][k].line == 0) p->day[w][k] = r->every[k];
  for (int w = 0; w < p->weeks; w++)
    for (int k = 0; k < WEEK_DAYS; k++) {
      if (p->day[w][k].line > 0) continue;
      struct buf week;
      buf_init(&week, r->arena, 64);
      if (p->weeks > 1) buf_addf(&week, " of week %d", w + 1);
      diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, at,
               "what is fed on %s%s? add a line, as in '%.3s: Weeknight bowl' or '%.3s: nothing'", DAY[k], buf_text(&week),
               DAY[k], DAY[k]);
      return;
    }
}

static void begin_part(struct plan_reader *r) {
  r->part = &r->out->part[r->out->part_count++];
  *r->part = (struct plan_part){.for_whom = ""};
  memset(r->every, 0, sizeof r->every);
  r->weeks = 0;
  r->longest = 0;
  r->any_day = false;
}

static void read_for(struct plan_reader *r, struct span key, struct span value) {
  if (value.n == 0) {
    diag_say(r->d, DIAG_ERROR, DIAG_EMPTY, key, "for whom? write the animal's name after it, as in 'For: Juniper'");
    return;
  }
  if (r->any_day || r->part->for_at.n > 0) {
    if (!r->any_day) {
      diag_say(r->d, DIAG_ERROR, DIAG_TWICE, value, "two 'For' lines and no day between them; each animal has its own days");
      return;
    }
    if (r->out->part_count == PLAN_ANIMALS_MOST) {
      diag_say(r->d, DIAG_ERROR, DIAG_LIMIT, value, "a plan has at most %d animals", PLAN_ANIMALS_MOST);
      return;
    }
    end_part(r, r->part->for_at.n > 0 ? r->part->for_at : key);
    begin_part(r);
  }
  r->part->for_at = value;
  r->part->for_whom = arena_text(r->arena, value);
}

static void read_weeks(struct plan_reader *r, struct span value) {
  struct tokens t = tokens_of(value, r->arena);
  struct quantity q = quantity_at(&t, 0);
  bool whole = q.fault == QUANTITY_FINE && q.low == q.high && q.low == (double)(int)q.low;
  bool fine = whole && q.low >= 1 && q.low <= PLAN_WEEKS_MOST && q.tokens == t.count;
  if (!fine) {
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, value.n > 0 ? value : r->d->text,
             "a plan has one to eight weeks, as in 'Weeks: 4'");
    return;
  }
  r->stated = (int)q.low;
}

static void read_line(struct plan_reader *r, struct span line, int number) {
  struct span key, value;
  bool bad;
  if (!split(line, &key, &value)) {
    diag_say(r->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, line,
             "'%.*s' is not understood; a line says a day and what is fed, as in 'Mon-Thu: Weeknight bowl'",
             SPAN_ARG(quoted(line)));
    return;
  }
  unsigned weeks = weeks_named(key, r->arena, &bad), days = weeks == 0 && !bad ? days_named(key, r->arena) : 0;
  if (bad) {
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, key, "a plan has one to eight weeks; write 'Week 3:' or 'Week 2-4:'");
  } else if (weeks > 0) {
    r->weeks = weeks;
    if (last_of(weeks) > r->longest) r->longest = last_of(weeks);
    if (value.n > 0) read_line(r, value, number); /* "Week 3: Sat: nothing" */
  } else if (days > 0) {
    read_days(r, days, key, value, number);
  } else if (span_is_fold(key, "plan")) {
    r->out->name = arena_text(r->arena, value);
  } else if (span_is_fold(key, "for")) {
    read_for(r, key, value);
  } else if (span_is_fold(key, "weeks")) {
    read_weeks(r, value);
  } else if (!span_is_fold(key, "note")) {
    static const char *const KEYS[] = {"Plan", "For", "Weeks", "Note", "Week"};
    const char *near = nearest_word(key, KEYS, COUNT_OF(KEYS));
    diag_say(r->d, DIAG_ERROR, DIAG_UNKNOWN_WORD, key,
             "'%.*s' is neither days nor one of Plan, For, Weeks, Week 1 and Note%s%s%s", SPAN_ARG(quoted(key)),
             near ? "; did you mean '" : "; days are written as in 'Mon-Thu' or 'Sat, Sun'", near ? near : "",
             near ? "'?" : "");
    if (near) misspelt_fix(r->d, key, near);
  }
}

bool plan_read(struct span text, struct diags *d, struct plan *out, struct arena *arena) {
  struct plan_reader r = {.d = d, .arena = arena, .out = out};
  size_t errors = d->errors;
  *out = (struct plan){.name = ""};
  begin_part(&r);
  if (!text_fit(text, PLAN_MOST_BYTES, LINE_MOST, d)) return false;
  struct lines lines = lines_of(text);
  struct span line, last = {NULL, 0};
  while (lines_next(&lines, &line) && d->errors < DIAG_MOST) {
    line = trim_blanks(without_comment(line));
    if (line.n == 0) continue;
    read_line(&r, line, lines.number);
    last = line;
  }
  if (d->errors == errors) end_part(&r, r.part->for_at.n > 0 ? r.part->for_at : last);
  return d->errors == errors;
}
