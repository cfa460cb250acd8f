/* One sentence cut into segments, a food each: where one food ends and the next begins. */
#include "foods/hazard_words.h"
#include "post/line/post_line.h"

/* "105 g/week", "eggs + shells": no other food begins here. */
static bool joins(const struct tokens *t, size_t at) {
  if (is_mark(t, at, '/') && says(t, at + 1, "day d week wk month fortnight meal")) return true;
  bool sign = is_mark(t, at, '+') || is_mark(t, at, '&') || says(t, at, "and plus with");
  if (sign && says(t, at + 1, "the its their")) at++;
  return sign && says(t, at + 1, "shell shells") && (at + 2 >= t->count || !says(t, at + 2, "from of powder"));
}

static bool separates(const struct tokens *t, size_t at) {
  if (at >= t->count || t->item[at].taken || joins(t, at)) return false;
  if (at > 0 && says(t, at, "and") && says(t, at - 1, "now") && says(t, at + 1, "again then")) return false;
  if (t->item[at].kind == TOKEN_MARK) {
    uint32_t m = t->item[at].mark;
    return m == ',' || m == ';' || m == '+' || m == '&' || m == '|' || m == '.' || m == '(' || m == ')' || m == '!' ||
           m == '?' || (m == '-' && !t->item[at].glued) || (m == ':' && !t->item[at].glued) || m == '/' || m == ':';
  }
  if (says(t, at, "with") && says(t, at + 1, "bone bones skin")) return false; /* "rabbit mince with bone" */
  size_t the = says(t, at + 1, "the") ? 2 : 1;                                 /* "... at night it's 220 g of beef" */
  struct post_amount one = says(t, at, "at of") && at > 0 && !says(t, at - 1, "out in come comes weigh weighs")
                               ? post_amount_at(t, at + 1)
                               : (struct post_amount){0};
  if (one.is_mass && says(t, at + 1 + one.tokens, "each apiece")) return true; /* "2 necks at 40 g apiece" */
  if (says(t, at, "at in for") && says_a(t, at + the, CLASS_TIME_OF_DAY)) return true;
  return t->item[at].kind == TOKEN_WORD && token_is_a(&t->item[at], CLASS_BETWEEN_FOODS);
}

/* Days with a word or a comma between them. */
static size_t weekdays_joined(const struct tokens *t, size_t at) {
  if (!is_word(t, at)) return 0;
  struct frequency f = frequency_at(t, at);
  return f.days != 0 && f.tokens > 1 ? f.tokens : 0;
}

static size_t next_separator(struct post_reader *r, const struct tokens *t, size_t at) {
  size_t words = 0;
  bool amount = false, counted = false;
  while (at < t->count && !separates(t, at)) {
    size_t often = weekdays_joined(t, at);
    if (often > 0) { /* "Mon and Thu" */
      at += often;
      continue;
    }
    struct post_amount a = post_amount_at(t, at);
    bool measured = a.tokens > 0 && (a.is_mass || a.is_volume || a.is_percent) && strcmp(a.unit, "mg") != 0 &&
                    strcmp(a.unit, "mcg") != 0;
    size_t behind = at + a.tokens; /* "50 g rice evening 120 g of cod" */
    if (says(t, behind, "of")) behind++;
    if (measured && amount && words > 0 && is_word(t, behind) && !token_is_a(&t->item[behind], CLASS_CHATTER))
      return at; /* no comma between */
    bool food =
        a.tokens > 0 && post_mention_at(r, t, at + a.tokens + (says(t, at + a.tokens, "of cooked boiled raw") ? 1 : 0)) > 0;
    if (measured && counted && food && words > 0) return at; /* "2 eggs 100 g cooked rice" */
    bool some = a.tokens > 0 && a.bare && !says(t, at, "a an the") && (a.low >= 1 || !a.by_word);
    if (some && amount && words > 0 && is_word(t, at - 1) && post_mention_at(r, t, at + a.tokens) > 0)
      return at; /* "80 g peas one egg" */
    counted = counted || (some && food);
    amount = amount || measured;
    words += is_word(t, at) && !token_is_a(&t->item[at], CLASS_CHATTER) && a.tokens == 0;
    size_t skip = a.tokens > 0 ? a.tokens : not_an_amount(t, at);
    at += skip > 0 ? skip : 1;
  }
  return at < t->count ? at : t->count;
}

