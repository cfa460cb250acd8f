#include "foods/search.h"

#include "foods/search_memory.h"

/* Score of a record = share of the asked words that its name holds (by importance) x how well they were spelled
 * x fit of the wishes / (1 + losses); losses are the name's words that nobody asked for, the record's prior and its state.
 * The numbers behind the losses are those of data/name_words.tsv. docs/method/search.md explains the choice. */

static const double LEAST_SCORE = 0.35, RIVAL_WITHIN = 0.05;
/* What a surely named record leaves to all others, so that none of them is its rival. */
static const double BELOW_RIVALS = 0.94;
/* Importance of a word that no table has; up to which a word is no part of an everyday name ("fresh", "fillet"); and up to
 * which it may be missing from a record without a doubt about the food ("frozen", "leaf"). */
static const double UNKNOWN_IMPORTANCE = 1, SAYS_LITTLE = 0.35, MAY_BE_MISSING = 0.405;

/* What the words of the search found in one record. */
struct found {
  float weight;     /* of the asked words that are there, by importance */
  float quality;    /* the same times their quality */
  uint16_t unasked; /* hundredths: taken off the name's weight because the words were asked for */
  uint8_t telling;  /* asked words that fit, those that say little not counted */
  uint8_t last;     /* 1 + index of the last search word that fit, so that none counts twice */
};

struct query {
  struct search_words typed;         /* as they came, synonyms replaced */
  struct search_words full, content; /* put right; with and without the words that are wishes */
  struct search_wish wish;
  double importance[SEARCH_MOST_WORDS], total; /* of the content words */
  uint8_t telling;                             /* content words that must not be missing */
};

struct ranking {
  const struct library *lib;
  const struct query *query;
  struct search_hit *hit;
  size_t count, most;
  double scale;        /* of the scores of records that were not found by an everyday name */
  double least;        /* no hit below this is shown */
  double fits_at_most; /* by what it is wished to be */
  uint64_t named;      /* a bit for each record that was, by its number: no other can be there twice */
};

static void weigh_words(const struct image *img, struct query *q) {
  for (size_t i = 0; i < q->content.count; i++) {
    const struct img_token *t = search_token(img, q->content.at[i].text);
    q->importance[i] = t ? t->importance / 100.0 : UNKNOWN_IMPORTANCE;
    q->total += q->importance[i];
    q->telling = (uint8_t)(q->telling + (q->importance[i] > MAY_BE_MISSING));
  }
}

static bool same_text(struct search_word a, struct search_word b) { return span_eq(a.text, b.text); }

static void drop_repeated(struct search_words *w) {
  size_t kept = 0;
  for (size_t i = 0; i < w->count; i++) {
    bool seen = false;
    for (size_t k = 0; k < kept && !seen; k++) seen = same_text(w->at[k], w->at[i]);
    if (!seen) w->at[kept++] = w->at[i];
  }
  w->count = kept;
}

static void read_query(const struct library *lib, struct span folded, const struct search_wish *wish, struct query *q,
                       struct arena *a) {
  struct synonyms syn = search_synonyms(&lib->image);
  struct search_words typed = search_split(folded);
  struct search_words right = search_correct(lib, &syn, &typed, a);
  *q = (struct query){.typed = search_canonical(&syn, &typed), .full = search_canonical(&syn, &right), .wish = *wish};
  q->content = search_take_wishes(&q->full, &q->wish);
  drop_repeated(&q->content);
  weigh_words(&lib->image, q);
}

/* ---- records whose names hold the words ------------------------------------------------------------------------------- */

struct scan {
  const struct image *img;
  size_t foods;
  uint16_t *place;     /* [foods] 1 + index into 'found'; 0 none yet */
  struct found *found; /* of the foods with a word, in no order that matters; room for all of them */
  uint32_t *marked;    /* which food each is of */
  size_t marked_count;
};
enum { PLACES_MOST = UINT16_MAX - 1 };

