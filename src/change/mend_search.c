/* mend_search.c: the order in which a change is looked for: first gently (no line cut or raised by much), then more widely;
 * with a larder first among its foods. mend_columns.c says what may be changed, mend_few.c finds the few columns,
 * mend_steps.c amounts that can be measured.
 *
 * Further proposals: each line of a choice is forbidden in turn; the best of what then remains is the next choice. */
#include "base/table.h"
#include "change/mend_search.h"

static const int FIRST_STRETCHED = 3, LAST_FOR_ONE_KIND = 3, LAST_USUAL = 1; /* steps of mend_reach() */
/* Of a change that adds so many lines it is asked whether things that come later save so many of them. */
enum { WORTH_FEWER = 7, SAVED_LEAST = 2 };

/* Was more of a column taken than is usual? */
static bool is_stretched(const struct mend_search *s, size_t j, double x) {
  return s->column[j].sign > 0 && x > s->column[j].usual * (1 + 1e-6);
}

/* As few stretched ceilings as can be: each is put back in turn, if a change is then still found. */
static void unstretch(struct mend_search *s, struct mend_choice *c) {
  for (size_t j = 0; j < s->columns && mend_go_on(s); j++) {
    struct mend_choice other;
    bool none;
    if (!is_stretched(s, j, c->x[j])) continue;
    s->capped[j] = true;
    if (mend_few(s, false, &other, &none))
      *c = other;
    else
      s->capped[j] = false;
  }
}

/* Foods in the place of pills, if that can be measured out. */
static bool choose_rather(struct mend_search *s, struct mend_choice *out) {
  struct mend_choice c = *out;
  if (s->reach >= FIRST_STRETCHED || !mend_rather_food(s, &c)) return false;
  mend_steps(s, &c);
  if (!c.rounded || c.one_more) return false;
  *out = c;
  return true;
}

static bool choose_at(struct mend_search *s, bool thorough, struct mend_choice *out, bool *none) {
  bool found = mend_few(s, thorough, out, none);
  if (found && thorough && s->with == MEND_BOTH && !s->at_hand && !s->stopped && choose_rather(s, out)) return true;
  struct mend_choice stretched = *out;
  s->finishing = false; /* what was begun is found: of a search that was stopped nothing more is tried, but to measure it */
  if (found && s->reach >= FIRST_STRETCHED) unstretch(s, out);
  if (found) mend_steps(s, out);
  memset(s->capped, 0, s->columns * sizeof *s->capped);
  if (found && !out->rounded && s->reach >= FIRST_STRETCHED &&
      !s->stopped) { /* amounts that can be measured come before small ones */
    mend_steps(s, &stretched);
    if (stretched.rounded) *out = stretched;
  }
  s->finishing = false;
  return found;
}

static int lines_of(struct mend_search *s, const struct mend_choice *c) {
  return mend_lines_in_use(s, c->x, ARENA_NEW(s->arena, bool, s->columns));
}

static int lines_added(const struct mend_search *s, const struct mend_choice *c) {
  int n = 0;
  for (size_t j = 0; j < s->columns; j++) n += s->column[j].line < 0 && mend_in_use(s, j, c->x[j]);
  return n;
}

/* A seventh of a cat's bowl is 20 g of heart or of thigh with its skin, which is no other dinner. */
static bool adds_main(const struct mend_search *s, const struct mend_choice *c) {
  return s->q->animal->species != SPECIES_CAT && mend_adds_main(s, c->x);
}

static void ban_main(struct mend_search *s, const struct mend_choice *c) {
  for (size_t j = 0; j < s->columns; j++)
    s->banned[j] |= s->column[j].line < 0 && mend_in_use(s, j, c->x[j]) && mend_is_as_main(s, c->x[j]);
}

/* 'c' without a main food among what it adds: 100 g of cod a day are another dinner. What is proven is so with such foods.
 */
