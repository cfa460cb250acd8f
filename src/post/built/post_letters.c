/* Letters: what was is told first and then what became of it ("I have cut the beef to 120 g and replaced the potatoes with
 * the same amount of cauliflower"), "cod instead of the beef, the same weight", treats of which the sentence says how often.
 */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

/* What was told of the food at 'at', where it was told as what was; NULL. */
static const struct told_food *of_past(struct post_reader *r, const struct told_food *told, size_t n, const struct tokens *t,
                                       size_t at) {
  size_t end = post_food_end(r, t, at);
  if (end == at && !is_word(t, at)) return NULL;
  const struct told_food *f = post_told_food_of(told, n, t->item[end > at ? end - 1 : at].word);
  return f && f->past ? f : NULL;
}

/* Where "I have since" begins before a verb. */
static size_t clause_of_verb(const struct tokens *t, size_t at) {
  while (
      at > 0 &&
      says(t, at - 1, "i we i've we've ive weve have had just also then and since now she's he's been has so but therefore"))
    at--;
  return at;
}

/* "I have cut the beef to 120 g", where the beef was told as what was: the food with the amount of today. */
static bool cut_to(struct post_reader *r, struct span before, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says_a(t, i, CLASS_CHANGED_VERB)) continue;
    size_t food = i + 1;
    while (says(t, food, "the his her their our my")) food++;
    size_t to = food;
    while (is_word(t, to) && to < food + 4 && !says(t, to, "to from")) to++;
    if (to == food || !says(t, to, "to")) continue;
    struct post_amount a = post_amount_at(t, to + 1);
    if (!(a.is_mass || a.is_volume)) continue;
    struct told_food told[TOLD_MOST];
    size_t n = post_told_before(r, before, line, token_begin(t, i), told), begin = clause_of_verb(t, i);
    const struct told_food *f = of_past(r, told, n, t, food);
    if (!f) continue;
    struct buf b;
    buf_init(&b, r->keep, f->food.n + 60);
    buf_addf(&b, "%c%.*s %.*s%c", 0x1F, SPAN_ARG(tokens_span(t, to + 1, a.tokens)), SPAN_ARG(f->food), 0x1F);
    *out = post_cut_out(r, line, token_begin(t, begin), token_end(t, to + a.tokens), buf_text(&b));
    return true;
  }
  return false;
}

