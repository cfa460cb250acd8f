/* A post, line by line and sentence by sentence. */
#include "base/num.h"
#include "foods/hazard_words.h"
#include "post/post_item.h"

/* ---- tokens ---- */

/* Without the tokens that were taken. */
static struct tokens left_over(const struct tokens *t, size_t from, struct arena *arena) {
  struct tokens out = {ARENA_NEW(arena, struct token, t->count + 1), 0};
  for (size_t i = from; i < t->count; i++)
    if (!t->item[i].taken) out.item[out.count++] = t->item[i];
  return out;
}

/* ---- sentences ---- */

/* "beef liver 100 g. Sorry ...": an amount behind a food ends a sentence; "2 tbsp. Olive oil" begins one. */
static bool ends_with_amount(struct span s) {
  size_t i = s.n;
  while (i > 0 && ((s.p[i - 1] | 0x20) >= 'a' && (s.p[i - 1] | 0x20) <= 'z')) i--;
  while (i > 0 && s.p[i - 1] == ' ') i--;
  size_t digits = i;
  while (i > 0 && ((s.p[i - 1] >= '0' && s.p[i - 1] <= '9') || memchr("./", s.p[i - 1], 2))) i--;
  if (i == digits) return false;
  while (i > 0 && memchr(" ,(:~=", s.p[i - 1], 6)) i--;
  return i > 2 && ((s.p[i - 1] | 0x20) >= 'a' && (s.p[i - 1] | 0x20) <= 'z');
}

/* The end of the sentence that begins at 'from': after ". ", "! ", "? " where a new one begins. */
static size_t sentence_end(struct span line, size_t from) {
  for (size_t i = from; i + 1 < line.n; i++) {
    char c = line.p[i];
    if (c == 0x1F || ((c == '!' || c == '?') && line.p[i + 1] == ' ')) return i + 1;
    if (c != '.' || line.p[i + 1] != ' ') continue;
    size_t next = i + 2;
    while (next < line.n && line.p[next] == ' ') next++;
    bool capital = next < line.n && line.p[next] >= 'A' && line.p[next] <= 'Z';
    size_t word = i;
    while (word > from && line.p[word - 1] != ' ') word--;
    struct span before = span_cut(line, word, i);
    bool short_form = word_in(before, "oz lb lbs tsp tbsp tbs approx c t vit min max ca no incl i.e e.g") || before.n < 2 ||
                      (before.n == 2 && before.p[0] <= '9');
    if (short_form && capital && ends_with_amount(span_cut(line, from, i))) short_form = false;
    bool figure = next < line.n && line.p[next] >= '0' && line.p[next] <= '9'; /* "Dog, 20 kg. 300 g beef" */
    size_t unit = 0;                                                           /* "31kg" */
    while (unit < before.n && ((before.p[unit] >= '0' && before.p[unit] <= '9') || before.p[unit] == ',')) unit++;
    if (figure && word_in(span_cut(before, unit, before.n), "kg kgs lb lbs g oz ml mg") &&
        ends_with_amount(span_cut(line, from, i)))
      return i + 1;
    if (!short_form && (capital || (i - word >= 3 && before.p[0] > '9'))) return i + 1;
  }
  return line.n;
}

static size_t strip_bullet(struct tokens *t) {
  size_t i = 0;
  for (;; i++) {
    bool number = i + 1 < t->count && t->item[i].kind == TOKEN_NUMBER && t->item[i + 1].kind == TOKEN_MARK &&
                  t->item[i + 1].glued && (t->item[i + 1].mark == ')' || t->item[i + 1].mark == '.') && i + 2 < t->count &&
                  !t->item[i + 2].glued && t->item[i].value < 100;
    if (number) {
      take(t, i, 2);
      i++;
      continue;
    }
    bool mark = i < t->count && t->item[i].kind == TOKEN_MARK;
    if (!mark) break;
    uint32_t m = t->item[i].mark;
    if (!(m == '-' || m == '*' || m == '+' || m == '>' || m == 0xB7 || m == ',' || m == '&' || m == '=' ||
          (m >= 0x2000 && m < 0x3000 && m != 0x2044)))
      break;
    t->item[i].taken = true;
  }
  return i;
}

