/* A program that was built without the page. One with the page has a file of its own for this (tools/embed-site.cmake), and
 * the linker then leaves this one in its library. */
#include "serve/site.h"

const struct site site_built_in = {NULL, 0};
