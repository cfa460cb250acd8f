#include "foods/hazard_tokens.h"

#include "foods/search.h"

/* ---- words
 * ------------------------------------------------------------------------------------------------------
 */

static bool in_word(unsigned char c) {
  return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '\'' || c >= 0x80;
}

static char gap_of(char gap, struct span text, size_t at) {
  char c = text.p[at];
  bool stop = c == '.' || c == '!' || c == '?' || c == ';' || c == '\n' || c == ')' || c == ']' || c == '(' || c == '[';
  if (stop && c == '.' && at + 1 < text.n && in_word((unsigned char)text.p[at + 1])) stop = false; /* "0.5", "e.g." */
  if (c == '(' || c == '[') return gap == '.' ? '.' : '(';
  if (stop) return '.';
  if ((c == ',' || c == ':' || c == '|') && gap != '.' && gap != '(') return ',';
  if (c == '/' && gap == ' ') return '/';
  return c == '-' && gap == ' ' ? '-' : gap;
}

static void add_word(struct hazard_text *t, struct span folded, struct span at, char gap, struct arena *arena) {
  struct hazard_token x = {.folded = folded, .at = at, .gap = gap};
  x.number = folded.p[0] >= '0' && folded.p[0] <= '9';
  x.zero = x.number;
  for (size_t i = 0; i < folded.n && x.zero; i++) x.zero = folded.p[i] == '0' || folded.p[i] == '.';
  if (folded.p[0] >= 'a' && folded.p[0] <= 'z') t->letters |= 1u << (folded.p[0] - 'a');
  ARENA_PUSH(arena, t->token, t->count, t->cap, x);
}

/* "0g" and "20g" are a number and a unit. */
static void add_run(struct hazard_text *t, const struct library *lib, struct span run, char gap, struct arena *arena) {
  struct span rest = search_fold(&lib->image, run, arena);
  while (rest.n > 0) {
    const char *blank = memchr(rest.p, ' ', rest.n);
    size_t n = blank ? (size_t)(blank - rest.p) : rest.n, digits = 0;
    while (digits < n && ((rest.p[digits] >= '0' && rest.p[digits] <= '9') || rest.p[digits] == '.')) digits++;
    if (digits > 0 && digits < n) {
      add_word(t, span_cut(rest, 0, digits), run, gap, arena);
      gap = ' ';
      add_word(t, span_cut(rest, digits, n), run, gap, arena);
    } else {
      add_word(t, span_cut(rest, 0, n), run, gap, arena);
    }
    gap = ' ';
    rest = span_cut(rest, blank ? n + 1 : n, rest.n);
  }
}

void hazard_tokens(const struct library *lib, struct span text, struct hazard_text *out, struct arena *arena) {
  *out = (struct hazard_text){NULL, 0, 0, 0};
  char gap = '.';
  for (size_t at = 0; at < text.n;) {
    size_t end = at;
    while (end < text.n && in_word((unsigned char)text.p[end])) end++;
    if (end == at) {
      gap = gap_of(gap, text, at);
      at++;
      continue;
    }
    size_t before = out->count;
    add_run(out, lib, span_cut(text, at, end), gap, arena);
    if (out->count > before) gap = ' ';
    at = end;
  }
}

bool token_is(const struct hazard_text *t, size_t at, const char *word) {
  return at < t->count && span_is(t->token[at].folded, word);
}

bool token_in(const struct hazard_text *t, size_t at, const char *const *words, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (token_is(t, at, words[i])) return true;
  return false;
}

bool token_is_cooked(const struct hazard_text *t, size_t at) {
  return TOKEN_IN(t, at, "cooked", "baked", "roast", "roasted", "grilled", "boiled", "simmered", "steamed", "fried", "bbq",
                  "barbecued", "barbecue", "braised", "stewed", "smoked", "rotisserie", "microwaved", "poached", "broiled",
                  "seared", "casserole", "stew", "airfried", "oven", "crockpot", "cooker");
}

/* ---- denied
 * -----------------------------------------------------------------------------------------------------
 */

enum { REACH = 8 }; /* words between a denial and what it denies */

/* "Stopped the xylitol", "gave up grapes", "used to get garlic": no longer fed. "How do I stop him eating grapes?" is. */
static bool is_over(const struct hazard_text *t, size_t at) {
  bool still = at > 0 && TOKEN_IN(t, at - 1, "hasnt", "havent", "not", "never");
  if (TOKEN_IN(t, at, "stopped", "quit", "ditched", "binned", "banned"))
    return !still && !TOKEN_IN(t, at + 1, "at", "by", "off", "for", "to", "him", "her", "them", "on");
  if (TOKEN_IN(t, at, "up", "out") && at > 0) /* "given up", "cut out" */
    return token_is(t, at, "up") ? TOKEN_IN(t, at - 1, "gave", "given", "giving") : TOKEN_IN(t, at - 1, "cut", "took", "taken");
  return token_is(t, at, "to") && at > 0 && token_is(t, at - 1, "used") &&
         !(at > 1 && TOKEN_IN(t, at - 2, "is", "are", "get", "getting", "hes", "shes", "got")) &&
         TOKEN_IN(t, at + 1, "get", "eat", "have", "feed", "give", "add", "put", "be", "love", "include", "contain");
}

