/* Of a line that is counted: what its sentence says that makes it doubtful. In true doubt it is left out and asked about,
 * else what was assumed is said. */
#include "base/num.h"
#include "post/hear/post_net.h"

/* ---- what is done ---- */

void post_doubt(struct post_reader *r, size_t at, const char *assumed) {
  struct item *item = &r->item[at];
  if (item->kind != ITEM_FOOD) return;
  item->doubted = true;
  if (strstr(item->assumed, assumed)) return;
  item->assumed = arena_text(r->keep, span_of(post_joined(r, assumed, item->assumed)));
}

void net_forget_item(struct post_reader *r, size_t at) {
  size_t kept = 0;
  r->item[at].kind = ITEM_GONE;
  for (size_t i = 0; i < r->question_count; i++)
    if (r->question[i].strict_line != (int)at && r->question[i].strict_line != (int)at + 1)
      r->question[kept++] = r->question[i];
    else if (r->question[i].line != r->item[at].line)
      r->question[kept++] = r->question[i];
  r->question_count = kept;
}

void post_withdraw(struct post_reader *r, size_t at, struct span text, const char *why) {
  struct item *item = &r->item[at];
  if (item->kind != ITEM_FOOD) return;
  item->kind = ITEM_UNKNOWN;
  item->text = arena_text(r->keep, post_own_words(r, text));
  struct post_left left = {item->line, item->text, why, true};
  ARENA_PUSH(r->keep, r->left, r->left_count, r->left_cap, left);
}

/* ---- words that make a line doubtful ---- */

enum doubt {
  DOUBT_NONE,
  DOUBT_PER_FOOD,
  DOUBT_CHANGING,
  DOUBT_LIMIT,
  DOUBT_PAST,
  DOUBT_IF,
  DOUBT_DENIED,
  DOUBT_HEARSAY,
  DOUBT_OTHER,
  DOUBT_RARE,
  DOUBT_SURE,
  DOUBT_PART
};

static const struct {
  const char *why, *ask; /* left out because; and asked. 'why' NULL: counted, and 'ask' is said and asked */
} DOUBT[] = {[DOUBT_NONE] = {NULL, NULL},
             [DOUBT_PER_FOOD] = {"it is said for a given amount of food", "How much of '%.*s' is that a day?"},
             [DOUBT_CHANGING] = {"it is about a change still going on", "How much is fed today, in '%.*s'?"},
             [DOUBT_PAST] = {"it may be about the past", "Is '%.*s' still fed?"},
             [DOUBT_IF] = {"it depends on a condition", "Is '%.*s' fed now, and how often?"},
             [DOUBT_DENIED] = {"the sentence says no to something", "Is '%.*s' fed?"},
             [DOUBT_HEARSAY] = {"it may be somebody's advice", "Is '%.*s' what you feed, or advice?"},
             [DOUBT_OTHER] = {"it may be about another animal", "Who gets '%.*s'?"},
             [DOUBT_RARE] = {"the post does not say how often", "How often, and how much of it, is '%.*s' fed?"},
             [DOUBT_SURE] = {NULL, "Is '%.*s' right? The post is not sure of it, and it was counted as written."},
             [DOUBT_LIMIT] = {NULL, "How much is fed as a rule, in '%.*s'? The limit given was counted."},
             [DOUBT_PART] = {NULL, "Does all of '%.*s' go to this animal? It was counted whole."}};

/* "not more than", "no bone", "can't go wrong": said of how much, or of a cut. */
static bool denies_nothing(const struct tokens *t, size_t at) {
  return says_a(t, at + 1, CLASS_DENIED_BUT_FED) || (at > 0 && says(t, at - 1, "why if or"));
}

