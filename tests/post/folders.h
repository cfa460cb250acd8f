/* folders.h: the table of the folders of posts: what was read of each at the first look, and below what it may not fall. */
#ifndef BW_POST_FOLDERS_H
#define BW_POST_FOLDERS_H

#include "tests/post/corpus.h"

enum { FOLDERS_MOST = 80, FOLDER_COLUMNS = 8 };

struct folder_row {
  char path[512], name[64], part[16], first[32], by[120];
  int lines, read_least, wrong_most, hidden_most;
};

static struct span folder_field(struct span *line) {
  size_t n = 0;
  while (n < line->n && line->p[n] != '\t') n++;
  struct span field = span_cut(*line, 0, n);
  *line = span_cut(*line, n + 1, line->n);
  return field;
}

static int folder_number(struct span field, const char *file) {
  double number;
  if (!num_parse(field, &number)) corpus_stop(file, "a number is missing");
  return (int)number;
}

static bool folder_is_held(const struct folder_row *row) { return strcmp(row->part, "held") == 0; }

/* Nobody has read its posts, so nothing of them is printed. */
static bool folder_is_blind(const struct folder_row *row) {
  size_t n = strlen(row->by);
  return n > 6 && strcmp(row->by + n - 6, " blind") == 0;
}

/* The rows of tests/post/folders.tsv; their count. A fault ends the program. */
static size_t folders_read(struct folder_row row[FOLDERS_MOST], struct arena *arena) {
  static const char FILE_NAME[] = BW_SOURCE_DIR "/tests/post/folders.tsv";
  struct span text = corpus_file(FILE_NAME, arena);
  size_t count = 0;
  bool head = true;
  while (text.n > 0) {
    struct span line = corpus_line(&text), field[FOLDER_COLUMNS];
    if (line.n == 0 || line.p[0] == '#') continue;
    for (int i = 0; i < FOLDER_COLUMNS; i++) field[i] = folder_field(&line);
    if (head || count == FOLDERS_MOST) {
      head = false;
      continue;
    }
    struct folder_row *r = &row[count++];
    *r = (struct folder_row){.lines = folder_number(field[2], FILE_NAME),
                             .read_least = folder_number(field[3], FILE_NAME),
                             .wrong_most = folder_number(field[4], FILE_NAME),
                             .hidden_most = folder_number(field[5], FILE_NAME)};
    snprintf(r->name, sizeof r->name, "%.*s", SPAN_ARG(field[0]));
    snprintf(r->path, sizeof r->path, BW_SOURCE_DIR "/tests/post/%.*s", SPAN_ARG(field[0]));
    snprintf(r->part, sizeof r->part, "%.*s", SPAN_ARG(field[1]));
    snprintf(r->first, sizeof r->first, "%.*s", SPAN_ARG(field[6]));
    snprintf(r->by, sizeof r->by, "%.*s", SPAN_ARG(field[7]));
  }
  return count;
}

#endif
