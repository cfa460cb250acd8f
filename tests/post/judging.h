/* judging.h: a post read by the program, held against the reading that a careful person wrote down.
 *
 * Include after the standard headers; the functions are static, so that the test and the benchmark each have their own. */
#ifndef BW_POST_JUDGING_H
#define BW_POST_JUDGING_H

#include "tests/post/corpus.h"
#include "tests/post/reading.h"

struct score {
  int wanted, read, told, silent,
      extra; /* food lines: wanted, read right, missed but told, missed in silence; not wanted at all */
  int asks, asked, animals, animals_right;
  int hidden;         /* of 'silent' and 'extra': with no question about the food, and counted with no doubt said */
  int well, needless; /* posts of which every line was read; what the ledger of governing words asks about them */
  int careful;        /* counted lines that were read right, and say beside them that something was assumed */
  int right;          /* counted lines that were read right */
};

static struct span first_choice(struct span words) {
  for (size_t i = 0; i < words.n; i++)
    if (words.p[i] == '/' || words.p[i] == '+') return span_cut(words, 0, i);
  return words;
}

static bool left_out(const struct reading *r, struct span words) {
  for (size_t i = 0; i < r->post.left_count; i++)
    if (suits(span_of(r->post.left[i].text), words) || has(span_of(r->post.left[i].text), first_choice(words))) return true;
  return false;
}

static bool any_doubted(const struct library *lib, const struct reading *r, struct span words) {
  for (size_t i = 0; i < r->ration.line_count; i++) {
    const struct ration_line *l = &r->ration.line[i];
    if (suits(span_of(library_name(lib, l->shown_food)), words) && is_doubted(r, l)) return true;
  }
  return false;
}

static bool is_asked(const struct reading *r, struct span words) {
  for (size_t i = 0; i < r->post.question_count; i++)
    if (suits(span_of(r->post.question[i].ask), words)) return true;
  return false;
}

static double total(const struct reading *r) {
  double sum = 0;
  for (size_t i = 0; i < r->ration.line_count; i++) sum += ration_line_grams_per_day(&r->ration.line[i]);
  return sum;
}

/* What was weighed raw may be told as weighed, too. */
static double raw_grams(const struct ration_line *l) {
  double sum = 0;
  for (int i = 0; i < l->part_count; i++) sum += l->part[i].grams;
  return sum * l->times_per_28 / CALENDAR_DAYS;
}

static int days_of(const struct ration_line *l) { return (int)lround(l->times_per_28 / 4); }

/* One line, or several lines of one food together. */
static bool find(const struct library *lib, struct reading *r, const struct corpus_want *w, bool *any) {
  double scale = w->what == WANT_SHARE ? total(r) / 100 : 1, sum = 0;
  bool mine[RECIPE_MOST_LINES] = {0}, days = true;
  for (size_t i = 0; i < r->ration.line_count; i++) {
    const struct ration_line *l = &r->ration.line[i];
    if (r->used[i] || !suits(span_of(library_name(lib, l->shown_food)), w->words)) continue;
    double grams = ration_line_grams_per_day(l);
    *any = true;
    if (raw_grams(l) > grams && raw_grams(l) <= w->high * scale) grams = raw_grams(l);
    if (grams >= w->low * scale && grams <= w->high * scale && (w->days == 0 || days_of(l) == w->days)) {
      r->used[i] = true;
      return true;
    }
    double same = 0; /* of this record alone: "chicken" is told apart from its liver */
    bool its_days = true;
    int added_days = 0; /* of Monday to Thursday, and of Friday */
    for (size_t k = 0; k < r->ration.line_count; k++) {
      const struct ration_line *other = &r->ration.line[k];
      if (r->used[k] || other->shown_food != l->shown_food) continue;
      same += ration_line_grams_per_day(other);
      its_days = its_days && (w->days == 0 || days_of(other) == w->days || days_of(other) == 1);
      added_days += days_of(other);
    }
    its_days = its_days || added_days == w->days;
    if (same > grams && same >= w->low * scale && same <= w->high * scale && its_days) {
      for (size_t k = 0; k < r->ration.line_count; k++)
        r->used[k] = r->used[k] || r->ration.line[k].shown_food == l->shown_food;
      return true;
    }
    sum += grams;
    days = days && (w->days == 0 || days_of(l) == w->days || days_of(l) == 1);
    mine[i] = true;
  }
  if (!(sum >= w->low * scale && sum <= w->high * scale) || !days) return false;
  for (size_t i = 0; i < r->ration.line_count; i++) r->used[i] = r->used[i] || mine[i];
  return true;
}

static void animal(const struct corpus_want *w, const struct reading *r, struct score *s) {
  bool cat = span_is(w->words, "cat");
  const char *at = strstr(r->post.recipe, cat ? "Cat: " : "Dog: ");
  double kg = 0;
  if (at) num_read(span_of(at + 5), &kg);
  s->animals++;
  if (fabs(kg - w->low) <= 0.02 * w->low) s->animals_right++;
}

/* Exact ones first: a food that may be read or left out must not take what a certain one needs. */
static int longer_first(const void *a, const void *b) {
  const struct corpus_want *x = a, *y = b;
  return x->words.n < y->words.n ? 1 : x->words.n > y->words.n ? -1 : 0;
}

