/* The strict line that the words of one food come to. */
#include "post/line/post_line.h"
#include "base/num.h"
#include "foods/search_words.h"

static bool holds_capsule(struct span s) {
  if (s.n > 4 && span_is_fold(span_cut(s, s.n - 4, s.n), " cap")) return true; /* "fish oil cap" */
  return span_holds_fold(s, SPAN_LIT("capsule")) || span_holds_fold(s, SPAN_LIT("softgel")) ||
         span_holds_fold(s, SPAN_LIT("tablet")) || span_holds_fold(s, SPAN_LIT(" caps")) ||
         span_holds_fold(s, SPAN_LIT(" cap ")) || span_holds_fold(s, SPAN_LIT(" cap,"));
}

static bool is_dose(const struct post_amount *a, struct span words) {
  return (strcmp(a->unit, "mg") == 0 || strcmp(a->unit, "IU") == 0 || strcmp(a->unit, "mcg") == 0) && holds_capsule(words);
}

static const double HEAPED_SPOON = 1.7, HEAPED_CUP = 1.3, SCANT = 0.7; /* of a level one: docs/method/posts.md */

/* "1000 mg salmon oil capsule": the dose of one; the count is behind it. */
static void write_front(struct buf *b, const struct post_amount *a, double times, struct span words) {
  bool dose = is_dose(a, words);
  if (!dose) {
    struct post_amount written = *a;
    bool cup = strcmp(a->unit, "cup") == 0;
    if (a->heaped) written.high *= cup ? HEAPED_CUP : HEAPED_SPOON;
    if (a->scant) written.low *= SCANT;
    amount_write(b, &written, times);
    if (a->about && a->is_mass && a->low == a->high) {
      buf_adds(b, " (");
      num_sig(b, 0.9 * a->low * times, 4);
      buf_addc(b, '-');
      num_sig(b, 1.1 * a->low * times, 4);
      buf_addf(b, " %s)", a->unit);
    }
    return;
  }
  num_sig(b, times, 4);
  buf_adds(b, times > 1 ? " capsules" : " capsule");
}

struct span post_without_capsule(struct post_reader *r, struct span words) {
  struct buf b;
  buf_init(&b, r->arena, words.n + 2);
  while (words.n > 0) {
    const char *blank = memchr(words.p, ' ', words.n);
    size_t n = blank ? (size_t)(blank - words.p) : words.n;
    struct span w = span_cut(words, 0, n);
    if (!is_a(w, CLASS_CAPSULE)) {
      if (b.n > 0) buf_addc(&b, ' ');
      buf_add(&b, w);
    }
    words = span_cut(words, blank ? n + 1 : n, words.n);
  }
  return b.n > 0 ? buf_span(&b) : (struct span){"", 0};
}

/* The strict line of an amount and words. */
static const char *compose(struct post_reader *r, const struct wanted *w, struct span words) {
  struct buf b;
  buf_init(&b, r->arena, 2 * words.n + 400);
  struct post_amount a = w->amount;
  static const double FEW = 5; /* so many may be pieces */
  bool grams =
      r->all_in_grams && a.low > 0 && text_holds(words, CLASS_NEVER_COUNTED); /* "in grams: salmon oil 1, taurine 0.5" */
  const char *unit = r->bare_unit[0] ? r->bare_unit : a.low >= FEW || grams ? r->loose_unit : "";
  if (a.bare && unit[0] && !a.by_word) {
    memcpy(a.unit, unit, strlen(unit) + 1);
    a.bare = false;
  }
  write_front(&b, &a, w->times, words);
  bool dose = is_dose(&a, words);
  if (dose) words = post_without_capsule(r, words);
  buf_addf(&b, " %.*s", SPAN_ARG(words));
  if (dose) {
    buf_addc(&b, ' ');
    amount_write(&b, &a, 1);
  }
  if (w->cooked) buf_addf(&b, ", %s", w->cooked);
  if (w->often[0]) buf_addf(&b, ", %s", w->often);
  return buf_text(&b);
}

/* A word that no food's name has: it may go when the line is understood without it. */
static bool may_go(struct post_reader *r, struct span word) {
  struct span folded = search_fold(&r->lib->image, word, r->arena);
  if (folded.n == 0 || is_chatter(word)) return true;
  if (is_a(word, CLASS_MAY_GO)) return true;
  return search_token(&r->lib->image, folded) == NULL && folded.n > 2 && memchr(folded.p, ' ', folded.n) == NULL &&
         is_a(word, CLASS_SHAPE_MAY_GO);
}

