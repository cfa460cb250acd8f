/* What is gathered from a post on the way: items, lines left out, questions. */
#include "base/num.h"
#include "foods/hazard_words.h"
#include "post/hear/post_hear.h"

const char POST_REFUSED[] = "said never to be fed";

uint32_t post_hash(struct span text) {
  uint32_t hash = 2166136261U; /* FNV-1a */
  for (size_t i = 0; i < text.n; i++) hash = (hash ^ (uint8_t)text.p[i]) * 16777619U;
  return hash;
}

/* "what", "advance", "routine is this": no food, and the search would only look for words that are spelled nearly so. */
static bool is_everyday(struct span words) {
  while (words.n > 0) {
    const char *blank = memchr(words.p, ' ', words.n);
    size_t n = blank ? (size_t)(blank - words.p) : words.n;
    if (is_a(span_cut(words, 0, n), CLASS_EVERYDAY)) return true;
    words = span_cut(words, blank ? n + 1 : n, words.n);
  }
  return false;
}

static bool look_up(struct post_reader *r, struct span words, bool name, struct search_hit *hit) {
  struct looked_up *slot = &r->looked_up[post_hash(words) % LOOKED_UP_SLOTS];
  if (words.n == 0) return false;
  bool known = span_eq(slot->words, words);
  if (!known && is_everyday(words)) return false;
  if (!known || (slot->no_name && !name)) { /* others of the same slot are forgotten */
    slot->words = known ? slot->words : span_of(arena_text(r->keep, words));
    slot->no_name = name && !search_names(r->lib, words, &slot->hit, r->arena);
    slot->any = name ? !slot->no_name : search_foods(r->lib, words, NULL, &slot->hit, 1, r->arena) > 0;
  }
  *hit = slot->hit;
  return slot->any && (!name || slot->hit.exact_name);
}

bool post_look_up(struct post_reader *r, struct span words, struct search_hit *hit) { return look_up(r, words, false, hit); }

bool post_look_up_name(struct post_reader *r, struct span words, struct search_hit *hit) {
  return look_up(r, words, true, hit);
}

void post_add(struct post_reader *r, enum item_kind kind, const char *text, const char *assumed) {
  if (r->count > POST_MOST_ITEMS) return;
  struct item item = {.kind = kind,
                      .line = r->line,
                      .text = arena_text(r->keep, span_of(text)),
                      .assumed = arena_text(r->keep, span_of(assumed)),
                      .grams = r->taken_grams,
                      .food = r->taken_food,
                      .words = span_of(arena_text(r->keep, r->taken_words)),
                      .served = r->served,
                      .at_meals = r->at_meals,
                      .own = r->own,
                      .timed = r->meal_said || r->days[0],
                      .meal = r->meal,
                      .sentence = r->heard_count};
  ARENA_PUSH(r->keep, r->item, r->count, r->cap, item);
}

bool post_any_food(const struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].kind == ITEM_FOOD) return true;
  return false;
}

bool post_is_shared(const struct post_reader *r) { return r->animals > 1 && !r->for_one && !r->subject_named; }

static const char *post_note_fed(struct post_reader *r, struct span text, const char *why, bool fed) {
  struct post_left left = {r->line, arena_text(r->keep, trim_blanks(text)), why, fed};
  post_claim(r, text, CLAIM_TOLD, 0, 0);
  ARENA_PUSH(r->keep, r->left, r->left_count, r->left_cap, left);
  return left.text;
}

void post_note(struct post_reader *r, struct span text, const char *why) {
  if (r->left_count < POST_MOST_ITEMS) post_note_fed(r, text, why, false);
}

/* The owner's words without what joins them to others ("plus beef cheek", "and sardines"), brackets closed. */
struct span post_own_words(struct post_reader *r, struct span text) {
  static const char *const JOINS[] = {"plus ", "and ",  "& ",    "+ ",   "with ", "- ",
                                      ", ",    "also ", "then ", "its ", "it's ", "or "};
  text = trim_blanks(text);
  for (bool more = true; more;) {
    more = false;
    for (size_t i = 0; i < COUNT_OF(JOINS); i++)
      if (span_starts_fold(text, JOINS[i])) {
        text = trim_blanks(span_cut(text, strlen(JOINS[i]), text.n));
        more = true;
      }
  }
  while (text.n > 0 && memchr(",;: (", text.p[text.n - 1], 5)) text.n--;
  if (memchr(text.p, '(', text.n) && !memchr(text.p, ')', text.n)) { /* the sentence ended at the bracket */
    struct buf b;
    buf_init(&b, r->arena, text.n + 4);
    buf_addf(&b, "%.*s)", SPAN_ARG(text));
    text = span_of(buf_text(&b));
  }
  return text;
}