/* "... so now he gets": what follows is fed. */
static size_t now_at(const struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++)
    if ((says(t, i, "so but and") && says(t, i + 1, "now")) || (says(t, i, "now") && says(t, i + 1, "he she i we they")))
      return i + 1;
  return 0;
}

static void read_words(struct post_reader *r, struct span text, bool bulleted);

/* A danger that is named in passing is asked about, although no food was read. */
static void read_sentence(struct post_reader *r, struct span text, bool bulleted) {
  size_t items = r->count, left = r->left_count;
  text = post_written_out(r, text);
  post_hear(r, text, bulleted);
  read_words(r, text, bulleted);
  if (r->count > items || r->left_count > left) return;
  uint32_t danger = hazard_words_danger(r->lib, text, SPECIES_BOTH, r->arena);
  if (danger != NO_INDEX) post_ask_of_danger(r, danger, text, false);
}

/* "No onions, ever": nothing is fed by it, and it is told so. */
static bool refuses_danger(struct post_reader *r, const struct tokens *t, struct span text) {
  bool no = false;
  if (post_any_amount(t, 0)) return false;
  for (size_t i = 0; i < t->count; i++) no = no || says(t, i, "no never not don't dont can't cant cannot without avoid");
  struct buf named; /* "no onions" alone names no danger */
  buf_init(&named, r->arena, text.n + 16);
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].kind == TOKEN_WORD && !says(t, i, "no never not without"))
      buf_addf(&named, "%.*s ", SPAN_ARG(t->item[i].at));
  if (!no || hazard_words_danger(r->lib, buf_span(&named), SPECIES_BOTH, r->arena) == NO_INDEX) return false;
  post_note(r, text, POST_REFUSED);
  return true;
}

/* "Evening everyone", "Good morning from the north": a greeting, and no meal. */
static bool greets(const struct tokens *t) {
  size_t at = says(t, 0, "good") ? 1 : 0;
  return says(t, at, "morning evening afternoon night") &&
         says(t, at + 1, "all everyone everybody folks guys ladies people friends peeps from to");
}

/* Leaves of 't' what is said of the animal that is asked about; false: nothing. */
static bool ours_alone(struct post_reader *r, struct tokens *t) {
  size_t ours = t->count; /* "... so please only the dog: Moritz, 11 kg" */
  for (size_t i = 0; i < t->count && ours == t->count; i++)
    if (phrase_at(t, i, "only the") > 0 || phrase_at(t, i, "just the") > 0 || phrase_at(t, i, "question is") > 0) ours = i;
  struct span other = tokens_span(t, 0, ours);
  struct tokens of_other = {t->item, ours};
  if (post_any_amount(&of_other, 0)) post_leave(r, other, "told of an animal that is not asked about", false);
  if (ours == t->count) return false;
  *t = left_over(t, ours, r->arena);
  return true;
}

/* Is the sentence told as not fed, or of a danger that is refused? Then it is left out. */
static bool leave_unfed(struct post_reader *r, struct tokens *t, struct span text) {
  const char *why = not_fed(t);
  size_t now = why ? now_at(t) : 0;
  if (now > 0) {
    *t = left_over(t, now, r->arena);
    why = not_fed(t);
  }
  if (refuses_danger(r, t, text)) return true;
  if (!why) return false;
  bool danger = hazard_words_danger(r->lib, text, SPECIES_BOTH, r->arena) != NO_INDEX;
  if (danger || post_any_amount(t, 0)) post_leave(r, text, why, false);
  return true;
}

/* "Intake (g/d, as fed): chicken breast 180" */
static void find_unit_before(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 1; i < t->count && i < 12 && !r->bare_unit[0]; i++)
    if (is_mark(t, i, ':') && !post_any_amount(&(struct tokens){t->item, i}, 0))
      for (size_t k = 0; k < i; k++)
        if (says(t, k, "g grams gr") && (k == 0 || !is_number(t, k - 1))) r->bare_unit = "g";
}