/* "live yogurt": is it the first word of these, or all of them? */
static bool begins_with_word(struct span words, struct span word) {
  return words.n >= word.n && span_eq(span_cut(words, 0, word.n), word) && (words.n == word.n || words.p[word.n] == ' ');
}

/* Words that the library's names do not spell so: told as an assumption. */
static const char *misspelt(struct post_reader *r, const char *name) {
  struct span words = r->food_words;
  struct tokens t = post_tokens(r, words);
  struct synonyms syn = search_synonyms(&r->lib->image);
  for (size_t i = 0; i < t.count; i++) {
    if (t.item[i].kind != TOKEN_WORD || t.item[i].word.n < 4 || token_is_a(&t.item[i], CLASS_CHATTER)) continue;
    struct span folded = search_fold(&r->lib->image, t.item[i].word, r->arena);
    bool known = folded.n == 0 || memchr(folded.p, ' ', folded.n) || search_token(&r->lib->image, folded);
    for (size_t k = 0; k < syn.count && !known; k++)
      known = begins_with_word(span_of(syn.strings + syn.row[k].from), folded);
    size_t used;
    if (known || unit_at_token(&t, i, &used) != UNIT_NONE || span_holds_fold(span_of(name), t.item[i].word)) continue;
    struct buf b;
    buf_init(&b, r->arena, 200);
    buf_addf(&b, "'%.*s' read as %s", SPAN_ARG(quoted(t.item[i].at)), name);
    return buf_text(&b);
  }
  return "";
}

/* "frozen green beans": a record of the frozen food goes before that of the fresh one. */
static const char *frozen_record(struct post_reader *r, const char *line, struct span words, struct ration_line *got) {
  struct search_hit hit;
  struct buf b;
  if (!span_holds_fold(words, SPAN_LIT("frozen")) || strstr(library_name(r->lib, got->shown_food), "frozen")) return line;
  buf_init(&b, r->arena, r->food_words.n + 200);
  buf_addf(&b, "frozen %.*s", SPAN_ARG(r->food_words));
  if (!post_look_up(r, buf_span(&b), &hit) || hit.words_missed > 0 || hit.score < 0.9) return line;
  if (!strstr(library_name(r->lib, hit.food), "frozen") ||
      library_food(r->lib, hit.food)->part != library_food(r->lib, got->shown_food)->part)
    return line;
  buf_init(&b, r->arena, strlen(line) + 100);
  buf_addf(&b, "%s [%s]", line, library_code(r->lib, hit.food));
  const char *assumed;
  return strict_takes(r, buf_text(&b), &assumed, got) ? buf_text(&b) : line;
}

/* "Dried seaweed" is an everyday name of its own: without its first word, which tells a state, another sort is found. */
static const char *dried_record(struct post_reader *r, const char *line, struct span words, struct ration_line *got) {
  struct search_hit hit;
  struct buf b;
  const char *assumed;
  if (!span_starts_fold(words, "dried ") || got->pinned) return line;
  if (!post_look_up(r, words, &hit) || !hit.exact_name || hit.words_missed > 0 || hit.food == got->shown_food) return line;
  buf_init(&b, r->arena, strlen(line) + 100);
  buf_addf(&b, "%s [%s]", line, library_code(r->lib, hit.food));
  return strict_takes(r, buf_text(&b), &assumed, got) ? buf_text(&b) : line;
}

/* "Rohu fish", "cod loin": the word behind the name of a fish says nothing, or which part of the fillet it is. */
static bool is_fish_besides(struct post_reader *r, struct span words, size_t last) {
  struct search_hit hit;
  if (!word_in(span_cut(words, last, words.n), "fish loin loins tail tails side sides flakes tailpiece")) return false;
  struct tokens t = post_tokens(r, post_trimmed(span_cut(words, 0, last)));
  return t.count > 0 && post_mention_at(r, &t, t.count - 1) == 1 && post_look_up(r, t.item[t.count - 1].at, &hit) &&
         library_food(r->lib, hit.food)->part == PART_FISH;
}

/* Whole animals whose names are also those of plants: was another food found for them? */
static bool names_prey(struct span words) {
  return text_holds(words, CLASS_WHOLE_PREY) && !text_holds(words, CLASS_NO_PREY);
}

