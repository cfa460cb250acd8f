/* Why an animal may be no healthy adult, told in passing: young, pregnant, nursing, ill or on a medicine; and not where it
 * is denied, feared, past, or somebody else's. */
#include "post/animal/post_animal.h"
#include "post/animal/post_signs.h"

enum { FAMILY_MOST_ILLNESSES = 3 };

/* ---- what the words around say ---- */

static bool means(const char *what, const char *is) { return what[0] == is[0] && strcmp(what, is) == 0; }

/* Is it said in [from, to) that the state is so: "past", "today"? */
static bool said_of_it(const struct tokens *t, size_t from, size_t to, const char *what) {
  const char *is;
  for (size_t i = from; i < to && i < t->count; i++) {
    size_t used = meaning_at(t, i, CLASS_ABOUT_A_STATE, &is);
    if (used > 0 && means(is, what)) return true;
    if (used > 1) i += used - 1; /* "has had" is no "had" */
  }
  return false;
}

/* "no kidney disease", "not diabetic or pregnant", "cancer free"; but "no beef because of her colitis". */
static bool is_denied(const struct tokens *t, size_t at, size_t behind) {
  enum { FAR = 6 };
  const char *is;
  size_t begin = clause_begin(t, at);
  for (size_t i = at; i-- > begin && i + FAR > at;) {
    if (says(t, i, "because due since as so his her and but with apart except besides beyond bar than excluding")) break;
    if (says(t, i, "for") && !(i > 0 && says(t, i - 1, "negative"))) break; /* "no meds for his diabetes" */
    if (meaning_at(t, i, CLASS_ABOUT_A_STATE, &is) > 0 && means(is, "denied") &&
        !says(t, i + 1, "only well yet just sure great because"))
      return true;
  }
  return says(t, behind, "free negative ruled prevention prevent preventing preventative") ||
         (says(t, behind, "is was") && says(t, behind + 1, "ruled"));
}

/* "my other cat is diabetic", "my sister's dog, who has ..."; "I'm pregnant", "my pregnant wife". */
static bool is_of_somebody_else(const struct tokens *t, size_t at, size_t behind) {
  const char *is;
  enum species s;
  if (says(t, behind, "wife mum mom husband sister owner human myself partner daughter")) return true;
  for (size_t i = at; i-- > 0;) {
    size_t used = meaning_at(t, i, CLASS_ABOUT_A_STATE, &is);
    if (used > 0 && means(is, "me") && i + used + 1 >= at)
      return behind >= t->count || !is_word(t, behind) || !token_is_animal(&t->item[behind], &s);
    if (used > 0 && means(is, "another")) return true;
    bool owned = is_word(t, i) && t->item[i].word.n > 3 && t->item[i].word.p[t->item[i].word.n - 2] == '\'' &&
                 !says(t, i, "he's she's it's that's there's here's who's what's today's");
    if (owned && is_word(t, i + 1) && token_is_animal(&t->item[i + 1], &s)) return true; /* "my mother-in-law's cat" */
    double kg;
    if (says(t, i, "my our he she he's she's") || post_weight_at(t, i, &kg) > 0) break;
  }
  return false;
}

/* The name that the clause is of: "Tess is diabetic", "Nell 15kg 9yrs has CKD"; "". */
static struct span named_before(struct post_reader *r, const struct tokens *t, size_t at) {
  double kg;
  size_t body = 0; /* the tokens of a weight or an age behind a name */
  for (size_t i = at, begin = clause_begin(t, at); i-- > begin;) {
    bool told = says(t, i + 1, "is has was had gets takes") || post_weight_at(t, i + 1, &kg) > 0 || body > 0;
    if (told && post_pet_name(r, t, i).n > 0) return post_pet_name(r, t, i);
    body = post_weight_at(t, i, &kg) > 0 || post_age_at(t, i, &kg) > 0;
  }
  return (struct span){"", 0};
}

static int species_beside(const struct tokens *t, size_t at, size_t behind) {
  enum { FAR = 5 };
  enum species s;
  for (size_t i = at, begin = clause_begin(t, at); i-- > begin && i + FAR > at;)
    if (is_word(t, i) && token_is_animal(&t->item[i], &s)) return (int)s;
  return is_word(t, behind) && token_is_animal(&t->item[behind], &s) ? (int)s : -1;
}