static enum doubt cue_at(const struct tokens *t, size_t at, bool *far) {
  *far = false;
  if (says(t, at, "if unless whenever"))
    return *far = true, at > 0 && says_a(t, at - 1, CLASS_ASKING_IF) ? DOUBT_NONE : DOUBT_IF;
  struct post_amount of = says(t, at, "per every each") ? post_amount_at(t, at + 1) : (struct post_amount){0};
  if (says(t, at, "per") && says(t, at + 1, "kg kilo lb pound 100g"))
    return says(t, at + 2, "of") && !says(t, at + 3, "food meat mix mixture meal the") ? DOUBT_NONE
                                                                                       : (*far = true, DOUBT_PER_FOOD);
  if (of.is_mass && (at > 0 || says(t, at, "per every"))) return *far = true, DOUBT_PER_FOOD;
  if (says_a(t, at, CLASS_CHANGING)) return *far = true, DOUBT_CHANGING;
  if (says(t, at, "might could would should may must")) {
    bool month = says(t, at, "may") && t->item[at].at.p[0] == 'M';
    return month ? DOUBT_NONE : DOUBT_IF;
  }
  if (says_a(t, at, CLASS_WISHING)) return DOUBT_IF;
  if (says(t, at, "started began") && says(t, at + 1, "with at on off")) return *far = true, DOUBT_PAST;
  if (says(t, at, "in during over") && says(t, at + 1, "winter summer autumn spring") && !says(t, at + 2, "water"))
    return *far = true, DOUBT_IF;
  if (says(t, at, "max maximum minimum min") || phrase_at(t, at, "up to") > 0 || phrase_at(t, at, "at most") > 0 ||
      phrase_at(t, at, "at least") > 0)
    return DOUBT_LIMIT;
  if (says(t, at, "ago originally previously earlier formerly")) return *far = true, DOUBT_PAST;
  if (says(t, at, "last") && says_a(t, at + 1, CLASS_LAST_TIME))
    return at > 0 && says(t, at - 1, "since") ? DOUBT_NONE : (*far = true, DOUBT_PAST);
  if (says_a(t, at, CLASS_PAST_VERB)) {
    bool verb = says(t, at, "had was were") && says(t, at + 1, "him her it them spayed neutered");
    return verb || (says(t, at, "started began") && !says(t, at + 1, "with at on off")) ? DOUBT_NONE : DOUBT_PAST;
  }
  if (says_a(t, at, CLASS_DENYING)) return denies_nothing(t, at) ? DOUBT_NONE : DOUBT_DENIED;
  if (says(t, at, "say") && at > 0 && says(t, at - 1, "let's lets i'd we'd just")) return DOUBT_NONE;
  bool guess = at > 0 && (is_mark(t, at - 1, '(') || says(t, at - 1, "or"));
  if (guess && says(t, at, "say") && post_amount_at(t, at + 1).tokens > 0) return DOUBT_NONE; /* "(say 250 g)" */
  if (says_a(t, at, CLASS_SOMEBODY_SAYS)) return DOUBT_HEARSAY;
  if (says(t, at, "other another second") && says_a(t, at + 1, CLASS_ANOTHER_ONE) && !says(t, at + 2, "days day meals"))
    return DOUBT_OTHER;
  if (says_a(t, at, CLASS_ANOTHER_OWNER)) return DOUBT_OTHER;
  if (says_a(t, at, CLASS_RARELY)) return DOUBT_RARE;
  if (says_a(t, at, CLASS_NOT_SURE)) return DOUBT_SURE;
  if (says(t, at, "share shared shares between leftover leftovers") &&
      !says(t, at + 1, "breakfast meals two three the meals morning"))
    return DOUBT_PART;
  return DOUBT_NONE;
}

/* Words between a cue and the food that tell of today again: "was thin, now gets". */
static bool is_of_today(const struct tokens *t, size_t at, enum doubt d) {
  if (d == DOUBT_PER_FOOD || d == DOUBT_CHANGING) return says(t, at, "but");
  if (d == DOUBT_OTHER) return says(t, at, "but so mine");
  if (says(t, at, "but now today currently nowadays instead")) return true;
  if (d == DOUBT_IF) return false;
  if (says(t, at, "so and because"))
    return d != DOUBT_PAST && d != DOUBT_DENIED ? true : says(t, at + 1, "he she i we it they now");
  return says_a(t, at, CLASS_FEEDS_TODAY) || (says(t, at, "i we") && says(t, at + 1, "give feed add put use do"));
}