static bool is_negator(const struct hazard_text *t, size_t at) {
  if (TOKEN_IN(t, at, "no", "not", "never", "without", "avoid", "avoided", "avoiding", "minus", "excluding", "exclude",
               "except", "san", "dont", "doesnt", "isnt", "arent", "cannot", "cant", "didnt", "wont", "shouldnt", "nor",
               "neither", "zero", "non", "nothing", "none", "omit", "omitting", "skip", "skipping", "mustnt", "sans"))
    return true;
  if (TOKEN_IN(t, at, "of", "from") && at > 0 && TOKEN_IN(t, at - 1, "free", "instead", "clear")) return true;
  if (token_is(t, at, "to") && at > 0 && TOKEN_IN(t, at - 1, "allergic", "allergy", "intolerant", "intolerance"))
    return true;
  if (token_is(t, at, "out") && at > 0 && TOKEN_IN(t, at - 1, "leave", "left", "leaving")) return true;
  return (token_is(t, at, "o") && at > 0 && token_is(t, at - 1, "w")) || is_over(t, at); /* "w/o" */
}

/* "not only onion", "no more than a clove", "not sure about garlic", "never
 * without garlic": denies nothing. */
static bool is_false_negator(const struct hazard_text *t, size_t at) {
  if (token_is(t, at, "without") && at > 0 && is_negator(t, at - 1)) return true;
  if (TOKEN_IN(t, at, "avoid", "exclude", "skip", "omit") && at > 0 && is_negator(t, at - 1)) return true;
  return TOKEN_IN(t, at + 1, "only", "sure", "more", "much", "idea", "doubt", "problem", "matter", "know", "mind", "just",
                  "too", "harm", "issue", "worry", "certain", "a", "quite", "bad", "enough", "less", "even", "realise",
                  "realize", "forget", "without", "worried", "yet", "tell", "keen", "able", "want", "finish", "like", "lot",
                  "always", "counted");
}

static bool ends_thought(const struct hazard_text *t, size_t at) {
  return t->token[at].gap == '.' || t->token[at].gap == '(';
}

static bool is_or(const struct hazard_text *t, size_t at) { return TOKEN_IN(t, at, "or", "nor"); }

/* Behind a comma the denial goes on only in a list that ends with "or": "no
 * onion, garlic or raisins". */
static bool or_follows(const struct hazard_text *t, size_t at) {
  for (size_t i = at + 1; i < t->count && i < at + REACH && !ends_thought(t, i) && !t->token[i].number; i++)
    if (is_or(t, i)) return true;
  return false;
}

/* "avoid onions, garlic and grapes": a list of dangers alone, to its end. */
static bool dangers_follow(const struct hazard_text *t, size_t at) {
  for (size_t i = at + 1; i + 1 < t->count && i < at + REACH && !ends_thought(t, i) && !t->token[i].number; i++) {
    if (token_is(t, i, "and")) return t->token[i + 1].candidate;
    if (!t->token[i].candidate) return false;
  }
  return false;
}

/* Does a denial go on over the gap before token 'i' to the danger at 'first'?
 * 'joined': an "or", or an "and" between dangers, was passed. */
static bool goes_on(const struct hazard_text *t, size_t i, size_t first, bool joined) {
  bool danger_before = t->token[i - 1].candidate;
  if (t->token[i].gap == '/') return danger_before || (token_is(t, i - 1, "w") && token_is(t, i, "o"));
  if (t->token[i].gap != ',') return true;
  return joined || is_or(t, i) || or_follows(t, first) || (danger_before && dangers_follow(t, first));
}

/* "peanut butter with no sugar and with onion": what begins something new. */
static bool begins_anew(const struct hazard_text *t, size_t at) {
  return TOKEN_IN(t, at, "with", "but", "plus", "then", "including", "some", "only", "also", "because", "so", "when",
                  "until", "however", "just", "unles", "unless");
}

static bool denied_before(const struct hazard_text *t, size_t first) {
  bool joined = false;
  for (size_t i = first, steps = 0; i > 0 && steps < REACH; i--, steps++) {
    size_t j = i - 1;
    if (ends_thought(t, i)) return false;
    if (!goes_on(t, i, first, joined)) return false;
    if (is_negator(t, j)) return !is_false_negator(t, j);
    if (t->token[j].zero) return steps <= 3;
    if (t->token[j].number) return false;
    if (token_is(t, j, "with") && j > 0 && is_negator(t, j - 1)) return true;
    if (begins_anew(t, j)) return false;
    bool between_dangers = token_is(t, j, "and") && j > 0 && t->token[j - 1].candidate;
    if (token_is(t, j, "and") && !between_dangers) return false;
    joined = joined || is_or(t, j) || between_dangers;
  }
  return false;
}

