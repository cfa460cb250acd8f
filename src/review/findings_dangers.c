/* Foods that harm, by record and by words; cooked bone; deadly amounts. Also
 * raised when no verdict may be given, and without an animal: poison is poison
 * for every animal. docs/method/hazards.md. */
#include "foods/constant_keys.h"
#include "foods/hazard_words.h"
#include "judge/meal.h"
#include "review/findings_internal.h"

static bool hazard_applies(const struct review *r, const struct img_hazard *h) {
  return !r->result->animal || h->species == SPECIES_BOTH || h->species == r->result->animal->species;
}

/* "Juniper"; without an animal the species that it harms. */
static const char *who(const struct review *r, const struct img_hazard *h) {
  if (r->result->animal) return words_called(r->result->animal);
  return h->species == SPECIES_BOTH ? "dogs and cats" : h->species == SPECIES_CAT ? "cats" : "dogs";
}

/* Some foods are dangerous only as long as they are raw (beans, green potato).
 */
static bool eaten_raw(const struct review *r, const struct ration_line *l) {
  enum state s = l->state != STATE_UNSTATED ? l->state : (enum state)library_food(r->lib, l->shown_food)->state;
  return !state_is_cooked(s);
}

static void hazard_words(struct draft *d, const struct img_hazard *h) {
  const struct library *lib = d->review->lib;
  draft_word(d, "animal", who(d->review, h));
  draft_word(d, "what", lib_str(lib, h->words));
  draft_word(d, "dose", lib_str(lib, h->dose));
  draft_word(d, "advice", lib_str(lib, h->advice));
  draft_text_because(d, "hazard", lib_str(lib, h->id));
  draft_text_because(d, "hazard_source", lib_str(lib, library_source(lib, h->source)->key));
}

static void mark_line(struct draft *d, int line) {
  d->line = line;
  if (line > 0) draft_number_because(d, "line", line, "");
}

/* ---- one line
 * ------------------------------------------------------------------------------------------------------
 */

static bool is_row(const struct review *r, const struct img_hazard *h, const char *id) {
  return strcmp(lib_str(r->lib, h->id), id) == 0;
}

static const char *share_of_animal(const struct review *r, const struct ration_line *l) {
  if (!r->result->animal) return amount_words(r->arena, l->grams_fed, "g");
  return amount_words(r->arena, l->grams_fed / r->result->animal->weight_kg, "g per kg body weight");
}

/* " (weight-bearing bones ...)"; nothing where the line's own words say as
 * much. */
static const char *kind_words(const struct review *r, const struct img_hazard *h, const char *food) {
  const char *what = lib_str(r->lib, h->words);
  if (span_holds_fold(span_of(food), span_of(what))) return "";
  struct buf b;
  buf_init(&b, r->arena, strlen(what) + 4);
  buf_addf(&b, " (%s)", what);
  return buf_text(&b);
}

/* A vitamin that adds up, and of which the whole bowl holds too little to worry about. */
static bool far_from_limit(const struct review *r, enum nutrient n) {
  static const double FAR = 0.5; /* of the upper limit */
  const struct nutrient_result *x = &r->result->nutrient[n];
  return review_judged(r) && x->high < FAR * x->upper;
}

/* Among dangers: the gravest first, as their rows stand in the table. */
static int gravity_order(const struct review *r, const struct img_hazard *h) {
  return (int)(h - hazard_row(r->lib, 0)) * 10;
}

static void harmful_food(struct review *r, int line, const struct img_hazard *h) {
  const struct ration_line *l = &r->result->ration->line[line];
  struct draft d;
  if (!draft_begin(&d, r, h->weight == FINDING_ACT ? "toxic-food" : "doubtful-food", NULL)) return;
  d.severity = gravity_order(r, h);
  if (is_row(r, h, "cod-liver-oil") && !meal_is_part(r->result) && far_from_limit(r, NUT_VITAMIN_A) &&
      far_from_limit(r, NUT_VITAMIN_D))
    d.weight = FINDING_KNOW;
  d.danger = h->weight == FINDING_ACT;
  hazard_words(&d, h);
  d.about = line_words(r, line);
  draft_word(&d, "food", d.about);
  draft_text_because(&d, "food", library_code(r->lib, l->shown_food));
  draft_word(&d, "kind", kind_words(r, h, line_words(r, line)));
  draft_word(&d, "grams_per_kg", share_of_animal(r, l));
  if (r->result->animal)
    draft_number_because(&d, "grams_per_kg", l->grams_fed / r->result->animal->weight_kg, "g per kg body weight");
  mark_line(&d, l->line);
  draft_end(&d);
}

