/* run.h: one run of the program: what every verb has at hand, and the verbs.
 *
 * Layer: cli. */
#ifndef BW_RUN_H
#define BW_RUN_H

#include "cli/system.h"
#include "post/post.h"
#include "words/many.h"

struct run {
  const struct options *options;
  const struct verb_spec *verb;
  struct library lib; /* with the own foods of --foods */
  struct report_style style;
  struct date today;
  char **argv;         /* the command line as it was typed */
  struct arena *arena; /* lives as long as the run */
  struct tally *tally; /* of one text among many; NULL: nobody counts */
  bool unread;         /* nothing but that is wanted of it: its answer goes nowhere */
};

/* What became of a text, for the summary of many. */
void tell_tally(const struct run *s, const struct check_result *r, const struct post *post);

/* Which of two codes the run ends with: trouble, then input not understood, refused, short or over, computed. */
int worse_code(int a, int b);
/* Warnings and errors of a text on standard error; warnings alone are left out with --quiet. */
void show_diags(const struct run *s, const struct diags *d, struct arena *arena);
/* The first operand, and the larder of --larder. */
int read_recipe_and_larder(const struct run *s, struct app_input *recipe, struct app_input *larder) MUST_USE;
/* A journal, with the recipes among the operands from 'named' on and those that lie beside it. */
int read_journal_and_recipes(const struct run *s, const char *path, size_t named, struct app_journal *out) MUST_USE;
/* Those of the recipe, and of the journal. A post's remarks stand in its answer; of one without any food it is said that
 * there is none. */
void show_recipe_diags(const struct run *s, const struct app_check_answer *a);
/* The code after complaints: usage when nothing but the animal is wanting, for which there are options. */
int not_understood(const struct diags *d);
/* An answer that has just been written as JSON is ended, and goes to standard output. */
int finish_answer(const struct run *s, struct buf *out) MUST_USE;
/* A note on standard error that --quiet leaves out. */
void note(const struct run *s, const char *fmt, ...) PRINTF_LIKE(2, 3);

/* ---- write_file.c: a file that is written whole or not at all ---- */

/* Never onto what it is made from. */
int write_file(const struct run *s, const char *path, struct buf *b) MUST_USE;
/* The file that was read, as it shall be now. */
int rewrite_file(const struct run *s, const char *path, struct buf *b) MUST_USE;
bool is_an_input(const struct run *s, const char *path);

/* ---- paper_elsewhere.c, or src/paper: a sheet as PDF ---- */

struct sheet;
/* verb_sheet.c: before anything is read, what can be said then. */
int sheet_begin(const struct run *s) MUST_USE;
/* Where another program sets paper, that one runs from here on, and this returns only with trouble. */
int paper_begin(const struct run *s) MUST_USE;
int paper_write(const struct run *s, const struct sheet *sheet, struct buf *out) MUST_USE;

/* ---- a journal in the store, in the program that holds the server (serve_elsewhere.c, served/journal_store.c) ---- */

struct journal;
/* Hands the run over to that program; comes back in it alone. */
int store_ready(const struct run *s) MUST_USE;
/* The whole journal, line by line; earlier saves stay. */
int journal_to_store(const struct run *s, const struct journal *j) MUST_USE;
int journal_from_store(const struct run *s, const char *path, struct app_input *out) MUST_USE;
/* The recipes that the store holds join those that the journal may name. */
int recipes_from_store(const struct run *s, const char *path, struct app_input *recipe, size_t *count, size_t most) MUST_USE;
/* A journal: a text, or the store that holds one. */
int read_journal(const struct run *s, const char *path, struct app_input *out) MUST_USE;
/* The recipes that it may name and that were not named: those of the store, and those that lie beside it. */
int read_recipes_of_journal(const struct run *s, const char *path, struct app_input *recipe, size_t *count,
                            size_t most) MUST_USE;

/* ---- animals.c: who the answer is for, and what is asked ---- */

/* Everything but the recipe. */
int ask_about(const struct run *s, struct app_check_request *out) MUST_USE;
/* Says on standard error how to give an animal. */
void hint_at_animals(const struct run *s, const struct recipe *recipe);

/* The verbs, each in its verb_*.c; they return the exit code. */
#define X(id, function) int verb_##function(struct run *s) MUST_USE;
VERB_LIST(X)
#undef X

struct why_key;
/* --why; room for as many as were given. False: one is not understood, and that was said. */
bool read_whys(const struct run *s, struct why_key *to, size_t *count);

#endif