static bool is_no_prey(struct post_reader *r, struct span words, uint32_t food) {
  return names_prey(words) && library_food(r->lib, food)->part != PART_MUSCLE &&
         !names_prey(span_of(library_name(r->lib, food)));
}

/* A raw wing, neck or drumstick is fed as it is bought: with its bone, unless the post says otherwise. */
static const char *with_its_bone(struct post_reader *r, const struct wanted *w, struct span words, const char **line,
                                 struct ration_line *got) {
  const struct img_food *food = library_food(r->lib, got->shown_food);
  struct ration_line whole;
  const char *assumed;
  bool raw = got->state == STATE_UNSTATED || got->state == STATE_RAW;
  if (!raw || food->part != PART_MUSCLE || !(food->bone_share > 0 && food->bone_share < 1) || got->part_count != 1 ||
      got->pinned || !post_is_bony_piece(w->said))
    return "";
  struct wanted with = *w;
  if (!w->amount.is_mass && !w->amount.is_percent) { /* tables weigh a piece as it is bought */
    with.amount = (struct post_amount){.low = got->grams_fed, .high = got->grams_fed, .unit = "g", .is_mass = true};
    with.times = 1;
  }
  struct buf b;
  buf_init(&b, r->arena, words.n + 20);
  buf_addf(&b, "%.*s, bone-in", SPAN_ARG(words));
  const char *bone_in = compose(r, &with, buf_span(&b));
  if (!strict_takes(r, bone_in, &assumed, &whole) || whole.part_count < 2) return "";
  *line = bone_in;
  *got = whole;
  struct buf note;
  buf_init(&note, r->arena, 200);
  buf_adds(&note, "counted with its bone, as raw pieces are fed; if the bone is taken out, ");
  num_sig(&note, whole.part[0].grams, 2);
  buf_adds(&note, " g of it are eaten");
  return buf_text(&note);
}

/* "a beef rib bone": the record of the meat is not meant. */
static bool is_bare_bone(struct post_reader *r, struct span words, uint32_t food) {
  struct tokens t = post_tokens(r, words);
  size_t last = t.count;
  while (last > 0 && t.item[last - 1].kind == TOKEN_MARK) last--;
  if (last < 2 || !says(&t, last - 1, "bone bones") || !is_word(&t, last - 2)) return false;
  if (says(&t, last - 2, "in on off no without with and the its his of a incl including less")) return false;
  const char *name = library_name(r->lib, food);
  return library_food(r->lib, food)->part == PART_MUSCLE && !strstr(name, "bones") && !strstr(name, "bone,");
}

/* More of one food than any dog is given in a day: the weight of an animal, or of a batch that was not understood. */
static const double MOST_OF_ONE_FOOD_G = 6000;

/* So many pieces of something that weighs more than a berry are not pieces: "celery: 35" left out its unit. */
static bool is_no_count(const struct wanted *w, const struct ration_line *got) {
  static const double MOST_PIECES = 15, BERRY_G = 10;
  double pieces = w->amount.low;
  if (span_holds_fold(w->whole, SPAN_LIT("week")) || span_holds_fold(w->whole, SPAN_LIT("month")))
    return false; /* of many days */
  return w->amount.bare && pieces > MOST_PIECES && got->grams_from && got->grams_from[0] &&
         got->grams_fed > pieces * BERRY_G;
}

/* "Sunflower seed oil" is no seed, "chicken broth" no chicken: what the last word says the record must say. */
static bool lacks_its_noun(struct post_reader *r, struct span words, uint32_t food) {
  struct tokens t = post_tokens(r, words);
  size_t last = 0;
  while (last < t.count && is_word(&t, last) && frequency_at(&t, last).tokens == 0) last++;
  if (last < 2 || !says(&t, last - 1, "oil broth stock flour milk butter juice sauce soup jerky") ||
      says(&t, last - 2, "in with of no and"))
    return false;
  struct search_hit hit; /* "eggshell flour" is an everyday name of the powder */
  if (post_look_up(r, words, &hit) && hit.exact_name && hit.words_missed == 0 && hit.food == food) return false;
  struct span noun = t.item[last - 1].word, name = span_of(library_name(r->lib, food));
  if (span_eq(noun, SPAN_LIT("stock")) || span_eq(noun, SPAN_LIT("broth")))
    return !span_holds_fold(name, SPAN_LIT("broth")) && !span_holds_fold(name, SPAN_LIT("stock")) &&
           !span_holds_fold(name, SPAN_LIT("soup"));
  return !span_holds_fold(name, noun) && !(library_food(r->lib, food)->part == PART_FAT_OIL);
}