static bool choose_no_main(struct mend_search *s, struct mend_choice *c) {
  enum { TRIES = 3 };
  bool found = false, none, *banned = ARENA_NEW(s->arena, bool, s->columns);
  int fewest = (int)s->columns;
  memcpy(banned, s->banned, s->columns * sizeof *banned);
  for (int i = 0; i < TRIES && !found && mend_go_on(s); i++) {
    if (!choose_at(s, false, c, &none) || !c->rounded) break;
    if (i == 0) fewest = c->fewest;
    found = !adds_main(s, c);
    if (found && i > 0) c->fewest = fewest;
    if (found && i > 0) c->least_proven = false;
    if (!found) ban_main(s, c);
  }
  memcpy(s->banned, banned, s->columns * sizeof *banned);
  return found;
}

/* A new main food is taken only where more than two lines are spared by it. */
static void rather_no_main(struct mend_search *s, struct mend_choice *out) {
  struct mend_choice c;
  bool *banned = ARENA_NEW(s->arena, bool, s->columns);
  if (!adds_main(s, out)) return;
  memcpy(banned, s->banned, s->columns * sizeof *banned);
  s->untold = true;
  ban_main(s, out);
  bool found = choose_no_main(s, &c);
  s->untold = false;
  memcpy(s->banned, banned, s->columns * sizeof *banned);
  if (!found || lines_of(s, &c) > lines_of(s, out) + SAVED_LEAST) return;
  c.fewest = out->fewest;
  c.least_proven = false;
  *out = c;
  s->shown_lines = 0;
}

/* Is 'c' a change with so many lines less than 'than'? What is found and not taken is not told to whoever waits. */
static bool spares_lines(struct mend_search *s, const struct mend_choice *than, struct mend_choice *c) {
  s->untold = true;
  bool found = choose_no_main(s, c);
  s->untold = false;
  return found && lines_of(s, c) <= lines_of(s, than) - SAVED_LEAST && lines_added(s, c) < lines_added(s, than);
}

/* A pill of choline or B vitamins alone: eggs, organs, yeast and germ hold these. */
static bool is_of_eggs_and_organs(const struct mend_search *s, size_t j) {
  static const enum nutrient OTHERS[] = {NUT_CALCIUM,  NUT_MAGNESIUM, NUT_POTASSIUM, NUT_IRON,      NUT_COPPER,    NUT_ZINC,    NUT_MANGANESE,
                                         NUT_SELENIUM, NUT_IODINE,    NUT_VITAMIN_A, NUT_VITAMIN_D, NUT_VITAMIN_E, NUT_EPA_DHA, NUT_TAURINE};
  const struct mend_column *c = &s->column[j];
  if (!c->pill || c->line >= 0 || c->at_hand) return false;
  const struct img_value *v = library_values(s->lib, s->q->offer[c->offer].food.line.shown_food);
  for (size_t i = 0; i < COUNT_OF(OTHERS); i++)
    if (v[OTHERS[i]].status != VALUE_UNKNOWN && v[OTHERS[i]].mean > 0) return false;
  return true;
}

static int lines_of_pills(const struct mend_search *s, const struct mend_choice *c) {
  int n = 0;
  for (size_t j = 0; j < s->columns; j++) n += s->column[j].pill && mend_in_use(s, j, c->x[j]);
  return n;
}

/* What eggs and organs bring is not bought as a pill where seven lines do without it, two more at most, and as much of the dinner
 * stays, by a seventh. */
