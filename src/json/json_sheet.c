/* The sheet: the recipe in the kitchen, and every text of the sheet in reading order. */
#include <math.h>

#include "kitchen/kitchen.h"
#include "sheet/sheet.h"
#include "json/json_parts.h"

struct told_sheet {
  const struct kitchen *k;
  const struct sheet *s;
};

static const struct kitchen *kitchen_at(const struct at *at) {
  return ((const struct told_sheet *)at_within(at, &json_sheet_shape))->k;
}

static const char *unit_word_or_null(enum unit u) { return u == UNIT_EACH ? NULL : unit_info[u].word; }

/* ---- lines ------------------------------------------------------------------------------------------------------- */

static double line_place(const struct at *at) { return (double)((const struct kitchen_line *)at->it)->index; }
static int line_cooked(const struct at *at) {
  const struct kitchen_line *l = at->it;
  return l->cook == STATE_RAW ? -1 : (int)l->cook;
}
static const char *line_kept(const struct at *at) {
  const struct kitchen_line *l = at->it;
  return l->keep ? lib_str(at->lib, l->keep->key) : NULL;
}

static const char *line_unit(const struct at *at) { return unit_word_or_null(((const struct kitchen_line *)at->it)->unit); }

static const struct field LINE[] = {
    NUMBER_OF_ALWAYS("index", "", line_place, "of the line in `recipe.lines` of `check --json`, from 0"),
    TEXT_ALWAYS("food", struct kitchen_line, food, "as the person calls it"),
    TRUTH("danger", struct kitchen_line, danger, "must not be fed: not bought and not cooked"),
    NUMBER("grams_when_fed", "g", struct kitchen_line, fed_g, "in the bowl on a day when it is fed"),
    NUMBER("meal_g", "g", struct kitchen_line, meal_g, "in a meal of such a day; all of it when `whole`"),
    NUMBER("units", "", struct kitchen_line, units, "counted or spooned on such a day; null when it was weighed"),
    TEXT_OF("unit", line_unit, "of `units`; null for pieces"),
    TRUTH("whole", struct kitchen_line, whole, "goes into one meal"),
    NUMBER("feedings", "days", struct kitchen_line, feedings, "the most of its days that fall into the batch"),
    NUMBER("weigh_g", "g", struct kitchen_line, prepare_g, "for the batch, uncooked; null when not known"),
    NUMBER("ready_g", "g", struct kitchen_line, ready_g, "for the batch, as it is in the bowl; null when not known"),
    WORD_OF("cook", line_cooked, state_word, STATE_COUNT, "how it is cooked at home; null: not"),
    NUMBER("yield", "", struct kitchen_line, yield, "cooked grams of one raw gram; null when not known"),
    TEXT_OF("keeps_as", line_kept, "row of the kitchen table that says how long it keeps"),
};
static const struct shape line_shape = SHAPE("KitchenLine", LINE, "a line of the recipe in the kitchen");

/* ---- shopping ---------------------------------------------------------------------------------------------------- */

static const char *buy_food(const struct at *at) {
  return json_food_code(at->lib, ((const struct kitchen_buy *)at->it)->food);
}
static const char *buy_record(const struct at *at) {
  return library_name(at->lib, ((const struct kitchen_buy *)at->it)->food);
}

static const char *buy_unit(const struct at *at) { return unit_word_or_null(((const struct kitchen_buy *)at->it)->unit); }

static const struct field BUY[] = {
    TEXT_ALWAYS("name", struct kitchen_buy, name, "as the person calls it"),
    TEXT_OF_ALWAYS("food", buy_food, "the pin of the record as bought"),
    TEXT_OF_ALWAYS("record", buy_record, "its name"),
    TRUTH("raw_of_cooked", struct kitchen_buy, raw_of_cooked, "the raw form of what the recipe names"),
    TRUTH("cooked_weight", struct kitchen_buy, cooked_weight, "no raw weight is known: `needed_g` is cooked"),
    TRUTH("with_bone", struct kitchen_buy, with_bone, "bone and flesh are both fed"),
    NUMBER("needed_g", "g", struct kitchen_buy, edible_g, "that must be left of it"),
    NUMBER("refuse", "", struct kitchen_buy, refuse, "share thrown away, 0 to 1, as published; null: no figure"),
    TEXT("refuse_what", struct kitchen_buy, refuse_what, "what that is"),
    NUMBER("buy_g", "g", struct kitchen_buy, buy_g, "as bought, not rounded; without bone where only bone is thrown away"),
    NUMBER("bone_in_g", "g", struct kitchen_buy, bone_in_g, "bought with its bone; null where that does not apply"),
    NUMBER("count", "", struct kitchen_buy, count, "things, whole ones; null when bought by weight"),
    TEXT_OF("unit", buy_unit, "of `count`; null for pieces"),
    NUMBER("packs", "", struct kitchen_buy, packs, "where the larder says how it is sold"),
    NUMBER("pack_g", "g", struct kitchen_buy, pack_g, "of one pack"),
    NUMBER("pack_count", "", struct kitchen_buy, pack_count, "things in one pack"),
    NUMBER("cost", "", struct kitchen_buy, cost, "null when no price is known"),
};
static const struct shape buy_shape = SHAPE("Buy", BUY, "a food to be bought");

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static const void *kitchen(const struct at *at) { return kitchen_at(at); }
static const char *shortest(const struct at *at) {
  const struct kitchen *k = kitchen_at(at);
  return k->shortest ? lib_str(at->lib, k->shortest->key) : NULL;
}