/* "replaced the potatoes with the same amount of cauliflower", where these were told as what was. */
static bool replaced_with_same(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                               struct span *out) {
  for (size_t i = 0; i + 5 < t->count; i++) {
    size_t food = i + 1, with, same, now;
    if (!says_a(t, i, CLASS_REPLACED)) continue;
    while (says(t, food, "the his her their our my")) food++;
    for (with = food; is_word(t, with) && with < food + 4 && !says(t, with, "with for by");) with++;
    same = says(t, with + 1, "the") ? with + 2 : with + 1;
    if (with == food || !says(t, with, "with for by") || !says_same_weight(t, same)) continue;
    now = same + 2 + says(t, same + 2, "of in");
    size_t end = post_food_end(r, t, now), begin = clause_of_verb(t, i);
    struct told_food told[TOLD_MOST];
    size_t n = post_told_before(r, before, line, token_begin(t, i), told);
    const struct told_food *f = of_past(r, told, n, t, food);
    if (!f || end == now) continue;
    struct buf b;
    buf_init(&b, r->keep, f->said.n + 200);
    buf_addf(&b, "%c%.*s %.*s%c", 0x1F, SPAN_ARG(f->said), SPAN_ARG(tokens_span(t, now, end - now)), 0x1F);
    *out = post_cut_out(r, line, token_begin(t, begin), token_end(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "Until Easter our poodle ate 140 g of lamb": told as what was to every reader. */
static bool until_then(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  enum { FAR = 16 };
  for (size_t i = 0; i + 3 < t->count; i++) {
    bool begins = i == 0 || ends_sentence(t, i - 1);
    if (!begins || !says(t, i, "until till before") || says(t, i + 1, "now today recently")) continue;
    for (size_t k = i + 1; k < t->count && k < i + FAR && !ends_sentence(t, k); k++) {
      if (!says(t, k, "ate had got") || says(t, k + 1, "to been")) continue;
      bool now = false;
      for (size_t m = k; !ends_sentence(t, m); m++) now = now || says(t, m, "now but since");
      if (now || !post_any_amount(t, k)) break;
      *out = post_cut_out(r, line, token_begin(t, k), token_end(t, k), "used to get");
      return true;
    }
  }
  return false;
}

/* The first word of the food that ends before 'at'; 'at' where none does. */
static size_t food_ending(struct post_reader *r, const struct tokens *t, size_t at) {
  for (size_t from = at > 4 ? at - 4 : 0; from < at; from++)
    if (post_food_end(r, t, from) == at && post_mention_at(r, t, from) > 0) return from;
  return at;
}

/* "On Fridays it's cod instead of the beef, the same weight": with the amount of the food that it stands for. */
static bool instead_same(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                         struct span *out) {
  for (size_t i = 1; i + 3 < t->count; i++) {
    if (!says(t, i, "instead") || !says(t, i + 1, "of")) continue;
    size_t food = i + 2;
    while (says(t, food, "the his her their usual")) food++;
    size_t end = post_food_end(r, t, food), now = food_ending(r, t, i), same = end;
    if (end == food || now == i || (now > 0 && post_amount_at(t, now - 1).tokens > 0)) continue;
    struct frequency f_days =
        same < t->count ? frequency_at(t, same) : (struct frequency){0}; /* "... on Sundays (same amount)" */
    size_t kept = end + f_days.tokens;
    same = kept;
    while (is_mark(t, same, ',') || is_mark(t, same, '(') || is_mark(t, same, '-') || says(t, same, "at in and")) same++;
    size_t used = phrase_of(t, same, CLASS_SAME_AMOUNT);
    if (used == 0) continue;
    if (is_mark(t, same + used, ')')) used++;
    struct told_food told[TOLD_MOST];
    size_t n = post_told_before(r, before, line, token_begin(t, i), told);
    const struct told_food *f = post_told_food_of(told, n, t->item[end - 1].word);
    if (!f) continue;
    struct span cut = post_cut_out(r, line, token_end(t, kept - 1), token_end(t, same + used - 1), "");
    struct buf b;
    buf_init(&b, r->keep, f->said.n + 4);
    buf_addf(&b, "%.*s ", SPAN_ARG(f->said));
    const char *at = cut.p + (token_begin(t, now) - line.p);
    *out = post_cut_out(r, cut, at, at, buf_text(&b));
    return true;
  }
  return false;
}

/* "In place of the rice she now has the same quantity of pumpkin" */
static bool in_its_place(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                         struct span *out) {
  for (size_t i = 0; i + 6 < t->count; i++) {
    size_t food = phrase_at(t, i, "in place of") > 0 ? i + 3 : says(t, i, "instead") && says(t, i + 1, "of") ? i + 2 : 0;
    if (food == 0) continue;
    while (says(t, food, "the his her their")) food++;
    size_t end = post_food_end(r, t, food), same = end;
    if (end == food) continue;
    while (is_mark(t, same, ',') ||
           says(t, same, "he she it they now gets has get have eats there is we i give him her the today"))
      same++;
    if (!says_same_weight(t, same) || !says(t, same + 2, "of")) continue;
    size_t now_end = post_food_end(r, t, same + 3);
    struct told_food told[TOLD_MOST];
    size_t n = post_told_before(r, before, line, token_begin(t, i), told);
    const struct told_food *f = of_past(r, told, n, t, food);
    if (!f || now_end == same + 3) continue;
    struct buf b;
    buf_init(&b, r->keep, f->said.n + line.n + 4);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(f->said), SPAN_ARG(tokens_span(t, same + 3, now_end - same - 3)));
    *out = post_cut_out(r, line, token_begin(t, i), token_end(t, now_end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "The rice we left as it was": as much of it as before. */
static bool left_as_it_was(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                           struct span *out) {
  for (size_t i = 1; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_LEFT_AS_IT_WAS), food_end = i, food;
    if (used == 0) continue;
    while (food_end > 0 && says(t, food_end - 1, "i we i've we've have has is was")) food_end--;
    for (food = food_end;
         food > 0 && food + 3 > food_end && is_word(t, food - 1) && !says(t, food - 1, "the his her my and but");)
      food--;
    struct told_food told[TOLD_MOST];
    size_t n = post_told_before(r, before, line, token_begin(t, food), told);
    const struct told_food *f = food < food_end ? of_past(r, told, n, t, food) : NULL;
    if (!f) continue;
    struct buf b;
    buf_init(&b, r->keep, line.n + 60);
    buf_addf(&b, "%c%.*s %.*s%c", 0x1F, SPAN_ARG(f->said), SPAN_ARG(f->food), 0x1F);
    size_t begin = food > 0 && says(t, food - 1, "the his her my") ? food - 1 : food;
    *out = post_cut_out(r, line, token_begin(t, begin), token_end(t, i + used - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "New since Monday: a teaspoon of psyllium": it is fed now. */
static bool new_since(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  enum { FAR = 6 };
  for (size_t i = 0; i + 3 < t->count; i++) {
    bool begins = i == 0 || ends_sentence(t, i - 1);
    if (!begins || !says(t, i, "new") || !says(t, i + 1, "since from")) continue;
    for (size_t k = i + 2; k < t->count && k < i + FAR; k++)
      if (is_mark(t, k, ':')) {
        *out = post_cut_out(r, line, token_begin(t, i), token_end(t, k), "");
        return true;
      }
  }
  return false;
}

/* "If she begs she may have three prawns, which happens perhaps twice a week": how often the condition holds. */
static bool which_happens(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 2; i + 2 < t->count; i++) {
    if (!says(t, i, "which that") || !says(t, i + 1, "happens is")) continue;
    size_t at = i + 2, begin = i, food = t->count;
    bool happens = says(t, i + 1, "happens");
    while (says(t, at, "perhaps maybe about around roughly only some probably usually")) at++;
    struct frequency f = at < t->count ? frequency_at(t, at) : (struct frequency){0};
    if (f.tokens == 0 || f.refuse) continue;
    while (begin > 0 && !ends_sentence(t, begin - 1)) begin--;
    if (!says(t, begin, "if when whenever should") || !happens) continue;
    for (size_t k = begin; k < i; k++)
      if (says(t, k, "have has get gets give having")) food = k + 1;
    struct post_amount a = food < i ? post_amount_at(t, food) : (struct post_amount){0};
    if (a.tokens == 0) continue;
    size_t end = i;
    while (end > food && t->item[end - 1].kind == TOKEN_MARK) end--;
    struct buf b;
    buf_init(&b, r->keep, line.n + 200);
    buf_addf(&b, "%.*s, %.*s", SPAN_ARG(tokens_span(t, food, end - food)), SPAN_ARG(tokens_span(t, at, f.tokens)));
    struct buf ask;
    buf_init(&ask, r->keep, line.n + 100);
    buf_addf(&ask, "How often is that so: '%.*s'? It was counted %.*s.", SPAN_ARG(tokens_span(t, begin, food - begin)),
             SPAN_ARG(tokens_span(t, at, f.tokens)));
    post_will_say(r, t->item[end - 1].word, "how often is the owner's estimate", buf_text(&ask));
    *out = post_cut_out(r, line, token_begin(t, begin), token_end(t, at + f.tokens - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "a boiled egg mashed into two tablespoons of porridge", "made with water": both are fed, and the water is none. */
static bool mashed_into(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    if (is_mark(t, i, ',') && says(t, i + 1, "made cooked") && says(t, i + 2, "with in") && says(t, i + 3, "water")) {
      *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i + 3), "");
      return true;
    }
    if (!says_a(t, i, CLASS_MIXED_INTO) || !says(t, i + 1, "into in through over onto")) continue;
    struct post_amount a = post_amount_at(t, i + 2);
    size_t food = i + 2 + a.tokens + says(t, i + 2 + a.tokens, "of");
    if (a.tokens == 0 || post_food_end(r, t, food) == food || !post_names_food(r, t, i > 3 ? i - 3 : 0, i)) continue;
    *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i + 1), "and");
    return true;
  }
  return false;
}

/* "pork loin and mix that with 60 g of rice", "stir it into ...": both are fed. */
static bool mixed_with(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i + 4 < t->count; i++) {
    size_t verb = says(t, i, "and then") ? i + 1 : i, at = verb + 1;
    if (!says(t, verb, "mix stir mash combine blend fold toss top") || !says(t, at, "that this it them these everything"))
      continue;
    if (!says(t, ++at, "with into in through under over onto")) continue;
    at += says(t, at + 1, "about around roughly some") ? 2 : 1;
    struct post_amount a = post_amount_at(t, at);
    if (a.tokens == 0) continue;
    *out = post_cut_out(r, line, token_begin(t, i), token_end(t, at - 1), "and");
    return true;
  }
  return false;
}

/* A line that ends with a colon: "What Luna (24 kg) ate this week, a normal week for her:" is a heading for a week. */
static bool ate_this_week(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  enum { NEAR = 5 };
  size_t last = t->count - 1, verb = 0, depth = 0;
  if (!is_mark(t, last, ':') || post_told_foods(r, line, &(struct told_food){.past = false}, 1) > 0) return false;
  while (verb < last && !says(t, verb, "ate had eaten went got")) verb++;
  for (size_t k = verb + 1; k + 1 < last && k <= verb + NEAR + 6; k++) {
    bool week = says(t, k, "this last past") && says(t, k + 1, "week");
    if (!week) continue;
    size_t rest = k + 2;
    while (rest < last && (depth > 0 || !is_mark(t, rest, ','))) {
      depth += is_mark(t, rest, '(');
      depth -= depth > 0 && is_mark(t, rest, ')');
      rest++;
    }
    struct buf b;
    buf_init(&b, r->keep, line.n + 40);
    if (rest > k + 2) buf_addf(&b, "%.*s ", SPAN_ARG(tokens_span(t, k + 2, rest - k - 2)));
    buf_adds(&b, "per week:");
    struct span cut = post_cut_out(r, line, token_begin(t, k), token_end(t, last), buf_text(&b));
    const char *from = cut.p + (token_begin(t, verb) - line.p);
    *out = post_cut_out(r, cut, from, from + (token_end(t, verb) - token_begin(t, verb)), "");
    return true;
  }
  return false;
}

struct span post_letters(struct post_reader *r, struct span before, struct span line) {
  struct tokens t = post_tokens(r, line);
  if (t.count > LINE_MOST_TOKENS) return line;
  struct span out = line;
  bool may = false;
  for (size_t i = 0; i < t.count && !may; i++)
    may = says(&t, i, "until till before instead place new happens water was same unchanged that this it them everything") ||
          says_a(&t, i, CLASS_MIXED_INTO) || says_a(&t, i, CLASS_CHANGED_VERB) || says_a(&t, i, CLASS_REPLACED) ||
          (says(&t, i, "week") && i + 1 < t.count);
  if (!may) return line;
  return until_then(r, &t, line, &out) || cut_to(r, before, &t, line, &out) ||
                 replaced_with_same(r, before, &t, line, &out) || instead_same(r, before, &t, line, &out) ||
                 in_its_place(r, before, &t, line, &out) || left_as_it_was(r, before, &t, line, &out) ||
                 new_since(r, &t, line, &out) || which_happens(r, &t, line, &out) || mashed_into(r, &t, line, &out) ||
                 mixed_with(r, &t, line, &out) || ate_this_week(r, &t, line, &out)
             ? out
             : line;
}
