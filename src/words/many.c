#include "words/many.h"

static uint8_t at_most_255(size_t n) { return n < 255 ? (uint8_t)n : 255; }

enum { NAMED_MOST = 3 };

static const char *group_words(const struct group *g, const char *word, struct arena *a) {
  const char *item[NUT_COUNT];
  for (int i = 0; i < g->count; i++) item[i] = words_nutrient(a, (enum nutrient)(g->item[i]->id));
  return words_text(a, "%s %s", word, words_list(a, item, (size_t)g->count, NAMED_MOST));
}

/* The bowl in one row: what is dangerous, too little, too much; what is unproven only where nothing is clear. */
static const char *in_one_row(const struct check_result *r, struct arena *a) {
  struct group group[GROUP_COUNT];
  const char *item[4];
  size_t n = 0;
  words_groups(r, group);
  if (group[GROUP_OVER].count > 0) item[n++] = group_words(&group[GROUP_OVER], "too much", a);
  if (group[GROUP_SHORT].count > 0) item[n++] = group_words(&group[GROUP_SHORT], "short of", a);
  if (n == 0 && group[GROUP_UNPROVEN].count > 0) item[n++] = group_words(&group[GROUP_UNPROVEN], "unproven:", a);
  if (n == 0 && group[GROUP_THIN].count > 0) item[n++] = group_words(&group[GROUP_THIN], "thin in", a);
  if (n == 0 && group[GROUP_NEAR_LIMIT].count > 0)
    item[n++] = group_words(&group[GROUP_NEAR_LIMIT], "close to the limit:", a);
  if (n == 0) item[n++] = "every need is met";
  const char *about[8];
  size_t dangers = 0;
  for (size_t i = 0; i < r->finding_count && dangers < COUNT_OF(about); i++)
    if (r->finding[i].danger && r->finding[i].about) about[dangers++] = r->finding[i].about;
  return words_text(a, "%s%s%s%s%s", dangers > 0 ? "DANGER: " : "", dangers > 0 ? words_list(a, about, dangers, 3) : "",
                    dangers > 0 ? "; " : "", item[0], n > 1 ? words_text(a, "; %s", item[1]) : "");
}

void tally_of(const struct check_result *r, size_t left_out, struct tally *out, struct arena *arena) {
  *out = (struct tally){.read = 1, .left_out = at_most_255(left_out)};
  size_t dangers = 0;
  for (size_t i = 0; i < r->finding_count; i++) dangers += r->finding[i].danger;
  out->dangers = at_most_255(dangers);
  out->refused = r->animal && r->refusal != REFUSE_NOT;
  out->judged = r->animal && !out->refused;
  const char *lead = out->judged ? in_one_row(r, arena) : "";
  size_t n = strlen(lead);
  if (n >= TALLY_LEAD_BYTES) /* a whole sentence, or none of it cut within a character */
    for (n = TALLY_LEAD_BYTES - 1; n > 0 && lead[n] != ' ';) n--;
  memcpy(out->lead, lead, n);
  for (int i = 0; i < NUT_COUNT && out->judged; i++) out->group[i] = (uint8_t)words_group_of(&r->nutrient[i]);
}

/* Short of more bowls first; of equal ones, unproven in more; then in the order of the tables. */
static bool before(const struct many *m, enum nutrient a, enum nutrient b) {
  const size_t *x = m->by[a], *y = m->by[b];
  if (x[GROUP_SHORT] != y[GROUP_SHORT]) return x[GROUP_SHORT] > y[GROUP_SHORT];
  if (x[GROUP_THIN] != y[GROUP_THIN]) return x[GROUP_THIN] > y[GROUP_THIN];
  if (x[GROUP_UNPROVEN] != y[GROUP_UNPROVEN]) return x[GROUP_UNPROVEN] > y[GROUP_UNPROVEN];
  return x[GROUP_OVER] > y[GROUP_OVER];
}

static void put_in_order(struct many *m) {
  m->order_count = 0;
  for (int n = 0; n < NUT_COUNT; n++) {
    if (m->by[n][GROUP_NO_FIGURE] >= m->judged) continue;
    size_t at = m->order_count++;
    for (; at > 0 && before(m, (enum nutrient)n, m->order[at - 1]); at--) m->order[at] = m->order[at - 1];
    m->order[at] = (enum nutrient)n;
  }
}

void many_count(struct many *m) {
  m->reached = m->judged = m->refused = m->unread = m->uncounted = m->with_danger = m->all_met = 0;
  memset(m->by, 0, sizeof m->by);
  for (size_t i = 0; i < m->count; i++) {
    const struct tally *t = &m->file[i].tally;
    bool met = t->judged;
    m->reached += m->file[i].code >= 0;
    m->unread += m->file[i].code >= 0 && !t->read;
    m->refused += t->refused;
    m->judged += t->judged;
    m->uncounted += t->left_out > 0;
    m->with_danger += t->dangers > 0;
    for (int n = 0; n < NUT_COUNT && t->judged; n++) {
      m->by[n][t->group[n] % GROUP_COUNT]++;
      met = met && (t->group[n] == GROUP_MET || t->group[n] == GROUP_NO_FIGURE);
    }
    m->all_met += met;
  }
  put_in_order(m);
}

static const char *texts(struct arena *a, size_t n) { return words_text(a, "%zu text%s", n, n == 1 ? "" : "s"); }

const char *many_lead(const struct many *m, struct arena *arena) {
  const char *item[8];
  size_t n = 0;
  if (m->judged > 0) item[n++] = words_text(arena, "%zu judged", m->judged);
  if (m->refused > 0) item[n++] = words_text(arena, "%zu not judged for the animal's sake", m->refused);
  size_t plain = m->reached - m->unread - m->refused - m->judged;
  if (plain > 0) item[n++] = words_text(arena, "%zu without an animal, so that nothing could be judged", plain);
  if (m->unread > 0) item[n++] = words_text(arena, "%zu not understood", m->unread);
  if (m->reached < m->count) item[n++] = words_text(arena, "%zu not reached", m->count - m->reached);
  const char *danger = m->with_danger == 0 ? "No danger is named in any of them."
                       : m->with_danger == 1
                           ? "One of them names a danger: see to it first."
                           : words_text(arena, "%zu of them name a danger: see to those first.", m->with_danger);
  return words_text(arena, "%s: %s. %s", texts(arena, m->count), words_list(arena, item, n, n), danger);
}
