/* One sentence to its foods: where one food ends and the next begins, and what is said of each. */
#include "post/post_item.h"
#include "base/num.h"
#include "foods/search_words.h"

/* ---- what words are left once the reader of recipes has taken its own ---- */

static void take_frequencies(struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = t->item[i].taken ? 0 : frequency_at(t, i).tokens;
    take(t, i, used);
    i += used > 0 ? used - 1 : 0;
  }
}

/* Words of [from, to) that may name a food: no amount, no frequency, no qualifier, no chatter. */
static size_t count_content(struct post_reader *r, struct span text) {
  struct recipe_line line = {.state = STATE_UNSTATED, .broth = -1, .wish = SEARCH_WISH_NONE};
  struct diags d;
  diags_init(&d, r->arena, "", text);
  struct line_reader reader = {.out = &line, .d = &d, .arena = r->arena, .text = text, .t = tokens_of(text, r->arena)};
  take_frequencies(&reader.t);
  read_qualifiers(&reader);
  size_t n = 0;
  for (size_t i = 0; i < reader.t.count; i++) {
    if (reader.t.item[i].taken) continue;
    struct post_amount a = post_amount_at(&reader.t, i);
    if (a.tokens > 0 && !a.bare) {
      i += a.tokens - 1;
      continue;
    }
    if (reader.t.item[i].kind != TOKEN_WORD) continue;
    struct span w = reader.t.item[i].word;
    size_t used = 0;
    if (unit_at_token(&reader.t, i, &used) != UNIT_NONE && used > 0) continue;
    if (w.n > 1 && !is_chatter(w) && !begins_clause(w) && !is_vague(w) && !is_meal_word(w)) n++;
  }
  return n;
}

/* It depends on the text alone, and is asked for again and again. */
size_t content_words(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  if (from >= to) return 0;
  struct span text = tokens_span(t, from, to - from);
  struct counted_words *slot = &r->counted_words[post_hash(text) % LOOKED_UP_SLOTS];
  if (text.n == 0) return 0;
  if (!span_eq(slot->text, text)) {
    slot->text = span_of(arena_text(r->keep, text));
    slot->count = count_content(r, text);
  }
  return slot->count;
}

/* The first frequency that stands in [from, to), as written, one that names a meal or days before others; "". */
static const char *often_in(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  struct tokens part = {t->item + from, to - from};
  bool told = false;
  for (size_t i = 0; from < to && i < part.count; i++) {
    struct frequency f = part.item[i].taken ? (struct frequency){0} : frequency_at(&part, i);
    told = told || f.each_meal || f.days != 0;
  }
  for (size_t i = 0; from < to && i < part.count; i++) {
    struct frequency f = part.item[i].taken ? (struct frequency){0} : frequency_at(&part, i);
    if (f.tokens == 0 || (told && !f.each_meal && f.days == 0)) continue;
    char *often = arena_text(r->arena, tokens_span(&part, i, f.tokens));
    if (word_in(part.item[i].word, "each every on once twice daily weekly monthly")) often[0] |= 0x20; /* "Each day" */
    return often;
  }
  return "";
}

/* ---- amounts of a segment ---- */

static bool one_of_a_food(struct post_reader *r, const struct tokens *t, size_t at, size_t to) {
  while (at < to && says(t, at, "of a an the")) at++;                                /* "one half of an apple" */
  if (t->count <= 6 && at < to && is_word(t, at) && !is_chatter(t->item[at].word)) { /* "half an avocado" */
    struct search_hit hit;
    if (post_look_up(r, t->item[at].at, &hit) && hit.words_missed == 0 && hit.score >= 0.6) return true;
  }
  for (size_t k = at + 1; k < to && k <= at + 3 && is_word(t, k - 1); k++) /* "a fish oil capsule" */
    if (says(t, k, "capsule tablet softgel") && post_names_food(r, t, at, k)) return true;
  for (size_t n = 3; n > 0; n--) {
    if (at + n > to || !is_word(t, at) || is_chatter(t->item[at].word)) continue;
    struct buf b;
    struct search_hit hit;
    if (!post_look_up(r, tokens_span(t, at, n), &hit) || hit.words_missed > 0) continue;
    buf_init(&b, r->arena, 300);
    buf_addf(&b, "1 %.*s", SPAN_ARG(tokens_span(t, at, n)));
    const char *assumed;
    if (strict_takes(r, buf_text(&b), &assumed, NULL)) return true;
  }
  return false;
}

