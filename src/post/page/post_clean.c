/* Takes off what mail, web pages, phones and tables put around a line. The number of lines stays. */
#include "base/utf8.h"
#include "post/page/post_page.h"

/* PIECE_MOST: bytes of a piece of a line; four times the longest line of the posts in tests/post, so that only what nobody
 * wrote is cut. */
enum { PIECE_MARK = 0x1F, PIECE_MOST = 2500 };

struct cleaner {
  bool others; /* quoted lines are of others */
  struct span in;
  size_t at;
  struct buf out;
  size_t line_from; /* in 'out' */
};

static bool ends_line(struct span tag) {
  static const char *const NAMES[] = {"br", "p", "li", "div", "tr", "ul", "ol", "h1", "h2", "h3", "table"};
  struct span name = tag.n > 0 && tag.p[0] == '/' ? span_cut(tag, 1, tag.n) : tag;
  for (size_t i = 0; i < COUNT_OF(NAMES); i++) {
    size_t n = strlen(NAMES[i]);
    if (name.n >= n && span_starts_fold(name, NAMES[i]) && (name.n == n || name.p[n] == ' ' || name.p[n] == '/'))
      return true;
  }
  return false;
}

/* What a page keeps for itself: nothing in it was written by the owner. Lines stay. */
static void skip_own(struct cleaner *c, const char *name) {
  size_t n = strlen(name);
  for (; c->at < c->in.n; c->at++) {
    struct span rest = span_cut(c->in, c->at, c->in.n);
    if (rest.p[0] == '\n') buf_addc(&c->out, '\n');
    if (rest.n > n + 2 && rest.p[0] == '<' && rest.p[1] == '/' && span_starts_fold(span_cut(rest, 2, rest.n), name)) return;
  }
}

/* "<br>", "</li>", "<a href=...>": a letter or a slash right after the mark, an end on the same line. */
static bool take_tag(struct cleaner *c) {
  struct span rest = span_cut(c->in, c->at, c->in.n);
  if (rest.n < 3 || rest.p[0] != '<') return false;
  char first = rest.p[1] == '/' ? rest.p[2] : rest.p[1];
  if (!((first | 0x20) >= 'a' && (first | 0x20) <= 'z')) return false;
  size_t end = 1;
  while (end < rest.n && end < 400 && rest.p[end] != '>' && rest.p[end] != '\n') end++;
  if (end >= rest.n || rest.p[end] != '>') return false;
  struct span tag = span_cut(rest, 1, end);
  bool cell = span_starts_fold(tag, "td") || span_starts_fold(tag, "th");
  buf_addc(&c->out, ends_line(tag) ? PIECE_MARK : cell ? '\t' : ' ');
  c->at += end + 1;
  if (span_starts_fold(tag, "script")) skip_own(c, "script");
  if (span_starts_fold(tag, "style")) skip_own(c, "style");
  return true;
}

static bool take_entity(struct cleaner *c) {
  static const struct {
    const char *name, *is;
  } ENTITIES[] = {{"&amp;", "&"},   {"&nbsp;", " "},     {"&lt;", "<"},       {"&gt;", ">"},
                  {"&quot;", "\""}, {"&#39;", "'"},      {"&ndash;", "-"},    {"&mdash;", "-"},
                  {"&deg;", " "},   {"&frac12;", "1/2"}, {"&frac14;", "1/4"}, {"&frac34;", "3/4"}};
  struct span rest = span_cut(c->in, c->at, c->in.n);
  for (size_t i = 0; i < COUNT_OF(ENTITIES); i++)
    if (span_starts_fold(rest, ENTITIES[i].name)) {
      buf_adds(&c->out, ENTITIES[i].is);
      c->at += strlen(ENTITIES[i].name);
      return true;
    }
  return false;
}

