/* Mixtures: the parts of an 80:10:10 mince, "organ mix (liver/kidney/spleen equal parts)", "peas & carrots". */
#include "base/num.h"
#include "post/line/post_line.h"

enum { MOST_PARTS = 6 };

struct mixture {
  const char *part[MOST_PARTS];
  double share[MOST_PARTS];
  double low[MOST_PARTS], high[MOST_PARTS];
  size_t count;
};

static void add_part(struct mixture *m, const char *words, double low, double share, double high) {
  if (m->count == MOST_PARTS) return;
  m->part[m->count] = words;
  m->low[m->count] = low;
  m->share[m->count] = share;
  m->high[m->count++] = high;
}

static const char *text_of(struct post_reader *r, const char *a, const char *b) {
  struct buf out;
  buf_init(&out, r->arena, strlen(a) + strlen(b) + 4);
  buf_addf(&out, "%s%s%s", a, a[0] && b[0] ? " " : "", b);
  return buf_text(&out);
}

/* "55 g (40-80 g) chicken liver, weekly": an amount and how sure it is. */
static const char *part_line(struct post_reader *r, const struct wanted *w, const struct mixture *m, size_t i) {
  struct buf b;
  buf_init(&b, r->arena, 600);
  struct post_amount a = w->amount;
  if (a.bare && r->bare_unit[0]) {
    memcpy(a.unit, r->bare_unit, strlen(r->bare_unit) + 1);
    a.is_mass = true;
  }
  bool ranged = a.is_mass && w->amount.low == w->amount.high && m->high[i] > m->low[i] && !a.is_percent;
  a.low = a.low * m->share[i] * w->times;
  a.high = a.high * m->share[i] * w->times;
  num_sig(&b, a.low, 4);
  if (a.high > a.low) {
    buf_addc(&b, '-');
    num_sig(&b, a.high, 4);
  }
  buf_addf(&b, "%s%s", a.unit[0] ? " " : "", a.unit);
  if (ranged) {
    buf_adds(&b, " (");
    num_sig(&b, w->amount.low * m->low[i] * w->times, 4);
    buf_addc(&b, '-');
    num_sig(&b, w->amount.low * m->high[i] * w->times, 4);
    buf_addf(&b, " %s)", a.unit);
  }
  buf_addf(&b, " %s", m->part[i]);
  if (w->often[0]) buf_addf(&b, ", %s", w->often);
  return buf_text(&b);
}

/* All parts or none. */
static bool write_parts(struct post_reader *r, const struct wanted *w, const struct mixture *m, const char *assumed) {
  const char *line[MOST_PARTS];
  double grams[MOST_PARTS];
  uint32_t food[MOST_PARTS];
  struct span words[MOST_PARTS];
  const char *note;
  if (m->count < 2) return false;
  for (size_t i = 0; i < m->count; i++) {
    line[i] = part_line(r, w, m, i);
    if (!strict_takes(r, line[i], &note, NULL)) return false;
    grams[i] = r->taken_grams;
    food[i] = r->taken_food;
    words[i] = r->taken_words;
  }
  for (size_t i = 0; i < m->count; i++) {
    r->taken_grams = grams[i];
    r->taken_food = food[i];
    r->taken_words = words[i];
    post_add(r, ITEM_FOOD, line[i], assumed);
    r->item[r->count - 1].rough = m->low[i] < m->high[i];
  }
  return true;
}

/* ---- 80:10:10 ---- */

static size_t animals_in(struct post_reader *r, struct span words, const char *found[2]) {
  struct tokens t = post_tokens(r, words);
  size_t n = 0;
  for (size_t i = 0; i < t.count && n < 2; i++)
    if (t.item[i].kind == TOKEN_WORD && token_is_a(&t.item[i], CLASS_ANIMAL_OF_FLESH)) {
      const char *animal = arena_text(r->arena, t.item[i].word);
      if (n == 1 && strcmp(found[0], animal) == 0) continue;
      found[n++] = animal;
    }
  return n;
}

/* "80/10/10", "80:10:10": flesh, bone, offal; false when there are no three numbers that make a hundred. */
static bool ratio_in(struct post_reader *r, struct span words, double share[3]) {
  struct tokens t = post_tokens(r, words);
  for (size_t i = 0; i + 4 < t.count; i++) {
    bool marks = t.item[i + 1].kind == TOKEN_MARK && t.item[i + 3].kind == TOKEN_MARK && t.item[i].kind == TOKEN_NUMBER &&
                 t.item[i + 2].kind == TOKEN_NUMBER && t.item[i + 4].kind == TOKEN_NUMBER;
    if (!marks || (t.item[i + 1].mark != '/' && t.item[i + 1].mark != ':' && t.item[i + 1].mark != '-')) continue;
    if (t.item[i].value + t.item[i + 2].value + t.item[i + 4].value != 100) continue;
    for (int k = 0; k < 3; k++) share[k] = t.item[i + 2 * (size_t)k].value / 100;
    return true;
  }
  return false;
}

