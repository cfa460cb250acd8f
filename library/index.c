/* The search index: folds, synonyms, words of the names, everyday names.
 *
 * Runs after the foods are in the writer and reads their names there, so that the index cannot know other foods than the
 * image does. Names are folded and their synonyms replaced by the very functions that searches go through. */
#include <stdlib.h>
#include <utf8proc.h>

#include "base/num.h"
#include "foods/search_words.h"
#include "library/writer.h"

/* ---- accented letters --------------------------------------------------------------------------------------------------
 */

/* Letters that Unicode does not take apart into a plain letter and a mark. */
static const struct {
  uint32_t code_point;
  const char *plain;
} UNDIVIDED[] = {{0xc6, "ae"}, {0xd0, "d"},   {0xd8, "o"},   {0xde, "th"},  {0xe6, "ae"},  {0xf0, "d"},  {0xf8, "o"},
                 {0xfe, "th"}, {0x110, "d"},  {0x111, "d"},  {0x126, "h"},  {0x127, "h"},  {0x131, "i"}, {0x141, "l"},
                 {0x142, "l"}, {0x14a, "ng"}, {0x14b, "ng"}, {0x152, "oe"}, {0x153, "oe"}, {0x166, "t"}, {0x167, "t"},
                 {0x2b9, ""},  {0x2bc, ""},   {0x2018, ""},  {0x2019, ""}};

static const struct {
  uint32_t first, last;
} FOLDED_RANGE[] = {{0xc0, 0x24f},    {0x2b9, 0x2bc},   {0x300, 0x36f},  {0x1e00, 0x1eff},
                    {0x2018, 0x2019}, {0xfb00, 0xfb06}, {0xff01, 0xff5e}};

static bool is_plain(const char *text) {
  for (; *text; text++)
    if (!((*text >= 'a' && *text <= 'z') || (*text >= '0' && *text <= '9'))) return false;
  return true;
}

/* False when the character has no plain letters: it then parts words like any punctuation. */
static bool plain_letters(uint32_t code_point, char plain[4]) {
  utf8proc_uint8_t text[5] = {0}, *out = NULL;
  for (size_t i = 0; i < COUNT_OF(UNDIVIDED); i++)
    if (UNDIVIDED[i].code_point == code_point) {
      memcpy(plain, UNDIVIDED[i].plain, strlen(UNDIVIDED[i].plain));
      return true;
    }
  utf8proc_encode_char((utf8proc_int32_t)code_point, text);
  utf8proc_ssize_t n = utf8proc_map(
      text, 0, &out, UTF8PROC_NULLTERM | UTF8PROC_DECOMPOSE | UTF8PROC_COMPAT | UTF8PROC_CASEFOLD | UTF8PROC_STRIPMARK);
  bool mark = code_point >= 0x300 && code_point <= 0x36f; /* folds to nothing */
  bool fine = out && n <= 4 && (n > 0 || mark) && is_plain((const char *)out);
  if (fine) memcpy(plain, out, (size_t)n);
  free(out);
  return fine;
}

struct index {
  struct writer *w;
  struct arena *arena;
  const char *data_dir;
  struct img_fold *folds;
  size_t fold_count, fold_cap;
  struct img_synonym *synonym;
  size_t synonym_count;
  const struct img_food *food;
  size_t food_count;
  struct word_rule {
    const char *word;
    double unasked, asked; /* NaN: by its place in the name; 1 */
    bool group;
  } * rule;
  size_t rule_count;
  struct occurrence {
    const char *word;
    uint32_t food; /* NO_INDEX: a word that no name need hold */
    uint16_t position, weight;
  } * at;
  size_t count, cap;
};

static void build_folds(struct index *x) {
  for (size_t r = 0; r < COUNT_OF(FOLDED_RANGE); r++)
    for (uint32_t c = FOLDED_RANGE[r].first; c <= FOLDED_RANGE[r].last; c++) {
      struct img_fold f = {c, {0}};
      if (plain_letters(c, f.plain)) ARENA_PUSH(x->arena, x->folds, x->fold_count, x->fold_cap, f);
    }
  writer_section(x->w, IMG_FOLDS, x->folds, x->fold_count, sizeof *x->folds);
}

