/* A pot for several of which nobody says who gets how much: each one's part by the energy that it needs, where all of them
 * were weighed; and which of those that were weighed the post asks about. */
#include "base/num.h"
#include "foods/constant_keys.h"
#include "judge/animal.h"
#include "judge/stats.h"
#include "post/whole/post_whole.h"

/* ---- those that were weighed ---- */

/* With those that were found by their names, each once: their own name tells more. */
static void gather_named(struct post_reader *r) {
  for (size_t i = 0; i < r->named_count; i++) {
    size_t k = 0;
    while (k < r->weighed_count && !(r->weighed[k].kg == r->named[i].kg &&
                                     (r->weighed[k].name.n == 0 || post_same_name(r->weighed[k].name, r->named[i].name))))
      k++;
    if (k == r->weighed_count && k < COUNT_OF(r->weighed))
      r->weighed[r->weighed_count++] = (struct weighed){.species = -1, .neutered = -1, .activity = -1};
    if (k == r->weighed_count) return;
    r->weighed[k].name = r->named[i].name;
    r->weighed[k].kg = r->named[i].kg;
  }
}

static enum species species_of(const struct post_reader *r, const struct weighed *w) {
  if (w->species >= 0) return (enum species)w->species;
  if (r->weighed_species >= 0) return (enum species)r->weighed_species;
  return r->cat_words > r->dog_words ? SPECIES_CAT : SPECIES_DOG;
}

static bool of_two_kinds(const struct post_reader *r) {
  for (size_t i = 1; i < r->weighed_count; i++)
    if (species_of(r, &r->weighed[i]) != species_of(r, &r->weighed[0])) return true;
  return false;
}

/* ---- which one is asked about ---- */

/* "lab", "labrador" */
static bool same_word(struct span a, struct span b) {
  enum { LEAST = 3 };
  size_t n = a.n < b.n ? a.n : b.n;
  return n >= LEAST && span_eq_fold(span_cut(a, 0, n), span_cut(b, 0, n));
}

/* The lightest or the heaviest of them; weighed_count where that is nobody. */
static size_t by_size(const struct post_reader *r, bool big) {
  size_t found = 0;
  for (size_t i = 1; i < r->weighed_count; i++)
    if (big ? r->weighed[i].kg > r->weighed[found].kg : r->weighed[i].kg < r->weighed[found].kg) found = i;
  for (size_t i = 0; i < r->weighed_count; i++)
    if (i != found && r->weighed[i].kg == r->weighed[found].kg) return r->weighed_count;
  return found;
}

/* The one that is named at 'at': by its name, what it is, its size; weighed_count nobody. */
static size_t named_at(struct post_reader *r, const struct tokens *t, size_t at) {
  enum species s;
  size_t used, none = r->weighed_count;
  struct span name = post_one_named(r, t, at, &used);
  if (span_is(name, "little one")) return by_size(r, false);
  if (span_is(name, "big one")) return by_size(r, true);
  for (size_t i = 0; i < none; i++)
    if (name.n > 0 && r->weighed[i].name.n > 0 && post_same_name(name, r->weighed[i].name)) return i;
  if (!is_word(t, at) || !token_is_animal(&t->item[at], &s)) return none;
  size_t found = none, kind = none, kinds = 0;
  for (size_t i = 0; i < none; i++) {
    if (r->weighed[i].breed.n > 0 && same_word(r->weighed[i].breed, t->item[at].word)) found = found == none ? i : none + 1;
    if (species_of(r, &r->weighed[i]) == s) kind = i, kinds++;
  }
  if (found < none) return found;
  return kinds == 1 && says(t, at, "cat dog kitty pup") ? kind : none; /* "the cat", of a cat and a dog */
}

