/* Illness as owners say it: an organ of the animal and what is wrong with it, signs that cannot wait, weight that is lost.
 * What words tell stands in data/post_words.tsv: organ, organ_trouble, trouble_before, not_eating, sore, sore_part. */
#include "post/animal/post_signs.h"

static bool means(const char *what, const char *is) { return what[0] == is[0] && strcmp(what, is) == 0; }

size_t post_clause_end(const struct tokens *t, size_t at) {
  while (at < t->count &&
         !(t->item[at].kind == TOKEN_MARK && t->item[at].mark < 128 && strchr(",.;!?():", (int)t->item[at].mark)))
    at++;
  return at;
}

static size_t organ_at(const struct tokens *t, size_t at, const char **kind) { return meaning_at(t, at, CLASS_ORGAN, kind); }

/* ---- whose organ ---- */

static bool is_whose(const struct tokens *t, size_t at) {
  enum species s;
  if (says(t, at, "his her its their")) return true;
  if (!is_word(t, at)) return false;
  struct span word = t->item[at].word;
  if (word.n < 4 || word.p[word.n - 2] != '\'') return false;
  return is_animal_word(span_cut(word, 0, word.n - 2), &s) || (t->item[at].at.p[0] >= 'A' && t->item[at].at.p[0] <= 'Z');
}

/* "50 g of kidney", "beef kidney", "I feed liver": in [from, at) food is told, and no weight or age of the animal. */
static bool is_food(struct post_reader *r, const struct tokens *t, size_t from, size_t at) {
  double x;
  for (size_t i = from; i < at; i++) {
    size_t body = post_weight_at(t, i, &x);
    if (body == 0) body = post_age_at(t, i, &x);
    if (body > 0) {
      i += body - 1;
      continue;
    }
    if (says(t, i, "feed feeding buy bought butcher shop farmer add adding use using cook cooked order fridge freezer i we "
                   "raw mince liked loves likes eat eats much smell"))
      return true;
    bool stage = i > from && says(t, i - 1, "stage grade");
    if (is_number(t, i) && !stage) return true;
    if (is_word(t, i) && post_mention_at(r, t, i) > 0) return true;
  }
  return false;
}

/* "a bad liver smell", "liver treats". */
static bool goes_on_as_food(const struct tokens *t, size_t at) {
  return says(t, at, "smell smells taste treats treat cake pate recipe paste powder price i we g stew mush flavour flavor chews");
}

/* "her kidneys", "has a bad liver", "liver values": surely of the animal. */
static bool is_surely_its(const struct tokens *t, size_t begin, size_t from, size_t behind) {
  size_t at = from;
  while (at > begin && (says_a(t, at - 1, CLASS_ORGAN_TROUBLE) || says(t, at - 1, "a an the one both left right very of on in and") ||
                        (says_a(t, at - 1, CLASS_ORGAN) && at > begin + 1) ||
                        (is_number(t, at - 1) && at > begin + 1 && says(t, at - 2, "stage grade"))))
    at--;
  if (at > begin && (is_whose(t, at - 1) || says(t, at - 1, "with has had got having he's she's developed"))) return true;
  for (size_t i = from; i < behind; i++)
    if (says(t, i, "his her its their") || says_a(t, i, CLASS_ORGAN_VALUES)) return true;
  return false;
}

/* ---- what is said of it ---- */

/* What counts as wrong with an organ of this kind: 'sure': it is surely the animal's. */
static enum state_kind told_by(const char *organ, const char *trouble, bool denied, bool sure, bool values) {
  bool colour = means(trouble, "colour"), gums = means(organ, "gums");
  if (colour || gums) return colour && gums && !denied ? STATE_URGENT : STATE_NOT;
  bool in_urine = means(trouble, "in urine"), urine = means(organ, "urine");
  if (in_urine || urine) return in_urine && urine && !denied ? STATE_ILL : STATE_NOT;
  if (means(trouble, "good")) return denied && sure ? STATE_ILL : STATE_NOT;
  if (denied) return STATE_NOT;
  if (means(organ, "belly") && means(trouble, "bad")) return STATE_NOT; /* "a sensitive stomach" */
  if (means(trouble, "up")) return values || means(organ, "value") ? STATE_ILL : STATE_NOT;
  return means(trouble, "sick") || sure ? STATE_ILL : STATE_NOT;
}

