/* What people say around a food and its amount, in as many words as the reader needs: "250 mg taurine go in every evening",
 * "on Fridays it's fish, so that day she has 120 g of cod", "duck necks he has two 3 times a week (60 g each)", "12 g that's
 * ox liver", "prawns, 3 of them", "(the ordinary 20 % fat one)", "stomachs (gizzards)", "weighed on a kitchen scale". */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

static struct span cut(struct post_reader *r, const struct tokens *t, struct span text, size_t from, size_t to,
                       const char *instead) {
  return post_cut_out(r, text, token_begin(t, from), token_end(t, to - 1), instead);
}

static bool ends(const struct tokens *t, size_t at) { return at >= t->count || t->item[at].kind == TOKEN_MARK; }

static bool measured_before(const struct tokens *t, size_t at) {
  for (size_t i = 0; i < at; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.is_mass || a.is_volume || a.is_percent) return true;
    if (a.tokens > 0) i += a.tokens - 1;
  }
  return false;
}

/* "... taurine 250 mg go in every evening", "go on top", "get stirred in with her dinner" */
static bool goes_in(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  size_t at = i + 1;
  bool goes = says(t, i, "go goes"), gets = says(t, i, "get gets are is");
  if (i < 2 || !(goes || gets)) return false;
  if (says(t, at, "all both then also")) at++;
  if (gets && !says_a(t, at, CLASS_MIXED_INTO) && !says(t, at, "sprinkled added thrown drizzled")) return false;
  if (gets) at++;
  if (says(t, at, "on over") && (says(t, at + 1, "it all everything") || says(t, at + 1, "top")) &&
      phrase_at(t, at + 2, "of the lot") + phrase_at(t, at + 2, "of it all") > 0)
    at += 4; /* "goes on top of the lot" */
  else if (says(t, at, "on") && says(t, at + 1, "top") && says(t, at + 2, "of") && says(t, at + 3, "it all everything that"))
    at += 3;
  else if (says(t, at, "in on over into onto") && says(t, at + 1, "top it that this them"))
    at++;
  else if (!says(t, at, "in over through") || says(t, at + 1, "the his her a"))
    return false;
  at++;
  bool when = at < t->count && (frequency_at(t, at).tokens > 0 || says_a(t, at, CLASS_TIME_OF_DAY));
  if (!(when || ends(t, at) || says(t, at, "at with in")) || post_any_amount(t, at) || !measured_before(t, i)) return false;
  *out = cut(r, t, text, i, at, "");
  return true;
}

/* "On Fridays it's fish of course, so that day she has 120 g of cod": which day the next clause is about. */
static bool so_that_day(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { CLAUSE_MOST = 9 };
  size_t from = says(t, i, "on") ? i + 1 : i, comma;
  struct frequency f = frequency_at(t, from);
  if (f.tokens == 0 || f.days == 0 || (i > 0 && is_word(t, i - 1))) return false;
  size_t behind = from + f.tokens;
  for (comma = behind; comma < behind + CLAUSE_MOST && comma < t->count && t->item[comma].kind != TOKEN_MARK;) comma++;
  if (comma == behind || !is_mark(t, comma, ',') || post_any_amount(&(struct tokens){t->item, comma}, behind)) return false;
  if (!says(t, behind, "it's its is are") && !(says(t, behind, "it that") && says(t, behind + 1, "is"))) return false;
  if (holds_a(t, behind, comma, CLASS_FASTING)) return false;
  size_t day = comma + 1;
  while (says(t, day, "so and then on")) day++;
  if (says(t, day, "that those these") && says(t, day + 1, "day days"))
    day += 2;
  else if (!says(t, day - 1, "then so"))
    return false;
  if (!is_word(t, day) || !says_a(t, day + 1, CLASS_EATER_VERB) || !post_any_amount(t, day)) return false;
  *out = cut(r, t, text, behind, day, "");
  return true;
}

