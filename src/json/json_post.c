/* What a posted text was read as, beside the answer: "questions" and "left_out". */
#include "post/post.h"
#include "json/json_parts.h"

static double place(int line) { return line > 0 ? line : NOT_KNOWN; }
static double question_line(const struct at *at) { return place(((const struct post_question *)at->it)->line); }
static double left_line(const struct at *at) { return place(((const struct post_left *)at->it)->line); }

static const struct field QUESTION[] = {
    NUMBER_OF("line", "", question_line, "of the post; null when it is about the whole"),
    TEXT_ALWAYS("ask", struct post_question, ask, "in words an owner can answer"),
};
const struct shape json_question_shape = SHAPE("Question", QUESTION, "what only the owner can tell");

static const struct field LEFT_OUT[] = {
    NUMBER_OF("line", "", left_line, "of the post"),
    TEXT_ALWAYS("text", struct post_left, text, "as the owner wrote it"),
    TEXT_ALWAYS("why", struct post_left, why, "why it is not counted"),
    TRUTH("fed", struct post_left, fed, "it may be fed, and counts as unknown; false: it is past, or advice"),
};
const struct shape json_left_out_shape = SHAPE("LeftOut", LEFT_OUT, "words of a post that are not counted as a food");

/* Beside a result, or alone when no food was found. */
static const struct post *post_of(const struct at *at) { return ((const struct checked *)at->it)->asked->post; }
size_t json_questions(const struct at *at) { return post_of(at) ? post_of(at)->question_count : 0; }
const void *json_question(const struct at *at, size_t i) { return &post_of(at)->question[i]; }
size_t json_left_outs(const struct at *at) { return post_of(at) ? post_of(at)->left_count : 0; }
const void *json_left_out(const struct at *at, size_t i) { return &post_of(at)->left[i]; }
const char *json_as_recipe(const struct at *at) { return post_of(at) ? post_of(at)->recipe : ""; }

static const char *sorry(const struct at *at) { return post_of(at)->sorry; }

static const struct field UNREAD[] = {
    TEXT_OF_ALWAYS("sorry", sorry, "what to do, in one sentence"),
    ROWS_OF("questions", json_questions, json_question, &json_question_shape, "most telling first"),
    ROWS_OF("left_out", json_left_outs, json_left_out, &json_left_out_shape, "not counted, in the order of the post"),
};
const struct shape json_unread_shape = SHAPE("Unread", UNREAD, "the answer to a post in which no food could be counted");

void json_unread(const struct library *lib, const struct post *post, struct buf *out) {
  struct asked asked = {.post = post};
  struct checked it = {.asked = &asked};
  json_write(lib, &json_unread_shape, &it, out);
}