static void mark_posting(struct scan *s, const struct img_posting *posting, const struct found *word) {
  if (posting->food >= s->foods) return;
  uint16_t *place = &s->place[posting->food];
  if (*place == 0) {
    s->found[s->marked_count] = *word;
    s->found[s->marked_count].unasked = posting->weight;
    s->marked[s->marked_count++] = posting->food;
    *place = (uint16_t)s->marked_count;
    return;
  }
  struct found *f = &s->found[*place - 1];
  if (f->last == word->last) return;
  f->last = word->last;
  f->telling = (uint8_t)(f->telling + word->telling);
  f->weight += word->weight;
  f->quality += word->quality;
  f->unasked = (uint16_t)(f->unasked + posting->weight);
}

static void mark_postings(struct scan *s, const struct img_token *t, size_t word, double importance, double quality) {
  const struct found of_word = {.weight = (float)importance,
                                .quality = (float)(importance * quality),
                                .telling = importance > MAY_BE_MISSING,
                                .last = (uint8_t)(word + 1)};
  size_t i = t->posting_first, end = i + t->posting_count, all = img_count(s->img, IMG_POSTINGS);
  if (end > all) end = all;
  while (i < end) {
    const struct img_posting *posting = img_rows_of_block(s->img, IMG_POSTINGS, i / BLOCK_POSTINGS);
    size_t next = (i / BLOCK_POSTINGS + 1) * BLOCK_POSTINGS;
    for (size_t to = next < end ? next : end; i < to; i++) mark_posting(s, &posting[i], &of_word);
  }
}

/* "salm" -> salmon: the more of the word is typed, the surer it is. */
static double prefix_quality(size_t typed, size_t whole) { return 0.7 + 0.25 * (double)typed / (double)whole; }

/* The words of the tables that begin so; not all of them where there are very many. */
static const struct img_token *beginnings(const struct image *img, struct span word, size_t *count) {
  enum { MOST_TOKENS = 300, SHORTEST = 2 };
  const struct img_token *t = word.n >= SHORTEST ? search_tokens_from(img, word, count) : NULL;
  if (!t) *count = 0;
  if (*count > MOST_TOKENS) *count = MOST_TOKENS;
  return t;
}

static void mark_beginnings(struct scan *s, struct span word, size_t index, double importance) {
  size_t count = 0;
  const struct img_token *t = beginnings(s->img, word, &count);
  for (size_t i = 0; i < count; i++) {
    size_t whole = strlen(img_str(s->img, t[i].text));
    if (whole > word.n) mark_postings(s, &t[i], index, importance, prefix_quality(word.n, whole));
  }
}

static void mark_foods(struct scan *s, const struct query *q) {
  for (size_t i = 0; i < q->content.count; i++) {
    const struct search_word *w = &q->content.at[i];
    const struct img_token *exact = search_token(s->img, w->text);
    if (exact) mark_postings(s, exact, i, q->importance[i], w->quality);
    if (w->may_be_unfinished) mark_beginnings(s, w->text, i, q->importance[i]);
  }
}

/* At most so many foods hold a word of the search: most searches need little room, and there are thousands. */
static size_t postings_of(const struct image *img, const struct query *q, size_t foods) {
  size_t n = 0;
  for (size_t i = 0; i < q->content.count && n < foods; i++) {
    const struct img_token *exact = search_token(img, q->content.at[i].text);
    n += exact ? exact->posting_count : 0;
    if (!q->content.at[i].may_be_unfinished) continue;
    size_t count = 0;
    const struct img_token *t = beginnings(img, q->content.at[i].text, &count);
    for (size_t k = 0; k < count; k++) n += t[k].posting_count;
  }
  return n < foods ? n : foods;
}

/* ---- the best of them ------------------------------------------------------------------------------------------------- */

static double rounded(double score) { return (double)(int32_t)(score * 10000 + 0.5) / 10000; }