bool post_told_of(struct post_reader *r, const struct tokens *t, size_t at, size_t behind, struct span *of, int *species) {
  *of = named_before(r, t, at);
  *species = species_beside(t, at, behind);
  return !is_of_somebody_else(t, at, behind);
}

/* ---- what is no such state after all ---- */

static bool is_other_word(const struct tokens *t, size_t at, size_t behind, enum state_kind kind) {
  if (kind == STATE_YOUNG)
    return says_a(t, behind, CLASS_BEHIND_YOUNG_ANIMAL) || (at > 0 && says(t, at - 1, "another other second")) ||
           (at > 0 && says(t, at - 1, "as since like from")) ||
           (at > 1 && says(t, at - 1, "a") && says(t, at - 2, "as was since like from were been being"));
  if (says(t, at, "lame")) return says(t, behind, "excuse question joke idea post title attempt but i");
  if (says(t, at, "ckd")) /* "rice ckd 120" was cooked */
    return is_number(t, behind) || (t->item[at].at.p[0] == 'c' && at > 0 && is_word(t, at - 1) &&
                                    !says(t, at - 1, "with has got early his her of and cat dog have mild"));
  if (kind == STATE_PREGNANT && (says(t, at + 1, "carrying") || says(t, at, "carrying")))
    return behind < t->count && !is_mark(t, behind, ',') && !is_mark(t, behind, '.') && !is_mark(t, behind, '(');
  if (behind > at + 1 && says(t, behind - 1, "well")) /* "is not well cooked" */
    return behind < t->count && is_word(t, behind) &&
           !says(t, behind, "at since today now lately right these this and so but atm again for or");
  if (says(t, at, "is") && says(t, at + 1, "blocked")) /* "my account is blocked" */
    return at > 0 && is_word(t, at - 1) && !says_a(t, at - 1, CLASS_KILOGRAMS) && !says(t, at - 1, "he she cat tom tomcat boy it bladder urethra");
  if (says(t, at, "collapsed collapses collapsing") && at > 0 && is_word(t, at - 1)) { /* "the freezer collapsed" */
    enum species s;
    return !token_is_animal(&t->item[at - 1], &s) && !says_a(t, at - 1, CLASS_KILOGRAMS) &&
           !says(t, at - 1, "he she it has and just suddenly nearly almost is was who old girl boy lad keeps") &&
           !(t->item[at - 1].at.p[0] >= 'A' && t->item[at - 1].at.p[0] <= 'Z');
  }
  if (kind == STATE_NURSING && says(t, at, "in") && says(t, at + 1, "milk"))
    return at == 0 || !says(t, at - 1, "is she's shes still queen bitch dam girl she cat dog now fully");
  if (kind != STATE_NURSING) return false;
  bool litter = says(t, behind + 1, "pups puppies kittens litter babies");
  return says(t, behind, "a him it his them back home sore an my pig pigs box tray mate robot from") ||
         (says(t, behind, "her") && says(t, at, "nursing") && !litter);
}

/* "she is expecting", and not "expecting a parcel". */
static bool expects(const struct tokens *t, size_t at) {
  if (!says(t, at, "expecting") || at == 0 || !says(t, at - 1, "is she's shes queen bitch girl dam")) return false;
  return at + 1 >= t->count || t->item[at + 1].kind == TOKEN_MARK || says(t, at + 1, "in soon again any and about");
}

static enum state_kind kind_of(const char *is) {
  return means(is, "ill")        ? STATE_ILL
         : means(is, "urgent")   ? STATE_URGENT
         : means(is, "medicine") ? STATE_MEDICINE
         : means(is, "perhaps")  ? STATE_PERHAPS
         : means(is, "pregnant") ? STATE_PREGNANT
         : means(is, "nursing")  ? STATE_NURSING
                                 : STATE_YOUNG;
}

/* "Schnauzers are prone to pancreatitis": of all of them, and not of this one. Of one that is prone to it itself the food is
 * its veterinarian's, as if it were ill. */
