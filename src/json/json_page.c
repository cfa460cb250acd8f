/* What a page is told while somebody writes, and the envelope that every call of the WebAssembly module answers with. */
#include "app/app_page.h"
#include "post/post.h"

#include "json/json_parts.h"

/* ---- complaints ---------------------------------------------------------------------------------------------------- */

static const struct field FIX[] = {
    NUMBER_ALWAYS("line", "", struct diag_fix, line, "of the text"),
    NUMBER_ALWAYS("column", "characters", struct diag_fix, column, "from 1: where it is written"),
    NUMBER_ALWAYS("width", "characters", struct diag_fix, width, "that give way to it; 0: nothing does"),
    TEXT_ALWAYS("write", struct diag_fix, write, "what to write there"),
    TEXT_ALWAYS("label", struct diag_fix, label, "the same for people"),
};
static const struct shape fix_shape = SHAPE("Fix", FIX, "what to type instead");

static const char *const LEVEL[] = {"error", "warning"};
static const struct shape complaints_shape;
static const char *complaint_text(const struct at *at) {
  return ((const struct diags *)at_within(at, &complaints_shape))->file;
}

static const struct field COMPLAINT[] = {
    TEXT_OF_ALWAYS("text", complaint_text, "which text it is about"),
    WORD("level", struct diag, level, LEVEL, (int)COUNT_OF(LEVEL), ""),
    WORD("code", struct diag, code, diag_code_key, DIAG_CODE_COUNT, "what kind of complaint"),
    NUMBER_ALWAYS("line", "", struct diag, line, "from 1; 0: about the whole text"),
    NUMBER_ALWAYS("column", "characters", struct diag, column, "from 1"),
    NUMBER_ALWAYS("width", "characters", struct diag, width, ""),
    TEXT_ALWAYS("message", struct diag, brief, "what is wrong, for people"),
    TEXT("more", struct diag, more, "of a danger: from which dose, and what to do"),
    ROWS("fix", struct diag, fix, fixes, &fix_shape, "what to type instead, best first"),
};
const struct shape json_complaint_shape = SHAPE("Complaint", COMPLAINT, "what is wrong with a text, and where");
/* Never written itself: it tells a complaint which text it is about. */
static const struct shape complaints_shape = {"", "", "", NULL, 0, false};

static void write_complaints(struct json *j, const struct diags *d) {
  struct at around = {NULL, &complaints_shape, d, NULL, 0};
  for (size_t i = 0; i < d->count; i++) {
    struct at at = {NULL, &json_complaint_shape, &d->item[i], &around, i};
    json_shape(j, NULL, &json_complaint_shape, &at);
  }
}

void json_told(const struct diags *const *about, size_t texts, struct span answer, struct buf *out) {
  struct json j;
  json_init(&j, out);
  json_open(&j, NULL, '{');
  json_open(&j, "complaints", '[');
  for (size_t i = 0; i < texts; i++) write_complaints(&j, about[i]);
  json_close(&j, ']');
  if (answer.n > 0) {
    json_ready(&j, "answer", answer);
  } else {
    json_nothing(&j, "answer");
  }
  json_close(&j, '}');
}

/* ---- a recipe while it is written ----------------------------------------------------------------------------------- */

static const struct app_page_answer *page(const struct at *at) { return at_within(at, &json_page_shape); }
static size_t left_outs(const struct at *at) { return page(at)->left_outs; }
static double left_out(const struct at *at, size_t i) { return page(at)->left_out[i]; }
static double all_kcal(const struct at *at) {
  return page(at)->check.result ? page(at)->check.result->energy.supply_kcal / page(at)->eaten : NOT_KNOWN;
}

static void write_check(struct json *j, const char *key, const struct at *at) {
  const struct asked read_from = {.post = page(at)->check.post};
  struct checked it = {page(at)->check.result, &read_from, true, page(at)->brief, all_kcal(at)};
  struct at inner = {at->lib, &json_check_shape, &it, at, 0};
  if (it.r) {
    json_shape(j, key, &json_check_shape, &inner);
  } else {
    json_nothing(j, key);
  }
}

static const struct field CHOICE[] = {
    WORD("about", struct choice, about, choice_word, CHOICE_COUNT, "what is left open"),
    TEXT_ALWAYS("label", struct choice, label, "for people"),
    TEXT_ALWAYS("write", struct choice, write, "what the line would be"),
    TRUTH("taken", struct choice, taken, "it is read so as it stands"),
};
static const struct shape choice_shape = SHAPE("Choice", CHOICE, "one way to read a line");

static const struct field LINE_CHOICES[] = {
    NUMBER_ALWAYS("line", "", struct line_choices, line, "its number in the text"),
    NUMBER_ALWAYS("column", "characters", struct line_choices, column,
                  "from 1: `write` takes the place of the line from here on"),
    ROWS("options", struct line_choices, option, count, &choice_shape, "of one kind after the other"),
};
static const struct shape line_choices_shape = SHAPE("LineChoices", LINE_CHOICES, "what a line leaves open");

static int told_species(const struct at *at) { return ((const struct post_told *)at->it)->species; }
static int told_neutered(const struct at *at) { return ((const struct post_told *)at->it)->neutered; }
static int told_activity(const struct at *at) { return ((const struct post_told *)at->it)->activity; }