/* Is there the everyday name of a food in [from, to)? */
bool post_names_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  struct tokens part = {t->item, to}; /* the cheap look first; the search for what it does not settle */
  for (size_t i = from; i < to; i++)
    if (post_mention_at(r, &part, i) > 0) return true;
  for (size_t i = from; i < to; i++)
    for (size_t n = 1; n <= 3 && i + n <= to; n++) {
      struct search_hit hit;
      if (!is_word(t, i) || is_chatter(t->item[i].word) || is_meal_word(t->item[i].word) || t->item[i].word.n < 3) continue;
      if (n == 1 ? post_is_settled(r, &t->item[i]) : post_is_settled(r, &t->item[i + n - 1])) continue;
      if (post_look_up(r, tokens_span(t, i, n), &hit) && hit.exact_name && hit.words_missed == 0) return true;
    }
  return false;
}

/* Is there a word that some food's name has? */
static bool knows_a_word(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    if (!is_word(t, i) || is_chatter(t->item[i].word) || is_meal_word(t->item[i].word) || t->item[i].word.n < 3) continue;
    if (search_token(&r->lib->image, search_fold(&r->lib->image, spelled_out(t->item[i].word), r->arena))) return true;
  }
  return false;
}

/* A percentage behind a mince, and its weight right behind that. */
static bool is_fat_of_mince(const struct tokens *t, size_t from, size_t at, size_t to) {
  bool minced = false;
  for (size_t i = from; i < at; i++) minced = minced || says(t, i, "mince minced ground burger");
  size_t behind = at + 2;
  if (!minced || !is_number(t, at) || !is_mark(t, at + 1, '%') || t->item[at].value > 35) return false;
  while (is_mark(t, behind, ',') || is_mark(t, behind, '(') || is_mark(t, behind, '-') || is_mark(t, behind, ':')) behind++;
  (void)to;
  return post_amount_at(t, behind).is_mass;
}

static bool mass_follows(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (post_amount_at(t, i).is_mass) return true;
  return false;
}

/* The first amount of [from, to); t->count when there is none. */
static size_t find_amount(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct post_amount *out) {
  size_t number = t->count;
  struct post_amount bare = {0};
  for (size_t i = from; i < to; i++) {
    if (t->item[i].taken) continue;
    size_t skip = not_an_amount(t, i);
    if (skip > 0) {
      i += skip - 1;
      continue;
    }
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || i + a.tokens > to) continue;
    if (a.bare && a.by_word && !one_of_a_food(r, t, i + a.tokens, to) &&
        !(a.low >= 2 && post_names_food(r, t, i + a.tokens, to)))
      continue;
    if (is_fat_of_mince(t, from, i, to)) { /* "minced lamb 20%, 250 g" */
      i += a.tokens - 1;
      continue;
    }
    if (a.is_percent && mass_follows(t, i + a.tokens, to)) { /* "beef mince 15% - 150 g": its fat */
      i += a.tokens - 1;
      continue;
    }
    if (!a.bare) {
      *out = a;
      return i;
    }
    if (number == t->count) {
      number = i;
      bare = a;
    }
    i += a.tokens - 1;
  }
  *out = bare;
  return number;
}

/* ---- segments ---- */

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
  if (says(t, at, "at in for") &&
      says(t, at + the, "am pm night evening evenings morning mornings dinner breakfast lunch supper"))
    return true;
  return t->item[at].kind == TOKEN_WORD &&
         word_in(t->item[at].word, "and n plus with then also along but und et con avec mit dazu");
}

/* Days with a word or a comma between them. */
static size_t weekdays_joined(const struct tokens *t, size_t at) {
  if (!is_word(t, at)) return 0;
  struct frequency f = frequency_at(t, at);
  return f.days != 0 && f.tokens > 1 ? f.tokens : 0;
}

static size_t next_separator(const struct tokens *t, size_t at) {
  size_t words = 0;
  bool amount = false;
  while (at < t->count && !separates(t, at)) {
    size_t often = weekdays_joined(t, at);
    if (often > 0) { /* "Mon and Thu" */
      at += often;
      continue;
    }
    struct post_amount a = post_amount_at(t, at);
    bool measured = a.tokens > 0 && (a.is_mass || a.is_volume) && strcmp(a.unit, "mg") != 0 && strcmp(a.unit, "mcg") != 0;
    if (measured && amount && words > 0 && is_word(t, at + a.tokens) && !is_chatter(t->item[at + a.tokens].word))
      return at; /* no comma between */
    amount = amount || measured;
    words += is_word(t, at) && !is_chatter(t->item[at].word) && a.tokens == 0;
    size_t skip = a.tokens > 0 ? a.tokens : not_an_amount(t, at);
    at += skip > 0 ? skip : 1;
  }
  return at < t->count ? at : t->count;
}

/* "80% muscle meat (50% beef mince, 30% chicken thigh)": the bracket says what the outer share is made of. */
static bool bracket_is_the_whole(const struct tokens *t, size_t open, const struct post_amount *outer) {
  double sum = 0;
  for (size_t i = open + 1; i < t->count && !is_mark(t, i, ')'); i++) {
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
  while (from < to && (is_mark(t, from, '~') ||
                       says(t, from, "about around roughly approx approximately circa ca so say let's lets the")))
    from++;
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
    if (is_word(t, i) && !is_chatter(t->item[i].word) &&
        !says(t, i, "piece pieces pcs unit units thereabouts roughly each in the week by"))
      return false;
  }
  return true;
}