static bool is_of_the_breed(const struct tokens *t, size_t begin, size_t at) {
  if (!said_of_it(t, begin, at, "prone")) return false;
  for (size_t i = begin; i < at; i++)
    if (says(t, i, "breed breeds dogs cats often") || (i > 0 && says(t, i, "are can") && !says(t, i - 1, "we they you")))
      return true;
  return false;
}

/* How sure it is; STATE_NOT: it is not told of this animal. */
static enum state_kind as_told(const struct tokens *t, size_t at, size_t behind, enum state_kind kind) {
  size_t begin = clause_begin(t, at), end = post_clause_end(t, behind);
  bool family = kind == STATE_PREGNANT || kind == STATE_NURSING;
  if (is_denied(t, at, behind) || is_of_somebody_else(t, at, behind)) return STATE_NOT;
  if (kind == STATE_YOUNG) return kind;
  bool own = at > 0 && says(t, at - 1, "his her its"); /* "should I worry about his diabetes": he has it */
  if ((!own && said_of_it(t, begin, at, "feared")) || is_of_the_breed(t, begin, at)) return STATE_NOT;
  bool over = said_of_it(t, begin, post_clause_end(t, end + 1), "over");
  bool ago = said_of_it(t, begin, end, "long"), today = said_of_it(t, begin, end, "today");
  if (family) return over || (ago && !today) ? STATE_NOT : kind;
  if (kind == STATE_URGENT && !over && !ago) return kind;
  if (over || (!today && (ago || said_of_it(t, begin, end, "past")))) return STATE_WAS_ILL;
  if (!own && said_of_it(t, begin, at, "guessed")) return STATE_PERHAPS;
  return kind;
}

/* ---- taking it ---- */

/* "on 5 mg prednisone twice a day", "with early kidney disease": what belongs to the words of the state. */
static size_t begin_of(const struct tokens *t, size_t at, enum state_kind kind) {
  size_t from = at;
  if (kind == STATE_MEDICINE && from > 1 && says(t, from - 1, "of")) from--;
  if (kind == STATE_MEDICINE && from > 1 && says(t, from - 1, "mg mcg ml iu units tablet tablets") && is_number(t, from - 2))
    from -= 2;
  if (kind == STATE_PREGNANT && from > 0 && says(t, at, "weeks days")) {
    struct quantity q = quantity_at(t, from - 1);
    if (q.fault == QUANTITY_FINE && q.tokens == 1) from--;
  }
  while (kind == STATE_URGENT && from > 0 && says(t, from - 1, "ate eaten swallowed has had have been just drank some")) from--;
  while (from > 0 && says(t, from - 1, "on with has in early mild chronic late severe acute from got heavily his her"))
    from--;
  return from;
}

static size_t end_of(const struct tokens *t, size_t behind, enum state_kind kind) {
  if (says(t, behind - 1, "stage") && is_number(t, behind)) behind++; /* "IRIS stage 2" */
  if (says(t, behind, "stage grade") && is_number(t, behind + 1)) behind += 2;
  if (kind == STATE_MEDICINE && is_number(t, behind) && says(t, behind + 1, "mg mcg ml iu units")) behind += 2;
  if (kind == STATE_MEDICINE && behind < t->count) behind += frequency_at(t, behind).tokens;
  return behind;
}

/* "has a heart murmur and takes NAME": a word that no food has, behind an illness that may need no medicine, is one. */
static bool takes_medicine(struct post_reader *r, const struct tokens *t, size_t behind) {
  enum { FAR = 5 };
  for (size_t i = behind; i + 1 < t->count && i < behind + FAR; i++) {
    if (!says(t, i, "takes taking") || !is_word(t, i + 1) || post_mention_at(r, t, i + 1) > 0) continue;
    bool known = says(t, i + 1, "a an the his her it its some two one everything nothing joint glucosamine turmeric collagen");
    bool ends = i + 2 >= t->count || t->item[i + 2].kind == TOKEN_MARK || says(t, i + 2, "for daily twice once every and");
    if (!known && ends) return true;
  }
  return false;
}

