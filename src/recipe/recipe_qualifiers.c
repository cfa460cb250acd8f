/* What the words around a food's name say about it: how it was cooked, weighed, boned, cut. */
#include <math.h>

#include "recipe/recipe_line.h"

enum effect { STATE, RAW_WEIGHT, COOKED_WEIGHT, BONE, SKIN, LEAN, BROTH, DRAINED, CUTTING };

static const struct {
  const char *phrase;
  enum effect effect;
  int value;
} QUALIFIERS[] = {
    {"raw", STATE, STATE_RAW},
    {"uncooked", STATE, STATE_RAW},
    {"boiled", STATE, STATE_BOILED},
    {"poached", STATE, STATE_BOILED},
    {"hard-boiled", STATE, STATE_BOILED},
    {"hard boiled", STATE, STATE_BOILED},
    {"soft-boiled", STATE, STATE_BOILED},
    {"soft boiled", STATE, STATE_BOILED},
    {"simmered", STATE, STATE_SIMMERED},
    {"stewed", STATE, STATE_SIMMERED},
    {"braised", STATE, STATE_SIMMERED},
    {"casseroled", STATE, STATE_SIMMERED},
    {"slow-cooked", STATE, STATE_SIMMERED},
    {"slow cooked", STATE, STATE_SIMMERED},
    {"baked", STATE, STATE_BAKED},
    {"roasted", STATE, STATE_ROASTED},
    {"pan-fried", STATE, STATE_PAN_FRIED},
    {"pan fried", STATE, STATE_PAN_FRIED},
    {"fried", STATE, STATE_PAN_FRIED},
    {"sauteed", STATE, STATE_PAN_FRIED},
    {"saut\xC3\xA9"
     "ed",
     STATE, STATE_PAN_FRIED},
    {"stir-fried", STATE, STATE_PAN_FRIED},
    {"steamed", STATE, STATE_STEAMED},
    {"pressure-cooked", STATE, STATE_PRESSURE_COOKED},
    {"pressure cooked", STATE, STATE_PRESSURE_COOKED},
    {"grilled", STATE, STATE_GRILLED},
    {"broiled", STATE, STATE_GRILLED},
    {"barbecued", STATE, STATE_GRILLED},
    {"microwaved", STATE, STATE_MICROWAVED},
    {"canned", STATE, STATE_CANNED},
    {"tinned", STATE, STATE_CANNED},
    {"dried", STATE, STATE_DRIED},
    {"dehydrated", STATE, STATE_DRIED},
    {"air-dried", STATE, STATE_DRIED},
    {"freeze-dried", STATE, STATE_FREEZE_DRIED},
    {"freeze dried", STATE, STATE_FREEZE_DRIED},
    {"cooked", STATE, STATE_COOKED_OTHER},

    {"raw weight", RAW_WEIGHT, 1},
    {"weighed raw", RAW_WEIGHT, 1},
    {"weight raw", RAW_WEIGHT, 1},
    {"uncooked weight", RAW_WEIGHT, 1},
    {"weight before cooking", RAW_WEIGHT, 1},
    {"weighed before cooking", RAW_WEIGHT, 1},
    {"before cooking", RAW_WEIGHT, 1},
    {"dry weight", RAW_WEIGHT, 1},
    {"weighed dry", RAW_WEIGHT, 1},
    {"measured dry", RAW_WEIGHT, 1},
    {"measured raw", RAW_WEIGHT, 1},
    {"measured uncooked", RAW_WEIGHT, 1},
    {"cooked weight", COOKED_WEIGHT, 1},
    {"weighed cooked", COOKED_WEIGHT, 1},
    {"measured cooked", COOKED_WEIGHT, 1},
    {"weight cooked", COOKED_WEIGHT, 1},
    {"weight after cooking", COOKED_WEIGHT, 1},
    {"weighed after cooking", COOKED_WEIGHT, 1},
    {"after cooking", COOKED_WEIGHT, 1},

    {"bone-in", BONE, 1},
    {"bone in", BONE, 1},
    {"bones in", BONE, 1},
    {"bones-in", BONE, 1},
    {"with bone", BONE, 1},
    {"with bones", BONE, 1},
    {"with the bone", BONE, 1},
    {"with the bones", BONE, 1},
    {"on the bone", BONE, 1},
    {"incl bone", BONE, 1},
    {"incl bones", BONE, 1},
    {"including bone", BONE, 1},
    {"including bones", BONE, 1},
    {"bone included", BONE, 1},
    {"bones included", BONE, 1},
    {"with its bones", BONE, 1},
    {"boneless", BONE, 0},
    {"no bone", BONE, 0},
    {"no bones", BONE, 0},
    {"without bone", BONE, 0},
    {"without bones", BONE, 0},
    {"without the bone", BONE, 0},
    {"deboned", BONE, 0},
    {"de-boned", BONE, 0},
    {"off the bone", BONE, 0},
    {"off bone", BONE, 0},
    {"bone out", BONE, 0},
    {"bones out", BONE, 0},
    {"bone removed", BONE, 0},
    {"bones removed", BONE, 0},

    {"skin on", SKIN, 1},
    {"skin-on", SKIN, 1},
    {"with skin", SKIN, 1},
    {"with the skin", SKIN, 1},
    {"skin included", SKIN, 1},
    {"skin and all", SKIN, 1},
    {"skinless", SKIN, 0},
    {"skinned", SKIN, 0},
    {"no skin", SKIN, 0},
    {"skin off", SKIN, 0},
    {"skin-off", SKIN, 0},
    {"without skin", SKIN, 0},
    {"without the skin", SKIN, 0},
    {"skin removed", SKIN, 0},

    {"lean", LEAN, 1},
    {"extra lean", LEAN, 1},
    {"extra-lean", LEAN, 1},
    {"lean only", LEAN, 1},

    {"with broth", BROTH, 1},
    {"with the broth", BROTH, 1},
    {"with its broth", BROTH, 1},
    {"broth kept", BROTH, 1},
    {"broth fed", BROTH, 1},
    {"keeping the broth", BROTH, 1},
    {"with cooking water", BROTH, 1},
    {"with the cooking water", BROTH, 1},
    {"with cooking liquid", BROTH, 1},
    {"with the cooking liquid", BROTH, 1},
    {"with juices", BROTH, 1},
    {"with the juices", BROTH, 1},
    {"without broth", BROTH, 0},
    {"no broth", BROTH, 0},
    {"broth discarded", BROTH, 0},
    {"broth poured off", BROTH, 0},
    {"drained", DRAINED, 0},
    {"well drained", DRAINED, 0},
    {"drained weight", DRAINED, 0},

    /* words that only say how it was cut or kept */
    {"cubed", CUTTING, 0},
    {"chopped", CUTTING, 0},
    {"diced", CUTTING, 0},
    {"grated", CUTTING, 0},
    {"sliced", CUTTING, 0},
    {"shredded", CUTTING, 0},
    {"crumbled", CUTTING, 0},
    {"finely chopped", CUTTING, 0},
    {"finely diced", CUTTING, 0},
    {"finely ground", CUTTING, 0},
    {"finely grated", CUTTING, 0},
    {"coarsely chopped", CUTTING, 0},
    {"coarsely ground", CUTTING, 0},
    {"roughly chopped", CUTTING, 0},
    {"thinly sliced", CUTTING, 0},
    {"cut up", CUTTING, 0},
    {"cut into cubes", CUTTING, 0},
    {"cut into chunks", CUTTING, 0},
    {"cut into pieces", CUTTING, 0},
    {"in cubes", CUTTING, 0},
    {"in chunks", CUTTING, 0},
    {"in pieces", CUTTING, 0},
    {"in strips", CUTTING, 0},
    {"fresh", CUTTING, 0},
    {"freshly ground", CUTTING, 0},
    {"frozen", CUTTING, 0},
    {"from frozen", CUTTING, 0},
    {"thawed", CUTTING, 0},
    {"defrosted", CUTTING, 0},
};

