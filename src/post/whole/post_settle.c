/* What needs the whole post: shares, how long a batch lasts, and the last word of the strict reader. */
#include "base/num.h"
#include "post/whole/post_whole.h"

/* "For 1 kg of mix: ...", and nobody says how much of it is fed. */
static void doubt_mix(struct post_reader *r) {
  struct buf grams, b;
  buf_init(&grams, r->arena, 40);
  num_sig(&grams, r->total_g, 4);
  buf_init(&b, r->arena, 200);
  buf_addf(&b, "told for %s g of a mix, and counted as a day's food", buf_text(&grams));
  for (size_t i = 0; i < r->count; i++) post_doubt(r, i, buf_text(&b));
  r->line = 0;
  post_ask(r, 4, "How much of the mix is fed a day? The %s g that its amounts are told for were counted.", buf_text(&grams));
}

/* How many eat of one pot, as far as anybody told. */
static size_t eaters_of_it(const struct post_reader *r) { return r->animals > 1 ? (size_t)r->animals : r->named_count; }

/* A batch that is shared out by the weight of its lines, and one of them could not be read: it lasts longer. */
static void doubt_unread(struct post_reader *r) {
  for (size_t k = 0; k < r->left_count; k++) {
    struct tokens t = r->left[k].fed ? post_tokens(r, span_of(r->left[k].text)) : (struct tokens){.count = 0};
    if (!post_any_amount(&t, 0)) continue;
    for (size_t i = 0; i < r->count; i++) post_doubt(r, i, "shared out without the weight of what could not be read");
    return;
  }
}

/* "Makes about 20 lbs ... feed 1 lb a day": how long the batch lasts. */
static void share_out(struct post_reader *r) {
  double feeds_g = r->feeds_g; /* of all that eat of it */
  if (r->feeds_each && !r->for_one && eaters_of_it(r) > 1) feeds_g *= (double)eaters_of_it(r);
  double by_weight = r->feeds_percent > 0 && r->weight_kg > 0 ? r->feeds_percent * 10 * r->weight_kg : (double)NAN;
  if (r->of_mix && r->total_g > 0 && !(r->makes_days > 0) && !(r->makes_meals > 0) && !(r->feeds_g > 0)) {
    if (by_weight > 0)
      r->makes_days = r->total_g / by_weight;
    else
      doubt_mix(r);
    return;
  }
  if (r->makes_days > 0 || r->makes_meals > 0 || !(feeds_g > 0) || r->any_period || r->any_day) return;
  double grams = 0;
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD) continue;
    if (memchr(r->item[i].text, '%', strcspn(r->item[i].text, "abcdefghijklmnopqrstuvwxyz")))
      return; /* shares of the whole */
    grams += r->item[i].grams;
  }
  double whole = r->total_g > 0 ? r->total_g : grams;
  if (r->of_mix && r->total_g > 0) { /* "for 100 g of mix ...; he eats 140 g of it" */
    r->makes_days = r->total_g / feeds_g;
    return;
  }
  if (!(whole > 1.5 * feeds_g)) return;
  static const double NEARLY_WHOLE = 0.06; /* what people call 5 days is 4.7 to 5.3 of them; 2.5 are no 3 */
  double days = whole / feeds_g, rounded = floor(days + 0.5);
  r->makes_days = fabs(rounded - days) <= NEARLY_WHOLE * rounded ? rounded : days;
  if (!(r->total_g > 0)) doubt_unread(r);
  post_ask(r, 3, "How many days does the batch last? It was shared out by what is fed a day.");
}