/* "... an hour ago", "since last night": of what cannot wait all that stands behind it goes, where nothing is fed by it. */
static size_t end_of_urgent(struct post_reader *r, const struct tokens *t, size_t behind) {
  size_t end = post_clause_end(t, behind);
  for (size_t i = behind; i < end; i++) {
    double kg;
    if (post_weight_at(t, i, &kg) > 0 || says(t, i, "g mg ml iu") || post_mention_at(r, t, i) > 0) return behind;
  }
  return end;
}

/* Does the clause tell nothing else, so that all of it goes? */
static bool tells_nothing_else(struct post_reader *r, const struct tokens *t, size_t begin, size_t end, size_t from,
                               size_t to) {
  enum species s;
  for (size_t i = begin; i < end; i++) {
    if (i >= from && i < to) continue;
    if (is_number(t, i) || post_mention_at(r, t, i) > 0 || says_a(t, i, CLASS_NEUTERED)) return false;
    if (says(t, i, "queen tom girl boy lad lady dam sire")) return false;
    if (is_word(t, i) && (token_is_animal(&t->item[i], &s) || post_pet_name(r, t, i).n > 0)) return false;
    if (says_a(t, i, CLASS_EATER_VERB) && !says(t, i, "has have had")) return false;
    if (says(t, i, "so because but and")) return false;
  }
  return true;
}

/* "prone to pancreatitis", "a history of bladder stones": told with these words. */
static size_t leaning_from(const struct tokens *t, size_t at) {
  bool to = at > 1 && says(t, at - 1, "to") && says(t, at - 2, "prone predisposed susceptible inclined");
  return to || (at > 1 && says(t, at - 1, "of") && says(t, at - 2, "history")) ? at - 2 : at;
}

static void remember_state(struct post_reader *r, struct told_state s) {
  if (r->state_count < COUNT_OF(r->state)) r->state[r->state_count++] = s;
}

/* "Queen, 4 kg, kittens are 3 weeks old": they are hers, and she nurses them; "with five pups", "feeding nine pups". */
static size_t young_of_hers(const struct tokens *t, size_t at, enum state_kind *kind) {
  static const double WEANED_YEARS = 0.2; /* ten weeks */
  double years;
  *kind = STATE_NURSING;
  if (says(t, at, "with feeding nursing rearing raising suckling mother")) {
    size_t i = at + (says(t, at + 1, "of her") ? 2 : 1);
    struct quantity q = quantity_at(t, i);
    bool mine = at > 0 && says(t, at - 1, "i'm i am we're we are");
    if (q.fault != QUANTITY_FINE || mine || !says(t, i + q.tokens, "kittens puppies pups babies")) return 0;
    return says(t, i + q.tokens + 1, "to who") ? 0 : i + q.tokens + 1 - at;
  }
  if (!says(t, at, "kittens puppies pups babies litter")) return 0;
  bool are = says(t, at + 1, "are is"), hers = false;
  for (size_t i = 0; i < at && !are; i++) hers = hers || says(t, i, "bitch queen dam mother mum mom she she's her");
  size_t skip = are || is_mark(t, at + 1, ',') ? 2 : 1, age = are || hers ? post_age_at(t, at + skip, &years) : 0;
  return age == 0 || years > WEANED_YEARS ? 0 : skip + age;
}

/* "Bitch 20 kg due in two weeks", "she is due any day"; not "my order is due in two weeks", "due for her jabs". */
static size_t due_at(struct post_reader *r, const struct tokens *t, size_t at, enum state_kind *kind) {
  enum species s;
  double x;
  bool mated = says(t, at, "mated") && (quantity_at(t, at + 1).fault == QUANTITY_FINE || says(t, at + 1, "last in on"));
  if (!mated && !(says(t, at, "due") && says(t, at + 1, "in any next this soon on around to about end tomorrow"))) return 0;
  *kind = STATE_PREGNANT;
  if (mated) return 1;
  for (size_t i = at; i-- > 0;) {
    if (says(t, i, "is she's shes now about in old girl bitch queen dam she he's") || t->item[i].kind == TOKEN_MARK ||
        post_weight_at(t, i, &x) > 0 || post_age_at(t, i, &x) > 0 || is_number(t, i) || says_a(t, i, CLASS_KILOGRAMS)) {
      if (says(t, i, "girl bitch queen dam she she's shes")) return 2;
      continue;
    }
    return (is_word(t, i) && token_is_animal(&t->item[i], &s)) || post_pet_name(r, t, i).n > 0 ? 2 : 0;
  }
  return 0;
}

