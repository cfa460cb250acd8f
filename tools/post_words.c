/* post-words-build CLASSES.tsv WORDS.tsv OUT_DIR: the words and phrases that the reader of posts knows, as two headers:
 * post_classes.h (enum post_class) and post_words_table.h (the words with what each is, for post_words.c alone).
 *
 * A row that cannot be right ends the build with its file and line; so does a class without a row, and a phrase that stands
 * twice in a class. Layout of the table: src/post/hear/post_words.h. */
#include <stdio.h>
#include <stdlib.h>

#include "base/num.h"
#include "library/writer.h"

enum {
  CLASSES_A_PAGE = 255, /* in a byte: 255 itself turns the page */
  CLASSES_MOST = 2 * CLASSES_A_PAGE,
  WORDS_MOST = 8000,
  ENTRIES_MOST = 20000,
  LONGEST_WORD = 31,
  TEXT_MOST = 60,
  WORDS_A_BLOCK = 8,
  MEANINGS_MOST = 1024
};

enum means { MEANS_NOTHING, MEANS_TEXT, MEANS_NUMBER, MEANS_PART, MEANS_AMOUNT, MEANS_COUNT };
static const char *const MEANS[MEANS_COUNT] = {"no", "text", "number", "part", "amount"};
enum form { FORM_WORDS, FORM_TEXT, FORM_COUNT };
static const char *const FORM[FORM_COUNT] = {"words", "text"};

struct class {
  struct span name;
  int form, means;
  size_t rows;
};
/* One phrase of one class. */
struct entry {
  size_t class, tokens;
  struct span first, rest, all, means;
  int line;
};

static struct {
  struct arena arena;
  struct class class[CLASSES_MOST];
  size_t classes;
  struct entry *entry;
  size_t entries;
  struct span *word; /* each once, by letters */
  size_t words;
} all;

static void out_of_memory(void) { build_fail("out of memory"); }

static void read_classes(const char *path) {
  static const char *const COLUMNS[] = {"class", "form", "means", "what", NULL};
  struct tsv t;
  tsv_read(&t, path, COLUMNS, &all.arena);
  if (t.rows > CLASSES_MOST) tsv_fail(&t, CLASSES_MOST, "more than %d classes", CLASSES_MOST);
  for (size_t r = 0; r < t.rows; r++) {
    struct class *c = &all.class[all.classes++];
    *c = (struct class){.name = tsv_cell(&t, r, "class"), .form = tsv_word(&t, r, "form", FORM, FORM_COUNT)};
    c->means = tsv_word(&t, r, "means", MEANS, MEANS_COUNT);
    if (c->name.n == 0 || tsv_cell(&t, r, "what").n == 0)
      tsv_fail(&t, r, "a class needs a name, and words that say what it holds");
    for (size_t i = 0; i < c->name.n; i++)
      if (!((c->name.p[i] >= 'a' && c->name.p[i] <= 'z') || c->name.p[i] == '_'))
        tsv_fail(&t, r, "a class is named by small letters and '_'");
    for (size_t i = 0; i + 1 < all.classes; i++)
      if (span_eq(all.class[i].name, c->name)) tsv_fail(&t, r, "class '%.*s' stands twice", SPAN_ARG(c->name));
  }
}

static size_t class_of(const struct tsv *t, size_t row) {
  struct span name = tsv_cell(t, row, "class");
  for (size_t i = 0; i < all.classes; i++)
    if (span_eq(all.class[i].name, name)) return i;
  tsv_fail(t, row, "'%.*s' is no class of post_classes.tsv", SPAN_ARG(name));
}

/* Words as they are looked up: small letters, single blanks. */
static void check_phrase(const struct tsv *t, size_t row, struct span s) {
  if (s.n == 0) tsv_fail(t, row, "an empty phrase");
  for (size_t i = 0; i < s.n; i++) {
    bool blank = s.p[i] == ' ';
    if (s.p[i] >= 'A' && s.p[i] <= 'Z')
      tsv_fail(t, row, "'%.*s' has capitals: words are looked up in small letters", SPAN_ARG(s));
    if (blank && (i == 0 || i + 1 == s.n || s.p[i + 1] == ' ')) tsv_fail(t, row, "'%.*s' has a blank too many", SPAN_ARG(s));
  }
}