/* "Duck necks he has two 3 times a week (60 g each)": two of 60 g are 120 g. */
static bool several_weighed(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  struct quantity q = quantity_at(t, i);
  size_t often = i + q.tokens, from = i, bracket;
  if (i < 2 || q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 1) || !says(t, i - 1, "gets has have get eats"))
    return false;
  struct frequency f = frequency_at(t, often);
  bracket = often + f.tokens;
  if (f.tokens == 0 || !is_mark(t, bracket, '(')) return false;
  size_t at = bracket + 1;
  if (says_a(t, at, CLASS_ABOUT) || says(t, at, "bout")) at++;
  struct post_amount each = post_amount_at(t, at);
  size_t end = at + each.tokens;
  if (!each.is_mass || !says(t, end, "each apiece") || !is_mark(t, end + 1, ')')) return false;
  from = i - 1;
  if (says(t, from - 1, "he she they it")) from--;
  if (from == 0 || !is_word(t, from - 1) || post_any_amount(&(struct tokens){t->item, from}, from > 3 ? from - 3 : 0))
    return false;
  struct buf b;
  buf_init(&b, r->arena, 80);
  buf_adds(&b, " ");
  if (at > bracket + 1) buf_adds(&b, "about ");
  amount_write(&b, &each, q.low);
  buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, often, f.tokens)));
  *out = cut(r, t, text, from, end + 2, buf_text(&b));
  return true;
}

/* "Liver he gets liver about 30 g that's ox liver": the same food, better named. */
static bool that_is(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { NAME_MOST = 3 };
  struct post_amount a = post_amount_at(t, i);
  if (i == 0 || a.tokens == 0 || a.bare) return false;
  size_t at = i + a.tokens, name, to, noun = i;
  bool becomes = says(t, i - 1, "to"); /* "I've cut the liver to 10 g, it's chicken liver still" */
  if (becomes && is_mark(t, at, ',')) at++;
  if (says(t, at, "that's thats") || says(t, at, "it's"))
    name = at + 1;
  else if (says(t, at, "that which") && says(t, at + 1, "is"))
    name = at + 2;
  else
    return false;
  while (noun > 0 && (says_a(t, noun - 1, CLASS_ABOUT) || says(t, noun - 1, "of is to"))) noun--;
  if (noun == 0 || !is_word(t, noun - 1) || post_mention_at(r, t, noun - 1) == 0) return false;
  struct span word = t->item[noun - 1].word;
  for (to = name; to < name + NAME_MOST && is_word(t, to) && !span_eq_fold(t->item[to].word, word);) to++;
  if (to == name || !is_word(t, to) || !span_eq_fold(t->item[to].word, word)) return false;
  size_t from = noun - 1;
  for (size_t k = from > 4 ? from - 4 : 0; k < from; k++) /* "liver he gets liver" */
    if (is_word(t, k) && span_eq_fold(t->item[k].word, word)) from = k;
  struct buf b;
  buf_init(&b, r->arena, 100);
  struct span amount = tokens_span(t, i, a.tokens), named = tokens_span(t, name, to + 1 - name);
  if (becomes)
    buf_addf(&b, "%.*s to %.*s", SPAN_ARG(named), SPAN_ARG(amount));
  else
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(amount), SPAN_ARG(named));
  size_t end = says(t, to + 1, "still") ? to + 2 : to + 1;
  *out = cut(r, t, text, from, end, buf_text(&b));
  return true;
}

/* "Prawns, 3 or 4 of them, at the weekend" */
static bool of_them(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  struct quantity q = quantity_at(t, i);
  size_t of = i + q.tokens;
  if (i < 2 || q.fault != QUANTITY_FINE || !(q.low >= 1) || !says(t, of, "of") || !says(t, of + 1, "them these those") ||
      !is_mark(t, i - 1, ',') || !ends(t, of + 2) || !is_word(t, i - 2) || post_mention_at(r, t, i - 2) == 0)
    return false;
  if (i > 2 && is_word(t, i - 3) && !token_is_a(&t->item[i - 3], CLASS_CHATTER)) return false;
  struct buf b;
  buf_init(&b, r->arena, 80);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(t, i, q.tokens)), SPAN_ARG(t->item[i - 2].at));
  size_t to = of + 2;
  if (is_mark(t, to, ',') && (says(t, to + 1, "at on") || frequency_at(t, to + 1).tokens > 0)) to++;
  *out = cut(r, t, text, i - 2, to, buf_text(&b));
  return true;
}