/* "kidneys are not so good", "liver and kidney values came back raised": up to the words that say it. */
static size_t said_behind(const struct tokens *t, size_t at, size_t used, const char *organ, bool sure,
                          enum state_kind *kind) {
  enum { FAR = 9 };
  size_t end = post_clause_end(t, at);
  bool denied = false, values = false;
  const char *is;
  for (size_t i = at + used; i < end && i < at + used + FAR; i++) {
    if (is_number(t, i) || says(t, i, "i we you they for because with") || goes_on_as_food(t, i)) return 0;
    if (organ_at(t, i, &is) > 0 && !means(is, "value")) return 0; /* "liver or heart disease" is of the heart */
    values = values || says_a(t, i, CLASS_ORGAN_VALUES);
    size_t trouble = meaning_at(t, i, CLASS_ORGAN_TROUBLE, &is);
    if (trouble == 0) {
      denied = denied || says(t, i, "not isn't isnt aren't arent wasn't never no longer don't doesn't hardly far less");
      continue;
    }
    size_t behind = i + trouble;
    if (means(is, "bad") && says(t, behind, "for to idea when if")) return 0;
    if (says(t, i, "up") && says(t, behind, "in to for")) return 0;
    *kind = told_by(organ, is, denied, sure || values, values);
    if (*kind != STATE_NOT) return behind - at;
    if (means(is, "good")) return 0;
  }
  return 0;
}

static size_t organ_sign_at(struct post_reader *r, const struct tokens *t, size_t at, enum state_kind *kind) {
  const char *organ;
  size_t used = organ_at(t, at, &organ), begin = clause_begin(t, at);
  if (used == 0) return 0;
  bool sure = is_surely_its(t, begin, at, at + used);
  size_t all = said_behind(t, at, used, organ, sure, kind);
  if (all == 0) return 0;
  bool food = at > begin && is_word(t, at - 1) && !is_whose(t, at - 1) && post_mention_at(r, t, at - 1) > 0;
  return food || (!sure && is_food(r, t, begin, at)) ? 0 : all;
}

/* "an enlarged liver", "bad kidneys", "yellow gums". */
static size_t trouble_then_organ(struct post_reader *r, const struct tokens *t, size_t at, enum state_kind *kind) {
  const char *is, *organ;
  size_t used = meaning_at(t, at, CLASS_ORGAN_TROUBLE, &is);
  if (used == 0 || means(is, "good") || means(is, "up")) return 0;
  size_t next = organ_at(t, at + used, &organ), behind = at + used + next, begin = clause_begin(t, at);
  if (next == 0 || goes_on_as_food(t, behind)) return 0;
  *kind = told_by(organ, is, false, true, false);
  if (*kind == STATE_NOT || is_food(r, t, begin, at)) return 0;
  return behind - at;
}

/* "a lump on her spleen", "sugar in his urine", "blood in his poo". */
static size_t in_an_organ(const struct tokens *t, size_t at, enum state_kind *kind) {
  const char *organ;
  size_t used = phrase_of(t, at, CLASS_TROUBLE_BEFORE), next = at + used;
  if (used == 0) return 0;
  bool found_in = says(t, next - 1, "in"), its = false;
  while (says(t, next, "the a an his her its their one both left right")) its = its || is_whose(t, next), next++;
  size_t behind = organ_at(t, next, &organ);
  *kind = STATE_ILL;
  if (behind > 0 && phrase_of(t, next + behind, CLASS_ORGAN_TROUBLE) > 0) return 0; /* "treated for liver disease" is that */
  if (behind > 0) return next + behind - at;
  if (found_in && says_a(t, next, CLASS_EXCREMENT_URINE)) return next + 1 - at;
  bool blood = says(t, at, "blood") && says_a(t, next, CLASS_EXCREMENT);
  *kind = STATE_URGENT;
  return found_in && blood ? next + 1 - at : 0;
}

/* ---- it does not eat ---- */

/* Whole days that stand here: "two days", "36 hours", "a week"; how many tokens; 0. */
static size_t a_day_or_more(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  size_t unit = q.fault == QUANTITY_FINE ? at + q.tokens : at;
  if (says(t, unit, "full whole")) unit++;
  if (says(t, unit, "days weeks day week")) return unit + 1 + says(t, unit + 1, "ago now") - at;
  return says(t, unit, "hours hrs h") && q.fault == QUANTITY_FINE && q.low >= 24 ? unit + 1 - at : 0;
}

/* "hasn't eaten for two days", "no food since Thursday", "stopped eating"; not "hasn't eaten fish for two days". */
static size_t not_eating_at(const struct tokens *t, size_t at, enum state_kind *kind) {
  size_t used = phrase_of(t, at, CLASS_NOT_EATING), i = at + used;
  if (used == 0) return 0;
  while (says_a(t, i, CLASS_NOT_EATING_FILLER)) i++;
  bool comma = is_mark(t, i, ',') && phrase_of(t, i + 1, CLASS_NOT_EATING) > 0;
  *kind = STATE_URGENT;
  if (says(t, i, "since") && is_word(t, i + 1) && !says(t, i + 1, "breakfast lunch dinner tea noon midnight this he she we i it then")) {
    size_t end = post_clause_end(t, i);
    return (end < i + 6 ? end : i + 6) - at;
  }
  size_t days = a_day_or_more(t, i);
  if (days > 0) return i + days - at;
  if (comma) return used;
  *kind = STATE_ILL;
  bool ends = i >= t->count || t->item[i].kind == TOKEN_MARK || says(t, i, "today and so but this");
  bool bare = says(t, at, "without won't nothing doesn't eats eating ate had has") || /* "on Sundays he eats nothing" */
              (says(t, at, "no") && !says(t, at + 1, "appetite"));
  return ends && !bare ? i - at : 0;
}