/* The tokens of a claimed piece of the sentence. */
static bool range_of(const struct net *n, const struct claim *c, size_t *from, size_t *to) {
  *from = *to = n->t.count;
  for (size_t i = 0; i < n->t.count; i++)
    if (net_within(n->t.item[i].at, c->text)) {
      if (*from == n->t.count) *from = i;
      *to = i + 1;
    }
  return *from < *to;
}

static size_t amount_of(const struct net *n, const struct claim *line, size_t from, size_t to) {
  for (size_t c = n->h->claim_from; c < n->claim_to; c++) {
    const struct claim *a = &n->r->claim[c];
    if (a->kind != CLAIM_AMOUNT || a->first != line->first) continue;
    for (size_t i = from; i < to; i++)
      if (net_within(n->t.item[i].at, a->text)) return i;
  }
  return from;
}

/* The first cue that reaches the food. */
static enum doubt doubt_of(const struct net *n, const struct claim *line) {
  size_t from, to;
  if (!range_of(n, line, &from, &to)) return DOUBT_NONE;
  size_t amount = amount_of(n, line, from, to);
  for (size_t i = 0; i < to; i++) {
    bool far;
    enum doubt d = cue_at(&n->t, i, &far);
    if (d != DOUBT_PER_FOOD && d != DOUBT_CHANGING && net_claim_at(n, i, CLAIM_TOLD)) continue;
    if (d == DOUBT_NONE || (i < from && !far)) continue;
    if (frequency_at(&n->t, i).tokens > 0) continue;
    bool cancelled = false;
    for (size_t k = i + 1; k < amount && !cancelled; k++) cancelled = is_of_today(&n->t, k, d);
    if (i > amount && d != DOUBT_PART && d != DOUBT_SURE &&
        d != DOUBT_LIMIT) { /* behind the food: only in the words that are its own */
      for (size_t k = amount; k < i && !cancelled; k++)
        cancelled = net_ends_clause(&n->t, k) || says_a(&n->t, k, CLASS_ENDS_OWN_WORDS);
    }
    if (!cancelled) return d;
  }
  return DOUBT_NONE;
}

/* "1 egg between them", where all else is told of one of them: an equal part of it. */
static bool take_part_of_it(struct net *n, size_t at) {
  struct post_reader *r = n->r;
  struct item *item = &r->item[at];
  struct tokens own = post_tokens(r, span_of(item->text));
  struct post_amount a = own.count > 0 ? post_amount_at(&own, 0) : (struct post_amount){0};
  const char *assumed;
  bool between = false;
  for (size_t i = 0; i < n->t.count; i++)
    between = between || (says(&n->t, i, "between") && says(&n->t, i + 1, "them both the"));
  if (!between || !(r->animals > 1) || !r->for_one || r->pot_told || a.tokens == 0 || a.tokens >= own.count || a.is_percent)
    return false;
  struct buf b;
  buf_init(&b, r->keep, strlen(item->text) + 60);
  amount_write(&b, &a, 1.0 / r->animals);
  buf_addf(&b, " %s", own.item[a.tokens].at.p);
  if (!strict_takes(r, buf_text(&b), &assumed, NULL)) return false;
  item->text = buf_text(&b);
  item->grams /= r->animals;
  item->own = true;
  return true;
}

/* The first of several lines of which one is fed stays, with what is asked of them all. */
static void take_first_choice(struct net *n, const struct claim *first, const struct buf *others, size_t count) {
  struct post_reader *r = n->r;
  if (count == 0) return;
  r->line = n->h->line;
  r->ask_of = first->first + 1;
  post_ask(r, 3, "Which of the%s is fed, and how often: '%.*s'%.*s? The first was counted.", count == 1 ? " two" : "se",
           SPAN_ARG(post_quote(r, first->text)), SPAN_ARG(buf_span(others)));
  r->ask_of = 0;
}

