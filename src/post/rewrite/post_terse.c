/* What people leave out because it is plain to them: "50 g mash", "(125 g each, 88 drained)", "half a tin of tripe (the 400
 * g tins)", "1 x 4 g scoop", "a third of one", "10 % = 55 g offal", "20 g extra", "(beetroot, carrot - same of each)". */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

static struct span cut(struct post_reader *r, const struct tokens *t, struct span text, size_t from, size_t to,
                       const char *instead) {
  return post_cut_out(r, text, token_begin(t, from), token_end(t, to - 1), instead);
}

static bool ends(const struct tokens *t, size_t at) { return at >= t->count || t->item[at].kind == TOKEN_MARK; }

/* "50 g mash": of potatoes, where no word says of what. */
static bool mash(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (!says(t, i, "mash") || i == 0 || !(ends(t, i + 1) || says(t, i + 1, "with and in on at plus"))) return false;
  bool alone = says_a(t, i - 1, CLASS_UNIT) || says(t, i - 1, "of and plus with some plain") || is_mark(t, i - 1, ',') ||
               is_number(t, i - 1);
  if (!alone) return false;
  *out = cut(r, t, text, i, i + 1, "mashed potato");
  return true;
}

/* "125 g each, 88 drained": grams too. */
static bool drained(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  struct post_amount gross = post_amount_at(t, i);
  size_t at = i + gross.tokens;
  bool each = says(t, at, "each");
  if (each) at++;
  if (!gross.is_mass || !(is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, ';')) || !is_number(t, at + 1))
    return false;
  size_t behind = at + 2;
  bool net_each = says(t, behind, "each");
  if (net_each) behind++;
  if (!says(t, behind, "drained net") || !(t->item[at + 1].value < gross.low)) return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  buf_addf(&b, "%.*s %s drained%s", SPAN_ARG(t->item[at + 1].at), gross.unit, each || net_each ? " each" : "");
  *out = cut(r, t, text, i, behind + 1, buf_text(&b));
  return true;
}

/* "1/2 tin tripe (the 400g tins)": what a tin holds. */
static bool tins_hold(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { NAME_MOST = 6 };
  struct quantity q = quantity_at(t, i);
  size_t pack = i + q.tokens, open;
  if (q.fault != QUANTITY_FINE) { /* "tin of sardines Saturdays (the 110 g ones)" */
    pack = says(t, i, "a") ? i + 1 : i;
    if (pack == i && i > 0 && !is_mark(t, i - 1, ',') && !says(t, i - 1, "plus and")) return false;
    q = (struct quantity){.fault = QUANTITY_FINE, .low = 1, .high = 1};
  }
  if (q.low != q.high) return false;
  if (says(t, pack, "a")) pack++;
  if (!says(t, pack, "tin tins can cans pouch pouches pot pots tub tubs sachet sachets")) return false;
  size_t name = says(t, pack + 1, "of") ? pack + 2 : pack + 1;
  for (open = name; open < name + NAME_MOST && is_word(t, open);) open++;
  size_t at = open + 1;
  while (says(t, at, "the one ones those small big large little wee tiny mini a")) at++;
  struct post_amount a = post_amount_at(t, at);
  size_t behind = at + a.tokens;
  if (!is_mark(t, open, '(') || open == name || at == open + 1 || !a.is_mass) return false;
  while (says(t, behind, "tin tins can cans one ones size sized pouch pouches pots tubs")) behind++;
  if (behind == at + a.tokens) return false;
  size_t end = behind; /* "(the small 60 g ones in spring water)" */
  if (says(t, end, "in")) end += 1 + phrase_of(t, end + 1, CLASS_PACKED_IN);
  if (!is_mark(t, end, ')') || end == behind + 1) return false;
  struct buf b;
  buf_init(&b, r->arena, text.n + 60);
  amount_write(&b, &a, q.low);
  size_t food = name; /* "sardines Saturdays": how they are packed stands beside the food */
  while (food < open && frequency_at(t, food).tokens == 0) food++;
  buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, name, food - name)));
  if (end > behind)
    buf_addf(&b, " in %s",
             says(t, behind + 1, "spring springwater") ? "water"
                                                       : arena_text(r->arena, tokens_span(t, behind + 1, end - behind - 1)));
  if (food < open) buf_addf(&b, ", %.*s", SPAN_ARG(tokens_span(t, food, open - food)));
  behind = end;
  *out = cut(r, t, text, i, behind + 1, buf_text(&b));
  return true;
}

