/* The end of an answer: ratios, parts, the lines of the recipe, where it all comes from. */
#include "report/answer.h"

#include <math.h>

#include "judge/uncounted.h"
#include "picture/supply.h"
#include "review/findings.h"

/* ---- ratios ---------------------------------------------------------------------------------------------------- */

enum { GAUGE_COLUMNS = 23, GAUGE_LOW = 5, GAUGE_HIGH = 17, RATIO_NAME = 20, RATIO_VALUE = 10 };

/* The usual range is drawn at the same place in every gauge; the value's place follows its logarithm. An open lower end
 * is taken as a quarter of the upper one, for drawing only. */
static void draw_gauge(struct row *row, int column, const struct usual *q, double value) {
  if (!isfinite(q->high)) return;
  double low = isfinite(q->low) ? q->low : q->high / 4;
  bool closed = isfinite(q->low);
  if (closed) {
    row_glyph(row, column + GAUGE_LOW, INK_DIM, G_EDGE_LEFT);
  } else {
    row_fill(row, column, GAUGE_LOW + 1, INK_DIM, G_LINE);
  }
  row_fill(row, column + GAUGE_LOW + 1, GAUGE_HIGH - GAUGE_LOW - 1, INK_DIM, G_LINE);
  row_glyph(row, column + GAUGE_HIGH, INK_DIM, G_EDGE_RIGHT);
  if (!isfinite(value)) return;
  bool usual = value <= q->high && (!closed || value >= low);
  double at = value > 0 ? GAUGE_LOW + log(value / low) / log(q->high / low) * (GAUGE_HIGH - GAUGE_LOW) : -1;
  enum ink ink = usual ? INK_PLAIN : INK_ACCENT;
  if (!(at >= -0.5)) {
    row_glyph(row, column, ink, G_OFF_LEFT);
  } else if (at > GAUGE_COLUMNS - 0.5) {
    row_glyph(row, column + GAUGE_COLUMNS - 1, ink, G_OFF_RIGHT);
  } else {
    row_glyph(row, column + (int)floor(at + 0.5), ink, G_SURE);
  }
}

void answer_balance(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct balance *b = &v->r->balance;
  const double value[5] = {b->ca_p, b->zn_cu, b->n6_n3, b->k_na, b->phytate_zn};
  const char *gap[USUAL_COUNT];
  struct usual usual[USUAL_COUNT];
  int gaps = 0;
  words_usual(v->lib, usual);
  heading(p, "Balance", "usual range");
  for (size_t i = 0; i < USUAL_COUNT; i++) {
    struct row row;
    row_start(&row, p);
    row_put(&row, MARGIN, INK_PLAIN, usual[i].name);
    int right = MARGIN + RATIO_NAME + RATIO_VALUE;
    row_right(&row, right, RATIO_VALUE, isfinite(value[i]) ? INK_STRONG : INK_PLAIN, words_number(p->arena, value[i]));
    int at = right + 2;
    if (p->width >= 72) {
      draw_gauge(&row, at, &usual[i], value[i]);
      at += GAUGE_COLUMNS + 2;
    }
    row_fit(&row, at, p->width - at, INK_DIM, words_usual_range(p->arena, &usual[i]));
    row_end(&row);
    if (isfinite(value[i]) && b->known_share[i] < 0.995) gap[gaps++] = usual[i].name;
  }
  struct prose how = prose_at(MARGIN, INK_DIM);
  if (gaps > 0) prose_write(p, &how, say_text(p, "Some foods have no figure for %s.", say_list(p, gap, gaps, gaps)));
}

/* ---- parts ----------------------------------------------------------------------------------------------------- */

void answer_parts(const struct view *v) {
  const struct pen *p = &v->pen;
  struct pieces made = parts_of(v->r, p->arena);
  if (made.count == 0) return;
  heading(p, "Made of", "by weight");
  struct row row;
  int columns = p->width - 2 * MARGIN < PROSE_MOST ? p->width - 2 * MARGIN : PROSE_MOST;
  row_start(&row, p);
  ribbon_fill(&row, MARGIN, columns, &made);
  row_end(&row);
  ribbon_legend(p, MARGIN, &made);
}

