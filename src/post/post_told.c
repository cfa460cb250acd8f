/* What a sentence tells: is it of our animal, is it fed, is it a heading, and the foods in it. */
#include "foods/hazard_words.h"
#include "post/animal/post_animal.h"
#include "post/govern/post_govern.h"
#include "post/line/post_line.h"
#include "post/post_parts.h"
#include "post/rewrite/post_rewrite.h"
#include "post/whole/post_whole.h"

/* Without the tokens that were taken. */
static struct tokens left_over(const struct tokens *t, size_t from, struct arena *arena) {
  struct tokens out = {ARENA_NEW(arena, struct token, t->count + 1), 0};
  for (size_t i = from; i < t->count; i++)
    if (!t->item[i].taken) out.item[out.count++] = t->item[i];
  return out;
}

/* "... so now he gets": what follows is fed. */
static size_t now_at(const struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++)
    if ((says(t, i, "so but and") && says(t, i + 1, "now")) || (says(t, i, "now") && says(t, i + 1, "he she i we they")))
      return i + 1;
  return 0;
}

static void read_words(struct post_reader *r, struct span text, bool bulleted);

/* A danger that is named in passing is asked about, although no food was read. */
void post_read_sentence(struct post_reader *r, struct span text, bool bulleted) {
  size_t items = r->count, left = r->left_count;
  text = post_written_out(r, post_those_days(r, text));
  post_hear(r, text, bulleted);
  read_words(r, text, bulleted);
  post_doubt_most_days(r, text, items);
  post_doubt_swapped(r, items);
  if (r->count > items || r->left_count > left) return;
  uint32_t danger = hazard_words_danger(r->lib, post_without_tea_time(r, text), SPECIES_BOTH, r->arena);
  if (danger != NO_INDEX) post_ask_of_danger(r, danger, text, false);
}

/* "No onions" and "stopped the grapes" name no danger; their other words do. */
static bool names_danger_denied(struct post_reader *r, const struct tokens *t) {
  struct buf named;
  buf_init(&named, r->arena, 400);
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].kind == TOKEN_WORD && !says(t, i, "no never not without stopped quit used gave given ago last"))
      buf_addf(&named, "%.*s ", SPAN_ARG(t->item[i].at));
  return hazard_words_danger(r->lib, buf_span(&named), SPECIES_BOTH, r->arena) != NO_INDEX;
}

/* "No onions, ever": nothing is fed by it, and it is told so. */
static bool refuses_danger(struct post_reader *r, const struct tokens *t, struct span text) {
  bool no = false;
  if (post_any_amount(t, 0)) return false;
  for (size_t i = 0; i < t->count; i++) no = no || says_a(t, i, CLASS_REFUSING);
  if (!no || !names_danger_denied(r, t)) return false;
  post_note(r, text, POST_REFUSED);
  return true;
}

/* "Evening everyone", "Good morning from the north": a greeting, and no meal. */
static bool greets(const struct tokens *t) {
  size_t at = says(t, 0, "good") ? 1 : 0;
  return says(t, at, "morning evening afternoon night") && says_a(t, at + 1, CLASS_GREETED);
}

/* Leaves of 't' what is said of the animal that is asked about; false: nothing. */
static bool ours_alone(struct post_reader *r, struct tokens *t) {
  size_t ours = t->count; /* "... so please only the dog: Moritz, 11 kg" */
  for (size_t i = 0; i < t->count && ours == t->count; i++)
    if (phrase_at(t, i, "only the") > 0 || phrase_at(t, i, "just the") > 0 || phrase_at(t, i, "question is") > 0) ours = i;
  struct span other = tokens_span(t, 0, ours);
  struct tokens of_other = {t->item, ours};
  if (post_any_amount(&of_other, 0)) post_leave(r, other, "about an animal that is not asked about", false);
  if (ours == t->count) return false;
  *t = left_over(t, ours, r->arena);
  return true;
}

