/* Which lines a governing word may change. */
#include "foods/refused.h"
#include "post/govern/post_govern.h"

/* What a word can say of foods that stand in other sentences, and are not named in its own. */
static bool reaches_far(enum governs kind) {
  switch (kind) {
  case GOVERNS_PART:
  case GOVERNS_COUNT:
  case GOVERNS_EACH:
  case GOVERNS_TIMES:
  case GOVERNS_RATE:
  case GOVERNS_WEIGHED:
  case GOVERNS_EDIT:
  case GOVERNS_OTHER:
  case GOVERNS_VARY:
  case GOVERNS_OFTEN:
  case GOVERNS_SAME:
    return true;
  default:
    return false;
  }
}

bool governed_is_food(const struct governed *g, size_t item, size_t at) {
  const struct post_reader *r = g->n.r;
  const struct claim *line = governed_line(g, at);
  struct span word = g->n.t.item[at].word;
  bool own = line && item >= line->first && item < line->last;
  return !own && !word_is_filler(word) &&
         (net_has_word(r->item[item].words, word) || net_has_word(span_of(r->item[item].text), word));
}

bool governed_is_meant(const struct governed *g, size_t item, size_t at) {
  const struct post_reader *r = g->n.r;
  const struct claim *line = governed_line(g, at);
  bool own = line && item >= line->first && item < line->last;
  struct span word = g->n.t.item[at].word;
  if (governed_is_food(g, item, at)) return true;
  return !own && net_is_kind(word) && food_is_refused(r->lib, r->item[item].food, "", word, r->arena);
}

/* The first words behind "instead of" or "no" that name the food of another line, or its kind. */
static bool reach_behind(struct governed *g, const struct governor *w) {
  enum { FAR = 5 };
  struct post_reader *r = g->n.r;
  bool any = false;
  for (size_t i = w->at; i < g->n.t.count && i < w->at + w->tokens + FAR && !any; i++) {
    if (i >= w->at + w->tokens && net_ends_clause(&g->n.t, i)) break;
    for (size_t k = 0; k < r->count && is_word(&g->n.t, i); k++)
      if (r->item[k].kind == ITEM_FOOD && governed_is_meant(g, k, i)) g->reach[k] = any = true;
  }
  return any;
}

/* Of a kind of food ("no meat on Fridays") only where its days are told: "no meat" by itself is no line's. */
static bool reach_of_mentions(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  bool denied = w->kind == GOVERNS_NOT || w->kind == GOVERNS_EXCEPT;
  bool any = denied && governed_some_days(&g->n.t, g->n.t.count) && reach_behind(g, w);
  for (size_t i = 0; i < g->n.t.count; i++) {
    if (governed_is_told(g, i) || governed_line(g, i)) continue;
    size_t used = post_mention_at(r, &g->n.t, i);
    if (used == 0) continue;
    struct span head = g->n.t.item[i + used - 1].word;
    for (size_t k = 0; k < r->count && !net_is_kind(head); k++) {
      if (r->item[k].kind != ITEM_FOOD || !net_item_is(&g->n, &r->item[k], i, used)) continue;
      g->reach[k] = any = true;
    }
    i += used - 1;
  }
  return any;
}

static bool is_on_some_days(struct post_reader *r, const struct item *item) {
  struct tokens t = post_tokens(r, span_of(item->text));
  return governed_some_days(&t, t.count);
}

/* "potato instead of the pasta", and no line is of pasta: nothing else is left out by it. */
static bool names_no_line(struct governed *g, const struct governor *w) {
  enum { FAR = 4 };
  const struct tokens *t = &g->n.t;
  size_t behind = w->at + w->tokens;
  if (!says(t, behind, "of") && !says(t, behind - 1, "of than")) return false;
  for (size_t i = behind; i < t->count && i < behind + FAR && !net_ends_clause(t, i); i++) {
    size_t used = post_mention_at(g->n.r, t, i);
    if (used > 0) return !net_is_kind(t->item[i + used - 1].word) && !says_a(t, i + used - 1, CLASS_MINCED);
  }
  return false;
}

/* "70 g chicken, 45 g potato; Tues/Thurs lamb 70 g instead": of its own kind, meat for meat; false where that tells nothing.
 */
