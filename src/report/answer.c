#include "report/answer.h"

void report_check(const struct library *lib, const struct check_result *r, const struct report_style *style,
                  struct buf *out) {
  static const struct asked NOTHING = {.why = NULL};
  report_check_asked(lib, r, &NOTHING, style, out);
}

void report_check_asked(const struct library *lib, const struct check_result *r, const struct asked *asked,
                        const struct report_style *style, struct buf *out) {
  struct view v = {pen_start(style, out), lib, r};
  answer_title(&v);
  if (asked->post) answer_left_out(&v, asked->post);
  if (r->animal && r->refusal != REFUSE_NOT) answer_refusal(&v);
  answer_dangers(&v);
  if (is_judged(r) && asked->post) answer_asked(&v, asked->post);
  if (is_judged(r)) answer_verdict(&v);
  answer_energy(&v);
  answer_findings(&v);
  if (is_judged(r)) {
    answer_rails(&v);
    answer_quiet(&v);
  } else {
    answer_composition(&v);
  }
  answer_balance(&v);
  answer_parts(&v);
  if (asked->ratio) answer_ratio(&v, asked->ratio);
  if (asked->post) answer_posted(&v, asked->post);
  answer_lines(&v);
  answer_footnote(&v);
}