static void cooked_bone(struct review *r, int line, const char *id) {
  struct draft d;
  if (!draft_begin(&d, r, id, NULL)) return;
  d.severity = line;
  d.danger = true;
  d.about = strcmp(id, "cooked-bone") == 0 ? "cooked bone" : "perhaps cooked bone";
  if (!r->result->animal) draft_word(&d, "animal", "dogs and cats");
  draft_word(&d, "food", line_words(r, line));
  mark_line(&d, r->result->ration->line[line].line);
  draft_end(&d);
}

/* What a line says of its food: its words, what stands behind '#', the name
 * that its label gives; and that it is cooked, where a heading says so for it.
 */
static struct span text_of_line(const struct review *r, const struct ration_line *l) {
  const struct img_food *food = library_food(r->lib, l->shown_food);
  struct buf b;
  size_t remark = l->remark ? strlen(l->remark) : 0;
  const char *label = (food->flags & FOOD_OWN) ? library_name(r->lib, l->shown_food) : "";
  buf_init(&b, r->arena, strlen(l->text) + remark + strlen(label) + 40);
  buf_adds(&b, l->text);
  if (state_is_cooked(l->state) && l->state != STATE_CANNED) buf_adds(&b, ", cooked");
  if (label[0]) buf_addf(&b, ". %s", label);
  if (remark > 0) buf_addf(&b, "\n%s", l->remark);
  return buf_span(&b);
}

static void danger_in_words(struct review *r, const struct ration_remark *remark, const struct hazard_hit *hit);

/* "xylitol-hidden" says nothing beside "xylitol". */
static bool is_told_by_another(const struct review *r, const struct img_hazard *h, const struct hazard_hit *hit, size_t n) {
  const char *id = lib_str(r->lib, h->id);
  size_t stem = strlen(id) > 7 && strcmp(id + strlen(id) - 7, "-hidden") == 0 ? strlen(id) - 7 : 0;
  for (size_t i = 0; i < n && stem > 0; i++) {
    const char *other = lib_str(r->lib, hazard_row(r->lib, hit[i].hazard)->id);
    if (strlen(other) == stem && memcmp(other, id, stem) == 0) return true;
  }
  return false;
}

/* Every hazard of a line once, whether the record or the words name it. What its remark names is no food of the line. */
static void line_hazards(struct review *r, const struct library *lib, int line) {
  const struct ration_line *l = &r->result->ration->line[line];
  uint32_t by_record = library_food(r->lib, l->shown_food)->hazard;
  struct hazard_hit hit[HAZARD_HITS_MOST];
  if (!(l->grams_fed > 0)) return;
  struct span text = text_of_line(r, l);
  const char *remark = text.p + text.n - (l->remark ? strlen(l->remark) : 0);
  size_t n = hazard_words_find(lib, text, hit, HAZARD_HITS_MOST - 1, r->arena);
  bool has_record = by_record < img_count(&r->lib->image, IMG_HAZARDS);
  if (has_record && (!hazard_row(r->lib, by_record)->raw_only || eaten_raw(r, l))) hit[n++].hazard = by_record;
  for (size_t i = 0; i < n; i++) {
    const struct img_hazard *h = hazard_row(r->lib, hit[i].hazard);
    bool told = h->weight == FINDING_KNOW || !hazard_applies(r, h);
    for (size_t k = 0; k < i && !told; k++) told = hit[k].hazard == hit[i].hazard;
    if (told || is_told_by_another(r, h, hit, n)) continue;
    bool beside = l->remark && hit[i].at.p && hit[i].at.p >= remark && hit[i].at.p < text.p + text.n;
    if (beside && h->weight == FINDING_ACT && !is_row(r, h, "bone-cooked"))
      danger_in_words(r, &(struct ration_remark){0, l->remark}, &hit[i]);
    else if (!is_row(r, h, "bone-cooked"))
      harmful_food(r, line, h);
    else if (!l->cooked_bone)
      cooked_bone(r, line, "cooked-bone-asked");
  }
  if (l->cooked_bone) cooked_bone(r, line, "cooked-bone");
}

