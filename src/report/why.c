/* "check --why": the chain behind one number, line by line, so that it can be followed with a pocket calculator. Four
 * significant digits: enough that what is printed adds up to what is printed. */
#include "report/answer.h"

#include <math.h>

#include "base/num.h"
#include "picture/supply.h"

enum {
  DIGITS = 4,
  NUMBER_WIDE = 4,
  TEXT_AT = 6,
  GRAMS_COLUMNS = 9,
  VALUE_COLUMNS = 11,
  AMOUNT_COLUMNS = 10,
  LABEL_COLUMNS = 8
};

static const char *figure(const struct pen *p, double x) {
  struct buf b;
  if (!isfinite(x)) return "not known";
  buf_init(&b, p->arena, 40);
  if (x != 0 && fabs(x) < 1e-6) return x < 0 ? "-0" : "0";
  num_sig(&b, x, DIGITS);
  return buf_text(&b);
}

static const char *word_of(const struct nutrient_result *n) {
  return n->close_to_limit ? "close to its limit" : verdict_word[n->verdict];
}

static const char *times_sign(const struct pen *p) { return pen_glyph(p, G_TIMES); }

static const char *source_title(const struct view *v, uint32_t source) {
  const struct img_source *row = source ? library_source(v->lib, source) : NULL;
  return row ? lib_str(v->lib, row->title) : "no source";
}

static const char *source_key_of(const struct view *v, uint32_t source) {
  const struct img_source *row = source ? library_source(v->lib, source) : NULL;
  return row ? lib_str(v->lib, row->key) : "no source";
}

static int right_edge(const struct pen *p) {
  int right = p->width - MARGIN;
  return right > TEXT_AT + PROSE_MOST ? TEXT_AT + PROSE_MOST : right;
}

/* "Spread:  text", the label in a column of its own. */
static void labelled(const struct view *v, const char *label, const char *text) {
  struct row r;
  const struct pen *p = &v->pen;
  struct buf out;
  buf_init(&out, p->arena, (size_t)64 * 1024);
  struct pen other = *p;
  other.out = &out;
  struct prose how = prose_at(MARGIN + LABEL_COLUMNS, INK_PLAIN);
  prose_write(&other, &how, text);
  struct span rest = buf_span(&out);
  for (bool first = true; rest.n > 0; first = false) {
    row_start(&r, p);
    row_put(&r, 0, INK_PLAIN, arena_text(p->arena, span_piece(&rest, '\n')));
    if (first) row_put(&r, MARGIN, INK_STRONG, label);
    row_end(&r);
  }
}

/* ---- lines ----------------------------------------------------------------------------------------------------- */

static const char *value_words(const struct view *v, const struct why_term *t) {
  const struct pen *p = &v->pen;
  const struct nutrient_info *info = &nutrient_info[t->nutrient];
  if (t->status == VALUE_UNKNOWN) return say_text(p, "%s: no value", words_nutrient(p->arena, t->nutrient));
  const char *spread = t->cv > 0 ? say_text(p, ", spread %s", say_percent(p, t->cv)) : "";
  return say_text(p, "%s %s per 100 g, %s%s (%s)", words_nutrient(p->arena, t->nutrient),
                  say_text(p, "%s" NBSP "%s", figure(p, t->value), info->unit), value_status_word[t->status], spread,
                  source_key_of(v, t->source));
}

static const char *kept_words(const struct view *v, const struct why_portion *portion, const struct why_term *t) {
  const struct pen *p = &v->pen;
  const struct img_retention *row = portion->cooked;
  if (!row || !(t->value > 0)) return "";
  const char *name = say_text(p, "row %s \"%s\"", lib_str(v->lib, row->code), lib_str(v->lib, row->words));
  if (isnan(t->kept)) return say_text(p, "; what cooking leaves of it is not known (%s)", name);
  return say_text(p, "; cooking leaves %s (%s, %s)", say_percent(p, t->kept), name, value_status_word[t->kept_status]);
}

static void note_line(const struct view *v, const char *text) {
  struct prose how = prose_at(TEXT_AT, INK_DIM);
  how.indent = TEXT_AT + 2;
  prose_write(&v->pen, &how, text);
}