/* "Edit 2: forgot the fish oil, 2 g a day": what was forgotten is told now. */
static void pass_over_edit(struct tokens *t) {
  size_t at = 0, label = 0;
  if (says(t, 0, "edit edited update ps p.s addition") || phrase_at(t, 0, "edited to add") > 0) {
    at = 1;
    while (at < t->count && at < 4 && (says(t, at, "to add") || is_number(t, at))) at++;
    if (is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, '.')) label = ++at;
    at = label;
  }
  if (says(t, at, "i") && says(t, at + 1, "forgot")) at++;
  static const char *const FORGOT[] = {"forgot to say",     "forgot to mention", "forgot to add", "forgot to write",
                                       "forgot about",      "forgot to list",    "forgot that",   "forgot",
                                       "should have added", "missed out"};
  for (size_t i = 0; i < COUNT_OF(FORGOT); i++) {
    size_t used = phrase_at(t, at, FORGOT[i]);
    if (used == 0) continue;
    at += used;
    if (is_mark(t, at, ':')) at++;
    take(t, label > 0 ? 0 : at - used, at - (label > 0 ? 0 : at - used));
    return;
  }
}

static void read_fed(struct post_reader *r, struct tokens t, struct span text, bool bulleted);
static void read_tokens(struct post_reader *r, struct tokens t, struct span text, bool bulleted);

static void read_words(struct post_reader *r, struct span text, bool bulleted) {
  text = trim_blanks(text);
  struct tokens all = tokens_of(text, r->arena);
  if (all.count == 0) return;
  if (all.count > SENTENCE_MOST_WORDS * 4) all.count = SENTENCE_MOST_WORDS * 4;
  bulleted = strip_bullet(&all) > 0 || bulleted;
  pass_over_edit(&all);
  post_hear_of_pot(r, &all);
  read_tokens(r, left_over(&all, 0, r->arena), text, bulleted);
}

/* "300 g of beef, my trainer recommends ...": the food before that is fed. */
static void read_tokens(struct post_reader *r, struct tokens t, struct span text, bool bulleted) {
  size_t told = 0;
  const char *why = not_fed_at(&t, &told);
  size_t clause = why ? clause_before(&t, told) : 0, again = why ? fed_again_at(&t, told) : t.count;
  if (clause > 0 && looks_back(&t, clause, told)) clause = 0;
  if (clause == 0 && (!why || again >= t.count || now_at(&t) > 0)) {
    read_fed(r, t, text, bulleted);
    return;
  }
  struct tokens rest = left_over(&t, again, r->arena);
  struct tokens fed = t, aside = left_over(&t, clause, r->arena);
  aside.count = again - clause;
  struct span aside_text = tokens_span(&aside, 0, aside.count);
  if (post_any_amount(&aside, 0) || post_names_food(r, &aside, 0, aside.count) ||
      hazard_words_danger(r->lib, aside_text, SPECIES_BOTH, r->arena) != NO_INDEX)
    post_leave(r, aside_text, why, false);
  fed.count = clause;
  if (!(r->weight_kg > 0)) post_animal(r, &aside); /* "went off her food, so now the 21 kg collie ..." */
  if (clause > 0) read_fed(r, fed, tokens_span(&fed, 0, fed.count), bulleted);
  if (rest.count > 0) read_tokens(r, rest, tokens_span(&rest, 0, rest.count), bulleted);
}

/* "Into the bowl when I serve it", "added per day", "on top goes": no part of a batch. */
static bool says_served(const struct tokens *t) {
  static const char *const PHRASES[] = {
      "when i serve",  "when serving", "at serving",      "before serving",  "into the bowl",  "in the bowl", "on top goes",
      "added per day", "added daily",  "added each day",  "at feeding time", "when i feed",    "on serving",  "add at meal",
      "to his bowl",   "to her bowl",  "apart from that", "besides that",    "on top of that", "as a treat",  "for treats"};
  for (size_t i = 0; i < t->count; i++) {
    if (says(t, i, "per-day")) return true;
    for (size_t k = 0; k < COUNT_OF(PHRASES); k++)
      if (phrase_at(t, i, PHRASES[k]) > 0) return true;
  }
  return false;
}

/* "(125 g, 90 g drained)": what is eaten is the drained weight. */
static void take_gross_weight(struct tokens *t) {
  for (size_t i = 1; i < t->count; i++) {
    struct post_amount gross = post_amount_at(t, i);
    size_t mark = i + gross.tokens;
    if (!gross.is_mass ||
        !(is_mark(t, mark, ',') || is_mark(t, mark, '/') || is_mark(t, mark, ';') || is_mark(t, mark, '(')))
      continue;
    struct post_amount net = post_amount_at(t, mark + 1);
    if (net.is_mass && says(t, mark + 1 + net.tokens, "drained")) take(t, i, gross.tokens + 1);
  }
}