/* "300 g beef or 300 g turkey": one of the two, or of several. */
static void doubt_alternatives(struct net *n) {
  struct post_reader *r = n->r;
  const struct claim *before = NULL;
  size_t count = 0;
  struct buf others;
  for (size_t c = n->h->claim_from; c < n->claim_to; c++) {
    const struct claim *line = &r->claim[c];
    size_t from, to;
    if (line->kind != CLAIM_LINE || r->item[line->first].kind != ITEM_FOOD) continue;
    if (!range_of(n, line, &from, &to)) continue;
    size_t amount = amount_of(n, line, from, to);
    bool other = (from > 0 && says(&n->t, from - 1, "or")) || says(&n->t, from, "or") ||
                 (amount > 0 && says(&n->t, amount - 1, "or"));
    if (other && before) {
      if (count++ == 0) buf_init(&others, r->arena, 2000);
      buf_addf(&others, " or '%.*s'", SPAN_ARG(post_quote(r, line->text)));
      for (size_t i = before->first; i < before->last; i++)
        post_doubt(r, i, "the post names another food that may take its place");
      for (size_t i = line->first; i < line->last; i++) {
        if (r->item[i].kind != ITEM_FOOD) continue;
        r->item[i].kind = ITEM_GONE;
        post_note(r, post_own_words(r, line->text), "the other choice");
      }
      continue;
    }
    take_first_choice(n, before, &others, count);
    count = 0;
    before = line;
  }
  take_first_choice(n, before, &others, count);
}

/* "Old was 300 g of mince and 120 g of rice, new is ...": the food behind one that is told as past, with no verb between. */
static bool goes_on_with(const struct net *n, const struct claim *line) {
  size_t from, to;
  if (!range_of(n, line, &from, &to)) return false;
  size_t amount = amount_of(n, line, from, to);
  bool joined = says(&n->t, from, "and plus with") || (from > 0 && says(&n->t, from - 1, "and plus with")) ||
                (from > 0 && amount == from && is_mark(&n->t, from - 1, ','));
  for (size_t k = from; k < amount && joined; k++) joined = says(&n->t, k, "and plus with") || !is_word(&n->t, k);
  return joined;
}

/* "250 g of beef and 100 g of pasta": does the line go on the list that ends at 'end'? */
static bool goes_on_from(const struct net *n, const struct claim *line, size_t end) {
  size_t from, to;
  if (end == 0 || !range_of(n, line, &from, &to) || from < end) return false;
  for (size_t i = end; i < from; i++)
    if (!is_mark(&n->t, i, ',') && !is_mark(&n->t, i, '+') && !is_mark(&n->t, i, '&') && !says(&n->t, i, "and plus with"))
      return false;
  return true;
}

void net_doubt_lines(struct net *n) {
  struct post_reader *r = n->r;
  size_t end = 0;                                    /* of the line that was left out last */
  enum doubt before = DOUBT_NONE, last = DOUBT_NONE; /* of the line left out last; of the last line */
  doubt_alternatives(n);
  for (size_t c = n->h->claim_from; c < n->claim_to; c++) {
    const struct claim *line = &r->claim[c];
    if (line->kind != CLAIM_LINE) continue;
    enum doubt d = doubt_of(n, line);
    if (d == DOUBT_NONE && last == DOUBT_PAST && goes_on_with(n, line)) d = last;
    last = d;
    size_t from, to;
    if (d == DOUBT_NONE) {
      for (size_t i = line->first; goes_on_from(n, line, end) && i < line->last && i < r->count; i++)
        post_doubt(r, i, post_joined(r, "it stands beside what was left out", DOUBT[before].why));
      continue;
    }
    if (DOUBT[d].why && range_of(n, line, &from, &to)) end = to, before = d;
    struct span quote = post_quote(r, line->text);
    bool any = false;
    for (size_t i = line->first; i < line->last && i < r->count; i++) {
      if (r->item[i].kind != ITEM_FOOD) continue;
      any = true;
      if (d == DOUBT_PART && take_part_of_it(n, i))
        post_doubt(r, i, "an equal part of what is told for all");
      else if (!DOUBT[d].why)
        post_doubt(r, i,
                   d == DOUBT_SURE    ? "the post is not sure of it"
                   : d == DOUBT_LIMIT ? "counted at the limit given"
                                      : "counted as if all of it went to this animal");
      else
        post_withdraw(r, i, line->text, DOUBT[d].why);
    }
    if (!any) continue;
    struct buf b;
    buf_init(&b, r->arena, quote.n + 200);
    const char *mark = strstr(DOUBT[d].ask, "%.*s");
    buf_addf(&b, "%.*s%.*s%s", (int)(mark - DOUBT[d].ask), DOUBT[d].ask, SPAN_ARG(quote), mark + 4);
    r->line = n->h->line;
    r->ask_of = line->first + 1;
    post_ask(r, DOUBT[d].why ? 3 : 2, "%s", buf_text(&b));
    r->ask_of = 0;
  }
}