/* Is 'a' to be shown before 'b'? Same score: the plainer, then the shorter name, then the code. */
static bool comes_before(const struct library *lib, const struct search_hit *a, const struct search_hit *b) {
  if (a->score != b->score) return a->score > b->score;
  if (a->exact_name != b->exact_name) return a->exact_name;
  uint32_t plain_a = library_food(lib, a->food)->flags & FOOD_PLAIN,
           plain_b = library_food(lib, b->food)->flags & FOOD_PLAIN;
  if (plain_a != plain_b) return plain_a != 0;
  size_t long_a = strlen(library_name(lib, a->food)), long_b = strlen(library_name(lib, b->food));
  if (long_a != long_b) return long_a < long_b;
  return strcmp(library_code(lib, a->food), library_code(lib, b->food)) < 0;
}

static double least_shown(const struct ranking *r) {
  return r->count == r->most && r->hit[r->most - 1].score > LEAST_SCORE ? r->hit[r->most - 1].score : LEAST_SCORE;
}

/* The better of two hits on one record stays. */
static void rank_hit(struct ranking *r, struct search_hit hit) {
  size_t same = 0;
  hit.score = rounded(hit.score);
  if (!(hit.score >= r->least)) return;
  if (hit.exact_name) r->named |= (uint64_t)1 << hit.food % 64;
  if ((r->named >> hit.food % 64 & 1) == 0) same = r->count;
  while (same < r->count && r->hit[same].food != hit.food) same++;
  if (same < r->count) {
    if (!comes_before(r->lib, &hit, &r->hit[same])) return;
    memmove(&r->hit[same], &r->hit[same + 1], (r->count - same - 1) * sizeof hit);
    r->count--;
  }
  size_t at = r->count;
  while (at > 0 && comes_before(r->lib, &hit, &r->hit[at - 1])) at--;
  if (at == r->most) return;
  if (r->count < r->most) r->count++;
  memmove(&r->hit[at + 1], &r->hit[at], (r->count - at - 1) * sizeof hit);
  r->hit[at] = hit;
  r->least = least_shown(r);
}

/* Would a record of quality / (1 + loss) be none of those shown, even if it fitted each wish? Without a division, as most
 * are looked at for nothing; rounding may lift a score by half of LIFT. */
static inline bool cannot_rank(const struct ranking *r, double quality, double loss) {
  static const double LIFT = 1e-4;
  return quality * r->scale * r->fits_at_most < (r->least - LIFT) * r->query->total * (1 + loss);
}

/* 'own_loss': what its name and its prior take off. */
static void rank_found(struct ranking *r, uint32_t food, const struct found *f, const struct img_search_food *named,
                       double own_loss) {
  const struct query *q = r->query;
  const struct img_food *record = library_food(r->lib, food);
  double loss = own_loss + search_unasked_loss(&q->wish, record);
  double score = f->quality / q->total * search_wish_fit(&q->wish, record, named) / (1 + loss);
  uint8_t missed = f->telling < q->telling ? (uint8_t)(q->telling - f->telling) : 0;
  rank_hit(r, (struct search_hit){food, score * r->scale, false, missed, ""});
}

static void rank_image_foods(struct ranking *r, struct arena *a) {
  const struct image *img = &r->lib->image;
  const struct img_search_food *named = IMG_ROWS(img, IMG_SEARCH_FOODS, struct img_search_food);
  size_t foods = img_count(img, IMG_FOODS);
  if (img_count(img, IMG_SEARCH_FOODS) < foods) foods = img_count(img, IMG_SEARCH_FOODS);
  if (foods == 0) return;
  if (foods > PLACES_MOST) foods = PLACES_MOST;
  size_t most = postings_of(img, r->query, foods);
  struct scan s = {.img = img,
                   .foods = foods,
                   .place = r->lib->searched ? search_places(r->lib->searched, foods) : ARENA_NEW(a, uint16_t, foods),
                   .found = arena_raw(a, most + 1, sizeof(struct found)),
                   .marked = arena_raw(a, most + 1, sizeof(uint32_t))};
  mark_foods(&s, r->query);
  for (size_t i = 0; i < s.marked_count; i++) {
    uint32_t food = s.marked[i];
    const struct found *f = &s.found[i];
    double own_loss = (named[food].words_weight - f->unasked) / 100.0 + named[food].prior / 100.0;
    s.place[food] = 0;
    if (f->weight > 0 && !cannot_rank(r, f->quality, own_loss)) rank_found(r, food, f, &named[food], own_loss);
  }
}