/* "1 x 4g scoop taurine" */
static bool scoops(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  bool times = is_number(t, i) && (says(t, i + 1, "x") || is_mark(t, i + 1, 'x'));
  struct post_amount a = times ? post_amount_at(t, i + 2) : (struct post_amount){0};
  size_t behind = i + 2 + a.tokens;
  if (!a.is_mass || !says(t, behind, "scoop scoops sachet sachets spoon spoons measure measures")) return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  amount_write(&b, &a, t->item[i].value);
  *out = cut(r, t, text, i, behind + 1, buf_text(&b));
  return true;
}

/* "egg yolk: about a third of one" */
static bool of_one(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  double part;
  size_t used = post_part_at(t, i, &part);
  if (used == 0 || !says(t, i + used, "of") || !says(t, i + used + 1, "one") || !ends(t, i + used + 2)) return false;
  struct buf b;
  buf_init(&b, r->arena, 40);
  num_sig(&b, part, 3);
  *out = cut(r, t, text, i, i + used + 2, buf_text(&b));
  return true;
}

/* "10 % = 55 g offal": the weight tells it. */
static bool share_and_weight(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (!is_number(t, i) || !is_mark(t, i + 1, '%') || !(is_mark(t, i + 2, '=') || is_mark(t, i + 2, ':')) ||
      !post_amount_at(t, i + 3).is_mass)
    return false;
  *out = cut(r, t, text, i, i + 3, "");
  return true;
}

/* "chicken liver 20g extra" */
static bool extra(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i < 2 || !says(t, i, "extra") || !ends(t, i + 1)) return false;
  bool weighed = false, named = false;
  for (size_t k = i > 6 ? i - 6 : 0; k < i; k++) {
    struct post_amount a = post_amount_at(t, k);
    weighed = weighed || ((a.is_mass || a.is_volume) && k + a.tokens == i);
    named = named || post_mention_at(r, t, k) > 0;
  }
  if (!weighed || !named) return false;
  *out = cut(r, t, text, i, i + 1, "");
  return true;
}

/* "(beetroot, carrot, apple - same of each)" */
static bool same_of_each(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  size_t used = i > 0 ? phrase_of(t, i, CLASS_AS_MUCH_OF_EACH) : 0;
  if (used == 0 || !is_mark(t, i + used, ')') || says(t, i, "equal")) return false;
  size_t from = is_mark(t, i - 1, '-') || is_mark(t, i - 1, ',') || is_mark(t, i - 1, ';') ? i - 1 : i;
  *out = cut(r, t, text, from, i + used, " equal parts");
  return true;
}

/* "turkey mince 115 g (345 for the old dog)" */
static bool for_another(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { FAR = 8 };
  enum species s;
  if (!is_mark(t, i, '(') || !is_number(t, i + 1)) return false;
  size_t at = i + 2, close;
  for (close = at; close < at + FAR && close < t->count && !is_mark(t, close, ')');) close++;
  if (!is_mark(t, close, ')')) return false;
  bool other = false, animal = false;
  for (size_t k = at; k < close; k++) {
    other = other || (says(t, k, "for") && says(t, k + 1, "the my our her his"));
    animal = animal || (is_word(t, k) && token_is_animal(&t->item[k], &s)) || says(t, k, "other one brother sister");
  }
  if (!other || !animal || post_names_food(r, t, at, close)) return false;
  post_note(r, tokens_span(t, i + 1, close - i - 1), "about an animal that is not asked about");
  *out = cut(r, t, text, i, close + 1, "");
  return true;
}

