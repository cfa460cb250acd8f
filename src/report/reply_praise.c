/* What is good, and said only where it is: nobody is praised for a count, unless it is nearly all. */
#include "report/reply_points.h"
#include "review/findings.h"

/* What home-made bowls lack most often; the order is that of practice (common practice). */
static const enum nutrient OFTEN_MISSING[] = {NUT_CALCIUM, NUT_IODINE,  NUT_ZINC,      NUT_VITAMIN_E, NUT_VITAMIN_D,
                                              NUT_COPPER,  NUT_EPA_DHA, NUT_MANGANESE, NUT_CHOLINE,   NUT_MAGNESIUM};
enum { GOOD_MOST = 5 };

/* Is it enough only as long as nothing of the bowl changes? What is then added is no ground for praise. */
static bool is_added(const struct gathering *g, enum nutrient n) {
  const struct mend_proposal *p = g->f->mended ? g->f->mended->proposal : NULL;
  for (size_t i = 0; p && i < p->count; i++)
    for (int k = 0; p->change[i].offer >= 0 && k < p->change[i].too_much_from; k++)
      if (p->change[i].repairs[k] == n) return true;
  return false;
}

/* Where most of it is met, that is said, and before much else. */
static void praise_most(struct gathering *g) {
  static const double MOST = 0.75;
  int judged = 0, met = g->r->verdict_count[VERDICT_MET];
  for (int v = 0; v < VERDICT_COUNT; v++) judged += v == VERDICT_NO_FIGURE ? 0 : g->r->verdict_count[v];
  if (judged == 0 || met < MOST * judged || met == judged) return;
  reply_say(g, REPLY_GOOD, WORTH_KEEPING - 0.1, g->length != REPLY_LINES,
            words_text(g->arena, "Most of it is right: %d of %d needs are met.", met, judged));
}

static void praise_what_is_covered(struct gathering *g) {
  const char *item[COUNT_OF(OFTEN_MISSING)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(OFTEN_MISSING); i++)
    if (g->r->nutrient[OFTEN_MISSING[i]].verdict == VERDICT_MET && !is_added(g, OFTEN_MISSING[i]))
      item[n++] = words_nutrient(g->arena, OFTEN_MISSING[i]);
  if (n == 0) return;
  reply_say(g, REPLY_GOOD, 44.2, n >= 2 && g->length != REPLY_LINES,
            words_text(g->arena, "Of what home-made bowls often lack, this one has enough %s.",
                       reply_list(g, item, n, GOOD_MOST)));
}

static void praise_balance(struct gathering *g) {
  double ratio = g->r->balance.ca_p;
  struct usual usual[USUAL_COUNT];
  words_usual(g->f->lib, usual);
  if (g->r->nutrient[NUT_CALCIUM].verdict != VERDICT_MET || !(ratio >= usual[0].low && ratio <= usual[0].high)) return;
  reply_say(g, REPLY_GOOD, 30, false,
            words_text(g->arena, "Calcium and phosphorus are in balance, %s to 1.", words_number(g->arena, ratio)));
}

/* Foods that hold what muscle meat and grain lack. */
static void praise_foods(struct gathering *g) {
  static const struct {
    enum bowl_part part;
    const char *words;
  } GOOD[] = {{BOWL_ORGAN_LIVER, "liver"},
              {BOWL_ORGAN_SECRETING, "organ meat"},
              {BOWL_FISH, "fish"},
              {BOWL_EGG, "egg"},
              {BOWL_PLANT, "plant food"}};
  static const double SOME = 0.01; /* of the weight */
  static const size_t VARIED = 3;
  const char *item[COUNT_OF(GOOD)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(GOOD); i++)
    if (g->r->parts[GOOD[i].part] >= SOME) item[n++] = GOOD[i].words;
  if (n < VARIED) return;
  reply_say(g, REPLY_GOOD, 25, false,
            words_text(g->arena, "It is varied: %sthere is %s.", g->r->parts[BOWL_MUSCLE] >= SOME ? "besides the meat " : "",
                       words_list(g->arena, item, n, n)));
}

void reply_praise(struct gathering *g) {
  if (g->r->verdict_count[VERDICT_MET] == 0) return;
  praise_most(g);
  praise_what_is_covered(g);
  praise_balance(g);
  praise_foods(g);
}