/* More than anybody feeds: a batch that was not told as one. */
static void doubt_one_day(struct post_reader *r, const struct ration *ration) {
  static const double MOST_G_PER_KG = 90;
  double grams = 0;
  for (size_t i = 0; i < ration->line_count; i++) grams += ration_line_grams_per_day(&ration->line[i]);
  if (!r->any_percent) post_doubt_little(r, grams);
  if (!r->any_percent) post_doubt_total(r, grams);
  if (r->any_percent) return; /* shares say nothing of how much is fed */
  if (!(r->weight_kg > 0) || !(grams > MOST_G_PER_KG * r->weight_kg)) return;
  struct buf b;
  buf_init(&b, r->arena, 40);
  num_sig(&b, grams, 2);
  r->line = 0;
  post_ask(r, 5, "How many days is this food for? Read as one day it comes to %s g.", buf_text(&b));
  for (size_t i = 0; i < r->count; i++) post_doubt(r, i, "so much in all that it may be for more than a day");
}

/* The number before the '%' that an item begins with; NaN. */
static double share_of(const struct item *item, const char **rest) {
  double x;
  size_t n = num_read(span_of(item->text), &x);
  if (item->kind != ITEM_FOOD || n == 0 || strncmp(item->text + n, " % ", 3) != 0) return (double)NAN;
  *rest = item->text + n + 3;
  return x;
}

static const double WHOLE_LEAST = 98, WHOLE_MOST = 102; /* shares that add up, in % */

/* Shares of what could not be read, in the owner's words: "35% chicken complete mince". */
static double shares_unread(const struct post_reader *r) {
  double sum = 0;
  for (size_t i = 0; i < r->count; i++) {
    double x;
    struct span text = span_of(r->item[i].text);
    size_t n = r->item[i].kind == ITEM_UNKNOWN ? num_read(text, &x) : 0;
    struct span behind = trim_blanks(span_cut(text, n, text.n));
    if (n > 0 && x > 0 && behind.n > 0 && behind.p[0] == '%') sum += x;
  }
  return sum;
}

static void leave_shares(struct post_reader *r) {
  double sum = 0;
  for (size_t i = 0; i < r->count; i++) {
    const char *rest;
    struct item *item = &r->item[i];
    double share = share_of(item, &rest);
    struct tokens t = post_tokens(r, span_of(item->text));
    struct post_amount a = item->kind == ITEM_FOOD ? post_amount_at(&t, 0) : (struct post_amount){0};
    if (!(share >= 0) && !a.is_percent) continue;
    sum += share >= 0 ? share : a.low; /* "20-30 % pork" */
    item->kind = ITEM_UNKNOWN;
    struct post_left left = {item->line, item->text, "a share of a whole that is not given", true};
    ARENA_PUSH(r->keep, r->left, r->left_count, r->left_cap, left);
  }
  r->line = 0;
  r->any_percent = false;
  r->only_shares = !post_any_food(r);
  if (sum >= WHOLE_LEAST) {
    post_ask(r, 4,
             "How many grams a day is the food whose shares are told? What has an amount is all that the animal needs.");
    return;
  }
  struct buf b;
  buf_init(&b, r->arena, 40);
  num_sig(&b, sum, 3);
  post_ask(r, 4, "The shares add up to %s %%. What is the rest of the food, and how much is fed a day?", buf_text(&b));
}

/* "5 % chicken liver, twice a day": how many meals there are changes no share. */
static void meals_of_shares(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    const char *rest, *comma = strrchr(r->item[i].text, ',');
    if (!(share_of(&r->item[i], &rest) >= 0) || !comma || comma < rest) continue;
    struct tokens t = post_tokens(r, span_of(comma + 1));
    struct frequency f = frequency_at(&t, 0);
    if (f.tokens == 0 || f.tokens < t.count || f.times_per_28 != CALENDAR_DAYS || !(f.feedings > 1)) continue;
    r->item[i].text = arena_text(r->keep, (struct span){r->item[i].text, (size_t)(comma - r->item[i].text)});
  }
}

static bool tells_how_often(struct post_reader *r, const char *line) {
  struct tokens t = post_tokens(r, span_of(line));
  for (size_t i = 0; i < t.count; i++)
    if (frequency_at(&t, i).tokens > 0) return true;
  return false;
}

static const double HALF = 50; /* of less than half of a bowl nothing can be said */

/* "400 g beef mince, 25 g liver, 6 % veg": a small part beside what has grams is one of all of it, where nobody tells of
 * what. */