/* ---- beside the lines
 * ----------------------------------------------------------------------------------------------
 */

/* The owner's words around what was found, at most 60 bytes: "My neighbour says a little garlic is ok?". */
static const char *words_around(struct review *r, struct span text, struct span at) {
  enum { BEFORE = 34, MOST = 60 };
  static const char *const MARKS[] = {"#", "not counted:", "?", "note:"};
  text = span_trim(text);
  bool left_out = false;
  for (size_t i = 0; i < COUNT_OF(MARKS); i++)
    if (span_starts_fold(text, MARKS[i])) {
      left_out |= i == 1;
      text = span_trim(span_cut(text, strlen(MARKS[i]), text.n));
    }
  if (left_out && text.n > 0 && text.p[text.n - 1] == ')') /* why it was not counted */
    for (size_t i = text.n - 1; i > 0; i--)
      if (text.p[i - 1] == ' ' && text.p[i] == '(') {
        text.n = i - 1;
        break;
      }
  size_t found = at.p >= text.p && at.p < text.p + text.n ? (size_t)(at.p - text.p) : 0, from = 0;
  if (found + at.n > BEFORE)
    for (from = found + at.n - BEFORE; from < found && text.p[from - 1] != ' ';) from++;
  size_t end = text.n;
  if (end > from + MOST)
    for (end = from + MOST; end > found + at.n && text.p[end] != ' ';) end--;
  struct span words = span_cut(text, from, end);
  return words_text(r->arena, "%s%.*s%s", from > 0 ? "... " : "", SPAN_ARG(words), end < text.n ? " ..." : "");
}

static bool holds_word(struct span text, const char *words) {
  struct span rest = span_of(words);
  while (rest.n > 0) {
    struct span word = span_piece(&rest, ' ');
    for (size_t i = 0; i + word.n <= text.n; i++) {
      bool begins = i == 0 || text.p[i - 1] == ' ', ends = i + word.n == text.n || strchr(" ,.?!", text.p[i + word.n]);
      if (begins && ends && span_eq_fold(span_cut(text, i, i + word.n), word)) return true;
    }
  }
  return false;
}

/* "Can she have grapes?", of what was not counted: nothing says that any is fed or was eaten. */
static bool is_only_asked(struct span text) {
  static const char *const MARKS[] = {"#", "not counted:", "note:"};
  static const char *const OPENS[] = {
      "can",  "could", "may",  "is it", "is there any harm", "are",       "would",   "should", "is",
      "will", "do",    "does", "am i",  "what about",        "how about", "any harm"};
  text = span_trim(text);
  for (size_t i = 0; i < COUNT_OF(MARKS); i++)
    if (span_starts_fold(text, MARKS[i])) text = span_trim(span_cut(text, strlen(MARKS[i]), text.n));
  size_t end = text.n;
  while (end > 0 && text.p[end - 1] != '?') end--; /* behind it stands why it was not counted */
  text = span_cut(text, 0, end);
  bool opens = false;
  for (size_t i = 0; i < COUNT_OF(OPENS) && !opens; i++)
    opens = span_starts_fold(text, OPENS[i]) && text.n > strlen(OPENS[i]) && text.p[strlen(OPENS[i])] == ' ';
  return end > 0 && opens &&
         !holds_word(
             text,
             "ate eaten gave given giving fed feeding had stole swallowed nicked licked got getting every daily already "
             "still");
}

static bool tells_amount(struct span text) {
  return holds_word(
      text,
      "pinch pinches dash sprinkle sprinkling shake tsp teaspoon teaspoons tbsp tablespoon tablespoons clove cloves slice "
      "slices handful cup cups g ml oz");
}