/* Is the sentence told as not fed, or of a danger that is refused? Then it is left out. */
static bool leave_unfed(struct post_reader *r, struct tokens *t, struct span text) {
  const char *why = not_fed(t);
  size_t now = why ? now_at(t) : 0;
  if (now > 0) {
    *t = left_over(t, now, r->arena);
    why = not_fed(t);
  }
  if (refuses_danger(r, t, text)) return true;
  if (!why) return false;
  if (post_any_amount(t, 0) || names_danger_denied(r, t)) post_leave(r, text, why, false);
  return true;
}

/* "Intake (g/d, as fed): chicken breast 180" */
static void find_unit_before(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 1; i < t->count && i < 12 && !r->bare_unit[0]; i++)
    if (is_mark(t, i, ':') && !post_any_amount(&(struct tokens){t->item, i}, 0))
      for (size_t k = 0; k < i; k++)
        if (says(t, k, "g grams gr") && (k == 0 || !is_number(t, k - 1))) r->bare_unit = "g";
}

/* "Edit 2: forgot the fish oil, 2 g a day": what was forgotten is told now. */
static void pass_over_edit(struct tokens *t) {
  size_t at = 0, label = 0;
  if (says(t, 0, "edit edited update ps p.s addition") || phrase_at(t, 0, "edited to add") > 0) {
    at = 1;
    while (at < t->count && at < 4 && (says(t, at, "to add") || is_number(t, at))) at++;
    if (is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, '.')) label = ++at;
    at = label;
  }
  if (says(t, at, "i") && says(t, at + 1, "forgot")) at++;
  size_t used = phrase_of(t, at, CLASS_FORGOT);
  if (used == 0) return;
  at += used;
  if (is_mark(t, at, ':')) at++;
  take(t, label > 0 ? 0 : at - used, at - (label > 0 ? 0 : at - used));
}

/* "Week A: 350 g beef mince per day": on each day of its turn. */
static void take_daily(struct tokens *t, size_t from) {
  for (size_t i = from; i < t->count; i++) {
    struct frequency f = t->item[i].taken ? (struct frequency){0} : frequency_at(t, i);
    if (f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal && !f.refuse)
      take(t, i, f.tokens);
  }
}

/* "Breakfast:", "AM 8:00 -": how many tokens. */
static size_t begins_meal(struct post_reader *r, const struct tokens *t) {
  size_t meal = greets(t) ? 0 : post_meal_prefix(t);
  if (meal == 0) return 0;
  r->meal_before = r->meal_from;
  r->meal_from = r->count;
  r->meal_said = true;
  r->meal = is_word(t, 0) ? span_of(arena_text(r->keep, t->item[0].word)) : (struct span){"", 0};
  return meal;
}

static void read_fed(struct post_reader *r, struct tokens t, struct span text, bool bulleted);
static void read_tokens(struct post_reader *r, struct tokens t, struct span text, bool bulleted);

/* Words of grammar that one language alone has. */
static void hear_language(struct post_reader *r, const struct tokens *t) {
  const char *name;
  for (size_t i = 0; i < t->count; i++) {
    if (meaning_at(t, i, CLASS_LANGUAGE, &name) == 0) continue;
    for (size_t k = 0; k < COUNT_OF(r->language); k++) {
      struct language *l = &r->language[k];
      if (l->name && strcmp(l->name, name) != 0) continue;
      l->name = name;
      l->words++;
      break;
    }
  }
}

static void read_words(struct post_reader *r, struct span text, bool bulleted) {
  text = trim_blanks(text);
  struct tokens all = post_tokens(r, text);
  if (all.count == 0) return;
  if (all.count > SENTENCE_MOST_WORDS * 4) all.count = SENTENCE_MOST_WORDS * 4;
  hear_language(r, &all);
  bulleted = post_strip_bullet(&all) > 0 || bulleted;
  pass_over_edit(&all);
  struct span asked = r->asked_about;
  post_hear_of_pot(r, &all);
  post_hear_state(r, &all);
  post_hear_ideal(r, &all);
  bool asks_about = asked.p != r->asked_about.p && !post_any_amount(&all, 0) && !post_names_food(r, &all, 0, all.count);
  if (asks_about) { /* "It's the little one I'm worried about" */
    post_claim(r, text, CLAIM_TOLD, 0, 0);
    post_animal(r, &all);
    return;
  }
  struct tokens rest = left_over(&all, 0, r->arena);
  if (rest.count > 0) read_tokens(r, rest, text, bulleted);
}