static const char *flesh_of(struct post_reader *r, const char *animal) {
  const char *words = text_of(r, animal, "mince"), *note;
  if (strict_takes(r, text_of(r, "100 g", words), &note, NULL)) return words;
  return text_of(r, animal, "meat");
}

static bool has_food(struct post_reader *r, const char *animal, const char *part) {
  const char *note;
  struct ration_line got;
  return strict_takes(r, text_of(r, text_of(r, "100 g", animal), part), &note, &got);
}

static bool ratio_mince(struct post_reader *r, const struct wanted *w, struct span words) {
  double share[3];
  const char *animal[2];
  if (!ratio_in(r, w->said, share) || span_holds_fold(words, SPAN_LIT("lean"))) return false;
  size_t animals = animals_in(r, w->whole, animal);
  if (animals == 0) {
    post_leave(r, w->whole, "the post does not say which animal the mince is from", true);
    post_ask(r, 3, "Which animals are in the '%.*s', and which organs?", SPAN_ARG(post_quote(r, w->whole)));
    return true;
  }
  struct mixture m = {0};
  for (size_t i = 0; i < animals; i++) {
    double by = 1.0 / (double)animals, flesh = share[0] * by, bone = share[1] * by, offal = share[2] * by;
    bool kidney = has_food(r, animal[i], "kidney");
    add_part(&m, flesh_of(r, animal[i]), 0.9 * flesh, flesh, 1.1 * flesh);
    add_part(&m, text_of(r, animal[i], "bone"), 0.6 * bone, bone, 1.4 * bone);
    add_part(&m, text_of(r, animal[i], "liver"), 0.2 * offal, kidney ? offal / 2 : offal, offal);
    if (kidney) add_part(&m, text_of(r, animal[i], "kidney"), 0, offal / 2, 0.8 * offal);
  }
  post_ask(r, 3, "Which organs are in the '%.*s', how much of them is liver, and how much bone does its label state?",
           SPAN_ARG(post_quote(r, w->whole)));
  if (write_parts(r, w, &m,
                  "flesh, bone and offal as the ratio says; the offal counted as liver and, where there is a record, kidney "
                  "in halves"))
    return true;
  post_leave(r, w->whole, "its parts have no records", true);
  return true;
}

/* ---- lists ---- */

static struct span without_brackets(struct span s) {
  while (s.n > 0 && (s.p[0] == '(' || s.p[0] == ' ' || s.p[0] == ',')) s = span_cut(s, 1, s.n);
  while (s.n > 0 && (s.p[s.n - 1] == ')' || s.p[s.n - 1] == ' ' || s.p[s.n - 1] == ',')) s.n--;
  return s;
}

/* Foods of a list: "liver/kidney/spleen", "peas & carrots", "liver and kidney". */
static size_t listed(struct post_reader *r, struct span s, struct span *out, size_t most) {
  struct tokens t = post_tokens(r, s);
  size_t n = 0, from = 0;
  for (size_t i = 0; i <= t.count; i++) {
    size_t often = i < t.count ? frequency_at(&t, i).tokens : 0;
    if (often > 1) { /* "on Tuesdays and Fridays" is no list of foods */
      i += often - 1;
      continue;
    }
    bool end = i == t.count, mark = !end && t.item[i].kind == TOKEN_MARK;
    bool split =
        end ||
        (mark && (t.item[i].mark == '/' || t.item[i].mark == '&' || t.item[i].mark == ',' || t.item[i].mark == '+')) ||
        (!end && t.item[i].kind == TOKEN_WORD && word_in(t.item[i].word, "and plus"));
    if (!split) continue;
    if (i > from && n < most) out[n++] = without_brackets(tokens_span(&t, from, i - from));
    from = i + 1;
  }
  return n;
}

static bool is_food(struct post_reader *r, const char *words) {
  const char *note;
  return strict_takes(r, text_of(r, "100 g", words), &note, NULL);
}