static void danger_in_words(struct review *r, const struct ration_remark *remark, const struct hazard_hit *hit) {
  const struct img_hazard *h = hazard_row(r->lib, hit->hazard);
  struct draft d;
  bool asked = is_only_asked(span_of(remark->text));
  if (!draft_begin(&d, r, asked ? "danger-asked" : "danger-in-words", NULL)) return;
  d.asked = asked;
  d.severity = gravity_order(r, h);
  d.danger = true;
  d.named_only = asked || !tells_amount(span_of(remark->text)); /* a pinch of it in a list is fed */
  d.advice = asked ? NULL : lib_str(r->lib, h->advice);
  hazard_words(&d, h);
  d.about = arena_text(r->arena, hit->at);
  draft_word(&d, "said", d.about);
  const char *what = lib_str(r->lib, h->words);
  bool again = strncmp(what, d.about, strlen(d.about)) == 0;
  static const size_t SHORT_NAME = 20;
  if (asked && again && strlen(what) < SHORT_NAME) d.about = what; /* "macadamia nuts" for "macadamia" */
  draft_word(&d, "named", again ? what : words_text(r->arena, "%s: %s", d.about, what));
  draft_word(&d, "words", words_around(r, span_of(remark->text), hit->at));
  mark_line(&d, remark->line);
  draft_end(&d);
}

/* 'told': those that an earlier remark has named. */
static void remark_hazards(struct review *r, const struct library *lib, const struct ration_remark *remark, bool *told) {
  struct hazard_hit hit[HAZARD_HITS_MOST];
  size_t n = hazard_words_find(lib, span_of(remark->text), hit, HAZARD_HITS_MOST, r->arena);
  for (size_t i = 0; i < n; i++) {
    const struct img_hazard *h = hazard_row(r->lib, hit[i].hazard);
    if (told[hit[i].hazard] || h->weight != FINDING_ACT || !hazard_applies(r, h)) continue;
    if (is_told_by_another(r, h, hit, n)) continue;
    told[hit[i].hazard] = true;
    danger_in_words(r, remark, &hit[i]);
  }
}

/* ---- doses
 * -----------------------------------------------------------------------------------------------------------
 */

/* Salt on the saltiest day, worked out from the sodium, against the dose from
 * which signs are known. */
static void salt(struct review *r) {
  double sodium_g = r->result->nutrient[NUT_SODIUM].highest_day / 1000, kg = r->result->animal->weight_kg;
  double per_kg = sodium_g / constant_of(r, K_SODIUM_OF_SALT) / kg, signs = constant_of(r, K_SALT_SIGNS);
  struct draft d;
  if (!(per_kg > signs) || !draft_begin(&d, r, "salt-danger", NULL)) return;
  d.danger = true;
  draft_of(&d, NUT_SODIUM);
  d.about = "salt";
  draft_number(&d, "salt", per_kg * kg, "g");
  draft_number(&d, "per_kg", per_kg, "g");
  draft_number(&d, "signs", signs, "g");
  draft_end(&d);
}

static int text_line_of(const struct review *r, const struct nutrient_result *n) {
  const struct supply_list *list = who_supplies(n);
  return list->from_count > 0 ? r->result->ration->line[list->from[0].line].line : 0;
}

/* Days over which it would be eaten: what looks like a batch is no day's dose of what its foods hold. A tablet is taken at
 * once. */
static double eaten_over(const struct review *r, const struct nutrient_result *n) {
  const struct supply_list *list = who_supplies(n);
  bool tablet = list->from_count > 0 && food_of_line(r, (size_t)list->from[0].line)->part == PART_SUPPLEMENT;
  return tablet ? 1 : review_batch_days(r);
}

/* The richest day against the dose that harmed or killed at once. */
static void dose(struct review *r, enum nutrient id, const char *key) {
  const struct nutrient_result *n = &r->result->nutrient[id];
  const struct img_constant *known = library_constant(r->lib, key, r->result->animal->species);
  double per_kg = n->highest_day / eaten_over(r, n) / r->result->animal->weight_kg;
  struct draft d;
  if (!known || !(per_kg > (double)known->value)) return;
  if (!draft_begin_as(&d, r, review_id(r, id, "toxic"), "nutrient-toxic")) return;
  d.danger = true;
  draft_of(&d, id);
  d.about = words_nutrient(r->arena, id);
  draft_word(&d, "name", d.about);
  draft_number(&d, "amount", n->highest_day, nutrient_info[id].unit);
  draft_number(&d, "per_kg", per_kg, nutrient_info[id].unit);
  draft_number_because(&d, "harms_from", (double)known->value, lib_str(r->lib, known->unit));
  draft_word(&d, "known", lib_str(r->lib, known->note));
  const struct supply_list *list = who_supplies(n);
  draft_word(&d, "food", list->from_count > 0 ? line_words(r, list->from[0].line) : "this food");
  draft_text_because(&d, "dose_source", lib_str(r->lib, library_source(r->lib, known->source)->key));
  mark_line(&d, text_line_of(r, n));
  draft_end(&d);
  review_silence_nutrient(r, id);
}

