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

/* "2.5 % a day so you can do the sums", "works out as 1.8 % of him daily", "fed at 2.2 % like the breeder taught us": of what
 * the animal weighs, whatever the other words are, where the clause names no food. Taken; false: it is none. */
static bool takes_share_of_animal(struct post_reader *r, struct tokens *t, size_t at, const struct post_amount *a) {
  static const double LEAST = 1, MOST = 10; /* of its weight a day: common practice, the most of the young */
  size_t end = at + a->tokens, from = at, of = says(t, end, "of") ? end + 1 : end;
  enum species s;
  if (!a->is_percent || a->low < LEAST || a->low > MOST || r->feeds_percent > 0) return false;
  if (of > end && says(t, of, "my our the this")) of++;
  bool animal = of > end && is_word(t, of) &&
                (says(t, of, "him her it them itself himself herself") || token_is_animal(&t->item[of], &s) ||
                 post_pet_name(r, t, of).n > 0);
  bool weighs = of > end && says(t, of, "what") && is_word(t, of + 1) && says(t, of + 2, "weighs weigh"); /* "what he weighs" */
  animal = animal || weighs;
  size_t day = weighs ? of + 3 : animal ? of + 1 : end, to = day + day_words(t, day);
  while (from > 0 && !ends_clause(t, from - 1)) from--;
  bool rate = at > 1 && says(t, at - 1, "at") && says_a(t, at - 2, CLASS_FEEDING_BEFORE_TOTAL);
  if (!animal && to == day && !rate) return false;
  size_t behind = to;
  while (!ends_clause(t, behind)) behind++;
  if (tells_of_food(r, t, from, at) || tells_of_food(r, t, to, behind)) return false;
  if (!tells_of_food(r, t, behind, t->count)) behind = t->count; /* "... so you can do the sums" */
  r->feeds_percent = a->low;
  take(t, at, behind - at);
  return true;
}

/* "Whippet bitch 11 kg, 2.5%:", "31 kg, fed at 3 %": behind a weight, where the sentence names no food. */
static bool is_share_of_weight(struct post_reader *r, const struct tokens *t, size_t at, const struct post_amount *a) {
  static const double LEAST = 1, MOST = 6;
  double kg = 0;
  size_t end = at + a->tokens;
  bool ends = end >= t->count || (t->item[end].kind == TOKEN_MARK && end + 1 >= t->count) || says(t, end, "a per daily raw");
  if (!a->is_percent || !ends || !(a->low >= LEAST && a->low <= MOST) || says(t, end, "fat lean") || says(t, end + 1, "fat"))
    return false;
  for (size_t i = 0; i < at && kg == 0; i++)
    if (post_weight_at(t, i, &kg) == 0) kg = 0;
  return kg > 0 && !post_names_food(r, t, 0, t->count);
}

/* "2.5% of body weight", "22 kg and she's fed at 3 % of that", "31 kg, 2.5 %": taken; false: it is no share of a weight. */
static bool takes_share_of_weight(struct post_reader *r, struct tokens *t, size_t i, const struct post_amount *a) {
  static const char *const OF_BODY[] = {"of body weight",     "of bodyweight", "body weight", "of her body weight",
                                        "of his body weight", "bodyweight"};
  size_t end = i + a->tokens;
  if (is_share_of_weight(r, t, i, a)) {
    r->feeds_percent = a->low;
    take(t, i, a->tokens);
    return true;
  }
  for (size_t k = 0; a->is_percent && k < COUNT_OF(OF_BODY); k++) {
    if (phrase_at(t, end, OF_BODY[k]) == 0) continue;
    r->feeds_percent = a->low;
    take(t, i, a->tokens);
    take_what_it_comes_to(r, t, end);
    return true;
  }
  if (takes_share_of_animal(r, t, i, a)) return true;
  bool of_told = a->is_percent && says(t, end, "of") &&
                 ((says(t, end + 1, "that this") && (end + 2 >= t->count || !is_word(t, end + 2))) ||
                  (says(t, end + 1, "her his its their the") && says(t, end + 2, "weight wt bodyweight ideal target")) ||
                  (says(t, end + 1, "ideal target current") && says(t, end + 2, "weight bodyweight")));
  for (size_t k = 0; of_told && says(t, end + 1, "that this") && k <= i; k++) { /* of the weight told before it */
    struct post_amount body = post_amount_at(t, k);
    of_told = k < i;
    if (body.is_mass) break;
  }
  if (!of_told) return false;
  r->feeds_percent = a->low;
  take(t, i, a->tokens + 2);
  return true;
}

/* "2.5% of body weight", "total 600g per day", "Batch of 4kg", "Total 7kg" */
/* "In total 500 g pork mince, 150 g rice, 60 g carrots": the first weight is that of the food behind it. */
static bool heads_a_list(struct post_reader *r, const struct tokens *t, size_t at, size_t end) {
  size_t food = end, next;
  while (is_word(t, food) && food < end + 5 && !says(t, food, "and plus a per each") && post_amount_at(t, food).tokens == 0) food++;
  next = food;
  if (at == 0 || !says(t, at - 1, "total altogether all") || !post_names_food(r, t, end, food)) return false;
  if (is_mark(t, next, '(')) /* "rice (cooked)" */
    while (next < t->count && !is_mark(t, next, ')')) next++;
  while (next < t->count && (t->item[next].kind == TOKEN_MARK || says(t, next, "and plus"))) next++;
  return next > food && next < t->count && post_amount_at(t, next).tokens > 0;
}

void post_hear_fed(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || a.low != a.high) continue;
    size_t end = i + a.tokens;
    if (takes_share_of_weight(r, t, i, &a)) return;
    bool of_weight = a.is_percent && phrase_at(t, end, "of") > 0; /* "2.5 % of his 30 kg" */
    size_t kg = end + (says(t, end + 1, "his her its the a") ? 2 : 1);
    struct post_amount body = of_weight ? post_amount_at(t, kg) : (struct post_amount){0};
    if (body.is_mass && strcmp(body.unit, "kg") == 0 && body.low == body.high) {
      r->feeds_percent = a.low;
      if (!(r->weight_kg > 0)) r->weight_kg = body.low, r->animal_line = r->line;
      take(t, i, kg + body.tokens - i);
      continue;
    }
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
    if (!a.is_mass || !total || heads_a_list(r, t, i, end)) continue;
    double grams = post_in_grams(&a);
    if (a_day) {
      r->feeds_g = grams;
      r->feeds_each = feeds && every_one_eats(t, i - 1 - about);
    } else
      r->total_g = grams;
    take(t, i, a.tokens);
  }
}
