/* How much is fed a day, and how much there is in all: "2.5 % of body weight", "total 600 g per day", "each one gets 200 g a
 * day", "I make 3 kg at a time". */
#include "post/whole/post_whole.h"

/* How many words from 'at' on say "a day"; 0. */
static size_t day_words(const struct tokens *t, size_t at) {
  return phrase_at(t, at, "per day") + phrase_at(t, at, "a day") + phrase_at(t, at, "daily") + phrase_at(t, at, "/ day");
}

/* How many say "in total"; 0. */
static size_t total_words(const struct tokens *t, size_t at) {
  return phrase_at(t, at, "in total") + phrase_at(t, at, "altogether") + phrase_at(t, at, "total");
}

/* "between them of:", "between the two of": of all of them, and what of it is told behind; how many tokens; 0. */
static size_t between_them_of(const struct tokens *t, size_t at) {
  size_t used = phrase_at(t, at, "between them") + phrase_at(t, at, "between the two") + phrase_at(t, at, "together");
  if (used == 0 || !says(t, at + used, "of")) return 0;
  used++;
  return is_mark(t, at + used, ':') ? used + 1 : used;
}

/* "3 % of body weight, so 600 g a day": the same in grams. */
static void take_what_it_comes_to(struct post_reader *r, struct tokens *t, size_t from) {
  for (size_t i = from; i + 1 < t->count; i++) {
    size_t so = says(t, i, "so = that's thats") || is_mark(t, i, '=') ? i + 1 : says(t, i, "which") ? i + 2 : 0;
    while (so > 0 && says(t, so, "is about that's around roughly")) so++;
    struct post_amount a = so > 0 ? post_amount_at(t, so) : (struct post_amount){0};
    if (!a.is_mass || a.low != a.high) continue;
    size_t end = so + a.tokens;
    end += day_words(t, end);
    if (end < t->count && t->item[end].kind == TOKEN_WORD) return; /* "so 600 g of beef" */
    r->feeds_g = post_in_grams(&a);
    take(t, i, end - i);
    return;
  }
}

/* "each", "apiece", "per cat", "for each of them": the tokens; 0. */
static size_t each_words(const struct tokens *t, size_t at) {
  enum species s;
  if (says(t, at, "each apiece")) return says_a(t, at + 1, CLASS_BEHIND_EACH_OF_TIME) ? 0 : 1;
  if (says(t, at, "per") && is_word(t, at + 1) &&
      (says(t, at + 1, "head animal") || is_animal_word(t->item[at + 1].word, &s)))
    return 2;
  if (!says(t, at, "for to") || !says(t, at + 1, "each")) return 0;
  return phrase_at(t, at + 2, "of them") > 0                                                          ? 4
         : is_word(t, at + 2) && (says(t, at + 2, "one") || is_animal_word(t->item[at + 2].word, &s)) ? 3
                                                                                                      : 2;
}

/* "They eat 150 g each per day", with nothing named between: the tokens behind the amount; 0. */
static size_t eaten_by_each(const struct tokens *t, size_t at, size_t end) {
  size_t about = at > 0 && says(t, at - 1, "about approx approximately around roughly") ? 1 : 0;
  if (at <= about || !says_a(t, at - 1 - about, CLASS_FEEDING_BEFORE_TOTAL)) return 0;
  size_t each = each_words(t, end), day = each > 0 ? day_words(t, end + each) : 0;
  if (day == 0 && each == 0 && (day = day_words(t, end)) > 0) each = each_words(t, end + day);
  return day > 0 && each > 0 ? each + day : 0;
}

/* "Each one gets", "every cat has", "they each eat", "both get": is the verb at 'verb' one of every one of them? */
static bool every_one_eats(const struct tokens *t, size_t verb) {
  enum species s;
  if (verb == 0) return false;
  if (says(t, verb - 1, "each both")) return true;
  if (phrase_at(t, verb - 1, "them") > 0 && verb > 2 && says(t, verb - 2, "of") && says(t, verb - 3, "each both"))
    return true;
  return verb > 1 && says(t, verb - 2, "each every") && is_word(t, verb - 1) &&
         (says(t, verb - 1, "one") || is_animal_word(t->item[verb - 1].word, &s));
}

/* "They eat about 150 g each per day": what one of several gets. "I make 3 kg at a time". Taken; false: neither. */
static bool of_each_or_at_once(struct post_reader *r, struct tokens *t, size_t at, const struct post_amount *a) {
  size_t end = at + a->tokens, each = eaten_by_each(t, at, end), from = at;
  size_t once = each == 0 && post_is_made_at_once(t, at, a->tokens) ? phrase_of(t, end, CLASS_MADE_AT_ONCE) : 0;
  if (each + once == 0) return false;
  *(each > 0 ? &r->feeds_g : &r->total_g) = post_in_grams(a);
  r->feeds_each = r->feeds_each || each > 0;
  while (from > 0 && says(t, from - 1,
                          each > 0 ? "about approx approximately around roughly they eat get both of them"
                                   : "i we make cook prep batch about around roughly"))
    from--;
  take(t, from, end + each + once - from);
  return true;
}