static void rather_eggs_and_organs(struct mend_search *s, struct mend_choice *out) {
  static const double MORE_ROOM = 0.15;
  bool any = false, found = false, *banned = ARENA_NEW(s->arena, bool, s->columns);
  int found_at = s->reach, lines = lines_added(s, out), most = lines > WORTH_FEWER ? lines : WORTH_FEWER;
  if (most > lines + SAVED_LEAST) most = lines + SAVED_LEAST;
  struct mend_choice c;
  memcpy(banned, s->banned, s->columns * sizeof *banned);
  for (size_t j = 0; j < s->columns; j++) {
    bool is = is_of_eggs_and_organs(s, j);
    any |= is && mend_in_use(s, j, out->x[j]);
    s->banned[j] |= is;
  }
  s->untold = true;
  for (; any && !found && s->reach <= LAST_USUAL && mend_go_on(s); s->reach++)
    found = choose_no_main(s, &c) && lines_added(s, &c) <= most && lines_of_pills(s, &c) < lines_of_pills(s, out) &&
            mend_main_lost(s, c.x) <= mend_main_lost(s, out->x) + MORE_ROOM;
  s->untold = false;
  s->reach = found_at;
  memcpy(s->banned, banned, s->columns * sizeof *banned);
  if (!found) return;
  c.fewest = out->fewest;
  c.least_proven = false;
  c.rather = true;
  *out = c;
  s->shown_lines = 0;
}

/* Second forms of a thing and larger portions of another food are within the usual: where they save lines enough they are
 * taken, though smaller things would do. */
static void fewer_further_on(struct mend_search *s, struct mend_choice *out) {
  int found_at = s->reach;
  for (int reach = found_at + 1; reach <= LAST_USUAL && lines_added(s, out) >= WORTH_FEWER && mend_go_on(s); reach++) {
    struct mend_choice c;
    s->reach = reach;
    if (!spares_lines(s, out, &c)) continue;
    *out = c;
    choose_rather(s, out);
  }
  s->shown_lines = lines_of(s, out);
  s->reach = found_at;
}

/* Amounts that no kitchen measures are an answer only when going further finds no better ones. */
static bool choose_in_reach(struct mend_search *s, bool thorough, struct mend_choice *out, bool *none) {
  bool any = false;
  for (s->reach = 0; s->reach <= s->reach_most && !s->stopped; s->reach++) {
    struct mend_choice c;
    bool nothing = false;
    s->doubted = false;
    model_forget(s->p);
    if (choose_at(s, thorough && !any, &c, &nothing)) {
      if (c.rounded || !any) *out = c;
      any = true;
      if (c.rounded && s->with == MEND_BOTH && thorough) fewer_further_on(s, out);
      if (c.rounded && s->with == MEND_BOTH && thorough && !s->at_hand) rather_no_main(s, out);
      if (c.rounded && s->with == MEND_BOTH && thorough && !s->at_hand) rather_eggs_and_organs(s, out);
      if (c.rounded) return true;
    } else if (!any) {
      *none = nothing && !s->doubted;
    }
  }
  s->reach = s->reach_most;
  return any;
}

/* Who gives a larder wants it used: other foods come in only when it does not suffice. */
static bool choose(struct mend_search *s, bool thorough, struct mend_choice *out, bool *none) {
  bool larder = false;
  for (size_t j = 0; j < s->columns; j++) larder |= s->column[j].line < 0 && s->column[j].at_hand;
  s->at_hand = larder;
  if (larder && choose_in_reach(s, thorough, out, none)) {
    s->at_hand = false;
    return true;
  }
  s->at_hand = false;
  *none = false;
  return !s->stopped && choose_in_reach(s, thorough, out, none);
}

/* ---- several ---------------------------------------------------------------------------------------------------------- */

/* Two proposals are two when at least so many lines of the later are not touched by the earlier; one that differs by a
 * single line is the same idea with another spice. */
enum { OTHER_LINES = 2 };

static int other_lines(const struct mend_search *s, const struct mend_choice *a, const struct mend_choice *had) {
  int n = 0;
  for (size_t j = 0; j < s->columns; j++) n += mend_in_use(s, j, a->x[j]) && !mend_in_use(s, j, had->x[j]);
  return n;
}

