/* What changed, and what is fed now, told in one sentence: "250 g, was 200", "up from 120 g", "200 g -> 250 g"; "double rice
 * on Saturdays"; "liver is beef's". Written out with the amount that is fed today. */
#include "base/num.h"
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

struct span post_cut_out(struct post_reader *r, struct span text, const char *from, const char *to, const char *instead) {
  struct buf b;
  buf_init(&b, r->keep, text.n + strlen(instead) + 8);
  buf_add(&b, (struct span){text.p, (size_t)(from - text.p)});
  buf_adds(&b, instead);
  buf_add(&b, (struct span){to, (size_t)(text.p + text.n - to)});
  return buf_span(&b);
}

static const char *begin_of(const struct tokens *t, size_t at) { return t->item[at].at.p; }
static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

/* An amount that may be one of today or of before: a weight, a volume, or a number that counts nothing else. */
static struct post_amount weighed_at(const struct tokens *t, size_t at) {
  struct post_amount a = at < t->count ? post_amount_at(t, at) : (struct post_amount){0};
  bool number = a.tokens > 0 && a.bare && !a.by_word && is_number(t, at);
  if (!(a.is_mass || a.is_volume || number || a.is_percent)) a.tokens = 0;
  return a;
}

/* Does the clause end here, or go on with a time? "was 200 g", "was 200 before", "was 200 g until May" */
static size_t ends_old(const struct tokens *t, size_t at) {
  size_t from = at;
  if (says(t, at, "before previously originally then")) at++;
  if (says(t, at, "until till up") && is_word(t, at + 1)) {
    while (is_word(t, at) && !says(t, at, "but and so now")) at++;
  }
  bool ends = at >= t->count || t->item[at].kind == TOKEN_MARK || says(t, at, "but and so now");
  return ends ? at - from : SIZE_MAX;
}

/* Behind an amount of today: ", was 200", "(up from 200 g)", "instead of 200 g", "not 300": the tokens; 0. */
static size_t old_behind(const struct tokens *t, size_t at) {
  size_t from = at;
  bool bracket = is_mark(t, at, '(');
  if (bracket || is_mark(t, at, ',') || is_mark(t, at, '-')) at++;
  size_t used = phrase_of(t, at, CLASS_OLD_AMOUNT_BEHIND);
  if (used == 0) return 0;
  at += used;
  while (says(t, at, "about around only just")) at++;
  struct post_amount old = weighed_at(t, at);
  if (old.tokens == 0) return 0;
  at += old.tokens;
  size_t more = ends_old(t, at);
  if (more == SIZE_MAX) return 0;
  at += more;
  if (bracket && !is_mark(t, at, ')')) return 0;
  return at + bracket - from;
}

/* "Dog went from 30 kg to 25 kg", "she is down from 12 lb": what the animal weighed. */
static bool is_body_weight(const struct tokens *t, size_t at, size_t amount) {
  enum species s;
  double kg;
  if (post_weight_at(t, amount, &kg) == 0) return false;
  for (size_t i = at; i-- > 0 && (is_word(t, i) || is_mark(t, i, ','));) {
    if (says(t, i, "he she he's she's hes shes") || (is_word(t, i) && token_is_animal(&t->item[i], &s))) return true;
    if (!says(t, i, "has is now weight weighs kg kilos") && !is_mark(t, i, ',')) return false;
  }
  return false;
}

/* "150 g beef mince (up from 120 g)": is there an amount before it in its clause, with its food and nothing else between? */
static bool amount_before(struct post_reader *r, const struct tokens *t, size_t at) {
  bool marked = t->item[at].kind == TOKEN_MARK;
  for (size_t i = at; i-- > 0;) {
    if (is_mark(t, i, ';') || is_mark(t, i, '.')) return false;
    struct post_amount a = weighed_at(t, i);
    if (a.tokens == 0 || a.bare) continue;
    size_t food = i + a.tokens;
    if (says(t, food, "of")) food++;
    if (is_body_weight(t, i, i)) return false;
    return marked || food == at || post_food_end(r, t, food) == at;
  }
  return false;
}

/* "was 200 g, vet said 250", "from 120 g to 150 g", "200 g -> 250 g": the old one first. True: what stands in [*from, *to)
 * goes, and what is fed is told behind it. */