/* Pictures, arrows, boxes and marks of all kinds; fractions and letters stay. */
static bool is_picture(uint32_t p) {
  if (p >= 0x2150 && p <= 0x215E) return false;
  if (p == 0x2212 || p == 0x2044 || p == 0x2215) return false;
  return (p >= 0x2190 && p <= 0x2BFF) || (p >= 0xFE00 && p <= 0xFE0F) || p == 0x20E3 || p >= 0x1F000 || p == 0xAE ||
         p == 0xA9;
}
static bool means_no(uint32_t p) { return p == 0x274C || p == 0x1F6AB || p == 0x2716 || p == 0x1F645; }

/* "0,5 kg" is half a kilogram, "1,200 g" twelve hundred grams. */
static bool take_comma(struct cleaner *c) {
  struct span in = c->in;
  size_t i = c->at, digits = 0;
  if (in.p[i] != ',' || i == 0 || in.p[i - 1] < '0' || in.p[i - 1] > '9') return false;
  while (i + 1 + digits < in.n && in.p[i + 1 + digits] >= '0' && in.p[i + 1 + digits] <= '9') digits++;
  if (digits == 0) return false;
  bool whole_before = true; /* the number before holds no point */
  for (size_t k = i; k > 0 && ((in.p[k - 1] >= '0' && in.p[k - 1] <= '9') || in.p[k - 1] == '.' || in.p[k - 1] == ','); k--)
    whole_before = whole_before && in.p[k - 1] != '.';
  bool zero = in.p[i - 1] == '0' && (i < 2 || in.p[i - 2] < '0' || in.p[i - 2] > '9');
  if (digits == 3 && whole_before && !zero)
    c->at++; /* thousands */
  else if (digits <= 2 || zero) {
    buf_addc(&c->out, '.');
    c->at++;
  } else {
    return false;
  }
  return true;
}

/* "250g-300g": the hyphen of a range, not of a word. */
static bool between_amounts(struct span text, size_t at) {
  size_t k = at;
  if (at + 1 >= text.n || text.p[at + 1] < '0' || text.p[at + 1] > '9') return false;
  while (k > 0 && at - k < 4 && (text.p[k - 1] | 0x20) >= 'a' && (text.p[k - 1] | 0x20) <= 'z') k--;
  return k < at && k > 0 && text.p[k - 1] >= '0' && text.p[k - 1] <= '9';
}

static void take_point(struct cleaner *c) {
  uint32_t p = 0;
  struct span rest = span_cut(c->in, c->at, c->in.n);
  size_t n = utf8_read(rest, &p);
  if (n == 0) { /* no text at all: a blank */
    buf_addc(&c->out, ' ');
    c->at++;
    return;
  }
  c->at += n;
  if (p >= 0x80 && post_take_picture(c->in, c->at - n, n, &c->out)) return;
  if (means_no(p))
    buf_adds(&c->out, " no ");
  else if (is_picture(p) || (p < 0x20 && p != '\t' && p != '\n') || (p >= 0x7F && p < 0xA0))
    buf_addc(&c->out, p == 0x2192 || p == 0x21D2 ? ':' : ' ');
  else
    buf_add(&c->out, span_cut(rest, 0, n));
}

/* "> > " at the start of a quoted line. */
static void take_quotes(struct cleaner *c) {
  size_t at = c->at;
  while (at < c->in.n && (c->in.p[at] == '>' || c->in.p[at] == ' ' || c->in.p[at] == '|')) at++;
  bool any = false;
  bool quoted = false;
  for (size_t i = c->at; i < at; i++) {
    any = any || c->in.p[i] != ' ';
    quoted = quoted || c->in.p[i] == '>';
  }
  if (any) c->at = at;
  if (quoted && c->others) buf_addc(&c->out, POST_QUOTED);
}