/* "300 g of beef, my trainer recommends ...": the food before that is fed. */
static void read_tokens(struct post_reader *r, struct tokens t, struct span text, bool bulleted) {
  size_t told = 0;
  post_take_long_done(r, &t);
  post_claim_taken(r, &t);
  t = left_over(&t, 0, r->arena);
  const char *why = not_fed_at(&t, &told);
  size_t clause = why ? clause_before(&t, told) : 0, again = why ? fed_again_at(&t, told) : t.count;
  bool named_by = why == NOT_FED_HEARSAY && says(&t, clause, "which"); /* "..., which my breeder told me about" */
  if (clause > 0 && !named_by && looks_back(&t, clause, told)) clause = 0;
  if (why && holds_a(&t, 0, t.count, CLASS_FASTING) && !post_names_food(r, &t, 0, t.count))
    why = NULL; /* "on Wednesdays he doesn't eat at all" */
  if (clause == 0 && (!why || again >= t.count || now_at(&t) > 0)) {
    read_fed(r, t, text, bulleted);
    return;
  }
  struct tokens rest = left_over(&t, again, r->arena);
  struct tokens fed = t, aside = left_over(&t, clause, r->arena);
  aside.count = again - clause;
  struct span aside_text = tokens_span(&aside, 0, aside.count);
  if (post_any_amount(&aside, 0) || post_names_food(r, &aside, 0, aside.count) ||
      hazard_words_danger(r->lib, aside_text, SPECIES_BOTH, r->arena) != NO_INDEX)
    post_leave(r, aside_text, why, false);
  fed.count = clause;
  if (!(r->weight_kg > 0)) post_animal(r, &aside); /* "went off her food, so now the 21 kg collie ..." */
  if (clause > 0) read_fed(r, fed, tokens_span(&fed, 0, fed.count), bulleted);
  if (rest.count > 0) read_tokens(r, rest, tokens_span(&rest, 0, rest.count), bulleted);
}

/* "Into the bowl when I serve it", "added per day", "on top goes": no part of a batch. */
static bool says_served(const struct tokens *t) {
  size_t at = 0; /* "+ on top, fresh: ..." */
  while (at < t->count && (t->item[at].kind == TOKEN_MARK || says(t, at, "and plus then"))) at++;
  return phrase_at(t, at, "on top") > 0 || holds_a(t, 0, t->count, CLASS_SERVED_BESIDE);
}

/* "Nights she has 10 g of biscuits", behind a batch that was told: a day's, and no part of it. */
static bool eats_beside(struct post_reader *r, const struct tokens *t) {
  bool meal = false, batch = (r->makes_days > 0 || r->makes_meals > 0) && post_any_food(r);
  for (size_t i = 0; i < t->count; i++)
    meal = meal || (is_word(t, i) && token_is_a(&t->item[i], CLASS_MEAL)) || says(t, i, "nights");
  for (size_t i = 0; i + 1 < t->count && batch && meal; i++)
    if (says_a(t, i + 1, CLASS_EATER_VERB) && (says(t, i, "she he") || post_pet_name(r, t, i).n > 0) &&
        post_any_amount(t, i + 2))
      return true;
  return false;
}

/* "(125 g, 90 g drained)": what is eaten is the drained weight. */
static void take_gross_weight(struct tokens *t) {
  for (size_t i = 1; i < t->count; i++) {
    struct post_amount gross = post_amount_at(t, i);
    size_t mark = i + gross.tokens;
    if (!gross.is_mass ||
        !(is_mark(t, mark, ',') || is_mark(t, mark, '/') || is_mark(t, mark, ';') || is_mark(t, mark, '(')))
      continue;
    struct post_amount net = post_amount_at(t, mark + 1);
    if (net.is_mass && says(t, mark + 1 + net.tokens, "drained")) take(t, i, gross.tokens + 1);
  }
}