/* ---- foods that the user brought along ----------------------------------------------------------------------------------
 */

static double own_word_quality(const struct search_words *name, const struct search_word *asked) {
  double best = 0;
  for (size_t i = 0; i < name->count; i++) {
    struct span word = name->at[i].text;
    double quality = 0;
    if (span_eq(word, asked->text))
      quality = asked->quality;
    else if (asked->may_be_unfinished && word.n > asked->text.n && span_eq(span_cut(word, 0, asked->text.n), asked->text))
      quality = prefix_quality(asked->text.n, word.n);
    if (quality > best) best = quality;
  }
  return best;
}

static struct search_words own_name(const struct ranking *r, uint32_t food, struct arena *a) {
  struct synonyms syn = search_synonyms(&r->lib->image);
  struct search_words plain = search_split(search_fold(&r->lib->image, span_of(library_name(r->lib, food)), a));
  return search_canonical(&syn, &plain);
}

static void rank_own_food(struct ranking *r, uint32_t food, struct arena *a) {
  static const double UNASKED_WORD = 0.05;
  const struct query *q = r->query;
  struct search_words name = own_name(r, food, a);
  struct found f = {0};
  size_t fitted = 0;
  for (size_t i = 0; i < q->content.count; i++) {
    double quality = own_word_quality(&name, &q->content.at[i]);
    if (!(quality > 0)) continue;
    /* A word that the image does not know weighs in full; so does one that only an own food gives meaning to. */
    fitted++;
    f.telling = (uint8_t)(f.telling + (q->importance[i] > MAY_BE_MISSING));
    f.weight += (float)q->importance[i];
    f.quality += (float)(q->importance[i] * quality);
  }
  if (!(f.weight > 0)) return;
  double own_loss = UNASKED_WORD * (double)(name.count > fitted ? name.count - fitted : 0);
  if (!cannot_rank(r, f.quality, own_loss)) rank_found(r, food, &f, NULL, own_loss);
}

static void rank_own_foods(struct ranking *r, struct arena *a) {
  size_t first = img_count(&r->lib->image, IMG_FOODS);
  for (size_t i = 0; i < r->lib->own_count; i++) rank_own_food(r, (uint32_t)(first + i), a);
}

static bool same_list(const struct search_words *a, const struct search_words *b) {
  bool same = a->count == b->count && a->count > 0;
  for (size_t i = 0; same && i < a->count; i++) same = same_text(a->at[i], b->at[i]);
  return same;
}

/* The words as they were typed, for putting right may turn one of them into another; "raw" may have been read as a wish
 * already. */
static bool is_own_name(const struct ranking *r, uint32_t food, struct arena *a) {
  const struct query *q = r->query;
  struct search_words name = own_name(r, food, a);
  if (same_list(&name, &q->typed)) return true;
  struct search_wish of_name = SEARCH_WISH_NONE, of_query = SEARCH_WISH_NONE;
  struct search_words bare = search_take_wishes(&name, &of_name), asked = search_take_wishes(&q->typed, &of_query);
  return of_name.state == q->wish.state && same_list(&bare, &asked);
}

/* Whoever gave a food a name means it by that name, whatever else the words fit and however it is cooked. */
static void rank_own_names(struct ranking *r, struct arena *a) {
  size_t first = img_count(&r->lib->image, IMG_FOODS), named = 0;
  for (size_t i = 0; i < r->lib->own_count; i++) {
    uint32_t food = (uint32_t)(first + i);
    if (!is_own_name(r, food, a)) continue;
    for (size_t k = 0; named == 0 && k < r->count; k++)
      r->hit[k].score = fmax(LEAST_SCORE, rounded(r->hit[k].score * BELOW_RIVALS));
    r->least = least_shown(r);
    if (named++ == 0) r->scale *= BELOW_RIVALS;
    rank_hit(r, (struct search_hit){food, 1, true, 0, ""});
  }
}

