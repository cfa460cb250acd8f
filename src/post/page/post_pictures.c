/* Pictures of foods and animals. A picture is a word where no word beside it says what it is ("(an egg) x2"), ends one food
 * where words stand on both sides ("500 g beef mince (meat) beef liver 30 g"), and is dropped as a decoration elsewhere. No
 * look around is longer than LOOK bytes. */
#include "base/utf8.h"
#include "post/page/post_page.h"

enum { LOOK_AROUND = 90 };

/* What stands on one side of a picture, up to a mark or another picture. */
struct beside {
  bool words, digit;
  char nearest; /* the last byte before it that is no blank; '\n' none */
};

static bool ends_look(char c) { return memchr(",;\n\r\t|!?", c, 8) != NULL || (c & 0xF8) == 0xF0; }
static bool is_food_word(struct span word) {
  char small[24];
  if (word.n < 3) return false;
  if (word.n > sizeof small) return true;
  for (size_t i = 0; i < word.n; i++) small[i] = (char)(word.p[i] | 0x20);
  struct span w = {small, word.n};
  return !means_as(w, CLASS_UNIT) && !is_a(w, CLASS_MEAL) && !is_a(w, CLASS_CHATTER) && !is_a(w, CLASS_CANNOT_MEASURE);
}

static struct beside look_beside(struct span side) {
  struct beside b = {.nearest = '\n'};
  size_t letters = 0;
  for (size_t i = 0; i <= side.n; i++) {
    char c = i < side.n ? side.p[i] : '\n';
    if (post_is_letter(c)) {
      letters++;
      continue;
    }
    b.words = b.words || (letters > 0 && is_food_word(span_cut(side, i - letters, i)));
    letters = 0;
    b.digit = b.digit || (c >= '0' && c <= '9');
  }
  for (size_t i = side.n; i > 0 && b.nearest == '\n'; i--)
    if (side.p[i - 1] != ' ') b.nearest = side.p[i - 1];
  return b;
}

/* Letters in the line around, units not counted. */
static bool words_in_line(struct span in, size_t at) {
  size_t from = at, letters = 0;
  while (from > 0 && at - from < 4 * LOOK_AROUND && in.p[from - 1] != '\n') from--;
  for (size_t i = from; i < in.n && i - from < 8 * LOOK_AROUND && in.p[i] != '\n'; i++) {
    letters = post_is_letter(in.p[i]) ? letters + 1 : 0;
    if (letters > 2) return true;
  }
  return false;
}

/* "x2" */
static bool counts_behind(struct span next) {
  size_t i = 0;
  if (next.n > 2 && memcmp(next.p, "\xEF\xB8\x8F", 3) == 0) i = 3; /* how the picture is drawn */
  while (i < next.n && next.p[i] == ' ') i++;
  if (i < next.n && (next.p[i] | 0x20) == 'x')
    i++;
  else if (i + 1 < next.n && memcmp(next.p + i, "\xC3\x97", 2) == 0)
    i += 2;
  else
    return false;
  while (i < next.n && next.p[i] == ' ') i++;
  return i < next.n && next.p[i] >= '0' && next.p[i] <= '9';
}

static bool is_animal_picture(const char *word) { return word_in(span_of(word), "dog cat weighs"); }

bool post_take_picture(struct span in, size_t at, size_t n, struct buf *out) {
  const char *word = means_as(span_cut(in, at, at + n), CLASS_PICTURE);
  if (!word) return false;
  if (!words_in_line(in, at)) {
    buf_addf(out, " %s ", word);
    return true;
  }
  if (is_animal_picture(word)) return false;
  size_t from = at, to = at + n;
  while (from > 0 && at - from < LOOK_AROUND && !ends_look(in.p[from - 1])) from--;
  while (to < in.n && to - at < LOOK_AROUND && !ends_look(in.p[to])) to++;
  struct span next = span_cut(in, at + n, to);
  struct beside before = look_beside(span_cut(in, from, at)), behind = look_beside(next);
  bool amount_before = before.digit && !before.words;
  if (counts_behind(next)) /* "beef mince (egg) x2" */
    buf_addf(out, "%s%s ", before.words ? ", " : " ", word);
  else if (!before.words && !behind.words && (before.digit || behind.digit)) /* "200 g (meat)" */
    buf_addf(out, " %s ", word);
  else if (before.words && !behind.words && before.digit &&
           (behind.digit || (before.nearest >= '0' && before.nearest <= '9')))
    buf_addf(out, "%s%s ", behind.digit ? ", " : " ", word); /* "beef 200 g (carrot) 50 g", "beef and 2 (egg)" */
  else if (before.words && behind.words && (before.digit || behind.digit))
    buf_adds(out, ", ");
  else if (amount_before || before.words || behind.words)
    buf_addc(out, ' ');
  else
    return false;
  return true;
}

/* A food of which a picture is all that the post has: told, as it may be fed. */
void post_tell_pictures(struct post_reader *r, struct span text, struct span cleaned) {
  enum { MOST = 12, STEM = 4 };
  const char *told[MOST];
  size_t count = 0;
  r->line = 1;
  for (size_t i = 0; i < text.n && count < MOST;) {
    uint32_t p = 0;
    size_t n = (text.p[i] & 0xF0) == 0xF0 ? utf8_read(span_cut(text, i, text.n), &p) : 0;
    if (text.p[i] == '\n') r->line++;
    const char *word = n > 0 ? means_as(span_cut(text, i, i + n), CLASS_PICTURE) : NULL;
    bool again = !word || is_animal_picture(word) || word_in(span_of(word), "meat fish tin"); /* of any of them */
    for (size_t k = 0; k < count; k++) again = again || told[k] == word;
    if (!again) {
      told[count++] = word;
      struct buf b;
      buf_init(&b, r->arena, 60);
      buf_addf(&b, "%.*s (%s)", SPAN_ARG(span_cut(text, i, i + n)), word);
      struct span stem = span_cut(span_of(word), 0, strlen(word) < STEM ? strlen(word) : STEM);
      if (!span_holds_fold(cleaned, stem)) post_note(r, buf_span(&b), "a picture, and no word of it");
    }
    i += n > 0 ? n : 1;
  }
  r->line = 0;
}