/* "My cat eats tuna", "Dog: 400 g beef", "other dog gets kibble", where another one was weighed before, or is asked about.
 */
static bool is_of_other_species(const struct post_reader *r, const struct tokens *t) {
  enum species s;
  int ours = r->given ? (int)r->given->species : r->weighed_species;
  if (ours < 0 || (!r->given && !(r->weight_kg > 0))) return false;
  size_t other = phrase_of(t, 0, CLASS_OTHER_ONE);
  if (other > 0 && says(t, other, "gets get eats eat has have")) return true;
  size_t heading = says(t, 0, "my our the") ? 1 : 0; /* where both were weighed */
  if ((r->other_species || r->given) && is_word(t, heading) && token_is_animal(&t->item[heading], &s) && (int)s != ours &&
      (is_mark(t, heading + 1, ':') || is_mark(t, heading + 1, '-')))
    return true;
  for (size_t i = 0; i + 2 < t->count && i < 4; i++)
    if (says(t, i, "my our the") && is_word(t, i + 1) && token_is_animal(&t->item[i + 1], &s) && (int)s != ours &&
        says(t, i + 2, "gets eats has steals takes"))
      return true;
  return false;
}

/* "He gets 20 % less since he is fat": of all that is fed, and no food. Whether the amounts are those before or after it
 * nobody can tell but the owner. */
static bool told_as_share_less(struct post_reader *r, const struct tokens *t, struct span text) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    if (!is_number(t, i) || !is_mark(t, i + 1, '%') || !says(t, i + 2, "less more smaller")) continue;
    for (size_t k = 0; k < t->count; k++)
      if (post_mention_at(r, t, k) > 0) return false;
    if (!post_ask(r, 3, "Are the amounts those before or after the '%.*s'? They were taken as what is fed.",
                  SPAN_ARG(tokens_span(t, i, 3))))
      return false;
    post_claim(r, text, CLAIM_TOLD, 0, 0);
    return true;
  }
  return false;
}

/* "Taurine twice a week because she hates it": why is no part of the food. What else is said behind it stands. */
static void take_reasons(struct post_reader *r, struct tokens *t) {
  for (size_t i = 1; i < t->count; i++) {
    if (!says(t, i, "because bc cos since as")) continue;
    bool since = says(t, i, "since as") && says(t, i + 1, "he she it they he's she's it's they're");
    if (!says(t, i, "because bc cos") && !since) continue;
    size_t end = i + 1;
    while (end < t->count && t->item[end].kind != TOKEN_MARK && !says(t, end, "so and but then")) end++;
    struct tokens before = tokens_part(t, 0, i), why = tokens_part(t, i, end);
    bool of_us = says(t, i + 1, "my our we i there") && !holds_a(t, i, end, CLASS_FEEDING); /* "bc my uncle has hens" */
    if (!post_any_amount(&before, 0) || post_any_amount(&why, 0) || (post_names_food(r, t, i, end) && !of_us)) continue;
    take(t, i, end - i);
  }
}

/* "Sun: whatever's left in the fridge from our roast, chook mostly": a day of which nothing was read is fed something. */
static void ask_of_day(struct post_reader *r, const struct tokens *t, struct span text) {
  if (t->count < 2 || holds_a(t, 0, t->count, CLASS_FASTING) || holds_a(t, 0, t->count, CLASS_REFUSING)) return;
  if (!post_names_food(r, t, 0, t->count) && !holds_a(t, 0, t->count, CLASS_FED_THING)) return;
  if (!post_leave(r, text, "it is fed, and the post does not say how much", true))
    post_ask(r, 2, "What and how much is fed in '%.*s'?", SPAN_ARG(post_quote(r, text)));
}

/* "the liver cake, it's made with 500 g liver, 2 eggs and 200 g flour": what something is made of that is fed by the piece.
 */
