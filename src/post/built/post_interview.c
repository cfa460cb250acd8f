/* Questions and answers, a line each: the question names the food or the meal, and the answer how much of it. Each pair
 * becomes a line: "rice?", "60 g, cooked" is "60 g rice, cooked". */
#include "foods/hazard_words.h"
#include "post/built/post_built.h"
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

enum { PAIRS_LEAST = 2, QUESTION_MOST_WORDS = 12 };

/* Without a bullet and "Q:", "Vet:" at its front. */
static struct span without_label(struct span line, struct arena *arena) {
  line = trim_blanks(line);
  while (line.n > 0 && memchr("-*> ", line.p[0], 4)) line = span_cut(line, 1, line.n);
  if (line.n > 3 && (line.p[0] | 0x20) == 'q' && line.p[1] >= '0' && line.p[1] <= '9') { /* "Q2. Meat?" */
    size_t at = 1;
    while (at < line.n && line.p[at] >= '0' && line.p[at] <= '9') at++;
    if (at < line.n && memchr(".:)", line.p[at], 3)) return trim_blanks(span_cut(line, at + 1, line.n));
  }
  const char *colon = memchr(line.p, ':', line.n);
  if (!colon) return line;
  struct tokens t = tokens_of(span_cut(line, 0, (size_t)(colon - line.p) + 1), arena);
  bool label = is_word(&t, 0) && is_mark(&t, 1, ':') && t.item[0].word.n <= 12 && !is_meal_word(t.item[0].word) &&
               says_a(&t, 0, CLASS_SPEAKER);
  bool lettered =
      says_a(&t, 0, CLASS_SPEAKER) && is_word(&t, 1) && t.item[1].word.n == 1 && is_mark(&t, 2, ':'); /* "Person A:" */
  if (lettered) return trim_blanks(span_cut(line, (size_t)(t.item[2].at.p + 1 - line.p), line.n));
  return label ? trim_blanks(span_cut(line, (size_t)(t.item[1].at.p + 1 - line.p), line.n)) : line;
}

static bool asks(struct span line, struct arena *arena) {
  if (!memchr(line.p, '?', line.n)) return false;
  struct tokens t = tokens_of(line, arena);
  return t.count > 1 && t.count <= QUESTION_MOST_WORDS && is_mark(&t, t.count - 1, '?') && !post_any_amount(&t, 0);
}

/* The food that a question names, "" none; and is it a kind of food alone? */
static struct span food_asked(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = post_mention_at(r, t, i);
    if (used == 0 && is_word(t, i) && !token_is_a(&t->item[i], CLASS_CHATTER) && post_names_food(r, t, i, i + 1)) used = 1;
    if (used == 0) continue;
    size_t end = post_food_end(r, t, i);
    return tokens_span(t, i, end > i ? end - i : used);
  }
  return (struct span){"", 0};
}

/* "Never", "no"; not "no idea how much". */
static bool refuses(const struct tokens *t) {
  return says_a(t, 0, CLASS_SAYS_NO) && !post_any_amount(t, 0) &&
         !says(t, 1, "idea clue much sure often many yet always mind");
}

static bool names_any_food(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (post_mention_at(r, t, i) > 0 || says_a(t, i, CLASS_ANIMAL_OF_FLESH)) return true;
  return post_names_food(r, t, 0, t->count);
}

/* The meal that a question names, as a word; "" none. */
static struct span meal_asked(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (is_word(t, i) && is_meal_word(t->item[i].word) &&
        !says(t, i, "meal bowl feed snack snacks treat treats extras extra"))
      return t->item[i].word;
  return (struct span){"", 0};
}

static bool asks_of_weight(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "weight weigh weighs heavy kilos")) return true;
  return false;
}

static bool says_how_often(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (frequency_at(t, i).tokens > 0 || is_vague(t->item[i].word) || says(t, i, "yes yeah yep sure")) return true;
  return false;
}

/* "Oil?", "Olive, 1 tsp": the question says that it is one; false where the answer says so itself, or has no amount. */
static bool write_oil(struct post_reader *r, struct buf *b, const struct tokens *q, const struct tokens *a) {
  bool asked = false;
  for (size_t i = 0; i < q->count; i++) asked = asked || says(q, i, "oil oils");
  for (size_t i = 0; i < a->count; i++)
    if (says(a, i, "oil oils")) return false;
  struct post_amount amount;
  size_t at = asked ? post_find_amount(r, a, 0, a->count, &amount) : a->count;
  if (at >= a->count || amount.bare) return false;
  size_t end = at + amount.tokens, words_end = at;
  struct span rest = end < a->count ? tokens_span(a, end, a->count - end) : (struct span){"", 0};
  while (words_end > 0 && a->item[words_end - 1].kind == TOKEN_MARK) words_end--;
  if (words_end == 0) return false;
  buf_addf(b, "- %.*s %.*s oil%s%.*s", SPAN_ARG(tokens_span(a, at, amount.tokens)), SPAN_ARG(tokens_span(a, 0, words_end)),
           rest.n > 0 ? ", " : "", SPAN_ARG(rest));
  return true;
}

/* "Can he have grapes?", and the answer speaks of something else: the question stays, for it names a danger or a food. */
static bool question_stays(struct post_reader *r, struct span question, struct span food, struct span answer) {
  if (hazard_words_danger(r->lib, question, SPECIES_BOTH, r->arena) != NO_INDEX) return true;
  struct tokens f = tokens_of(food, r->arena);
  return f.count > 0 && !net_is_kind(f.item[f.count - 1].word) && !net_has_word(answer, f.item[f.count - 1].word);
}

