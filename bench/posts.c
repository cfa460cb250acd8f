/* posts.c: how long reading a post of 60 lines takes, as a ratio to checking the recipe that comes of it, and the share of
 * food lines read as a careful person read them, style by style.
 *
 * Usage: bench_posts LIBRARY CORPUS */
#include <stdio.h>
#include <stdlib.h>

#include "app/app.h"
#include "bench/bench_kit.h"
#include "tests/post/judging.h"

enum { LINES = 60, ROUNDS = 40 };

/* The first lines of the corpus' posts, one after the other. */
static struct span sixty_lines(const struct corpus *c, struct arena *arena) {
  struct buf b;
  int lines = 0;
  buf_init(&b, arena, 1 << 20);
  for (size_t i = 0; i < c->count && lines < LINES; i++) {
    struct span rest = c->post[i].text;
    while (rest.n > 0 && lines < LINES) {
      struct span line = corpus_line(&rest);
      if (span_trim(line).n == 0) continue;
      buf_add(&b, line);
      buf_addc(&b, '\n');
      lines++;
    }
  }
  return buf_span(&b);
}

static double time_of(const struct library *lib, struct span text, bool posted) {
  double best = INFINITY;
  for (int i = 0; i < ROUNDS; i++) {
    struct arena arena;
    struct post post;
    struct app_check_answer a;
    struct app_check_request q = {.recipe = {"post", text}, .ask = REQUEST_DEFAULT};
    arena_init(&arena, NULL);
    double from = bench_seconds(CLOCK_PROCESS_CPUTIME_ID);
    if (posted)
      post_read(lib, text, NULL, &post, &arena);
    else
      app_check(lib, &q, &a, &arena);
    double took = bench_seconds(CLOCK_PROCESS_CPUTIME_ID) - from;
    if (took < best) best = took;
    arena_free(&arena);
  }
  return best;
}

static void print_shares(const struct library *lib, struct corpus *c, struct arena *arena) {
  for (int held = 0; held < 2; held++) {
    struct score all = {0};
    for (int style = 0; style < c->styles; style++) {
      struct score sum = {0};
      for (size_t i = 0; i < c->count; i++) {
        if (c->post[i].style != style || c->post[i].held != (held == 1)) continue;
        struct reading *r = ARENA_NEW(arena, struct reading, 1);
        if (!read_post(lib, r, c->post[i].text, arena)) sum.silent++;
        judge(lib, &c->post[i], r, &sum, false);
      }
      print_score(c->style[style], &sum);
      add(&all, &sum);
    }
    print_score(held ? "HELD OUT" : "ALL", &all);
  }
}

int main(int argc, char **argv) {
  if (argc != 3) return 2;
  struct arena arena;
  struct library lib = bench_library(argv[1]);
  arena_init(&arena, NULL);
  struct corpus c = corpus_read(argv[2], &arena);
  print_shares(&lib, &c, &arena);
  struct span text = sixty_lines(&c, &arena);
  struct post post;
  post_read(&lib, text, NULL, &post, &arena);
  double reading = time_of(&lib, text, true), checking = time_of(&lib, span_of(post.recipe), false);
  printf("reading a post of %d lines       %8.2f ms   checking its recipe %8.2f ms   ratio of time %.2f\n", LINES,
         1000 * reading, 1000 * checking, reading / checking);
  return 0;
}