/* Does the sentence ask, and not tell what is fed? */
static bool asks(const struct tokens *t) {
  return t->count > 0 && (is_mark(t, t->count - 1, '?') || holds_a(t, 0, t->count, CLASS_WORRYING) || says(t, 0, "please") ||
                          holds_a(t, 0, t->count, CLASS_ASKED_ABOUT) || holds_a(t, 0, t->count, CLASS_IS_ASKED_ABOUT));
}

/* Whom all sentences that ask name, if they name one alone; weighed_count nobody. */
static size_t asked_about(struct post_reader *r) {
  size_t none = r->weighed_count, found = none;
  for (size_t h = 0; h < r->heard_count; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    if (!asks(&t)) continue;
    double kg;
    bool weighs = false;
    for (size_t i = 0; i < t.count && !weighs; i++) weighs = post_weight_at(&t, i, &kg) > 0;
    for (size_t i = 0; i < t.count && !weighs; i++) {
      size_t here = named_at(r, &t, i);
      if (here < none && found < none && here != found) return none;
      if (here < none) found = here;
    }
  }
  return found;
}

/* "A third of it goes to the small one", and nobody asks about one of them: is the one that is judged small, or big? */
static void call_by_size(struct post_reader *r) {
  for (size_t i = 0; i < r->part_count && r->asked_about.n == 0; i++) {
    if (!span_is(r->part[i].name, "little one") && !span_is(r->part[i].name, "big one")) continue;
    size_t small = by_size(r, false), big = by_size(r, true);
    if (small < r->weighed_count && r->weighed[small].kg == r->weight_kg) r->asked_about = SPAN_LIT("little one");
    if (big < r->weighed_count && r->weighed[big].kg == r->weight_kg) r->asked_about = SPAN_LIT("big one");
  }
}

/* "The lab has 400 g of mince": whose bowl is told, where it is that of one alone; weighed_count nobody. */
static size_t who_eats(struct post_reader *r) {
  size_t none = r->weighed_count, found = none;
  for (size_t h = 0; h < r->heard_count && !r->one_pot; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    for (size_t i = 0; i + 1 < t.count; i++) {
      size_t here = says_a(&t, i + 1, CLASS_EATER_VERB) && post_any_amount(&t, i + 2) ? named_at(r, &t, i) : none;
      if (here < none && found < none && here != found) return none;
      if (here < none) found = here;
    }
  }
  return found;
}

void post_settle_weighed(struct post_reader *r) {
  gather_named(r);
  if (r->weighed_count < 2) return;
  if (r->one_pot && r->animals <= 1) r->animals = (int)r->weighed_count;
  if (r->given) return;
  size_t ours = r->weighed_count;
  for (size_t i = 0; i < r->weighed_count; i++) /* as they were called */
    if (r->asked_about.n > 0 && post_same_name(r->weighed[i].name, r->asked_about)) ours = i;
  if (ours == r->weighed_count && span_is(r->asked_about, "little one")) ours = by_size(r, false);
  if (ours == r->weighed_count && span_is(r->asked_about, "big one")) ours = by_size(r, true);
  if (ours == r->weighed_count && r->asked_about.n == 0) ours = asked_about(r);
  if (ours == r->weighed_count && r->asked_about.n == 0 && !r->subject_named) ours = who_eats(r);
  if (ours == r->weighed_count) {
    call_by_size(r);
    return;
  }
  struct weighed *w = &r->weighed[ours];
  r->subject_named = true;
  if (w->name.n > 0 && r->asked_about.n == 0) r->asked_about = w->name;
  if (w->species >= 0) r->weighed_species = w->species;
  if (w->neutered >= 0) r->neutered = w->neutered;
  if (w->activity >= 0) r->activity = w->activity;
  if (r->weight_kg == w->kg) return;
  r->weight_kg = w->kg;
  r->age_years = (double)NAN; /* told of another one */
}

/* ---- by need ---- */