static bool is_free(const struct hazard_text *t, size_t at) {
  return at < t->count && !ends_thought(t, at) && token_is(t, at, "free") && !token_is(t, at + 1, "range") &&
         !token_is(t, at + 1, "fed");
}

/* "onion-free", "onion and garlic free", "garlic: none", "onion is never used",
 * "raisin-sized". */
static bool denied_after(const struct hazard_text *t, size_t last) {
  size_t i = last + 1;
  while (i < t->count && !ends_thought(t, i) && (t->token[i].candidate || TOKEN_IN(t, i, "and", "or"))) i++;
  if (is_free(t, i)) return true;
  i = last + 1;
  if (i >= t->count || ends_thought(t, i)) return false;
  if (TOKEN_IN(t, i, "sized", "size", "shaped", "coloured", "colored", "allergy", "allergic", "intolerance", "intolerant",
               "collar"))
    return true;
  bool last_of_thought = i + 1 >= t->count || ends_thought(t, i + 1) || t->token[i + 1].gap == ',';
  if (TOKEN_IN(t, i, "none", "no", "never") && last_of_thought) return true;
  if (TOKEN_IN(t, i, "is", "are", "wa", "was", "were")) i++;
  if (TOKEN_IN(t, i, "omitted", "excluded", "avoided", "banned", "forbidden")) return true;
  if (token_is(t, i, "left") && token_is(t, i + 1, "out")) return true;
  return TOKEN_IN(t, i, "not", "never") &&
         TOKEN_IN(t, i + 1, "used", "added", "included", "given", "fed", "allowed", "in", "there", "listed");
}

/* "We fed grapes last year", "he stole chocolate two years ago": of a time that is long past, and nothing that began then. */
static bool long_past(const struct hazard_text *t, size_t first, size_t last) {
  bool ended = false;
  for (size_t i = last + 1; i < t->count && i <= last + REACH && !ends_thought(t, i) && !ended; i++) {
    if (TOKEN_IN(t, i, "since", "but", "and", "still")) return false;
    ended = (token_is(t, i, "last") && TOKEN_IN(t, i + 1, "year", "summer", "winter", "autumn", "christmas", "christma", "month", "easter")) ||
            (TOKEN_IN(t, i, "year", "month") && token_is(t, i + 1, "ago"));
    if (ended && i > 0 && TOKEN_IN(t, i - 1, "since", "from")) return false;
  }
  for (size_t i = first; ended && i > 0 && first - i < REACH && !ends_thought(t, i); i--)
    if (TOKEN_IN(t, i - 1, "ate", "had", "fed", "gave", "got", "stole", "swallowed", "nicked", "were"))
      return !(i > 1 && TOKEN_IN(t, i - 2, "i've", "ive", "weve", "have", "has"));
  return false;
}

bool hazard_denied(const struct hazard_text *t, size_t first, size_t last) {
  return denied_before(t, first) || denied_after(t, last) || long_past(t, first, last);
}

/* ---- names
 * -------------------------------------------------------------------------------------------------------
 */

static bool capital(char c) { return c >= 'A' && c <= 'Z'; }

static bool is_written_as_name(struct span s) { return s.n > 1 && capital(s.p[0]) && !capital(s.p[1]); }

static bool ends_with_s(struct span s) {
  return s.n > 2 && s.p[s.n - 1] == 's' && (s.p[s.n - 2] == '\'' || (unsigned char)s.p[s.n - 2] == 0x99);
}

bool hazard_is_name(const struct hazard_text *t, size_t at) {
  struct span s = t->token[at].at;
  if (!is_written_as_name(s)) return false;
  if (ends_with_s(s)) return true;
  if (at > 0 && TOKEN_IN(t, at - 1, "for", "our", "my", "called", "named", "dog", "cat", "pup", "puppy", "kitten", "collie",
                         "labrador", "lab", "poodle", "terrier", "spaniel", "hound", "shepherd", "setter", "retriever",
                         "pug", "whippet", "rescue", "boy", "girl", "mix", "cross", "tabby", "tom"))
    return !ends_thought(t, at);
  if (TOKEN_IN(t, at + 1, "weigh", "weighs", "eat", "eats", "love", "loves", "get", "gets", "who", "like", "likes", "the"))
    return true;
  bool is = TOKEN_IN(t, at + 1, "is", "has", "was", "wa");
  return is && at + 2 < t->count &&
         (t->token[at + 2].number || TOKEN_IN(t, at + 2, "a", "an", "our", "my", "neutered", "spayed"));
}