static void add_phrase(const struct tsv *t, size_t row, size_t class, struct span s, struct span means) {
  if (all.class[class].form == FORM_WORDS) check_phrase(t, row, s);
  if (s.n == 0 || s.n > TEXT_MOST) tsv_fail(t, row, "a phrase has 1 to %d bytes", TEXT_MOST);
  for (size_t i = 0; i < all.entries; i++)
    if (all.entry[i].class == class && span_eq(all.entry[i].all, s))
      tsv_fail(t, row, "'%.*s' stands in line %d already", SPAN_ARG(s), all.entry[i].line);
  if (all.entries == ENTRIES_MOST) tsv_fail(t, row, "more than %d phrases", ENTRIES_MOST);
  const char *blank = memchr(s.p, ' ', s.n);
  size_t first = blank ? (size_t)(blank - s.p) : s.n, tokens = 1;
  if (first > LONGEST_WORD) tsv_fail(t, row, "a word of more than %d letters", LONGEST_WORD);
  for (size_t i = 0; i < s.n; i++) tokens += s.p[i] == ' ';
  all.entry[all.entries++] = (struct entry){.class = class,
                                            .tokens = tokens,
                                            .all = s,
                                            .first = span_cut(s, 0, first),
                                            .rest = span_cut(s, blank ? first + 1 : first, s.n),
                                            .means = means,
                                            .line = t->line[row]};
  all.class[class].rows++;
}

static bool is_number(struct span s) {
  double x;
  return num_parse(s, &x) && x > 0;
}

static void check_means(const struct tsv *t, size_t row, int kind, struct span s) {
  enum { UNIT_MOST = 15 }; /* the room of struct post_amount */
  const char *blank = s.n > 0 ? memchr(s.p, ' ', s.n) : NULL, *bar = s.n > 0 ? memchr(s.p, '/', s.n) : NULL;
  size_t unit = blank ? (size_t)(blank - s.p) : s.n, over = bar ? (size_t)(bar - s.p) : 0;
  if (kind == MEANS_NOTHING && s.n > 0) tsv_fail(t, row, "a meaning, which this class does not have");
  if (kind == MEANS_NUMBER && !is_number(s)) tsv_fail(t, row, "'%.*s' is no number", SPAN_ARG(s));
  if (kind == MEANS_PART && !(bar && is_number(span_cut(s, 0, over)) && is_number(span_cut(s, over + 1, s.n))))
    tsv_fail(t, row, "'%.*s' is no part such as 2/3", SPAN_ARG(s));
  if (kind == MEANS_AMOUNT && (unit == 0 || unit > UNIT_MOST || (blank && !is_number(span_cut(s, unit + 1, s.n)))))
    tsv_fail(t, row, "'%.*s' is no unit with how many of it", SPAN_ARG(s));
}

static void read_words(const char *path) {
  static const char *const COLUMNS[] = {"class", "phrases", "means", "note", NULL};
  struct tsv t;
  tsv_read(&t, path, COLUMNS, &all.arena);
  for (size_t r = 0; r < t.rows; r++) {
    size_t class = class_of(&t, r);
    struct span rest = tsv_cell(&t, r, "phrases"), means = tsv_cell(&t, r, "means");
    check_means(&t, r, all.class[class].means, means);
    if (rest.n == 0) tsv_fail(&t, r, "no phrase");
    for (bool more = true; more;) {
      const char *bar = rest.n > 0 ? memchr(rest.p, '|', rest.n) : NULL;
      size_t n = bar ? (size_t)(bar - rest.p) : rest.n;
      add_phrase(&t, r, class, span_cut(rest, 0, n), means);
      more = bar != NULL;
      rest = span_cut(rest, bar ? n + 1 : n, rest.n);
    }
  }
  for (size_t i = 0; i < all.classes; i++)
    if (all.class[i].rows == 0) build_fail("%s: no row of class '%.*s'", path, SPAN_ARG(all.class[i].name));
}

/* ---- order ---- */

static char small(char c) { return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c; }

static int by_letters(const void *a, const void *b) {
  const struct span *x = a, *y = b;
  int order = memcmp(x->p, y->p, x->n < y->n ? x->n : y->n);
  return order != 0 ? order : x->n < y->n ? -1 : x->n > y->n;
}

