/* Grain and pulses that are cooked in water: "50 g oats made with 200 ml water", "80 g dry rice cooked in water", "400 g
 * (dry weight) brown rice cooked in 1 litre of water" are so much of it dry, and water that is eaten with it is water.
 * Without the water's amount nobody says whether it was weighed dry: counted so, said, and asked. */
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

/* "dry", "(dry weight)", ", weighed dry,", "uncooked": the tokens; 0. */
static size_t dry_at(const struct tokens *t, size_t at) {
  size_t i = at;
  bool open = is_mark(t, i, '('), comma = is_mark(t, i, ',');
  if (open || comma) i++;
  if (says(t, i, "weighed measured")) i++;
  if (!says(t, i, "dry dried uncooked raw")) return 0;
  i++;
  if (says(t, i, "weight")) i++;
  if (open) return is_mark(t, i, ')') ? i + 1 - at : 0;
  if (comma && is_mark(t, i, ',')) i++;
  return i - at;
}

struct cooked_in {
  struct span water; /* "200 ml"; "" not told */
  size_t tokens;     /* 0: it is not cooked in water */
  bool eaten;        /* with the grain: "with 200 ml water", "soaked in"; what it is boiled in may be poured off */
};

/* "cooked in water", "simmered in 180 ml of water", "with 200 ml water", "soaked in 100 ml hot water". */
static struct cooked_in cooked_in_at(const struct tokens *t, size_t at) {
  struct cooked_in c = {{"", 0}, 0, false};
  size_t i = at;
  bool verb = says(t, i, "cooked boiled simmered soaked steeped prepared made mixed stewed");
  if (verb) i++;
  if (verb && says(t, i, "up")) i++;
  if (!says(t, i, "in with")) return c;
  c.eaten = says(t, i, "with") || says(t, at, "soaked steeped prepared made mixed");
  i++;
  if (says(t, i, "about around roughly")) i++;
  struct post_amount a = post_amount_at(t, i);
  bool told = a.tokens > 0 && (a.is_volume || a.is_mass) && a.low == a.high;
  if (told) c.water = tokens_span(t, i, a.tokens), i += a.tokens;
  if (!told && says(t, i, "plain just some a")) i++;
  if (says(t, i, "of")) i++;
  while (says(t, i, "plenty lots loads enough of the hot boiling cold warm plain fresh tap salted unsalted")) i++;
  if (says(t, i + 1, "and") && !told) return c; /* "made with water and flour" */
  if (!says(t, i, "water") || (!verb && !told)) return c;
  c.tokens = i + 1 - at;
  return c;
}

/* The words from 'from' on up to how it is cooked, where they name a grain or a pulse; 'from' none. */
static size_t grain_end(struct post_reader *r, const struct tokens *t, size_t from) {
  enum { WORDS_MOST = 4 };
  size_t end = from;
  while (end < from + WORDS_MOST && is_word(t, end) && dry_at(t, end) == 0 && cooked_in_at(t, end).tokens == 0 &&
         post_amount_at(t, end).tokens == 0 && !says(t, end, "and plus"))
    end++;
  struct search_hit hit;
  if (end == from || !post_look_up(r, tokens_span(t, from, end - from), &hit) || hit.words_missed > 0) return from;
  const struct img_food *food = library_food(r->lib, hit.food);
  return food->part == PART_GRAIN || food->part == PART_LEGUME ? end : from;
}

static bool grain_in_water(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  struct post_amount a = post_amount_at(t, i);
  if (a.tokens == 0 || a.by_word || a.is_percent || !(a.is_mass || a.is_volume)) return false;
  size_t food = i + a.tokens, dry = 0, used;
  if (says(t, food, "of")) food++;
  dry += used = dry_at(t, food);
  food += used;
  if (says(t, food, "of")) food++;
  if (says(t, food, "cooked boiled")) return false; /* "150 g cooked rice with 20 ml water" */
  size_t end = grain_end(r, t, food), at = end;
  if (end == food) return false;
  bool open = is_mark(t, at, '(') && says(t, at + 1, "dry dried uncooked raw") &&
              is_mark(t, at + 2, ','); /* "(dry, cooked in water)" */
  if (open) dry++, at += 3;
  dry += used = dry_at(t, at);
  at += used;
  if (is_mark(t, at, ',') && cooked_in_at(t, at + 1).tokens > 0) at++;
  struct cooked_in c = cooked_in_at(t, at);
  if (c.tokens == 0 || (open && !is_mark(t, at + c.tokens, ')'))) return false;
  c.tokens += open;
  struct buf b;
  buf_init(&b, r->keep, 2 * line.n + 80);
  buf_addf(&b, "%.*s dry %.*s", SPAN_ARG(tokens_span(t, i, a.tokens)), SPAN_ARG(tokens_span(t, food, end - food)));
  if (c.water.n > 0 && c.eaten) buf_addf(&b, ", %.*s water", SPAN_ARG(c.water));
  *out = post_cut_out(r, line, token_begin(t, i), token_end(t, at + c.tokens - 1), buf_text(&b));
  if (dry == 0 && c.water.n == 0) {
    struct buf ask;
    buf_init(&ask, r->keep, 200);
    buf_addf(&ask, "Is the %.*s weighed dry, or as it comes out of the water? It was counted dry.",
             SPAN_ARG(tokens_span(t, food, end - food)));
    post_will_say(r, t->item[end - 1].word, "counted as weighed dry; the post does not say so", buf_text(&ask));
  }
  return true;
}

struct span post_dry(struct post_reader *r, struct span before, struct span line) {
  enum { FOODS_MOST = 4 };
  struct span out = line;
  (void)before;
  for (int n = 0; n < FOODS_MOST; n++) {
    struct tokens t = post_tokens(r, line);
    bool water = false, found = false;
    if (t.count > LINE_MOST_TOKENS) return line;
    for (size_t i = 0; i < t.count && !water; i++) water = says(&t, i, "water");
    for (size_t i = 0; i + 3 < t.count && water && !found; i++) found = grain_in_water(r, &t, i, line, &out);
    if (!found) return line;
    line = out;
  }
  return line;
}