/* "My cat eats tuna", where a dog was weighed before. */
static bool is_of_other_species(const struct post_reader *r, const struct tokens *t) {
  enum species s;
  if (r->weighed_species < 0 || !(r->weight_kg > 0)) return false;
  for (size_t i = 0; i + 2 < t->count && i < 4; i++)
    if (says(t, i, "my our the") && is_word(t, i + 1) && is_animal_word(t->item[i + 1].word, &s) &&
        (int)s != r->weighed_species && says(t, i + 2, "gets eats has steals takes"))
      return true;
  return false;
}

static void read_fed(struct post_reader *r, struct tokens t, struct span text, bool bulleted) {
  if (is_of_other_species(r, &t)) {
    post_leave(r, text, "told of an animal that is not asked about", false);
    return;
  }
  if (is_of_another(&t) && !ours_alone(r, &t)) return;
  r->served = says_served(&t);
  r->lasts = post_lasts_alone(r, &t);
  for (size_t i = 0; i + 1 < t.count; i++)
    r->for_one =
        r->for_one || (says(&t, i, "one each per") && says(&t, i + 1, "dog cat animal head") && !is_mark(&t, i, 'x'));
  take_gross_weight(&t);
  bool batch = post_batch(r, &t), animal = post_animal(r, &t);
  post_claim_taken(r, &t);
  r->told_whole = batch || animal;
  t = left_over(&t, 0, r->arena);
  if (t.count == 0) return;
  if (post_said_of_all(r, &t, text)) return;
  if ((batch || animal) && !post_any_amount(&t, 0)) { /* "Weekly totals for Dot (8 kg, spayed):" */
    if (animal) post_period_heading(r, &t);
    return;
  }
  size_t meal = greets(&t) ? 0 : post_meal_prefix(&t);
  if (meal > 0) {
    r->meal_before = r->meal_from;
    r->meal_from = r->count;
    r->meal_said = true;
  }
  if (meal > 0) t = left_over(&t, meal, r->arena);
  bulleted = bulleted || meal > 0; /* "Treats: dried sprats" */
  const char *period = r->period;
  size_t each = post_each_meal(r, &t);
  bool here = false; /* of the foods of this sentence alone */
  if (meal > 0 && strcmp(r->period, "at each meal") == 0) r->period = "", here = true;
  if (each > 0) {
    here = true;
    while (each < t.count && t.item[each].kind == TOKEN_MARK) each++;
    if (each >= t.count || !post_any_amount(&t, each)) return; /* of those below */
    t = left_over(&t, each, r->arena);
  }
  if (post_told_of_those(r, &t) || post_period_heading(r, &t)) {
    post_claim(r, text, CLAIM_TOLD, 0, 0);
    return;
  }
  const char *days = "", *before = r->days;
  size_t day = post_day_prefix(r, &t, &days);
  if (day > 0) {
    size_t rest = day;
    while (rest < t.count && ((bulleted && is_mark(&t, rest, ',')) || is_mark(&t, rest, ':') || is_mark(&t, rest, '-') ||
                              is_mark(&t, rest, '.')))
      rest++;
    bool heading = rest >= t.count;
    bool marked = rest > day;
    r->any_day = true;
    if (heading || marked) {
      r->days = days;
      t = left_over(&t, rest, r->arena);
      if (heading) return;
      if (post_as_on_day(r, &t, text)) {
        r->days = before;
        return;
      }
    }
  }
  if (leave_unfed(r, &t, text)) return;
  const char *unit = r->bare_unit;
  find_unit_before(r, &t);
  post_items(r, &t, bulleted);
  r->bare_unit = unit;
  r->days = before;
  if (here) r->period = period;
}