static bool shares_of_what_is_weighed(struct post_reader *r, double sum) {
  double grams = 0;
  const char *rest;
  if (r->feeds_g > 0 || r->feeds_percent > 0 || r->total_g > 0) return false;
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind == ITEM_UNKNOWN) return false;
    if (r->item[i].kind != ITEM_FOOD || share_of(&r->item[i], &rest) >= 0) continue;
    if (tells_how_often(r, r->item[i].text)) return false;
    grams += r->item[i].grams;
  }
  if (!(grams > 0)) return false;
  double whole = grams / (1 - sum / 100);
  for (size_t i = 0; i < r->count; i++) {
    double x = share_of(&r->item[i], &rest);
    if (!(x >= 0)) continue;
    struct buf b, note;
    buf_init(&b, r->keep, strlen(r->item[i].text) + 40);
    num_sig(&b, x * whole / 100, 4);
    buf_addf(&b, " g %s", rest);
    r->item[i].text = buf_text(&b);
    buf_init(&note, r->keep, 120);
    num_sig(&note, x, 4);
    buf_adds(&note, " % of all the food that has grams; the post does not say of how much it is a share");
    post_doubt(r, i, buf_text(&note));
  }
  r->any_percent = false;
  r->line = 0;
  post_ask(r, 4, "Of how many grams a day are the shares told? They were taken of all the food together.");
  return true;
}

/* "The rest is muscle meat", of which nobody says which: told as that share, and asked about. */
static bool tell_rest(struct post_reader *r, double share, double whole) {
  enum { WORDS_MOST = 4 };
  for (size_t h = 0; h < r->heard_count; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    for (size_t i = 0; i + 1 < t.count; i++) {
      size_t at = i + 1;
      if (!says(&t, i, "rest remainder balance remaining")) continue;
      while (says(&t, at, "is being of it as = just plain") || is_mark(&t, at, '=') || is_mark(&t, at, ':')) at++;
      size_t end = at;
      while (is_word(&t, end) && end < at + WORDS_MOST) end++;
      if (at == i + 1 || end == at || (end < t.count && t.item[end].kind != TOKEN_MARK)) continue;
      if (!holds_a(&t, at, end, CLASS_KIND_OF_FOOD) && !holds_a(&t, at, end, CLASS_FED_THING)) continue;
      struct span words = tokens_span(&t, at, end - at);
      struct buf b;
      buf_init(&b, r->keep, words.n + 40);
      num_sig(&b, whole > 0 ? share * whole / 100 : share, 3);
      buf_addf(&b, " %s %.*s", whole > 0 ? "g" : "%", SPAN_ARG(words));
      r->line = r->heard[h].line;
      post_add(r, ITEM_UNKNOWN, buf_text(&b), "");
      struct post_left left = {r->line, buf_text(&b), "the post does not say which", true};
      ARENA_PUSH(r->keep, r->left, r->left_count, r->left_cap, left);
      post_claim(r, tokens_span(&t, i, end - i), CLAIM_TOLD, 0, 0);
      post_ask(r, 4, "Which animal is the '%.*s' from, and which cuts are in it? It is %d %% of the food.", SPAN_ARG(words),
               (int)(share + 0.5));
      r->line = 0;
      return true;
    }
  }
  return false;
}