/* ---- everyday names ------------------------------------------------------------------------------------------------------
 */

static size_t letters(const struct search_words *w) {
  size_t n = w->count > 0 ? w->count - 1 : 0;
  for (size_t i = 0; i < w->count; i++) n += w->at[i].text.n;
  return n;
}

static bool phrase_has(const char *phrase, struct span word) {
  for (const char *p = phrase; *p;) {
    size_t n = strcspn(p, " ");
    if (n == word.n && memcmp(p, word.p, n) == 0) return true;
    p += n + (p[n] == ' ');
  }
  return false;
}

/* A bit for each first letter: most names of the table begin with another one. */
static uint32_t first_letters(const struct search_words *w) {
  uint32_t mask = 0;
  for (size_t i = 0; i < w->count; i++)
    if (w->at[i].text.n > 0) mask |= 1U << (w->at[i].text.p[0] & 31);
  return mask;
}

static bool has_repeated(const struct search_words *w) {
  for (size_t i = 0; i < w->count; i++)
    for (size_t k = 0; k < i; k++)
      if (same_text(w->at[k], w->at[i])) return true;
  return false;
}

/* The same words in any order; of equal length, so that neither side has a word too many. */
static bool same_words(const struct search_words *w, size_t length, const char *phrase) {
  if (strlen(phrase) != length) return false;
  for (size_t i = 0; i < w->count; i++)
    if (!phrase_has(phrase, w->at[i].text)) return false;
  return true;
}

static double spelling(const struct search_words *w) {
  double quality = 1;
  for (size_t i = 0; i < w->count; i++)
    if (w->at[i].quality < quality) quality = w->at[i].quality;
  return quality;
}

/* What the table of everyday names has for the words. */
enum named { NAMED_NOT, NAMED_STAND_IN, NAMED_FOOD };

static enum named rank_named(struct ranking *r, const struct search_words *w) {
  static const double RANK_STEP = 0.02, STAND_IN = 0.59;
  const struct image *img = &r->lib->image;
  const struct img_name *name = IMG_ROWS(img, IMG_NAMES, struct img_name);
  const struct img_search_food *marks = IMG_ROWS(img, IMG_SEARCH_FOODS, struct img_search_food);
  size_t length = letters(w), foods = img_count(img, IMG_SEARCH_FOODS);
  uint32_t begins = first_letters(w), sum = search_sum(w);
  /* "egg egg" is all in "hen egg", and no sum tells. */
  const struct search_memory *memory = has_repeated(w) ? NULL : r->lib->searched;
  enum named found = NAMED_NOT;
  if (w->count == 0) return found;
  for (size_t i = 0; (i = search_name_from(memory, img, sum, i)) < img_count(img, IMG_NAMES); i++) {
    if (!(begins >> (img_str(img, name[i].phrase)[0] & 31) & 1)) continue;
    if (name[i].food >= foods || !same_words(w, length, img_str(img, name[i].phrase))) continue;
    bool stand_in = name[i].rank >= SEARCH_STAND_IN_RANK;
    double fit = search_wish_fit(&r->query->wish, library_food(r->lib, name[i].food), &marks[name[i].food]);
    double score = stand_in ? STAND_IN * fit : spelling(w) * fit - RANK_STEP * name[i].rank;
    rank_hit(r, (struct search_hit){name[i].food, score, true, 0, img_str(img, name[i].note)});
    if (found != NAMED_FOOD) found = stand_in ? NAMED_STAND_IN : NAMED_FOOD;
  }
  return found;
}

/* Without the words that say little ("fresh", "organic", "fillet"), which an everyday name does not list either. */
static struct search_words telling_words(const struct image *img, const struct search_words *w) {
  struct search_words out = {.count = 0};
  for (size_t i = 0; i < w->count; i++) {
    const struct img_token *t = search_token(img, w->at[i].text);
    if (!t || t->importance / 100.0 > SAYS_LITTLE) out.at[out.count++] = w->at[i];
  }
  return out;
}