/* "a whole trout on top, 210 g", "a tin of mackerel, 90 g once drained": one of something, and what it weighs. */
static bool is_one_weighed(const struct post_amount *one, const struct post_amount *weight) {
  if (one->is_mass || one->is_volume || one->is_percent || one->low != 1 || one->high != 1) return false;
  return strcmp(weight->unit, "mg") != 0 && strcmp(weight->unit, "mcg") != 0 && strcmp(one->unit, "capsule") != 0 &&
         strcmp(one->unit, "tablet") != 0 && strcmp(one->unit, "scoop") != 0;
}

static const char PACKED[] =
    "block blocks nugget nuggets patty patties pack packs pouch pouches puck pucks log logs roll rolls "
    "medallion medallions ball balls brick bricks";

static bool says_same(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (says(t, i, "same ditto repeat repeated")) return true;
  return false;
}

/* Cuts the tokens at separators after which another food begins. */
static void cut(struct post_reader *r, const struct tokens *t, struct segments *s) {
  size_t chunk = 0; /* where the words before a bracket begin */
  begin_segment(s, 0);
  for (size_t i = 0; i < t->count;) {
    size_t end = next_separator(t, i);
    struct segment *now = &s->at[s->count - 1];
    struct post_amount a = {0};
    size_t at = find_amount(r, t, i, end, &a);
    size_t content = content_words(r, t, i, end);
    if (at < t->count && content > 0 && only_pieces(t, at + a.tokens, end) && only_pieces(t, i, at)) content = 0;
    bool has = at < t->count, has_before = now->amount != SIZE_MAX;
    size_t first = i; /* "he also gets some carrots" */
    while (first < end && is_word(t, first) && is_chatter(t->item[first].word) && !is_vague(t->item[first].word)) first++;
    bool vague = first < end && is_word(t, first) && is_vague(t->item[first].word) && content > 0;
    bool opens = i > 0 && is_mark(t, i - 1, '(');
    bool starts = i > now->from;
    bool weighed = has && has_before && a.is_mass && chunk_is_bare(r, t, i, end) && at == first_word(t, i, end);
    bool tin = strcmp(now->value.unit, "can") == 0;
    bool packed = weighed && opens && now->value.bare && i >= 2 && says(t, i - 2, PACKED);
    bool each = weighed && now->value.bare && now->value.low >= 2 && says(t, at + a.tokens, "each apiece") &&
                !says(t, at + a.tokens + 1, "time meal of");
    packed = packed || each; /* "2 potatoes, 70 g each" */
    if (packed) {            /* "2 tripe blocks (227 g)" */
      a.low *= now->value.low;
      a.high *= now->value.high;
    }
    if (weighed && (packed || is_one_weighed(&now->value, &a) || (now->value.by_word && !tin && !now->value.is_volume) ||
                    is_total(t, i, at, a.tokens, &now->value))) { /* "a piece of lamb, 250 g or so" */
      now->old_amount = now->amount;
      now->old_tokens = now->value.tokens;
      now->of_tin = tin;
      now->amount = at;
      now->value = a;
      now->to = end;
      i = separates(t, end) || end >= t->count ? end + 1 : end;
      continue;
    }
    bool other = has && has_before && content > 0 && !(opens && a.bare);
    bool after_words = has && !has_before && starts && content > 0 && content_words(r, t, now->from, i > 0 ? i - 1 : 0) > 0;
    /* "1 tsp fish oil, and sardines on fridays (half a tin)": the food before the bracket is another one */
    bool of_before = opens && has && has_before && content == 0 && !a.bare && chunk > now->amount &&
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
    bool same = !has && says_same(t, i, end);
    if (same) { /* "in the evening the same again" */
      begin_segment(s, i);
      s->at[s->count - 1].same = true;
      s->at[s->count - 1].to = end;
      i = end + 1;
      begin_segment(s, i < t->count ? i : t->count);
      chunk = i;
      continue;
    }
    if (!opens) chunk = i;
    bool colon = i > 0 && (is_mark(t, i - 1, ':') || is_mark(t, i - 1, '-'));
    if (colon && !has_before && content > 0) after_words = after_words && has;
    bool listed = starts && !has && has_before && i > 0 && is_mark(t, i - 1, ',') && !in_brackets(t, i) &&
                  is_food_by_itself(r, t, i, end);
    if (listed) vague = true;
    if (starts && (other || after_words || listed || (vague && (has_before || now->vague)))) {
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

/* ---- one food ---- */

static bool says_fed(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "gets get eats eat feed feeds feeding fed give gives giving given add adds treat treats snack snacks"))
      return true;
  return false;
}

/* A number without a measure in a sentence that feeds nothing: "we have 2 questions", "he is 3 and has been done". */
static bool is_no_food(struct post_reader *r, const struct tokens *t, const struct segment *s, bool bulleted) {
  enum species animal;
  bool words = false;
  for (size_t i = s->from; i < s->to; i++) {
    bool word = is_word(t, i) && !is_chatter(t->item[i].word) && !begins_clause(t->item[i].word) && t->item[i].word.n > 2;
    words = words || (word && !is_animal_word(t->item[i].word, &animal) && quantity_at(t, i).fault == QUANTITY_NONE &&
                      !says(t, i, "english advance help questions question photo photos pics years months weeks old"));
  }
  if (!words) return !s->value.is_mass && !s->value.is_volume; /* "a collie cross of 7", "thanks in advance x" */
  bool weight = s->value.bare || s->value.cannot || strcmp(s->value.unit, "kg") == 0 || strcmp(s->value.unit, "lb") == 0;
  if (r->told_whole && weight && !bulleted && !says_fed(t) && !knows_a_word(r, t, s->from, s->to) &&
      !post_names_food(r, t, s->from, s->to))
    return true;
  for (size_t i = s->from; i < s->amount; i++)
    if (says(t, i, "tolerance error margin confidence accuracy gained lost")) return true;
  bool listed = s->amount == 0 && is_number(t, 0); /* a line that begins with its amount */
  if (bulleted || listed || says_fed(t) || !s->value.bare) return false;
  return !post_names_food(r, t, s->from, s->to);
}

static void leave_with_question(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code why) {
  bool danger = post_leave(r, w->whole, post_why_in_words(why, w->amount.cannot), true);
  if (!danger) post_ask_missing(r, w, words, why);
}

/* "In the morning he gets porridge": the everyday name of a food behind a word of feeding. */
static bool says_exact_food(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  size_t from = s->to;
  for (size_t i = s->from; i < s->to && from == s->to; i++)
    if (says(t, i,
             "gets get eats eat feed feeds give gives given add adds nicks steals pinches scrounges nibbles chews licks"))
      from = i + 1;
  for (size_t i = from; i < s->to; i++)
    for (size_t n = 1; n <= 3 && i + n <= s->to; n++) {
      struct search_hit hit;
      if (!is_word(t, i) || is_chatter(t->item[i].word) || t->item[i].word.n < 3) continue;
      if (post_look_up(r, tokens_span(t, i, n), &hit) && hit.exact_name && hit.words_missed == 0) return true;
    }
  return false;
}

/* "He gets a beef trachea twice a week": somebody is fed something, some of the time, that a food's name has in it. */
static bool told_as_fed(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  bool fed = false, food = false;
  for (size_t i = 0; i < t->count; i++)
    fed = fed || says(t, i,
                      "gets get has have eats eat feed feeds give gives given add adds treat treats snack snacks nicks "
                      "steals pinches scrounges nibbles chews licks");
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "allergic allergy intolerant intolerance itchy loves")) return false;
  if (fed && !often_in(r, t, s->from, s->to)[0]) return says_exact_food(r, t, s);
  if (!fed) return false;
  for (size_t i = s->from; i < s->to; i++) {
    if (!is_word(t, i) || is_chatter(t->item[i].word) || t->item[i].word.n < 3 || frequency_at(t, i).tokens > 0) continue;
    struct search_hit hit;
    food = food || (post_look_up(r, t->item[i].at, &hit) && hit.words_missed == 0 && hit.score >= 0.6);
  }
  return food;
}