/* A sign that is ill, or urgent, only with other words of its clause: "two seizures today", "vomits every morning". */
static size_t with_its_time(const struct tokens *t, size_t at, size_t used, bool acute, enum state_kind *kind) {
  enum { FAR = 7 };
  *kind = STATE_ILL;
  for (size_t i = at + used; i < t->count && i < at + used + FAR; i++) {
    bool now = says(t, i, "today tonight yesterday since now") || (says(t, i, "all this last") && says(t, i + 1, "day night morning"));
    if (acute && now) *kind = STATE_URGENT;
    bool often = says(t, i, "constantly always repeatedly chronic daily weeks week months month years regularly often weekly") ||
                 (says(t, i, "every each") && !says(t, i + 1, "time")) || (says(t, i, "on all") && says(t, i + 1, "and the"));
    if (!acute && often) return used;
  }
  return acute || (at > 0 && says(t, at - 1, "chronic constant ongoing persistent")) ? used : 0;
}

/* A pill that is called after the thyroid, by whatever name it is sold. */
static size_t thyroid_pill_at(const struct tokens *t, size_t at) {
  static const char *const PILL[] = {"tab", "tabs", "pill", "pills", "tablet", "tablets"};
  enum { STEM = 5 };
  if (!is_word(t, at) || !span_starts_fold(t->item[at].word, "thyro")) return 0;
  struct span rest = span_cut(t->item[at].word, STEM, t->item[at].word.n);
  if (rest.n > 1 && rest.p[0] == '-') rest = span_cut(rest, 1, rest.n);
  for (size_t i = 0; i < COUNT_OF(PILL); i++)
    if (span_eq_fold(rest, span_of(PILL[i]))) return 1;
  size_t next = at + (is_mark(t, at + 1, '-') ? 2 : 1);
  return says(t, next, "tab tabs pill pills tablet tablets") ? next + 1 - at : 0;
}

static size_t state_at(struct post_reader *r, const struct tokens *t, size_t at, enum state_kind *kind) {
  const char *is;
  size_t used = meaning_at(t, at, CLASS_ANIMAL_STATE, &is), sign;
  *kind = used > 0 ? kind_of(is) : STATE_PREGNANT;
  if (used > 0 && (means(is, "acute") || means(is, "lasting"))) used = with_its_time(t, at, used, means(is, "acute"), kind);
  if (used == 0 && expects(t, at)) used = 1, *kind = STATE_PREGNANT;
  if (used == 0 && (used = thyroid_pill_at(t, at)) > 0) *kind = STATE_MEDICINE;
  if (used == 0) used = due_at(r, t, at, kind);
  if (used == 0) used = young_of_hers(t, at, kind);
  if (used > 0 && is_other_word(t, at, at + used, *kind)) used = 0;
  enum state_kind of_sign;
  sign = post_sign_at(r, t, at, &of_sign);
  if (sign <= used) return used;
  *kind = of_sign;
  return sign;
}

/* "No kidney, liver or heart disease", "no history of pancreatitis, diabetes or struvite", "no health issues": where the
 * list behind a denial ends; 0 where it is none of states. Behind a comma it goes on only to an "or", and not behind that:
 * "no grain, liver disease" is ill. */