/* How a "Cook:" header says what a line says with a participle. */
static const struct {
  const char *phrase;
  enum state state;
} METHODS[] = {{"boil", STATE_BOILED},
               {"boiling", STATE_BOILED},
               {"poach", STATE_BOILED},
               {"simmer", STATE_SIMMERED},
               {"simmering", STATE_SIMMERED},
               {"stew", STATE_SIMMERED},
               {"braise", STATE_SIMMERED},
               {"slow cook", STATE_SIMMERED},
               {"slow cooker", STATE_SIMMERED},
               {"bake", STATE_BAKED},
               {"oven", STATE_BAKED},
               {"roast", STATE_ROASTED},
               {"pan-fry", STATE_PAN_FRIED},
               {"pan fry", STATE_PAN_FRIED},
               {"fry", STATE_PAN_FRIED},
               {"steam", STATE_STEAMED},
               {"pressure cook", STATE_PRESSURE_COOKED},
               {"pressure cooker", STATE_PRESSURE_COOKED},
               {"grill", STATE_GRILLED},
               {"broil", STATE_GRILLED},
               {"microwave", STATE_MICROWAVED},
               {"cook", STATE_COOKED_OTHER},
               {"none", STATE_RAW},
               {"not cooked", STATE_RAW}};

enum state method_by_words(const struct tokens *t, size_t at, size_t *used) {
  enum state found = STATE_COUNT;
  *used = 0;
  for (size_t i = 0; i < COUNT_OF(METHODS); i++) {
    size_t n = phrase_at(t, at, METHODS[i].phrase);
    if (n <= *used) continue;
    *used = n;
    found = METHODS[i].state;
  }
  return found;
}

