/* journal_store.h: a journal in the store, for the server. Layer: served. */
#ifndef BW_JOURNAL_STORE_H
#define BW_JOURNAL_STORE_H

#include "cli/run.h"
#include "store/store.h"

int journal_as_text(const struct run *s, struct store *store) MUST_USE;

#endif