/* "stage 3 kidneys" */
static size_t stage_of_organ(const struct tokens *t, size_t at, enum state_kind *kind) {
  const char *organ;
  size_t used = says(t, at, "stage grade") && is_number(t, at + 1) ? organ_at(t, at + 2, &organ) : 0;
  *kind = STATE_ILL;
  return used > 0 ? used + 2 : 0;
}

/* ---- it hurts ---- */

/* "a sore neck", "his neck is very stiff"; not "stiff legs of celery". */
static size_t sore_at(const struct tokens *t, size_t at) {
  if (says_a(t, at, CLASS_SORE) && says_a(t, at + 1, CLASS_SORE_PART)) return says(t, at + 2, "of") ? 0 : 2;
  if (!says_a(t, at, CLASS_SORE_PART) || !says(t, at + 1, "is are seems seem looks look feels gets was")) return 0;
  size_t i = at + 2;
  while (says(t, i, "a bit very so quite rather really little still also")) i++;
  return says_a(t, i, CLASS_SORE) && at > 0 && is_whose(t, at - 1) ? i + 1 - at : 0;
}

/* "doesn't want to be touched on the neck", "hates his back touched"; not "won't touch the turkey neck". */
static size_t not_touched_at(const struct tokens *t, size_t at) {
  enum { FAR = 9 };
  bool touched = false, its = false;
  if (!says(t, at, "doesn't doesnt don't dont not won't wont hates hate hating dislikes flinches cries yelps screams")) return 0;
  size_t end = post_clause_end(t, at), part = 0;
  for (size_t i = at + 1; i < end && i < at + FAR; i++) {
    touched = touched || says(t, i, "touched stroked petted patted handled touching stroking");
    its = its || (says(t, i, "touch stroke pet handle") && is_whose(t, i + 1));
    if (says_a(t, i, CLASS_SORE_PART)) part = i;
    if ((touched || its) && part > 0) {
      while (says(t, i + 1, "touched stroked any more anymore")) i++;
      return i + 1 - at;
    }
  }
  return 0;
}

size_t post_sign_at(struct post_reader *r, const struct tokens *t, size_t at, enum state_kind *kind) {
  size_t hurts = sore_at(t, at);
  if (hurts == 0) hurts = not_touched_at(t, at);
  if (hurts > 0) {
    *kind = STATE_ILL;
    return hurts;
  }
  size_t used = organ_sign_at(r, t, at, kind);
  if (used == 0) used = trouble_then_organ(r, t, at, kind);
  if (used == 0) used = in_an_organ(t, at, kind);
  if (used == 0) used = stage_of_organ(t, at, kind);
  return used > 0 ? used : not_eating_at(t, at, kind);
}

/* ---- weight that is lost ---- */

/* "has lost 2 kg", "lost almost 600 g". */
static bool hear_lost(struct post_reader *r, struct tokens *t, size_t at) {
  size_t from = at + 1;
  double kg;
  if (!says(t, at, "lost dropped")) return false;
  while (says(t, from, "about around nearly almost over another more than roughly a whole")) from++;
  size_t used = post_weight_at(t, from, &kg);
  if (used == 0 && is_number(t, from) && says(t, from + 1, "g grams gr") && t->item[from].value >= 200)
    used = 2, kg = t->item[from].value / 1000;
  if (used == 0 || (is_word(t, from + used) && post_mention_at(r, t, from + used) > 0)) return false;
  r->loses = true;
  r->lost_kg = kg;
  post_claim(r, tokens_span(t, at, from + used - at), CLAIM_TOLD, 0, 0);
  take(t, at, from + used - at);
  return true;
}

/* "lost weight from 5 kg to 3.4 kg", "down from 4.5 kg": the old weight is taken out, with the words around it. */
void post_hear_loss(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    if (holds_a(t, i, i + 1, CLASS_WANTS_LESS_WEIGHT)) r->wants_less = true;
    size_t used = phrase_of(t, i, CLASS_LOST_WEIGHT), at = i + used;
    if (hear_lost(r, t, i) || used == 0) continue;
    r->loses = true;
    while (at < i + used + 3 && says(t, at, "and is now it weight")) at++;
    if (says(t, at, "from")) at++;
    double kg;
    size_t old = post_weight_at(t, at, &kg);
    if (old == 0 && says(t, at - 1, "from") && is_number(t, at) && says(t, at + 1, "to") && post_weight_at(t, at + 2, &kg) > 0)
      old = 1, kg = t->item[at].value; /* "from 5 to 3.4 kg" */
    if (old == 0 || !says(t, at - 1, "from")) continue;
    if (!(r->past_kg > 0)) r->past_kg = kg;
    size_t end = at + old + (says(t, at + old, "to") ? 1 : 0);
    post_claim(r, tokens_span(t, i, end - i), CLAIM_TOLD, 0, 0);
    take(t, i, end - i);
  }
}