/* "a pot lasts me 8 days", "one batch does us a week" */
static bool lasts(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (!says(t, i, "a one the this each every") || !says(t, i + 1, "pot batch lot pan panful potful recipe")) return false;
  size_t at = i + 2;
  if (!says(t, at, "lasts does keeps covers feeds") || (says(t, at, "feeds") && !says(t, at + 1, "him her us them me")))
    return false;
  at++;
  if (says(t, at, "me us him her them")) at++;
  if (says(t, at, "for about around roughly")) at++;
  struct quantity q = quantity_at(t, at);
  if (says(t, at, "a")) q = (struct quantity){.fault = QUANTITY_FINE, .low = 1, .high = 1, .tokens = 1};
  size_t unit = at + q.tokens;
  if (q.fault != QUANTITY_FINE || q.low != q.high || !says(t, unit, "days day weeks week")) return false;
  for (size_t k = 0; k < i; k++)
    if (post_amount_at(t, k).is_mass) return false;
  if (post_any_amount(&(struct tokens){t->item, i}, 0) && post_names_food(r, t, 0, i)) return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  buf_adds(&b, "makes ");
  num_sig(&b, says(t, unit, "weeks week") ? 7 * q.low : q.low, 4);
  buf_adds(&b, " days");
  bool alone = i > 0 && !post_names_food(r, t, 0, i) &&
               !post_any_amount(t, unit + 1); /* "she gets 3/4 cup twice a day and a pot lasts me 8 days" */
  *out = cut(r, t, text, alone ? 0 : i, unit + 1, buf_text(&b));
  return true;
}

/* "Basic mix (10 servings):" */
static bool servings(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { HEAD_MOST = 5 };
  if (i == 0 || i > HEAD_MOST || !is_mark(t, i, '(') || !is_number(t, i + 1) || !(t->item[i + 1].value >= 2)) return false;
  bool head = false;
  for (size_t k = 0; k < i; k++) head = head || says(t, k, "mix recipe batch stew pot loaf cook cooking menu food");
  if (!head || !says(t, i + 2, "servings portions meals days tubs") || !is_mark(t, i + 3, ')') ||
      !(is_mark(t, i + 4, ':') || i + 4 == t->count))
    return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  buf_addf(&b, "makes %.*s %.*s", SPAN_ARG(t->item[i + 1].at), SPAN_ARG(t->item[i + 2].at));
  *out = cut(r, t, text, 0, i + 4, buf_text(&b));
  return true;
}

/* "Bowl 1 gets 2 g of eggshell": what goes into it. */
static bool bowl_gets(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  bool bowl = says(t, i, "bowl meal feed") && (is_number(t, i + 1) || says(t, i + 1, "one two a b")) &&
              says(t, i + 2, "gets has contains includes");
  if (!bowl || post_amount_at(t, i + 3).tokens == 0 || (i > 0 && t->item[i - 1].kind != TOKEN_MARK)) return false;
  *out = cut(r, t, text, i, i + 3, "");
  return true;
}

/* "pilchards 3x/wk, half a 400 g tin each time" */
static bool each_time(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { NAME_MOST = 4, AMOUNT_MOST = 6 };
  size_t often = frequency_at(t, i).tokens, comma = i + often, from = i;
  if (often == 0 || i == 0 ||
      !(is_mark(t, comma, ',') || is_mark(t, comma, '-') || is_mark(t, comma, ':') || is_mark(t, comma, '(')))
    return false;
  while (from > 0 && from + NAME_MOST > i && is_word(t, from - 1) && !token_is_a(&t->item[from - 1], CLASS_CHATTER) &&
         frequency_at(t, from - 1).tokens == 0)
    from--;
  if (from == i || !post_names_food(r, t, from, i) || post_any_amount(&(struct tokens){t->item, i}, from)) return false;
  size_t end = comma + 1;
  while (end < t->count && end <= comma + AMOUNT_MOST && !(says(t, end, "each every a") && says(t, end + 1, "time go"))) {
    if (t->item[end].kind == TOKEN_MARK && !is_mark(t, end, '/')) return false;
    end++;
  }
  if (end == comma + 1 || !(says(t, end, "each every a") && says(t, end + 1, "time go")) ||
      !post_any_amount(&(struct tokens){t->item, end}, comma + 1))
    return false;
  struct buf b;
  buf_init(&b, r->arena, text.n + 40);
  size_t amount = end; /* "2 of them each time" */
  while (amount > comma + 2 && says(t, amount - 1, "of them those")) amount--;
  bool bare = post_amount_at(t, comma + 1).bare;
  buf_addf(&b, "%.*s %s%.*s, %.*s", SPAN_ARG(tokens_span(t, comma + 1, amount - comma - 1)), bare ? "" : "of ",
           SPAN_ARG(tokens_span(t, from, i - from)), SPAN_ARG(tokens_span(t, i, often)));
  size_t to = end + 2;
  if (is_mark(t, comma, '(') && is_mark(t, to, ')')) to++;
  *out = cut(r, t, text, from, to, buf_text(&b));
  return true;
}