/* A food without an amount. */
static void amountless(struct post_reader *r, const struct tokens *t, const struct segment *s, bool bulleted) {
  struct words w = {0};
  size_t from = s->from;
  buf_init(&w.text, r->arena, 2000);
  for (size_t i = s->from; i < s->to; i++) {
    if (says(t, i, "no not never without none nothing avoid hates")) return;
    if (is_word(t, i) && is_vague(t->item[i].word)) from = i + 1;
  }
  const char *day = "";
  bulleted =
      bulleted || (s->from == 0 && post_day_prefix(r, t, &day) > 0 && post_names_food(r, t, s->from, s->to)); /* "sun egg" */
  post_gather(r, t, from, s->to, &w);
  struct span words = post_trimmed(buf_span(&w.text));
  if (!s->vague && !bulleted && told_as_fed(r, t, s)) {
    post_leave(r, tokens_span(t, s->from, s->to - s->from), "it is fed, and the post does not say how much", true);
    post_ask(r, 2, "What and how much is fed in '%.*s'?", SPAN_ARG(post_quote(r, tokens_span(t, s->from, s->to - s->from))));
    return;
  }
  for (size_t i = s->from; i < s->to; i++)
    if (says(t, i, "nicks steals pinches scrounges") && content_words(r, t, i + 1, s->to) > 0) {
      post_leave(r, tokens_span(t, i, s->to - i), "it is eaten, and nobody knows how much", true);
      post_ask(r, 1, "How often, and about how much, in '%.*s'?", SPAN_ARG(quoted(tokens_span(t, i, s->to - i))));
      return;
    }
  if (w.count == 0 || w.count > (s->vague ? 12u : 4u) || !(s->vague || bulleted)) return;
  struct span all = words;
  for (; words.n > 0;) {
    struct search_hit hit;
    if (post_look_up(r, words, &hit) && hit.words_missed == 0 && hit.score >= 0.6) {
      post_leave(r, tokens_span(t, s->from, s->to - s->from), "the post does not say how much", true);
      post_ask(r, 2, "How many grams (or spoons) of %.*s a day?", SPAN_ARG(quoted(words)));
      return;
    }
    if (!s->vague) break;
    size_t last = words.n;
    while (last > 0 && words.p[last - 1] != ' ') last--;
    words = last > 0 ? post_trimmed(span_cut(words, 0, last)) : (struct span){"", 0};
  }
  if (s->vague && w.count <= 3 && all.n > 2 && r->count > r->line_from &&
      !says(t, t->count - 1, "help advice")) { /* "a few bikkies" */
    post_leave(r, tokens_span(t, s->from, s->to - s->from),
               "no food record fits these words, and the post does not say how much", true);
    post_ask(r, 2, "What is '%.*s', and how much of it a day?",
             SPAN_ARG(post_quote(r, tokens_span(t, s->from, s->to - s->from))));
    return;
  }
  for (size_t i = from; i < s->to; i++) { /* "few drops of fish oil" */
    struct search_hit hit;
    if (!is_word(t, i) || is_chatter(t->item[i].word) || t->item[i].word.n < 3) continue;
    if (!post_look_up(r, t->item[i].at, &hit) || hit.words_missed > 0) continue;
    post_leave(r, tokens_span(t, s->from, s->to - s->from), "the post does not say how much", true);
    post_ask(r, 2, "How much is '%.*s', in grams or spoons a day?",
             SPAN_ARG(post_quote(r, tokens_span(t, s->from, s->to - s->from))));
    return;
  }
}