static void gather_words(void) {
  all.word = ARENA_NEW(&all.arena, struct span, all.entries + 1);
  for (size_t i = 0; i < all.entries; i++)
    if (all.class[all.entry[i].class].form == FORM_WORDS) all.word[all.words++] = all.entry[i].first;
  qsort(all.word, all.words, sizeof *all.word, by_letters);
  size_t kept = 0;
  for (size_t i = 0; i < all.words; i++)
    if (kept == 0 || !span_eq(all.word[kept - 1], all.word[i])) all.word[kept++] = all.word[i];
  all.words = kept;
  if (all.words > WORDS_MOST) build_fail("more than %d words", WORDS_MOST);
}

/* By class, the longer phrase before the shorter; else as they stand in the table. */
static int by_class(const void *a, const void *b) {
  const struct entry *const *x = a, *const *y = b;
  if ((*x)->class != (*y)->class) return (*x)->class < (*y)->class ? -1 : 1;
  if ((*x)->tokens != (*y)->tokens) return (*x)->tokens > (*y)->tokens ? -1 : 1;
  return *x < *y ? -1 : *x > *y;
}

/* ---- what is written ---- */

/* Texts, each once, each with a zero behind it; the place of one. */
struct texts {
  struct buf b;
};

static size_t text_at(struct texts *texts, struct span s) {
  for (size_t i = 0; i + s.n < texts->b.n; i++)
    if (memcmp(texts->b.p + i, s.p, s.n) == 0 && texts->b.p[i + s.n] == '\0') return i;
  size_t at = texts->b.n;
  buf_add(&texts->b, s);
  buf_addc(&texts->b, '\0');
  if (texts->b.n > UINT16_MAX) build_fail("more text than 16 bits count");
  return at;
}

static void write_text(FILE *f, struct span s) {
  bool hex = false;
  for (size_t i = 0; i < s.n; i++) {
    unsigned char c = (unsigned char)s.p[i];
    if (i % 100 == 0) fprintf(f, "%s\n    \"", i > 0 ? "\"" : "");
    bool digit = (c >= '0' && c <= '9') || ((c | 0x20) >= 'a' && (c | 0x20) <= 'f');
    if (hex && digit && i % 100 != 0) fprintf(f, "\"\"");
    hex = c >= 0x7F;
    if (c == '\0')
      fprintf(f, "\\0%s", i + 1 < s.n && s.p[i + 1] >= '0' && s.p[i + 1] <= '9' ? "\" \"" : "");
    else if (c == '"' || c == '\\')
      fprintf(f, "\\%c", c);
    else if (hex)
      fprintf(f, "\\x%02X", c);
    else
      fputc(c, f);
  }
  fprintf(f, "\";\n");
}

static void write_name(FILE *f, struct span name) {
  fprintf(f, "CLASS_");
  for (size_t i = 0; i < name.n; i++) fputc(name.p[i] == '_' ? '_' : name.p[i] - 'a' + 'A', f);
}

static FILE *open_out(const char *dir, const char *name) {
  FILE *f = fopen(path_join(&all.arena, dir, name), "w");
  if (!f) build_fail("%s/%s cannot be written", dir, name);
  return f;
}

static void close_out(FILE *f, const char *dir) {
  if (ferror(f) || fclose(f) != 0) build_fail("%s: a header could not be written", dir);
}

static void write_classes(const char *dir) {
  FILE *f = open_out(dir, "post_classes.h");
  fprintf(f, "/* Written by post-words-build from data/post_classes.tsv. */\nenum post_class {\n");
  for (size_t i = 0; i < all.classes; i++) {
    fprintf(f, "  ");
    write_name(f, all.class[i].name);
    fprintf(f, ",\n");
  }
  fprintf(f, "  CLASS_COUNT\n};\n");
  close_out(f, dir);
}

static void write_numbers(FILE *f, const char *type, const char *name, const size_t *number, size_t count) {
  fprintf(f, "static const %s %s[] = {", type, name);
  for (size_t i = 0; i < count; i++) fprintf(f, "%s%zu,", i % 20 == 0 ? "\n    " : "", number[i]);
  fprintf(f, "};\n");
}

static size_t shared_letters(struct span a, struct span b) {
  size_t n = 0;
  while (n < a.n && n < b.n && a.p[n] == b.p[n]) n++;
  return n;
}

/* The phrases of one word that are longer or mean something: into the rows of three tables. */
struct longer {
  size_t count, *class, *rest, *means;
  struct span meaning[MEANINGS_MOST]; /* each once */
  size_t meanings;
};