/* "80% muscle meat (50% beef mince, 30% chicken thigh)": the bracket says what the outer share is made of. */
static bool bracket_is_the_whole(const struct tokens *t, size_t open, const struct post_amount *outer) {
  double sum = 0;
  int depth = 1;
  for (size_t i = open + 1; i < t->count && depth > 0; i++) {
    depth += is_mark(t, i, '(') ? 1 : is_mark(t, i, ')') ? -1 : 0;
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || strcmp(a.unit, outer->unit) != 0) continue;
    sum += a.low;
    i += a.tokens - 1;
  }
  return sum > 0 && fabs(sum - outer->low) <= 0.02 * outer->low;
}

static void begin_segment(struct segments *s, size_t from) {
  if (s->count < COUNT_OF(s->at))
    s->at[s->count++] = (struct segment){.from = from, .to = from, .amount = SIZE_MAX, .said_from = from};
}

/* A segment without an amount: the meal before once more, or what is fed now and then. */
static void begin_alone(struct segments *s, size_t from, size_t to, bool odd) {
  begin_segment(s, from);
  struct segment *now = &s->at[s->count - 1];
  now->same = !odd;
  now->vague = odd;
  now->to = to;
}

static bool in_brackets(const struct tokens *t, size_t at) {
  int depth = 0;
  for (size_t i = 0; i < at; i++) depth += is_mark(t, i, '(') ? 1 : is_mark(t, i, ')') ? -1 : 0;
  return depth > 0;
}

/* "100 g rice, gravy": the everyday name of another food, and nothing else. */
static bool is_food_by_itself(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  struct search_hit hit;
  if (from >= to || to - from > 3 || content_words(r, t, from, to) == 0) return false;
  for (size_t i = from; i < to; i++) {
    struct span w = t->item[i].word;
    if (!is_word(t, i) || is_chatter(w) || says(t, i, "mince ground raw")) return false;
    if (to - from == 1 && w.n > 3 && w.p[w.n - 1] == 'd' && w.p[w.n - 2] == 'e') return false; /* "squashed" */
  }
  return post_look_up(r, tokens_span(t, from, to - from), &hit) && hit.exact_name && hit.words_missed == 0;
}

static size_t first_word(const struct tokens *t, size_t from, size_t to) {
  while (from < to && (is_mark(t, from, '~') || says_a(t, from, CLASS_BEFORE_AN_AMOUNT))) from++;
  return from;
}

/* An amount, how often, and nothing that names a food. */
static bool chunk_is_bare(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  struct tokens part = {ARENA_NEW(r->arena, struct token, to - from + 1), to - from};
  for (size_t i = from; i < to; i++) {
    part.item[i - from] = t->item[i];
    if (says(t, i, "bone bones skin fat piece pieces ones")) part.item[i - from].taken = true;
    if (i > from && says(t, i, "water brine") && says(t, i - 1, "in")) part.item[i - from].taken = true;
  }
  return !post_names_food(r, &part, 0, part.count);
}

/* "half a tin of tuna, about 50 g each time": what was measured by the tin, weighed. */
static bool is_total(const struct tokens *t, size_t from, size_t at, size_t used, const struct post_amount *before) {
  if (before->is_mass || before->is_volume) return false;
  bool about = at > from, each = says(t, at + used, "each a") && says(t, at + used + 1, "time");
  return each || (about && before->high < 1);
}

/* "4 pieces in the week": words that count and name nothing. */
static bool only_pieces(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    size_t often = frequency_at(t, i).tokens;
    if (often > 0) {
      i += often - 1;
      continue;
    }
    if (is_word(t, i) && !token_is_a(&t->item[i], CLASS_CHATTER) && !says_a(t, i, CLASS_ONLY_PIECES)) return false;
  }
  return true;
}

/* "a whole trout on top, 210 g", "a tin of mackerel, 90 g once drained": one of something, and what it weighs. */
static bool is_one_weighed(const struct post_amount *one, const struct post_amount *weight) {
  if (one->is_mass || one->is_volume || one->is_percent || one->low != 1 || one->high != 1) return false;
  return strcmp(weight->unit, "mg") != 0 && strcmp(weight->unit, "mcg") != 0 && strcmp(one->unit, "capsule") != 0 &&
         strcmp(one->unit, "tablet") != 0 && strcmp(one->unit, "scoop") != 0;
}