/* "Chicken thigh<TAB>250 g<TAB>raw" and "pork mince | 280 g": cells become commas. */
static struct span join_cells(struct span line, struct arena *arena, bool *table) {
  struct buf b;
  buf_init(&b, arena, 2 * line.n + 8);
  *table = false;
  for (size_t i = 0; i < line.n; i++) {
    bool bar = line.p[i] == '|' || line.p[i] == '\t';
    if (!bar) {
      if (line.p[i] == ' ' && (b.n == 0 || (*table && b.p[b.n - 1] == ' '))) continue;
      buf_addc(&b, line.p[i]);
      continue;
    }
    *table = *table || b.n > 0;
    while (b.n > 0 && b.p[b.n - 1] == ' ') b.n--;
    if (b.n > 0) buf_adds(&b, ", ");
  }
  return buf_span(&b);
}

/* ---- tables ---- */

enum { COLUMNS_MOST = 8 };

static size_t cells_of(struct span line, struct span *cell) {
  size_t n = 0, from = 0;
  for (size_t i = 0; i <= line.n; i++) {
    if (i < line.n && line.p[i] != '|' && line.p[i] != '\t') continue;
    struct span c = trim_blanks(span_cut(line, from, i));
    if (n < COLUMNS_MOST && (c.n > 0 || n > 0)) cell[n++] = c;
    from = i + 1;
  }
  while (n > 0 && cell[n - 1].n == 0) n--;
  return n;
}

/* "g per meal" is an amount, "meals per day" and "times a day" say how often. */
static enum column column_of(struct span cell, struct arena *arena) {
  struct tokens t = tokens_of(cell, arena);
  if (t.count == 0) return COLUMN_WORDS;
  bool unit =
      says(&t, 0, "g gr gm gms gram grams grammes kg kilo kilos oz ounces lb lbs pounds ml amount quantity qty weight");
  for (size_t i = 0; i < t.count; i++) {
    bool day = says(&t, i, "day daily"), week = says(&t, i, "week weekly wk");
    if (!unit && says(&t, 0, "meals times feeds servings x feedings") && day) return COLUMN_TIMES_A_DAY;
    if (!unit && says(&t, 0, "days times x meals") && week) return COLUMN_DAYS_A_WEEK;
  }
  bool meal = false; /* "breakfast (g)", "am" */
  for (size_t i = 0; i < t.count && !unit; i++) meal = meal || (is_word(&t, i) && is_meal_word(t.item[i].word));
  return unit ? COLUMN_AMOUNT : meal && t.count <= 4 ? COLUMN_MEAL : COLUMN_WORDS;
}

/* A row of a table whose head says that one of its numbers is how often: "thigh | 95 | 2" is "190 g thigh". */
static struct span read_row(struct post_reader *r, struct span line) {
  struct span cell[COLUMNS_MOST];
  size_t n = cells_of(line, cell);
  double amount = (double)NAN, times = 1, days = 7, x;
  struct buf words;
  if (r->column_count == 0 || n != r->column_count) return line;
  buf_init(&words, r->keep, line.n + 100);
  for (size_t i = 0; i < n; i++) {
    bool number = num_parse(cell[i], &x) && x >= 0;
    if (!number && cell[i].n > 0 && r->column[i] != COLUMN_MEAL)
      buf_addf(&words, "%s%.*s", words.n > 0 ? ", " : "", SPAN_ARG(cell[i]));
    else if (number && r->column[i] == COLUMN_AMOUNT)
      amount = x;
    else if (number && r->column[i] == COLUMN_MEAL)
      amount = amount >= 0 ? amount + x : x;
    else if (number && r->column[i] == COLUMN_TIMES_A_DAY)
      times = x;
    else if (number && r->column[i] == COLUMN_DAYS_A_WEEK)
      days = x;
  }
  if (!(amount >= 0) || !(times > 0) || words.n == 0) return line;
  struct buf b;
  buf_init(&b, r->keep, line.n + 140);
  num_sig(&b, amount * times, 6);
  buf_addf(&b, " %s %.*s", r->bare_unit[0] ? r->bare_unit : "g", SPAN_ARG(buf_span(&words)));
  if (days != 7) {
    buf_adds(&b, ", ");
    num_sig(&b, days, 3);
    buf_adds(&b, " days a week");
  }
  return buf_span(&b);
}