/* Is it one that the careful person asks as well, or of food that was left out? */
static bool is_wanted(const struct corpus_post *p, const char *ask) {
  for (size_t i = 0; i < p->want_count; i++) {
    enum corpus_what what = p->want[i].what;
    if ((what == WANT_ASK || what == WANT_UNKNOWN) && suits(span_of(ask), p->want[i].words)) return true;
  }
  return false;
}

/* Where all is read as a careful person reads it, a question about the amounts is one too many. */
static void count_needless(const struct corpus_post *p, const struct reading *r, struct score *s, bool talk) {
  if (s->read < s->wanted || s->silent + s->extra > 0) return;
  s->well++;
  for (size_t i = 0; i < r->post.question_count; i++) {
    if (r->post.question[i].about != ASKS_OF_AMOUNTS || is_wanted(p, r->post.question[i].ask)) continue;
    s->needless++;
    if (talk) printf("  %.*s: needless: %s\n", SPAN_ARG(p->name), r->post.question[i].ask);
  }
}

static void judge(const struct library *lib, struct corpus_post *p, struct reading *r, struct score *s, bool talk) {
  qsort(p->want, p->want_count, sizeof p->want[0], longer_first);
  for (int pass = 0; pass < 2; pass++)
    for (size_t i = 0; i < p->want_count; i++) {
      const struct corpus_want *w = &p->want[i];
      bool certain = w->what == WANT_FOOD || w->what == WANT_SHARE, any = false, hidden = false;
      if (pass == 0 && certain) {
        int before = s->silent;
        s->wanted++;
        if (find(lib, r, w, &any))
          s->read++;
        else if (left_out(r, w->words))
          s->told++;
        else {
          s->silent++;
          hidden = !is_asked(r, w->words) && !is_asked(r, first_choice(w->words)) && !any_doubted(lib, r, w->words);
          s->hidden += hidden;
        }
        const char *mark = hidden ? ", and it is hidden" : "";
        if (talk && !any && !left_out(r, w->words))
          printf("  %.*s: missed in silence%s: %.*s\n", SPAN_ARG(p->name), mark, SPAN_ARG(w->words));
        else if (talk && any && s->silent > before)
          printf("  %.*s: another amount%s: %.*s\n", SPAN_ARG(p->name), mark, SPAN_ARG(w->words));
      } else if (pass == 1 && w->what == WANT_EITHER) {
        if (!find(lib, r, w, &any) && any && talk)
          printf("  %.*s: otherwise: %.*s\n", SPAN_ARG(p->name), SPAN_ARG(w->words));
      } else if (pass == 1 && w->what == WANT_ASK) {
        s->asks++;
        s->asked += is_asked(r, w->words);
        if (talk && !is_asked(r, w->words)) printf("  %.*s: not asked: %.*s\n", SPAN_ARG(p->name), SPAN_ARG(w->words));
      } else if (pass == 1 && w->what == WANT_UNKNOWN) {
        s->wanted++;
        bool told = left_out(r, w->words);
        *(told ? &s->read : &s->silent) += 1;
        hidden = !told && !is_asked(r, w->words);
        s->hidden += hidden;
        if (talk && !told)
          printf("  %.*s: neither read nor told%s: %.*s\n", SPAN_ARG(p->name), hidden ? ", and it is hidden" : "",
                 SPAN_ARG(w->words));
      } else if (pass == 1 && w->what == WANT_ANIMAL) {
        int before = s->animals_right;
        animal(w, r, s);
        if (talk && s->animals_right == before) printf("  %.*s: the animal\n", SPAN_ARG(p->name));
      }
    }
  for (size_t i = 0; i < r->ration.line_count; i++)
    if (!r->used[i]) {
      s->extra++;
      s->hidden += !is_doubted(r, &r->ration.line[i]);
      if (talk)
        printf("  %.*s: nobody said so%s: %s\n", SPAN_ARG(p->name),
               is_doubted(r, &r->ration.line[i]) ? ", and it is doubted" : ", and it is hidden", r->ration.line[i].text);
    } else {
      s->right++;
      s->careful += is_doubted(r, &r->ration.line[i]);
      if (talk && is_doubted(r, &r->ration.line[i]))
        printf("  %.*s: doubted though right: %s\n", SPAN_ARG(p->name), r->ration.line[i].text);
    }
  count_needless(p, r, s, talk);
}

static void add(struct score *to, const struct score *s) {
  to->wanted += s->wanted, to->read += s->read, to->told += s->told, to->silent += s->silent, to->extra += s->extra;
  to->hidden += s->hidden;
  to->well += s->well, to->needless += s->needless, to->right += s->right, to->careful += s->careful;
  to->asks += s->asks, to->asked += s->asked, to->animals += s->animals, to->animals_right += s->animals_right;
}

static void print_score(const char *style, const struct score *s) {
  if (s->wanted + s->extra == 0) return;
  printf("%-16s %4d lines  read %5.1f %%  told %2d  silent %2d  not said %2d  hidden %2d  asked %d of %d  animal %d of %d  "
         "needless %d in %d  doubted though right %d of %d\n",
         style, s->wanted, s->wanted > 0 ? 100.0 * s->read / s->wanted : 100.0, s->told, s->silent, s->extra, s->hidden,
         s->asked, s->asks, s->animals_right, s->animals, s->needless, s->well, s->careful, s->right);
}

#endif