/* "1 dessert spoon of sunflower oil, about 8 g": what was measured by the spoon, weighed. */
static bool is_spoon_weighed(const struct tokens *t, const struct post_amount *spoon, const struct post_amount *weight,
                             size_t behind, size_t end) {
  if (!spoon->is_volume || spoon->low != spoon->high || !weight->is_mass || says(t, behind, "each apiece of")) return false;
  if (strcmp(weight->unit, "mg") == 0 || strcmp(weight->unit, "mcg") == 0) return false;
  return behind >= end || frequency_at(t, behind).tokens > 0 || says(t, behind, "or more");
}

/* "2 potatoes, 70 g each", "two bags of peas (907 g each)" */
static bool is_weight_of_each(const struct tokens *t, size_t behind, const struct post_amount *several) {
  bool counted = several->bare || several->cannot || strcmp(several->unit, "can") == 0;
  return counted && several->low >= 2 && says(t, behind, "each apiece") && !says(t, behind + 1, "time meal of");
}

/* "a piece of lamb, 250 g"; of two bags it is what one of them holds */
static bool is_piece_weighed(const struct post_amount *piece) {
  return piece->by_word && strcmp(piece->unit, "can") != 0 && !piece->is_volume && !(piece->cannot && piece->low >= 2);
}

static bool says_same(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (says(t, i, "same ditto repeat repeated") && phrase_of(t, i, CLASS_AS_MUCH_OF_EACH) == 0 &&
        !(i > from && phrase_of(t, i - 1, CLASS_AS_MUCH_OF_EACH) > 0))
      return true;
  return false;
}

/* "... and sometimes he has leftover potatoes" */
static bool begins_now_and_then(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  return from > 0 && (is_word(t, from - 1) || is_mark(t, from - 1, ',')) && phrase_of(t, from, CLASS_NOW_AND_THEN) > 0 &&
         post_names_food(r, t, from, to);
}

/* "15 % veg, always grated courgette": the kind, and then which one. */
static bool only_a_kind(const struct tokens *t, const struct segment *s, size_t to) {
  size_t kinds = 0;
  for (size_t i = s->amount + s->value.tokens; i < to; i++) {
    if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER)) continue;
    if (!says_a(t, i, CLASS_ONLY_A_KIND)) return false;
    kinds++;
  }
  return kinds == 1;
}

/* "frozen peas & carrots 16 oz": the amount of a list of two, and nothing else in the line. */
static bool is_pair_weighed(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t i, size_t at,
                            const struct post_amount *a) {
  bool joined = i > 0 && (is_mark(t, i - 1, '&') || is_mark(t, i - 1, '+') || says(t, i - 1, "and"));
  if (!joined || s->from > 0 || !a->is_mass || at + a->tokens < t->count || at == i) return false;
  for (size_t k = 0; k < t->count; k++)
    if (says_a(t, k, CLASS_FEEDING) || frequency_at(t, k).tokens > 0 || (k + 1 < i && t->item[k].kind == TOKEN_MARK))
      return false;
  return post_names_food(r, t, 0, i - 1) && post_names_food(r, t, i, at);
}

/* "Rice, brown 100 g", "cottage cheese, low fat 1 tbsp": which one it is, behind a comma, with the amount of both. */
static bool tells_which(struct post_reader *r, const struct tokens *t, size_t from, size_t i, size_t at, size_t end) {
  enum { WORDS_MOST = 3 };
  struct search_hit hit;
  struct buf b;
  if (i < 2 || !is_mark(t, i - 1, ',') || at <= i || at > i + WORDS_MOST || at >= t->count) return false;
  struct post_amount a = post_amount_at(t, at);
  if (content_words(r, t, at + a.tokens, end) > 0 || post_any_amount(&(struct tokens){t->item, i - 1}, from)) return false;
  while (from < i - 1 && (!is_word(t, from) || token_is_a(&t->item[from], CLASS_CHATTER))) from++;
  if (i - 1 - from > WORDS_MOST) return false;
  for (size_t k = from; k < at; k++)
    if (k != i - 1 && !is_word(t, k)) return false;
  if (!post_names_food(r, t, from, i - 1)) /* "gnu, ground 230 g": of what nobody knows, and no mince of another */
    return from < i - 1 && at == i + 1 && says_a(t, i, CLASS_MINCED);
  buf_init(&b, r->arena, 200);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(t, i, at - i)), SPAN_ARG(tokens_span(t, from, i - 1 - from)));
  return post_look_up(r, buf_span(&b), &hit) && hit.words_missed == 0 && (hit.exact_name || post_mention_at(r, t, i) == 0);
}

