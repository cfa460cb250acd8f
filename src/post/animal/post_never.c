/* What the owner says is never to be fed, though it is no danger: allergies, dislikes, a diet. Nothing with it is proposed;
 * where it is fed all the same, that is asked. */
#include "base/table.h"
#include "foods/hazard_words.h"
#include "foods/refused.h"
#include "post/animal/post_animal.h"

/* ---- one food ---- */

/* The tokens of a food, or of a word for several, that begins here; 0. What is a danger is never proposed anyway. */
static size_t food_at(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { MOST_WORDS = 3 };
  size_t used = post_mention_at(r, t, at), most = 0;
  while (most < MOST_WORDS && is_word(t, at + most)) most++;
  for (size_t n = most; n > used; n--)
    if (food_group_of(r->lib, tokens_span(t, at, n), r->arena)) used = n;
  if (used == 0 || hazard_words_danger(r->lib, tokens_span(t, at, used), SPECIES_BOTH, r->arena) != NO_INDEX) return 0;
  return used;
}

/* The same with "raw" or "cooked" before it. */
static size_t food_in_a_state_at(struct post_reader *r, const struct tokens *t, size_t at) {
  size_t state = says(t, at, "raw cooked") ? 1 : 0, used = food_at(r, t, at + state);
  return used > 0 ? state + used : 0;
}

static void never(struct post_reader *r, struct span words) {
  struct buf b;
  buf_init(&b, r->keep, words.n + 8);
  for (size_t i = 0; i < words.n; i++)
    buf_addc(&b, words.p[i] >= 'A' && words.p[i] <= 'Z' ? (char)(words.p[i] | 0x20) : words.p[i]);
  for (size_t i = 0; i < r->never_count; i++)
    if (strcmp(r->never[i], buf_text(&b)) == 0) return;
  if (r->never_count < COUNT_OF(r->never)) r->never[r->never_count++] = buf_text(&b);
}

/* ---- a list of them ---- */

static bool is_between(const struct tokens *t, size_t at) {
  return is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, '+') ||
         says(t, at, "and or nor no any n");
}

/* Where the list that begins here ends; its foods are taken where 'take'. 'from' when there is none. Behind a colon it goes
 * on over what is no food: "Not allowed: cheese, bones, his beloved liver treats". */
static size_t foods_from(struct post_reader *r, const struct tokens *t, size_t from, bool take) {
  bool listed = from > 0 && is_mark(t, from - 1, ':');
  size_t end = from, at = from;
  for (;;) {
    size_t used = food_in_a_state_at(r, t, at);
    if (used == 0 && !listed) return end;
    if (used == 0 && (!is_word(t, at) || says_a(t, at, CLASS_CLAUSE_OPENER))) return end;
    if (used == 0) {
      at++;
    } else {
      if (take) never(r, tokens_span(t, at, used));
      end = at += used;
    }
    size_t next = at;
    while (is_between(t, next)) next++;
    if (next == at && !listed) return end;
    at = next;
  }
}

static size_t pass_fillers(const struct tokens *t, size_t at) {
  while (is_mark(t, at, ':') || is_mark(t, at, '-')) at++;
  for (size_t used; (used = phrase_of(t, at, CLASS_NEVER_FILLER)) > 0;) at += used;
  return at;
}

/* "won't eat liver unless it is cooked", "avoid liver every day": not never. */
static bool is_limited(const struct tokens *t, size_t behind) {
  return frequency_at(t, behind).tokens > 0 || says_a(t, behind, CLASS_UNLESS);
}

/* "No, she hates it" without the comma: an answer to somebody's question, and then a sentence of its own. */
static bool is_answer(const struct tokens *t, size_t at) {
  return says(t, at, "no nope") && says(t, at + 1, "she she's shes he he's hes it it's they they're i i'm we my our");
}