/* "(the ordinary 20 % fat one)": how fat it is, of the kind that the shop has. */
static bool ordinary_one(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { WORDS_MOST = 4 };
  size_t at = i + 1, end;
  if (!is_mark(t, i, '(')) return false;
  while (at < i + 1 + WORDS_MOST && is_word(t, at)) at++;
  if (!is_number(t, at) || !is_mark(t, at + 1, '%')) return false;
  end = at + 2;
  while (says(t, end, "fat lean meat")) end++;
  bool one = says(t, end, "one ones kind sort stuff type version") && is_mark(t, end + 1, ')');
  bool told = end > at + 2 && (one || (at > i + 1 && is_mark(t, end, ')')));
  if (!told || post_names_food(r, t, i + 1, at)) return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  buf_addf(&b, "(%.*s)", SPAN_ARG(tokens_span(t, at, end - at)));
  *out = cut(r, t, text, i, one ? end + 2 : end + 1, buf_text(&b));
  return true;
}

/* "Chicken stomachs (gizzards) 80 g": the same part by another name, which the tables have. */
static bool other_name(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  struct search_hit hit;
  struct buf b;
  if (i < 2 || !is_mark(t, i, '(') || !is_word(t, i + 1) || !is_mark(t, i + 2, ')') || !is_word(t, i - 2)) return false;
  if (!says_a(t, i - 2, CLASS_ANIMAL_OF_FLESH) || !is_word(t, i - 1) || says_a(t, i - 1, CLASS_UNIT)) return false;
  if (says_a(t, i + 1, CLASS_PREPARED) || qualifier_of_food_at(t, i + 1) > 0) return false;
  buf_init(&b, r->arena, 120);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[i - 2].at), SPAN_ARG(t->item[i + 1].at));
  if (!post_look_up(r, buf_span(&b), &hit) || hit.words_missed > 0) return false;
  uint32_t food = hit.food;
  bool exact = hit.exact_name;
  bool known = post_look_up(r, tokens_span(t, i - 2, 2), &hit) && hit.words_missed == 0;
  if (known ? hit.food != food : !exact) return false;
  *out = cut(r, t, text, i - 1, i + 3, arena_text(r->arena, t->item[i + 1].at));
  return true;
}

/* ", weighed on a kitchen scale with 1 g resolution", "(measured weekly, steady, +/- 0.3 kg)": how it was weighed. */
static bool how_weighed(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { FAR = 12 };
  bool bracket = is_mark(t, i, '('), scale = false, steady = false;
  size_t at = i + 1, end;
  if (!bracket && !is_mark(t, i, ',') && !is_mark(t, i, ';')) return false;
  if (says(t, at, "all everything each")) at++;
  if (!says(t, at, "weighed measured checked taken")) return false;
  for (end = at + 1;
       end < at + FAR && end < t->count && !(bracket ? is_mark(t, end, ')') : ends(t, end) && !is_mark(t, end, '.'));
       end++) {
    scale = scale || says(t, end, "scale scales balance");
    steady = steady || says(t, end, "weekly monthly fortnightly daily yearly stable steady constant");
    if (post_mention_at(r, t, end) > 0) return false;
  }
  if (end < t->count && t->item[end].kind != TOKEN_MARK) return false;
  if (bracket ? !(is_mark(t, end, ')') && (scale || steady) && measured_before(t, i)) : !scale) return false;
  *out = cut(r, t, text, i, bracket ? end + 1 : end, "");
  return true;
}

/* "1 coffee spoon of it, more or less 2 g" */
static bool more_or_less(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (!says(t, i, "more") || !says(t, i + 1, "or") || !says(t, i + 2, "less") || !is_number(t, i + 3)) return false;
  *out = cut(r, t, text, i, i + 3, "about");
  return true;
}