static bool leave_what_it_is_made_of(struct post_reader *r, struct tokens *t) {
  bool baked = false;
  for (size_t i = 0; i + 2 < t->count; i++) {
    baked = baked ||
            says(t, i,
                 "cake cakes treats treat biscuits biscuit cookies cookie muffins muffin bread jerky broth bites pate bars");
    bool made = (says(t, i, "made") && says(t, i + 1, "with w of from using")) || (says(t, i, "contains contain") && i > 0);
    if (!baked || !made || !post_any_amount(t, i + 2) || post_any_amount(&(struct tokens){t->item, i}, 0)) continue;
    struct span of = tokens_span(t, i, t->count - i);
    if (!post_leave(r, of, "what is fed of it is not told", true))
      post_ask(r, 2, "How much of what is '%.*s' is fed a day?", SPAN_ARG(post_quote(r, of)));
    t->count = i;
    return true;
  }
  return false;
}

/* "1 serving = 1 day", "one portion is a day's" */
static bool serving_is_a_day(struct post_reader *r, const struct tokens *t, struct span text) {
  size_t at = says(t, 0, "each every") ? 0 : t->count, is;
  if (t->count > 2 && (says(t, 0, "one a 1") || (is_number(t, 0) && t->item[0].value == 1))) at = 0;
  if (at > 0 || !says(t, 1, "serving portion tub bag box pack pot meal packet container") || t->count > 7) return false;
  is = 2;
  if (!is_mark(t, is, '=') && !says(t, is, "is does lasts for per equals feeds")) return false;
  is++;
  while (says(t, is, "for one a her him me")) is++;
  if (is_number(t, is) && t->item[is].value == 1) is++;
  if (!says(t, is, "day days") && !phrase_at(t, is, "day's food")) return false;
  r->meals_a_day = 1;
  post_claim(r, text, CLAIM_TOLD, 0, 0);
  return true;
}

/* "TLDR: porridge, 70 g meat, 75 g veg": told before in more words. */
static bool sums_up(struct post_reader *r, const struct tokens *t, struct span text) {
  size_t foods = 0;
  bool label = says(t, 0, "tldr tl;dr tl summary") || phrase_at(t, 0, "in short") > 0 || phrase_at(t, 0, "to sum up") > 0;
  for (size_t i = 0; i < r->count; i++) foods += r->item[i].kind == ITEM_FOOD;
  if (!label || foods < 3 || !post_any_amount(t, 1)) return false;
  post_note(r, text, "a summary of what was told before");
  return true;
}

/* "It feeds my 6 kg terrier and my 24 kg lab for 5 days": without the animals it tells how long. */
static bool hear_batch_and_animal(struct post_reader *r, struct tokens *t, bool *batch) {
  bool several = !not_fed(t) && post_weighs_several(r, t);
  if (several) *t = left_over(t, 0, r->arena);
  *batch = post_batch(r, t);
  return post_animal(r, t) || several;
}

/* Is nothing fed by the sentence? What something is made of is left out of it. */
static bool is_told_otherwise(struct post_reader *r, struct tokens *t, struct span text) {
  if (serving_is_a_day(r, t, text) || sums_up(r, t, text)) return true;
  leave_what_it_is_made_of(r, t);
  if (!is_of_other_species(r, t)) return is_of_another(t) && !ours_alone(r, t);
  post_leave(r, text, "about an animal that is not asked about", false);
  return true;
}