/* "250 mg taurine and a vitamin mix": what stands on its label is none of the food before it. */
static bool says_product(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (phrase_of(t, i, CLASS_PRODUCT) > 0) return true;
  return false;
}

/* "he also gets some carrots", and not "the little one" */
static bool begins_vague(const struct tokens *t, size_t first, size_t end) {
  while (first < end && is_word(t, first) && token_is_a(&t->item[first], CLASS_CHATTER) &&
         !token_is_a(&t->item[first], CLASS_VAGUE_AMOUNT))
    first++;
  if (says(t, first, "little") && says(t, first + 1, "one ones girl boy guy lady man dog cat lad lass")) return false;
  return first < end && is_word(t, first) && token_is_a(&t->item[first], CLASS_VAGUE_AMOUNT);
}

/* ", half a zorbix", "with his glucosamine", ", scraps": a thing of its own. */
static bool lists_thing(struct post_reader *r, const struct tokens *t, size_t i, size_t end) {
  bool joined = i > 0 && (is_mark(t, i - 1, ',') || is_mark(t, i - 1, '+') || is_mark(t, i - 1, '&') ||
                          says(t, i - 1, "and plus with"));
  if (!joined || hazard_words_danger(r->lib, tokens_span(t, i, end - i), SPECIES_BOTH, r->arena) != NO_INDEX)
    return false; /* "peanut butter with xylitol" is one danger */
  return !in_brackets(t, i) && (post_lists_thing(r, t, i, end) || phrase_of(t, i, CLASS_FED_THING) > 0);
}

/* "lentils - 1/2 cup dry": behind the amount stands only how it was weighed. */
static bool weighs_what_is_before(const struct tokens *t, size_t i, size_t behind, size_t end) {
  return i > 0 && (is_mark(t, i - 1, '-') || is_mark(t, i - 1, ':')) && post_tells_only_how(t, behind, end);
}

/* The amount at 'at' is what the pieces of before weigh. */
static void weigh_anew(struct segment *now, size_t at, const struct post_amount *a, size_t end) {
  now->old_amount = now->amount;
  now->old_tokens = now->value.tokens;
  now->of_tin = strcmp(now->value.unit, "can") == 0;
  now->amount = at;
  now->value = *a;
  now->to = end;
}