/* "5 % veg which is usually blended kale": what is fed under that name. */
static bool usually(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i < 1 || !says_a(t, i - 1, CLASS_ONLY_A_KIND) || !says(t, i, "which that") || !says(t, i + 1, "is are") ||
      !says(t, i + 2, "usually mostly always normally generally") || !is_word(t, i + 3))
    return false;
  if (!post_names_food(r, t, i + 3, t->count < i + 6 ? t->count : i + 6) || !measured_before(t, i)) return false;
  *out = cut(r, t, text, i - 1, i + 3, "");
  return true;
}

/* "Millet (weighed dry, then cooked)": it is the weight of the dry grain. */
static bool weighed_before(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  size_t at = i + 1;
  if (!is_mark(t, i, '(') || i == 0) return false;
  if (says(t, at, "weighed measured weight")) at++;
  if (!says(t, at, "dry raw uncooked") || at == i + 1) return false;
  size_t state = at++;
  if (is_mark(t, at, ',')) at++;
  if (!says(t, at, "then and before")) return false;
  while (says(t, at, "then and before i it's it is being")) at++;
  if (!says(t, at, "cooked boiled simmered steamed soaked") || !is_mark(t, at + 1, ')')) return false;
  struct buf b;
  buf_init(&b, r->arena, 40);
  buf_addf(&b, ", weighed %.*s", SPAN_ARG(t->item[state].at));
  *out = cut(r, t, text, i, at + 2, buf_text(&b));
  return true;
}

/* "300 g of mince (my sister swears by it), 20 g peas": what somebody says in a bracket is of none of the foods. */
static bool said_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  size_t close = i + 1, verb = 0;
  if (!is_mark(t, i, '(') || !measured_before(t, i) || !post_names_food(r, t, 0, i)) return false;
  for (; close < t->count && !is_mark(t, close, ')'); close++) {
    struct post_amount a = post_amount_at(t, close);
    bool number = is_number(t, close) && !is_mark(t, close + 1, '%'); /* "31 kg (vet says aim for 28)" */
    if (is_mark(t, close, '(') || a.is_mass || a.is_volume || number) return false;
    if (says(t, close, "vet vets vet's doctor")) return false; /* an ideal weight, an illness: heard by others */
    if (verb == 0 && says_a(t, close, CLASS_HEARSAY_VERB)) verb = close;
  }
  if (close >= t->count || verb < i + 2 || verb > i + 3 || !says_a(t, verb - 1, CLASS_ADVICE_GIVER)) return false;
  post_note(r, tokens_span(t, i + 1, close - i - 1), NOT_FED_HEARSAY);
  *out = cut(r, t, text, i, close + 1, "");
  return true;
}

/* "I've cut the rice from 80 g to 40 g like you said": what it is now. */
static bool from_to(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { FAR = 6 };
  struct post_amount was = says(t, i, "from") ? post_amount_at(t, i + 1) : (struct post_amount){0};
  size_t to = i + 1 + was.tokens;
  struct post_amount now = was.tokens > 0 && says(t, to, "to") ? post_amount_at(t, to + 1) : (struct post_amount){0};
  size_t end = to + 1 + now.tokens;
  if (!now.is_mass || (!was.is_mass && !was.bare)) return false;
  bool changed = false;
  for (size_t k = i > FAR ? i - FAR : 0; k < i; k++)
    changed =
        changed || says(t, k, "cut reduced lowered dropped raised upped increased halved doubled brought changed took");
  if (!changed) return false;
  size_t said = end;
  if (says(t, said, "like as") && says(t, said + 1, "you") &&
      says(t, said + 2, "said told suggested advised recommended all guys"))
    said += 3;
  if (says(t, said - 1, "all guys") && says(t, said, "said told suggested advised recommended")) said++;
  if (said > end && says(t, said, "me us")) said++;
  *out = cut(r, t, text, i, ends(t, said) ? said : end, arena_text(r->arena, tokens_span(t, to, end - to)));
  return true;
}