/* ---- the whole ---- */

static void doubt_all(struct post_reader *r, const char *assumed, bool without_time) {
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD) continue;
    if (!without_time || !post_tells_often(r, &r->item[i])) post_doubt(r, i, assumed);
  }
}

static void doubt_meals(struct post_reader *r) {
  bool timed = r->meal_from > 0 || r->meals_a_day > 0 || r->makes_days > 0 || r->makes_meals > 0;
  for (size_t i = 0; i < r->count; i++) timed = timed || (r->item[i].kind == ITEM_FOOD && r->item[i].timed);
  bool open = false; /* does a line leave it open how often it is fed? */
  for (size_t i = 0; i < r->count; i++) open = open || (r->item[i].kind == ITEM_FOOD && !post_tells_often(r, &r->item[i]));
  if (timed || !open || !(r->meals_told > 1) || r->feeds_g > 0 || r->feeds_percent > 0 || r->total_g > 0) return;
  r->line = 0;
  post_ask(r, 3, "Are the amounts for a day, or for each of the %d meals? They were counted for a day.", (int)r->meals_told);
  doubt_all(r, "counted as the amount of a day", true);
}

static unsigned days_told(struct post_reader *r, const struct item *item) {
  struct tokens t = post_tokens(r, span_of(item->text));
  unsigned days = 0;
  for (size_t i = 0; i < t.count; i++) days |= frequency_at(&t, i).days;
  return days;
}

/* "150 g beef, mon-thu" and "150 g beef heart, fri-sun" are two. */
static bool on_other_days(struct post_reader *r, const struct item *a, const struct item *b) {
  unsigned of_a = days_told(r, a), of_b = days_told(r, b);
  return of_a != 0 && of_b != 0 && (of_a & of_b) == 0;
}

static double times_told(struct post_reader *r, const struct item *item) {
  struct tokens t = post_tokens(r, span_of(item->text));
  double times = 0;
  for (size_t i = 0; i < t.count; i++) {
    struct frequency f = frequency_at(&t, i);
    if (f.tokens > 0 && f.feedings <= 1 && !f.each_meal && !(f.per_28 > 0)) times = f.times_per_28;
  }
  return times;
}

/* "60 g cucumber, 4 days a week" and "60 g cucumber, 3 days a week": the days of one kind, and those of the other. */
static bool make_a_week(struct post_reader *r, const struct item *a, const struct item *b) {
  double of_a = times_told(r, a), of_b = times_told(r, b);
  return of_a > 0 && of_b > 0 && of_a + of_b == CALENDAR_DAYS && a->line != b->line;
}

/* "40 g beef", "40 g beef kidney": an organ is no second mention of the meat. */
static bool names_organ(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  return holds_a(&t, 0, t.count, CLASS_ORGAN_OF_MEAT);
}

/* The same food in two sentences, and neither names a meal or a day. */
static void doubt_twice(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++)
    for (size_t k = i + 1; k < r->count; k++) {
      struct item *a = &r->item[i], *b = &r->item[k];
      if (a->kind != ITEM_FOOD || b->kind != ITEM_FOOD || a->timed || b->timed || a->sentence == b->sentence) continue;
      bool same = a->food == b->food || (span_holds_fold(a->words, b->words) && b->words.n > 2) ||
                  (span_holds_fold(b->words, a->words) && a->words.n > 2);
      if (same && a->food != b->food && names_organ(r, a->words) != names_organ(r, b->words)) continue;
      if (!same || on_other_days(r, a, b) || make_a_week(r, a, b)) continue;
      if (a->grams != b->grams) {
        if (a->food != b->food || a->doubted || b->doubted || post_tells_often(r, a) || post_tells_often(r, b)) continue;
        r->line = b->line;
        r->ask_of = i + 1;
        post_ask(r, 3, "'%s' and '%s': are both fed? Both were counted.", a->text, b->text);
        r->ask_of = 0;
        post_doubt(r, i, "two amounts are given, and both were counted");
        post_doubt(r, k, "two amounts are given, and both were counted");
        continue;
      }
      r->line = b->line;
      r->ask_of = i + 1;
      post_ask(r, 3, "'%s' is mentioned twice. Is it fed once or twice? It was counted once.", b->text);
      r->ask_of = 0;
      post_doubt(r, i, "mentioned twice in the post, and counted once");
      b->kind = ITEM_GONE;
      post_note(r, span_of(b->text), "mentioned a second time, and counted once");
    }
}