static bool old_first(const struct tokens *t, size_t at, size_t *from, size_t *to, struct post_amount *old) {
  enum { FAR = 7 };
  size_t used = phrase_of(t, at, CLASS_OLD_AMOUNT_BEFORE);
  bool arrow = false, from_to = used > 0 && says(t, at + used - 1, "from");
  *old = weighed_at(t, at + used);
  size_t behind = at + used + old->tokens;
  if (old->tokens == 0) return false;
  bool equal = is_mark(t, behind, '=') && is_mark(t, behind + 1, '>');
  /* an arrow is a colon by now: "beef mince 250 -> 300 g" */
  arrow = used == 0 && at > 0 && is_word(t, at - 1) && (equal || (is_mark(t, behind, ':') && !t->item[behind].glued)) &&
          old->low >= 5;
  *from = at;
  if (arrow) {
    *to = behind + (equal ? 2 : 1);
    if (says(t, *to, "now")) ++*to;
    struct post_amount now = weighed_at(t, *to);
    return now.tokens > 0 && (old->unit[0] == 0 ? now.is_mass || now.is_volume : strcmp(old->unit, now.unit) == 0);
  }
  if (used == 0) return false;
  if (from_to && is_body_weight(t, at, at + used)) return false;
  if (from_to) {
    *to = behind + 1;
    return says(t, behind, "to") && weighed_at(t, *to).tokens > 0;
  }
  bool now = false;
  for (size_t i = behind; i < t->count && i < behind + FAR; i++) {
    now = now || says_a(t, i, CLASS_OF_NOW) || says(t, i, "now said says told recommended changed it's its but so");
    struct post_amount a = weighed_at(t, i);
    if (a.tokens == 0 || (a.is_percent && !old->is_percent)) continue; /* "20 % fat" */
    *to = i;
    return now;
  }
  return false;
}

static bool same_measure(const struct post_amount *a, const struct post_amount *b) {
  return b->bare || strcmp(a->unit, b->unit) == 0 || (a->is_mass && b->is_mass) || (a->is_volume && b->is_volume);
}

/* "Was 500 g beef mince 20 % fat -> now 400 g beef mince 5 % fat", "2 cups rice -> 1 cup": an amount with its food, an arrow,
 * and what is fed now. Not "1 cup rice -> 180 g", which says what that weighs, nor "100 g dry rice -> 250 g cooked". */
static bool arrow_over_food(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  size_t first = phrase_of(t, 0, CLASS_OLD_AMOUNT_BEFORE) + says(t, 0, "before old originally"), arrow;
  if (first > 0 && is_mark(t, first, ':')) first++;
  struct post_amount old = weighed_at(t, first);
  size_t food = first + old.tokens;
  if (old.tokens == 0 || is_mark(t, food, ':')) return false;
  if (says(t, food, "of")) food++;
  for (arrow = food; arrow < t->count; arrow++) { /* a colon by now, with blanks around it */
    struct post_amount a = weighed_at(t, arrow);
    if (a.tokens > 0 && !a.is_percent && !a.bare) return false;
    if (is_mark(t, arrow, ':') && !t->item[arrow].glued) break;
    if (is_mark(t, arrow, '=') && is_mark(t, arrow + 1, '>')) break;
    if (says(t, arrow, "now") && first > 0 && arrow > food) break; /* "was 500 g beef mince, now 400 g" */
  }
  size_t to = arrow + (is_mark(t, arrow, '=') ? 2 : says(t, arrow, "now") ? 0 : 1);
  bool now = says(t, to, "now today currently only just");
  struct post_amount is = weighed_at(t, to + now);
  size_t behind = to + now + is.tokens, end = arrow;
  if (arrow >= t->count || is.tokens == 0) return false;
  while (end > food && t->item[end - 1].kind == TOKEN_MARK && !is_mark(t, end - 1, ')') && !is_mark(t, end - 1, '%')) end--;
  struct buf b;
  buf_init(&b, r->arena, text.n + 20);
  bool again = is_word(t, behind) && span_eq_fold(t->item[behind].word, t->item[food].word);
  bool state = behind + 1 >= t->count && says(t, behind, "cooked raw dry drained boiled peeled uncooked");
  if (state || (behind < t->count && !first && !now && !again)) return false;
  if (says(t, behind, "of it a daily per") || behind >= t->count || t->item[behind].kind == TOKEN_MARK) {
    if (!same_measure(&old, &is)) return false;
    if (is.bare && !old.bare) memcpy(is.unit, old.unit, sizeof is.unit), is.bare = false;
    amount_write(&b, &is, 1);
    buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, food, end - food)));
    *out = post_cut_out(r, text, begin_of(t, 0), end_of(t, behind - 1), buf_text(&b));
  } else {
    *out = post_cut_out(r, text, begin_of(t, 0), begin_of(t, to + now), "");
  }
  post_note(r, tokens_span(t, 0, end), NOT_FED_PAST);
  return true;
}