/* ---- lines of the recipe
 * --------------------------------------------------------------------------------------------------- */

static double kcal_of(const struct energy_result *e, size_t line) {
  for (size_t i = 0; i < e->from_count; i++)
    if (e->from[i].line == (int)line) return e->from[i].amount;
  return (double)NAN;
}

enum { NUMBER_AT = 2, GRAMS_COLUMNS = 9, KCAL_COLUMNS = 11, UNCOUNTED_COLUMNS = 12, TEXT_AT = 6, RIVALS_SHOWN = 3 };

static void write_record(const struct view *v, const char *lead, uint32_t food) {
  const struct pen *p = &v->pen;
  if (food >= library_count(v->lib)) return;
  const char *pin = say_text(p, "[%s]", library_code(v->lib, food));
  int right = p->width - MARGIN, wide = text_columns(p, pin);
  if (right > TEXT_AT + PROSE_MOST) right = TEXT_AT + PROSE_MOST;
  struct row row;
  row_start(&row, p);
  int at = row_put(&row, TEXT_AT, INK_DIM, lead);
  row_right(&row, right, wide, INK_DIM, pin);
  row_fit(&row, at, right - wide - 2 - at, INK_DIM, library_name(v->lib, food));
  row_end(&row);
}

/* Other records that fit: their pins in one line, or each with its name. */
static void write_rivals(const struct view *v, const struct ration_line *l) {
  const struct pen *p = &v->pen;
  struct prose how = prose_at(TEXT_AT, INK_DIM);
  const char *pin[RIVALS_SHOWN];
  size_t shown = 0;
  if (p->all) {
    for (size_t k = 0; k < l->rival_count; k++) write_record(v, "or: ", l->rivals[k]);
    return;
  }
  for (; shown < l->rival_count && shown < RIVALS_SHOWN; shown++)
    pin[shown] =
        l->rivals[shown] < library_count(v->lib) ? say_text(p, "[%s]", library_code(v->lib, l->rivals[shown])) : "?";
  if (shown > 0) prose_write(p, &how, say_text(p, "also fits: %s", say_list(p, pin, (int)l->rival_count, (int)shown)));
}

/* What the eye cannot see in the grams: bone in the piece, and a raw record that stands for the cooked food. */
static const char *how_counted(const struct view *v, const struct ration_line *l) {
  const struct pen *p = &v->pen;
  double daily = l->times_per_28 / CALENDAR_DAYS, bone = l->part_count > 1 ? l->part[1].grams : 0, raw = bone;
  if (l->part_count < 1 || l->part[0].food >= library_count(v->lib)) return "";
  raw += l->part[0].grams;
  bool cooked = l->state < STATE_COUNT && state_is_cooked(l->state) &&
                !state_is_cooked((enum state)library_food(v->lib, l->part[0].food)->state);
  const char *cooking =
      cooked ? say_text(p, "%s raw, then %s", say_with_unit(p, raw * daily, "g"), state_word[l->state]) : "";
  if (!(bone > 0)) return cooking;
  bool shell = !(library_food(v->lib, l->part[1].food)->flags & FOOD_BONE);
  return say_text(p, "%s%s%s of it %s", cooking, cooked ? "; " : "", say_with_unit(p, bone * daily, "g"),
                  shell ? "shell" : "bone");
}