/* "200 g", "3 tbsp" in quoted lines and in the others. */
static void count_amounts(struct span text, size_t *quoted, size_t *own) {
  bool begins = true, quote = false;
  *quoted = *own = 0;
  for (size_t i = 0; i + 2 < text.n; i++) {
    if (begins && text.p[i] != ' ') quote = text.p[i] == '>', begins = false;
    if (text.p[i] == '\n') begins = true;
    bool digit = text.p[i] >= '0' && text.p[i] <= '9';
    if (digit && (post_is_letter(text.p[i + 1]) || (text.p[i + 1] == ' ' && post_is_letter(text.p[i + 2]))))
      *(quote ? quoted : own) += 1;
  }
}

/* What the word from here to 'end' means, where it is a slip; NULL. */
static const char *slip_at(const struct cleaner *c, size_t end) {
  if (end < c->in.n && (post_is_letter(c->in.p[end]) || c->in.p[end] == '\'')) return NULL;
  return means_as(span_cut(c->in, c->at, end), CLASS_SLIP);
}

/* As people write on a phone. */
static bool take_spelling(struct cleaner *c) {
  if (c->at > 0 && (post_is_letter(c->in.p[c->at - 1]) || memchr("-'&", c->in.p[c->at - 1], 3))) return false;
  size_t letters = c->at, end;
  while (letters < c->in.n && post_is_letter(c->in.p[letters])) letters++;
  const char *means = slip_at(c, end = letters);
  if (!means && letters < c->in.n && c->in.p[letters] == '/') { /* "p/w" */
    for (end = letters + 1; end < c->in.n && post_is_letter(c->in.p[end]);) end++;
    means = slip_at(c, end);
  }
  if (!means && letters < c->in.n && c->in.p[letters] == '3') { /* "vitamin D3" says it already */
    size_t n = c->at < 12 ? c->at : 12;
    struct span before = span_cut(c->in, c->at - n, c->at);
    if (span_holds_fold(before, SPAN_LIT("vit")) || span_holds_fold(before, SPAN_LIT("&")) ||
        span_holds_fold(before, SPAN_LIT("k2")))
      return false;
    means = slip_at(c, end = letters + 1);
  }
  if (!means) return false;
  buf_adds(&c->out, means);
  if (end < c->in.n && c->in.p[end] >= '0' && c->in.p[end] <= '9') buf_addc(&c->out, ' '); /* "wk1" */
  c->at = end;
  return true;
}

/* "M/W/F", "Tu/Th/Sa/Su": days of the week, as calendars shorten them. "S" and "T" alone could be two days each: "S" is
 * left, "T" is Tuesday where "Th" or "R" does not stand beside it. */
static bool take_days(struct cleaner *c) {
  enum { MOST = 7 };
  const char *found[MOST];
  size_t n = 0, at = c->at, end = 0;
  if (at > 0 &&
      (post_is_letter(c->in.p[at - 1]) || (c->in.p[at - 1] >= '0' && c->in.p[at - 1] <= '9') || c->in.p[at - 1] == '/'))
    return false;
  while (n < MOST) {
    size_t from = at;
    while (at < c->in.n && post_is_letter(c->in.p[at])) at++;
    if (n == 0 && (at >= c->in.n || c->in.p[at] != '/')) return false;
    const char *day = means_as(span_cut(c->in, from, at), CLASS_SHORT_DAY);
    if (!day) return false;
    found[n++] = day;
    end = at;
    if (at >= c->in.n || c->in.p[at] != '/') break;
    at++;
  }
  if (n < 2 || (end < c->in.n && (c->in.p[end] == '/' || (c->in.p[end] >= '0' && c->in.p[end] <= '9')))) return false;
  for (size_t i = 0; i < n; i++) buf_addf(&c->out, "%s%s", i == 0 ? "" : i + 1 == n ? " and " : ", ", found[i]);
  c->at = end;
  return true;
}

