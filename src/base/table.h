/* table.h: tables that have a row for each value of an enum. A row too few or too many ends the build; without this a row
 * too few would be a NULL that somebody prints.
 *
 * Layer: base. */
#ifndef BW_TABLE_H
#define BW_TABLE_H

#include <assert.h>

/* const char *const NAME[COUNT] = {...}, with linkage by what stands before it. ORDER: that of the enum. */
#define WORD_TABLE(name, count, ...)                                                                                        \
  const char *const name[count] = {__VA_ARGS__};                                                                            \
  static_assert(sizeof((const char *const[]){__VA_ARGS__}) == (count) * sizeof(const char *),                               \
                "ORDER: " #name " has not a word for each value")

/* For a table written as NAME[] = {...}. */
#define ROW_FOR_EACH(name, count)                                                                                           \
  static_assert(sizeof(name) == (count) * sizeof((name)[0]), "ORDER: " #name " has not a row for each value")

#endif
