/* A post, line by line; and what is settled when all of it is read. */
#include "foods/hazard_words.h"
#include "post/animal/post_animal.h"
#include "post/built/post_built.h"
#include "post/govern/post_govern.h"
#include "post/line/post_line.h"
#include "post/page/post_page.h"
#include "post/post_parts.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"
#include "post/whole/post_whole.h"

static bool is_rule(struct span line) {
  for (size_t i = 0; i < line.n; i++)
    if (!memchr("-=_*~.| \t:+#,", line.p[i], 13)) return false;
  return true;
}

/* "Catnip: well, obviously" below rows of a name, a colon and an amount: it is named, and nothing was read of it. */
static void note_label(struct post_reader *r, struct span line, size_t items, size_t left, size_t questions) {
  struct tokens t = post_tokens(r, line);
  enum { FAR = 8, NAME_MOST = 3 };
  size_t colon = 1;
  while (colon < FAR && colon < t.count && !is_mark(&t, colon, ':')) colon++; /* "Rabbit, wild, boned out: 80 g" */
  bool label = is_word(&t, 0) && is_mark(&t, colon, ':') && colon + 1 < t.count;
  if (label && r->count > items) r->rows_of_labels = true;
  if (!label) r->rows_of_labels = false;
  if (!r->rows_of_labels || colon > NAME_MOST || r->count > items || r->left_count > left || r->question_count > questions)
    return;
  bool chatter = token_is_a(&t.item[0], CLASS_CHATTER) || token_is_a(&t.item[0], CLASS_MEAL) ||
                 holds_a(&t, 0, colon, CLASS_ABOUT_THE_ANIMAL) || holds_a(&t, 0, colon, CLASS_FORM_NAME);
  chatter = chatter ||
            says(&t, 0,
                 "coat stool stools poo poop water walks weight notes note age vet breed exercise activity "
                 "health teeth skin allergies mood energy drinks location name") ||
            says(&t, colon + 1, "no none never nothing not");
  if (chatter || post_any_amount(&t, 0) || !is_word(&t, colon + 1)) return;
  post_note(r, line, POST_NAMED_ONLY);
}

static void read_line(struct post_reader *r, struct span line) {
  bool table = false;
  line = trim_blanks(line);
  if (line.n == 0) {
    r->days = "";
    r->rows_of_labels = false;
    if (r->count > r->line_from) r->served_below = false;
    return;
  }
  if (line.p[0] == POST_QUOTED) {
    line = trim_blanks(span_cut(line, 1, line.n));
    struct tokens t = post_tokens(r, line);
    if (post_any_amount(&t, 0) || post_names_food(r, &t, 0, t.count))
      post_leave(r, line, "quoted from somebody else's post", false);
    return;
  }
  if (is_rule(line)) return;
  if (post_table_head(r, line)) return;
  struct span row = post_table_row(r, line);
  if (row.p == line.p)
    line = post_join_cells(line, r->keep, &table);
  else
    line = row, table = true;
  r->line_from = r->count;
  size_t left = r->left_count, questions = r->question_count;
  if (!table && r->unit_of_table) r->unit_of_table = false, r->bare_unit = "", r->column_count = 0;
  for (size_t from = 0; from < line.n && r->count < POST_MOST_ITEMS;) {
    size_t end = post_sentence_end(line, from);
    struct span piece = span_cut(line, from, end);
    while (piece.n > 0 && (piece.p[piece.n - 1] == 0x1F || piece.p[piece.n - 1] == '.')) piece.n--;
    post_read_sentence(r, piece, table);
    arena_rewind(r->arena, r->begin);
    post_splits_make_room(r->splits);
    from = end;
  }
  if (!table) note_label(r, line, r->line_from, left, questions);
  if (!r->guessed_grams || r->bare_unit[0] || r->count == r->line_from) return;
  bool guessed = table;
  for (size_t i = r->line_from; i < r->count; i++) {
    bool bare = !table && post_is_bare_of(line, r->item[i].text);
    if (table || bare)
      post_doubt(r, i,
                 table ? "the table names no unit; its numbers were taken as grams"
                       : "the post names no unit; the number was taken as grams");
    guessed = guessed || bare;
  }
  if (!guessed) return;
  post_ask(r, 3,
           table ? "Are the numbers of the table grams? They were taken for grams."
                 : "Are the numbers without a unit grams? They were taken for grams.");
}