/* "on Tuesdays and again on Fridays": the same as "and". */
static bool take_again(struct cleaner *c) {
  static const char *const AGAIN[] = {" and again on ", " and then again on ", " and also on "};
  for (size_t i = 0; i < COUNT_OF(AGAIN); i++)
    if (span_starts_fold(span_cut(c->in, c->at, c->in.n), AGAIN[i])) {
      buf_adds(&c->out, " and ");
      c->at += strlen(AGAIN[i]);
      return true;
    }
  return false;
}

/* The sentence around 'at'. */
static struct span sentence_of(struct span text, size_t at) {
  size_t from = at, to = at;
  while (from > 0 && !strchr(".!?;\n", text.p[from - 1])) from--;
  while (to < text.n && !strchr(".!?;\n", text.p[to])) to++;
  return span_cut(text, from, to);
}

/* "AM and PM: 100 g ...", "150 g x2 a day": twice a day, in the words that every reader knows. Not where a day's amount is
 * told or shared out. */
static bool take_twice(struct cleaner *c) {
  bool digit = c->at > 0 && c->in.p[c->at - 1] >= '0' && c->in.p[c->at - 1] <= '9';
  struct span rest = span_cut(c->in, c->at, c->in.n);
  bool dose = digit && (span_starts_fold(rest, "iu ") || span_starts_fold(rest, "mg ") || span_starts_fold(rest, "mcg "));
  if (c->at > 0 && (post_is_letter(c->in.p[c->at - 1]) || (digit && !dose))) return false; /* but "400iu cap" */
  const char *means;
  size_t plain = c->at + text_begins(rest, CLASS_SAID_PLAINLY, &means);
  if (plain > c->at && !(plain < c->in.n && post_is_letter(c->in.p[plain]))) {
    if (dose) buf_addc(&c->out, ' ');
    buf_adds(&c->out, means);
    c->at = plain;
    return true;
  }
  size_t end = dose ? c->at : c->at + text_begins(rest, CLASS_TWICE, &means);
  if (end == c->at || (end < c->in.n && post_is_letter(c->in.p[end]))) return false;
  bool counted = (c->in.p[c->at] | 0x20) == 'x'; /* "x2 a day" */
  enum { NEAR = 24 }; /* "the same morning and evening", but not "they get the same: 70 g of chicken, morning and night" */
  size_t near = c->at > NEAR ? c->at - NEAR : 0;
  if (!counted && text_holds(sentence_of(c->in, c->at), CLASS_SHARES_A_DAY)) return false;
  if (!counted && span_holds_fold(span_cut(c->in, near, c->at), SPAN_LIT("same"))) return false;
  buf_adds(&c->out, means);
  c->at = end;
  return true;
}

/* "daily: 250 g venison; weekly: 80 g mackerel", "Mon: 300 g beef, Tue: 300 g chicken": a label begins a sentence of its
 * own. */
static bool take_label(struct cleaner *c) {
  size_t at = c->at + 1, word = c->at;
  while (word > 0 && post_is_letter(c->in.p[word - 1])) word--;
  const char *means;
  if (word < c->at && text_begins(span_cut(c->in, word, c->at), CLASS_DAY_LABEL, &means) == c->at - word)
    return false; /* "Mon, Wed, Fri: ..." */
  while (at < c->in.n && c->in.p[at] == ' ') at++;
  size_t end = at + text_begins(span_cut(c->in, at, c->in.n), CLASS_DAY_LABEL, &means);
  if (end == at || end >= c->in.n) return false;
  struct span rest = span_cut(c->in, end, c->in.n);
  bool dash = c->in.p[c->at] == ';' && (span_starts_fold(rest, " - ") || span_starts_fold(rest, " \xE2\x80\x93 "));
  if (rest.p[0] != ':' && !dash) return false;
  buf_addc(&c->out, PIECE_MARK);
  c->at = at;
  return true;
}

/* Where a piece that is too long is cut: behind the last sentence in it, else at its last blank, else where it is too long.
 * Returns the byte that becomes a mark; never one within a character. */
