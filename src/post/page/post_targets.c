/* What a bowl is meant to hold, above what it holds: "80% muscle meat, 10% bone, 10% organs" over lines that have grams of
 * their own; "Muscle 640g:" over the meats that come to it; "(46% bone)" behind the wings whose bone it tells. None of them
 * is a food beside the others. Over the whole text; as many lines as it has. */
#include "base/num.h"
#include "post/page/post_page.h"

static const char TARGET[] = "what the whole is meant to hold; the lines have their own amounts";

static bool ends_at(const struct tokens *t, size_t at) {
  return at >= t->count || is_mark(t, at, ':') || is_mark(t, at, '=') || is_mark(t, at, '-');
}

/* A part of such a bowl at 'at': "muscle meat", "other secreting organs"; how many tokens, 0. */
static size_t part_at(const struct tokens *t, size_t at) { return phrase_of(t, at, CLASS_PART_OF_PREY); }

/* "640 g", "(80%)", "80% (640 g)": how many tokens, with the grams; 0. */
static size_t amounts_at(const struct tokens *t, size_t at, double *grams) {
  size_t i = at;
  for (;;) {
    bool bracket = is_mark(t, i, '(');
    size_t from = i + (bracket || is_mark(t, i, '=') || is_mark(t, i, '-') ? 1 : 0);
    struct post_amount a = post_amount_at(t, from);
    bool told = a.tokens > 0 && a.low == a.high && (a.is_percent || a.is_mass);
    if (!told || (bracket && !is_mark(t, from + a.tokens, ')'))) return i - at;
    if (a.is_mass) *grams = post_in_grams(&a);
    i = from + a.tokens + (bracket ? 1 : 0);
  }
}

/* A line that begins with such a part and its amount. */
struct target {
  size_t part, part_tokens, behind; /* where the part stands, and what follows part and amount */
  double grams;                     /* 0: only a share was told */
};

static bool target_of(const struct tokens *t, struct target *out) {
  size_t at = is_mark(t, 0, '-') || is_mark(t, 0, '*') ? 1 : 0;
  *out = (struct target){0};
  size_t used = amounts_at(t, at, &out->grams);
  out->part = at + used;
  out->part_tokens = part_at(t, out->part);
  if (out->part_tokens == 0) return false;
  out->behind = out->part + out->part_tokens;
  size_t more = amounts_at(t, out->behind, &out->grams);
  out->behind += more;
  return used + more > 0 && ends_at(t, out->behind);
}

/* What stands under a target: its masses, how many, and does it name the part itself? */
struct under {
  double grams;
  size_t count;
  bool named, bony;
};

static void add_line(const struct tokens *t, size_t from, struct span part, struct span line, struct under *u) {
  for (size_t i = from; i < t->count; i++) {
    u->named = u->named || (is_word(t, i) && span_eq_fold(t->item[i].word, part));
    if (i > from && is_mark(t, i, '(') && post_amount_at(t, i + 1).is_percent) continue;
    struct post_amount a = post_amount_at(t, i);
    if (a.is_mass) u->grams += post_in_grams(&a), u->count++;
    if (a.tokens > 1) i += a.tokens - 1;
  }
  if (from < t->count)
    u->bony = u->bony || post_is_bony_piece(trim_blanks(span_cut(line, (size_t)(t->item[from].at.p - line.p), line.n)));
}

static struct under under_of(struct post_reader *r, const struct tokens *t, const struct target *g, struct span line,
                             struct lines rest) {
  struct under u = {0};
  struct target next;
  struct span part = t->item[g->part + g->part_tokens - 1].word, below;
  if (g->behind + 1 < t->count) {
    add_line(t, g->behind + 1, part, line, &u);
    return u;
  }
  while (lines_next(&rest, &below)) {
    struct tokens own = tokens_of(below, r->arena);
    if (own.count == 0 && u.count == 0) continue;
    if (own.count == 0 || target_of(&own, &next) || (part_at(&own, 0) > 0 && ends_at(&own, part_at(&own, 0)))) break;
    size_t before = u.count;
    add_line(&own, 0, part, below, &u);
    if (u.count == before) break;
  }
  return u;
}

/* Does what stands under it make it a heading? A share has nothing else to be of; a weight is the sum of what follows, or
 * the bone within the pieces behind it. */
static bool is_heading(const struct tokens *t, const struct target *g, const struct under *u, bool weighed) {
  static const double NEAR = 0.06; /* as people round */
  bool behind = g->behind + 1 < t->count;
  if (u->count == 0) return false;
  if (says(t, g->part + g->part_tokens - 1, "liver") && !u->named) return false; /* "Liver 40 g: beef 20 g" is no beef */
  if (!(g->grams > 0)) return weighed; /* "10% liver" in a list of shares, and 100 g of carrots after it */
  if (fabs(u->grams - g->grams) <= NEAR * g->grams) return u->count > 1 || behind || u->named;
  return behind && u->bony && u->count == 1 && u->grams > g->grams && says(t, g->part, "bone bones");
}

