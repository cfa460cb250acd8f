/* What a sentence tells that is not fed: the past, advice, plans, refusals, another animal's bowl. */
#include "post/post_item.h"

const char NOT_FED_PAST[] = "told as something of the past";

/* ---- somebody's advice ---- */

static const char WHO[] =
    "neighbour neighbor neighbours neighbors friend friends sister brother mum mom mother dad father mate aunt "
    "uncle lady guy gal girl cousin colleague trainer breeder groomer vet vets veterinarian someone somebody people "
    "everybody "
    "everyone article book husband wife partner mil law blog forum group butcher nan gran granny";

/* "My mum's dog lives on 400 g of chicken necks": not the one that is asked about. */
static bool anothers_animal(const struct tokens *t, size_t *at) {
  for (size_t i = 1; i < t->count; i++) {
    struct span owner = t->item[i - 1].word;
    if (!is_word(t, i - 1) || owner.n < 4 || !says(t, i, "dog dogs cat cats puppy kitten")) continue;
    if (owner.p[owner.n - 2] != '\'' || !word_in(span_cut(owner, 0, owner.n - 2), WHO)) continue;
    *at = i - 1;
    return true;
  }
  return false;
}

/* "My neighbour says a little garlic is fine", "my sister swears by peanut butter", "puts lentils in hers". */
static bool is_hearsay(const struct tokens *t, size_t *at) {
  for (size_t i = 0; i < t->count; i++) {
    bool says_so =
        says(t, i,
             "says say said reckons reckon swears swear claims claim insists thinks think wrote writes told tells "
             "counsels counselled urges urged suggested suggests suggest proposed proposes mentioned advised adviced "
             "advises recommended");
    bool does = says(t, i, "puts adds gives feeds uses");
    for (size_t k = i + 1; does && k < t->count && k < i + 6; k++)
      if (says(t, k, "hers theirs")) says_so = true; /* that is another animal */
    if (!says_so) continue;
    for (size_t back = 1; back <= 3 && back <= i; back++)
      if (says(t, i - back, WHO)) {
        *at = i - back;
        return true;
      }
  }
  return false;
}

/* "as recommended by my vet", "the recommended dose": what is fed follows the advice. */
static bool is_followed(const struct tokens *t, size_t at) {
  if (!says(t, at, "recommended recommends suggest recommend suggested suggests advised")) return false;
  return (at > 0 && says(t, at - 1, "as the per than what")) || (at > 1 && says(t, at - 2, "as per what")) ||
         says(t, at + 1, "dose amount dosage daily serving");
}

/* ---- phrases ---- */

static const char *const PAST[] = {"used to",
                                   "ago",
                                   "a while back",
                                   "before this",
                                   "before that",
                                   "previously",
                                   "tried",
                                   "stopped",
                                   "no longer",
                                   "not any more",
                                   "not anymore",
                                   "in the past",
                                   "switched from",
                                   "last year",
                                   "was on",
                                   "were feeding",
                                   "hated",
                                   "refuses to eat",
                                   "until recently",
                                   "gave up",
                                   "given up",
                                   "cut out",
                                   "gone off",
                                   "went off",
                                   "dropped the",
                                   "quit",
                                   "weaned off",
                                   "taken off",
                                   "came off",
                                   "took him off",
                                   "took her off",
                                   "ran out of",
                                   "for a while",
                                   "once had",
                                   "once ate",
                                   "once gave",
                                   "before we",
                                   "before he",
                                   "before she",
                                   "had give",
                                   "had been on",
                                   "removed because",
                                   "removed after",
                                   "removed for",
                                   "removed it",
                                   "removed them",
                                   "now removed",
                                   "rejected",
                                   "was sick",
                                   "were sick",
                                   "at first we",
                                   "originally",
                                   "back then",
                                   "no more",
                                   "not any longer",
                                   "didn't agree",
                                   "didnt agree",
                                   "used up",
                                   "had to stop",
                                   "took out",
                                   "taken out",
                                   "left off",
                                   "upset his",
                                   "upset her",
                                   "made him sick",
                                   "made her sick",
                                   "gave him the runs",
                                   "gave her the runs",
                                   "abandoned",
                                   "discontinued",
                                   "it was all",
                                   "i was giving",
                                   "we were giving",
                                   "first version",
                                   "earlier version",
                                   "it is ended",
                                   "is finished with",
                                   "commented out"};