/* Is it the words before the amount that name the food? */
static bool food_stands_first(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t behind) {
  size_t before = content_words(r, t, s->from, s->amount), after = content_words(r, t, behind, s->to);
  if (before == 0) return false;
  if (after == 0) return true;
  if (post_names_food(r, t, s->from, s->amount) && !post_names_food(r, t, behind, s->to) && is_mark(t, behind, '('))
    return true; /* "pork loin 230 g (trimmed)" */
  size_t mark = s->amount > 0 ? s->amount - 1 : 0;
  bool marked = s->amount > s->from && (is_mark(t, mark, ':') || is_mark(t, mark, '-') || is_mark(t, mark, '=') ||
                                        is_mark(t, mark, '(') || is_mark(t, mark, ','));
  if (!marked) return false;
  struct words w = {0};
  buf_init(&w.text, r->arena, 2000);
  post_gather(r, t, s->from, s->amount, &w);
  struct search_hit hit;
  struct span words = post_trimmed(buf_span(&w.text));
  return words.n > 0 && post_look_up(r, words, &hit) && hit.words_missed == 0 && hit.score >= 0.6;
}

/* The weight of a bag or a tub that is told; where it stands, 0 none. */
static size_t mass_in(const struct tokens *t, size_t from, size_t to, struct wanted *w) {
  for (size_t i = from; i < to; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (!a.is_mass) continue;
    a.low *= w->amount.low;
    a.high *= w->amount.low;
    w->package_tokens = a.tokens;
    w->amount = a;
    return i;
  }
  return 0;
}

/* Is there a food among the words before the amount that the words behind it do not say again? "egg shells from 3 eggs" */
static bool drops_a_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct span said) {
  for (size_t i = from; i < to; i++)
    for (size_t n = 1; n <= 3 && i + n <= to; n++) {
      struct span run = tokens_span(t, i, n), shorter = span_cut(run, 0, run.n > 4 ? run.n - 1 : run.n);
      struct search_hit hit;
      if (!is_word(t, i) || is_chatter(t->item[i].word) || is_meal_word(t->item[i].word) || run.n < 3) continue;
      if (i > 0 && says(t, i - 1, "i we") && says(t, i, "mince cook boil roast stew bake steam grill fry")) continue;
      if (span_holds_fold(said, shorter) || frequency_at(t, i).tokens > 0) continue;
      if (says(t, i + n, "eats gets has is weighs loves goes")) continue; /* an animal called Pumpkin */
      if (post_look_up(r, run, &hit) && hit.exact_name && hit.words_missed == 0) return true;
    }
  return false;
}

/* "each morning", "with every dinner": a day's amount, and no part of a batch. */
static bool each_morning(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i + 1 < to; i++)
    if (says(t, i, "each every") && says(t, i + 1, "morning evening night breakfast dinner lunch bedtime")) return true;
  return false;
}