static bool ends_clause(const struct tokens *t, size_t at) {
  return at >= t->count || (t->item[at].kind == TOKEN_MARK && memchr(",.;:()!?", (int)t->item[at].mark, 8)) ||
         says(t, at, "and but so because");
}

/* Does [from, to) tell of a food, of something else that is fed, or of another amount? */
static bool tells_of_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (post_amount_at(t, i).tokens > 0 || says_a(t, i, CLASS_FED_THING) || says_a(t, i, CLASS_KIND_OF_FOOD)) return true;
  return from < to && post_names_food(r, t, from, to);
}

enum { SHARE_LEAST = 1, SHARE_MOST = 10, SHARE_MOST_UNSAID = 6 }; /* % of its weight a day, the most of the young: common practice */

/* "of body weight", "bodyweight", "of her ideal weight", "of what he weighs", "of him", "of our Bess", "of his 30 kg"; what
 * says so from 'at' on: how many tokens, 0 nothing. 'kg': the weight, where it is told there. */
static size_t of_the_animal(struct post_reader *r, const struct tokens *t, size_t at, double *kg) {
  static const char *const BODY[] = {"body weight", "bodyweight", "body weight."};
  enum species s;
  size_t i = at + (size_t)says(t, at, "of");
  bool whose = says(t, i, "her his its their the my our this a");
  size_t next = i + (size_t)whose;
  for (size_t k = 0; k < COUNT_OF(BODY); k++)
    if (phrase_at(t, next, BODY[k]) > 0) return next + phrase_at(t, next, BODY[k]) - at;
  if (i == at) return 0; /* all others behind "of" */
  if (says(t, next, "ideal target current goal")) next++;
  if (next > i && says(t, next, "weight wt bodyweight")) return next + 1 - at;
  if (says(t, i, "what") && is_word(t, i + 1) && says(t, i + 2, "weighs weigh")) return i + 3 - at;
  struct post_amount body = post_amount_at(t, i + (size_t)whose);
  if (body.is_mass && strcmp(body.unit, "kg") == 0 && body.low == body.high) {
    *kg = body.low;
    return i + (size_t)whose + body.tokens - at;
  }
  size_t who = i + (size_t)says(t, i, "my our the this");
  bool animal = is_word(t, who) && (says(t, who, "him her it them itself himself herself") ||
                                    token_is_animal(&t->item[who], &s) || post_pet_name(r, t, who).n > 0);
  return animal ? who + 1 - at : 0;
}

/* "22 kg and she's fed at 3 % of that": of the weight told before it; two tokens. */
static size_t of_told_weight(const struct tokens *t, size_t at, size_t percent) {
  if (!says(t, at, "of") || !says(t, at + 1, "that this") || (at + 2 < t->count && is_word(t, at + 2))) return 0;
  for (size_t k = 0; k < percent; k++)
    if (post_amount_at(t, k).is_mass) return 2;
  return 0;
}

/* "Whippet bitch 11 kg, 2.5%:", "31 kg, fed at 3 %": behind a weight, where the sentence names no food. */
static bool is_behind_weight(struct post_reader *r, const struct tokens *t, size_t at, size_t end, double percent) {
  double kg = 0;
  bool ends = end >= t->count || (t->item[end].kind == TOKEN_MARK && end + 1 >= t->count) || says(t, end, "a per daily raw");
  if (!ends || percent > SHARE_MOST_UNSAID || says(t, end, "fat lean") || says(t, end + 1, "fat")) return false;
  for (size_t i = 0; i < at && kg == 0; i++)
    if (post_weight_at(t, i, &kg) == 0) kg = 0;
  return kg > 0 && !post_names_food(r, t, 0, t->count);
}

/* "2.5 % a day so you can do the sums", "fed at 2.2 % like the breeder taught us": the clause names no food, and says a
 * day or what it is fed at. Where it ends; 0 it is no such clause. */
static size_t clause_of_share(struct post_reader *r, const struct tokens *t, size_t at, size_t end, size_t of) {
  size_t from = at, to = end + of, day = day_words(t, to), behind = to + day;
  bool rate = at > 1 && says(t, at - 1, "at") && says_a(t, at - 2, CLASS_FEEDING_BEFORE_TOTAL);
  if (of == 0 && day == 0 && !rate) return 0;
  while (from > 0 && !ends_clause(t, from - 1)) from--;
  while (!ends_clause(t, behind)) behind++;
  if (tells_of_food(r, t, from, at) || tells_of_food(r, t, to + day, behind)) return 0;
  return tells_of_food(r, t, behind, t->count) ? behind : t->count;
}

/* The one reader of a share of what the animal weighs: "2.5% of body weight", "3 % of that", "2.5 % of his 30 kg", "31 kg,
 * 2.5 %", "fed at 2.2 % like the breeder taught us". Taken; false: it is none. */