static const char *const ADVICE[] = {
    "should",        "i'd put",       "i'd add",         "i would add",  "i would put",    "recommend",    "recommended",
    "recommends",    "read online",   "you could",       "thinking of",  "thinking about", "planning",     "would be better",
    "says to",       "tells me to",   "told me",         "told us",      "haven't tried",  "havent tried", "not tried",
    "don't do that", "dont do that",  "havent yet",      "haven't yet",  "they say",       "wants me to",  "i'd suggest",
    "suggest",       "suggested",     "suggests",        "dogs need",    "cats need",      "was told",     "were told",
    "heard that",    "heard about",   "want to add",     "going to add", "considering",    "considered",   "should i",
    "can i",         "could i",       "would you",       "might add",    "might try",      "plan to",      "tempted to",
    "wondering",     "do i need",     "is it ok",        "is it okay",   "swear by",       "swears by",    "told to",
    "thought about", "wondered",      "what about",      "how about",    "ordered",        "on order",     "candidate",
    "candidates",    "not yet",       "yet to",          "have none",    "haven't dared",  "havent dared", "haven't bought",
    "havent bought", "proposed",      "proposes",        "adviced",      "advised",        "wrote that",   "would like to",
    "want to try",   "would love to", "wish list",       "maybe add",    "perhaps add",    "someday",      "in the future",
    "if i added",    "if i add",      "instead of what", "one day i",    "debating",       "eyeing"};

static const char *const REFUSED[] = {
    "i don't give",  "i dont give",    "don't give",     "dont give",    "do not give",    "i don't use", "i dont use",
    "we don't use",  "don't feed",     "dont feed",      "do not feed",  "won't eat",      "wont eat",    "won't touch",
    "wont touch",    "refuse",         "leave that out", "leave it out", "leave them out", "i leave out", "we leave out",
    "left that out", "i hide",         "spits",          "spat",         "never give",     "never had",   "never have",
    "never feed",    "don't add",      "dont add",       "do not add",   "i skip",         "we skip",     "i left out",
    "we left out",   "i am against",   "he won't",       "she won't",    "not a fan of",   "can't have",  "cant have",
    "cannot have",   "turns his nose", "turns her nose"};

static const char *const OTHERS[] = {"completely different", "different thing",  "different diet",    "different food",
                                     "not my question",      "not the question", "isn't my question", "isnt my question",
                                     "not asking about",     "not the problem",  "not the issue",     "ignore the",
                                     "forget the",           "don't mind the",   "his own food",      "her own food",
                                     "that's between",       "leave the cat",    "leave the dog"};

static bool any_phrase(const struct tokens *t, size_t at, const char *const *phrase, size_t count) {
  for (size_t k = 0; k < count; k++)
    if (phrase_at(t, at, phrase[k]) > 0) return true;
  return false;
}

/* "v2 had 80 g of lentils": another version. */
static bool is_old_version(const struct tokens *t, size_t at) {
  if (!is_word(t, at) || t->item[at].word.n != 2 || t->item[at].word.p[0] != 'v') return false;
  return says(t, at + 1, "had was contained");
}

const char *not_fed(const struct tokens *t) {
  size_t at;
  return not_fed_at(t, &at);
}

/* "Removed in v3: kale 30 g", "Planned: mackerel": a heading of its own. */
static const char *not_fed_heading(const struct tokens *t) {
  for (size_t i = 1; i < t->count && i < 7; i++) {
    if (!is_mark(t, i, ':')) continue;
    for (size_t k = 0; k < i; k++) {
      if (says(t, k, "removed dropped rejected excluded deleted previous previously earlier former formerly old"))
        return NOT_FED_PAST;
      if (says(t, k, "proposed planned candidate candidates option options idea ideas future next todo considering maybe"))
        return "told as advice or as a thought, not as fed";
      if (says(t, k, "not without never avoid avoids avoided refuses dislikes hates allergic allergies intolerant"))
        return "told as not given";
    }
  }
  return NULL;
}