/* "a teaspoon of butter on each tub": as often as there are meals. */
static bool on_each_portion(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i + 2 < to; i++) {
    if (!says(t, i, "on onto over to with in into at for") || !says(t, i + 1, "each every both")) continue;
    size_t at = i + 2;
    if (says(t, at, "of")) at++;
    if (says(t, at, "the his her their these those")) at++;
    struct quantity q = quantity_at(t, at);
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 &&
        says(t, at + q.tokens, "meals bowls feeds")) {
      if (!(r->meals_a_day > 0)) r->meals_a_day = q.low;
      return true;
    }
    if (says(t, at, "tub bowl box container portion pot jar dish serving helping meal meals bowls feed feeds them"))
      return true;
  }
  return false;
}

/* "She also gets ...", beside a batch. */
static bool says_also(const struct tokens *t) {
  bool fed = false, also = false;
  for (size_t i = 0; i < t->count; i++) {
    fed = fed || says(t, i, "gets has eats get have");
    also = also || says(t, i, "also too extra addition");
  }
  return fed && also;
}

/* "a grape now and then": nobody knows how often, and daily it is not. */
static bool now_and_then(const struct tokens *t, size_t from, size_t to) {
  static const char *const PHRASES[] = {"now and then", "now and again", "from time to time", "once in a while",
                                        "occasionally", "sometimes",     "every so often",    "some days",
                                        "when she can", "when he can"};
  for (size_t i = from; i < to; i++)
    for (size_t k = 0; k < COUNT_OF(PHRASES); k++)
      if (phrase_at(t, i, PHRASES[k]) > 0) return true;
  return false;
}

/* "spread over the whole week", "lasts her four days": of how often, what no reader took. */
static bool time_left_unread(const struct tokens *t, size_t from, size_t to) {
  enum { NEAR = 6 };
  for (size_t i = from; i < to; i++) {
    if (!says(t, i, "spread split divided shared lasts last lasting stretched stretches")) continue;
    for (size_t k = i + 1; k < to && k < i + NEAR; k++) {
      if (says(t, k, "meal meals feeds feedings bowls")) break;
      if (says(t, k, "days week weeks month months fortnight")) return true;
    }
  }
  return false;
}

static bool says_other_days(const struct tokens *t, size_t from, size_t to) {
  static const char *const PHRASES[] = {"rest of the week", "other days", "remaining days",
                                        "all other days",   "otherwise",  "rest of the days"};
  for (size_t i = from; i < to; i++)
    for (size_t k = 0; k < COUNT_OF(PHRASES); k++)
      if (phrase_at(t, i, PHRASES[k]) > 0) return true;
  return false;
}

/* The items of the meal before, once more. */
static void repeat_meal(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  enum { MOST = 15 };
  bool meal = r->meal_from > 0 || r->meal_before > 0;
  for (size_t i = 0; i < t->count && !meal; i++) meal = is_word(t, i) && is_meal_word(t->item[i].word);
  if (!meal || r->count == 0) return;
  size_t from = r->meal_from < r->count ? r->meal_from : r->meal_before, to = r->count;
  if (to <= from || to - from > MOST) return;
  for (size_t i = from; i < to; i++) {
    struct item *item = &r->item[i];
    r->taken_grams = item->grams;
    const char *assumed = post_joined(r, "the same once more, as the post says", item->assumed);
    if (item->kind == ITEM_UNKNOWN)
      post_leave(r, span_of(item->text), "the same once more", true);
    else
      post_add(r, item->kind, item->text, assumed);
  }
  r->meal_before = from;
  (void)s;
}

/* "in the last meal", "at breakfast": of one meal alone. */
static bool at_one_meal(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (says(t, i, "breakfast dinner lunch supper morning evening night noon midday bedtime") ||
        (says(t, i, "last first one second third") && says(t, i + 1, "meal feed bowl")))
      return true;
  return false;
}