/* ---- the whole ---- */

/* Owners of cats speak of it; of dogs of a cat's weight hardly anybody does. */
static const double MOST_CATS_KG = 7;
static bool feeds_taurine(const struct post_reader *r) {
  for (size_t i = 0; i < r->heard_count; i++)
    if (span_holds_fold(r->heard[i].text, SPAN_LIT("taurine"))) return true;
  return false;
}

static void ask_of_shares(struct post_reader *r) {
  bool shared = false; /* "each one gets 80 g" */
  for (size_t i = 0; i < r->count; i++) shared = shared || (r->item[i].kind == ITEM_FOOD && !r->item[i].own);
  if (!post_is_shared(r) || r->pot_told || r->by_need || (r->feeds_each && r->feeds_g > 0) || (!shared && post_any_food(r)))
    return;
  struct buf whose; /* "2 cats (Tom 5 kg & Jerry 4 kg)" */
  buf_init(&whose, r->keep, 120);
  if (r->several_weights) buf_addf(&whose, " The needs are those of the one of %s.", post_kilograms(r, r->weight_kg));
  post_ask(r, 3, "This is for %d animals%s. How much does each of them get%s?%s", r->animals,
           r->pot_part > 0 ? "; equal shares were assumed" : "",
           r->weights_told || r->several_weights ? "" : ", and what does each weigh", buf_text(&whose));
}