/* "The chicken breast I've swapped for thigh": of the same animal. */
static bool of_that_animal(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (!says(t, i, "the his her") || !says_a(t, i + 1, CLASS_ANIMAL_OF_FLESH) || !is_word(t, i + 2)) return false;
  size_t at = i + 3;
  if (!says(t, at, "i've ive i we've we")) return false;
  at++;
  if (says(t, at, "have now")) at++;
  if (!says(t, at, "swapped changed switched exchanged replaced") || !says(t, at + 1, "for to with by")) return false;
  size_t part = at + 2;
  if (!says_a(t, part, CLASS_ORGAN_OF_MEAT) &&
      !says(t, part, "thigh thighs breast breasts leg legs neck necks wing wings mince drumstick"))
    return false;
  size_t amount = is_mark(t, part + 1, ',') || is_mark(t, part + 1, '(') ? part + 2 : part + 1;
  struct post_amount now = post_amount_at(t, amount);
  size_t end = amount + now.tokens;
  bool whole = i == 0 && now.is_mass && end >= t->count; /* nothing was told of what it was before: what it is now is all */
  for (size_t k = 0; k < r->count; k++) whole = whole && !span_holds_fold(r->item[k].words, t->item[i + 2].word);
  struct buf b;
  buf_init(&b, r->arena, 100);
  if (whole) buf_addf(&b, "%.*s ", SPAN_ARG(tokens_span(t, amount, now.tokens)));
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[i + 1].at), SPAN_ARG(t->item[part].at));
  *out = cut(r, t, text, whole ? i : part, whole ? end : part + 1, buf_text(&b));
  return true;
}

/* "Total ration 820 g/day as fed": how much of all of it. */
static bool total_ration(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i > 0 || !says(t, 0, "total whole daily entire") || !says(t, 1, "ration rations amount intake quantity")) return false;
  size_t at = is_mark(t, 2, ':') || is_mark(t, 2, '=') || says(t, 2, "is of") ? 3 : 2;
  struct post_amount a = post_amount_at(t, at);
  size_t end = at + a.tokens;
  bool day = (is_mark(t, end, '/') || says(t, end, "a per each")) && says(t, end + 1, "day d");
  if (!a.is_mass || !(day || says(t, end, "daily"))) return false;
  end += day ? 2 : 1;
  if (says(t, end, "as") && says(t, end + 1, "fed")) end += 2;
  if (!ends(t, end)) return false;
  struct buf b;
  buf_init(&b, r->arena, 80);
  buf_addf(&b, "Total food %.*s a day", SPAN_ARG(tokens_span(t, at, a.tokens)));
  *out = cut(r, t, text, 0, end, buf_text(&b));
  return true;
}

/* "6 kg tripe, green": one food's name, its first word behind a comma. */
static bool first_word_behind(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  struct search_hit hit;
  struct buf b;
  if (i < 2 || !is_mark(t, i, ',') || !is_word(t, i + 1) || !ends(t, i + 2) || !is_word(t, i - 1)) return false;
  if (post_mention_at(r, t, i - 1) == 0 || post_mention_at(r, t, i + 1) > 0 || says_a(t, i + 1, CLASS_PREPARED) ||
      says_a(t, i + 1, CLASS_MAY_GO) || says(t, i + 1, "dry dried raw fresh cooked canned frozen whole lean plain") ||
      qualifier_of_food_at(t, i + 1) > 0 || frequency_at(t, i + 1).tokens > 0 || !measured_before(t, i))
    return false;
  buf_init(&b, r->arena, 80);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[i + 1].at), SPAN_ARG(t->item[i - 1].at));
  if (!post_look_up(r, buf_span(&b), &hit) || !hit.exact_name || hit.words_missed > 0) return false;
  *out = cut(r, t, text, i - 1, i + 2, buf_text(&b));
  return true;
}

/* "in springwater" */
static bool in_spring_water(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i == 0 || !says(t, i, "springwater") || !says(t, i - 1, "in of")) return false;
  *out = cut(r, t, text, i, i + 1, "water");
  return true;
}