static void one_food(struct post_reader *r, const struct tokens *t, struct segment s, const char **carried, bool bulleted) {
  if (s.skip || s.from >= t->count) return;
  if (s.same) {
    repeat_meal(r, t, &s);
    return;
  }
  if (s.amount == SIZE_MAX) {
    const char *often = often_in(r, t, s.from, s.to);
    bool days = !post_names_food(r, t, s.from, s.to); /* "Organ days are Mon and Thu, on those ..." */
    for (size_t i = s.from; i < s.to; i++) days = days || says(t, i, "days day");
    if (often[0] && days) *carried = often;
    amountless(r, t, &s, bulleted);
    return;
  }
  struct wanted w = {.amount = s.value, .whole = tokens_span(t, s.from, s.to - s.from), .often = "", .times = 1};
  size_t behind = s.amount + s.value.tokens, to = s.to;
  w.times = post_times_behind(t, behind, &to);
  if (s.amount > 0 && says(t, s.amount - 1, "about approx approximately around roughly circa ca maybe"))
    w.amount.about = true;
  size_t package = s.value.cannot ? mass_in(t, behind, to, &w) : 0; /* "1 bag (16 oz)" */
  for (size_t i = s.from; i < s.amount; i++)                        /* "Weekly row: sardines in water, 85 g" */
    if (is_mark(t, i, ':') && !post_names_food(r, t, s.from, i) && post_names_food(r, t, i + 1, s.amount)) s.from = i + 1;
  bool front = food_stands_first(r, t, &s, behind);
  w.said = front ? w.whole : tokens_span(t, s.amount, s.to - s.amount);
  struct words words = {0};
  buf_init(&words.text, r->arena, 4 * LINE_MOST_BYTES);
  if (package > 0) {
    words.skip_from = package;
    words.skip_to = package + w.package_tokens;
  }
  if (s.old_tokens > 0) {
    front = true;
    w.said = w.whole;
    words.skip_from = s.old_amount;
    words.skip_to = s.old_amount + s.old_tokens;
    if (s.of_tin) words.cooked = "canned";
  }
  const char *before = often_in(r, t, s.said_from, s.amount), *after = often_in(r, t, behind, to), *day = "";
  struct tokens begin = tokens_part(t, s.from, s.amount); /* "Mon-Fri 400 g lamb, Sun 1 kg necks" */
  if (!before[0] && begin.count > 0 && post_day_prefix(r, &begin, &day) > 0) before = day;
  if (before[0] && !front) *carried = before;
  if (front) {
    bool behind_old =
        s.old_tokens > 0 && !post_names_food(r, t, s.from, s.old_amount); /* "I swap in a tin of sardines (120 g)" */
    post_gather(r, t, behind_old ? s.old_amount : s.from, s.amount, &words);
    struct span bare = post_trimmed(buf_span(&words.text)); /* "Salmon oil - " */
    if (bare.n > 0) words.text.n = (size_t)(bare.p + bare.n - words.text.p);
    if (words.text.n > 0 && behind < to) buf_addc(&words.text, ',');
  } else if (before[0] && !after[0]) {
    w.often = before;
  }
  post_gather(r, t, behind, to, &words);
  bool oil = s.amount > 1 && is_mark(t, s.amount - 1, ':') && says(t, s.amount - 2, "oil oils");
  if (oil && !front && !span_holds_fold(buf_span(&words.text), SPAN_LIT("oil")))
    buf_adds(&words.text, " oil"); /* "Oil: 1 tsp olive" */
  w.cooked = words.cooked;
  if (!after[0] && each_morning(t, s.from, s.to)) after = w.often = "daily";
  if (!before[0] && !after[0] && on_each_portion(r, t, s.from, s.to)) after = w.often = "at each meal";
  if (!before[0] && !after[0] && r->makes_days > 0 && says_also(t)) after = w.often = "daily";
  const char *period = r->period;
  if (strcmp(period, "at each meal") == 0 && at_one_meal(t, s.said_from, to)) period = "daily";
  const char *lasts = r->lasts;
  r->lasts = ""; /* of the first food */
  bool others = says_other_days(t, s.said_from, to);
  if (others && !before[0] && !after[0])
    w.often = "on the other days";
  else if (front && before[0] && !after[0] && !span_holds_fold(post_trimmed(buf_span(&words.text)), span_of(before)))
    w.often = before;
  else if (!before[0] && !after[0])
    w.often = lasts[0] ? lasts : (*carried)[0] ? *carried : r->days[0] ? r->days : period;
  struct span name = post_trimmed(buf_span(&words.text));
  if (words.count == 0 || name.n == 0 || content_words(r, t, front ? s.from : behind, to) == 0) {
    if (!front && content_words(r, t, s.from, to) == 0) return; /* "4 kg", a weight with no food to it */
  }
  if (after[0] && !w.often[0] && !span_holds_fold(name, span_of(after))) w.often = after; /* "100 g a week of beef liver" */
  enum diag_code why = DIAG_CODE_COUNT;
  if (is_no_food(r, t, &s, bulleted)) return;
  if (s.amount > 0 && says(t, s.amount - 1, "in") && word_in(name, "water")) return; /* "cooked in 4 cups of water" */
  bool unread = !before[0] && !after[0] && !lasts[0] && time_left_unread(t, s.said_from, to);
  if (unread || now_and_then(t, s.said_from, to)) {
    if (!post_leave(r, w.whole, unread ? "how often it is fed could not be read" : "the post does not say how often", true))
      post_ask(r, 2, "How often, and how much of it, is '%.*s' fed?", SPAN_ARG(post_quote(r, w.said)));
    return;
  }
  if (!front && s.said_from == s.from && drops_a_food(r, t, s.from, s.amount, name)) {
    leave_with_question(r, &w, name, DIAG_CODE_COUNT);
    return;
  }
  if (post_mixture(r, &w, name)) return;
  if (!w.amount.cannot && post_try_line(r, &w, name, &why)) return;
  const char *told = w.often[0] ? w.often : after[0] ? after : before;
  struct core_range core = {front ? s.from : behind, front ? s.amount : to, front ? behind : to, to};
  if (!w.amount.cannot && post_try_core(r, &w, t, core, told)) return;
  leave_with_question(r, &w, name, why);
}