/* An estimate, and a figure that is not believed, say what they rest on. */
static void origin_line(const struct view *v, const struct why_term *t) {
  if (t->status == VALUE_ESTIMATED || t->set_aside) note_line(v, t->origin);
}

/* "4 x 16.6 protein + 9 x 20 fat" */
static const char *made_of(const struct view *v, const struct why_portion *portion) {
  const struct pen *p = &v->pen;
  struct buf b;
  buf_init(&b, p->arena, 1024);
  for (int i = 0; i < portion->term_count; i++) {
    const struct why_term *t = &portion->term[i];
    if (t->value == 0) continue;
    buf_adds(&b, b.n == 0 ? "" : t->factor < 0 ? " - " : " + ");
    if (fabs(t->factor) != 1) buf_addf(&b, "%s %s ", figure(p, fabs(t->factor)), times_sign(p));
    buf_addf(&b, "%s %s", isnan(t->value) ? "?" : figure(p, t->value), words_nutrient(p->arena, t->nutrient));
    if (portion->cooked && t->value > 0)
      buf_addf(&b, " %s %s kept", times_sign(p), isnan(t->kept) ? "?" : figure(p, t->kept));
  }
  return buf_text(&b);
}

static const char *grams_words(const struct view *v, const struct why_portion *portion) {
  const struct pen *p = &v->pen;
  const struct ration_line *l = &v->r->ration->line[portion->line];
  struct buf b;
  buf_init(&b, p->arena, 1024);
  if (l->grams_from && l->grams_from[0]) buf_addf(&b, "%s", l->grams_from);
  if (l->part_count > 1) {
    double whole = 0;
    for (int i = 0; i < l->part_count; i++) whole += l->part[i].grams;
    buf_addf(&b, "%s%s is %s of %s g in a piece", b.n ? "; " : "", portion->part == 0 ? "flesh" : "bone",
             say_percent(p, portion->grams_fed / whole), figure(p, whole));
  }
  if (l->times_per_28 < CALENDAR_DAYS)
    buf_addf(&b, "%s%s g on the day, %s", b.n ? "; " : "", figure(p, portion->grams_fed),
             words_frequency(p->arena, l->times_per_28));
  if (portion->cooked)
    buf_addf(&b, "%s%s g raw are %s g on the plate", b.n ? "; " : "", figure(p, portion->grams_fed),
             figure(p, l->grams_fed));
  if (portion->grams_cv > 0)
    buf_addf(&b, "%sthe weight itself varies by %s", b.n ? "; " : "", say_percent(p, portion->grams_cv));
  return buf_text(&b);
}

static void write_portion(const struct view *v, const struct why_chain *c, const struct why_portion *portion) {
  const struct pen *p = &v->pen;
  const struct ration_line *l = &v->r->ration->line[portion->line];
  int right = right_edge(p);
  struct row r;
  row_start(&r, p);
  if (l->line > 0) row_right(&r, TEXT_AT - 2, NUMBER_WIDE, INK_DIM, say_text(p, "%d", l->line));
  const char *part = l->part_count > 1 ? (portion->part == 0 ? "flesh: " : "bone: ") : "";
  int grams_right = right - AMOUNT_COLUMNS - VALUE_COLUMNS;
  row_fit(&r, TEXT_AT, grams_right - GRAMS_COLUMNS - TEXT_AT - 1, INK_PLAIN,
          say_text(p, "%s%s", part, l->text ? l->text : ""));
  row_right(&r, grams_right, GRAMS_COLUMNS, INK_PLAIN, figure(p, portion->grams));
  bool none = isnan(portion->per_100g);
  row_glyph(&r, grams_right + 1, INK_DIM, G_TIMES);
  row_right(&r, right - AMOUNT_COLUMNS, VALUE_COLUMNS - 3, INK_PLAIN, none ? "?" : figure(p, portion->per_100g));
  row_put(&r, right - AMOUNT_COLUMNS + 1, INK_DIM, "=");
  row_right(&r, right, AMOUNT_COLUMNS - 2, none ? INK_PLAIN : INK_STRONG, none ? "?" : figure(p, portion->amount));
  row_end(&r);
  note_line(v, say_text(p, "%s [%s]", library_name(v->lib, portion->food), library_code(v->lib, portion->food)));
  const char *grams = grams_words(v, portion);
  if (grams[0]) note_line(v, say_text(p, "grams: %s", grams));
  const char *made = portion->term_count > 1 ? made_of(v, portion) : "";
  if (made[0]) note_line(v, say_text(p, "per 100 g: %s", made));
  for (int i = 0; i < portion->term_count; i++) {
    const struct why_term *t = &portion->term[i];
    if (portion->term_count > 1 && t->value == 0 && !p->all) continue;
    note_line(v, say_text(p, "%s%s", value_words(v, t), kept_words(v, portion, t)));
    origin_line(v, t);
  }
  if (portion->missing && isfinite(portion->could_hold))
    note_line(v, say_text(p, "if it is as rich as its class gets, it adds %s",
                          say_with_unit(p, portion->could_hold, nutrient_info[c->n->id].unit)));
}