static size_t denied_list_end(struct post_reader *r, const struct tokens *t, size_t at) {
  const char *is;
  size_t used = meaning_at(t, at, CLASS_ABOUT_A_STATE, &is), sure = 0, end = 0;
  bool told = false, comma = false;
  if (used == 0 || !means(is, "denied")) return 0;
  for (size_t i = at + used; i < t->count;) {
    enum state_kind kind;
    bool alternative = says(t, i, "or nor") || is_mark(t, i, '/');
    if (is_mark(t, i, ',') && sure > 0) break;
    if (is_mark(t, i, ',') && !comma) comma = true, end = told ? i : 0;
    used = state_at(r, t, i, &kind);
    if (used == 0 && !alternative && !is_mark(t, i, ',') && !says_a(t, i, CLASS_HEALTH_WORD)) break;
    told = told || used > 0 || says_a(t, i, CLASS_HEALTH_NOUN);
    if (alternative) sure = i;
    i += used > 0 ? used : 1;
    if (!comma || sure > 0) end = i;
  }
  return told ? end : 0;
}

static void take_denied_lists(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t end = denied_list_end(r, t, i);
    if (end <= i) continue;
    post_claim(r, tokens_span(t, i, end - i), CLAIM_TOLD, 0, 0);
    take(t, i, end - i);
    i = end - 1;
  }
}

void post_hear_state(struct post_reader *r, struct tokens *t) {
  take_denied_lists(r, t);
  post_hear_loss(r, t);
  for (size_t i = 0; i < t->count; i++) {
    enum state_kind kind;
    r->keeps_low_fat = r->keeps_low_fat || phrase_of(t, i, CLASS_FED_LOW_FAT) > 0;
    r->pup = r->pup || (says(t, i, "pup") && !says_a(t, i + 1, CLASS_BEHIND_YOUNG_ANIMAL));
    size_t used = state_at(r, t, i, &kind);
    if (used == 0) continue;
    size_t from = begin_of(t, i, kind), to = end_of(t, i + used, kind);
    enum state_kind told = as_told(t, i, i + used, kind);
    if (told == STATE_URGENT) to = end_of_urgent(r, t, to);
    if (told == STATE_PERHAPS && takes_medicine(r, t, i + used)) told = STATE_ILL;
    size_t said = leaning_from(t, i);
    bool stage = to > i + used && kind != STATE_MEDICINE;
    struct told_state s = {.kind = told,
                           .words = arena_span(r->keep, tokens_span(t, said, (stage ? to : i + used) - said)),
                           .of = arena_span(r->keep, named_before(r, t, i)),
                           .species = species_beside(t, i, i + used),
                           .medicine = kind == STATE_MEDICINE,
                           .line = r->line,
                           .sentence = r->heard_count};
    if (told == STATE_YOUNG) s.of = (struct span){"", 0}, s.species = -1;
    if (told != STATE_NOT) remember_state(r, s);
    if (kind == STATE_YOUNG || (told == STATE_NOT && !is_denied(t, i, i + used))) {
      i += used - 1; /* "I'm a bit stiff lately": nor is "stiff lately" of the animal */
      continue;
    }
    size_t begin = clause_begin(t, i), end = post_clause_end(t, i + used);
    if (begin > 0 || t->item[0].kind == TOKEN_MARK) begin += t->item[begin].kind == TOKEN_MARK;
    enum species its;
    bool animal = used > 1 && is_word(t, i + used - 1) && token_is_animal(&t->item[i + used - 1], &its);
    if (animal) to = i + used - 1; /* "kidney kitty" */
    bool all = !animal && tells_nothing_else(r, t, begin, end, from, to);
    if (all) from = begin, to = end;
    bool named = told == STATE_PERHAPS && (used > 1 || stage); /* "heart murmur grade 2 but no meds": no heart that is fed */
    if (!all && !named && (told == STATE_WAS_ILL || told == STATE_PERHAPS)) {
      i += used - 1;
      continue;
    }
    post_claim(r, tokens_span(t, from, to - from), CLAIM_TOLD, 0, 0);
    take(t, from, to - from);
    i = to > i ? to - 1 : i;
  }
}

/* ---- when all is read ---- */

static struct span ours(const struct post_reader *r) {
  if (r->asked_about.n > 0) return r->asked_about;
  for (size_t i = 0; i < r->named_count; i++)
    if (r->named[i].kg == r->weight_kg) return r->named[i].name;
  return (struct span){"", 0};
}