/* "| food | grams | notes |": the unit of the column's bare numbers. */
static bool table_head(struct post_reader *r, struct span line) {
  struct tokens t = tokens_of(line, r->arena);
  bool bars = memchr(line.p, '|', line.n) || memchr(line.p, '\t', line.n), named = false;
  const char *unit = "";
  for (size_t i = 0; i < t.count; i++) {
    if (t.item[i].kind == TOKEN_NUMBER) return false;
    named = named ||
            says(&t, i, "ingredient ingredients food foods item items amount amounts quantity qty weight product notes");
    if (says(&t, i, "g gr gm gms gram grams grammes")) unit = "g";
    if (says(&t, i, "kg kilo kilos")) unit = "kg";
    if (says(&t, i, "oz ounces")) unit = "oz";
    if (says(&t, i, "lb lbs pounds")) unit = "lb";
    if (says(&t, i, "percent") || is_mark(&t, i, '%')) unit = "%";
  }
  if (!bars || !named || t.count > 16) return false;
  struct span cell[COLUMNS_MOST];
  r->column_count = cells_of(line, cell);
  bool often = false;
  int meals = 0;
  for (size_t i = 0; i < r->column_count; i++) {
    r->column[i] = column_of(cell[i], r->arena);
    meals += r->column[i] == COLUMN_MEAL;
    often = often || r->column[i] == COLUMN_TIMES_A_DAY || r->column[i] == COLUMN_DAYS_A_WEEK || meals >= 2;
  }
  if (!often) r->column_count = 0;
  r->bare_unit = unit;
  r->unit_of_table = true;
  return true;
}

static bool is_rule(struct span line) {
  for (size_t i = 0; i < line.n; i++)
    if (!memchr("-=_*~.| \t:+#,", line.p[i], 13)) return false;
  return true;
}

/* ---- lines that a mail program or a person broke in the middle of a sentence ---- */

enum { WRAPPED_LEAST = 60, POST_LONGEST_LINE = 4000 }; /* bytes: shorter lines were ended on purpose */

static bool ends_open(struct span line, struct arena *arena) {
  struct tokens t = tokens_of(span_cut(line, line.n > 40 ? line.n - 40 : 0, line.n), arena);
  if (t.count == 0) return false;
  const struct token *last = &t.item[t.count - 1];
  return last->kind == TOKEN_WORD &&
         word_in(last->word, "a an the and or of with on in at to for his her my plus about is has gets "
                             "get that which from by half");
}

/* Does 'next' go on where 'line' stopped? */
static bool goes_on(struct span line, struct span next, bool lists, struct arena *arena) {
  line = trim_blanks(line);
  if (next.n > 0 && next.p[0] == POST_QUOTED) return false;
  if (line.n < WRAPPED_LEAST || next.n == 0 || memchr(".!?:;", line.p[line.n - 1], 5)) return false;
  if (memchr(line.p, '|', line.n) || memchr(line.p, '\t', line.n) || next.p[0] == ' ' || next.p[0] == '\t') return false;
  bool small = next.p[0] >= 'a' && next.p[0] <= 'z', figure = next.p[0] >= '0' && next.p[0] <= '9';
  struct tokens begin = tokens_of(span_cut(next, 0, next.n < 40 ? next.n : 40), arena);
  if (says(&begin, 0,
           "she he they we i do does is are any what thanks thx cheers at in on for breakfast dinner then also plus"))
    return ends_open(line, arena); /* a person who writes without stops */
  if (small && lists) return ends_open(line, arena);
  return small || next.p[0] == '(' || (figure && ends_open(line, arena));
}

/* Somebody who begins lines with a small letter where nothing was broken: a list without capitals. */
static bool lists_small(struct span text) {
  size_t from = 0;
  for (size_t i = 0; i + 1 < text.n; i++) {
    if (text.p[i] != '\n') continue;
    bool ended = i > from && !memchr(".!?:;", text.p[i - 1], 5), small = text.p[i + 1] >= 'a' && text.p[i + 1] <= 'z';
    if (ended && small && i - from < WRAPPED_LEAST) return true;
    from = i + 1;
  }
  return false;
}