/* The energy that one of them needs a day, as of any animal (judge/animal.h). What is told of all of them holds for each. */
static double kcal_of(const struct post_reader *r, const struct weighed *w) {
  struct animal a = animal_plain(species_of(r, w), w->kg);
  a.neutered = (int8_t)w->neutered;
  if (w->activity >= 0) a.activity = (enum activity)w->activity, a.activity_stated = true;
  return animal_energy(r->lib, &a, r->arena).kcal;
}

/* The part of the animal whose needs are judged, and between which parts nine of ten such animals would be: what an animal
 * needs varies by so much around the figure of its weight. False: they were not all weighed, or weigh the same. */
bool post_part_by_need(const struct post_reader *r, struct part_by_need *out) {
  static const double ALIKE = 0.1, SAME = 0.01; /* own choice: such weights share equally */
  size_t ours = r->weighed_count;
  double all = 0, least = INFINITY, most = 0, spread = 0;
  if (r->weighed_count < 2 || (int)r->weighed_count != r->animals) return false;
  for (size_t i = 0; i < r->weighed_count; i++) {
    const struct weighed *w = &r->weighed[i];
    all += kcal_of(r, w);
    least = fmin(least, w->kg), most = fmax(most, w->kg);
    if (ours == r->weighed_count && fabs(w->kg - r->weight_kg) <= SAME * w->kg) ours = i;
  }
  if (ours == r->weighed_count || (most <= (1 + ALIKE) * least && !of_two_kinds(r))) return false;
  double kcal = kcal_of(r, &r->weighed[ours]), others = all - kcal;
  if (!(kcal > 0 && others > 0)) return false;
  for (size_t i = 0; i < r->weighed_count; i++) {
    double sd = library_constant_value(r->lib, K_ENERGY_SD_SHARE, species_of(r, &r->weighed[i]));
    double weight = i == ours ? 1 : kcal_of(r, &r->weighed[i]) / others;
    spread += weight * weight * sd * sd;
  }
  double times = exp(NORMAL_95 * sqrt(spread)), ratio = kcal / others;
  out->part = floor(100 * kcal / all + 0.5) / 100; /* no surer than that */
  if (!(out->part > 0 && out->part < 1)) out->part = kcal / all;
  out->low = ratio / times / (1 + ratio / times);
  out->high = ratio * times / (1 + ratio * times);
  return true;
}

static void write_percent(struct buf *b, double part) { num_sig(b, 100 * part, 2); }

/* "6, 24 and 9 kg" */
static void write_weights(struct buf *b, const struct post_reader *r) {
  for (size_t i = 0; i < r->weighed_count; i++) {
    buf_adds(b, i == 0 ? "" : i + 1 < r->weighed_count ? ", " : " and ");
    num_sig(b, r->weighed[i].kg, 3);
  }
  buf_adds(b, " kg");
}

const char *post_say_by_need(struct post_reader *r, const struct part_by_need *p) {
  struct buf b;
  buf_init(&b, r->keep, 400);
  write_percent(&b, p->part);
  buf_adds(&b, " % of it by energy need, ");
  write_percent(&b, p->low);
  buf_adds(&b, " to ");
  write_percent(&b, p->high);
  buf_adds(&b, " %: the post does not say how those of ");
  write_weights(&b, r);
  buf_adds(&b, " share it");
  r->line = 0;
  struct buf of;
  buf_init(&of, r->keep, 300);
  write_percent(&of, p->part);
  const char *kg = post_kilograms(r, r->weight_kg);
  post_ask(
      r, 3,
      "This is for %d animals. How much of it does each of them get? The share of the one of %s was assumed by its energy "
      "need: %s %%.%s%s%s",
      r->animals, kg, buf_text(&of), r->subject_named ? "" : " The needs are those of the one of ",
      r->subject_named ? "" : kg, r->subject_named ? "" : ".");
  if (of_two_kinds(r))
    post_ask(r, 3.5,
             "Do the cat and the dog really eat the same food? That is unusual: a cat needs more protein, taurine and "
             "vitamins than a dog's food has to have.");
  return buf_text(&b);
}
