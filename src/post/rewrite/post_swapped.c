/* "Twice a week I swap the chicken for prawns, same amount": on those days as much of the one as the line above has of the
 * other, written out as "90 g prawns instead of the chicken thigh". */
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

static bool on_some_days(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && !f.refuse && !f.each_meal && !(f.per_28 > 0) && f.times_per_28 < CALENDAR_DAYS) return true;
    if (f.tokens > 0) i += f.tokens - 1;
  }
  return false;
}

/* The one line above that has the words of [from, to); of flesh and an organ of one animal the flesh. r->count none. */
static size_t line_of(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  size_t found = r->count;
  for (int organ = 0; organ < 2 && found == r->count; organ++)
    for (size_t k = 0; k < r->count; k++) {
      bool all = r->item[k].kind == ITEM_FOOD && !post_tells_often(r, &r->item[k]);
      for (size_t i = from; i < to && all; i++) all = net_has_word(r->item[k].words, t->item[i].word);
      if (!all) continue;
      struct tokens words = tokens_of(r->item[k].words, r->arena);
      bool is_organ = false;
      for (size_t i = 0; i < words.count; i++) is_organ = is_organ || says_a(&words, i, CLASS_ORGAN_OF_MEAT);
      if (is_organ != (organ == 1)) continue;
      if (found < r->count) return r->count;
      found = k;
    }
  return found;
}

struct swap {
  size_t begin, old, old_end, food, food_end, end; /* tokens */
};

/* "I swap the rice for potato", "the beef is swapped for cod". */
static bool swap_at(struct post_reader *r, const struct tokens *t, size_t verb, struct swap *s) {
  if (!says(t, verb, "swap swaps swapped switch exchange substitute replace swapping")) return false;
  size_t at = verb + 1;
  s->begin = verb > 0 && says(t, verb - 1, "i we") ? verb - 1 : verb;
  if (says(t, verb, "swapped") && verb > 0 && says(t, verb - 1, "is are gets get")) { /* its food stands before it */
    s->old_end = verb - 1;
    s->old = s->old_end;
    while (s->old > 0 && is_word(t, s->old - 1) && !says(t, s->old - 1, "the his her")) s->old--;
    s->begin = s->old > 0 ? s->old - 1 : 0;
    if (s->old == 0 || s->old == s->old_end) return false;
  } else {
    if (!says(t, at, "the his her out that")) return false;
    while (says(t, at, "the his her out that")) at++;
    s->old = at;
    while (is_word(t, at) && !says(t, at, "for with to by")) at++;
    s->old_end = at;
  }
  if (s->old_end == s->old || s->old_end - s->old > 3 || !says(t, at, "for with to by")) return false;
  s->food = at + 1;
  while (says(t, s->food, "some the a")) s->food++;
  s->food_end = post_food_end(r, t, s->food);
  return s->food_end > s->food && post_amount_at(t, s->food).tokens == 0;
}

bool post_swapped_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  r->same_assumed = false;
  if (!on_some_days(t)) return false;
  for (size_t i = 0; i < t->count; i++) {
    struct swap s;
    if (!swap_at(r, t, i, &s)) continue;
    size_t old = line_of(r, t, s.old, s.old_end);
    if (old == r->count) return false;
    struct tokens own = tokens_of(span_of(r->item[old].text), r->arena);
    struct post_amount a = own.count > 0 ? post_amount_at(&own, 0) : (struct post_amount){0};
    if (a.tokens == 0 || a.is_percent || !(a.is_mass || a.is_volume)) return false;
    size_t end = s.food_end, same = end;
    while (is_mark(t, same, ',') || is_mark(t, same, '(') || is_mark(t, same, '-')) same++;
    size_t used = phrase_of(t, same, CLASS_SAME_AMOUNT);
    if (used > 0) end = same + used + (is_mark(t, same + used, ')') ? 1 : 0);
    r->same_assumed = used == 0;
    struct buf b;
    buf_init(&b, r->keep, 2 * text.n + strlen(r->item[old].text) + 60);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[s.begin].at.p - text.p)});
    buf_addf(&b, "%.*s %.*s instead of the %.*s", SPAN_ARG(tokens_span(&own, 0, a.tokens)),
             SPAN_ARG(tokens_span(t, s.food, s.food_end - s.food)), SPAN_ARG(r->item[old].words));
    const char *rest = t->item[end - 1].at.p + t->item[end - 1].at.n;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

void post_doubt_swapped(struct post_reader *r, size_t items) {
  if (!r->same_assumed || r->count == items) return;
  r->same_assumed = false;
  for (size_t i = items; i < r->count; i++) post_doubt(r, i, "taken as much of it as of the food that it stands for");
  r->ask_of = items + 1;
  post_ask(r, 2, "How much is fed in '%s'? It was taken as much as of the food that it stands for.", r->item[items].text);
  r->ask_of = 0;
}