/* "He doesn't like the liver much", and gets it: no wish. */
static bool is_mild_and_fed(struct post_reader *r, const struct tokens *t, size_t from, size_t behind) {
  if (!says(t, behind, "much") && !(says(t, behind, "that very so all too") && says(t, behind + 1, "much"))) return false;
  struct span food = tokens_span(t, from, behind - from);
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].kind == ITEM_FOOD && food_is_refused(r->lib, r->item[i].food, "", food, r->arena)) return true;
  return false;
}

/* "not allergic to", "no longer avoids": a word of denial right before. */
static bool is_denied(const struct tokens *t, size_t at) {
  enum { FAR = 4 };
  for (size_t i = at; i-- > 0 && i + FAR > at && t->item[i].kind == TOKEN_WORD;) {
    if (says(t, i, "because so and but as since") || is_answer(t, i)) return false;
    if (says(t, i, "not isn't isnt never no longer aren't doesn't doesnt don't dont wasn't was were should") &&
        !says(t, i + 1, "sure"))
      return true;
    if (i > 0 && says(t, i, "to") && says(t, i - 1, "used")) return true;
  }
  return false;
}

/* ---- the ways to say it ---- */

static bool is_of_ours(struct post_reader *r, const struct tokens *t, size_t at, size_t behind) {
  struct span of;
  int species;
  for (size_t i = at; i-- > 0;) { /* "Fudge, 5.9 kg, doesn't like egg" */
    struct span name = post_pet_name(r, t, i);
    if (name.n > 0 && r->asked_about.n > 0) return post_is_ours(r, name, -1);
    for (size_t k = 0; k < r->named_count && name.n > 0; k++)
      if (post_same_name(r->named[k].name, name)) return post_is_ours(r, name, -1);
  }
  return post_told_of(r, t, at, behind, &of, &species) && post_is_ours(r, of, species);
}

/* "allergic to chicken and beef", "can't have fish": how many tokens; 0. */
static size_t said_before(struct post_reader *r, const struct tokens *t, size_t at) {
  size_t phrase = phrase_of(t, at, CLASS_NEVER_BEFORE);
  if (phrase == 0) return 0;
  size_t from = pass_fillers(t, at + phrase), end = foods_from(r, t, from, false);
  if (end == from || is_limited(t, end) || is_denied(t, at) || !is_of_ours(r, t, at, at + phrase)) return 0;
  if (is_mild_and_fed(r, t, from, end)) return 0;
  foods_from(r, t, from, true);
  return end - at;
}

static const char WHOLE_BONES[] = "whole bones";

/* "She chokes on chicken necks", "can't manage bones": how many tokens; 0. Bone that is ground is another matter. */
static size_t said_of_bones(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { NEAR = 4 };
  size_t phrase = phrase_of(t, at, CLASS_BONE_TROUBLE), from = pass_fillers(t, at + phrase);
  if (phrase == 0 || is_denied(t, at) || !is_of_ours(r, t, at, at + phrase)) return 0;
  for (size_t i = from; i < t->count && i < from + NEAR && t->item[i].kind == TOKEN_WORD; i++) {
    if (!says_a(t, i, CLASS_BONY) || says(t, i + 1, "meal broth stock")) continue;
    never(r, span_of(WHOLE_BONES));
    return i + 1 - at;
  }
  return 0;
}

/* "He has no teeth left" */
static size_t said_of_teeth(struct post_reader *r, const struct tokens *t, size_t at) {
  size_t phrase = phrase_of(t, at, CLASS_NO_TEETH);
  if (phrase == 0 || is_denied(t, at) || !is_of_ours(r, t, at, at + phrase)) return 0;
  if (says(t, at + phrase, "problem problems issue issues trouble")) return 0;
  never(r, span_of(WHOLE_BONES));
  return phrase;
}

static const char MAKES_ILL[] = "makes make gives give causes cause";

