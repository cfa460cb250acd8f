/* Many findings of one kind become one: an owner reads ten sentences, not thirty. The gravest stay sentences of their own;
 * the rest is told in one, which names each with its share and keeps every id in "because". */
#include <math.h>

#include "base/table.h"
#include "review/findings_internal.h"
#include "words/verdicts.h"

/* A row a fold, in the order in which they are made. 'id': the row that tells the rest; its threshold says how many keep a
 * sentence of their own, its threshold2 from which score on one always does. */
static const struct {
  enum fold fold;
  const char *id;
} RULE[] = {{FOLD_AMINO, "several-amino"},
            {FOLD_SHORT, "several-short"},
            {FOLD_THIN, "several-thin"},
            {FOLD_UNPROVEN, "several-unproven"}};
ROW_FOR_EACH(RULE, FOLD_COUNT - 1); /* every fold but FOLD_ALONE */

/* Of many that nobody can judge the gravest are named; the table has them all. */
enum { UNPROVEN_NAMED = 4 };

/* Larger scores first; equal ones stay in the order of the nutrients. */
static size_t members(const struct review *r, enum fold fold, double never, size_t *index) {
  size_t n = 0;
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].fold != fold || r->item[i].score >= never) continue;
    size_t k = n++;
    for (; k > 0 && r->item[index[k - 1]].score < r->item[i].score; k--) index[k] = index[k - 1];
    index[k] = i;
  }
  return n;
}

static const double JUST_UNDER = 0.99; /* of the allowance: what would read as ">99 %" */

static const char *member_words(const struct review *r, enum nutrient k) {
  const struct nutrient_result *n = &r->result->nutrient[k];
  struct buf b;
  buf_init(&b, r->arena, 96);
  buf_adds(&b, words_nutrient(r->arena, k));
  if (n->known == KNOWN_NONE) {
    bool bounded = n->verdict == VERDICT_SHORT || isfinite(n->possible);
    const char *most = words_share(r->arena, n->window_most / n->allowance);
    buf_adds(&b, bounded ? words_text(r->arena, " (not known, up to %s)", most) : " (not known)");
  } else if (n->verdict == VERDICT_THIN && n->ratio >= 1) {
    buf_addf(&b, " (chance %s)", words_share(r->arena, n->chance_met));
  } else if (n->verdict == VERDICT_UNPROVEN && isfinite(n->possible)) {
    buf_addf(&b, " (%s to %s)", words_share(r->arena, n->ratio), words_share(r->arena, n->window_most / n->allowance));
  } else if (n->verdict == VERDICT_UNPROVEN) {
    buf_addf(&b, " (%s)", words_share(r->arena, n->ratio)); /* and anything more */
  } else if (n->ratio >= JUST_UNDER && n->ratio < 1) {
    buf_adds(&b, " (just under)");
  } else {
    buf_addf(&b, " (%s)", words_share(r->arena, n->ratio));
  }
  return buf_text(&b);
}

/* Lines that lack a value for any of these. */
static const char *lines_without_value(const struct review *r, const enum nutrient *n, size_t count) {
  size_t lines = r->result->ration->line_count, found = 0;
  int *line = ARENA_NEW(r->arena, int, lines);
  for (size_t l = 0; l < lines; l++) {
    bool lacks = false;
    for (size_t i = 0; i < count && !lacks; i++) lacks = nutrient_lacks_line(&r->result->nutrient[n[i]], (int)l);
    if (lacks) line[found++] = (int)l;
  }
  return unknown_list(r, line, found, 3);
}

/* The food of which a figure would settle most of these: "A label or an analysis of kelp powder would settle 9 of them." */
static const char *settling_words(const struct review *r, const enum nutrient *n, size_t count) {
  size_t lines = r->result->ration->line_count, most = 0;
  int best = -1;
  bool alone = true;
  for (size_t l = 0; l < lines; l++) {
    size_t lacks = 0, others = 0;
    for (size_t i = 0; i < count; i++) {
      const struct nutrient_result *x = &r->result->nutrient[n[i]];
      bool here = nutrient_lacks_line(x, (int)l);
      lacks += here;
      others += here && who_supplies(x)->missing_count > 1;
    }
    if (lacks <= most) continue;
    most = lacks;
    best = (int)l;
    alone = others == 0;
  }
  if (best < 0) return "";
  return words_text(r->arena, "A label or an analysis of %s would %s %s.", line_words(r, best),
                    alone ? "settle" : "help with",
                    most == count ? (count == 2 ? "both" : "all of them") : words_text(r->arena, "%zu of them", most));
}

/* What already has a sentence is mentioned nowhere else: the members are taken out of the review. */
static void take_out(struct review *r, const size_t *index, size_t count) {
  for (size_t i = 0; i < count; i++) r->item[index[i]].f.id = NULL;
  size_t kept = 0;
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].f.id) r->item[kept++] = r->item[i];
  r->count = kept;
}

static void fold_one(struct review *r, enum fold fold, const char *id) {
  double never = row_threshold2(r, id);
  size_t *index = ARENA_NEW(r->arena, size_t, r->count), n = members(r, fold, isnan(never) ? INFINITY : never, index);
  struct draft d;
  bool open = fold == FOLD_UNPROVEN && r->result->ration->uncounted_count > 0;
  if (n == 0 || !draft_begin_as(&d, r, id, open ? "several-unproven-uncounted" : id)) return;
  size_t alone = (size_t)(double)d.row->threshold;
  if (n < alone + 2) return; /* one more sentence is as short as a list of one */
  size_t told = n - alone;
  index += alone;
  const char **name = ARENA_NEW(r->arena, const char *, told);
  enum nutrient *nutrient = ARENA_NEW(r->arena, enum nutrient, told), *gap = ARENA_NEW(r->arena, enum nutrient, told);
  size_t gaps = 0; /* those of which one can say what is missing */
  for (size_t i = 0; i < told; i++) {
    const struct noted *m = &r->item[index[i]];
    nutrient[i] = m->nutrient;
    name[i] = member_words(r, m->nutrient);
    if (r->result->nutrient[m->nutrient].known != KNOWN_NONE) gap[gaps++] = m->nutrient;
    draft_of(&d, m->nutrient);
    draft_number_because(&d, m->f.id, r->result->nutrient[m->nutrient].ratio, "share");
  }
  bool unproven = fold == FOLD_UNPROVEN;
  draft_word(&d, "list", list_of_few(r, name, told, unproven ? UNPROVEN_NAMED : told));
  draft_word(&d, "uncounted", unknown_list(r, NULL, 0, 3));
  draft_word(&d, "ask", review_ask_first(r));
  draft_word(&d, "settle", unproven ? settling_words(r, nutrient, told) : "");
  draft_word(&d, "count", amount_words(r->arena, (double)told, ""));
  draft_word(&d, "foods", fold == FOLD_UNPROVEN ? lines_without_value(r, nutrient, told) : "");
  const char *fix = remedy_for_several(r, gap, gaps);
  draft_word(&d, "fix", fix);
  d.covers = fix[0] != '\0';
  d.severity = (int)(999 * (1 - r->item[index[0]].score / 10));
  draft_end(&d);
  take_out(r, index, told);
}

void findings_fold(struct review *r) {
  if (!review_judged(r)) return;
  for (size_t i = 0; i < COUNT_OF(RULE); i++) fold_one(r, RULE[i].fold, RULE[i].id);
}