static void read_fed(struct post_reader *r, struct tokens t, struct span text, bool bulleted) {
  if (is_told_otherwise(r, &t, text)) return;
  double fast_times = r->fast_times;
  unsigned fasts = post_fasts_on(r, &t);
  if (fasts != 0 || r->fast_times != fast_times) {
    r->fast_days |= fasts;
    post_claim(r, text, CLAIM_TOLD, 0, 0);
    return;
  }
  bool heads = t.count > 0 && is_mark(&t, t.count - 1, ':') && !post_any_amount(&t, 0);
  if (heads) r->served_below = says_served(&t); /* "Fresh on top:" above a list */
  r->served = says_served(&t) || r->served_below || r->alone || eats_beside(r, &t);
  r->lasts = post_lasts_alone(r, &t);
  for (size_t i = 0; i + 1 < t.count; i++)
    r->for_one =
        r->for_one || (says(&t, i, "one each per") && says(&t, i + 1, "dog cat animal head") && !is_mark(&t, i, 'x'));
  take_gross_weight(&t);
  take_reasons(r, &t);
  bool batch, animal = hear_batch_and_animal(r, &t, &batch);
  post_claim_taken(r, &t);
  r->told_whole = batch || animal;
  t = left_over(&t, 0, r->arena);
  if (t.count == 0) return;
  if (post_said_of_all(r, &t, text) || post_weighs_one(r, &t, text)) return;
  double meals = animal ? post_meals_said(&t) : 0; /* "Lab puppy, 11 kg, three meals a day" */
  if (meals > 1 && !holds_a(&t, 0, t.count, CLASS_SHARED_OUT)) r->meals_told = meals, r->meals_line = r->line;
  if ((batch || animal) && !post_any_amount(&t, 0)) { /* "Weekly totals for Dot (8 kg, spayed):" */
    if (animal) post_period_heading(r, &t);
    return;
  }
  size_t meal = begins_meal(r, &t);
  if (meal > 0) t = left_over(&t, meal, r->arena);
  bulleted = bulleted || meal > 0; /* "Treats: dried sprats" */
  const char *period = r->period;
  size_t each = post_in_each_tub(r, &t);
  if (each == 0) each = post_each_meal(r, &t);
  bool here = false; /* of the foods of this sentence alone */
  if (meal > 0 && strcmp(r->period, "at each meal") == 0) r->period = "", here = true;
  if (each > 0) {
    here = true;
    while (each < t.count && t.item[each].kind == TOKEN_MARK) each++;
    if (each >= t.count || !post_any_amount(&t, each)) return; /* of those below */
    t = left_over(&t, each, r->arena);
  }
  if (post_told_of_those(r, &t) || post_period_heading(r, &t)) {
    post_claim(r, text, CLAIM_TOLD, 0, 0);
    return;
  }
  const char *days = "", *before = r->days;
  size_t day = post_day_prefix(r, &t, &days);
  if (day > 0) {
    size_t rest = day;
    while (rest < t.count && ((bulleted && is_mark(&t, rest, ',')) || is_mark(&t, rest, ':') || is_mark(&t, rest, '-') ||
                              is_mark(&t, rest, '.')))
      rest++;
    bool heading = rest >= t.count;
    bool marked = rest > day,
         same = !heading && says(&t, says(&t, rest, "the") ? rest + 1 : rest, "same as like ditto likewise");
    r->any_day = true;
    if (heading || marked || same) {
      const char *day_before = r->days_before;
      r->days = r->days_before = days;
      if (r->rotation > 0 && days[0] == 'e') take_daily(&t, rest); /* "Week A: 350 g beef mince per day" */
      t = left_over(&t, rest, r->arena);
      if (heading) return;
      r->days_before = day_before;
      size_t used = post_as_on_day(r, &t, text, marked);
      r->days_before = days;
      if (used >= t.count) {
        r->days = before;
        return;
      }
      if (used > 0) t = left_over(&t, used, r->arena);
    } else {
      r->days_before = days;
    }
  }
  if (r->rotation > 1 && day == 0 && holds_a(&t, 0, t.count, CLASS_AT_EVERY_TURN))
    r->days = ""; /* "in both: 90 g of rice" */
  if (leave_unfed(r, &t, text) || told_as_share_less(r, &t, text)) return;
  const char *unit = r->bare_unit;
  size_t items = r->count, left = r->left_count;
  find_unit_before(r, &t);
  post_items(r, &t, bulleted);
  if (day > 0 && r->count == items && r->left_count == left) ask_of_day(r, &t, text);
  r->bare_unit = unit;
  r->days = before;
  if (here) r->period = period;
}