/* Is anything said at all that may stand behind a food? Whether a word names one costs more to find out. */
static bool may_be_said_behind(const struct tokens *t) {
  for (size_t i = 1; i < t->count; i++)
    if (phrase_of(t, i, CLASS_NEVER_BEHIND) > 0 || says(t, i, "free") || says(t, i, MAKES_ILL)) return true;
  return false;
}

/* "chicken allergy", "beef is off limits", "chicken gives her itchy skin", "grain-free". */
static size_t said_behind(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { NEAR = 6 };
  size_t end = foods_from(r, t, at, false), to = end;
  if (end == at) return 0;
  if (is_mark(t, end, '-')) end++;
  size_t phrase = phrase_of(t, end, CLASS_NEVER_BEHIND);
  if (phrase == 0 && says(t, end, "free") && says(t, end + 1, "diet diets food please and") &&
      food_group_of(r->lib, tokens_span(t, at, to - at), r->arena))
    phrase = 1; /* "grain free diet" */
  bool makes = says(t, end, MAKES_ILL);
  for (size_t i = end + 1; makes && phrase == 0 && i < t->count && i < end + NEAR && t->item[i].kind == TOKEN_WORD; i++)
    if (says_a(t, i, CLASS_COMPLAINT)) phrase = i + 1 - end;
  if (phrase == 0 || is_denied(t, at) || !is_of_ours(r, t, at, end + phrase)) return 0;
  if (says(t, end, "sensitive allergic") && says(t, end + 1, "to")) return 0; /* the food stands behind it */
  foods_from(r, t, at, true);
  return end + phrase - at;
}

static bool is_wish(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (is_mark(t, i, '!') || phrase_of(t, i, CLASS_WISHED) > 0) return true;
  return false;
}

/* "We tried liver and she got the runs, so no liver" */
static bool after_a_complaint(const struct tokens *t, size_t at) {
  return at > 0 && says(t, at - 1, "so therefore hence") && holds_a(t, 0, at, CLASS_COMPLAINT);
}

/* "Please no chicken or beef!": a fact ("no liver in it yet") is none. */
static size_t said_no(struct post_reader *r, const struct tokens *t, size_t at) {
  bool way = says(t, at + 1, "animal") && says(t, at + 2, "products product protein"); /* no fact of today but a way to live */
  if (!says(t, at, "no without") || !(is_wish(t) || way || after_a_complaint(t, at))) return 0;
  size_t from = pass_fillers(t, at + 1), end;
  if (says(t, from, "more")) from++;
  end = foods_from(r, t, from, false);
  if (end == from || is_limited(t, end) || says_a(t, end, CLASS_AS_OF_NOW) || !is_of_ours(r, t, at, at + 1)) return 0;
  if (at > 0 && says(t, at - 1, "there's theres is are has have got had was gets contains with"))
    return 0; /* "there is no liver in it" */
  foods_from(r, t, from, true);
  return end - at;
}

/* "Vegetarian diet for my dog", "I want her vegan", and not "my vegan friend". */
static size_t said_as_diet(struct post_reader *r, const struct tokens *t, size_t at) {
  const char *holds;
  size_t used = meaning_at(t, at, CLASS_DIET, &holds);
  if (used == 0) return 0;
  size_t behind = at + used;
  bool noun = says_a(t, behind, CLASS_DIET_NOUN);
  bool alone = behind >= t->count || t->item[behind].kind == TOKEN_MARK ||
               says(t, behind, "because since and but for as so now too dog cat");
  bool subject = at > 0 && says_a(t, at - 1, CLASS_DIET_SUBJECT) && alone;
  bool asked = t->count > 0 && is_mark(t, t->count - 1, '?') && (at == 0 || says(t, at - 1, "a"));
  if ((!noun && !subject) || asked || is_denied(t, at) || !is_of_ours(r, t, at, behind)) return 0;
  for (struct span rest = span_of(holds); rest.n > 0;) never(r, span_trim(span_piece(&rest, ',')));
  return used;
}

