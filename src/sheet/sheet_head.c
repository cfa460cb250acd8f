/* The top of a sheet: what it is, what must not be fed, the bowl in a sentence, its energy. */
#include <math.h>

#include "picture/ribbon.h"
#include "picture/supply.h"
#include "sheet/maker.h"
#include "words/verdicts.h"

static void title(const struct maker *m) {
  const struct ration *ration = m->r->ration;
  struct sheet *s = m->s;
  s->title = clean(m, ration->name && ration->name[0] ? ration->name : "This bowl");
  s->whom = m->r->animal ? clean(m, words_animal(m->arena, m->r->animal)) : "no animal given: not judged";
  ARENA_PUSH(m->arena, s->block, s->count, s->cap,
             ((struct sheet_block){.kind = SHEET_TITLE, .text = s->title, .more = {"", ""}}));
  add_paragraph(m, TONE_DIM, words_text(m->arena, "%s. %s.", s->whom, s->date));
}

static void refusal(const struct maker *m) {
  if (!m->r->animal || m->r->refusal == REFUSE_NOT) return;
  add_box(m, TONE_ACT, refusal_text(m->r->refusal), "", refusal_ask(m->r->refusal));
  add_paragraph(m, TONE_PLAIN, "So this sheet says what the food contains, and nothing about how much to feed.");
}

static void dangers(const struct maker *m) {
  bool any = false, fed = false;
  for (size_t i = 0; i < m->r->finding_count; i++) fed |= m->r->finding[i].danger && !m->r->finding[i].asked;
  for (size_t i = 0; i < m->r->finding_count; i++) {
    const struct finding *f = &m->r->finding[i];
    if (!f->danger) continue;
    if (!any) add_paragraph(m, TONE_DANGER, fed ? "Danger: do not feed this as it is" : "Danger: what is asked about");
    add_box(m, TONE_DANGER, f->text, f->reason, f->remedy);
    any = true;
  }
}

static const char *energy_sentence(const struct maker *m) {
  const struct energy_result *e = &m->r->energy;
  struct arena *a = m->arena;
  const char *gives = words_text(a, "%s%s", words_gives(e, a), e->in_part && isfinite(e->supply_kcal) ? "," : "");
  const char *food = isfinite(e->grams_per_day) ? words_text(a, " in %s of food", mass(m, e->grams_per_day)) : "";
  if (!sheet_judged(m) || !(e->need.kcal > 0)) return words_text(a, "%s%s.", gives, food);
  return words_text(a, "%s%s; %s likely needs %s kcal (animals differ: %s to %s).", gives, food, words_called(m->r->animal),
                    words_whole(a, e->need.kcal), words_whole(a, e->need.low_kcal), words_whole(a, e->need.high_kcal));
}

void make_head(const struct maker *m) {
  title(m);
  dangers(m);
  refusal(m);
  if (sheet_judged(m)) add_paragraph(m, TONE_STRONG, words_lead(m->r, m->arena));
  const char *uncounted = words_uncounted(m->r->ration, m->arena);
  if (uncounted[0] && !sheet_judged(m)) /* else the sentence above says so */
    add_paragraph(m, TONE_STRONG,
                  words_text(m->arena, "Fed, but not counted: %s. Nobody can say what is in it.", uncounted));
  add_paragraph(m, TONE_PLAIN, energy_sentence(m));
  add_picture(m, picture_ribbon(m->r, m->style->large ? 400 : 480, m->arena));
}

/* As wide as the ribbon; what nothing is known of is said and not drawn. */
void make_supplies(const struct maker *m) {
  if (m->f->supplies > 0) add_heading(m, "Who supplies it");
  for (size_t i = 0; i < m->f->supplies; i++) {
    enum nutrient id = m->f->supply[i];
    struct drawing *d = picture_supply(m->f->lib, m->r, id, m->style->large ? 400 : 480, m->arena);
    if (d)
      add_picture(m, d);
    else
      add_paragraph(m, TONE_PLAIN, words_text(m->arena, "%s: %s.", nutrient_info[id].name, NOT_KNOWN_WORDS));
  }
}