/* ---- lean shares ---- */

static bool is_number(const struct tokens *t, size_t at) {
  return at < t->count && !t->item[at].taken && t->item[at].kind == TOKEN_NUMBER;
}

/* Foods of which "2% fat" is the ordinary name and not a share of lean meat. */
static bool is_dairy(const struct tokens *t) {
  static const char *const WORDS[] = {"milk", "yogurt", "yoghurt", "cheese", "cream", "curd", "quark", "kefir", "milkfat"};
  for (size_t i = 0; i < t->count; i++)
    for (size_t k = 0; k < COUNT_OF(WORDS); k++)
      if (t->item[i].kind == TOKEN_WORD && span_is(t->item[i].word, WORDS[k])) return true;
  return false;
}

/* "90% lean", "10% fat", "90/10"; returns the tokens it took. */
static size_t lean_share_at(const struct tokens *t, size_t at, double *percent) {
  if (!is_number(t, at)) return 0;
  double x = t->item[at].value;
  size_t used = phrase_at(t, at + 1, "% lean");
  if (used == 0) used = phrase_at(t, at + 1, "% extra lean");
  if (used > 0 && x > 0 && x <= 100) {
    *percent = x;
    return 1 + used;
  }
  used = phrase_at(t, at + 1, "% fat");
  if (used > 0 && x >= 0 && x < 60 && !is_dairy(t)) {
    *percent = 100 - x;
    return 1 + used;
  }
  if (phrase_at(t, at + 1, "/") > 0 && t->item[at + 1].glued && is_number(t, at + 2) && t->item[at + 2].glued) {
    double y = t->item[at + 2].value;
    if (x + y == 100 && x >= y && y > 0) {
      *percent = x;
      return 3;
    }
  }
  return 0;
}

/* ---- taking them ---- */

static void say_contradiction(struct line_reader *r, struct span at, const char *why) {
  diag_say(r->d, DIAG_ERROR, DIAG_TWICE, at, "'%.*s' contradicts what the line said before; %s", SPAN_ARG(quoted(at)), why);
}

static void set_state(struct line_reader *r, enum state s, struct span at) {
  struct recipe_line *l = r->out;
  if (l->state == s || (s == STATE_COOKED_OTHER && state_is_cooked(l->state))) return;
  if (l->state == STATE_UNSTATED || (l->state == STATE_COOKED_OTHER && state_is_cooked(s))) {
    l->state = s;
    return;
  }
  bool one_raw = l->state == STATE_RAW || s == STATE_RAW;
  bool one_dry = l->state == STATE_DRIED || s == STATE_DRIED;
  say_contradiction(r, at,
                    one_raw   ? "write 'raw weight, simmered' for what is weighed raw and then cooked"
                    : one_dry ? "write 'dry weight, boiled' for what is weighed dry and then cooked"
                              : "keep the method that it is fed with");
}

static void set_either(struct line_reader *r, int8_t *field, int value, struct span at) {
  if (*field >= 0 && *field != value) say_contradiction(r, at, "keep one of them");
  *field = (int8_t)value;
}