static size_t meaning_of(struct longer *l, struct span means) {
  for (size_t i = 0; i < l->meanings; i++)
    if (span_eq(l->meaning[i], means)) return i;
  if (l->meanings == MEANINGS_MOST) build_fail("more than %d meanings", MEANINGS_MOST);
  l->meaning[l->meanings] = means;
  return l->meanings++;
}

/* Behind a word: how many bytes tell the classes that it is of by itself, these in their order, a byte of 255 before those
 * of the second page; how many longer phrases, and the first of them in two bytes. */
static size_t write_word(size_t *byte, size_t n, size_t w, struct texts *texts, struct longer *l) {
  struct entry **of = ARENA_NEW(&all.arena, struct entry *, all.entries + 1);
  size_t count = 0, plain = n, first = l->count;
  bool turned = false;
  for (size_t i = 0; i < all.entries; i++)
    if (all.class[all.entry[i].class].form == FORM_WORDS && span_eq(all.entry[i].first, all.word[w]))
      of[count++] = &all.entry[i];
  qsort(of, count, sizeof *of, by_class);
  byte[n++] = 0;
  for (size_t i = 0; i < count; i++) {
    bool alone = of[i]->tokens == 1;
    if (alone && of[i]->class >= CLASSES_A_PAGE && !turned) turned = true, byte[plain]++, byte[n++] = CLASSES_A_PAGE;
    if (alone) byte[plain]++, byte[n++] = of[i]->class % CLASSES_A_PAGE;
    if (alone && !all.class[of[i]->class].means) continue;
    l->class[l->count] = of[i]->class;
    l->rest[l->count] = text_at(texts, of[i]->rest);
    l->means[l->count++] = meaning_of(l, of[i]->means);
  }
  byte[n++] = l->count - first;
  if (l->count - first > UINT8_MAX) build_fail("more than 255 phrases begin with one word");
  if (l->count > first) byte[n++] = first % 256, byte[n++] = first / 256;
  return n;
}

/* In which block the words of each letter begin; behind the last letter, what follows it. */
static void write_letters(FILE *f, size_t blocks) {
  size_t begins['z' - 'a' + 2], w = 0;
  for (size_t letter = 0; letter < COUNT_OF(begins); letter++) {
    while (w < all.words && (unsigned char)all.word[w].p[0] < 'a' + letter) w++;
    begins[letter] = w < all.words ? w / WORDS_A_BLOCK : blocks - 1;
  }
  write_numbers(f, "uint16_t", "letter_block", begins, COUNT_OF(begins));
}

static void write_words(FILE *f, struct texts *texts) {
  enum { BYTES_A_WORD = 2 + LONGEST_WORD + 6 };
  size_t *byte = ARENA_NEW(&all.arena, size_t, all.words * BYTES_A_WORD + all.entries + 1), n = 0;
  size_t *block = ARENA_NEW(&all.arena, size_t, all.words / WORDS_A_BLOCK + 2), blocks = 0;
  struct longer *l = ARENA_NEW(&all.arena, struct longer, 1);
  l->class = ARENA_NEW(&all.arena, size_t, all.entries + 1);
  l->rest = ARENA_NEW(&all.arena, size_t, all.entries + 1);
  l->means = ARENA_NEW(&all.arena, size_t, all.entries + 1);
  for (size_t w = 0; w < all.words; w++) {
    bool begins = w % WORDS_A_BLOCK == 0;
    if (begins) block[blocks++] = n;
    size_t shared = begins ? 0 : shared_letters(all.word[w - 1], all.word[w]);
    byte[n++] = shared;
    byte[n++] = all.word[w].n - shared;
    for (size_t i = shared; i < all.word[w].n; i++) byte[n++] = (unsigned char)all.word[w].p[i];
    n = write_word(byte, n, w, texts, l);
  }
  if (n > UINT16_MAX - 2) build_fail("more words than 16 bits count");
  fprintf(f, "/* The words by their letters: how many letters it shares with the one before, how many more, these; how many "
             "bytes\n"
             " * tell its classes by itself, which (behind 255: of the second page); how many longer phrases or meanings it "
             "has, and where the first stands (two "
             "bytes, none\n"
             " * for none). Each block begins with a whole word. */\n");
  fprintf(f, "enum { BLOCKS = %zu, WORDS_A_BLOCK = %d, WORDS = %zu, LONGEST_WORD = %d, CLASSES_A_PAGE = %d };\n", blocks,
          WORDS_A_BLOCK, all.words, LONGEST_WORD, CLASSES_A_PAGE);
  write_numbers(f, "uint16_t", "block_at", block, blocks);
  write_letters(f, blocks);
  write_numbers(f, "uint8_t", "word_bytes", byte, n);
  fprintf(f, "/* Phrases of more words, and words with a meaning: by class, the longest first. */\n");
  write_numbers(f, "uint16_t", "phrase_class", l->class, l->count);
  write_numbers(f, "uint16_t", "phrase_rest", l->rest, l->count);
  write_numbers(f, "uint16_t", "phrase_means", l->means, l->count);
  size_t *at = ARENA_NEW(&all.arena, size_t, l->meanings + 1);
  for (size_t i = 0; i < l->meanings; i++) at[i] = text_at(texts, l->meaning[i]);
  write_numbers(f, "uint16_t", "meaning_text", at, l->meanings);
}