static struct span folded(const struct index *x, struct span words) {
  return search_fold_with(x->folds, x->fold_count, words, x->arena);
}

/* ---- synonyms ----------------------------------------------------------------------------------------------------------
 */

static const char *text_of(const struct index *x, img_text t) { return x->w->strings.p + t; }

struct synonym_order {
  const char *from;
  struct img_synonym row;
  size_t line;
};

static int by_from(const void *a, const void *b) {
  return strcmp(((const struct synonym_order *)a)->from, ((const struct synonym_order *)b)->from);
}

static void build_synonyms(struct index *x) {
  static const char *const COLUMNS[] = {"from", "to", "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(x->arena, x->data_dir, "synonyms.tsv"), COLUMNS, x->arena);
  struct synonym_order *order = ARENA_NEW(x->arena, struct synonym_order, t.rows);
  for (size_t i = 0; i < t.rows; i++) {
    struct span from = folded(x, tsv_cell(&t, i, "from")), to = folded(x, tsv_cell(&t, i, "to"));
    if (from.n == 0 || search_split(from).count > SYNONYM_MOST_WORDS) tsv_fail(&t, i, "'from' needs one to three words");
    source_index(&t, i, "source");
    tsv_word(&t, i, "confidence", confidence_word, CONF_COUNT);
    order[i] = (struct synonym_order){from.p, {writer_text(x->w, from), writer_text(x->w, to)}, i};
  }
  qsort(order, t.rows, sizeof *order, by_from);
  x->synonym = ARENA_NEW(x->arena, struct img_synonym, t.rows);
  for (size_t i = 0; i < t.rows; i++) {
    if (i > 0 && strcmp(order[i].from, order[i - 1].from) == 0)
      tsv_fail(&t, order[i].line, "'%s' is there twice", order[i].from);
    x->synonym[i] = order[i].row;
  }
  x->synonym_count = t.rows;
  writer_section(x->w, IMG_SYNONYMS, x->synonym, x->synonym_count, sizeof *x->synonym);
}

static struct search_words canonical(const struct index *x, struct span words) {
  struct synonyms syn = {x->synonym, x->synonym_count, x->w->strings.p};
  struct search_words plain = search_split(folded(x, words));
  return search_canonical(&syn, &plain);
}

/* ---- what a word weighs ------------------------------------------------------------------------------------------------
 */

static void read_rules(struct index *x) {
  static const char *const COLUMNS[] = {"word", "unasked", "asked", "kind", "source", "confidence", NULL};
  static const char *const KINDS[] = {"", "group"};
  struct tsv t;
  tsv_read(&t, path_join(x->arena, x->data_dir, "name_words.tsv"), COLUMNS, x->arena);
  x->rule = ARENA_NEW(x->arena, struct word_rule, t.rows);
  for (size_t i = 0; i < t.rows; i++) {
    struct search_words w = canonical(x, tsv_cell(&t, i, "word"));
    if (w.count != 1) tsv_fail(&t, i, "one word, please, and none that a synonym replaces by several or by nothing");
    double unasked = tsv_number(&t, i, "unasked"), asked = tsv_number(&t, i, "asked");
    if (unasked < 0 || unasked > 2 || asked < 0 || asked > 1) tsv_fail(&t, i, "unasked is 0 to 2, asked 0 to 1");
    for (size_t k = 0; k < i; k++)
      if (span_is(w.at[0].text, x->rule[k].word)) tsv_fail(&t, i, "'%s' is there twice", x->rule[k].word);
    bool group = tsv_word(&t, i, "kind", KINDS, COUNT_OF(KINDS)) == 1;
    source_index(&t, i, "source");
    tsv_word(&t, i, "confidence", confidence_word, CONF_COUNT);
    x->rule[i] = (struct word_rule){arena_text(x->arena, w.at[0].text), unasked, asked, group};
    x->rule_count = i + 1;
  }
}

static const struct word_rule *rule_of(const struct index *x, struct span word) {
  for (size_t i = 0; i < x->rule_count; i++)
    if (span_is(word, x->rule[i].word)) return &x->rule[i];
  return NULL;
}

/* ---- the words of one name ---------------------------------------------------------------------------------------------
 */

/* "Fish, salmon (pink), raw" has the segments "Fish", "salmon", "(pink)", "raw". */
struct segment {
  struct span text;
  bool aside; /* in brackets: another name, or a remark */
};

enum { MOST_SEGMENTS = 40 };

static size_t part_name(struct span name, struct segment *out) {
  size_t n = 0, from = 0;
  bool aside = false;
  for (size_t i = 0; i <= name.n && n < MOST_SEGMENTS; i++) {
    char c = i < name.n ? name.p[i] : ',';
    if (c != ',' && c != '(' && c != ')') continue;
    struct span piece = span_trim(span_cut(name, from, i));
    if (piece.n > 0) out[n++] = (struct segment){piece, aside};
    from = i + 1;
    if (c != ',') aside = c == '(';
  }
  return n;
}

/* Words in capitals inside a published name are makers' names. */
static bool is_shouted(struct span segment, struct span word) {
  for (size_t i = 0; word.n >= 3 && i + word.n <= segment.n; i++) {
    size_t k = 0;
    while (k < word.n && segment.p[i + k] >= 'A' && segment.p[i + k] <= 'Z' && segment.p[i + k] + ('a' - 'A') == word.p[k])
      k++;
    if (k == word.n) return true;
  }
  return false;
}

/* What a record loses for a word that was not asked for. The name begins with the food itself, so a word there makes it
 * another food ("Sweet potato"), while later words only tell variants apart. */
static double weight_by_place(int place, bool head_has_alias) {
  static const double BY_PLACE[] = {0.70, 0.05}, LATER = 0.03, HEAD_WITH_ALIAS = 0.15;
  if (place == 0 && head_has_alias) return HEAD_WITH_ALIAS;
  return place < 0 ? LATER : place < (int)COUNT_OF(BY_PLACE) ? BY_PLACE[place] : LATER;
}

static bool only_group_words(const struct index *x, const struct search_words *w) {
  for (size_t i = 0; i < w->count; i++) {
    const struct word_rule *r = rule_of(x, w->at[i].text);
    if (!r || !r->group) return false;
  }
  return true;
}

static double word_weight(const struct index *x, const struct segment *s, const struct search_words *w, size_t i, int place,
                          bool head_has_alias) {
  static const double MAKER = 0.15, ASIDE = 0.02;
  struct span word = w->at[i].text;
  const struct word_rule *rule = rule_of(x, word);
  struct span before = i > 0 ? w->at[i - 1].text : (struct span){"", 0};
  bool after_percent = before.n > 0 && before.p[before.n - 1] == '%';
  if (after_percent) return 0; /* "90% lean meat / 10% fat": read as a number, not as words */
  /* "Cheese, cheddar": a group word ahead of the food itself hardly makes it another food. */
  if (rule && rule->unasked >= 0 && !s->aside) return place < 0 ? rule->unasked / 4 : rule->unasked;
  if (s->aside) return rule && rule->unasked < ASIDE ? rule->unasked : ASIDE;
  if (word.p[0] >= '0' && word.p[0] <= '9') return 0.01;
  double weight = weight_by_place(place, head_has_alias);
  return place > 0 && is_shouted(s->text, word) && weight < MAKER ? MAKER : weight;
}

struct name_index {
  struct occurrence word[SEARCH_MOST_WORDS * 2];
  size_t count;
};

static void note_word(struct index *x, struct name_index *n, struct span word, uint32_t food, size_t position,
                      double weight) {
  uint16_t hundredths = (uint16_t)(weight * 100 + 0.5);
  for (size_t i = 0; i < n->count; i++)
    if (span_is(word, n->word[i].word)) { /* said before: counts once, where it weighs most */
      if (hundredths > n->word[i].weight) n->word[i].weight = hundredths;
      return;
    }
  if (n->count == COUNT_OF(n->word)) return;
  n->word[n->count++] = (struct occurrence){arena_text(x->arena, word), food, (uint16_t)position, hundredths};
}

static void read_marks(const struct search_words *w, struct img_search_food *out) {
  for (size_t i = 0; i < w->count; i++) {
    double percent = 0;
    struct span word = w->at[i].text;
    bool lean_next = i + 1 < w->count && span_is(w->at[i + 1].text, "lean");
    if (span_is(word, "bonein")) out->cut = SEARCH_CUT_BONE_IN;
    if (span_is(word, "boneless")) out->cut = SEARCH_CUT_BONELESS;
    if (lean_next && num_read(word, &percent) + 1 == word.n && percent <= 100) out->lean_percent = (uint8_t)(percent + 0.5);
  }
}

static double prior_of(const struct img_food *f, const char *code) {
  static const struct {
    uint32_t flag;
    double loss;
  } FLAG_LOSS[] = {{FOOD_BRAND, 0.35}, {FOOD_DISH, 0.35}, {FOOD_SALTED, 0.10}, {FOOD_ENRICHED, 0.06}};
  /* The Indian table names its foods in one word and gives fewer nutrients: it stands behind the fuller record. */
  static const double SECOND_TABLE = 0.12, NOT_PLAIN = 0.02;
  double loss = strncmp(code, "ifct:", 5) == 0 ? SECOND_TABLE : 0;
  for (size_t i = 0; i < COUNT_OF(FLAG_LOSS); i++)
    if (f->flags & FLAG_LOSS[i].flag) loss += FLAG_LOSS[i].loss;
  return f->flags & FOOD_PLAIN ? loss : loss + NOT_PLAIN;
}

static void index_name(struct index *x, uint32_t food, struct img_search_food *out) {
  struct segment segment[MOST_SEGMENTS];
  size_t n = part_name(span_of(text_of(x, x->food[food].name)), segment), position = 0;
  struct name_index words = {.count = 0};
  int place = -1; /* of the segment among those that say which food it is; -1 before the first */
  for (size_t i = 0; i < n; i++) {
    struct search_words w = canonical(x, segment[i].text);
    if (!segment[i].aside && (place >= 0 || !only_group_words(x, &w))) place++;
    bool alias = place == 0 && i + 1 < n && segment[i + 1].aside;
    for (size_t k = 0; k < w.count; k++)
      note_word(x, &words, w.at[k].text, food, position++, word_weight(x, &segment[i], &w, k, place, alias));
    read_marks(&w, out);
  }
  uint32_t total = 0;
  for (size_t i = 0; i < words.count; i++) {
    ARENA_PUSH(x->arena, x->at, x->count, x->cap, words.word[i]);
    total += words.word[i].weight;
  }
  out->words_weight = (uint16_t)(total > UINT16_MAX ? UINT16_MAX : total);
  out->prior = (uint16_t)(prior_of(&x->food[food], text_of(x, x->food[food].code)) * 100 + 0.5);
  out->name_words = (uint8_t)words.count;
}

static void index_names(struct index *x) {
  struct img_search_food *out = ARENA_NEW(x->arena, struct img_search_food, x->food_count);
  for (size_t i = 0; i < x->food_count; i++) index_name(x, (uint32_t)i, &out[i]);
  writer_section(x->w, IMG_SEARCH_FOODS, out, x->food_count, sizeof *out);
}

/* ---- everyday names ------------------------------------------------------------------------------------------------------
 */

static uint32_t food_by_code(const struct index *x, struct span code) {
  for (size_t i = 0; i < x->food_count; i++)
    if (span_is(code, text_of(x, x->food[i].code))) return (uint32_t)i;
  return NO_INDEX;
}

static void note_typed_words(struct index *x, const struct search_words *w) {
  for (size_t i = 0; i < w->count; i++) {
    struct occurrence o = {arena_text(x->arena, w->at[i].text), NO_INDEX, 0, 0};
    ARENA_PUSH(x->arena, x->at, x->count, x->cap, o);
  }
}

static img_text joined_words(struct index *x, const struct search_words *w) {
  struct buf b;
  buf_init(&b, x->arena, 1000);
  for (size_t i = 0; i < w->count; i++) buf_addf(&b, "%s%.*s", i ? " " : "", SPAN_ARG(w->at[i].text));
  return writer_textz(x->w, buf_text(&b));
}

static void build_names(struct index *x) {
  static const char *const COLUMNS[] = {"phrase", "code", "rank", "source", "confidence", "note", NULL};
  struct tsv t;
  tsv_read(&t, path_join(x->arena, x->data_dir, "names.tsv"), COLUMNS, x->arena);
  struct img_name *name = ARENA_NEW(x->arena, struct img_name, t.rows);
  size_t count = 0;
  for (size_t i = 0; i < t.rows; i++) {
    struct span code = tsv_cell(&t, i, "code");
    struct search_words w = canonical(x, tsv_cell(&t, i, "phrase"));
    uint32_t food = food_by_code(x, code);
    double rank = tsv_number(&t, i, "rank");
    source_index(&t, i, "source");
    tsv_word(&t, i, "confidence", confidence_word, CONF_COUNT);
    if (w.count == 0) tsv_fail(&t, i, "the phrase has no words");
    if (!(rank >= 0 && rank <= 9)) tsv_fail(&t, i, "rank is 0 (best) to 9");
    if (food == NO_INDEX) tsv_fail(&t, i, "there is no food '%.*s'", SPAN_ARG(code));
    note_typed_words(x, &w);
    img_text phrase = joined_words(x, &w);
    for (size_t k = 0; k < count; k++)
      if (name[k].phrase == phrase &&
          (name[k].food == food || (name[k].rank == (uint32_t)rank && rank < SEARCH_STAND_IN_RANK)))
        tsv_fail(&t, i, "'%s' has this food or this rank already", text_of(x, phrase));
    name[count++] = (struct img_name){phrase, writer_text(x->w, tsv_cell(&t, i, "phrase")), food, (uint32_t)rank,
                                      writer_text(x->w, tsv_cell(&t, i, "note"))};
  }
  writer_section(x->w, IMG_NAMES, name, count, sizeof *name);
}

/* ---- tokens --------------------------------------------------------------------------------------------------------------
 */

static int by_word_and_food(const void *a, const void *b) {
  const struct occurrence *x = a, *y = b;
  int order = strcmp(x->word, y->word);
  if (order != 0) return order;
  return x->food < y->food ? -1 : x->food > y->food;
}

static uint32_t importance_of(const struct index *x, const char *word) {
  const struct word_rule *r = rule_of(x, span_of(word));
  return r && r->asked >= 0 ? (uint32_t)(r->asked * 100 + 0.5) : 100;
}

static void build_tokens(struct index *x) {
  qsort(x->at, x->count, sizeof *x->at, by_word_and_food);
  struct img_token *token = ARENA_NEW(x->arena, struct img_token, x->count);
  struct img_posting *posting = ARENA_NEW(x->arena, struct img_posting, x->count);
  size_t tokens = 0, postings = 0;
  for (size_t i = 0; i < x->count; i++) {
    const struct occurrence *o = &x->at[i];
    if (i == 0 || strcmp(o->word, x->at[i - 1].word) != 0)
      token[tokens++] = (struct img_token){writer_textz(x->w, o->word), (uint32_t)postings, 0, importance_of(x, o->word)};
    if (o->food == NO_INDEX) continue;
    token[tokens - 1].posting_count++;
    posting[postings++] = (struct img_posting){o->food, o->position, o->weight};
  }
  writer_section(x->w, IMG_TOKENS, token, tokens, sizeof *token);
  writer_section(x->w, IMG_POSTINGS, posting, postings, sizeof *posting);
}

void build_index(struct writer *w, const char *data_dir) {
  struct index x = {.w = w, .arena = w->arena, .data_dir = data_dir};
  x.food = w->section[IMG_FOODS].rows;
  x.food_count = w->section[IMG_FOODS].count;
  build_folds(&x);
  build_synonyms(&x);
  read_rules(&x);
  for (size_t i = 0; i < x.rule_count; i++) {
    struct search_words word = search_split(span_of(x.rule[i].word));
    note_typed_words(&x, &word);
  }
  index_names(&x);
  build_names(&x);
  build_tokens(&x);
}