static bool new_amounts(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  if (arrow_over_food(r, t, text, out)) return true;
  for (size_t i = 0; i < t->count; i++) {
    size_t behind = old_behind(t, i), from, to;
    if (behind > 0 && amount_before(r, t, i)) {
      *out = post_cut_out(r, text, begin_of(t, i), end_of(t, i + behind - 1), "");
      return true;
    }
    struct post_amount old;
    if (!old_first(t, i, &from, &to, &old)) continue;
    if (from > 0 && is_mark(t, from - 1, ',')) from--;
    struct post_amount now = weighed_at(t, to);
    struct buf b;
    buf_init(&b, r->arena, 100);
    bool word = from > 0 && is_word(t, from - 1) && !token_is_a(&t->item[from - 1], CLASS_CHATTER);
    buf_adds(&b, from < i || word ? ": " : from > 0 ? " " : "");
    size_t end = to + now.tokens;
    if (now.bare && old.unit[0]) {
      memcpy(now.unit, old.unit, sizeof now.unit);
      amount_write(&b, &now, 1);
    } else {
      buf_add(&b, tokens_span(t, to, now.tokens));
    }
    *out = post_cut_out(r, text, begin_of(t, from), end_of(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "doubled the carrots to 100 g", "cut the liver down from 40 g to 20 g": the amount of today and its food. */
static bool verb_to(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says_a(t, i, CLASS_CHANGED_VERB)) continue;
    size_t food = i + 1;
    while (says(t, food, "the his her their our my")) food++;
    size_t end = post_food_end(r, t, food), to = end;
    if (end == food) continue;
    if (says(t, to, "back down up")) to++;
    if (says(t, to, "from") && weighed_at(t, to + 1).tokens > 0) to += 1 + weighed_at(t, to + 1).tokens;
    struct post_amount a = says(t, to, "to") ? post_amount_at(t, to + 1) : (struct post_amount){0};
    if (a.tokens == 0 || (a.bare && a.by_word && a.low < 2)) continue;
    size_t begin = i;
    while (begin > 0 && says(t, begin - 1, "i we i've we've ive weve have just also then and she's he's been has")) begin--;
    struct buf b;
    buf_init(&b, r->arena, text.n + 20);
    buf_addf(&b, "%s%.*s %.*s", begin > 0 && is_word(t, begin - 1) ? ", now " : "",
             SPAN_ARG(tokens_span(t, to + 1, a.tokens)), SPAN_ARG(tokens_span(t, food, end - food)));
    *out = post_cut_out(r, text, begin_of(t, begin), end_of(t, to + a.tokens), buf_text(&b));
    return true;
  }
  return false;
}

/* "Started on 250 g of pork mince, now on 300 g", "was on 400 g of beef but we've gone down to 350 g": the food once, with
 * the amount of today. */
static bool started_on(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { FAR = 8 };
  for (size_t i = 0; i + 5 < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_STARTED_ON);
    struct post_amount old = used > 0 ? post_amount_at(t, i + used) : (struct post_amount){0};
    size_t food = i + used + old.tokens;
    if (!(old.is_mass || old.is_volume)) continue;
    if (says(t, food, "of")) food++;
    size_t end = post_food_end(r, t, food);
    if (end == food) continue;
    bool now = false;
    for (size_t k = end; k < t->count && k < end + FAR; k++) {
      struct post_amount a = post_amount_at(t, k);
      now = now || says(t, k, "now down up today");
      if (!(a.is_mass || a.is_volume)) continue;
      size_t behind = k + a.tokens;
      bool ends = behind >= t->count || t->item[behind].kind == TOKEN_MARK || says(t, behind, "with and plus a per daily");
      if (!now || !ends) break;
      struct buf b;
      buf_init(&b, r->arena, text.n + 20);
      buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(t, k, a.tokens)), SPAN_ARG(tokens_span(t, food, end - food)));
      size_t begin = i > 0 && says(t, i - 1, "he she it they we i") ? i - 1 : i;
      *out = post_cut_out(r, text, begin_of(t, begin), end_of(t, behind - 1), buf_text(&b));
      return true;
    }
  }
  return false;
}