static void doses(struct review *r) {
  static const struct {
    enum nutrient n;
    const char *key;
  } DOSE[] = {{NUT_VITAMIN_D, K_TOXIC_VITAMIN_D}, {NUT_IRON, K_TOXIC_IRON},     {NUT_ZINC, K_TOXIC_ZINC},
              {NUT_SELENIUM, K_TOXIC_SELENIUM},   {NUT_COPPER, K_TOXIC_COPPER}, {NUT_IODINE, K_TOXIC_IODINE}};
  salt(r);
  for (size_t i = 0; i < COUNT_OF(DOSE); i++) dose(r, DOSE[i].n, DOSE[i].key);
}

/* ---- of an animal that is not judged ---- */

/* A supplement that supplies it, and something that is none; -1 where there is no such line. */
static void suppliers_by_kind(const struct review *r, const struct nutrient_result *n, int *supplement, int *food) {
  const struct supply_list *list = who_supplies(n);
  *supplement = *food = -1;
  for (size_t i = 0; i < list->from_count; i++) {
    int line = list->from[i].line, *of = food_of_line(r, (size_t)line)->part == PART_SUPPLEMENT ? supplement : food;
    if (*of < 0) *of = line;
  }
}

/* The vitamins that add up, against the limit of a healthy adult of this weight. Whoever grows or gives milk eats up to
 * twice as much as such a one, and may get twice as much. True: over it. */
static bool vitamin_by_weight(struct review *r, enum nutrient id, const struct allowance_set *adult) {
  const struct nutrient_result *n = &r->result->nutrient[id];
  bool ill = r->result->refusal == REFUSE_UNWELL || r->result->refusal == REFUSE_URGENT;
  double upper = adult->of[id].upper, a_day = n->amount / eaten_over(r, n);
  const struct supply_list *list = who_supplies(n);
  struct draft d;
  if (!(a_day > upper * (ill ? 1 : 2)) || list->from_count == 0) return false;
  if (review_has(r, id == NUT_VITAMIN_D ? "vitamin_d-toxic" : "vitamin_a-toxic")) return true;
  if (!draft_begin(&d, r, id == NUT_VITAMIN_D ? "vitamin-d-by-weight" : "vitamin-a-by-weight", NULL)) return false;
  d.danger = true;
  draft_of(&d, id);
  d.about = words_nutrient(r->arena, id);
  draft_number(&d, "amount", a_day, nutrient_info[id].unit);
  draft_number(&d, "upper", upper, nutrient_info[id].unit);
  draft_number(&d, "times", a_day / upper, "");
  draft_word(&d, "food", line_words(r, list->from[0].line));
  mark_line(&d, text_line_of(r, n));
  draft_end(&d);
  return true;
}

/* Calcium of a supplement in a young dog that grows large, beside bone or beside too much vitamin D. */
static void calcium_of_young(struct review *r, bool much_d) {
  const struct animal *a = r->result->animal;
  const struct img_finding *row = review_row(r, "young-calcium");
  double grown = a->adult_weight_kg > 0 ? a->adult_weight_kg : a->weight_kg;
  int supplement, food;
  struct draft d;
  if (!row || r->result->refusal != REFUSE_GROWTH || a->species != SPECIES_DOG || !(grown > (double)row->threshold)) return;
  suppliers_by_kind(r, &r->result->nutrient[NUT_CALCIUM], &supplement, &food);
  bool bone = r->result->parts[BOWL_BONE] > 0;
  if (supplement < 0 || (!bone && !much_d) || !draft_begin(&d, r, "young-calcium", NULL)) return;
  d.danger = true;
  draft_of(&d, NUT_CALCIUM);
  d.about = "calcium";
  draft_word(&d, "food", line_words(r, supplement));
  draft_word(&d, "beside", bone ? "bone" : "so much vitamin D");
  mark_line(&d, r->result->ration->line[supplement].line);
  draft_end(&d);
}