/* "100 g gullet" is no mullet. */
static bool is_another_food(struct post_reader *r, struct span words, uint32_t food) {
  if (lacks_its_noun(r, words, food)) return true;
  struct span without = post_without_record(r, words);
  return without.n > 0 && !span_holds_fold(span_of(library_name(r->lib, food)), without);
}

/* "fish oil capsule every morning": how often stands at the end of the words, of which it would be cut off as saying
 * nothing;
 * "" where it does not. */
static const char *often_behind(struct post_reader *r, struct span words, size_t *n) {
  struct tokens t = post_tokens(r, words);
  for (size_t i = 1; i < t.count; i++) {
    struct frequency f = frequency_at(&t, i);
    if (f.tokens == 0) continue;
    if (f.refuse || i + f.tokens < t.count || (is_word(&t, i) && token_is_a(&t.item[i], CLASS_MEAL))) return "";
    *n = (size_t)(token_begin(&t, i) - words.p);
    return arena_text(r->arena, tokens_span(&t, i, f.tokens));
  }
  return "";
}

/* Tries the words, then without what may go at their end. */
bool post_try_words(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why) {
  bool first = true;
  size_t name = words.n;
  struct wanted often = *w;
  if (!w->often[0] && is_dose(&w->amount, words) && (often.often = often_behind(r, words, &name))[0])
    return post_try_words(r, &often, post_trimmed(span_cut(words, 0, name)), why);
  for (;; words = first ? words : post_trimmed(words)) { /* "bone meal" ends with a word that is chatter elsewhere */
    if (words.n == 0) return false;
    const char *assumed = "";
    const char *line = compose(r, w, words);
    struct ration_line got;
    bool taken = strict_takes(r, line, &assumed, &got);
    if (taken && (is_no_prey(r, words, got.shown_food) || is_another_food(r, words, got.shown_food))) taken = false;
    if (taken && is_bare_bone(r, words, got.shown_food)) taken = false;
    if (taken && got.grams_fed > MOST_OF_ONE_FOOD_G && !(r->makes_days > 0) && !(r->cooks_days > 0) && !r->in_bulk &&
        !r->period[0])
      taken = false;
    if (taken && is_no_count(w, &got)) taken = false;
    if (taken) {
      const char *bone = with_its_bone(r, w, words, &line, &got);
      if (bone[0]) assumed = "";
      line = dried_record(r, frozen_record(r, line, words, &got), words, &got);
      assumed = post_joined(r, bone, assumed);
      assumed = post_joined(r, assumed, misspelt(r, library_name(r->lib, got.shown_food)));
      if (span_holds_fold(w->said, SPAN_LIT("mutton")) || span_holds_fold(w->said, SPAN_LIT("hogget")))
        assumed = post_joined(r, "lamb stands in for mutton, which has no record; mutton is often fatter", assumed);
      if (w->amount.about) assumed = post_joined(r, "the owner's estimate, taken as a tenth more or less", assumed);
      if (w->amount.mug) assumed = post_joined(r, "a mug taken as 200 to 350 ml", assumed);
      if (w->amount.heaped && strcmp(w->amount.unit, "cup") == 0)
        assumed = post_joined(r, "a heaped cup taken as 1 to 1.3 level ones", assumed);
      else if (w->amount.heaped)
        assumed = post_joined(r, "a heaped spoon taken as 1 to 1.7 level ones", assumed);
      if (w->amount.scant) assumed = post_joined(r, "'scant' taken as 0.7 to 1 of a level one", assumed);
      assumed = post_joined(r, w->near, assumed);
      post_add(r, ITEM_FOOD, line, assumed);
      post_ask_about(r, &got, w->said);
      if (w->amount.mug) {
        r->item[r->count - 1].doubted = true;
        post_ask(r, 2, "How much does the mug in '%.*s' hold?", SPAN_ARG(post_quote(r, w->said)));
      }
      return true;
    }
    if (first) {
      *why = r->refused_for;
      first = false;
      if (post_trimmed(words).n < words.n) continue;
    }
    size_t last = words.n;
    while (last > 0 && words.p[last - 1] != ' ' && words.p[last - 1] != ',') last--;
    if (last == 0 || !(may_go(r, post_trimmed(span_cut(words, last, words.n))) || is_fish_besides(r, words, last)))
      return false;
    words.n = last;
  }
}