/* The next line with those that go on with it. */
static bool next_line(struct post_reader *r, struct lines *lines, struct span *line) {
  if (!lines_next(lines, line)) return false;
  r->line = lines->number;
  struct buf b;
  buf_init(&b, r->keep, lines->rest.n + line->n + 16);
  for (struct span here = *line;;) {
    struct lines ahead = *lines;
    struct span next;
    if (b.n > POST_LONGEST_LINE || !lines_next(&ahead, &next) || !goes_on(here, next, r->lists_small, r->arena)) break;
    if (b.n == 0) buf_add(&b, trim_blanks(*line));
    buf_addc(&b, ' ');
    buf_add(&b, trim_blanks(next));
    *lines = ahead;
    here = next;
  }
  arena_rewind(r->arena, r->begin);
  if (b.n > 0) *line = buf_span(&b);
  return true;
}

static void read_line(struct post_reader *r, struct span line) {
  bool table = false;
  line = trim_blanks(line);
  if (line.n == 0) {
    r->days = "";
    return;
  }
  if (line.p[0] == POST_QUOTED) {
    line = trim_blanks(span_cut(line, 1, line.n));
    struct tokens t = tokens_of(line, r->arena);
    if (post_any_amount(&t, 0) || post_names_food(r, &t, 0, t.count))
      post_leave(r, line, "quoted from somebody else's post", false);
    return;
  }
  if (is_rule(line)) return;
  if (table_head(r, line)) return;
  struct span row = read_row(r, line);
  if (row.p == line.p)
    line = join_cells(line, r->keep, &table);
  else
    line = row, table = true;
  r->line_from = r->count;
  if (!table && r->unit_of_table) r->unit_of_table = false, r->bare_unit = "", r->column_count = 0;
  for (size_t from = 0; from < line.n && r->count < POST_MOST_ITEMS;) {
    size_t end = sentence_end(line, from);
    struct span piece = span_cut(line, from, end);
    while (piece.n > 0 && (piece.p[piece.n - 1] == 0x1F || piece.p[piece.n - 1] == '.')) piece.n--;
    read_sentence(r, piece, table);
    arena_rewind(r->arena, r->begin);
    from = end;
  }
}

/* ---- the whole ---- */

static void settle_species(struct post_reader *r) {
  r->species = r->cat_words > r->dog_words ? SPECIES_CAT : SPECIES_DOG;
  if (r->weighed_species >= 0) r->species = (enum species)r->weighed_species;
  r->species_said = r->cat_words + r->dog_words > 0;
  if (r->several_weights && !r->subject_named) {
    r->line = r->weights_line;
    post_ask(r, 3, "Two weights are told. Which one is right today, or which animal is this food for?");
    r->line = 0;
  }
  if (post_is_shared(r) && !r->pot_told)
    post_ask(r, 3,
             r->pot_part > 0 ? "This is for %d animals; equal shares were assumed. How much does each of them get, and what "
                               "does each weigh?"
                             : "This is for %d animals. How much does each of them get, and what does each weigh?",
             r->animals);
  static const double HEAVIEST_CAT_KG = 12;
  if (!r->species_said && post_any_food(r) && !(r->weight_kg > HEAVIEST_CAT_KG))
    post_ask(r, r->weight_kg > 9 ? 1 : 3.5, "Is it a dog or a cat? It was taken for a dog.");
}

/* The most telling first; of equal ones the earlier in the text. */
static void rank(struct post_reader *r) {
  for (size_t i = 1; i < r->question_count; i++) {
    struct post_question q = r->question[i];
    size_t k = i;
    for (; k > 0 && r->question[k - 1].weight < q.weight; k--) r->question[k] = r->question[k - 1];
    r->question[k] = q;
  }
}

static void number_questions(struct post_reader *r, const struct post *out) {
  for (size_t i = 0; i < r->question_count; i++) {
    size_t item = (size_t)r->question[i].strict_line;
    r->question[i].strict_line = item > 0 && item <= out->line_count ? out->line[item - 1].strict_line : 0;
  }
}

static const char NO_FOOD[] =
    "No food with an amount was found in this text; please write one food a line, as in '200 g lamb heart'.";

static const char ONLY_SHARES[] =
    "The shares that were told are less than half of the food, and how much is fed was not told; please add the other "
    "foods, or a line such as 'Feeds: 450 g a day'.";

static const char OTHER_LANGUAGE[] = "No food with an amount was understood in this text; posts are read in English. Please "
                                     "write one food a line, as in '200 g "
                                     "lamb heart'.";