void post_doubt_whole(struct post_reader *r) {
  arena_rewind(r->arena, r->begin);
  doubt_twice(r);
  doubt_meals(r);
  for (size_t i = 0; i < r->count && r->two_lengths; i++)
    if (!r->item[i].served && !r->item[i].at_meals) post_doubt(r, i, "two lengths are given for the batch");
}

void post_doubt_one_pot(struct post_reader *r) {
  bool pot = post_is_shared(r) || (r->one_pot && !r->for_one); /* "between them", and nobody says how many they are */
  if (!pot || r->pot_part > 0) return;
  for (size_t i = 0; i < r->count; i++)
    if (!r->item[i].own) post_doubt(r, i, "counted as if all of it were for one animal");
}

/* Less than anybody feeds: a batch of fewer days, or a part of the bowl. Grams a kg of body weight; where something is left
 * out that may be fed, far less. */
void post_doubt_little(struct post_reader *r, double grams_a_day) {
  static const double LEAST_G_PER_KG = 7, LEAST_WITH_GAPS = 2.5;
  bool gaps = false, any = false;
  for (size_t i = 0; i < r->count; i++) {
    gaps = gaps || r->item[i].kind == ITEM_UNKNOWN;
    any = any || r->item[i].kind == ITEM_FOOD;
  }
  double least = gaps ? LEAST_WITH_GAPS : LEAST_G_PER_KG;
  if (!any || !(r->weight_kg > 0) || !(grams_a_day < least * r->weight_kg)) return;
  struct buf b;
  buf_init(&b, r->arena, 40);
  num_sig(&b, grams_a_day, 2);
  r->line = 0;
  post_ask(r, 4.5,
           "Is this all that is fed? As it was read it comes to %s g a day; a day or a meal may have been taken for more.",
           buf_text(&b));
  doubt_all(r, "so little in all that a period may have been misread", false);
}

/* "450 g a day in all", "2.5 % of his weight", and the lines come to something else. */
void post_doubt_total(struct post_reader *r, double grams_a_day) {
  static const double FAR = 0.25;
  double told = r->feeds_g > 0                             ? r->feeds_g
                : r->feeds_percent > 0 && r->weight_kg > 0 ? 10 * r->feeds_percent * r->weight_kg
                : r->total_g > 0 && !r->any_percent && !r->of_mix && !(r->makes_days > 0) && !(r->makes_meals > 0)
                    ? r->total_g
                    : 0;
  if (r->feeds_g > 0 && !r->feeds_each && r->pot_part > 0) told *= r->pot_part; /* the foods are those of one */
  bool gaps = false;
  for (size_t i = 0; i < r->count; i++) gaps = gaps || r->item[i].kind == ITEM_UNKNOWN;
  if (!(told > 0) || !(grams_a_day > (1 + FAR) * told || (!gaps && grams_a_day < (1 - FAR) * told))) return;
  struct buf b, sum;
  buf_init(&b, r->arena, 40);
  buf_init(&sum, r->arena, 40);
  num_sig(&b, told, 3);
  num_sig(&sum, grams_a_day, 3);
  r->line = 0;
  post_ask(r, 4.5,
           "You write that %s g a day are fed, and the foods come to %s g. Which is right, or what is for more than a day?",
           buf_text(&b), buf_text(&sum));
  doubt_all(r, "the foods come to another sum than the post tells", false);
}