static void write_head(const struct view *v, const struct nutrient_info *info) {
  const struct pen *p = &v->pen;
  int right = right_edge(p);
  struct row r;
  blank_line(p);
  row_start(&r, p);
  row_put(&r, TEXT_AT, INK_DIM, "a day");
  row_right(&r, right - AMOUNT_COLUMNS - VALUE_COLUMNS, GRAMS_COLUMNS, INK_DIM, "g");
  row_right(&r, right - AMOUNT_COLUMNS, VALUE_COLUMNS - 1, INK_DIM, say_text(p, "%s/100 g", info->unit));
  row_right(&r, right, AMOUNT_COLUMNS, INK_DIM, info->unit);
  row_end(&r);
}

static bool is_partly_energy(const struct view *v, const struct why_chain *c) {
  return c->n->id == NUT_ENERGY && v->r->energy.known == KNOWN_PART;
}

static void write_sum(const struct view *v, const struct why_chain *c) {
  const struct pen *p = &v->pen;
  int right = right_edge(p);
  struct row r;
  row_start(&r, p);
  row_fill(&r, right - AMOUNT_COLUMNS + 2, AMOUNT_COLUMNS - 2, INK_DIM, G_RULE);
  row_end(&r);
  row_start(&r, p);
  row_right(&r, right - AMOUNT_COLUMNS, 20, INK_DIM, is_partly_energy(v, c) ? "sum, at least" : "sum");
  row_right(&r, right, AMOUNT_COLUMNS, INK_STRONG, figure(p, c->sum));
  row_end(&r);
  blank_line(p);
}

/* Titles of the tables that the values come from, each once. */
static void write_sources(const struct view *v, const struct why_chain *c) {
  enum { SOURCES_MOST = 12 };
  uint32_t seen[SOURCES_MOST];
  int n = 0;
  for (size_t i = 0; i < c->count; i++) {
    for (int k = 0; k < c->portion[i].term_count; k++) {
      uint32_t source = c->portion[i].term[k].source;
      bool again = source == 0 || (c->portion[i].term[k].value == 0 && !v->pen.all);
      for (int j = 0; j < n; j++) again = again || seen[j] == source;
      if (!again && n < SOURCES_MOST) seen[n++] = source;
    }
  }
  for (int j = 0; j < n; j++)
    labelled(v, j == 0 ? "Values" : "", say_text(&v->pen, "%s: %s.", source_key_of(v, seen[j]), source_title(v, seen[j])));
}

/* ---- spread ---------------------------------------------------------------------------------------------------- */

struct doubt_part {
  const char *words;
  double variance;
};

static void add_doubt(struct doubt_part *list, int *n, int most, const char *words, double variance) {
  if (!(variance > 0)) return;
  int at = *n < most ? (*n)++ : most - 1;
  if (*n == most && at == most - 1 && list[at].words && list[at].variance >= variance) return;
  for (; at > 0 && list[at - 1].variance < variance; at--) list[at] = list[at - 1];
  list[at] = (struct doubt_part){words, variance};
}