static const struct field KITCHEN[] = {
    NUMBER_ALWAYS("days", "days", struct kitchen, days, "of the batch"),
    NUMBER_ALWAYS("meals", "", struct kitchen, meals, "a day"),
    NUMBER("bowl_g", "g a day", struct kitchen, bowl_g, "average, as eaten"),
    NUMBER("volume_ml", "ml a day", struct kitchen, volume_ml, "without air between the pieces"),
    NUMBER("box_ml", "ml", struct kitchen, box_ml, "that a box for one day should hold"),
    NUMBER("boxes_fridge", "", struct kitchen, boxes_fridge, "of the boxes, one a day"),
    NUMBER("boxes_freezer", "", struct kitchen, boxes_freezer, ""),
    NUMBER("fridge_low_days", "days", struct kitchen, fridge_low, "that the bowl keeps when all is mixed"),
    NUMBER("fridge_high_days", "days", struct kitchen, fridge_high, ""),
    NUMBER("freezer_low_months", "months", struct kitchen, freezer_low, ""),
    NUMBER("freezer_high_months", "months", struct kitchen, freezer_high, ""),
    TEXT_OF("keeps_as", shortest, "the row of the kitchen table that decides"),
    ROWS("lines", struct kitchen, line, line_count, &line_shape, "in the order of the recipe"),
    ROWS("shopping", struct kitchen, buy, buy_count, &buy_shape, "lines of the same food are one"),
    TEXT("currency", struct kitchen, currency, "the sign of the larder"),
    NUMBER("cost", "", struct kitchen, cost, "of what has a price; null: nothing has"),
    NUMBER("cost_unknown", "", struct kitchen, cost_unknown, "foods without a price"),
};
static const struct shape kitchen_shape = SHAPE("Kitchen", KITCHEN, "a batch, its shopping and its keeping");

static void write_texts(struct json *j, const char *key, const struct at *at) {
  struct buf text;
  buf_init(&text, j->out->arena, 1 << 24);
  sheet_text(((const struct told_sheet *)at_within(at, &json_sheet_shape))->s, &text);
  json_open(j, key, '[');
  for (struct span rest = buf_span(&text); rest.n > 0;) json_span(j, NULL, span_piece(&rest, '\n'));
  json_close(j, ']');
}

static const struct field SHEET[] = {
    OBJECT_OF_ALWAYS("kitchen", kitchen, &kitchen_shape, ""),
    FREE("text", write_texts, "string[]", "every text of the sheet in reading order, but for the figures within pictures"),
};
const struct shape json_sheet_shape =
    SHAPE("Sheet", SHEET, "the answer of `sheet --json`; its other figures are those of `check --json`");

void json_sheet(const struct library *lib, const struct kitchen *k, const struct sheet *s, struct buf *out) {
  const struct told_sheet it = {k, s};
  json_write(lib, &json_sheet_shape, &it, out);
}

struct sheet_as_html {
  const struct sheet *s;
  const char *html;
};

static const char *page_title(const struct at *at) { return ((const struct sheet_as_html *)at->it)->s->title; }

static const struct field SHEET_PAGE[] = {
    TEXT_OF_ALWAYS("title", page_title, "of the sheet: the recipe's name"),
    TEXT_ALWAYS("html", struct sheet_as_html, html, "one whole file"),
};
const struct shape json_sheet_page_shape = SHAPE("SheetPage", SHEET_PAGE, "a sheet as one file of HTML");

void json_sheet_page(const struct library *lib, const struct sheet *s, const char *html, struct buf *out) {
  const struct sheet_as_html it = {s, html};
  json_write(lib, &json_sheet_page_shape, &it, out);
}