static bool better(struct mend_search *s, const struct mend_choice *a, const struct mend_choice *b) {
  bool *in = ARENA_NEW(s->arena, bool, s->columns);
  int m = mend_lines_in_use(s, a->x, in), n = mend_lines_in_use(s, b->x, in);
  return m != n ? m < n : a->cost < b->cost;
}

static bool is_new(const struct mend_search *s, const struct mend_choice *c, const struct mend_choice *had, size_t count,
                   int other) {
  for (size_t i = 0; i < count; i++)
    if (other_lines(s, c, &had[i]) < other) return false;
  return true;
}

/* The best without a column, if it is new; kept in 'out' when it is better than that. */
static void try_without(struct mend_search *s, size_t j, const struct mend_choice *had, size_t count, int other,
                        struct mend_choice *out, bool *found) {
  struct mend_choice c;
  bool none, banned = s->banned[j];
  s->banned[j] = true;
  if (choose(s, false, &c, &none) && is_new(s, &c, had, count, other) && (!*found || better(s, &c, out))) {
    *out = c;
    *found = true;
  }
  s->banned[j] = banned;
}

/* The best choice that does without one of the lines of the last, else without two of them; when even these have but one
 * line of their own, one will do. */
static bool next_choice(struct mend_search *s, const struct mend_choice *had, size_t count, struct mend_choice *out) {
  bool found = false;
  const struct mend_choice *last = &had[count - 1];
  for (int other = OTHER_LINES; other > 0 && !found; other--) {
    for (size_t j = 0; j < s->columns && !s->stopped; j++)
      if (mend_in_use(s, j, last->x[j])) try_without(s, j, had, count, other, out, &found);
    for (size_t i = 0; i < s->columns && !found && other > 1; i++) {
      if (!mend_in_use(s, i, last->x[i])) continue;
      s->banned[i] = true;
      for (size_t j = i + 1; j < s->columns && !s->stopped; j++)
        if (mend_in_use(s, j, last->x[j])) try_without(s, j, had, count, other, out, &found);
      s->banned[i] = false;
    }
  }
  return found;
}

/* With foods only, with supplements only: worth telling when it is found within sensible bounds and is another change. */
static bool choose_with(struct mend_search *s, enum mend_with with, const struct mend_choice *both,
                        struct mend_choice *out) {
  bool none, differs = false;
  s->with = with;
  s->reach_most = LAST_FOR_ONE_KIND;
  bool found = choose(s, false, out, &none);
  s->with = MEND_BOTH;
  s->reach_most = MEND_REACHES - 1;
  found = found && out->rounded;
  for (size_t j = 0; found && j < s->columns; j++) differs |= mend_in_use(s, j, out->x[j]) != mend_in_use(s, j, both->x[j]);
  return found && differs;
}

size_t mend_search_run(struct mend_search *s, struct mend_choice *out, size_t most, bool *proven) {
  size_t n = 0;
  s->reach_most = MEND_REACHES - 1;
  if (!choose(s, !s->q->quick, &out[0], proven)) {
    mend_costs(s, NULL);
    mend_play(s, NULL, GRAIN_NONE, 1);
    return 0;
  }
  mend_leave_lines(s, &out[0]);
  for (n = 1; n < most && !s->stopped && next_choice(s, out, n, &out[n]);) n++;
  for (size_t i = 1; i < n; i++)
    for (size_t j = i; j > 0 && better(s, &out[j], &out[j - 1]); j--) {
      struct mend_choice swap = out[j];
      out[j] = out[j - 1];
      out[j - 1] = swap;
    }
  const struct mend_choice both = out[0];
  for (int with = MEND_FOODS; s->q->ways && with < MEND_WITH_COUNT && !s->stopped; with++) {
    if (!choose_with(s, (enum mend_with)with, &both, &out[n])) continue;
    if (n == 1 && with == MEND_FOODS && mend_foods_come_first(s, &both, &out[n])) {
      out[0] = out[n];
      out[n] = both;
      mend_leave_lines(s, &out[0]);
    }
    n++;
  }
  return n;
}