/* "3 krill oil capsules of 1 g", "fish oil cap (1000 mg)": what one holds, as labels state it. */
static bool capsule_of(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i == 0 || !says_a(t, i, CLASS_CAPSULE)) return false;
  bool bracket = is_mark(t, i + 1, '('), of = says(t, i + 1, "of");
  struct post_amount a = bracket || of ? post_amount_at(t, i + 2) : (struct post_amount){0};
  size_t end = i + 2 + a.tokens;
  bool grams = strcmp(a.unit, "g") == 0, mg = strcmp(a.unit, "mg") == 0;
  if (!(grams || mg) || a.low != a.high || (grams && a.low > 2) || (bracket && !is_mark(t, end, ')'))) return false;
  if (bracket) end++;
  if (bracket && !says(t, i, "cap caps") && !says(t, end, "of")) return false; /* that is read as it stands */
  if (of && is_word(t, end) && post_mention_at(r, t, end) > 0) return false;   /* "2 capsules of 500 mg taurine" */
  struct buf b;
  buf_init(&b, r->arena, 40);
  buf_adds(&b, " ");
  num_sig(&b, grams ? 1000 * a.low : a.low, 5);
  buf_adds(&b, " mg");
  *out = cut(r, t, text, i + 1, end, buf_text(&b));
  return true;
}

/* "50 g pumpkin mash": mashed pumpkin. */
static bool mash_of(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i < 2 || !says(t, i, "mash") || !is_word(t, i - 1) || !(ends(t, i + 1) || frequency_at(t, i + 1).tokens > 0))
    return false;
  if (post_mention_at(r, t, i - 1) == 0 || says_a(t, i - 1, CLASS_UNIT) || !measured_before(t, i)) return false;
  if (is_word(t, i - 2) && says(t, i - 2, "sweet butternut")) return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  buf_addf(&b, "mashed %.*s", SPAN_ARG(t->item[i - 1].at));
  *out = cut(r, t, text, i - 1, i + 1, buf_text(&b));
  return true;
}

/* "Sundays I put one egg more", "on Sundays one more egg", "an extra egg": one beside what is fed anyhow. */
static bool one_more(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  struct quantity q = quantity_at(t, i);
  bool a = says(t, i, "a an another");
  size_t at = i + (a ? 1 : q.tokens);
  if (!a && (q.fault != QUANTITY_FINE || q.low != q.high || q.low > 6)) return false;
  bool often = false; /* on some days */
  for (size_t k = 0; k < t->count && !often; k++) often = frequency_at(t, k).days != 0;
  if (!often) return false;
  if (says(t, at, "more extra") || (a && says(t, i, "another"))) {
    bool another = !says(t, at, "more extra");
    if (!is_word(t, another ? at : at + 1) || post_mention_at(r, t, another ? at : at + 1) == 0) return false;
    if (another && says(t, i, "a an")) return false;
    *out = another ? cut(r, t, text, i, i + 1, "one") : cut(r, t, text, at, at + 1, "");
    return true;
  }
  if (a || !is_word(t, at) || post_mention_at(r, t, at) == 0 || !says(t, at + 1, "more extra")) return false;
  if (!ends(t, at + 2) && frequency_at(t, at + 2).tokens == 0 && !says(t, at + 2, "on")) return false;
  *out = cut(r, t, text, at + 1, at + 2, "");
  return true;
}

/* "at teatime": at tea, as every reader knows it. */
static bool meal_time(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  static const char *const TIME[][2] = {
      {"teatime", "tea"}, {"dinnertime", "dinner"}, {"lunchtime", "lunch"}, {"suppertime", "supper"}};
  if (i == 0 || !says(t, i - 1, "at every each by before")) return false;
  for (size_t k = 0; k < COUNT_OF(TIME); k++)
    if (says(t, i, TIME[k][0])) {
      *out = cut(r, t, text, i, i + 1, TIME[k][1]);
      return true;
    }
  return false;
}