static const struct field TOLD[] = {
    WORD_OF("species", told_species, species_word, SPECIES_COUNT, "null when not said, as the others"),
    NUMBER("weight_kg", "kg", struct post_told, weight_kg, ""),
    NUMBER("age_years", "years", struct post_told, age_years, ""),
    TRUTH_OR_NULL_OF("neutered", told_neutered, ""),
    WORD_OF("activity", told_activity, activity_word, ACTIVITY_COUNT, ""),
    NUMBER("ideal_kg", "kg", struct post_told, ideal_kg, "what it should weigh"),
    TEXT("status", struct post_told, status, "puppy, pregnant, nursing or what illness, as the text of an animal has it"),
};
static const struct shape told_shape = SHAPE("ToldAnimal", TOLD, "what a post tells of the animal");

static double post_assumed(const struct at *at) {
  const struct post *post = at->it;
  double n = 0;
  for (size_t i = 0; i < post->line_count; i++) n += post->line[i].assumed[0] ? 1 : 0;
  return n;
}

static const struct field POST[] = {
    TEXT("text", struct post, recipe, "the strict text that it amounts to; null when no food was found"),
    TEXT("sorry", struct post, sorry, "then: what to do, in one sentence"),
    NUMBER_OF_ALWAYS("assumed", "", post_assumed, "lines of which something is assumed"),
    ROWS("questions", struct post, question, question_count, &json_question_shape, "most telling first"),
    ROWS("left_out", struct post, left, left_count, &json_left_out_shape, "not counted, in the order of the post"),
    OBJECT_IN("animal", struct post, told, &told_shape, ""),
};
static const struct shape post_shape = SHAPE("Post", POST, "what a post was read as");
static const void *page_post(const struct at *at) { return page(at)->check.post; }

static const struct field PAGE[] = {
    NUMBERS_OF("left_out", left_outs, left_out, "lines that are not understood; the rest is judged"),
    NUMBER_ALWAYS("eaten", "", struct app_page_answer, eaten, "share of the food that is judged"),
    NUMBER_OF("all_kcal", "kcal a day", all_kcal, "when all of it is eaten"),
    ROWS("choices", struct app_page_answer, choices, choice_count, &line_choices_shape,
         "what lines leave open; none with numbers-only"),
    OBJECT_OF("post", page_post, &post_shape, "with posted; else null"),
    FREE_OF("check", write_check, "Check | null", &json_check_shape, "null when nothing can be judged"),
};
const struct shape json_page_shape = SHAPE("PageAnswer", PAGE, "a recipe while it is written");

void json_page(const struct library *lib, const struct app_page_answer *a, struct buf *out) {
  json_write(lib, &json_page_shape, a, out);
}

/* ---- a larder, a shelf ----------------------------------------------------------------------------------------------- */

static const struct field LARDER[] = {TRUTH("understood", struct app_larder_answer, understood, "")};
const struct shape json_larder_shape = SHAPE("LarderAnswer", LARDER, "a larder while it is written");

void json_larder(const struct library *lib, const struct app_larder_answer *a, struct buf *out) {
  json_write(lib, &json_larder_shape, a, out);
}

static const struct field OWN[] = {TEXT_ALWAYS("food", struct own_food, code, "the pin"),
                                   TEXT_ALWAYS("name", struct own_food, name, "")};
static const struct shape own_shape = SHAPE("OwnFood", OWN, "a food of one's own");

static size_t own_from(const struct at *at) { return ((const struct app_shelf_answer *)at->it)->first; }
static size_t owns(const struct at *at) { return at->lib->own_count - own_from(at); }
static const void *own(const struct at *at, size_t i) { return &at->lib->own[own_from(at) + i]; }

static const struct field SHELF[] = {ROWS_OF("foods", owns, own, &own_shape, "that were understood")};
const struct shape json_shelf_shape = SHAPE("ShelfAnswer", SHELF, "what one text of own foods was read as");

void json_shelf(const struct library *lib, const struct app_shelf_answer *a, struct buf *out) {
  json_write(lib, &json_shelf_shape, a, out);
}

/* ---- foods for a line ------------------------------------------------------------------------------------------------ */

static const struct img_name *name_of(const struct at *at) { return *(const struct img_name *const *)at->it; }
static const char *name_phrase(const struct at *at) { return lib_str(at->lib, name_of(at)->phrase); }
static const char *name_food(const struct at *at) { return library_code(at->lib, name_of(at)->food); }
static const char *name_record(const struct at *at) { return library_name(at->lib, name_of(at)->food); }

static const struct field NAME[] = {
    TEXT_OF_ALWAYS("phrase", name_phrase, "the everyday name"),
    TEXT_OF_ALWAYS("food", name_food, "the pin of its record"),
    TEXT_OF_ALWAYS("name", name_record, "of the record"),
};
static const struct shape name_shape = SHAPE("EverydayName", NAME, "an everyday name");

static void write_found(struct json *j, const char *key, const struct at *at) {
  const struct app_suggestions *s = at->it;
  struct found_foods it = {s->words, s->hit, s->hits};
  struct at inner = {at->lib, &json_foods_shape, &it, at, 0};
  json_shape(j, key, &json_foods_shape, &inner);
}

static const struct field SUGGEST[] = {
    NUMBER_ALWAYS("column", "characters", struct app_suggestions, column,
                  "of the food's words, from 1; 0: the line holds none yet"),
    NUMBER_ALWAYS("width", "characters", struct app_suggestions, width, ""),
    TRUTH("pinned", struct app_suggestions, pinned, "a record is chosen already"),
    ROWS("names", struct app_suggestions, name, names, &name_shape, "everyday names that the words begin"),
    FREE_OF("found", write_found, "Foods", &json_foods_shape, "records that the words fit"),
};
const struct shape json_suggest_shape = SHAPE("Suggestions", SUGGEST, "foods for a line that is being written");

void json_suggest(const struct library *lib, const struct app_suggestions *a, struct buf *out) {
  json_write(lib, &json_suggest_shape, a, out);
}