/* "Instead of the 300 g chicken breast he now gets 320 g of cod", every day: the food that is fed no longer is told. */
static bool stands_for_amount(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i < t->count; i++) /* on some days it stands for what is fed on the others */
    if ((frequency_at(t, i).tokens > 0 && frequency_at(t, i).times_per_28 != CALENDAR_DAYS) ||
        says(t, i, "week weeks weekend weekends days month months sometimes when if"))
      return false;
  for (size_t i = 0; i + 3 < t->count; i++) {
    size_t at = says(t, i, "instead") && says(t, i + 1, "of") ? i + 2 : phrase_at(t, i, "in place of") > 0 ? i + 3 : 0;
    if (at == 0) continue;
    while (says(t, at, "the his her our old usual previous")) at++;
    struct post_amount a = at < t->count ? post_amount_at(t, at) : (struct post_amount){0};
    if (!(a.is_mass || a.is_volume)) continue;
    size_t food = at + a.tokens;
    if (says(t, food, "of")) food++;
    size_t end = post_food_end(r, t, food);
    struct tokens before = {t->item, i};
    if (end == food || !(post_any_amount(&before, 0) || post_any_amount(t, end))) continue;
    post_note(r, tokens_span(t, i, end - i), "another food stands in its place, as the post says");
    *out = post_cut_out(r, text, begin_of(t, i), end_of(t, end - 1), "");
    return true;
  }
  return false;
}

/* "Chicken has been replaced by rabbit: 300 g a day": what is fed today. */
static bool replaced_by(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_REPLACED_BY), behind = i + used;
    if (used == 0 || !post_any_amount(t, behind)) continue;
    size_t begin = i, old = 0;
    while (begin > 0 && begin + 4 > i && is_word(t, begin - 1) && !net_ends_clause(t, begin - 1)) begin--;
    for (size_t k = begin; k < i; k++)
      old = old > 0 ? old : says_a(t, k, CLASS_ANIMAL_OF_FLESH) ? 1 : post_mention_at(r, t, k);
    struct post_amount a = post_amount_at(t, behind);
    bool food = post_food_end(r, t, behind + a.tokens + says(t, behind + a.tokens, "of")) > behind + a.tokens;
    struct tokens before = {t->item, i};
    if (old == 0 || !food || post_any_amount(&before, begin)) continue;
    for (size_t k = 0; k < r->count; k++) /* a line of it stands above: asked about there */
      for (size_t w = begin; w < i; w++)
        if (r->item[k].kind == ITEM_FOOD && is_word(t, w) && net_has_word(r->item[k].words, t->item[w].word)) return false;
    *out = post_cut_out(r, text, begin_of(t, begin), begin_of(t, behind), "");
    return true;
  }
  return false;
}

/* "Liver is beef, 15 g a day", "the liver's from lamb": whose it is, before its name. */
static bool organ_of(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  if (!post_any_amount(t, 0)) return false;
  for (size_t i = 0; i + 2 < t->count; i++) {
    bool own = says(t, i + 1, "is are comes");
    size_t at = own ? i + 2 : i + 1;
    if (!says_a(t, i, CLASS_ORGAN_OF_MEAT) || (i > 0 && says_a(t, i - 1, CLASS_ANIMAL_OF_FLESH)) || !own) continue;
    if (says(t, at, "from")) at++;
    if (says(t, at, "a an the")) at++;
    if (!says_a(t, at, CLASS_ANIMAL_OF_FLESH)) continue;
    bool ends = at + 1 >= t->count || t->item[at + 1].kind == TOKEN_MARK || post_amount_at(t, at + 1).tokens > 0;
    if (!ends) continue;
    struct buf b;
    buf_init(&b, r->arena, 100);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[at].at), SPAN_ARG(t->item[i].at));
    *out = post_cut_out(r, text, begin_of(t, i), end_of(t, at), buf_text(&b));
    return true;
  }
  return false;
}

/* The line of the food that is named here, of this sentence or of one before: its amount and its words. */
static bool line_of_food(struct post_reader *r, const struct tokens *t, size_t food, size_t used, struct post_amount *a,
                         struct span *words) {
  for (size_t i = food; i-- > 0;) { /* "150 g cooked rice, ... double rice" */
    struct post_amount own = post_amount_at(t, i);
    size_t from = i + own.tokens;
    if (own.tokens == 0 || !(own.is_mass || own.is_volume)) continue;
    if (says(t, from, "of")) from++;
    size_t to = post_food_end(r, t, from);
    for (size_t k = from; k < to; k++)
      if (is_word(t, k) && span_eq_fold(t->item[k].word, t->item[food + used - 1].word)) {
        *a = own;
        *words = tokens_span(t, from, to - from);
        return true;
      }
  }
  size_t found = r->count;
  for (size_t k = 0; k < r->count; k++) {
    if (r->item[k].kind != ITEM_FOOD || !net_has_word(r->item[k].words, t->item[food + used - 1].word)) continue;
    if (found < r->count) return false;
    found = k;
  }
  if (found == r->count) return false;
  struct tokens own = post_tokens(r, span_of(r->item[found].text));
  *a = own.count > 0 ? post_amount_at(&own, 0) : (struct post_amount){0};
  *words = r->item[found].words;
  return a->tokens > 0 && (a->is_mass || a->is_volume);
}