/* "Liver: 20 g beef", "necks - 200 g duck": the part is the label, and the animal stands behind the amount. */
static bool part_as_label(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  bool part =
      says_a(t, i, CLASS_ORGAN_OF_MEAT) ||
      says(t, i, "neck necks wing wings mince thigh thighs breast breasts leg legs feet drumsticks carcass carcasses");
  bool marked = is_mark(t, i + 1, ':') || is_mark(t, i + 1, '-');
  if (!part || (i > 0 && t->item[i - 1].kind != TOKEN_MARK) || (!marked && i > 0)) return false;
  size_t amount = marked ? i + 2 : i + 1;
  struct post_amount a = post_amount_at(t, amount);
  size_t animal = amount + a.tokens;
  if (says(t, animal, "of")) animal++;
  if (a.tokens == 0 || a.by_word || !says_a(t, animal, CLASS_ANIMAL_OF_FLESH)) return false;
  if (!ends(t, animal + 1) && frequency_at(t, animal + 1).tokens == 0) return false;
  struct buf b;
  buf_init(&b, r->arena, 100);
  buf_addf(&b, "%.*s %.*s %.*s", SPAN_ARG(tokens_span(t, amount, a.tokens)), SPAN_ARG(t->item[animal].at),
           SPAN_ARG(t->item[i].at));
  *out = cut(r, t, text, i, animal + 1, buf_text(&b));
  return true;
}

/* "a duck neck (they're about 120 g)": what one weighs. */
static bool weighs_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  size_t at = i + 1;
  if (!is_mark(t, i, '(')) return false;
  if (says(t, at, "they it each one") && says(t, at + 1, "is are weighs weigh"))
    at += 2;
  else if (says(t, at, "they're theyre it's its"))
    at++;
  else
    return false;
  size_t about = at;
  while (says_a(t, about, CLASS_ABOUT)) about++;
  struct post_amount a = post_amount_at(t, about);
  size_t close = about + a.tokens + (says(t, about + a.tokens, "each apiece") ? 1 : 0);
  if (!a.is_mass || !is_mark(t, close, ')')) return false;
  *out = cut(r, t, text, i + 1, at, "");
  return true;
}

/* "whatever veg there is, carrots mostly, say 50 g": so much of what it mostly is. */
static bool mostly_is(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  size_t named = post_mention_at(r, t, i), at = i + named;
  if (named == 0 || !says(t, at, "mostly mainly usually")) return false;
  at++;
  if (is_mark(t, at, ',')) at++;
  if (!says(t, at, "say about around")) return false;
  struct post_amount a = post_amount_at(t, at + 1);
  if (!a.is_mass || (at + 1 + a.tokens < t->count && !ends(t, at + 1 + a.tokens))) return false;
  struct buf b;
  buf_init(&b, r->arena, 100);
  buf_addf(&b, "about %.*s %.*s", SPAN_ARG(tokens_span(t, at + 1, a.tokens)), SPAN_ARG(tokens_span(t, i, named)));
  *out = cut(r, t, text, i, at + 1 + a.tokens, buf_text(&b));
  return true;
}

bool post_said_so_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i < t->count; i++)
    if (mostly_is(r, t, text, i, out) || weighs_in_bracket(r, t, text, i, out) || goes_in(r, t, text, i, out) ||
        so_that_day(r, t, text, i, out) || several_weighed(r, t, text, i, out) || that_is(r, t, text, i, out) ||
        of_them(r, t, text, i, out) || ordinary_one(r, t, text, i, out) || other_name(r, t, text, i, out) ||
        how_weighed(r, t, text, i, out) || more_or_less(r, t, text, i, out) || usually(r, t, text, i, out) ||
        weighed_before(r, t, text, i, out) || said_in_bracket(r, t, text, i, out) || from_to(r, t, text, i, out) ||
        of_that_animal(r, t, text, i, out) || total_ration(r, t, text, i, out) || first_word_behind(r, t, text, i, out) ||
        in_spring_water(r, t, text, i, out) || capsule_of(r, t, text, i, out) || mash_of(r, t, text, i, out) ||
        one_more(r, t, text, i, out) || meal_time(r, t, text, i, out) || part_as_label(r, t, text, i, out))
      return true;
  return false;
}
