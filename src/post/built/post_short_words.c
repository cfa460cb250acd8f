/* Short words with a meaning of their own: "w/o bone & skin" is without both of them, "20 % with skin" a part of the food,
 * and "1.5 g kelp (600 mcg iodine/g)" so much iodine. */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

/* "w/o skin", "w/out bones", "w/ skin" */
static bool letters_for_with(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (!says(t, i, "w") || !is_mark(t, i + 1, '/') || !is_word(t, i + 2) || is_mark(t, i + 3, '/')) return false;
  bool without = says(t, i + 2, "o out");
  if (without && !says(t, i + 3, "skin skins bone bones fat salt the its any shell peel rind stones pips seeds"))
    return false;
  bool apart = token_begin(t, i + 2) > token_end(t, i + 1);
  *out = post_cut_out(r, line, token_begin(t, i), without ? token_end(t, i + 2) : token_end(t, i + 1),
                      without ? "without"
                      : apart ? "with"
                              : "with ");
  return true;
}

static const char PARTS_OF_A_PIECE[] = "skin skins bone bones fat";

/* "without bone & skin", "with skin and bones", "no skin or bones": the word before them is said of both. */
static bool of_both_parts(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (!says(t, i, "without with no")) return false;
  size_t at = i + 1;
  if (says(t, at, "the its their any")) at++;
  if (!says(t, at, PARTS_OF_A_PIECE)) return false;
  if (!(is_mark(t, at + 1, '&') || is_mark(t, at + 1, '/') || is_mark(t, at + 1, '+') || says(t, at + 1, "and or nor")))
    return false;
  size_t second = at + 2;
  if (says(t, second, "the its their any")) second++;
  if (!says(t, second, PARTS_OF_A_PIECE)) return false;
  struct buf b;
  buf_init(&b, r->keep, 40);
  buf_addf(&b, ", %.*s %.*s", SPAN_ARG(t->item[i].word), SPAN_ARG(t->item[second].word));
  *out = post_cut_out(r, line, token_end(t, at), token_end(t, second), buf_text(&b));
  return true;
}

/* "2 kg chicken thighs, no bone, 20 % with skin", "..., a third with skin": so much of it with its skin, and the rest
 * without. */