/* "2x daily each of those", "all of that every day": how often the foods of this line that were told before are fed. */
bool post_told_of_those(struct post_reader *r, const struct tokens *t) {
  bool those = false;
  for (size_t i = 0; i < t->count; i++) those = those || says(t, i, "those these that all both each everything");
  const char *often = often_in(r, t, 0, t->count);
  for (size_t i = 0; i < t->count; i++)
    if (frequency_at(t, i).refuse) return false; /* "now and then" */
  if (t->count > 9 || !those || !often[0] || r->line_from >= r->count || post_names_food(r, t, 0, t->count)) return false;
  for (size_t i = 0; i < t->count; i++)
    if (post_amount_at(t, i).tokens > 0 && !post_amount_at(t, i).bare) return false;
  for (size_t i = r->line_from; i < r->count; i++) {
    struct item *item = &r->item[i];
    struct tokens own = tokens_of(span_of(item->text), r->arena);
    bool told = item->kind != ITEM_FOOD;
    for (size_t k = 0; k < own.count; k++) told = told || frequency_at(&own, k).tokens > 0;
    if (told) continue;
    struct buf b;
    buf_init(&b, r->keep, strlen(item->text) + strlen(often) + 8);
    buf_addf(&b, "%s, %s", item->text, often);
    item->text = buf_text(&b);
  }
  return true;
}

/* "100 g heart and 50 g carrots, twice daily.": behind a comma at the very end it holds for all, without one for the last;
 * asked in either case; "". */
static const char *said_of_all(struct post_reader *r, const struct tokens *t, const struct segments *s) {
  size_t end = t->count, at = 0, foods = 0;
  while (end > 0 && t->item[end - 1].kind == TOKEN_MARK) end--;
  for (size_t i = 0; i < s->count; i++) foods += s->at[i].amount != SIZE_MAX && !s->at[i].skip;
  for (size_t i = 0; i < end; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens == 0) continue;
    if (i + f.tokens != end || i == 0 || f.refuse || f.days != 0) return "";
    if (!f.each_meal && !(f.feedings > 1)) return "";
    at = i;
    break;
  }
  if (at == 0 || foods < 2) return "";
  bool all = is_mark(t, at - 1, ',');
  post_ask(r, 3, "Is that %.*s for all of '%.*s', or for the last only? It was taken for %s.",
           SPAN_ARG(tokens_span(t, at, end - at)), SPAN_ARG(post_quote(r, tokens_span(t, 0, at - all))),
           all ? "all" : "the last");
  if (!all) return "";
  return often_in(r, t, at, end);
}

/* Its words are accounted for by the lines that came of it. */
static void claim_segment(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t items) {
  struct span whole = s->from < t->count ? tokens_span(t, s->said_from, s->to - s->said_from) : (struct span){"", 0};
  if (whole.n == 0) return;
  if (s->skip || s->same) post_claim(r, whole, CLAIM_TOLD, 0, 0);
  if (r->count == items || s->amount == SIZE_MAX) return;
  post_claim(r, whole, CLAIM_LINE, items, r->count);
  post_claim(r, tokens_span(t, s->amount, s->value.tokens), CLAIM_AMOUNT, items, r->count);
  if (s->old_tokens > 0) post_claim(r, tokens_span(t, s->old_amount, s->old_tokens), CLAIM_AMOUNT, items, r->count);
}

void post_items(struct post_reader *r, struct tokens *t, bool bulleted) {
  struct segments *s = ARENA_NEW(r->arena, struct segments, 1);
  const char *carried = "";
  struct frequency first = t->count > 0 ? frequency_at(t, 0) : (struct frequency){0};
  if (first.tokens > 0 && !first.refuse && first.tokens < t->count) /* "On Fridays no meat, he gets 300 g of cod" */
    carried = often_in(r, t, 0, first.tokens);
  for (size_t i = 0; i < t->count; i++) /* "gets through a pack of pork and a bag of spinach a week" */
    if (says(t, i, "gets goes get go") && says(t, i + 1, "through")) carried = often_in(r, t, 0, t->count);
  cut(r, t, s);
  if (!carried[0]) carried = said_of_all(r, t, s);
  for (size_t i = 0; i < s->count; i++) {
    size_t items = r->count;
    one_food(r, t, s->at[i], &carried, bulleted);
    claim_segment(r, t, &s->at[i], items);
  }
}