static const char *prefixed(struct post_reader *r, const char *animal, struct span part) {
  const char *words = arena_text(r->arena, part);
  bool named = false;
  struct tokens t = post_tokens(r, part);
  for (size_t i = 0; i < t.count; i++)
    named = named || (t.item[i].kind == TOKEN_WORD && token_is_a(&t.item[i], CLASS_ANIMAL_OF_FLESH));
  return animal[0] && !named ? text_of(r, animal, words) : words;
}

/* "beef & lamb mince": the last part's last word belongs to all. */
static const char *shared_tail(struct post_reader *r, const char *part, struct span last) {
  const char *blank = NULL;
  for (size_t i = 0; i < last.n; i++)
    if (last.p[i] == ' ') blank = last.p + i;
  if (!blank || !is_a(span_of(part), CLASS_ANIMAL_OF_FLESH)) return part;
  return text_of(r, part, arena_text(r->arena, (struct span){blank + 1, (size_t)(last.p + last.n - blank - 1)}));
}

/* "liver and kidney on Tuesdays and Fridays": how often holds for every part; the list without it. */
static struct span of_every_part(struct post_reader *r, struct span list, struct wanted *w) {
  struct tokens t = post_tokens(r, list);
  for (size_t i = 1; i < t.count; i++) {
    size_t often = frequency_at(&t, i).tokens;
    if (often == 0 || i + often != t.count || w->often[0]) continue;
    w->often = arena_text(r->arena, tokens_span(&t, i, often));
    return without_brackets(tokens_span(&t, 0, i));
  }
  return list;
}

/* "skinless & boneless", "meat & bone": how one food is cut, and no list of foods. */
static bool tells_of_a_cut(struct post_reader *r, struct span part) {
  struct tokens t = post_tokens(r, part);
  for (size_t i = 0; i < t.count; i++)
    if (t.item[i].kind == TOKEN_WORD && !token_is_a(&t.item[i], CLASS_CUT_OF_ONE)) return false;
  return t.count > 0;
}

static struct span cut_words(struct post_reader *r, struct span s, const char *drop);

/* "beef & tripe mince": a mince of several, and no part of one animal. */
static bool is_mixed_mince(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  return t.count > 3 && says(&t, t.count - 1, "mince minced chunks cubes") && !holds_a(&t, 0, t.count, CLASS_ORGAN_OF_MEAT);
}

static bool equal_parts(struct post_reader *r, const struct wanted *as_told, struct span list, const char *animal,
                        bool said) {
  struct wanted every = *as_told;
  const struct wanted *w = &every;
  list = of_every_part(r, list, &every);
  struct span part[MOST_PARTS];
  struct mixture m = {0};
  size_t n = listed(r, list, part, MOST_PARTS);
  if (n < 2 || w->amount.by_word || (!w->amount.is_mass && !w->amount.is_percent && !w->amount.is_volume)) return false;
  for (size_t i = 0; i < n; i++) {
    struct tokens begin = post_tokens(r, part[i]);
    if (quantity_at(&begin, 0).fault != QUANTITY_NONE) return false; /* "liver and a whole bulb": another amount */
    if (tells_of_a_cut(r, part[i])) return false;
    const char *words = prefixed(r, animal, part[i]);
    if (i + 1 < n) words = shared_tail(r, words, part[n - 1]);
    if (!is_food(r, words) && span_holds_fold(span_of(words), SPAN_LIT(" mince"))) /* "beef & tripe mince" */
      words = arena_text(r->arena, trim_blanks(cut_words(r, span_of(words), "mince minced")));
    if (!is_food(r, words)) return false;
    double share = 1.0 / (double)n;
    add_part(&m, words, said ? share : 0.5 * share, share, said ? share : 1.5 * share);
  }
  return write_parts(
      r, w, &m, said ? "equal parts, as the post says" : "counted as equal parts; the post does not say how much of each");
}

static bool says_mixed(struct span words) {
  return span_holds_fold(words, SPAN_LIT("mix")) || span_holds_fold(words, SPAN_LIT("equal parts")) ||
         span_holds_fold(words, SPAN_LIT("rotat")) || span_holds_fold(words, SPAN_LIT("alternat")) ||
         memchr(words.p, '&', words.n) || span_holds_fold(words, SPAN_LIT(" and "));
}

