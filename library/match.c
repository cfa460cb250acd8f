#include "library/match.h"

#include <ctype.h>

static bool is_letter(char c) { return isalnum((unsigned char)c) || (unsigned char)c > 0x7f; }

/* The term ends here, or only a plural ending stands before the end of the word. */
static bool ends_word(const char *p) {
  if (!is_letter(*p)) return true;
  if (p[0] == 's' && !is_letter(p[1])) return true;
  return p[0] == 'e' && p[1] == 's' && !is_letter(p[2]);
}

bool name_has_term(const char *name, struct span term) {
  size_t n = strlen(name);
  if (term.n == 0) return false;
  for (size_t i = 0; i + term.n <= n; i++) {
    if (i > 0 && is_letter(name[i - 1])) continue;
    if (span_eq_fold((struct span){name + i, term.n}, term) && ends_word(name + i + term.n)) return true;
  }
  return false;
}

static bool name_has_any(const char *name, struct span terms) {
  while (terms.n > 0)
    if (name_has_term(name, tsv_piece(&terms, '|'))) return true;
  return false;
}

static bool name_has_all(const char *name, struct span terms) {
  while (terms.n > 0)
    if (!name_has_any(name, tsv_piece(&terms, ','))) return false;
  return true;
}

static bool is_listed(struct span list, const char *code) {
  while (list.n > 0)
    if (span_is(tsv_piece(&list, '|'), code)) return true;
  return false;
}

static struct span optional_cell(const struct tsv *t, size_t row, const char *column) {
  for (size_t i = 0; i < t->columns; i++)
    if (span_is(t->head[i], column)) return t->cell[row * t->columns + i];
  return (struct span){NULL, 0};
}

static uint32_t heated_states(void) {
  uint32_t set = 0;
  for (int s = 0; s < STATE_COUNT; s++)
    if (state_is_cooked((enum state)s) && s != STATE_CANNED) set |= 1u << s;
  return set;
}

static uint32_t set_of(const struct tsv *t, size_t row, const char *column, const char *const *words, int count) {
  return tsv_set(t, row, column, optional_cell(t, row, column), words, count);
}

/* "raw|heated" */
static uint32_t states_of(const struct tsv *t, size_t row) {
  struct span cell = optional_cell(t, row, "state");
  uint32_t set = cell.n == 0 ? UINT32_MAX : 0;
  while (cell.n > 0) {
    struct span piece = tsv_piece(&cell, '|');
    set |= span_is(piece, "heated") ? heated_states() : tsv_set(t, row, "state", piece, state_word, STATE_COUNT);
  }
  return set;
}

struct food_rule food_rule_read(const struct tsv *t, size_t row) {
  struct food_rule r = {set_of(t, row, "part", part_word, PART_COUNT),
                        set_of(t, row, "kind", kind_word, KIND_COUNT),
                        states_of(t, row),
                        optional_cell(t, row, "words"),
                        optional_cell(t, row, "unless"),
                        optional_cell(t, row, "codes"),
                        false};
  bool open = r.parts == UINT32_MAX && r.kinds == UINT32_MAX && r.states == UINT32_MAX && r.words.n == 0;
  r.codes_only = open && r.codes.n > 0;
  if (open && r.codes.n == 0) tsv_fail(t, row, "this rule would mean every food");
  return r;
}

bool food_rule_fits(const struct food_rule *r, const struct build_food *f) {
  if (r->codes.n > 0 && is_listed(r->codes, f->code)) return true;
  if (r->codes_only) return false;
  if (!(r->parts >> f->food.part & 1u) || !(r->kinds >> f->food.kind & 1u) || !(r->states >> f->food.state & 1u))
    return false;
  return name_has_all(f->name, r->words) && !name_has_any(f->name, r->unless);
}