bool post_is_ours(const struct post_reader *r, struct span of, int species) {
  struct span name = ours(r);
  if (of.n > 0 && name.n > 0 && !post_same_name(of, name)) return false;
  return species < 0 || !r->species_said || species == (int)r->species;
}

static bool is_ours(const struct post_reader *r, const struct told_state *s) { return post_is_ours(r, s->of, s->species); }

/* The words as the strict text has them: no comma, and each once. */
static void add_illness(struct buf *b, const struct told_state *s, size_t *count) {
  if (*count >= FAMILY_MOST_ILLNESSES || span_holds_fold(buf_span(b), s->words)) return;
  buf_adds(b, *count > 0 ? " and " : "");
  if (s->medicine && !span_starts_fold(s->words, "on ")) buf_adds(b, "on ");
  for (size_t i = 0; i < s->words.n; i++) buf_addc(b, memchr(",;()#:\n", s->words.p[i], 7) ? ' ' : s->words.p[i]);
  ++*count;
}

static void ask_of_illness(struct post_reader *r, const struct told_state *s) {
  r->line = s->line;
  r->ask_of = 0;
  struct post_question *q =
      s->kind == STATE_WAS_ILL
          ? post_ask(r, 4, "Is the animal well today? '%.*s' was taken for past; of one that is not well no verdict holds.",
                     SPAN_ARG(quoted(s->words)))
          : post_ask(r, 3.5, "Is the animal treated for '%.*s'? It was taken for well; of one that is not no verdict holds.",
                     SPAN_ARG(quoted(s->words)));
  if (q) q->strict_line = 0;
  r->line = 0;
}

void post_settle_state(struct post_reader *r) {
  static const double MUCH = 0.9; /* of its weight: to have lost more than a tenth unasked is for a veterinarian (common practice) */
  bool young = false, pregnant = false, nursing = false;
  struct buf ill, status;
  size_t illnesses = 0;
  buf_init(&ill, r->keep, 400);
  buf_init(&status, r->keep, 600);
  for (size_t i = 0; i < r->state_count; i++) {
    const struct told_state *s = &r->state[i];
    if (!is_ours(r, s)) continue;
    young = young || s->kind == STATE_YOUNG;
    pregnant = pregnant || s->kind == STATE_PREGNANT;
    nursing = nursing || s->kind == STATE_NURSING;
    r->urgent = r->urgent || s->kind == STATE_URGENT;
    bool still_fed_by = s->kind == STATE_WAS_ILL && r->keeps_low_fat && span_holds_fold(s->words, SPAN_LIT("pancrea"));
    if (s->kind == STATE_ILL || s->kind == STATE_MEDICINE || s->kind == STATE_URGENT || still_fed_by) add_illness(&ill, s, &illnesses);
  }
  if (r->lost_kg > 0) r->past_kg = r->weight_kg + r->lost_kg;
  if (r->loses && !r->wants_less && r->weight_kg < MUCH * r->past_kg)
    add_illness(&ill, &(struct told_state){.kind = STATE_ILL, .words = SPAN_LIT("lost weight"), .species = -1}, &illnesses);
  r->young = young && isnan(r->age_years);
  r->pregnant = pregnant;
  r->nursing = nursing && !pregnant;
  r->unwell = illnesses > 0;
  if (r->young) buf_adds(&status, r->species == SPECIES_CAT ? "kitten" : "puppy");
  if (pregnant || nursing) buf_addf(&status, "%s%s", status.n > 0 ? " and " : "", pregnant ? "pregnant" : "nursing");
  if (r->unwell) buf_addf(&status, "%snot well (%s)", status.n > 0 ? " and " : "", buf_text(&ill));
  r->status = buf_text(&status);
  if (r->urgent && !(r->weight_kg > 0))
    post_ask(r, 5, "Have you rung a veterinarian? '%s' may be an emergency, and cannot wait for a recipe.", buf_text(&ill));
  for (size_t i = 0; i < r->state_count && illnesses == 0; i++)
    if (is_ours(r, &r->state[i]) && (r->state[i].kind == STATE_WAS_ILL || r->state[i].kind == STATE_PERHAPS))
      ask_of_illness(r, &r->state[i]);
}