static bool reach_its_kind(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  const struct claim *line = governed_line(g, w->at);
  if (!line || line->first >= r->count || r->item[line->first].kind != ITEM_FOOD) return false;
  enum { FLESH = PART_COUNT };
  int kind = (int)library_food(r->lib, r->item[line->first].food)->part;
  if (kind == PART_MUSCLE || kind == PART_FISH || kind == PART_SHELLFISH) kind = FLESH;
  for (int own = 1; own >= 0; own--) { /* of the same sentence first */
    bool any = false;
    for (size_t i = 0; i < r->count; i++) {
      const struct item *item = &r->item[i];
      if (item->kind != ITEM_FOOD || (i >= line->first && i < line->last) || (item->sentence == g->n.number) != (own == 1))
        continue;
      int part = (int)library_food(r->lib, item->food)->part;
      if (part == PART_MUSCLE || part == PART_FISH || part == PART_SHELLFISH) part = FLESH;
      if (part != kind || (own == 0 && post_tells_often(r, item))) continue;
      g->reach[i] = any = true;
    }
    if (any) return true;
  }
  return false;
}

/* What is replaced: the food that is named, else what is of its kind, else what is fed every day in other sentences. */
static void reach_of_instead(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  memset(g->reach, 0, sizeof g->reach);
  if (governed_is_only(&g->n.t, w) && reach_behind(g, w)) { /* "nothing but the lamb": all but the lamb */
    for (size_t i = 0; i < r->count; i++)
      g->reach[i] = !g->reach[i] && r->item[i].kind == ITEM_FOOD && r->item[i].sentence != g->n.number &&
                    !is_on_some_days(r, &r->item[i]);
    return;
  }
  if (reach_behind(g, w) || names_no_line(g, w)) return;
  bool bare = !governed_is_only(&g->n.t, w) && !says(&g->n.t, w->at + w->tokens, "of") && w->tokens == 1 &&
              says(&g->n.t, w->at, "instead");
  if (bare && reach_its_kind(g, w)) return;
  for (size_t i = 0; i < r->count; i++)
    g->reach[i] = r->item[i].kind == ITEM_FOOD && r->item[i].sentence != g->n.number &&
                  !(governed_is_only(&g->n.t, w) ? is_on_some_days(r, &r->item[i]) : post_tells_often(r, &r->item[i]));
}

/* How often, and hardly a word besides: of what stands before it. */
static bool is_short(const struct tokens *t, const struct governor *w) {
  return w->kind == GOVERNS_OFTEN && t->count <= w->tokens + 2;
}

/* "My other dog gets ..." */
static bool tells_of_another_one(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "other another second") && says_a(t, i + 1, CLASS_ANOTHER_ONE)) return true;
  return false;
}

static bool is_counted(const struct post_reader *r, const struct claim *line) {
  for (size_t i = line->first; i < line->last && i < r->count; i++)
    if (r->item[i].kind == ITEM_FOOD) return true;
  return false;
}

/* "no supper", "skips breakfast": a meal that is not eaten then; its token, t->count none. */
static size_t meal_left_out(const struct governed *g, const struct governor *w) {
  const struct tokens *t = &g->n.t;
  for (size_t i = w->at; i < t->count && i < w->at + w->tokens && w->kind == GOVERNS_EXCEPT; i++)
    if (governs_main_meal(t, i)) return i;
  return t->count;
}

/* The lines of that meal; where none is told to be of it, all of other sentences, if it is so on some days. */
static void reach_of_meal(struct governed *g, size_t meal) {
  struct post_reader *r = g->n.r;
  struct span word = g->n.t.item[meal].word;
  bool any = false;
  memset(g->reach, 0, sizeof g->reach);
  for (size_t k = 0; k < r->count; k++)
    if (span_eq_fold(r->item[k].meal, word)) g->reach[k] = any = true;
  for (size_t k = 0; k < r->count && !any && governed_some_days(&g->n.t, g->n.t.count); k++) g->reach[k] = true;
}

/* "Twice the lamb", "the turkey as in the morning", "a copy of breakfast": of what stands in other sentences, by the name of
 * its food; by that of a meal all that stands before. */