/* "another one", "another can", "another 50 g", of what stands before 'at': behind it; 0. */
static size_t one_more_of_it(const struct tokens *t, size_t before, size_t at) {
  if (says(t, at, "one") && says(t, at + 1, "more")) return at + 2;
  if (!says(t, at, "another")) return 0;
  struct post_amount again = post_amount_at(t, at + 1);
  if (again.is_mass || again.is_volume) {
    for (size_t k = 0; k < before; k++) {
      struct post_amount a = post_amount_at(t, k);
      if (a.tokens > 0 && a.low == again.low && a.high == again.high && strcmp(a.unit, again.unit) == 0)
        return at + 1 + again.tokens;
    }
    return 0;
  }
  bool named = says(t, at + 1, "one");
  for (size_t k = 0; k < before && !named; k++)
    named = is_word(t, k) && is_word(t, at + 1) && span_eq_fold(t->item[k].word, t->item[at + 1].word);
  return named ? at + 2 : at + 1;
}

/* "1 tin of tuna in the morning and another one at night": twice a day. */
static bool another_meal(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  size_t at = i;
  if (says(t, at, "in at for each every")) at++;
  if (at > i && says(t, at, "the")) at++;
  if (i == 0 || !says(t, at, "morning mornings breakfast")) return false;
  bool amount = false;
  for (size_t k = 0; k < i; k++) {
    if (frequency_at(t, k).tokens > 0) return false;
    amount = amount || post_amount_at(t, k).tokens > 0;
  }
  size_t next = at + 1;
  while (is_mark(t, next, ',') || is_mark(t, next, ';') || says(t, next, "and then plus")) next++;
  next = amount ? one_more_of_it(t, i, next) : 0;
  if (next == 0) return false;
  while (says(t, next, "in at for with on the each every")) next++;
  if (!says(t, next, "night nights evening evenings dinner supper tea bedtime afternoon")) return false;
  if (!ends(t, next + 1) && !says(t, next + 1, "and plus")) return false;
  *out = cut(r, t, text, i, next + 1, "twice a day");
  return true;
}

/* "A scrambled egg (cooked in butter)", "50 g chicken fried in a little butter": the fat is a food, of which nobody says how
 * much. */
static bool cooked_in_fat(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i == 0 || !says(t, i, "cooked fried scrambled done made sauteed") || !says(t, i + 1, "in with")) return false;
  bool bracket = is_mark(t, i - 1, '('), again = bracket;
  size_t fat = i + 2;
  while (says(t, fat, "a little some the bit of tiny touch real salted unsalted")) fat++;
  if (!says(t, fat, "butter ghee lard dripping margarine") || (bracket && !is_mark(t, fat + 1, ')'))) return false;
  if (!bracket && (!ends(t, fat + 1) || is_mark(t, fat + 1, '('))) return false; /* "in a little butter (3 g)" is asked */
  for (size_t k = 0; k < i; k++) again = again || says(t, k, "scrambled fried boiled poached omelette");
  bool measured = false;
  for (size_t k = 0; k < i && !measured; k++) measured = post_amount_at(t, k).tokens > 0;
  if (!measured) return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  if (!again) buf_addf(&b, "%.*s", SPAN_ARG(t->item[i].at));
  buf_addf(&b, ", some %.*s", SPAN_ARG(t->item[fat].at));
  *out = cut(r, t, text, bracket ? i - 1 : i, fat + (bracket ? 2 : 1), buf_text(&b));
  return true;
}

bool post_tersely_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i < t->count; i++)
    if (servings(r, t, text, i, out) || bowl_gets(r, t, text, i, out) || each_time(r, t, text, i, out) ||
        lasts(r, t, text, i, out) || mash(r, t, text, i, out) || drained(r, t, text, i, out) ||
        tins_hold(r, t, text, i, out) || scoops(r, t, text, i, out) || of_one(r, t, text, i, out) ||
        share_and_weight(r, t, text, i, out) || extra(r, t, text, i, out) || same_of_each(r, t, text, i, out) ||
        for_another(r, t, text, i, out) || another_meal(r, t, text, i, out) || cooked_in_fat(r, t, text, i, out))
      return true;
  return false;
}