/* By the first letter, in either case; the longest first; else as they stand in the table. */
static int by_first_letter(const void *a, const void *b) {
  const struct entry *const *x = a, *const *y = b;
  int p = (unsigned char)small((*x)->all.p[0]), q = (unsigned char)small((*y)->all.p[0]);
  if (p != q) return p < q ? -1 : 1;
  if ((*x)->all.n != (*y)->all.n) return (*x)->all.n > (*y)->all.n ? -1 : 1;
  return *x < *y ? -1 : *x > *y;
}

/* Of the classes that are looked for in any text, and not word by word. */
static void write_texts(FILE *f, struct texts *texts) {
  size_t *from = ARENA_NEW(&all.arena, size_t, all.classes + 1), *begins = ARENA_NEW(&all.arena, size_t, all.classes + 1),
         *at = ARENA_NEW(&all.arena, size_t, all.entries + 1), *means = ARENA_NEW(&all.arena, size_t, all.entries + 1),
         n = 0;
  const struct entry **of = ARENA_NEW(&all.arena, const struct entry *, all.entries + 1);
  for (size_t c = 0; c < all.classes; c++) {
    size_t count = 0;
    from[c] = n;
    for (size_t i = 0; i < all.entries; i++)
      if (all.class[c].form == FORM_TEXT && all.entry[i].class == c) of[count++] = &all.entry[i];
    qsort(of, count, sizeof *of, by_first_letter);
    for (size_t i = 0; i < count; i++) {
      at[n] = text_at(texts, of[i]->all);
      begins[c] |= (size_t)1 << ((unsigned char)of[i]->all.p[0] & 31);
      means[n++] = text_at(texts, of[i]->means);
    }
  }
  from[all.classes] = n;
  fprintf(f, "/* Of each class that is looked for in any text, by their first letters: from here to the next. */\n");
  write_numbers(f, "uint16_t", "text_from", from, all.classes + 1);
  fprintf(f, "/* And a bit for each letter that one of its phrases begins with, by the last five bits of it. */\n");
  write_numbers(f, "uint32_t", "text_letters", begins, all.classes);
  write_numbers(f, "uint16_t", "text_phrase", at, n);
  write_numbers(f, "uint16_t", "text_means", means, n);
}

static void write_table(const char *dir) {
  FILE *f = open_out(dir, "post_words_table.h");
  struct texts texts;
  buf_init(&texts.b, &all.arena, 200000);
  text_at(&texts, SPAN_LIT(""));
  fprintf(f, "/* Written by post-words-build from data/post_words.tsv. */\n#include <stdint.h>\n");
  write_words(f, &texts);
  write_texts(f, &texts);
  fprintf(f, "static const char phrase_text[] =");
  write_text(f, buf_span(&texts.b));
  close_out(f, dir);
}

int main(int argc, char **argv) {
  if (argc != 4) {
    fprintf(stderr, "usage: post-words-build CLASSES.tsv WORDS.tsv OUT_DIR\n");
    return 2;
  }
  arena_init(&all.arena, out_of_memory);
  all.entry = ARENA_NEW(&all.arena, struct entry, ENTRIES_MOST);
  read_classes(argv[1]);
  read_words(argv[2]);
  gather_words();
  write_classes(argv[3]);
  write_table(argv[3]);
  arena_free(&all.arena);
  return 0;
}