static void apply(struct line_reader *r, enum effect effect, int value, struct span at) {
  struct recipe_line *l = r->out;
  switch (effect) {
  case STATE:
    set_state(r, (enum state)value, at);
    break;
  case RAW_WEIGHT:
  case COOKED_WEIGHT:
    if (effect == RAW_WEIGHT ? l->cooked_weight : l->raw_weight) say_contradiction(r, at, "keep one of them");
    *(effect == RAW_WEIGHT ? &l->raw_weight : &l->cooked_weight) = true;
    break;
  case BONE:
    set_either(r, &l->wish.bone_in, value, at);
    break;
  case SKIN:
    set_either(r, &l->wish.skin, value, at);
    break;
  case LEAN:
    l->wish.lean = true;
    break;
  case BROTH:
    set_either(r, &l->broth, value, at);
    break;
  case DRAINED:
    l->wish.drained = true;
    set_either(r, &l->broth, 0, at);
    break;
  case CUTTING:
    break;
  }
}

/* The qualifiers by their first letters, in their order, for a line of which every word is asked: 1 + the first one and the
 * next one; 0 none. */
struct by_letter {
  uint8_t first[26], next[COUNT_OF(QUALIFIERS)];
};
_Static_assert(COUNT_OF(QUALIFIERS) < UINT8_MAX, "a byte counts them");

static void sort_by_letter(struct by_letter *b) {
  memset(b->first, 0, sizeof b->first);
  for (size_t i = COUNT_OF(QUALIFIERS); i-- > 0;) {
    uint8_t *first = &b->first[QUALIFIERS[i].phrase[0] - 'a'];
    b->next[i] = *first;
    *first = (uint8_t)(i + 1);
  }
}

/* The longest counts, and of equal ones the first. */
static void try_qualifier(const struct tokens *t, size_t at, size_t i, size_t *best, size_t *which) {
  size_t used = phrase_at(t, at, QUALIFIERS[i].phrase);
  if (used <= *best) return;
  *best = used;
  *which = i;
}

static size_t qualifier_at(const struct by_letter *b, const struct tokens *t, size_t at, size_t *which) {
  const struct token *k = &t->item[at];
  size_t best = 0;
  if (k->kind != TOKEN_WORD || k->word.p[0] < 'a' || k->word.p[0] > 'z') return 0;
  for (size_t i = b->first[k->word.p[0] - 'a']; i > 0; i = b->next[i - 1]) try_qualifier(t, at, i - 1, &best, which);
  return best;
}

size_t qualifier_of_food_at(const struct tokens *t, size_t at) {
  size_t which = 0, used = 0;
  if (at >= t->count || t->item[at].taken || t->item[at].kind != TOKEN_WORD) return 0;
  for (size_t i = 0; i < COUNT_OF(QUALIFIERS); i++) try_qualifier(t, at, i, &used, &which);
  return used > 0 && QUALIFIERS[which].effect != CUTTING ? used : 0;
}

void read_qualifiers(struct line_reader *r) {
  struct by_letter b;
  sort_by_letter(&b);
  for (size_t i = 0; i < r->t.count; i++) {
    if (r->t.item[i].taken) continue;
    double percent = 0;
    size_t which = 0, used = lean_share_at(&r->t, i, &percent);
    if (used > 0) {
      r->out->wish.lean_percent = percent;
      take(&r->t, i, used);
      continue;
    }
    used = qualifier_at(&b, &r->t, i, &which);
    if (used == 0) continue;
    take(&r->t, i, used);
    apply(r, QUALIFIERS[which].effect, QUALIFIERS[which].value, tokens_span(&r->t, i, used));
  }
}

/* ---- a header's method ---- */

bool cook_read(struct header_value *v, struct recipe_line *said) {
  struct tokens *t = &v->t;
  *said = (struct recipe_line){.state = STATE_UNSTATED, .broth = -1, .wish = SEARCH_WISH_NONE};
  for (size_t i = 0, used; i < t->count && said->state == STATE_UNSTATED; i++) {
    enum state s = method_by_words(t, i, &used);
    if (used == 0) continue;
    said->state = s;
    take(t, i, used);
  }
  struct line_reader r = {.t = *t, .out = said, .d = v->d, .arena = v->arena};
  read_qualifiers(&r);
  bool all = true;
  for (size_t i = 0; i < t->count; i++)
    all = all && (t->item[i].taken || t->item[i].kind == TOKEN_MARK ||
                  ANY_OF(t, i, "and", "gently", "all", "everything", "in", "water", "with", "the") > 0);
  if (said->state == STATE_UNSTATED && (said->raw_weight || said->cooked_weight)) said->state = STATE_COOKED_OTHER;
  all = all && (said->state == STATE_RAW || (state_is_cooked(said->state) && said->state != STATE_CANNED));
  if (!all) value_words(v->d, v->value, "a cooking method", state_word, STATE_CANNED);
  return all;
}
