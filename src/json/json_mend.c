/* "mend --json": the change, the new text, and how every nutrient stands before and after; further proposals under "more".
 */
#include <math.h>

#include "app/app_mend.h"
#include "json/json_helps.h"
#include "json/json_left.h"
#include "json/json.h"

static const char *status_word(enum mend_status status) {
  switch (status) {
  case MEND_REFUSED:
    return "refused";
  case MEND_NOT_LINEAR:
    return "not-linear";
  case MEND_NONE:
    return "none-exists";
  case MEND_STOPPED:
    return "stopped";
  case MEND_FOUND:
    break;
  }
  return "found";
}

static void write_repairs(struct json *j, const struct mend_change *c) {
  json_open(j, "repairs", '[');
  for (size_t i = 0; i < c->repair_count; i++) json_text(j, NULL, nutrient_info[c->repairs[i]].key);
  json_close(j, ']');
  json_bool(j, "for_energy", c->for_energy);
  json_bool(j, "for_balance", c->for_balance);
}

static void write_changes(struct json *j, const struct library *lib, const struct mended *m, const struct ration *old) {
  json_open(j, "change", '[');
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    if (c->line < 0) continue;
    json_open(j, NULL, '{');
    json_number(j, "line", m->text_line[i]);
    json_text(j, "name", m->food[i]);
    json_text(j, "food", library_code(lib, old->line[c->line].shown_food));
    json_number(j, "from_g", c->from_g);
    json_number(j, "to_g", c->to_g);
    json_text(j, "from", m->from[i]);
    json_text(j, "to", m->to[i]);
    json_bool(j, "dangerous", c->danger);
    write_repairs(j, c);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static const char *code_of_added(const struct mended *m, size_t i) {
  for (size_t k = 0; k < m->lines; k++)
    if (m->line[k].kind == LINE_IN && m->line[k].change == (int)i) return m->line[k].text;
  return NULL;
}

static void write_added(struct json *j, const struct mended *m) {
  json_open(j, "added", '[');
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    if (c->line >= 0) continue;
    json_open(j, NULL, '{');
    json_text(j, "name", m->food[i]);
    json_number(j, "to_g", c->to_g);
    json_text(j, "to", m->to[i]);
    json_text(j, "text", code_of_added(m, i));
    write_repairs(j, c);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_nutrients(struct json *j, const struct check_result *before, const struct check_result *after) {
  json_open(j, "nutrients", '[');
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *was = &before->nutrient[i], *is = &after->nutrient[i];
    if (is->verdict == VERDICT_NO_FIGURE && was->verdict == VERDICT_NO_FIGURE) continue;
    json_open(j, NULL, '{');
    json_text(j, "key", nutrient_info[i].key);
    json_text(j, "unit", nutrient_info[i].unit);
    json_number(j, "before", was->window_amount);
    json_number(j, "after", is->window_amount);
    json_number(j, "allowance", is->allowance);
    json_number(j, "upper", is->upper);
    json_number(j, "chance_met", is->chance_met);
    json_text(j, "verdict_before", verdict_word[was->verdict]);
    json_text(j, "verdict", verdict_word[is->verdict]);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_body(struct json *j, const struct library *lib, const struct mended_answer *a, const struct mended *m) {
  write_changes(j, lib, m, a->before->ration);
  write_added(j, m);
  json_text(j, "text", m->text);
  json_number(j, "objective", m->proposal->cost);
  json_number(j, "lines_touched", (double)m->proposal->count);
  json_number(j, "fewest_possible", m->proposal->fewest);
  json_bool(j, "fewest_proven", m->proposal->fewest_proven);
  json_bool(j, "least_proven", m->proposal->least_proven);
  json_bool(j, "one_line_more_for_round_amounts", m->proposal->one_more);
  json_number(j, "cut_at_most", m->proposal->reach.cut);
  json_number(j, "raised_at_most_times", m->proposal->reach.raise);
  json_number(j, "supply_kcal_before", a->before->energy.supply_kcal);
  json_number(j, "supply_kcal", m->after->energy.supply_kcal);
  write_nutrients(j, a->before, m->after);
  json_left(j, a->before, m->after);
}

static void write_mended(struct json *j, const char *key, const struct library *lib, const struct mended_answer *a,
                         const struct mended *m) {
  json_open(j, key, '{');
  write_body(j, lib, a, m);
  json_close(j, '}');
}

static void write_why_not(struct json *j, const struct library *lib, const struct mended_answer *a) {
  const struct mend_result *r = a->mend;
  json_bool(j, "proven", r->proven);
  json_open(j, "conflict", '[');
  for (size_t i = 0; i < r->conflict.count; i++) json_text(j, NULL, r->conflict.words[i]);
  json_close(j, ']');
  if (a->nearest)
    write_mended(j, "nearest", lib, a, a->nearest);
  else
    json_nothing(j, "nearest");
  json_helps(j, lib, &r->help);
}

void json_mend(const struct library *lib, const struct app_mend_answer *answer, struct buf *out) {
  const struct mended_answer *a = &answer->answer;
  const struct check_result *r = a->before;
  struct json j;
  json_init(&j, out);
  json_open(&j, NULL, '{');
  json_text(&j, "status", status_word(a->mend->status));
  json_text_or_null(&j, "recipe", r->ration->name);
  json_text(&j, "animal", r->animal ? r->animal->name : NULL);
  json_text(&j, "standard", standard_key[r->options.standard]);
  json_text(&j, "basis", basis_key[r->allowances.basis]);
  json_number(&j, "sure", r->options.sure);
  json_bool(&j, "already_met", a->mend->already_met);
  json_bool(&j, "stopped", a->mend->stopped);
  if (a->mend->status == MEND_REFUSED)
    json_text(&j, "refused", refusal_key(r->refusal));
  else
    json_nothing(&j, "refused");
  if (a->count > 0) write_body(&j, lib, a, &a->found[0]);
  json_open(&j, "more", '[');
  for (size_t i = 1; i < a->count; i++) write_mended(&j, NULL, lib, a, &a->found[i]);
  json_close(&j, ']');
  if (a->mend->status == MEND_NONE || a->mend->status == MEND_STOPPED) write_why_not(&j, lib, a);
  json_close(&j, '}');
}
