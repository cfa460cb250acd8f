/* errors_page.h: docs/method/estimates.md, from the patterns that a finished build holds. */
#ifndef BW_LIBRARY_ERRORS_PAGE_H
#define BW_LIBRARY_ERRORS_PAGE_H

#include "library/writer.h"

/* Ends the program with a message when the page cannot be written. */
void errors_page(const struct writer *w, const char *path);

#endif