static void write_line(const struct view *v, size_t i) {
  const struct pen *p = &v->pen;
  const struct ration_line *l = &v->r->ration->line[i];
  int right = p->width - MARGIN;
  if (right > TEXT_AT + PROSE_MOST) right = TEXT_AT + PROSE_MOST;
  int grams_right = right - KCAL_COLUMNS;
  double kcal = kcal_of(&v->r->energy, i);
  struct row row;
  row_start(&row, p);
  bool danger = findings_mark_line(v->r, l->line);
  if (l->line > 0)
    row_right(&row, TEXT_AT - 2, 5, danger ? INK_LOUD : INK_DIM, say_text(p, "%s%d", danger ? "!" : "", l->line));
  row_fit(&row, TEXT_AT, grams_right - GRAMS_COLUMNS - TEXT_AT - 1, INK_PLAIN, l->text ? l->text : "");
  row_right(&row, grams_right, GRAMS_COLUMNS, INK_PLAIN, say_with_unit(p, ration_line_grams_per_day(l), "g"));
  row_right(&row, right, KCAL_COLUMNS, INK_PLAIN,
            isfinite(kcal) ? say_text(p, "%s%s kcal", words_whole(p->arena, kcal),
                                      nutrient_lacks_line(&v->r->nutrient[NUT_ENERGY], (int)i) ? "+" : "")
                           : pen_glyph(p, G_DASH));
  row_end(&row);
  write_record(v, "", l->shown_food);
  struct prose how = prose_at(TEXT_AT, INK_DIM), loud = prose_at(TEXT_AT, INK_ACCENT);
  if (danger) prose_write(p, &loud, "danger: see the top");
  const char *note = l->grams_from ? l->grams_from : "";
  if (l->times_per_28 < CALENDAR_DAYS)
    note = say_text(p, "%s%s%s on the day, %s", note, note[0] ? "; " : "", say_with_unit(p, l->grams_fed, "g"),
                    words_frequency(p->arena, l->times_per_28));
  prose_write(p, &how, note);
  prose_write(p, &how, how_counted(v, l));
  if (l->note && l->note[0]) prose_write(p, &how, say_text(p, "note: %s", l->note));
  if (l->pinned) return;
  write_rivals(v, l);
}

/* What could be a food of the library, with so much of it as was allowed for before anything was called short. */
static void write_uncounted(const struct view *v, size_t i) {
  const struct pen *p = &v->pen;
  const struct ration_uncounted *u = &v->r->ration->uncounted[i];
  int right = p->width - MARGIN;
  if (right > TEXT_AT + PROSE_MOST) right = TEXT_AT + PROSE_MOST;
  struct row row;
  row_start(&row, p);
  if (u->line > 0) row_right(&row, TEXT_AT - 2, 5, INK_DIM, say_text(p, "%d", u->line));
  row_fit(&row, TEXT_AT, right - UNCOUNTED_COLUMNS - TEXT_AT - 1, INK_PLAIN, u->text);
  row_right(&row, right, UNCOUNTED_COLUMNS, INK_PLAIN, "not counted");
  row_end(&row);
  struct prose how = prose_at(TEXT_AT, INK_DIM);
  if (uncounted_is_out(v->r, u)) {
    prose_write(p, &how, "must not be fed: nothing that it holds counts for anything");
    return;
  }
  const char *kind = u->may_be_count == 0 ? u->kind.name : NULL;
  if (!kind)
    write_record(v, "", u->may_be[0]);
  else if (kind[0])
    prose_write(p, &how, say_text(p, "taken for %s", kind));
  if (isfinite(v->r->uncounted_g[i]))
    prose_write(p, &how,
                say_text(p, "what is called short stays short with up to %s a day of it%s",
                         say_with_unit(p, v->r->uncounted_g[i], "g"), kind ? ", dry" : ""));
  else if (kind && kind[0])
    prose_write(p, &how, "what is called short stays short with as much as such a product holds");
  else if (kind && u->is_read && u->said_g >= 0)
    prose_write(p, &how, "nobody can say what is in it: it may contain any amount of a vitamin or a mineral");
  else if (kind)
    prose_write(p, &how, "nobody can say what is in it: it may contain any amount of anything");
}

void answer_lines(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct ration *ration = v->r->ration;
  if (!ration || ration->line_count + ration->uncounted_count == 0) return;
  heading(p, "How each line was read", "a day");
  bool rivals = false;
  for (size_t i = 0; i < ration->line_count; i++) {
    write_line(v, i);
    rivals = rivals || (!ration->line[i].pinned && ration->line[i].rival_count > 0);
  }
  for (size_t i = 0; i < ration->uncounted_count; i++) write_uncounted(v, i);
  if (!rivals) return;
  struct prose how = prose_at(TEXT_AT, INK_DIM);
  blank_line(p);
  prose_write(
      p, &how,
      "A [pin] such as [usda:13325] names one record: write it at the end of a line to choose another. --all names them.");
}