/* Shares of which one could not be read, or that were written so: in grams where the whole is known, else made to add up. */
static void even_shares(struct post_reader *r) {
  double sum = 0;
  const char *rest;
  size_t shares = 0, foods = 0;
  for (size_t i = 0; i < r->count; i++) {
    double x = share_of(&r->item[i], &rest);
    foods += r->item[i].kind == ITEM_FOOD;
    if (!(x >= 0)) continue;
    sum += x;
    shares++;
  }
  r->any_percent = shares > 0;
  if (shares > 0 && sum < HALF && shares < foods && shares_of_what_is_weighed(r, sum)) return;
  if (shares == 0 || !(sum > 0) || (sum >= WHOLE_LEAST && sum <= WHOLE_MOST) || (sum < WHOLE_LEAST && shares < foods))
    return;
  double whole = r->feeds_g > 0                             ? r->feeds_g
                 : r->feeds_percent > 0 && r->weight_kg > 0 ? r->feeds_percent * 10 * r->weight_kg
                                                            : r->total_g;
  r->any_percent = !(whole > 0);
  if (!(whole > 0) && sum < HALF) {
    leave_shares(r);
    return;
  }
  bool a_day = r->feeds_g > 0 || r->feeds_percent > 0;
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    double x = share_of(item, &rest);
    if (!(x >= 0)) continue;
    struct buf b;
    buf_init(&b, r->keep, strlen(item->text) + 60);
    num_sig(&b, whole > 0 ? x * whole / 100 : 100 * x / sum, 4);
    buf_addf(&b, "%s%s%s", whole > 0 ? " g " : " % ", rest, whole > 0 && a_day && r->makes_days > 0 ? ", daily" : "");
    item->text = buf_text(&b);
    struct buf note;
    buf_init(&note, r->keep, strlen(item->assumed) + 120);
    num_sig(&note, x, 4);
    buf_addf(&note, " %% in the post, whose shares do not add up to 100%s%s", item->assumed[0] ? "; " : "", item->assumed);
    item->assumed = buf_text(&note);
    item->doubted = item->doubted || !(whole > 0);
  }
  r->line = 0;
  double unread = shares_unread(r);
  if (unread > 0 && sum + unread >= WHOLE_LEAST && sum + unread <= WHOLE_MOST) return; /* asked about by its name */
  if (sum < WHOLE_LEAST && tell_rest(r, 100 - sum, whole)) return;
  post_ask(r, 3, "The shares add up to %d %%. What is the rest?", (int)(sum + 0.5));
}

/* What goes beside a batch is fed daily, unless it says how often. */
static void settle_served(struct post_reader *r) {
  if (!(r->makes_days > 0) && !(r->makes_meals > 0)) return;
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    if (item->kind != ITEM_FOOD || !(item->served || item->at_meals) || tells_how_often(r, item->text)) continue;
    struct buf b;
    buf_init(&b, r->keep, strlen(item->text) + 16);
    buf_addf(&b, "%s, daily", item->text);
    item->text = buf_text(&b);
  }
}

/* The strict reader has the last word on the whole text, too: what it refuses there becomes a '?' line, a header goes. */
static void settle_text(struct post_reader *r, struct post *out) {
  enum { PASSES = 4, MOST = 24 }; /* so many where one fault stands behind the other */
  for (int pass = 0; pass < MOST && post_any_food(r); pass++) {
    struct diags d;
    struct recipe recipe;
    struct ration ration;
    *out = (struct post){.recipe = "", .sorry = ""};
    post_part_into_lines(r);
    post_write(r, out);
    struct span strict = span_of(out->recipe);
    diags_init(&d, r->arena, "", strict);
    bool fine = recipe_parse(strict, &d, &recipe, r->arena);
    if (recipe_resolve(r->lib, &recipe, &d, &ration, r->arena) && fine) {
      if (pass + 1 < PASSES && post_days_by_energy(r, &recipe, &ration)) {
        settle_served(r);
        continue;
      }
      if (!post_shares_have_room(r, &recipe, &ration)) {
        leave_shares(r);
        continue;
      }
      if (pass + 1 < PASSES && post_leave_absurd(r, out, &recipe, &ration)) continue;
      doubt_one_day(r, &ration);
      post_doubt_energy(r, &recipe, &ration);
      break;
    }
    if (pass + 1 == PASSES) { /* shares of more than one whole */
      leave_shares(r);
      continue;
    }
    bool header = false;
    for (size_t i = 0; i < d.count; i++) {
      if (d.item[i].level != DIAG_ERROR) continue;
      struct item *item = NULL;
      for (size_t k = 0; k < out->line_count; k++)
        if (out->line[k].strict_line == d.item[i].line) item = &r->item[k];
      header = header || !item;
      if (!item || item->kind != ITEM_FOOD) continue;
      item->kind = ITEM_UNKNOWN;
      r->line = item->line;
      struct post_left left = {item->line, item->text, "it does not go together with the rest of the text", true};
      ARENA_PUSH(r->keep, r->left, r->left_count, r->left_cap, left);
      post_ask(r, 3, "What is meant by '%s'?", item->text);
    }
    if (header) r->makes_days = r->makes_meals = r->total_g = r->feeds_g = r->feeds_percent = (double)NAN;
  }
  *out = (struct post){.recipe = "", .sorry = out->sorry};
}

