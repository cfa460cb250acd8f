/* What a verdict rests on: one food, estimates, or chance; and the one figure that would settle most of the doubt. */
#include <math.h>

#include "base/num.h"
#include "explain/doubt.h"
#include "review/findings_internal.h"

/* ---- one food carries it ----------------------------------------------------------------------------------------- */

/* Two lines of one food are one food. */
static bool same_food(const struct review *r, int a, int b) {
  return a == b || r->result->ration->line[a].shown_food == r->result->ration->line[b].shown_food;
}

/* What all lines with this line's food supply of something together. */
static struct supplier supplied_by(const struct review *r, const struct supplier *from, size_t count, int line) {
  struct supplier sum = {.line = line};
  for (size_t i = 0; i < count; i++) {
    if (!same_food(r, from[i].line, line)) continue;
    sum.amount += from[i].amount;
    sum.share += from[i].share;
  }
  return sum;
}

static bool rests_on(const struct review *r, const struct nutrient_result *n, int line, double share) {
  bool judged = n->verdict == VERDICT_MET || n->verdict == VERDICT_THIN;
  const struct supply_list *list = who_supplies(n);
  struct supplier food = supplied_by(r, list->from, list->from_count, line);
  return judged && n->allowance > 0 && food.share > share && n->amount - food.amount < n->allowance &&
         nutrient_info[n->id].group != NG_PROXIMATE && nutrient_info[n->id].group != NG_AMINO;
}

static bool food_came_before(const struct review *r, int line) {
  for (int i = 0; i < line; i++)
    if (same_food(r, i, line)) return true;
  return false;
}

/* "copper and vitamin A on 40 g lamb liver"; NULL when nothing rests on the line. */
static const char *resting_words(const struct review *r, int line, double share, struct draft *d) {
  const char *name[NUT_COUNT];
  size_t count = 0;
  for (int k = 0; k < NUT_COUNT; k++) {
    if (!rests_on(r, &r->result->nutrient[k], line, share)) continue;
    name[count++] = words_nutrient(r->arena, (enum nutrient)k);
    draft_of(d, (enum nutrient)k);
    draft_text_because(d, "nutrients", nutrient_info[k].key);
  }
  if (count == 0) return NULL;
  struct buf b;
  buf_init(&b, r->arena, 512);
  buf_addf(&b, "%s on %s", list_of_few(r, name, count, 5), line_words(r, line));
  return buf_text(&b);
}

/* A tablet is taken for the sake of one nutrient, and its label states how much of it there is: a second one would not make
 * the recipe sturdier. Seaweed states nothing. */
static bool is_stated(const struct review *r, int line) {
  const struct img_food *f = library_food(r->lib, r->result->ration->line[line].shown_food);
  return f && f->part == PART_SUPPLEMENT && !(f->flags & FOOD_KELP);
}

/* A main ingredient carries much by its mere size; what matters is the small line that nothing else could replace. Every
 * formula has such lines - a little liver for copper and vitamin A - so this is a fact about it, and no fault. */
static void rests_on_one_food(struct review *r) {
  struct draft d;
  if (!draft_begin(&d, r, "rests-on-one-food", NULL)) return;
  d.background = true;
  struct buf list;
  buf_init(&list, r->arena, 2048);
  size_t count = 0;
  for (size_t line = 0; line < r->result->ration->line_count; line++) {
    const struct img_food *food = food_of_line(r, line);
    const struct energy_result *e = &r->result->energy;
    if (food_came_before(r, (int)line) || is_stated(r, (int)line)) continue;
    if (supplied_by(r, e->from, e->from_count, (int)line).share > (double)d.row->threshold2) continue;
    const char *words = resting_words(r, (int)line, (double)d.row->threshold, &d);
    if (!words) continue;
    buf_addf(&list, "%s%s", count++ ? "; " : "", words);
    if (food->flags & FOOD_KELP) d.weight = FINDING_WATCH; /* sixteenfold more in one weed than in another */
    draft_number_because(&d, "line", r->result->ration->line[line].line, "");
  }
  if (count == 0) return;
  draft_word(&d, "list", buf_text(&list));
  draft_percent(&d, "threshold", (double)d.row->threshold);
  draft_end(&d);
}

static void rests_on_estimates(struct review *r) {
  struct draft d;
  if (!draft_begin(&d, r, "rests-on-estimates", NULL)) return;
  const char *name[NUT_COUNT];
  size_t count = 0;
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    if (n->verdict != VERDICT_MET || !(n->estimated_share > (double)d.row->threshold) || !(n->allowance > 0) ||
        nutrient_info[k].group == NG_AMINO)
      continue;
    name[count++] = words_nutrient(r->arena, (enum nutrient)k);
    draft_of(&d, (enum nutrient)k);
    draft_text_because(&d, "nutrients", nutrient_info[k].key);
  }
  if (count == 0) return;
  draft_word(&d, "names", list_of_few(r, name, count, count));
  draft_percent(&d, "threshold", (double)d.row->threshold);
  draft_end(&d);
}