static bool is_question(const struct tokens *t) {
  if (t->count == 0 || !is_mark(t, t->count - 1, '?')) return false;
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "please pls plz he she he's she's his her my")) return false;
  return true;
}

static void hear(struct post_reader *r, const struct tokens *t) {
  if (is_question(t) || is_of_another(t)) return;
  bool behind = may_be_said_behind(t);
  for (size_t i = 0; i < t->count; i++) {
    size_t used = said_of_bones(r, t, i);
    if (used == 0) used = said_of_teeth(r, t, i);
    if (used == 0) used = said_before(r, t, i);
    if (used == 0) used = said_no(r, t, i);
    if (used == 0 && behind) used = said_behind(r, t, i);
    if (used == 0) used = said_as_diet(r, t, i);
    if (used > 0) i += used - 1;
  }
}

/* "Chokes on bones." alone was left as something that is fed: it tells of the animal. */
static void forget_of_bones(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_UNKNOWN) continue;
    struct tokens t = post_tokens(r, span_of(r->item[i].text));
    size_t at = says(&t, 0, "he she it they and") ? 1 : 0, phrase = phrase_of(&t, at, CLASS_BONE_TROUBLE);
    if (phrase == 0) phrase = phrase_of(&t, at, CLASS_NO_TEETH);
    if (phrase == 0) continue;
    r->item[i].kind = ITEM_GONE;
    for (size_t k = 0; k < r->left_count; k++)
      if (strcmp(r->left[k].text, r->item[i].text) == 0) {
        r->left[k].fed = false;
        r->left[k].why = "of the animal";
      }
    for (size_t k = r->question_count; k-- > 0;)
      if (strstr(r->question[k].ask, r->item[i].text)) {
        memmove(r->question + k, r->question + k + 1, (r->question_count - k - 1) * sizeof *r->question);
        r->question_count--;
      }
  }
}

static bool is_refused(const struct post_reader *r, const char *words) {
  for (size_t i = 0; i < r->never_count; i++)
    if (strcmp(r->never[i], words) == 0) return true;
  return false;
}

/* Whoever wants neither meat nor fish wants no mussels, and "animal products" are all of them: said one by one, so that whatever
 * looks for one of them finds it. */
static void spell_out(struct post_reader *r) {
  static const char *const ALL[] = {"meat", "fish", "shellfish", "eggs", "dairy"};
  bool animal = is_refused(r, "animal products") || is_refused(r, "animal product");
  for (size_t i = 0; animal && i < COUNT_OF(ALL); i++) never(r, span_of(ALL[i]));
  if (is_refused(r, "meat") && is_refused(r, "fish")) never(r, SPAN_LIT("shellfish"));
}

/* ---- fed all the same ---- */

static void ask_where_fed(struct post_reader *r, const char *refused) {
  if (strcmp(refused, "new food") == 0) return; /* what is fed is the trial's own */
  for (size_t i = 0; i < r->count; i++) {
    const struct item *item = &r->item[i];
    if (item->kind != ITEM_FOOD || !food_is_refused(r->lib, item->food, "", span_of(refused), r->arena)) continue;
    r->line = item->line;
    r->ask_of = i + 1;
    post_ask(r, 3, "Is '%s' fed? You write that there is to be no %s. It was counted.", item->text, refused);
    r->ask_of = 0;
    r->line = 0;
    return;
  }
}

void post_hear_never(struct post_reader *r) {
  for (size_t i = 0; i < r->heard_count; i++) {
    struct tokens t = post_tokens(r, r->heard[i].text);
    hear(r, &t);
    arena_rewind(r->arena, r->begin);
  }
  if (is_refused(r, WHOLE_BONES)) forget_of_bones(r);
  spell_out(r);
  for (size_t i = 0; i < r->never_count; i++) ask_where_fed(r, r->never[i]);
}