static size_t cut_of(const char *p, size_t from, size_t to) {
  size_t blank = 0;
  for (size_t i = to; i > from + PIECE_MOST / 2; i--) {
    if (p[i] != ' ') continue;
    if (p[i - 1] == '.' || p[i - 1] == '!' || p[i - 1] == '?') return i;
    if (blank == 0) blank = i;
  }
  if (blank > 0) return blank;
  while ((p[to] & 0xC0) == 0x80) to--;
  return to;
}

/* Readers of one piece take time by the square of its words, and a strict line has a most. */
static void cut_pieces(char *p, size_t n) {
  size_t from = 0;
  for (size_t i = 0; i < n; i++) {
    if (p[i] == '\n' || p[i] == PIECE_MARK) from = i + 1;
    if (i < from + PIECE_MOST) continue;
    size_t at = cut_of(p, from, i);
    p[at] = PIECE_MARK;
    from = at + 1;
    for (size_t k = from; k < n && (p[k] & 0xC0) == 0x80; k++) p[k] = ' '; /* the rest of that character */
  }
}

static size_t past_word(struct span in, size_t at, struct span *word) {
  while (at < in.n && in.p[at] == ' ') at++;
  size_t from = at;
  while (at < in.n && at - from < 20 && post_is_letter(in.p[at])) at++;
  *word = span_cut(in, from, at);
  return at;
}

/* "200 g peas, boil it all up and it does him 4 days": what is done with all of it is a sentence of its own. */
static bool take_cooking(struct cleaner *c) {
  struct span word;
  size_t at = past_word(c->in, c->at + 1, &word), verb = c->at + 1;
  if (span_is_fold(word, "then") || span_is_fold(word, "and") || span_is_fold(word, "i") || span_is_fold(word, "we"))
    verb = at, at = past_word(c->in, at, &word);
  if (!is_a(word, CLASS_COOKS_ALL)) return false;
  past_word(c->in, at, &word);
  if (!(span_is_fold(word, "it") || span_is_fold(word, "them") || span_is_fold(word, "everything") ||
        span_is_fold(word, "all")))
    return false;
  buf_addc(&c->out, PIECE_MARK);
  c->at = verb;
  return true;
}

struct span post_clean(struct span text, struct arena *arena) {
  struct cleaner c = {.in = text};
  size_t quoted, own;
  count_amounts(text, &quoted, &own);
  c.others = own >= 2 && own >= quoted; /* what is quoted was written by others */
  buf_init(&c.out, arena, 8 * text.n + 16);
  for (bool begins = true; c.at < text.n;) {
    if (begins) take_quotes(&c);
    begins = false;
    if (c.at >= text.n) break;
    char now = text.p[c.at];
    if (now == '\r') {
      if (c.at + 1 >= text.n || text.p[c.at + 1] != '\n') buf_addc(&c.out, PIECE_MARK); /* ends of old machines */
      c.at++;
    } else if (now == '<' && take_tag(&c)) {
      continue;
    } else if (now == '&' && take_entity(&c)) {
      continue;
    } else if ((now == ',' || now == ';') && take_label(&c)) {
      continue;
    } else if (now == ',' && (take_comma(&c) || take_cooking(&c))) {
      continue;
    } else if ((now == ' ' && take_again(&c)) ||
               (post_is_letter(now) && (take_twice(&c) || take_days(&c) || take_spelling(&c))) ||
               ((now == '(' || (now >= '2' && now <= '6')) && take_twice(&c))) { /* "(5 out of 7)" */
      continue;
    } else if (now == '-' && between_amounts(text, c.at)) {
      buf_adds(&c.out, " - ");
      c.at++;
    } else if (now == '-' && c.at + 1 < text.n && text.p[c.at + 1] == '>') {
      buf_addc(&c.out, ':');
      c.at += 2;
    } else {
      begins = now == '\n';
      take_point(&c);
    }
  }
  struct span cleaned = buf_span(&c.out);
  cut_pieces(c.out.p, cleaned.n);
  return cleaned;
}