static bool takes_share_of_weight(struct post_reader *r, struct tokens *t, size_t at, const struct post_amount *a) {
  if (!a->is_percent) return false;
  double kg = (double)NAN;
  size_t end = at + a->tokens, used = of_the_animal(r, t, end, &kg), behind = end + used;
  bool weight = used > 0 && (kg > 0 || says(t, behind - 1, "weight wt bodyweight weight."));
  if (used == 0) used = of_told_weight(t, end, at), behind = end + used, weight = used > 0;
  bool usual = a->low >= SHARE_LEAST && a->low <= SHARE_MOST;
  if (!weight && usual && is_behind_weight(r, t, at, end, a->low)) behind = end, weight = true;
  if (!weight) { /* no weight is named: only where nothing else can be meant */
    behind = usual && !(r->feeds_percent > 0) ? clause_of_share(r, t, at, end, used) : 0;
    if (behind == 0) return false;
  }
  r->feeds_percent = a->low;
  if (kg > 0 && !(r->weight_kg > 0)) r->weight_kg = kg, r->animal_line = r->line;
  take(t, at, behind - at);
  if (weight) take_what_it_comes_to(r, t, behind);
  return true;
}

/* "2.5% of body weight", "total 600g per day", "Batch of 4kg", "Total 7kg" */
void post_hear_fed(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || a.low != a.high) continue;
    size_t end = i + a.tokens;
    if (takes_share_of_weight(r, t, i, &a)) return;
    size_t mix = phrase_of(t, end, CLASS_OF_THE_MIX);
    if (mix > 0 && a.is_mass) { /* "for 100 g of mix: ...", "140 g of the mix a day" */
      size_t a_day = day_words(t, end + mix);
      *(a_day > 0 ? &r->feeds_g : &r->total_g) = post_in_grams(&a);
      r->of_mix = true;
      take(t, i, a.tokens + mix + a_day);
      continue;
    }
    size_t daily = day_words(t, end), behind = total_words(t, end);
    size_t used = daily > 0 ? total_words(t, end + daily) : 0; /* "400 g a day in total, made up of" */
    if (used > 0 && a.is_mass) {
      r->feeds_g = post_in_grams(&a);
      size_t to = end + daily + used;
      if (is_mark(t, to, ',') && says(t, to + 1, "made consisting split")) to++;
      while (to < t->count && says_a(t, to, CLASS_MADE_UP_OF)) to++;
      take(t, i, to - i);
      continue;
    }
    size_t list = daily > 0 && a.is_mass ? between_them_of(t, end + daily) : 0;
    if (list > 0 && !post_any_amount(t, end + daily + list)) { /* "300 g a day between them of: turkey thigh, some heart" */
      r->feeds_g = post_in_grams(&a);
      take(t, end, daily + list);
      return;
    }
    if (a.is_mass && of_each_or_at_once(r, t, i, &a)) continue;
    end += behind;
    size_t bowl = phrase_at(t, end, "in the bowl") + phrase_at(t, end, "in his bowl") + phrase_at(t, end, "in her bowl");
    if (bowl > 0) end += bowl;
    bool so = i > 0 && says(t, i - 1, "so i.e makes") ? true : i > 1 && is_mark(t, i - 1, '.') && says(t, i - 2, "e i.e");
    bool total = behind || (i > 0 && (says(t, i - 1, "total totals totalling altogether") ||
                                      (i > 1 && says(t, i - 1, "size") && says(t, i - 2, "batch")) ||
                                      (i > 1 && says(t, i - 1, "of is") && says(t, i - 2, "batch total")) ||
                                      (i > 1 && is_mark(t, i - 1, ':') && says(t, i - 2, "total batch") &&
                                       !(end < t->count && t->item[end].kind == TOKEN_WORD))));
    bool a_day = day_words(t, end) > 0;
    size_t about = i > 0 && says(t, i - 1, "about approx approximately around roughly") ? 1 : 0;
    bool makes = i > about && says(t, i - 1 - about, "makes make yields yield");
    bool feeds = a_day && i > about && says_a(t, i - 1 - about, CLASS_FEEDING_BEFORE_TOTAL);
    if (feeds && says(t, end + 2, "altogether total")) total = true;
    bool food = end < t->count && !a_day && t->item[end].kind == TOKEN_WORD && !says_a(t, end, CLASS_NO_FOOD_BEHIND_TOTAL);
    if (says(t, end, "of") && is_word(t, end + 1) && !says(t, end + 1, "it this that the food"))
      food = true; /* "I make 3 kg of beef" */
    total = total || ((makes || feeds) && !food && a.is_mass) || (so && a_day && a.is_mass);
    if (!a.is_mass || !total) continue;
    double grams = post_in_grams(&a);
    if (a_day) {
      r->feeds_g = grams;
      r->feeds_each = feeds && every_one_eats(t, i - 1 - about);
    } else
      r->total_g = grams;
    take(t, i, a.tokens);
  }
}