/* Cuts the tokens at separators after which another food begins. */
void post_cut(struct post_reader *r, const struct tokens *t, struct segments *s) {
  size_t chunk = 0; /* where the words before a bracket begin */
  begin_segment(s, 0);
  for (size_t i = 0; i < t->count;) {
    size_t end = next_separator(r, t, i);
    struct segment *now = &s->at[s->count - 1];
    struct post_amount a = {0};
    size_t at = post_find_amount(r, t, i, end, &a);
    size_t content = content_words(r, t, i, end);
    if (at < t->count && content > 0 && only_pieces(t, at + a.tokens, end) && only_pieces(t, i, at)) content = 0;
    if (at < t->count && content > 0 && at == first_word(t, i, end) && weighs_what_is_before(t, i, at + a.tokens, end))
      content = 0;
    bool has = at < t->count, has_before = now->amount != SIZE_MAX;
    bool vague = content > 0 && begins_vague(t, i, end);
    bool opens = i > 0 && is_mark(t, i - 1, '(');
    bool starts = i > now->from;
    bool measured = a.is_mass || (a.is_volume && now->value.cannot); /* "a big bowl of oats, about 3 cups cooked" */
    bool weighed = has && has_before && measured && chunk_is_bare(r, t, i, end) && at == first_word(t, i, end);
    /* "1 tbsp of rice + whatever veg there is, carrots mostly, say 50 g": of what stands before it */
    bool of_last = weighed && at > 0 && says(t, at - 1, "say") && chunk > now->amount && post_names_food(r, t, chunk, i - 1);
    weighed = weighed && !of_last;
    bool packed = weighed && opens && now->value.bare && i >= 2 && says_a(t, i - 2, CLASS_PACKED_SHAPE);
    packed = packed || (weighed && is_weight_of_each(t, at + a.tokens, &now->value));
    if (packed) { /* "2 tripe blocks (227 g)" */
      a.low *= now->value.low;
      a.high *= now->value.high;
    }
    if (weighed && (packed || is_one_weighed(&now->value, &a) || is_piece_weighed(&now->value) ||
                    is_spoon_weighed(t, &now->value, &a, at + a.tokens, end) ||
                    is_total(t, i, at, a.tokens, &now->value))) { /* "a piece of lamb, 250 g or so" */
      weigh_anew(now, at, &a, end);
      i = separates(t, end) || end >= t->count ? end + 1 : end;
      continue;
    }
    bool other = has && has_before && content > 0 && !(opens && a.bare);
    bool after_words = has && !has_before && starts && content > 0 && content_words(r, t, now->from, i > 0 ? i - 1 : 0) > 0;
    /* "1 tsp fish oil, and sardines on fridays (half a tin)": the food before the bracket is another one */
    bool closed = i > 0 && is_mark(t, i - 1, ')') && a.is_mass && at == i; /* "... and pasta (cooked) 180 g" */
    bool of_before = (opens || closed || of_last) && has && has_before && content == 0 && !a.bare && chunk > now->amount &&
                     (now->value.is_mass || now->value.is_volume) && post_names_food(r, t, chunk, i - 1);
    if (of_before) {
      now->to = chunk - 1;
      begin_segment(s, chunk);
      now = &s->at[s->count - 1];
      has_before = false;
    }
    if (!has && has_before && i > 0 && is_mark(t, i - 1, ';') && post_names_food(r, t, i, end)) {
      begin_segment(s, i); /* "chicken breast 180; white rice, cooked 120" */
      now = &s->at[s->count - 1];
      has_before = false;
      starts = false;
    }
    bool odd = !has && has_before && begins_now_and_then(r, t, i, end);
    if (odd || (!has && says_same(t, i, end))) { /* "in the evening the same again" */
      begin_alone(s, i, end, odd);
      i = end + 1;
      begin_segment(s, i < t->count ? i : t->count);
      chunk = i;
      continue;
    }
    if (!opens) chunk = i;
    bool colon = i > 0 && (is_mark(t, i - 1, ':') || is_mark(t, i - 1, '-'));
    if (colon && !has_before && content > 0) after_words = after_words && has;
    bool listed = starts && !has && has_before && i > 0 && is_mark(t, i - 1, ',') && !in_brackets(t, i) &&
                  !(now->amount != SIZE_MAX && only_a_kind(t, now, i)) && is_food_by_itself(r, t, i, end);
    bool product = starts && !has && has_before && !opens && says_product(t, i, end); /* "and a vitamin mix" */
    listed = listed || (starts && !has && has_before && lists_thing(r, t, i, end));
    if (listed || product) vague = true;
    if (after_words && tells_which(r, t, now->from, i, at, end)) after_words = false;
    if (after_words && is_pair_weighed(r, t, now, i, at, &a)) after_words = false;
    if (starts && (other || after_words || listed || product || (vague && (has_before || now->vague)))) {
      if (opens && has_before && bracket_is_the_whole(t, i - 1, &now->value)) now->skip = true;
      size_t said_before = opens && !has_before ? now->from : i; /* "Fish on Tuesdays (200 g cod)" */
      if (said_before < i) now->skip = true;
      begin_segment(s, i);
      now = &s->at[s->count - 1];
      now->said_from = said_before;
      has_before = false;
    }
    if (has && !has_before) {
      now->amount = at;
      now->value = a;
    }
    now->vague = now->vague || vague;
    now->to = end;
    i = separates(t, end) || end >= t->count ? end + 1 : end;
    if (is_mark(t, end, ')') && now->said_from < now->from && i < t->count) begin_segment(s, i);
  }
}
