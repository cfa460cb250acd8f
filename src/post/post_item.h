/* post_item.h: what the steps around one food share. Private to the room. Layer: post. */
#ifndef BW_POST_ITEM_H
#define BW_POST_ITEM_H

#include "post/post_parts.h"

struct segment {
  size_t from, to;  /* tokens */
  size_t said_from; /* before a bracket, what holds for it: "Fish on Tuesdays (200 g cod)"; else from */
  size_t amount;    /* the token where it begins; SIZE_MAX none */
  struct post_amount value;
  bool vague, skip;
  bool same;                     /* the meal before once more */
  size_t old_amount, old_tokens; /* "a piece of lamb, 250 g": the amount that another one stands for; 0 tokens none */
  bool of_tin;
  bool trial; /* read it or let it be: nothing is left out and asked */
};

/* One food as it was found: its amount, how often, how cooked. */
struct wanted {
  struct post_amount amount;
  double times;
  const char *often;     /* "twice a week"; "" */
  const char *cooked;    /* NULL */
  const char *near;      /* what is said of an amount that is not quite so much; "" */
  struct span whole;     /* as the owner wrote it */
  struct span said;      /* of that, the food and its amount alone */
  size_t package_tokens; /* of the weight of a bag */
};

struct words {
  struct buf text;
  size_t count;
  const char *cooked;        /* "that I boil" */
  size_t skip_from, skip_to; /* tokens that are no words of the food */
};

struct segments {
  struct segment at[64];
  size_t count;
};

/* post_food_words.c: words of [from, to) that belong to the food; what begins a clause ends them. */
void post_gather(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct words *w);
/* Without marks and chatter at the ends. */
struct span post_trimmed(struct span s);
/* "x2" at the end of [from, *to): how many times, and *to before it; 1. */
double post_times_behind(const struct tokens *t, size_t from, size_t *to);
/* post_line.c: adds the line that the strict reader takes for these words, or for them without what may go at their end;
 * false when it takes none, with its complaint. */
bool post_try_words(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why);
/* A food that no table has, though its name is near another one's; "". */
struct span post_without_record(struct post_reader *r, struct span words);
struct span post_without_capsule(struct post_reader *r, struct span words);
/* post_line_else.c: the same, or what else these words may mean. */
bool post_try_line(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why);
const char *post_animal_of_meat(struct post_reader *r); /* that all meat counted so far is of; "" none, or several */

/* post_wrapped.c: does somebody list without capitals? The next line, with those that go on with it. */
bool post_lists_small(struct span text);
bool post_next_line(struct post_reader *r, struct lines *lines, struct span *line);
/* post_table.c: is it the head of a table? Its row as a line, itself when it is none; and cells with commas between. */
bool post_rows_without_unit(struct span text); /* is it a table of foods and bare numbers? They are taken as grams. */
bool post_table_head(struct post_reader *r, struct span line);
struct span post_table_row(struct post_reader *r, struct span line);
struct span post_join_cells(struct span line, struct arena *arena, bool *table);
/* post_sentence.c: where the sentence that begins at 'from' ends; takes a bullet or number at the front, and how many
 * tokens. */
size_t post_sentence_end(struct span line, size_t from);
size_t post_strip_bullet(struct tokens *t);
/* post_told.c: one sentence, which ends a row of a table or stands in a list when 'bulleted'. */
void post_read_sentence(struct post_reader *r, struct span text, bool bulleted);

/* post_core.c: the same of the words that surely name a food in [from, to), with what was passed over as an assumption. */
struct core_range {
  size_t from, to;    /* where the name is looked for */
  size_t behind, end; /* other words of the line, which must say nothing */
};
bool post_try_core(struct post_reader *r, const struct wanted *w, const struct tokens *t, struct core_range at,
                   const char *often);

/* "a; b", or the one that is not empty. */
const char *post_joined(struct post_reader *r, const char *a, const char *b);
/* Does its text say on how many days, or how often a day, it is fed? */
bool post_tells_often(struct post_reader *r, const struct item *item);

/* The owner's words, to be quoted: without what joins them to others, brackets closed. */
struct span post_own_words(struct post_reader *r, struct span text);
struct span post_quote(struct post_reader *r, struct span text); /* and short */
size_t content_words(struct post_reader *r, const struct tokens *t, size_t from, size_t to);
/* post_names.c: is this word and the next an everyday name together? */
bool post_names_both(struct post_reader *r, const struct tokens *t, size_t at);
/* post_dose.c: behind what each capsule holds, how many; 0. Behind how many, what each holds. */
double post_how_many_of(const struct tokens *t, const struct segment *s, struct words *words);
void post_unit_behind(struct post_reader *r, struct wanted *w, struct words *words);
void post_dose_of_each(const struct tokens *t, const struct segment *s, struct wanted *w, struct words *words);
/* post_find.c: the first frequency of [from, to), as written, one that names a meal or days before others, "" none; the
 * first amount, t->count none; is there a word that some food's name has? */
const char *post_often_in(struct post_reader *r, const struct tokens *t, size_t from, size_t to);
size_t post_find_amount(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct post_amount *out);
bool post_knows_a_word(struct post_reader *r, const struct tokens *t, size_t from, size_t to);
/* post_near.c: "nearly", "a bit over" before amounts: heard in a sentence; and the range of the one at 'at', with what is
 * said of it; "". */
void post_hear_near(struct post_reader *r, struct tokens *t);
const char *post_take_near(struct post_reader *r, size_t at, struct post_amount *a);
/* post_served.c: is this amount put into the bowl at meals? */
bool post_is_at_meals(const struct tokens *t, size_t amount);
/* post_again.c: the meal before once more. */
void post_repeat_meal(struct post_reader *r, const struct tokens *t, const struct segment *s);
/* post_cut.c: cuts the tokens at separators after which another food begins. */
void post_cut(struct post_reader *r, const struct tokens *t, struct segments *s);
/* post_mix.c */
bool post_names_animal(struct span words, struct arena *arena); /* "rabbit liver" */
bool post_mixture(struct post_reader *r, const struct wanted *w, struct span words);
/* post_product.c: what is known by its label alone and stands in no line, as fed and not counted. */
void post_hear_products(struct post_reader *r);
/* post_ask.c */
extern const char POST_OFTEN_UNREAD[]; /* such a reason */
const char *post_why_in_words(enum diag_code refused_for, bool no_measure);
void post_ask_missing(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code refused_for);
/* A wing, a neck, a drumstick, and nothing is said of its bone. */
bool post_is_bony_piece(struct span words);
void post_ask_about(struct post_reader *r, const struct ration_line *got, struct span whole);

#endif