static void reach_what_is_meant(struct governed *g, const struct governor *w) {
  enum { BEFORE = 2, BEHIND = 4 };
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  bool named = false, meal = false;
  size_t from = w->at;
  while (from > 0 && from + BEFORE > w->at && !net_ends_clause(t, from - 1)) from--;
  for (size_t i = from; i < t->count && i < w->at + w->tokens + BEHIND; i++) {
    if (i >= w->at + w->tokens && net_ends_clause(t, i)) break;
    meal = meal || (i >= w->at && governs_main_meal(t, i) && !says(t, i, "meal meals bowl"));
    for (size_t k = 0; k < r->count && is_word(t, i); k++)
      if (r->item[k].kind == ITEM_FOOD && r->item[k].sentence != g->n.number && governed_is_food(g, k, i))
        g->reach[k] = named = true;
  }
  for (size_t k = 0; k < r->count && meal && !named; k++) g->reach[k] = g->reach[k] || r->item[k].sentence < g->n.number;
}

/* "That is for two of them.", "Divide by three.", "All of it has to do for two days": a few words, or a word for what stands
 * above, where they can be of nothing else. */
static bool points_at_the_list(const struct tokens *t, enum governs kind) {
  enum { FEW = 8, MOST = 16 };
  bool by_itself = kind != GOVERNS_OFTEN && kind != GOVERNS_CHANGING && kind != GOVERNS_CONDITION && kind != GOVERNS_VARY;
  if (t->count > MOST) return false;
  bool of_health =
      holds_a(t, 0, t->count, CLASS_HEALTH_SIGN) || holds_a(t, 0, t->count, CLASS_COMPLAINT) ||
      says_in(t, 0, t->count,
              "itching itchy scratching allergies runs poo poos stools coat skin"); /* "Since then no itching any more" */
  if (t->count <= FEW && by_itself && !of_health) return true;
  for (size_t i = 0; i < t->count; i++) {
    bool last = i + 1 >= t->count || t->item[i + 1].kind == TOKEN_MARK || frequency_at(t, i + 1).tokens > 0;
    if (says(t, i, "it this that these those them") &&
        (i == 0 || last ||
         says(t, i - 1, "of with from by double twice half makes make share shares get gets finish finishes")))
      return true;
    if (says(t, i, "those that these that's those's") && i < 2) return true;
    if (says(t, i,
             "above everything amounts weights figures numbers quantities recipe list mix batch rest ration portion "
             "portions"))
      return true;
  }
  return false;
}

/* "This is what my friend feeds", "that was last year": what stands above is told of another time, or of another one. */
static bool tells_of_the_list(const struct tokens *t) {
  return says(t, 0, "that's") || (says(t, 0, "this that these those") && says(t, 1, "is was are were"));
}

/* "She licks the yoghurt pot, one a day more or less": of a food that no line has, and of none that is counted. */
static bool names_other_food(struct governed *g) {
  for (size_t i = 0; i < g->n.t.count; i++) {
    size_t used = post_mention_at(g->n.r, &g->n.t, i);
    if (used > 0 && !net_is_kind(g->n.t.item[i + used - 1].word)) return true;
  }
  return false;
}

/* The lines that a sentence without lines of its own may change; false when it can be of none. */
static bool reach_from_outside(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  const char *why = not_fed(t);
  bool asks = t->count > 0 && is_mark(t, t->count - 1, '?'), points = points_at_the_list(t, w->kind),
       of_list = tells_of_the_list(t);
  bool other = is_of_another(t) || (tells_of_another_one(t) && !(points && w->kind <= GOVERNS_EACH));
  bool advice = why == NOT_FED_ADVICE || why == NOT_FED_HEARSAY;
  if (asks || other || (advice && !of_list) || says_in(t, 0, t->count, "would could")) return false;
  if (is_short(t, w)) { /* "Twice daily." */
    for (size_t i = 0; i < r->count; i++)
      g->reach[i] = r->item[i].sentence <= g->n.number && !post_tells_often(r, &r->item[i]);
    return true;
  }
  if (reach_of_mentions(g, w)) return true;
  if ((w->kind == GOVERNS_VARY || w->kind == GOVERNS_CONDITION) && names_other_food(g)) return false;
  bool feeding = holds_a(t, 0, t->count, CLASS_ABOUT_FEEDING) || points, far = reaches_far(w->kind) || points;
  bool eats = holds_a(t, 0, t->count, CLASS_EATER_VERB) && !holds_a(t, 0, t->count, CLASS_ABOUT_THE_ANIMAL);
  far = far || (w->kind == GOVERNS_CONDITION && eats && says_in(t, 0, t->count, "half more less double twice only")) ||
        (w->kind == GOVERNS_CHANGING && says_in(t, 0, t->count, "switch transition changeover"));
  if (!far || (why && !of_list) || !feeding || holds_a(t, 0, t->count, CLASS_ABOUT_THE_ANIMAL)) return false;
  if (w->kind == GOVERNS_NUMBER || w->kind == GOVERNS_OR) return false;
  for (size_t i = 0; i < r->count; i++) g->reach[i] = true;
  return true;
}

