/* "ribbon" and "supply": where the bars of energy and of a nutrient's suppliers stand, for whoever draws them. */
#include "picture/ribbon.h"
#include "picture/supply.h"

#include "json/json_parts.h"

static const struct field PIECE[] = {
    TEXT_ALWAYS("words", struct piece, words, "its name and its share"),
    NUMBER("share", "", struct piece, share, "of the whole bar"),
    NUMBER("from", "", struct piece, from, ""),
    NUMBER("to", "", struct piece, to, ""),
    TEXT("key", struct piece, key, "of energy: what it comes from"),
};
static const struct shape piece_shape = SHAPE("Piece", PIECE, "one piece of a bar; places as shares of the line's length");

static const struct field RIBBON[] = {
    NUMBER("top_kcal", "kcal a day", struct ribbon, top_kcal, "at the right end; the left one is 0"),
    NUMBER("need", "", struct ribbon, need, ""),
    NUMBER("need_low", "", struct ribbon, need_low, "where the usual range begins"),
    NUMBER("need_high", "", struct ribbon, need_high, "where it ends"),
    NUMBER("bowl", "", struct ribbon, bowl, "where the bowl's bar ends"),
    ROWS_IN("parts", struct ribbon, parts.of, parts.count, &piece_shape, "the bar"),
    TEXT("need_words", struct ribbon, need_words, ""),
    TEXT("low_words", struct ribbon, low_words, ""),
    TEXT("high_words", struct ribbon, high_words, ""),
    TEXT("range_words", struct ribbon, range_words, ""),
    TEXT("bowl_words", struct ribbon, bowl_words, ""),
    TEXT_ALWAYS("says", struct ribbon, says, "all of it, for those who cannot see it"),
    NUMBER("least_eaten", "", struct ribbon, least_eaten, "page: where a handle's way begins"),
    NUMBER("most_eaten", "", struct ribbon, most_eaten, "page: where it ends"),
};
const struct shape json_ribbon_shape = SHAPE("Ribbon", RIBBON, "energy as one line: places as shares of its length");

void json_ribbon(struct json *j, const char *key, const struct at *at) {
  struct ribbon ribbon;
  if (!ribbon_of(checked_result(at), checked_whole_kcal(at), &ribbon, j->out->arena)) {
    json_nothing(j, key);
    return;
  }
  struct at inner = {at->lib, &json_ribbon_shape, &ribbon, at, 0};
  json_shape(j, key, &json_ribbon_shape, &inner);
}

static const struct field SUPPLY_PIECE[] = {
    TEXT_ALWAYS("words", struct piece, words, "its name and its share"),
    NUMBER("to", "", struct piece, to, "where it ends; it begins where the one before it ends"),
};
static const struct shape supply_piece_shape = SHAPE("SupplyPiece", SUPPLY_PIECE, "one line, or all smaller ones together");

static const struct field SUPPLY[] = {
    ROWS_IN("pieces", struct suppliers, pieces.of, pieces.count, &supply_piece_shape, "in the order of `from`"),
    NUMBER("need", "", struct suppliers, need, "place of the allowance; null without one"),
    TEXT("gap", struct suppliers, gap, "how much more is needed"),
    TEXT_ALWAYS("says", struct suppliers, says, "all of it, for those who cannot see it"),
};
const struct shape json_supply_shape =
    SHAPE("SupplyBar", SUPPLY, "who supplies a nutrient as one bar: places as shares of the line's length");

void json_supply(struct json *j, const char *key, const struct at *at) {
  struct suppliers supply;
  const struct nutrient_result *n = at->it;
  if (!supply_of(at->lib, checked_result(at), n->id, &supply, j->out->arena)) {
    json_nothing(j, key);
    return;
  }
  struct at inner = {at->lib, &json_supply_shape, &supply, at, 0};
  json_shape(j, key, &json_supply_shape, &inner);
}