struct span post_quote(struct post_reader *r, struct span text) {
  struct span s = quoted(post_own_words(r, text));
  const char *open = s.n > 0 ? memchr(s.p, '(', s.n) : NULL;
  if (open && !memchr(open, ')', (size_t)(s.p + s.n - open))) s = trim_blanks(span_cut(s, 0, (size_t)(open - s.p)));
  return s;
}

/* "Tub for breakfast, tub for tea", "half a coffee spoon": nobody drinks it. */
struct span post_without_tea_time(struct post_reader *r, struct span text) {
  struct tokens t = post_tokens(r, text);
  struct buf b;
  buf_init(&b, r->arena, 2 * text.n + 16);
  for (size_t i = 0; i < t.count; i++) {
    bool spoon = says(&t, i, "tea coffee") && says(&t, i + 1, "spoon spoons spoonful time");
    bool meal = says(&t, i, "tea") && (i == 0 || says_a(&t, i - 1, CLASS_BESIDE_TEA)) && !says(&t, i + 1, "bag bags leaves");
    if (spoon || meal) continue;
    buf_addf(&b, "%s%.*s", b.n > 0 && !(t.item[i].glued) ? " " : "", SPAN_ARG(t.item[i].at));
  }
  return b.n > 0 ? buf_span(&b) : text;
}

bool post_leave(struct post_reader *r, struct span text, const char *why, bool fed) {
  if (r->left_count >= POST_MOST_ITEMS) return false;
  post_claim(r, text, CLAIM_TOLD, 0, 0);
  text = post_own_words(r, text);
  text = span_of(post_note_fed(r, text, why, fed));
  uint32_t danger = hazard_words_danger(r->lib, post_without_tea_time(r, text), SPECIES_BOTH, r->arena);
  if (danger != NO_INDEX) post_ask_of_danger(r, danger, text, fed);
  if (fed) post_add(r, ITEM_UNKNOWN, text.p, "");
  return danger != NO_INDEX;
}

void post_ask_of_danger(struct post_reader *r, uint32_t hazard, struct span text, bool fed) {
  const char *words = arena_text(r->arena, quoted(text)); /* asked once, and first where it is fed */
  for (size_t i = 0; i < r->question_count; i++)
    if (r->question[i].about == ASKS_OF_DANGER && strstr(r->question[i].ask, words)) {
      if (!fed) return;
      memmove(&r->question[i], &r->question[i + 1], (r->question_count - i - 1) * sizeof r->question[0]);
      r->question_count--;
      break;
    }
  struct post_question *q =
      post_ask(r, 4, fed ? "'%.*s' is a danger. %s Is it really fed?" : "Is any of this fed: '%.*s'? If it is: %s",
               SPAN_ARG(quoted(text)), lib_str(r->lib, hazard_row(r->lib, hazard)->advice));
  if (q) q->about = ASKS_OF_DANGER;
}

const char *post_kilograms(struct post_reader *r, double kg) {
  struct buf b;
  buf_init(&b, r->keep, 40);
  num_sig(&b, kg, 3);
  buf_adds(&b, " kg");
  return buf_text(&b);
}

bool post_has_asked(const struct post_reader *r, const char *begin) {
  for (size_t i = 0; i < r->question_count; i++)
    if (strncmp(r->question[i].ask, begin, strlen(begin)) == 0) return true;
  return false;
}

struct post_question *post_ask(struct post_reader *r, double weight, const char *fmt, ...) {
  struct buf b;
  va_list args;
  if (r->question_count >= POST_MOST_ITEMS) return NULL;
  buf_init(&b, r->keep, 1000);
  va_start(args, fmt);
  buf_addv(&b, fmt, args);
  va_end(args);
  const char *ask = buf_text(&b);
  for (size_t i = 0; i < r->question_count; i++)
    if (strcmp(r->question[i].ask, ask) == 0) return NULL; /* each once */
  size_t item = r->ask_of > 0 ? r->ask_of : r->count;
  struct post_question q = {.line = r->line,
                            .ask = ask,
                            .weight = weight,
                            .strict_line = r->line > 0 ? (int)item : 0, /* the item until the text is written */
                            .food = ""};
  ARENA_PUSH(r->keep, r->question, r->question_count, r->question_cap, q);
  return &r->question[r->question_count - 1];
}