/* No verdict, but what harms any animal of this weight is told all the same. */
static void harms_unjudged(struct review *r) {
  struct arena *arena = r->arena;
  struct energy_need need = animal_energy(r->lib, r->result->animal, arena);
  struct allowance_set *adult = ARENA_NEW(arena, struct allowance_set, 1);
  enum standard_id standard = r->result->options.standard;
  standard_allowances(r->lib, standard, BASIS_WEIGHT, r->result->animal, &need, (struct energy_eaten){need.kcal, need.kcal},
                      adult, arena);
  vitamin_by_weight(r, NUT_VITAMIN_A, adult);
  calcium_of_young(r, vitamin_by_weight(r, NUT_VITAMIN_D, adult));
}

/* ---- one dose that nobody means ---- */

/* A vitamin or mineral of a line by the gram: "1 g thiamin" for "1 mg". */
static void unmeant_doses(struct review *r) {
  static const enum nutrient SMALL[] = {NUT_THIAMIN,   NUT_RIBOFLAVIN, NUT_NIACIN,    NUT_PANTOTHENIC, NUT_B6,
                                        NUT_FOLATE,    NUT_B12,        NUT_VITAMIN_E, NUT_ZINC,        NUT_COPPER,
                                        NUT_MANGANESE, NUT_IRON,       NUT_IODINE,    NUT_SELENIUM,    NUT_VITAMIN_K};
  for (size_t k = 0; k < COUNT_OF(SMALL); k++) {
    const struct nutrient_result *n = &r->result->nutrient[SMALL[k]];
    const struct img_constant *usual = library_constant(
        r->lib, words_text(r->arena, "%s%s", K_USUAL_TABLET, nutrient_info[SMALL[k]].key), r->result->animal->species);
    const struct supply_list *list = who_supplies(n);
    int line = list->from_count > 0 ? list->from[0].line : -1;
    static const double FAR = 5; /* times the strongest usual tablet */
    struct draft d;
    if (!usual || line < 0 || food_of_line(r, (size_t)line)->part != PART_SUPPLEMENT) continue;
    if (!(n->highest_day > FAR * (double)usual->value)) continue;
    const char *record = library_name(r->lib, r->result->ration->line[line].shown_food); /* and not of kelp */
    if (!span_holds_fold(span_of(record), span_of(nutrient_info[SMALL[k]].name))) continue;
    if (!draft_begin_as(&d, r, review_id(r, SMALL[k], "unmeant"), "dose-unmeant")) continue;
    draft_of(&d, SMALL[k]);
    draft_word(&d, "name", words_nutrient(r->arena, SMALL[k]));
    draft_word(&d, "food", line_words(r, line));
    draft_number(&d, "amount", n->highest_day, nutrient_info[SMALL[k]].unit);
    draft_number(&d, "usual", (double)usual->value, nutrient_info[SMALL[k]].unit);
    draft_number(&d, "times", n->highest_day / (double)usual->value, "");
    mark_line(&d, r->result->ration->line[line].line);
    draft_end(&d);
  }
}

void findings_dangers(struct review *r) {
  const struct ration *ration = r->result->ration;
  struct library lib = *r->lib;
  lib.hazards_said = hazard_words_prepare(r->lib, r->arena);
  for (size_t i = 0; i < ration->line_count; i++) line_hazards(r, &lib, (int)i);
  bool *told = ARENA_NEW(r->arena, bool, img_count(&r->lib->image, IMG_HAZARDS) + 1);
  for (size_t i = 0; i < ration->remark_count; i++) remark_hazards(r, &lib, &ration->remark[i], told);
  if (!r->result->animal) return;
  doses(r);
  unmeant_doses(r);
  if (!review_judged(r) && ration->line_count > 0) harms_unjudged(r);
}