static struct span cut_words(struct post_reader *r, struct span s, const char *drop) {
  struct tokens t = post_tokens(r, s);
  struct buf b;
  buf_init(&b, r->arena, s.n + 16);
  for (size_t i = 0; i < t.count; i++) {
    bool each_day = frequency_at(&t, i).tokens > 1; /* "each day" */
    if (t.item[i].kind == TOKEN_WORD && word_in(t.item[i].word, drop) && !each_day) continue;
    if (b.n > 0 && !(t.item[i].glued && t.item[i].kind == TOKEN_MARK && t.item[i].mark != '(')) buf_addc(&b, ' ');
    buf_add(&b, t.item[i].at);
  }
  return b.n > 0 ? buf_span(&b) : (struct span){"", 0};
}

/* "spinach & romaine 50:50" */
static struct span without_halves(struct post_reader *r, struct span s) {
  struct buf b;
  buf_init(&b, r->arena, s.n + 2);
  for (size_t i = 0; i < s.n;) {
    struct span rest = span_cut(s, i, s.n);
    bool half = span_starts_fold(rest, "50:50") || span_starts_fold(rest, "50/50");
    if (!half) buf_addc(&b, s.p[i]);
    i += half ? 5 : 1;
  }
  return trim_blanks(buf_span(&b));
}

/* "organ mix (liver/kidney/spleen)": of the animal that all the meat is of; it is said, and asked. */
static bool organs_of_meat(struct post_reader *r, const struct wanted *w, struct span list, const char *meat, bool said) {
  size_t before = r->count;
  if (!meat[0] || !equal_parts(r, w, list, meat, said)) return false;
  struct buf note;
  buf_init(&note, r->arena, 120);
  buf_addf(&note, "taken from %s, as the meat; the post does not say which animal", meat);
  for (size_t i = before; i < r->count; i++) post_doubt(r, i, buf_text(&note));
  post_ask(r, 2, "Which animal is the '%.*s' from? It was taken from %s, as the meat is.", SPAN_ARG(post_quote(r, w->whole)),
           meat);
  return true;
}

bool post_mixture(struct post_reader *r, const struct wanted *w, struct span words) {
  if (w->amount.cannot) return false;
  if (ratio_mince(r, w, words)) return true;
  const char *animal[2] = {"", ""};
  size_t animals = animals_in(r, w->whole, animal);
  const char *of = animals == 1 ? animal[0] : "", *meat = animals == 0 ? post_animal_of_meat(r) : "";
  /* what stands in brackets is the list */
  const char *open = memchr(w->whole.p, '(', w->whole.n);
  struct span inside = {"", 0};
  if (open) {
    const char *close = memchr(open, ')', (size_t)(w->whole.p + w->whole.n - open));
    inside = (struct span){open + 1, (size_t)((close ? close : w->whole.p + w->whole.n) - open - 1)};
  }
  bool halves = span_holds_fold(w->whole, SPAN_LIT("50:50")) || span_holds_fold(w->whole, SPAN_LIT("50/50"));
  if (halves && inside.n > 0) inside = without_halves(r, inside);
  bool said = halves || span_holds_fold(w->whole, SPAN_LIT("equal")), mix = says_mixed(w->whole);
  if (inside.n > 0 && (mix || memchr(inside.p, '/', inside.n) || span_holds_fold(words, SPAN_LIT("vegetables"))) &&
      (equal_parts(r, w, cut_words(r, inside, "equal parts part of each"), of, said) ||
       organs_of_meat(r, w, cut_words(r, inside, "equal parts part of each"), meat, said)))
    return true;
  if (!mix) return false;
  if (of[0] && is_mixed_mince(r, words) &&
      equal_parts(r, w, cut_words(r, words, "equal parts mixed mix each frozen fresh raw"), "", said))
    return true;
  const char *note;
  struct span plain =
      cut_words(r, words, "equal parts mixed mix each frozen fresh cooked raw boiled steamed lamb beef pork of");
  if (!of[0]) plain = cut_words(r, words, "equal parts mixed mix each frozen fresh");
  if (equal_parts(r, w, plain, of, said) || organs_of_meat(r, w, plain, meat, said)) return true;
  /* a mixture that a table has, or none that can be taken apart */
  struct buf whole;
  buf_init(&whole, r->arena, words.n + 32);
  buf_addf(&whole, "100 g %.*s", SPAN_ARG(words));
  if (strict_takes(r, buf_text(&whole), &note, NULL)) return false;
  if (span_holds_fold(words, SPAN_LIT("organ")) || span_holds_fold(words, SPAN_LIT("offal"))) {
    post_leave(r, w->whole, "a mixture whose parts are not named", true);
    post_ask(r, 3, "Which organs of which animal are in the '%.*s', and how much of each?",
             SPAN_ARG(post_quote(r, w->whole)));
    return true;
  }
  return false;
}