const char *not_fed_at(const struct tokens *t, size_t *at) {
  const char *heading = not_fed_heading(t);
  *at = 0;
  if (heading) return heading;
  if (anothers_animal(t, at)) return "told of another animal";
  if (is_hearsay(t, at)) return "told as somebody's advice, not as fed";
  for (size_t i = 0; i < t->count; i++) {
    *at = i;
    bool more_than = phrase_at(t, i, "no more than") > 0 || phrase_at(t, i, "not yet weaned") > 0;
    bool question = says(t, i, "should could can would") && i == 0 && is_mark(t, t->count - 1, '?');
    if (question) return "told as a question, not as fed";
    if (!more_than && (any_phrase(t, i, PAST, COUNT_OF(PAST)) || is_old_version(t, i))) return NOT_FED_PAST;
    if (any_phrase(t, i, ADVICE, COUNT_OF(ADVICE)) && !is_followed(t, i))
      return "told as advice or as a thought, not as fed";
    if (any_phrase(t, i, REFUSED, COUNT_OF(REFUSED))) return "told as not given";
  }
  return NULL;
}

bool is_of_another(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (any_phrase(t, i, OTHERS, COUNT_OF(OTHERS))) return true;
  return false;
}

/* ---- clauses ---- */

size_t clause_begin(const struct tokens *t, size_t at) {
  while (at > 0) {
    const struct token *k = &t->item[at];
    if (k->kind == TOKEN_MARK && k->mark < 128 && strchr(",.;!?():", (int)k->mark)) break;
    if (says(t, at, "and but though although cos because since as so when while if unless") &&
        says(t, at + 1, "i my our he she we they the people someone somebody a vet i've i'm ive im we've"))
      break;
    at--;
  }
  return at;
}

/* Where what is not fed begins, when food with an amount stands before it; 0. */
size_t clause_before(const struct tokens *t, size_t told) {
  size_t at = clause_begin(t, told);
  for (int pass = 0; pass < 2; pass++) {
    for (size_t i = 0; i < at; i++) {
      struct post_amount a = post_amount_at(t, i);
      if (a.tokens > 0 && !a.bare) return at;
      if (a.tokens > 0) i += a.tokens - 1;
    }
    bool own_amount = false; /* a writer without stops: "... 30 g beef liver used to do 50 g peas" */
    for (size_t i = told; i < t->count && i < told + 8; i++) own_amount = own_amount || post_amount_at(t, i).is_mass;
    at = own_amount ? told : 0;
  }
  return 0;
}

/* "... which we stopped", "but she hated it": it speaks of what stands before it. */
bool looks_back(const struct tokens *t, size_t clause, size_t told) {
  size_t at = clause;
  while (at < t->count && (t->item[at].kind == TOKEN_MARK || says(t, at, "but and though although"))) at++;
  if (says(t, at, "which that this both all not haven't havent hasn't hasnt never yet rejected removed")) return true;
  if (says(t, at, "i we he she") && says(t, at + 1, "haven't havent hasn't hasnt don't dont never")) return true;
  for (size_t i = told; i < t->count && i < told + 6; i++)
    if (says(t, i, "it that this them those these") && (i + 1 >= t->count || !is_word(t, i + 1))) return true;
  return false;
}

/* Behind advice or the past: ", dinner is 200 g beef", "but she gets ...", "also 1000 mg fish oil"; t->count nowhere. */
size_t fed_again_at(const struct tokens *t, size_t from) {
  enum { NEAR = 7 };
  for (size_t i = from; i < t->count; i++) {
    if (!is_mark(t, i, ',') && !is_mark(t, i, ';') && !is_mark(t, i, ')') &&
        !says(t, i, "but and so then now also plus anyway"))
      continue;
    if (says(t, i, "also plus now") && post_amount_at(t, i + 1).tokens > 0) return i + 1;
    for (size_t k = i + 1; k < t->count && k <= i + NEAR; k++)
      if (says(t, k,
               "gets get eats has feed feeds give gives goes go added add breakfast dinner lunch supper evening evenings "
               "morning "
               "mornings") &&
          post_any_amount(t, k) && !says(t, k - 1, "to"))
        return i + 1;
  }
  return t->count;
}