/* As typed; put right; without what tells only the cut; without the way of cooking. The first that the table has counts. */
static enum named rank_names(struct ranking *r) {
  const struct image *img = &r->lib->image;
  struct search_words uncut = search_without_cut(&r->query->full), content = telling_words(img, &r->query->content);
  const struct search_words *const form[] = {&r->query->typed, &r->query->full, &uncut, &content};
  enum named found = NAMED_NOT;
  for (size_t i = 0; i < COUNT_OF(form) && found == NAMED_NOT; i++) found = rank_named(r, form[i]);
  return found;
}

/* "heart" may be a dozen foods and is none of them: nothing that happens to hold the word may be taken for it. And where an
 * everyday name fits as asked, its own records are the rivals: nobody who writes "egg" may mean the egg of a goose. */
static double scale_of(const struct ranking *r, enum named found) {
  static const double BELOW_STAND_INS = 0.58;
  if (found == NAMED_STAND_IN) return BELOW_STAND_INS;
  return found == NAMED_FOOD && r->count > 0 && r->hit[0].score >= BELOW_RIVALS ? BELOW_RIVALS : 1;
}

static size_t search_anew(const struct library *lib, struct span folded, const struct search_wish *wish, bool only_named,
                          struct search_hit *hits, size_t most, struct arena *scratch) {
  struct query q;
  read_query(lib, folded, wish, &q, scratch);
  struct ranking r = {.lib = lib, .query = &q, .hit = hits, .most = most, .scale = 1, .least = LEAST_SCORE};
  r.fits_at_most = q.wish.lean ? SEARCH_FITS_AT_MOST : 1;
  r.scale = scale_of(&r, rank_names(&r));
  rank_own_names(&r, scratch);
  if (q.total > 0 && (r.count > 0 || !only_named)) {
    rank_image_foods(&r, scratch);
    rank_own_foods(&r, scratch);
  }
  return r.count;
}

/* As many as the memory keeps are looked for, whoever asks first: the best few are the first of them. Of words that name
 * nothing, when only names are asked for, nothing is found and nothing kept. */
static size_t search_once(const struct library *lib, struct span folded, const struct search_wish *wish, bool only_named,
                          struct search_hit *hits, size_t most, struct arena *scratch) {
  struct search_hit found[SEARCHED_HITS];
  const struct searched *kept = search_kept(lib->searched, folded, wish);
  size_t count = kept ? kept->count : search_anew(lib, folded, wish, only_named, found, SEARCHED_HITS, scratch);
  if (!kept && (count > 0 || !only_named)) search_keep(lib->searched, folded, wish, found, count);
  if (count > most) count = most;
  if (count > 0) memcpy(hits, kept ? kept->hits : found, count * sizeof *hits);
  return count;
}

static size_t search(const struct library *lib, struct span words, const struct search_wish *wish, bool only_named,
                     struct search_hit *hits, size_t most, struct arena *scratch) {
  struct arena_mark mark = arena_mark(scratch);
  struct span folded = search_fold(&lib->image, words, scratch);
  size_t count = lib->searched && most <= SEARCHED_HITS ? search_once(lib, folded, wish, only_named, hits, most, scratch)
                                                        : search_anew(lib, folded, wish, only_named, hits, most, scratch);
  arena_rewind(scratch, mark);
  return count;
}

size_t search_foods(const struct library *lib, struct span words, const struct search_wish *wish, struct search_hit *hits,
                    size_t most, struct arena *scratch) {
  struct search_wish none = SEARCH_WISH_NONE;
  return most > 0 ? search(lib, words, wish ? wish : &none, false, hits, most, scratch) : 0;
}

bool search_names(const struct library *lib, struct span words, struct search_hit *hit, struct arena *scratch) {
  struct search_wish none = SEARCH_WISH_NONE;
  return search(lib, words, &none, true, hit, 1, scratch) > 0 && hit->exact_name;
}

size_t search_rivals(const struct search_hit *hits, size_t count) {
  size_t n = 0;
  while (n + 1 < count && hits[n + 1].score >= hits[0].score - RIVAL_WITHIN) n++;
  return n;
}