/* ---- footnote
 * ---------------------------------------------------------------------------------------------------------------- */

static const char *energy_words(const struct check_result *r) {
  if (r->options.energy_by == ENERGY_PUBLISHED) return "as the tables publish it";
  if (r->options.energy_by == ENERGY_FOUR_STEP) return "by the four-step equation";
  return r->animal && r->animal->species == SPECIES_CAT ? "4, 8.5 and 4 kcal per gram of protein, fat and carbohydrate"
                                                        : "4, 9 and 4 kcal per gram of protein, fat and carbohydrate";
}

static bool names_source(const struct view *v, uint16_t source, const uint16_t *seen, size_t count) {
  (void)v;
  for (size_t i = 0; i < count; i++)
    if (seen[i] == source) return true;
  return false;
}

/* The tables that the foods of this recipe come from, each once. */
static const char *food_sources(const struct view *v) {
  const struct ration *ration = v->r->ration;
  enum { SOURCES_MOST = 8 };
  uint16_t seen[SOURCES_MOST];
  const char *title[SOURCES_MOST];
  size_t count = 0;
  for (size_t i = 0; ration && i < ration->line_count && count < SOURCES_MOST; i++) {
    uint32_t food = ration->line[i].shown_food;
    if (food >= library_count(v->lib)) continue;
    uint16_t source = library_food(v->lib, food)->source;
    const struct img_source *row = library_source(v->lib, source);
    if (!row || names_source(v, source, seen, count)) continue;
    const char *words = lib_str(v->lib, row->title);
    if (!words[0]) continue;
    seen[count] = source;
    title[count++] = words;
  }
  struct buf b;
  buf_init(&b, v->pen.arena, 8192);
  for (size_t i = 0; i < count; i++) buf_addf(&b, "%s%s", i ? "; " : "", title[i]);
  return buf_text(&b);
}

static bool wants_mending(const struct check_result *r) {
  if (!r->animal || r->refusal != REFUSE_NOT || r->ration->line_count == 0) return false;
  for (int n = 0; n < NUT_COUNT; n++)
    if (r->nutrient[n].verdict != VERDICT_MET && r->nutrient[n].verdict != VERDICT_NO_FIGURE) return true;
  return false;
}

void answer_footnote(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct check_result *r = v->r;
  struct prose how = prose_at(MARGIN, INK_DIM);
  how.indent = MARGIN + 2;
  heading(p, "Where this comes from", "");
  if (r->animal && r->refusal == REFUSE_NOT) {
    int all = 0, open = unconfirmed_figures(r, &all);
    prose_write(p, &how,
                say_text(p, "Needs: %s.%s", standard_words(v),
                         r->allowances.basis_forced ? " It has no figures on the basis that was asked for." : ""));
    if (open > 0)
      prose_write(p, &how,
                  say_text(p, "Of its %d figures used here, %s %s read in the source itself: 'bowlwright need' %s.", all,
                           open == all ? "none" : say_text(p, "%d", all - open),
                           all - open == 1 || open == all ? "was" : "were",
                           open == all       ? "names the sources"
                           : all - open == 1 ? "marks it"
                                             : "marks them"));
    prose_write(p, &how,
                say_text(p, "A need counts as met when the chance is at least %s.", say_percent(p, r->options.sure)));
  }
  prose_write(p, &how, say_text(p, "Energy: %s.", energy_words(r)));
  const char *sources = food_sources(v);
  if (sources[0]) prose_write(p, &how, say_text(p, "Foods: %s.", sources));
  prose_write(p, &how, p->all ? "Everything as data: --json." : "More: --all unfolds every line, --json gives it as data.");
  if (wants_mending(r))
    prose_write(p, &how, "Next: 'mend' instead of 'check' finds the smallest change that meets every need.");
}