/* "On working days he has 600 g of mince and 200 g of rice, the other days ...": all that the condition stands before. */
static void reach_of_clause(struct governed *g, const struct governor *w) {
  const struct tokens *t = &g->n.t;
  for (size_t i = 0; i < w->at; i++)
    if (net_claim_at(&g->n, i, CLAIM_AMOUNT)) return;
  for (size_t i = w->at; i < t->count && !is_mark(t, i, ';') && !is_mark(t, i, '.'); i++) {
    if (i > w->at + w->tokens && says(t, i, "other rest otherwise but else always")) return;
    const struct claim *line = governed_line(g, i);
    for (size_t k = line ? line->first : g->n.r->count; k < g->n.r->count && k < line->last; k++) g->reach[k] = true;
  }
}

bool governed_reach(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  const struct claim *line = governed_line(g, w->at);
  bool open = false;
  memset(g->reach, 0, sizeof g->reach);
  if (line && w->kind == GOVERNS_PART && !is_counted(r, line)) line = NULL; /* "on half rations plus a scoop of ..." */
  if (w->kind == GOVERNS_LABEL) {
    for (size_t i = 0; i < r->count; i++) g->reach[i] = r->item[i].line >= g->n.h->line;
  } else if (w->back) {
    for (size_t i = 0; i < r->count; i++)
      g->reach[i] =
          r->item[i].sentence + 1 == g->n.number && g->n.h->line - r->item[i].line <= (w->tokens < t->count ? 1 : 0);
    for (size_t i = 0; i < t->count; i++)
      for (size_t k = 0; k < r->count && is_word(t, i); k++) g->reach[k] = g->reach[k] || governed_is_food(g, k, i);
  } else if (line) {
    for (size_t i = line->first; i < line->last && i < r->count; i++) g->reach[i] = true;
    if (w->kind == GOVERNS_CONDITION) reach_of_clause(g, w);
  } else if (!g->lines && meal_left_out(g, w) < t->count && !is_of_another(t) && !is_mark(t, t->count - 1, '?')) {
    reach_of_meal(g, meal_left_out(g, w));
  } else if (!g->lines && w->kind == GOVERNS_DATED) {
    return false;
  } else if (!g->lines) {
    if (!reach_from_outside(g, w)) return false;
  } else {
    for (size_t i = 0; i < r->count; i++) g->reach[i] = r->item[i].sentence == g->n.number;
  }
  if (w->kind == GOVERNS_AGAIN && line)
    for (size_t k = 0; k < line->first; k++)
      for (size_t i = w->at; i < t->count && governed_line(g, i) == line; i++)
        g->reach[k] =
            g->reach[k] || r->item[k].food == r->item[line->first].food || (is_word(t, i) && governed_is_food(g, k, i));
  if (g->lines && (w->kind == GOVERNS_SAME || w->kind == GOVERNS_TIMES)) reach_what_is_meant(g, w);
  if (w->kind == GOVERNS_NOT) memset(g->reach, 0, sizeof g->reach);
  if (w->kind == GOVERNS_NOT) reach_behind(g, w);
  if (w->kind == GOVERNS_INSTEAD) reach_of_instead(g, w);
  bool of_meal =
      w->kind == GOVERNS_TIMES && line &&
      (says_in(t, w->at, w->at + w->tokens, "meal meals bowl") ||
       says_in(t, w->at + w->tokens, w->at + w->tokens + 2, "portion portions rations amounts everything quantities"));
  if (of_meal || (w->kind == GOVERNS_EACH && g->lines && governed_each_of_meals(g)))
    for (size_t i = 0; i < r->count; i++) g->reach[i] = r->item[i].sentence == g->n.number;
  for (size_t i = 0; i < r->count; i++) {
    g->reach[i] = g->reach[i] && r->item[i].kind == ITEM_FOOD;
    open = open || (g->reach[i] && !r->item[i].doubted);
  }
  return open;
}
