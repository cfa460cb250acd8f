/* corpus.h: the posts of this folder with the reading that a careful person wrote down. README.md says the form. */
#ifndef BW_POST_CORPUS_H
#define BW_POST_CORPUS_H

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/arena.h"
#include "base/num.h"

enum corpus_what { WANT_FOOD, WANT_SHARE, WANT_EITHER, WANT_UNKNOWN, WANT_ASK, WANT_ANIMAL, WANT_COUNT };

struct corpus_want {
  enum corpus_what what;
  double low, high; /* grams a day, or per cent, or kg */
  int days;         /* of a week; 0 not told */
  struct span words;
};

enum { POSTS_MOST = 200, WANTS_MOST = 40, STYLES_MOST = 20 };

struct corpus_post {
  int style; /* index into the names of the files */
  struct span name, text;
  bool held;
  struct corpus_want want[WANTS_MOST];
  size_t want_count;
};

struct corpus {
  char style[STYLES_MOST][64];
  int styles;
  struct corpus_post *post;
  size_t count;
};

static void corpus_stop(const char *file, const char *why) {
  fprintf(stderr, "%s: %s\n", file, why);
  exit(1);
}

static struct span corpus_word(struct span *rest) {
  *rest = span_trim(*rest);
  size_t n = 0;
  while (n < rest->n && rest->p[n] != ' ') n++;
  struct span w = span_cut(*rest, 0, n);
  *rest = span_trim(span_cut(*rest, n, rest->n));
  return w;
}

static void corpus_expect(struct corpus_post *p, struct span line, const char *file) {
  static const char *const WHAT[WANT_COUNT] = {"food", "share", "either", "unknown", "ask", "animal"};
  struct corpus_want w = {.what = WANT_COUNT};
  struct span what = corpus_word(&line);
  for (int i = 0; i < WANT_COUNT; i++)
    if (span_is(what, WHAT[i])) w.what = (enum corpus_what)i;
  if (w.what == WANT_COUNT || p->want_count == WANTS_MOST) corpus_stop(file, "a line of a reading is not understood");
  if (w.what == WANT_ANIMAL) {
    w.words = corpus_word(&line);
    if (!num_parse(line, &w.low)) corpus_stop(file, "an animal without a weight");
  } else if (w.what < WANT_UNKNOWN) {
    struct span amount = corpus_word(&line);
    const char *dash = memchr(amount.p, '-', amount.n);
    struct span low = dash ? span_cut(amount, 0, (size_t)(dash - amount.p)) : amount;
    if (!num_parse(low, &w.low)) corpus_stop(file, "no grams");
    w.high = w.low * 1.12;
    if (dash && !num_parse(span_cut(amount, (size_t)(dash - amount.p) + 1, amount.n), &w.high))
      corpus_stop(file, "no grams");
    if (!dash) w.low *= 0.88;
    if (line.n > 5 && span_is(span_cut(line, line.n - 5, line.n - 1), " on ")) {
      w.days = line.p[line.n - 1] - '0';
      line.n -= 5;
    }
    w.words = line;
  } else {
    w.words = line;
  }
  p->want[p->want_count++] = w;
}

static struct span corpus_file(const char *path, struct arena *arena) {
  FILE *f = fopen(path, "rb");
  if (!f) corpus_stop(path, "cannot be read");
  char *text = arena_alloc(arena, 1, 1 << 20);
  size_t n = fread(text, 1, 1 << 20, f);
  fclose(f);
  return (struct span){text, n};
}

static struct span corpus_line(struct span *rest) {
  size_t n = 0;
  while (n < rest->n && rest->p[n] != '\n') n++;
  struct span line = span_cut(*rest, 0, n);
  *rest = span_cut(*rest, n + 1, rest->n);
  return line;
}

static void corpus_posts(struct corpus *c, struct span text, int style, const char *file) {
  struct corpus_post *p = NULL;
  bool reading = false;
  while (text.n > 0) {
    struct span line = corpus_line(&text);
    if (span_starts_fold(line, "@post ")) {
      if (c->count == POSTS_MOST) corpus_stop(file, "too many posts");
      p = &c->post[c->count++];
      struct span rest = span_cut(line, 6, line.n);
      *p = (struct corpus_post){.style = style, .name = corpus_word(&rest), .text = {text.p, 0}};
      p->held = span_is(rest, "held");
      reading = false;
    } else if (p && span_is(line, "@reads")) {
      p->text.n = (size_t)(line.p - p->text.p);
      reading = true;
    } else if (p && reading && span_trim(line).n > 0) {
      corpus_expect(p, span_trim(line), file);
    }
  }
}

static int corpus_order(const void *a, const void *b) { return strcmp(a, b); }

/* All posts of the folder, in the order of the files' names; a fault ends the program. */
static struct corpus corpus_read(const char *folder, struct arena *arena) {
  struct corpus c = {.post = ARENA_NEW(arena, struct corpus_post, POSTS_MOST)};
  DIR *dir = opendir(folder);
  if (!dir) corpus_stop(folder, "cannot be read");
  for (struct dirent *e; (e = readdir(dir)) != NULL;)
    if (strstr(e->d_name, ".posts") && c.styles < STYLES_MOST)
      snprintf(c.style[c.styles++], sizeof c.style[0], "%.60s", e->d_name);
  closedir(dir);
  qsort(c.style, (size_t)c.styles, sizeof c.style[0], corpus_order);
  for (int i = 0; i < c.styles; i++) {
    char path[600];
    snprintf(path, sizeof path, "%s/%s", folder, c.style[i]);
    corpus_posts(&c, corpus_file(path, arena), i, path);
    *strstr(c.style[i], ".posts") = '\0';
  }
  return c;
}

#endif