/* Is a good part of it in other letters than English has? */
static bool is_other_script(struct span text) {
  size_t letters = 0, other = 0;
  for (size_t i = 0; i < text.n; i++) {
    unsigned char b = (unsigned char)text.p[i];
    letters += (b | 0x20) >= 'a' && (b | 0x20) <= 'z';
    other += b >= 0xC3 && b <= 0xED; /* first bytes of letters; pictures begin with 0xE2 and 0xF0 */
    other -= b == 0xE2;
  }
  return other > letters;
}

void post_read(const struct library *lib, struct span text, struct post *out, struct arena *arena) {
  struct arena scratch, searched_in;
  arena_init(&scratch, arena->on_full);
  arena_init(&searched_in, arena->on_full);
  struct search_memory *searched = ARENA_NEW(&scratch, struct search_memory, 1);
  searched->arena = &searched_in;
  struct library remembering = *lib;
  remembering.searched = searched;
  struct post_reader r = {.lib = &remembering,
                          .arena = &scratch,
                          .begin = arena_mark(&scratch),
                          .keep = arena,
                          .looked_up = ARENA_NEW(arena, struct looked_up, LOOKED_UP_SLOTS),
                          .places = post_places(arena),
                          .names = post_known_names(lib, arena),
                          .counted_words = ARENA_NEW(arena, struct counted_words, LOOKED_UP_SLOTS),
                          .days = "",
                          .period = "",
                          .bare_unit = "",
                          .makes_days = (double)NAN,
                          .makes_meals = (double)NAN,
                          .meals_a_day = (double)NAN,
                          .total_g = (double)NAN,
                          .feeds_g = (double)NAN,
                          .feeds_percent = (double)NAN,
                          .weight_kg = (double)NAN,
                          .age_years = (double)NAN,
                          .neutered = -1,
                          .activity = -1,
                          .weighed_species = -1};
  *out = (struct post){.recipe = "", .sorry = ""};
  bool cut = text.n > POST_MOST_BYTES;
  struct span cleaned = post_clean(span_cut(text, 0, cut ? POST_MOST_BYTES : text.n), arena);
  r.rotation = post_day_rotation(cleaned);
  r.lists_small = lists_small(cleaned);
  struct lines lines = lines_of(cleaned);
  struct span line;
  while (r.count < POST_MOST_ITEMS && next_line(&r, &lines, &line)) read_line(&r, line);
  r.line = lines.number;
  if (cut || r.count >= POST_MOST_ITEMS)
    post_leave(&r, SPAN_LIT("the rest of the text"), "the text is too long to be one post", false);
  post_find_whole(&r);
  post_net(&r);
  post_doubt_whole(&r);
  post_doubt_headings(&r);
  post_share_pot(&r);
  post_doubt_one_pot(&r);
  r.line = 0;
  settle_species(&r);
  if (!post_any_food(&r)) {
    out->sorry = is_other_script(text) ? OTHER_LANGUAGE : NO_FOOD;
  } else {
    if (!(r.weight_kg > 0))
      post_ask(&r, 3, "What does the animal weigh, and how old is it? Is it neutered?");
    else if (isnan(r.age_years))
      post_ask(&r, 1, "How old is the animal?");
    if (r.weight_kg > 0 && r.neutered < 0) post_ask(&r, 1, "Is the animal neutered?");
  }
  post_settle(&r, out);
  rank(&r);
  post_write(&r, out);
  number_questions(&r, out);
  if (!post_any_food(&r)) {
    out->recipe = "";
    out->sorry = r.only_shares           ? ONLY_SHARES
                 : is_other_script(text) ? OTHER_LANGUAGE
                                         : NO_FOOD; /* settling may leave none */
  }
  out->left = r.left;
  out->left_count = r.left_count;
  out->question = r.question;
  out->question_count = r.question_count;
  out->animal_told = r.weight_kg > 0;
  out->told = (struct post_told){.species = r.species_said ? (int)r.species : -1,
                                 .weight_kg = r.weight_kg,
                                 .age_years = r.age_years,
                                 .neutered = r.neutered,
                                 .activity = r.activity};
  arena_free(&searched_in);
  arena_free(&scratch);
}