static const char *doubts(const struct view *v, const struct why_chain *c) {
  enum { SHOWN = 4 };
  const struct pen *p = &v->pen;
  struct doubt_part part[SHOWN] = {{NULL, 0}};
  int n = 0;
  for (size_t i = 0; i < c->count; i++) {
    const struct why_portion *x = &c->portion[i];
    const char *food = words_line(p->arena, v->lib, v->r->ration, x->line);
    if (v->r->ration->line[x->line].part_count > 1) food = say_text(p, "%s of %s", x->part == 0 ? "flesh" : "bone", food);
    add_doubt(part, &n, SHOWN, say_text(p, "the contents of %s", food), x->from_content);
    add_doubt(part, &n, SHOWN, say_text(p, "what cooking leaves in %s", food), x->from_kept);
    add_doubt(part, &n, SHOWN, say_text(p, "the amount of %s", food), x->from_weight);
  }
  struct buf b;
  buf_init(&b, p->arena, 4096);
  for (int i = 0; i < n; i++)
    buf_addf(&b, "%s%s %s", i ? ", " : "", part[i].words, say_percent(p, part[i].variance / c->variance));
  return buf_text(&b);
}

static void write_spread(const struct view *v, const struct why_chain *c) {
  const struct pen *p = &v->pen;
  const struct nutrient_result *n = c->n;
  const char *unit = nutrient_info[n->id].unit;
  if (!(c->sum > 0)) return;
  const char *from = doubts(v, c);
  if (!isfinite(n->high)) return;
  labelled(v, "Spread",
           say_text(p, "coefficient of variation %s: 9 times in 10 between %s and %s.%s%s%s",
                    say_percent(p, sqrt(c->variance) / c->sum), figure(p, n->low), say_with_unit(p, n->high, unit),
                    from[0] ? " The variance comes from: " : "", from, from[0] ? "." : ""));
}

/* ---- window, need, chance, verdict -------------------------------------------------------------------------------- */

static const char *run_words(const struct view *v, const struct why_window *w, const char *unit) {
  const struct pen *p = &v->pen;
  int last = (w->first + w->days - 1) % CALENDAR_DAYS + 1;
  const char *days = w->days == 1 ? say_text(p, "day %d", w->first + 1) : say_text(p, "days %d to %d", w->first + 1, last);
  return say_text(p, "%s of 28, %s" NBSP "%s a day", days, figure(p, w->amount), unit);
}

static void write_window(const struct view *v, const struct why_chain *c) {
  const struct pen *p = &v->pen;
  const struct nutrient_result *n = c->n;
  const char *unit = nutrient_info[n->id].unit, *why = n->window ? lib_str(v->lib, n->window->note) : "";
  struct buf b;
  buf_init(&b, p->arena, 4096);
  buf_addf(&b, "may average over %d day%s", n->window_days, n->window_days == 1 ? "" : "s");
  if (why[0]) buf_addf(&b, " (%s; %s)", why, confidence_word[n->window->confidence]);
  if (c->lean.days == CALENDAR_DAYS) {
    buf_adds(&b, "; every such run supplies the same");
  } else {
    buf_addf(&b, "; poorest: %s, coefficient of variation %s", run_words(v, &c->lean, unit), say_percent(p, c->lean.cv));
    if (isfinite(n->upper)) buf_addf(&b, "; richest: %s", run_words(v, &c->rich, unit));
  }
  buf_addc(&b, '.');
  labelled(v, "Window", buf_text(&b));
}

static void write_table_row(const struct view *v, const char *label, const char *what, double amount, const char *unit,
                            const struct img_allowance *row) {
  const struct pen *p = &v->pen;
  if (!row) return;
  const char *note = lib_str(v->lib, row->note), *place = library_allowance_place(v->lib, row);
  if (!place)
    place = say_text(p, "data/allowances.tsv, line %d, %s; %s", row->row, confidence_word[row->confidence],
                     source_title(v, row->source));
  labelled(v, label,
           say_text(p, "%s%s; %s prints \"%s\" (%s)%s%s.", what, say_text(p, "%s" NBSP "%s", figure(p, amount), unit),
                    standard_name[row->standard], library_allowance_printed(v->lib, row), place, note[0] ? "; " : "", note));
}