/* "80% muscle meat, 10% bone, 5% liver, 5% other secreting organ", from 'at': behind it, where it is a whole; 0. */
static size_t whole_at(const struct tokens *t, size_t at) {
  static const double LEAST = 95, MOST = 105;
  double sum = 0;
  size_t i = at, parts = 0;
  for (;;) {
    struct post_amount a = post_amount_at(t, i);
    size_t used = a.is_percent ? part_at(t, i + a.tokens) : 0;
    if (used == 0) return 0;
    sum += a.low;
    parts++;
    i += a.tokens + used;
    size_t joined = i;
    while (is_mark(t, joined, ',') || is_mark(t, joined, '/') || is_mark(t, joined, '+') || is_mark(t, joined, '&') ||
           says(t, joined, "and"))
      joined++;
    if (joined == i || !post_amount_at(t, joined).is_percent) break;
    i = joined;
  }
  bool end = i >= t->count || is_mark(t, i, '.') || is_mark(t, i, ';') || is_mark(t, i, ':');
  return parts > 1 && sum >= LEAST && sum <= MOST && end ? i : 0;
}

/* How many meats and organs of an animal have grams of their own. */
static size_t meats_weighed(struct post_reader *r, struct span text) {
  enum { FAR = 3 };
  size_t count = 0;
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = tokens_of(line, r->arena);
    for (size_t i = 0; i < t.count; i++) {
      struct post_amount a = post_amount_at(&t, i);
      if (!a.is_mass) continue;
      bool meat = false;
      for (size_t k = i > FAR ? i - FAR : 0; k < i + a.tokens + FAR && k < t.count; k++)
        meat = meat || (is_word(&t, k) && token_is_a(&t.item[k], CLASS_ANIMAL_OF_FLESH));
      count += meat;
      i += a.tokens - 1;
    }
  }
  return count;
}

/* "chicken wings 175 g (about 46% bone)": the bracket tells of the piece before it; its end, 0. */
static size_t bone_of_piece(const struct tokens *t, size_t at) {
  size_t i = at + 1, from = at;
  if (at == 0 || !is_mark(t, at, '(')) return 0;
  while (says(t, i, "about around approx approximately roughly ca") || is_mark(t, i, '~')) i++;
  if (!is_number(t, i) || !is_mark(t, i + 1, '%') || !says(t, i + 2, "bone bones")) return 0;
  i += 3;
  while (says(t, i, "content in it them")) i++;
  if (!is_mark(t, i, ')')) return 0;
  while (from > 0 && t->item[from - 1].kind != TOKEN_MARK) from--;
  const char *p = t->item[from].at.p;
  struct span last = t->item[at - 1].at;
  return post_is_bony_piece((struct span){p, (size_t)(last.p + last.n - p)}) ? i + 1 : 0;
}

static void cut_tokens(const struct tokens *t, size_t from, size_t to, struct buf *b, const char **done) {
  buf_add(b, (struct span){*done, (size_t)(t->item[from].at.p - *done)});
  *done = t->item[to - 1].at.p + t->item[to - 1].at.n;
}

/* The name under which such a heading is known to all that read lines. */
static struct span heading_of(const struct tokens *t, const struct target *g) {
  size_t last = g->part + g->part_tokens - 1;
  if (says(t, last, "meat meats muscle")) return SPAN_LIT("Muscle");
  if (says(t, last, "organ organs offal")) return SPAN_LIT("Organ");
  return tokens_span(t, g->part, g->part_tokens);
}

static void write_line(struct post_reader *r, struct span line, struct lines rest, bool weighed, struct buf *b) {
  struct tokens t = tokens_of(line, r->arena);
  const char *done = line.p, *end = line.p + line.n;
  struct target g;
  size_t from = 0;
  if (target_of(&t, &g)) {
    struct under u = under_of(r, &t, &g, line, rest);
    if (is_heading(&t, &g, &u, weighed)) {
      cut_tokens(&t, 0, g.part > 0 ? g.part : 1, b, &done);
      if (g.part == 0) done = line.p;
      buf_addf(b, "%.*s:", SPAN_ARG(heading_of(&t, &g)));
      from = g.behind < t.count ? g.behind + 1 : t.count;
      done = t.item[from - 1].at.p + t.item[from - 1].at.n;
    }
  }
  for (size_t i = from; i < t.count; i++) {
    size_t behind = bone_of_piece(&t, i);
    bool begins = i == 0 || is_mark(&t, i - 1, '.') || is_mark(&t, i - 1, ':');
    if (behind == 0 && weighed && begins && (behind = whole_at(&t, i)) > 0)
      post_note(r, tokens_span(&t, i, behind - i), TARGET);
    if (behind == 0) continue;
    cut_tokens(&t, i, behind, b, &done);
    i = behind - 1;
  }
  buf_add(b, (struct span){done, (size_t)(end - done)});
}

struct span post_without_targets(struct post_reader *r, struct span text, struct arena *arena) {
  enum { ENOUGH = 3 };
  struct span line;
  struct buf b;
  bool weighed = meats_weighed(r, text) >= ENOUGH;
  buf_init(&b, arena, text.n + 64);
  r->line = 0;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    r->line++;
    write_line(r, line, lines, weighed, &b);
    buf_addc(&b, '\n');
  }
  r->line = 0;
  return buf_span(&b);
}