static bool part_with_skin(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { FAR = 9 };
  double part = 0;
  struct post_amount share = post_amount_at(t, i);
  size_t used = share.is_percent && share.low == share.high ? share.tokens : 0;
  if (used > 0) part = share.low / 100;
  if (used == 0) used = post_part_at(t, i, &part);
  if (used == 0 && says(t, i, "half")) used = 1, part = 0.5;
  size_t behind = i + used;
  if (says(t, behind, "of") && says(t, behind + 1, "it them these those")) behind += 2;
  bool with = says(t, behind, "with w") || (is_mark(t, behind, '(') && says(t, behind + 1, "with"));
  if (used == 0 || !(part > 0) || part >= 1 || !with) return false;
  size_t skin = says(t, behind + 1, "the their its") ? behind + 2 : behind + 1;
  if (!says(t, skin, "skin skins")) return false;
  if (says(t, skin + 1, "on left still")) skin++;
  size_t from = i;
  while (from > 0 && i - from < 2 &&
         (is_mark(t, from - 1, ',') || is_mark(t, from - 1, '(') || says(t, from - 1, "about roughly around only approx")))
    from--;
  for (size_t k = from; k-- > 0 && k + FAR > from;) {
    struct post_amount a = is_number(t, k) ? post_amount_at(t, k) : (struct post_amount){0};
    if (!a.is_mass || a.low != a.high || k + a.tokens >= from) continue;
    struct span food = tokens_span(t, k + a.tokens, from - k - a.tokens);
    struct buf b;
    buf_init(&b, r->keep, 2 * food.n + 120);
    amount_write(&b, &a, 1 - part);
    buf_addf(&b, " %.*s, skinless\x1F", SPAN_ARG(food));
    amount_write(&b, &a, part);
    buf_addf(&b, " %.*s, with skin", SPAN_ARG(food));
    size_t end = skin + 1;
    if (is_mark(t, end, ')')) end++;
    *out = post_cut_out(r, line, token_begin(t, k), token_end(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* ---- what a label tells of seaweed ---- */

/* The gram, or the kilogram, that the label's figure is of: "/g", "per gram", "a kg"; its tokens, 0 none. */
static size_t per_weight(const struct tokens *t, size_t at, double *grams) {
  size_t n = is_mark(t, at, '/') || says(t, at, "per a each every") ? 1 : 0;
  if (n == 0) return 0;
  if (is_number(t, at + 1) && t->item[at + 1].value == 1) n++;
  *grams = says(t, at + n, "g gram gm grams") ? 1 : says(t, at + n, "kg kilo kilogram") ? 1000 : 0;
  return *grams > 0 ? n + 1 : 0;
}

/* "600 mcg iodine/g", "iodine 600 mg/kg", "600 mcg/g iodine": micrograms a gram; its tokens, 0 none. */
static size_t iodine_at(const struct tokens *t, size_t at, double *ug_per_g) {
  size_t i = at;
  double grams = 0;
  bool iodine = says(t, i, "iodine");
  if (iodine) i++;
  while (iodine && (is_mark(t, i, ':') || is_mark(t, i, '=') || says(t, i, "is at of"))) i++;
  struct post_amount a = is_number(t, i) ? post_amount_at(t, i) : (struct post_amount){0};
  bool ug = strcmp(a.unit, "mcg") == 0, mg = strcmp(a.unit, "mg") == 0;
  size_t behind = i + a.tokens, used;
  if (a.tokens == 0 && is_number(t, i)) { /* "600 mcg/g" is no amount of a food */
    ug = says(t, i + 1, "mcg ug µg microgram micrograms"), mg = says(t, i + 1, "mg");
    a.low = a.high = t->item[i].value, behind = i + 2;
  }
  if (!(ug || mg) || a.low != a.high) return 0;
  used = per_weight(t, behind, &grams);
  behind += used;
  if (!iodine) {
    if (says(t, behind, "of")) behind++;
    if (!says(t, behind, "iodine")) return 0;
    behind++;
  }
  if (used == 0) used = per_weight(t, behind, &grams), behind += used;
  if (used == 0) { /* "1 g kelp with 0.5 mg iodine": of all of it */
    if (is_mark(t, behind, '/') || says(t, behind, "per a each")) return 0;
    grams = -1;
  }
  *ug_per_g = a.low * (mg ? 1000 : 1) / grams;
  return behind - at;
}

/* The label's figure behind a weighed or measured seaweed: so much iodine, and of nothing else in it a figure is known. */
static bool iodine_of_label(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { FAR = 8 };
  double ug_per_g;
  size_t used = iodine_at(t, i, &ug_per_g), from = i;
  if (used == 0 || ug_per_g == 0) return false;
  bool of_all = ug_per_g < 0;
  while (from > 0 &&
         (t->item[from - 1].kind == TOKEN_MARK ||
          says(t, from - 1, "label labels states says contains containing with at has its the it of which")) &&
         !ends_sentence(t, from - 1))
    from--;
  size_t begin = from;
  while (begin > 0 && from - begin < FAR && !is_mark(t, begin - 1, ',') && !is_mark(t, begin - 1, ';') &&
         !is_mark(t, begin - 1, ':') && !ends_sentence(t, begin - 1))
    begin--;
  struct span food = tokens_span(t, begin, from - begin);
  struct tokens said = post_tokens(r, food);
  bool weed = false;
  size_t amount = said.count;
  for (size_t k = 0; k < said.count; k++) {
    weed = weed || says(&said, k, "kelp seaweed algae ascophyllum");
    struct post_amount a = post_amount_at(&said, k);
    if (amount == said.count && a.tokens > 0 && (a.is_mass || a.is_volume) && !a.bare && !a.cannot) amount = k;
  }
  if (!weed || amount == said.count) return false;
  struct post_amount a = post_amount_at(&said, amount);
  struct buf b, note;
  struct ration_line got;
  const char *assumed;
  buf_init(&b, r->keep, 120);
  amount_write(&b, &a, 1);
  buf_adds(&b, " kelp");
  if (!strict_takes(r, buf_text(&b), &assumed, &got) || !(got.grams_fed > 0)) return false;
  buf_init(&note, r->keep, 200);
  buf_addf(&note, "%s, whose label states ", buf_text(&b));
  num_sig(&note, fabs(ug_per_g), 4);
  buf_addf(&note, " µg of iodine%s; nothing else in it is counted", of_all ? ", taken as that of all of it" : " a gram");
  buf_init(&b, r->keep, 80);
  num_sig(&b, of_all ? -ug_per_g : got.grams_fed * ug_per_g, 4);
  buf_adds(&b, " mcg kelp iodine");
  if (of_all)
    post_will_say(r, SPAN_LIT("iodine"), buf_text(&note),
                  "Is the iodine that the label states that of all the kelp, or of a gram of it?");
  else
    post_will_note(r, SPAN_LIT("iodine"), buf_text(&note));
  size_t end = i + used;
  if (is_mark(t, end, ')') || is_mark(t, end, ']')) end++;
  *out = post_cut_out(r, line, food.p, token_end(t, end - 1), buf_text(&b));
  return true;
}

/* "Weekly batch (7 days):": how long it lasts is told twice. */
static bool weekly_of_days(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  double days = says(t, i, "weekly") ? 7 : says(t, i, "fortnightly") ? 14 : says(t, i, "monthly") ? 28 : 0;
  if (days == 0 || !says(t, i + 1, "batch batches cook pot recipe prep mix menu")) return false;
  for (size_t k = i + 2; k + 1 < t->count; k++) {
    if (!is_number(t, k) || !says(t, k + 1, "days day")) continue;
    if (t->item[k].value < days || t->item[k].value > days + 3) return false;
    *out = post_cut_out(r, line, token_begin(t, i), token_begin(t, i + 1), "");
    return true;
  }
  return false;
}

/* "700 g spinach & kale mix (cooked)", "..., steamed": said of each of them. */
static bool cooked_behind_two(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  struct post_amount a = is_number(t, i) ? post_amount_at(t, i) : (struct post_amount){0};
  size_t food = i + a.tokens, joint = food + 1;
  if (!(a.is_mass || a.is_volume) || a.bare) return false;
  if (says(t, food, "of")) food++;
  size_t one = post_mention_at(r, t, food);
  joint = food + one;
  if (one == 0 || !(is_mark(t, joint, '&') || is_mark(t, joint, '/') || is_mark(t, joint, '+') || says(t, joint, "and n")))
    return false;
  size_t two = post_mention_at(r, t, joint + 1), end = joint + 1 + two;
  if (two == 0) return false;
  if (says(t, end, "mix mixture blend")) end++;
  if (!is_mark(t, end, '(') && !is_mark(t, end, ',')) return false;
  size_t state = says(t, end + 1, "lightly well all both") ? end + 2 : end + 1, behind = state + 1;
  if (!says(t, state, "cooked steamed boiled raw")) return false;
  if (is_mark(t, end, '(') ? !is_mark(t, behind, ')') : behind < t->count && !ends_sentence(t, behind)) return false;
  struct buf b;
  buf_init(&b, r->keep, line.n + 40);
  struct span how = t->item[state].word, rest = tokens_span(t, joint + 1, end - joint - 1);
  buf_addf(&b, "%.*s %.*s & %.*s %.*s", SPAN_ARG(how), SPAN_ARG(tokens_span(t, food, one)), SPAN_ARG(how), SPAN_ARG(rest));
  *out = post_cut_out(r, line, token_begin(t, food), token_end(t, is_mark(t, end, '(') ? behind : state), buf_text(&b));
  return true;
}

/* "10 g ground chicken bone?? maybe chicken neck": one food, and its owner is not sure which. */
static bool unsure_which(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { WORDS_MOST = 4 };
  size_t at = i, from = i;
  if (i == 0 || !is_mark(t, i, '?')) return false;
  while (is_mark(t, at, '?') || is_mark(t, at, '.') || is_mark(t, at, ',')) at++;
  if (!says(t, at, "maybe perhaps possibly probably or")) return false;
  while (says(t, at, "maybe perhaps possibly probably or it's its it is was a")) at++;
  size_t end = at;
  while (is_word(t, end)) end++;
  if (end == at || end - at > WORDS_MOST || !ends_sentence(t, end) || post_any_amount(&(struct tokens){t->item, end}, at) ||
      !post_names_food(r, t, at, end))
    return false;
  while (from > 0 && !ends_sentence(t, from - 1)) from--;
  if (!post_any_amount(&(struct tokens){t->item, i}, from) || !post_names_food(r, t, from, i)) return false;
  struct buf note, ask;
  struct span first = tokens_span(t, from, i - from), second = tokens_span(t, at, end - at);
  buf_init(&note, r->keep, 120);
  buf_addf(&note, "the post is not sure: perhaps %.*s", SPAN_ARG(second));
  buf_init(&ask, r->keep, 200);
  buf_addf(&ask, "Which is it, '%.*s' or %.*s? The first was counted.", SPAN_ARG(first), SPAN_ARG(second));
  post_will_say(r, t->item[i - 1].at, buf_text(&note), buf_text(&ask));
  *out = post_cut_out(r, line, token_begin(t, i), token_end(t, end - 1), "");
  return true;
}

/* "2 g fish oil (krill)": the oil of it, and no krill. */
static bool oil_of_bracket(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  struct search_hit hit;
  size_t close = i + 1;
  if (i < 2 || !is_mark(t, i, '(') || !says(t, i - 1, "oil oils") || !is_word(t, i - 2) || post_mention_at(r, t, i - 2) != 2)
    return false;
  while (is_word(t, close) && close < i + 4) close++;
  if (close == i + 1 || !is_mark(t, close, ')') || !post_names_food(r, t, i + 1, close) || says(t, close - 1, "oil oils"))
    return false;
  struct buf b;
  buf_init(&b, r->keep, 80);
  buf_addf(&b, "%.*s oil", SPAN_ARG(tokens_span(t, i + 1, close - i - 1)));
  bool named = post_look_up(r, buf_span(&b), &hit) && hit.exact_name && hit.words_missed == 0;
  *out = named ? post_cut_out(r, line, token_begin(t, i - 2), token_end(t, close), buf_text(&b))
               : post_cut_out(r, line, token_end(t, i - 1), token_end(t, close), "");
  return true;
}

/* "Is that enough zinc": a question that its writer left unmarked. */
static bool unmarked_question(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  enum { WORDS_MOST = 10 };
  if (t->count < 3 || t->count > WORDS_MOST || phrase_of(t, 0, CLASS_OPENS_QUESTION) == 0 || post_any_amount(t, 0))
    return false;
  for (size_t i = 0; i < t->count; i++)
    if (!is_word(t, i)) return false;
  *out = post_cut_out(r, line, token_end(t, t->count - 1), token_end(t, t->count - 1), "?");
  return true;
}

/* "10 g chicken hearts - 8 %", "3 g salmon oil = 2.5 %": the grams before it are what is fed. */
static bool share_behind(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (i < 2 || !(is_mark(t, i, '-') || is_mark(t, i, '=')) || !is_number(t, i + 1)) return false;
  struct post_amount a = post_amount_at(t, i + 1);
  size_t end = i + 1 + a.tokens, from = i;
  if (!a.is_percent || !(ends_sentence(t, end) || is_mark(t, end, ','))) return false;
  while (from > 0 && !ends_sentence(t, from - 1) && !is_mark(t, from - 1, ',')) from--;
  bool weighed = false;
  for (size_t k = from; k < i; k++) {
    struct post_amount own = is_number(t, k) ? post_amount_at(t, k) : (struct post_amount){0};
    weighed = weighed || (own.is_mass && !own.bare);
    if (says_a(t, k, CLASS_MINCED)) return false; /* its fat */
  }
  if (!weighed || !post_names_food(r, t, from, i)) return false;
  *out = post_cut_out(r, line, token_end(t, i - 1), token_end(t, end - 1), "");
  return true;
}

/* "a 5 ml spoon of hemp oil" */
static bool spoon_of_ml(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (!says(t, i, "a an one 1") && !(is_number(t, i) && t->item[i].value == 1)) return false;
  struct post_amount a = is_number(t, i + 1) ? post_amount_at(t, i + 1) : (struct post_amount){0};
  size_t spoon = i + 1 + a.tokens;
  if (!a.is_volume || strcmp(a.unit, "ml") != 0 || a.low != a.high ||
      !says(t, spoon, "spoon spoonful syringe scoop teaspoon measure"))
    return false;
  struct buf b;
  buf_init(&b, r->keep, 40);
  amount_write(&b, &a, 1);
  *out = post_cut_out(r, line, token_begin(t, i), token_end(t, spoon), buf_text(&b));
  return true;
}

/* "Weekly: 1.5 kg turkey mince, 250 g ox liver. 500 g carrots. 3 tbsp oil.": pieces of the same list, where what stands
 * before them is no day's food. */
static bool rest_of_week(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  static const double NO_DAY_G = 700;
  enum { WORDS_MOST = 8 };
  if (i != 0 || !(says(t, 0, "weekly") || (says(t, 0, "per each every a") && says(t, 1, "week")))) return false;
  double grams = 0;
  size_t end = 0, begin = 0;
  while (end < t->count && !ends_sentence(t, end)) end++;
  if (!post_names_food(r, t, 0, end)) begin = end + 1; /* "Weekly for Max, 19 kg, 5 y." */
  for (end = begin; end < t->count && !ends_sentence(t, end); end++) {
    struct post_amount a = is_number(t, end) ? post_amount_at(t, end) : (struct post_amount){0};
    if (a.is_mass && !a.bare) grams += post_in_grams(&a);
  }
  if (!(grams >= NO_DAY_G) || !is_mark(t, end, '.') || end + 2 >= t->count) return false;
  size_t from = end + 1, to = from;
  for (; to < t->count && !ends_sentence(t, to); to++)
    if (frequency_at(t, to).tokens > 0 || token_is_a(&t->item[to], CLASS_CLAUSE_OPENER)) return false;
  struct post_amount a = is_number(t, from) ? post_amount_at(t, from) : (struct post_amount){0};
  bool piece = (a.is_mass || a.is_volume) && !a.bare && to - from <= WORDS_MOST && post_names_food(r, t, from, to);
  if (!piece) return false;
  *out = post_cut_out(r, line, token_begin(t, end), token_end(t, end), ",");
  return true;
}

/* "no supplements bar a multivit paste" */
static bool bar_for_except(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { FAR = 4 };
  if (!says(t, i, "bar barring") || !is_word(t, i + 1)) return false;
  for (size_t k = i; k-- > 0 && k + FAR > i && is_word(t, k);)
    if (says(t, k, "no none nothing not")) {
      *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i), "except");
      return true;
    }
  return false;
}

/* "half an apple, no core", "pears without pips": it goes without saying. */
static bool without_core(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (i == 0 || !says(t, i, "no without minus") || !says(t, i + 1, "core cores pips pip seeds stone stones pit pits"))
    return false;
  size_t from = is_mark(t, i - 1, ',') || is_mark(t, i - 1, '-') ? i - 1 : i;
  if (from == 0 || is_mark(t, i - 1, '(') || !ends_sentence(t, i + 2)) return false;
  *out = post_cut_out(r, line, token_end(t, from - 1), token_end(t, i + 1), "");
  return true;
}

/* "raw egg x3 week", "egg x 2 a week": so often a week. */
static bool times_week(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  struct span word = i < t->count ? t->item[i].at : (struct span){"", 0};
  bool glued = word.n == 2 && (word.p[0] | 0x20) == 'x' && word.p[1] >= '1' && word.p[1] <= '9';
  size_t at = glued ? i : i + 1;
  if (i == 0 || !(glued || (says(t, i, "x") && is_number(t, at) && t->item[at].value <= 14))) return false;
  double times = glued ? word.p[1] - '0' : t->item[at].value;
  size_t week = at + 1;
  if (is_mark(t, week, '/') || says(t, week, "a per each every")) week++;
  if (!says(t, week, "week wk weekly")) return false;
  struct buf b;
  buf_init(&b, r->keep, 40);
  num_sig(&b, times, 3);
  buf_adds(&b, " times a week");
  *out = post_cut_out(r, line, token_begin(t, i), token_end(t, week), buf_text(&b));
  return true;
}

/* "Kelp pinch", "parsley handful": a line of a food and its measure, of which there is one. */
static bool lone_measure(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (i == 0 || i + 1 != t->count || i > 3 || !says(t, i, "pinch handful splash dash sprinkle")) return false;
  for (size_t k = 0; k < i; k++)
    if (!is_word(t, k) || is_number(t, k)) return false;
  if (!post_names_food(r, t, 0, i) || says(t, i - 1, "a an one small big large good")) return false;
  struct buf b;
  buf_init(&b, r->keep, line.n + 8);
  buf_addf(&b, "1 %.*s %.*s", SPAN_ARG(t->item[i].at), SPAN_ARG(tokens_span(t, 0, i)));
  *out = post_cut_out(r, line, token_begin(t, 0), token_end(t, i), buf_text(&b));
  return true;
}

/* "1750 mg taurine (7 x 250 mg caps)", "200 mg B complex (50 x 4)": how the amount before it is made up. */
static bool made_up_of(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { FAR = 6 };
  size_t close = i + 1, count = 0;
  double product = 1, said = 0;
  bool times = false;
  if (i == 0 || !is_mark(t, i, '(')) return false;
  for (; close < t->count && !is_mark(t, close, ')') && close < i + 9; close++) {
    if (is_number(t, close)) product *= t->item[close].value, count++;
    times = times || says(t, close, "x") || is_mark(t, close, '*');
  }
  if (!is_mark(t, close, ')') || count != 2 || !times) return false;
  for (size_t k = i; k-- > 0 && k + FAR > i && said == 0;)
    if (is_number(t, k)) said = t->item[k].value;
  if (!(said > 0) || fabs(product - said) > 0.01 * said) return false;
  *out = post_cut_out(r, line, token_end(t, i - 1), token_end(t, close), "");
  return true;
}

/* "two meals a day", "2x daily", "twice a day": how many meals; its tokens, 0 none. */
static size_t meals_a_day(const struct tokens *t, size_t at, int *meals) {
  struct quantity q = quantity_at(t, at);
  size_t i = at;
  if (says(t, i, "twice")) {
    *meals = 2, i++;
  } else if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 5) {
    *meals = (int)q.low, i += q.tokens;
    if (!says(t, i, "meals feeds times x feedings bowls")) return 0;
    i++;
  } else {
    return 0;
  }
  if (says(t, i, "daily")) return i + 1 - at;
  return says(t, i, "a per each every") && says(t, i + 1, "day") ? i + 2 - at : 0;
}

/* "100 g rabbit, 50 g sardines, 20 g liver each meal, two meals a day": said of all of the list. */
static bool each_meal_behind(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  int meals = 0;
  size_t at = i + 2, from = i, amounts = 0;
  if (!says(t, i, "each every per") || !says(t, i + 1, "meal feed feeding bowl")) return false;
  bool bracket = is_mark(t, at, '(');
  if (bracket || is_mark(t, at, ',') || is_mark(t, at, '-') || is_mark(t, at, ';') || says(t, at, "and with")) at++;
  while (says(t, at, "i he she they gets eats get eat has we feed")) at++;
  size_t used = meals_a_day(t, at, &meals), end = at + used + (bracket ? 1 : 0);
  if (used == 0 || (bracket && !is_mark(t, end - 1, ')')) || !ends_sentence(t, end)) return false;
  while (from > 0 && !ends_sentence(t, from - 1)) from--;
  if (i > 0 && says(t, i - 1, "at with for in")) i--;
  for (size_t k = from; k < i; k++) {
    struct post_amount a = is_number(t, k) ? post_amount_at(t, k) : (struct post_amount){0};
    if (a.is_mass || a.is_volume) amounts++;
    if (frequency_at(t, k).tokens > 0) return false;
  }
  if (amounts < 2) return false;
  struct buf b;
  buf_init(&b, r->keep, line.n + 60);
  buf_addf(&b, "%d meals a day, each meal: %.*s", meals, SPAN_ARG(tokens_span(t, from, i - from)));
  *out = post_cut_out(r, line, token_begin(t, from), token_end(t, end - 1), buf_text(&b));
  return true;
}

struct span post_short_words(struct post_reader *r, struct span before, struct span line) {
  struct tokens t = post_tokens(r, line);
  struct span out = line;
  (void)before;
  if (t.count > LINE_MOST_TOKENS) return line;
  for (size_t i = 0; i + 1 < t.count; i++)
    if (letters_for_with(r, &t, i, line, &out) || of_both_parts(r, &t, i, line, &out) ||
        part_with_skin(r, &t, i, line, &out) || iodine_of_label(r, &t, i, line, &out) ||
        weekly_of_days(r, &t, i, line, &out) || cooked_behind_two(r, &t, i, line, &out) ||
        each_meal_behind(r, &t, i, line, &out) || unsure_which(r, &t, i, line, &out) || without_core(r, &t, i, line, &out) ||
        times_week(r, &t, i, line, &out) || made_up_of(r, &t, i, line, &out) || oil_of_bracket(r, &t, i, line, &out) ||
        share_behind(r, &t, i, line, &out) || spoon_of_ml(r, &t, i, line, &out) || bar_for_except(r, &t, i, line, &out) ||
        rest_of_week(r, &t, i, line, &out))
      return out;
  bool other = t.count > 1 && (lone_measure(r, &t, t.count - 1, line, &out) || unmarked_question(r, &t, line, &out));
  return other ? out : line;
}