/* ---- the figure that would settle most ---------------------------------------------------------------------------- */

struct open_question {
  const struct nutrient_result *n;
  struct doubt doubt;
  bool no_value; /* nobody has published it */
  double score;
};

/* 1 for an even chance, 0 for certainty. */
static double hangs(double chance) { return 4 * chance * (1 - chance); }

static struct open_question question_of(struct review *r, const struct nutrient_result *n) {
  struct open_question q = {.n = n, .doubt = {DOUBT_CONTENT, NO_INDEX, -1, 0}};
  const struct supply_list *list = who_supplies(n);
  if (n->verdict == VERDICT_UNPROVEN && list->missing_count > 0) {
    q.no_value = true;
    q.doubt.line = list->missing[0];
    q.doubt.share = 1.0 / (double)list->missing_count;
    q.score = gravity_of(r, n->id) * q.doubt.share;
    return q;
  }
  bool judged = n->verdict == VERDICT_THIN || n->verdict == VERDICT_MET || n->verdict == VERDICT_SHORT;
  if (!judged || !(n->allowance > 0) || !isfinite(n->chance_met)) return q;
  double chance = n->close_to_limit ? n->chance_kept : n->chance_met;
  q.doubt = doubt_largest(review_totals(r), n->id);
  q.score = gravity_of(r, n->id) * q.doubt.share * hangs(chance);
  return q;
}

static bool is_own(const struct review *r, int line) { return food_of_line(r, (size_t)line)->flags & FOOD_OWN; }

static const char *doubt_words(const struct review *r, const struct open_question *q) {
  const char *name = words_nutrient(r->arena, q->n->id), *food = line_words(r, q->doubt.line);
  struct buf b;
  buf_init(&b, r->arena, 512);
  if (q->no_value) {
    buf_addf(&b, "how much %s is in %s, %s", name, food,
             is_own(r, q->doubt.line) ? "whose label does not state it" : "for which nobody has published a value");
  } else if (q->doubt.kind == DOUBT_CONTENT) {
    buf_addf(&b, "how much %s is in %s", name, food);
  } else if (q->doubt.kind == DOUBT_KEPT) {
    buf_addf(&b, "how much %s is left in %s after cooking", name, food);
  } else {
    buf_addf(&b, "how much of %s, which supplies %s, is really eaten", food, name);
  }
  return buf_text(&b);
}

static const char *settling_words(const struct review *r, const struct open_question *q) {
  bool labelled = food_of_line(r, (size_t)q->doubt.line)->part == PART_SUPPLEMENT;
  if (q->no_value && is_own(r, q->doubt.line)) return "Ask the maker, and write the figure into the label.";
  if (labelled) return "The label of the product states it: enter the food with its own label.";
  if (!q->no_value && q->doubt.kind == DOUBT_AMOUNT)
    return "Weigh it: the piece before and after, with what is left of the bone.";
  if (!q->no_value && q->doubt.kind == DOUBT_KEPT) return "Feeding the broth with it keeps what cooking draws out.";
  return "A label that states it, or one laboratory figure for that food, would tell more than anything else.";
}

static void settle_doubt(struct review *r) {
  struct open_question best = {0};
  double least = row_threshold(r, "settle-doubt");
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    /* The energy of food is not a single measurement, and gut-made vitamins ask nothing. */
    if (k == NUT_ENERGY || !(n->allowance > 0)) continue;
    struct open_question q = question_of(r, n);
    if (q.doubt.line >= 0 && q.score > best.score) best = q;
  }
  struct draft d;
  if (!best.n || !(best.score >= least) || !draft_begin(&d, r, "settle-doubt", NULL)) return;
  draft_word(&d, "what", doubt_words(r, &best));
  draft_word(&d, "how", settling_words(r, &best));
  struct buf why;
  buf_init(&why, r->arena, 256);
  if (best.no_value) {
    buf_addf(&why, "Without it the verdict on %s stays open", words_nutrient(r->arena, best.n->id));
  } else {
    bool limit = best.n->close_to_limit;
    buf_addf(&why, "%s of the uncertainty of %s lies there, and the chance that it %s is %s",
             words_share(r->arena, best.doubt.share), words_nutrient(r->arena, best.n->id),
             limit ? "keeps within its limit" : "is enough",
             words_chance(r->arena, limit ? best.n->chance_kept : best.n->chance_met));
  }
  draft_word(&d, "why", buf_text(&why));
  draft_of(&d, best.n->id);
  draft_text_because(&d, "nutrient", nutrient_info[best.n->id].key);
  draft_number_because(&d, "line", r->result->ration->line[best.doubt.line].line, "");
  draft_number_because(&d, "share", best.doubt.share, "share");
  draft_number_because(&d, "chance", best.n->chance_met, "share");
  draft_end(&d);
}

void findings_rests(struct review *r) {
  rests_on_one_food(r);
  rests_on_estimates(r);
  settle_doubt(r);
}
