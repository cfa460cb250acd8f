/* app_entry.h: the journal on a page: what it holds, and a line that is being written for it.
 *
 * Layer: app. */
#ifndef BW_APP_ENTRY_H
#define BW_APP_ENTRY_H

#include "app/app.h"
#include "journal/journal.h"

/* One fact of the journal, as a page lists it. */
struct app_entry_fact {
  const struct journal_entry *entry;
  const char *animal, *says; /* "ate 430 g Weeknight bowl" */
};

struct app_journal_animal {
  const char *name;
  long last_ate; /* a day number, of an 'ate' line that counts */
  bool eats;     /* there is such a line */
};

struct app_journal_answer {
  const struct journal *journal;     /* in_part: a first look, and the last meals are not known yet */
  const struct app_entry_fact *fact; /* the newest FACTS_MOST: newest day first; of one day as they stand in the text */
  size_t count;
  const struct app_journal_animal *animal; /* as many as the journal has names, in its order */
  struct diags diags, animal_diags;
};

/* 'journal': its text. Lines that are not understood are complained about and left out; nothing is lost. 'newest_days': 0
 * for all; else a first look at the newest so many (journal_known.newest_days), whose complaints are not all there are. */
void app_journal_read(const struct app_check_request *q, const struct app_input *journal, int newest_days,
                      struct app_journal_answer *out, struct arena *arena);

enum { ENTRY_OFFERS_MOST = 8, FACTS_MOST = 2000 };

struct app_entry_offer {
  const char *write;  /* the whole line with it */
  const char *label;  /* what is offered */
  const char *detail; /* "as on 2026-11-16", the record's name; "" */
};

/* A line for the journal while it is written: "Juniper ate 430 g Week", "yesterday Pim weighs 4.6 kg". */
struct app_entry_answer {
  const char *line; /* as it would be added, with its day; NULL: not understood yet */
  struct app_entry_offer offer[ENTRY_OFFERS_MOST];
  size_t offers;
  struct diags diags, animal_diags; /* about the line alone, among what the journal holds already */
};

void app_entry(const struct library *lib, const struct app_check_request *q, const struct app_journal *journal,
               struct span line, struct app_entry_answer *out, struct arena *arena);

/* The line with its day before it: its own, that of "yesterday" or "today", else today's. */
const char *app_entry_line(struct span line, long today, struct arena *arena);

#endif