static void write_pair(struct post_reader *r, struct buf *b, struct span question, struct span answer) {
  struct tokens q = tokens_of(question, r->arena), a = tokens_of(answer, r->arena);
  struct span meal = meal_asked(&q), food = food_asked(r, &q);
  struct post_amount amount = a.count > 0 ? post_amount_at(&a, 0) : (struct post_amount){0};
  struct buf pair;
  buf_init(&pair, r->keep, question.n + answer.n + 8);
  buf_addf(&pair, "%.*s %.*s", SPAN_ARG(question), SPAN_ARG(answer));
  if (refuses(&a)) {
    if (names_any_food(r, &q) || food.n > 0) post_note(r, buf_span(&pair), "said not to be given");
    return;
  }
  if (food.n > 0 && says(&a, 0, "no not") && says(&a, 1, "idea clue sure")) { /* fed, and nobody knows how much */
    if (!post_leave(r, buf_span(&pair), "the post does not say how much", true))
      post_ask(r, 2, "How many grams (or spoons) of %.*s a day?", SPAN_ARG(quoted(food)));
    return;
  }
  if (write_oil(r, b, &q, &a)) return;
  if (says(&q, 0, "how") && says(&q, 1, "often")) {
    buf_addf(b, "That %.*s", SPAN_ARG(answer));
  } else if (asks_of_weight(&q) && post_any_amount(&a, 0)) {
    enum species s;
    for (size_t i = 0; i < q.count; i++) /* "What is the weight of the cat?" */
      if (is_word(&q, i) && is_animal_word(q.item[i].word, &s)) {
        buf_addf(b, "%.*s, ", SPAN_ARG(q.item[i].at));
        break;
      }
    buf_addf(b, "weight: %.*s", SPAN_ARG(answer));
  } else if (meal.n > 0) {
    buf_addf(b, "%.*s: %.*s", SPAN_ARG(meal), SPAN_ARG(answer));
  } else if (food.n > 0 && !names_any_food(r, &a) && amount.tokens > 0 && !amount.cannot) {
    size_t behind = amount.tokens;
    struct span rest = behind < a.count ? tokens_span(&a, behind, a.count - behind) : (struct span){"", 0};
    bool marked = behind < a.count && a.item[behind].kind == TOKEN_MARK;
    buf_addf(b, "- %.*s %.*s%s%.*s", SPAN_ARG(tokens_span(&a, 0, behind)), SPAN_ARG(food), marked || rest.n == 0 ? "" : ", ",
             SPAN_ARG(rest));
  } else if (food.n > 0 && !names_any_food(r, &a) && says_how_often(&a)) {
    buf_addf(b, "- %.*s: %.*s", SPAN_ARG(food), SPAN_ARG(answer));
  } else {
    if (question_stays(r, question, food, answer)) buf_addf(b, "%.*s%c", SPAN_ARG(question), 0x1F);
    buf_addf(b, "- %.*s", SPAN_ARG(answer));
  }
}

/* "Meat? Beef mince, 200 g": question and answer in one line; where the answer begins, 0. */
static size_t answer_behind(struct span line, struct arena *arena) {
  enum { SHORT = 6 };
  const char *mark = memchr(line.p, '?', line.n);
  size_t at = mark ? (size_t)(mark - line.p) + 1 : 0;
  if (at == 0 || at >= line.n || line.p[at] != ' ') return 0;
  struct tokens t = tokens_of(span_cut(line, 0, at), arena);
  return t.count > 1 && t.count <= SHORT && !post_any_amount(&t, 0) ? at : 0;
}

static size_t pairs_in(struct span text, struct arena *arena) {
  struct span line, before = {"", 0};
  size_t pairs = 0;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    if (line.n > 0 && line.p[0] == POST_QUOTED) continue;
    struct span bare = without_label(line, arena);
    if (bare.n == 0) continue;
    pairs += answer_behind(bare, arena) > 0;
    pairs += before.n > 0 && asks(before, arena) && !asks(bare, arena);
    before = bare;
  }
  return pairs;
}

struct span post_interview(struct post_reader *r, struct span text, struct arena *arena) {
  struct span line, question = {"", 0};
  struct buf b;
  if (text.n == 0 || !memchr(text.p, '?', text.n) || pairs_in(text, r->arena) < PAIRS_LEAST) return text;
  buf_init(&b, arena, 4 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    r->line = lines.number;
    if (line.n > 0 && line.p[0] == POST_QUOTED) { /* somebody else's */
      buf_addf(&b, "%.*s\n", SPAN_ARG(line));
      continue;
    }
    struct span bare = without_label(line, r->arena);
    size_t behind = question.n == 0 ? answer_behind(bare, r->arena) : 0;
    if (behind > 0) {
      write_pair(r, &b, span_cut(bare, 0, behind), trim_blanks(span_cut(bare, behind, bare.n)));
      buf_addc(&b, '\n');
      continue;
    }
    if (bare.n > 0 && asks(bare, r->arena)) {
      if (question.n > 0) buf_add(&b, question), buf_addc(&b, '\n'); /* nobody answered */
      question = bare;
      continue;
    }
    if (question.n > 0 && bare.n > 0) {
      buf_addc(&b, '\n'); /* the question's line */
      write_pair(r, &b, question, bare);
      question = (struct span){"", 0};
    } else {
      buf_add(&b, line);
    }
    buf_addc(&b, '\n');
  }
  if (question.n > 0) buf_addf(&b, "%.*s\n", SPAN_ARG(question));
  r->line = 0;
  return buf_span(&b);
}