static bool tells_each_meal(struct post_reader *r, const char *line) {
  struct tokens t = post_tokens(r, span_of(line));
  for (size_t i = 0; i < t.count; i++)
    if (frequency_at(&t, i).each_meal) return true;
  return false;
}

/* "14 tubs", and nobody says how many a day; "60 g with every meal", and nobody says how many meals. */
static void settle_meals(struct post_reader *r) {
  static const double USUAL = 2;
  bool per_meal = false;
  for (size_t i = 0; i < r->count && !per_meal; i++)
    per_meal = r->item[i].kind == ITEM_FOOD && tells_each_meal(r, r->item[i].text);
  r->per_meal = per_meal;
  bool batch = r->makes_meals > 0 && !(r->makes_days > 0);
  if (per_meal && !(r->meals_a_day > 0) && r->meals_told > 0) r->meals_a_day = r->meals_told; /* "three meals a day" */
  if ((!per_meal && !batch) || r->meals_a_day > 0 || !post_any_food(r)) return;
  r->line = 0;
  if (per_meal && r->meals_heard > 1) { /* "three meals a day", said of no food */
    r->meals_a_day = r->meals_heard;
    return;
  }
  r->meals_a_day = USUAL;
  for (size_t i = 0; i < r->count; i++)
    if (batch ? r->makes_meals > USUAL : tells_each_meal(r, r->item[i].text))
      post_doubt(r, i, "two meals a day were assumed");
  if (batch)
    post_ask(r, 4, "How many of the %d portions are fed a day? Two were assumed.", (int)r->makes_meals);
  else
    post_ask(r, 3, "How many meals a day are fed? Two were assumed.");
}

/* "Every Sunday I cook ...": a week, where nobody tells how long it lasts and it is more than a day holds. */
static void settle_weekly(struct post_reader *r) {
  static const double MOST_G_PER_KG = 60;
  double grams = 0, days = r->cooks_days;
  if (!(days > 0) || r->makes_days > 0 || r->makes_meals > 0) return;
  for (size_t i = 0; i < r->count; i++) grams += r->item[i].kind == ITEM_FOOD ? r->item[i].grams : 0;
  if (r->weight_kg > 0 && !(grams > MOST_G_PER_KG * r->weight_kg)) return;
  r->makes_days = days;
  r->line = 0;
  post_ask(r, 3, "How many days does the batch last? %s assumed, as it is cooked once %s.",
           days > 14  ? "A month was"
           : days > 7 ? "Two weeks were"
                      : "A week was",
           days > 14  ? "a month"
           : days > 7 ? "in two weeks"
                      : "a week");
}

/* How long it lasts is of the whole pot: known before the part of one is taken. */
void post_days_of_pot(struct post_reader *r) {
  int line = r->line;
  if (r->for_one || (!(r->animals > 1) && !r->one_pot)) return;
  post_weigh_tubs(r);
  settle_weekly(r);
  r->line = 0;
  if (r->feeds_g > 0) share_out(r);
  r->line = line;
}

void post_settle(struct post_reader *r, struct post *out) {
  post_starch_as_cooked(r);
  post_weigh_tubs(r);
  settle_weekly(r);
  settle_served(r);
  settle_meals(r);
  share_out(r);
  meals_of_shares(r);
  even_shares(r);
  settle_text(r, out);
}