/* "... and double rice on Saturdays": as much of it once more on these days. */
static bool double_on(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    size_t at = i + 1;
    double more = says(t, i, "double doubled") ? 1 : says(t, i, "triple treble") ? 2 : 0;
    if (says(t, i, "twice") && says(t, i + 1, "the as")) more = 1, at++;
    if (more == 0) continue;
    while (says(t, at, "the amount of his her much")) at++;
    size_t used = post_mention_at(r, t, at);
    const char *day;
    if (used == 0 || !says(t, at + used, "on at") || meaning_at(t, at + used + 1, CLASS_DAY_OF_WEEK, &day) == 0) continue;
    struct post_amount a;
    struct span words;
    if (!line_of_food(r, t, at, used, &a, &words)) continue;
    struct buf b;
    buf_init(&b, r->arena, words.n + 60);
    size_t from = i > 0 && says(t, i - 1, "and plus with") ? i - 1 : i; /* the days are of this one alone */
    if (from > 0 && is_mark(t, from - 1, ',')) from--;
    buf_adds(&b, from < i ? ", " : "");
    amount_write(&b, &a, more);
    buf_addf(&b, " %.*s", SPAN_ARG(words));
    *out = post_cut_out(r, text, begin_of(t, from), end_of(t, at + used - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "egg (one, boiled, twice a week)": how many stands before its name. */
static bool counted_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  size_t bracket = 0; /* behind which there is none */
  for (size_t i = 0; i < t->count; i++)
    if (is_mark(t, i, '(')) bracket = i;
  for (size_t i = 0; i + 2 < t->count && i < bracket; i++) {
    size_t used = post_mention_at(r, t, i), open = i + used;
    struct quantity q =
        used > 0 && is_mark(t, open, '(') ? quantity_at(t, open + 1) : (struct quantity){.fault = QUANTITY_NONE};
    size_t behind = open + 1 + q.tokens;
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0 && q.low <= 6) || says(t, open + 1, "a an")) continue;
    bool alone = is_mark(t, behind, ',') || is_mark(t, behind, ')');
    bool before = i > 0 && (is_number(t, i - 1) || quantity_at(t, i - 1).fault == QUANTITY_FINE || says(t, i - 1, "of"));
    if (!alone || before || post_any_amount(&(struct tokens){t->item, i}, 0)) continue;
    struct buf b;
    buf_init(&b, r->arena, 200);
    num_sig(&b, q.low, 3);
    buf_addf(&b, " %.*s%s", SPAN_ARG(tokens_span(t, i, used)), is_mark(t, behind, ',') ? " (" : "");
    *out = post_cut_out(r, text, begin_of(t, i), end_of(t, behind), buf_text(&b));
    return true;
  }
  return false;
}

/* "1 capsule of fish oil (1000mg) emptied over": what each of them holds stands behind its name. */
static bool dose_behind(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 4 < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    size_t capsule = i + q.tokens, food = capsule + 2;
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0) || !says(t, capsule + 1, "of")) continue;
    if (!says(t, capsule, "capsule capsules softgel softgels tablet tablets cap caps pill pills")) continue;
    size_t end = post_food_end(r, t, food);
    if (end == food || !is_mark(t, end, '(')) continue;
    struct post_amount a = post_amount_at(t, end + 1);
    if (a.tokens == 0 || a.bare || a.low != a.high || !is_mark(t, end + 1 + a.tokens, ')')) continue;
    if (strcmp(a.unit, "mg") != 0 && strcmp(a.unit, "mcg") != 0 && strcmp(a.unit, "IU") != 0 && !a.is_mass) continue;
    size_t last = end + 1 + a.tokens;
    while (says(t, last + 1, "emptied squeezed pierced opened poured popped") && says(t, last + 2, "over in on onto out"))
      last += 2;
    struct buf b;
    buf_init(&b, r->arena, text.n + 40);
    amount_write(&b, &a, q.low);
    buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, food, end - food)));
    *out = post_cut_out(r, text, begin_of(t, i), end_of(t, last), buf_text(&b));
    return true;
  }
  return false;
}

bool post_change_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  return stands_for_amount(r, t, text, out) || verb_to(r, t, text, out) || started_on(r, t, text, out) ||
         replaced_by(r, t, text, out) || new_amounts(r, t, text, out) || organ_of(r, t, text, out) ||
         double_on(r, t, text, out) || counted_in_bracket(r, t, text, out) || dose_behind(r, t, text, out);
}