static void settle_species(struct post_reader *r) {
  static const double HEAVIEST_CAT_KG = 12;
  r->species = r->cat_words > r->dog_words ? SPECIES_CAT : SPECIES_DOG;
  if (r->weighed_species >= 0) r->species = (enum species)r->weighed_species;
  if (!(r->weight_kg > 0)) r->weight_kg = r->past_kg;
  r->species_said = r->cat_words + r->dog_words > 0;
  if (r->species == SPECIES_CAT && r->weight_kg > HEAVIEST_CAT_KG) { /* the weight is of another animal */
    r->species = SPECIES_DOG;
    r->species_said = r->dog_words > 0;
  }
  bool all_told = r->several_weights && r->animals > 1 && !r->subject_named && !r->given; /* "two cats (7 kg and 6 kg)" */
  if (all_told && !post_is_shared(r))
    post_ask(r, 2, "Which of the %d animals is asked about? The needs are those of the one of %s.", r->animals,
             post_kilograms(r, r->weight_kg));
  if (r->several_weights && !all_told && !r->subject_named && !r->given) {
    r->line = r->weights_line;
    post_ask(r, 3, "Two weights are given. Which one is right today, or which animal is this food for?");
    for (size_t i = 0; i < r->count; i++) post_doubt(r, i, "two weights are given; it may be for another animal");
    r->line = 0;
  }
  if (r->other_species && !r->given && !r->subject_named)
    post_ask(r, 3, "Is this about the cat or the dog? It was taken to be about the %s.", species_word[r->species]);
  ask_of_shares(r);
  if (r->species_said || r->given || !post_any_food(r) || r->weight_kg > HEAVIEST_CAT_KG) return;
  bool taurine = r->weight_kg < MOST_CATS_KG && feeds_taurine(r);
  if (taurine) r->species = SPECIES_CAT;
  post_ask(r, r->weight_kg > 9 ? 1 : 3.5,
           taurine ? "Is it a dog or a cat? It was taken for a cat, as it is so light and taurine is named."
                   : "Is it a dog or a cat? It was taken for a dog.");
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
    "The shares given are less than half of the food, and how much is fed is not said; please add the other "
    "foods, or a line such as 'Feeds: 450 g a day'.";

static const char ONLY_A_TOTAL[] =
    "The text says how much is fed in all, and not how much of which food; please write one food a line, as in '200 g lamb "
    "heart'.";

/* "He should be getting 400 g", and nobody says of what. */
static bool tells_a_total(const struct post_reader *r) {
  bool total = r->feeds_g > 0 || r->feeds_percent > 0;
  for (size_t i = 0; i < r->left_count && !total; i++) {
    struct tokens t = tokens_of(span_of(r->left[i].text), r->arena);
    total = (strcmp(r->left[i].why, NOT_FED_ADVICE) == 0 || strcmp(r->left[i].why, NOT_FED_HEARSAY) == 0) &&
            post_any_amount(&t, 0);
  }
  return total;
}

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

/* The language that most words of grammar are of, where it is not English; NULL. */
static const char *other_language(const struct post_reader *r) {
  enum { WORDS_LEAST = 4 };
  int english = 0, most = 0;
  const char *name = NULL;
  for (size_t i = 0; i < COUNT_OF(r->language) && r->language[i].name; i++) {
    const struct language *l = &r->language[i];
    if (strcmp(l->name, "English") == 0)
      english = l->words;
    else if (l->words > most)
      most = l->words, name = l->name;
  }
  return most >= WORDS_LEAST && most > english ? name : NULL;
}

static const char *nothing_understood(struct post_reader *r, struct span text) {
  const char *language = other_language(r);
  struct buf b;
  if (r->only_shares) return ONLY_SHARES;
  if (!language && !is_other_script(text)) return tells_a_total(r) ? ONLY_A_TOTAL : NO_FOOD;
  buf_init(&b, r->keep, 300);
  buf_addf(
      &b,
      "No food with an amount was understood in this text%s%s; posts are read in English. Please write one food a line, "
      "as in '200 g lamb heart'.",
      language ? ", which seems to be in " : "", language ? language : "");
  return buf_text(&b);
}

static void ask_of_language(struct post_reader *r) {
  const char *language = other_language(r);
  if (!language || !post_any_food(r)) return;
  r->line = 0;
  post_ask(r, 3.2,
           "Is a food missing here? The post seems to be in %s, and posts are read in English; foods in English words are "
           "surely understood.",
           language);
}

/* What the whole text tells before its lines are read. */
static struct span prepared(struct post_reader *r, struct span cleaned, struct arena *arena) {
  if (cleaned.n == 0) return SPAN_LIT("");
  post_hear_own_name(r, cleaned);
  cleaned = post_per_weight(r, post_without_slips(r, cleaned, arena), arena);
  cleaned = post_without_targets(r, cleaned, arena);
  arena_rewind(r->arena, r->begin);
  cleaned = post_builds(r, post_without_prices(post_short_days(cleaned, arena), arena), arena);
  arena_rewind(r->arena, r->begin); /* each of them leaves its text in 'arena' */
  cleaned = post_refer(r, cleaned, arena);
  arena_rewind(r->arena, r->begin);
  cleaned = post_weekdays(post_ahead(r, post_dated(r, cleaned, arena), arena), arena);
  cleaned = post_per_kilo(r, cleaned, arena);
  r->all_in_grams = text_holds(cleaned, CLASS_ALL_IN_GRAMS);
  if (r->all_in_grams) r->loose_unit = "g";
  r->guessed_grams = !r->loose_unit[0] && post_rows_without_unit(cleaned);
  if (r->guessed_grams) r->loose_unit = "g";
  if (!r->loose_unit[0]) {
    r->loose_unit = post_list_without_unit(cleaned);
    r->guessed_grams = r->loose_unit[0] == 'g';
  }
  r->in_bulk = text_holds(cleaned, CLASS_IN_BULK);
  r->rotation = post_day_rotation(cleaned, &r->turns_are_weeks);
  r->lists_small = post_lists_small(cleaned, &r->ragged);
  return cleaned;
}

/* An ideal weight far from the weight is another one's, or a slip. */
static void settle_ideal(struct post_reader *r) {
  static const double LEAST = 0.5, MOST = 1.6;
  bool fits = r->ideal_kg >= LEAST * r->weight_kg && r->ideal_kg <= MOST * r->weight_kg;
  if (!fits || r->ideal_kg == r->weight_kg) r->ideal_kg = (double)NAN;
}

/* What was told beside the post takes the place of what it tells itself; but that it grows, is ill or nurses is news. */
static void take_given(struct post_reader *r) {
  const struct animal *a = r->given;
  if (!a) return;
  r->species = a->species;
  r->species_said = true;
  r->weight_kg = a->weight_kg;
  if (a->age_years >= 0) r->age_years = a->age_years;
  if (a->neutered >= 0) r->neutered = a->neutered;
  if (a->activity_stated) r->activity = (int)a->activity;
  if (a->ideal_kg > 0) r->ideal_kg = a->ideal_kg;
}

/* What is told of the animal, as far as a verdict depends on it. */
static struct animal animal_told(const struct post_reader *r) {
  struct animal a = animal_plain(r->species, r->weight_kg);
  a.age_years = r->age_years;
  a.young = r->young;
  a.pregnant = r->pregnant;
  a.nursing = r->nursing;
  a.healthy = !r->unwell;
  a.urgent = r->urgent;
  return a;
}

static void tell_animal(const struct post_reader *r, struct post *out) {
  struct animal a = animal_told(r);
  out->animal_told = r->weight_kg > 0;
  out->told = (struct post_told){.species = r->species_said ? (int)r->species : -1,
                                 .weight_kg = r->weight_kg,
                                 .age_years = r->age_years,
                                 .neutered = r->neutered,
                                 .activity = r->activity,
                                 .ideal_kg = r->ideal_kg,
                                 .young = r->young,
                                 .pregnant = r->pregnant,
                                 .nursing = r->nursing,
                                 .unwell = r->unwell,
                                 .urgent = r->urgent,
                                 .status = r->status,
                                 .refusal = animal_refusal(&a)};
}

static void ask_of_animal(struct post_reader *r) {
  if (r->given) return;
  struct animal a = animal_told(r);
  enum refusal refusal = animal_refusal(&a);
  bool matters = refusal == REFUSE_NOT || refusal == REFUSE_UNWELL; /* of the young, pregnant and nursing it does not */
  if (!(r->weight_kg > 0))
    post_ask(r, 3, "What does the animal weigh, and how old is it?%s", r->neutered < 0 && matters ? " Is it neutered?" : "");
  else if (r->young)
    post_ask(r, 4, "How old is the animal? It is called a %s, and was taken to be still growing.",
             r->species == SPECIES_CAT ? "kitten" : "puppy");
  else if (isnan(r->age_years) && r->pup)
    post_ask(r, 3, "How old is the animal? Of a pup that still grows no verdict holds.");
  else if (isnan(r->age_years))
    post_ask(r, 1, "How old is the animal?");
  if (r->weight_kg > 0 && r->neutered < 0 && matters) post_ask(r, 1, "Is the animal neutered?");
}

/* What is left out in the same words for the same reason is told once, with how many times. */
static void tell_repeats_once(struct post_reader *r) {
  size_t to = 0;
  int *times = ARENA_NEW(r->keep, int, r->left_count + 1);
  for (size_t i = 0; i < r->left_count; i++) {
    size_t k = 0;
    while (k < to && (r->left[i].fed || r->left[k].fed || strcmp(r->left[k].text, r->left[i].text) != 0 ||
                      r->left[k].why != r->left[i].why))
      k++;
    times[k == to ? to : k] = k == to ? 1 : times[k] + 1;
    if (k == to) r->left[to++] = r->left[i];
  }
  r->left_count = to;
  for (size_t i = 0; i < to; i++) {
    struct buf b;
    if (times[i] < 2) continue;
    buf_init(&b, r->keep, strlen(r->left[i].text) + 40);
    buf_addf(&b, "%s (%d times)", r->left[i].text, times[i]);
    r->left[i].text = buf_text(&b);
  }
}

/* What only the whole text tells of its lines. */
static void hear_whole(struct post_reader *r) {
  post_take_advised(r);
  post_last_resort(r);
  post_say_builds(r);
  post_find_whole(r);
  post_hear_products(r);
  post_take_lone_weight(r);
  size_t net_from = r->claim_count;
  post_net(r);
  post_left_out(r);
  post_settle_entries(r);
  post_leave_others(r);
  post_doubt_whole(r);
  post_doubt_headings(r);
  post_days_of_pot(r);
  post_share_pot(r);
  post_doubt_one_pot(r);
  post_govern(r, net_from);
  post_refer_beside(r);
}

void post_read(const struct library *lib, struct span text, const struct animal *given, struct post *out,
               struct arena *arena) {
  struct arena scratch, searched_in;
  arena_init(&scratch, arena->on_full);
  arena_init(&searched_in, arena->on_full);
  struct library remembering = *lib;
  remembering.searched = search_memory_of(&lib->image, &searched_in);
  remembering.hazards_said = hazard_words_prepare(lib, &scratch);
  struct post_reader r = {.lib = &remembering,
                          .arena = &scratch,
                          .begin = arena_mark(&scratch),
                          .keep = arena,
                          .looked_up = ARENA_NEW(arena, struct looked_up, LOOKED_UP_SLOTS),
                          .places = post_places(arena),
                          .splits = post_splits(arena),
                          .counted_words = ARENA_NEW(arena, struct counted_words, LOOKED_UP_SLOTS),
                          .days = "",
                          .days_before = "",
                          .period = "",
                          .bare_unit = "",
                          .loose_unit = "",
                          .makes_days = (double)NAN,
                          .makes_meals = (double)NAN,
                          .meals_a_day = (double)NAN,
                          .total_g = (double)NAN,
                          .feeds_g = (double)NAN,
                          .feeds_percent = (double)NAN,
                          .weight_kg = (double)NAN,
                          .past_kg = (double)NAN,
                          .age_years = (double)NAN,
                          .ideal_kg = (double)NAN,
                          .status = "",
                          .given = given,
                          .neutered = -1,
                          .activity = -1,
                          .weighed_species = -1};
  *out = (struct post){.recipe = "", .sorry = ""};
  bool cut = text.n > POST_MOST_BYTES;
  struct span form = post_boxes(&r, span_cut(text, 0, cut ? POST_MOST_BYTES : text.n), arena);
  struct span cleaned = post_clean(post_marks(form, arena), arena);
  bool cooked = post_says_cooked(cleaned);
  post_tell_pictures(&r, span_cut(text, 0, cut ? POST_MOST_BYTES : text.n), cleaned);
  cleaned = prepared(&r, cleaned, arena);
  struct lines lines = lines_of(cleaned);
  struct span line;
  while (r.count < POST_MOST_ITEMS && post_next_line(&r, &lines, &line)) read_line(&r, line);
  r.line = lines.number;
  if (cut || r.count >= POST_MOST_ITEMS)
    post_leave(&r, SPAN_LIT("the rest of the text"), "the text is too long to be one post", false);
  hear_whole(&r);
  r.line = 0;
  settle_species(&r);
  take_given(&r);
  settle_ideal(&r);
  post_settle_state(&r);
  post_hear_never(&r);
  ask_of_language(&r);
  if (!post_any_food(&r)) {
    out->sorry = nothing_understood(&r, text);
  } else {
    ask_of_animal(&r);
  }
  post_settle(&r, out);
  tell_repeats_once(&r);
  rank(&r);
  post_write(&r, out);
  number_questions(&r, out);
  if (!post_any_food(&r)) {
    out->recipe = "";
    out->sorry = r.urgent
                     ? "This cannot wait for a recipe: what you tell of the animal may be an emergency. Ring a veterinarian "
                       "now, and go there today."
                     : nothing_understood(&r, text); /* settling may leave none */
  }
  out->cooked_told = cooked;
  out->left = r.left;
  out->left_count = r.left_count;
  out->question = r.question;
  out->question_count = r.question_count;
  out->asks = r.asks;
  struct owners_question *asked = ARENA_NEW(arena, struct owners_question, r.asks + 1);
  memcpy(asked, r.asked, r.asks * sizeof *asked);
  out->asked = asked;
  tell_animal(&r, out);
  post_splits_free(r.splits);
  arena_free(&searched_in);
  arena_free(&scratch);
}