static void write_need(const struct view *v, const struct why_chain *c) {
  const struct pen *p = &v->pen;
  const struct nutrient_result *n = c->n;
  const struct allowance *t = n->table;
  const char *unit = nutrient_info[n->id].unit;
  if (!t) return;
  const char *how = allowance_how(t);
  if (how[0]) how = say_text(p, "%s = ", how);
  write_table_row(v, "Need", how, t->allowance, unit, t->allowance_row);
  if (n->adjusted)
    labelled(v, t->allowance_row ? "" : "Need",
             say_text(p, "for this bowl %s" NBSP "%s: %s.", figure(p, n->adjusted_to), unit,
                      n->adjusted_why ? n->adjusted_why : "adjusted"));
  if (t->minimum_row && t->minimum_row != t->allowance_row)
    write_table_row(v, "Minimum", "", t->minimum, unit, t->minimum_row);
  write_table_row(v, "Limit", t->upper_greater_than ? "highest level tested, no proven ceiling: " : "", t->upper, unit,
                  t->upper_row);
}

static void write_chance(const struct view *v, const char *label, const char *of, const struct why_chance *c, bool at_most) {
  const struct pen *p = &v->pen;
  if (isnan(c->chance)) return;
  if (isnan(c->z)) {
    labelled(v, label, say_text(p, "%s: %s; nothing here varies.", of, say_chance(p, c->chance)));
    return;
  }
  labelled(v, label,
           say_text(p,
                    "%s: %s. sigma = sqrt(ln(1 + %s^2)) = %s; z = %s(ln(%s / %s) - %s^2 / 2) / %s%s = %s; the normal "
                    "distribution at z.",
                    of, say_chance(p, c->chance), figure(p, c->cv), figure(p, c->sigma), at_most ? "-" : "",
                    figure(p, c->mean), figure(p, c->figure), figure(p, c->sigma), figure(p, c->sigma), "",
                    figure(p, c->z)));
}

static void write_word(const struct view *v, const struct why_chain *c) {
  const struct pen *p = &v->pen;
  const struct nutrient_result *n = c->n;
  labelled(v, "Verdict",
           say_text(p, "%s: %s%s.", word_of(n), verdict_rule_text[c->rule],
                    c->rule == RULE_NOT_SURE || c->rule == RULE_LIMIT_NOT_SURE || c->rule == RULE_MET
                        ? say_text(p, " (%s)", say_percent(p, v->r->options.sure))
                        : ""));
}

static void write_energy(const struct view *v, const struct why_chain *c) {
  const struct pen *p = &v->pen;
  const struct energy_result *e = &v->r->energy;
  const struct why_four_step *f = &c->four_step;
  if (!isnan(f->kcal))
    labelled(v, "Bowl",
             say_text(p, "four steps: %s kcal gross %s %s %% digestible - %s kcal in the urine = %s kcal.",
                      figure(p, f->gross), times_sign(p), figure(p, f->digestible_percent), figure(p, f->urine),
                      figure(p, f->kcal)));
  if (!v->r->animal || !(e->need.kcal > 0)) return;
  const struct img_energy *row = e->need.row;
  labelled(v, "Need",
           say_text(p, "%s kcal: %s%s.", figure(p, e->need.kcal), e->need.from,
                    row ? say_text(p, " (data/energy.tsv, line %d, %s; %s)", row->row, confidence_word[row->confidence],
                                   source_title(v, row->source))
                        : ""));
}

/* The lines as pieces of one bar, and how far it is from the need. */
static void draw_supply(const struct view *v, enum nutrient id) {
  const struct pen *p = &v->pen;
  struct suppliers s;
  struct row r;
  if (!supply_of(v->lib, v->r, id, &s, p->arena)) return;
  int columns = right_edge(p) - MARGIN;
  blank_line(p);
  row_start(&r, p);
  if (s.gap[0]) row_fill(&r, MARGIN, columns, INK_DIM, G_DOT);
  ribbon_fill(&r, MARGIN, columns - 1, &s.pieces);
  if (isfinite(s.need)) row_glyph(&r, MARGIN + ribbon_cell(columns - 1, s.need), INK_STRONG, G_NEED);
  row_end(&r);
  ribbon_legend(p, MARGIN, &s.pieces);
  if (!s.gap[0]) return;
  row_start(&r, p);
  row_right(&r, right_edge(p), columns, INK_PLAIN, s.gap);
  row_end(&r);
}

