/* The summary of a folder. */
#include "words/many.h"
#include "json/json_parts.h"

/* ---- one nutrient ---- */

static size_t times(const struct at *at, enum group_id group) {
  const struct many *m = at_within(at, &json_many_shape);
  return m->by[*(const enum nutrient *)at->it][group];
}
static const char *its_key(const struct at *at) { return nutrient_info[*(const enum nutrient *)at->it].key; }
static const char *its_name(const struct at *at) { return nutrient_info[*(const enum nutrient *)at->it].name; }
static double n_short(const struct at *at) { return (double)times(at, GROUP_SHORT); }
static double n_thin(const struct at *at) { return (double)times(at, GROUP_THIN); }
static double n_over(const struct at *at) { return (double)times(at, GROUP_OVER); }
static double n_near(const struct at *at) { return (double)times(at, GROUP_NEAR_LIMIT); }
static double n_unproven(const struct at *at) { return (double)times(at, GROUP_UNPROVEN); }
static double n_met(const struct at *at) { return (double)times(at, GROUP_MET); }

static const struct field NUTRIENT[] = {
    TEXT_OF_ALWAYS("key", its_key, ""),
    TEXT_OF_ALWAYS("name", its_name, ""),
    NUMBER_OF_ALWAYS("short", "", n_short, "of how many texts it is short"),
    NUMBER_OF_ALWAYS("thin", "", n_thin, ""),
    NUMBER_OF_ALWAYS("over", "", n_over, ""),
    NUMBER_OF_ALWAYS("close_to_limit", "", n_near, ""),
    NUMBER_OF_ALWAYS("unproven", "", n_unproven, ""),
    NUMBER_OF_ALWAYS("met", "", n_met, ""),
};
static const struct shape nutrient_shape = SHAPE("ManyNutrient", NUTRIENT, "how one need stands in many texts");

/* ---- one file ---- */

static double code(const struct at *at) {
  const struct many_file *f = at->it;
  return f->code < 0 ? NOT_KNOWN : (double)f->code;
}
static const char *lead(const struct at *at) { return ((const struct many_file *)at->it)->tally.lead; }
static int judged(const struct at *at) { return ((const struct many_file *)at->it)->tally.judged; }
static double dangers(const struct at *at) { return (double)((const struct many_file *)at->it)->tally.dangers; }
static double left_out(const struct at *at) { return (double)((const struct many_file *)at->it)->tally.left_out; }
static size_t nutrients(const struct at *at) { return ((const struct many_file *)at->it)->tally.judged ? NUT_COUNT : 0; }
static const char *in_group(const struct at *at, size_t i, enum group_id group) {
  return ((const struct many_file *)at->it)->tally.group[i] == group ? nutrient_info[i].key : NULL;
}
static const char *is_short(const struct at *at, size_t i) { return in_group(at, i, GROUP_SHORT); }
static const char *is_over(const struct at *at, size_t i) { return in_group(at, i, GROUP_OVER); }
static const char *is_unproven(const struct at *at, size_t i) { return in_group(at, i, GROUP_UNPROVEN); }

static const struct field FILE_KEYS[] = {
    TEXT_ALWAYS("file", struct many_file, name, "its name in the folder"),
    NUMBER_OF("code", "", code, "the exit code that this text alone gives; null: not reached"),
    TRUTH_OF("judged", judged, "false: no animal, an animal that is not judged, or a text that was not understood"),
    TEXT_OF("lead", lead, "the bowl in one row"),
    NUMBER_OF_ALWAYS("dangers", "", dangers, ""),
    NUMBER_OF_ALWAYS("left_out", "", left_out, "what is fed and could not be counted"),
    TEXTS_OF("short", nutrients, is_short, "nutrient keys"),
    TEXTS_OF("over", nutrients, is_over, "nutrient keys"),
    TEXTS_OF("unproven", nutrients, is_unproven, "nutrient keys"),
    TEXT("complaint", struct many_file, note, "why it could not be answered"),
    TEXT("written", struct many_file, written, "the file of its answer; null: none was written"),
};
static const struct shape file_shape = SHAPE("ManyFile", FILE_KEYS, "one text of a folder");

/* ---- all of them ---- */

static size_t files(const struct at *at) { return ((const struct many *)at->it)->count; }
static const void *file(const struct at *at, size_t i) { return &((const struct many *)at->it)->file[i]; }
static size_t needs(const struct at *at) { return ((const struct many *)at->it)->order_count; }
static const void *need(const struct at *at, size_t i) { return &((const struct many *)at->it)->order[i]; }

static const struct field MANY[] = {
    NUMBER("texts", "", struct many, count, "files of the folder that were taken for texts"),
    NUMBER("other", "", struct many, other, "other files of the folder, left alone"),
    NUMBER("reached", "", struct many, reached, "fewer than 'texts' when it was stopped"),
    NUMBER("judged", "", struct many, judged, ""),
    NUMBER("refused", "", struct many, refused, "not judged, for the animal's sake"),
    NUMBER("unread", "", struct many, unread, "not understood"),
    NUMBER("uncounted", "", struct many, uncounted, "texts in which something is fed that could not be counted"),
    NUMBER("with_danger", "", struct many, with_danger, ""),
    NUMBER("all_met", "", struct many, all_met, "texts in which every need is met"),
    ROWS_OF("nutrients", needs, need, &nutrient_shape, "most often short first"),
    ROWS_OF("files", files, file, &file_shape, "in the order of their names"),
};
const struct shape json_many_shape = SHAPE("Many", MANY, "the summary of a folder, with `--json`");

void json_many(const struct library *lib, const struct many *m, struct buf *out) {
  json_write(lib, &json_many_shape, m, out);
}