static void write_chain(const struct view *v, const struct why_chain *c) {
  const struct pen *p = &v->pen;
  const struct nutrient_result *n = c->n;
  const struct nutrient_info *info = &nutrient_info[n->id];
  bool judged = v->r->animal && v->r->refusal == REFUSE_NOT;
  const char *amount =
      n->known == KNOWN_NONE ? "the amount is not known" : say_text(p, "%s a day", say_with_unit(p, n->amount, info->unit));
  if (is_partly_energy(v, c)) amount = say_text(p, "at least %s, not fully known", amount);
  const char *aside = judged && n->id != NUT_ENERGY ? say_text(p, "%s, %s", word_of(n), amount) : amount;
  heading(p, info->name, aside);
  if (n->id != NUT_ENERGY) draw_supply(v, n->id);
  write_head(v, info);
  for (size_t i = 0; i < c->count; i++) write_portion(v, c, &c->portion[i]);
  write_sum(v, c);
  write_sources(v, c);
  write_spread(v, c);
  if (n->id == NUT_ENERGY) {
    write_energy(v, c);
    return;
  }
  if (!judged) return;
  write_window(v, c);
  write_need(v, c);
  write_chance(v, "Chance", "that the need is reached", &c->met, false);
  if (isfinite(n->upper)) write_chance(v, isnan(c->met.chance) ? "Chance" : "", "that the limit is kept", &c->kept, true);
  write_word(v, c);
}

/* ---- ratios ---------------------------------------------------------------------------------------------------- */

static const char *sum_words(const struct view *v, const struct why_sum *s, int count) {
  const struct pen *p = &v->pen;
  struct buf b;
  buf_init(&b, p->arena, 1024);
  buf_adds(&b, "(");
  for (int i = 0; i < count; i++) {
    const char *name = words_nutrient(p->arena, s[i].nutrient);
    buf_adds(&b, i ? " + " : "");
    if (isnan(s[i].amount)) {
      buf_addf(&b, "%s not known", name);
      continue;
    }
    buf_addf(&b, "%s" NBSP "%s %s", figure(p, s[i].amount), nutrient_info[s[i].nutrient].unit, name);
    if (!isnan(s[i].molar_mass)) buf_addf(&b, " / %s" NBSP "g per mol", figure(p, s[i].molar_mass));
  }
  buf_adds(&b, ")");
  return buf_text(&b);
}

static void write_ratio(const struct view *v, const struct why_ratio *q) {
  const struct pen *p = &v->pen;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  heading(p, balance_name[q->id], figure(p, q->value));
  blank_line(p);
  prose_write(p, &how,
              say_text(p, "%s / %s = %s", sum_words(v, q->top, q->top_count), sum_words(v, q->bottom, q->bottom_count),
                       figure(p, q->value)));
  how.ink = INK_DIM;
  prose_write(p, &how,
              say_text(p,
                       "Sums over all days, so that foods of different days count together; %s of the food has values on "
                       "both sides. --why %s shows where a sum comes from.",
                       say_percent(p, q->known_share), nutrient_info[q->top[0].nutrient].key));
}

void report_why(const struct library *lib, const struct check_result *r, const struct asked *asked,
                const struct report_style *style, struct buf *out) {
  struct view v = {pen_start(style, out), lib, r};
  answer_title(&v);
  if (r->animal && r->refusal != REFUSE_NOT) answer_refusal(&v);
  for (size_t i = 0; i < asked->why_count; i++) {
    if (asked->why[i].chain) {
      write_chain(&v, asked->why[i].chain);
    } else {
      write_ratio(&v, &asked->why[i].ratio);
    }
  }
}
