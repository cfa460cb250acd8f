/* wire.h: the JSON of the page's store, read and written (docs/internals/page-storage.md).
 *
 * Layer: serve. Reading is jansson's; what is read must be valid UTF-8 without NUL and without a key twice. */
#ifndef BW_SERVE_WIRE_H
#define BW_SERVE_WIRE_H

#include "store/store.h"

enum wire_fault {
  WIRE_FINE,
  WIRE_NO_JSON, /* or UTF-8 that is none */
  WIRE_SHAPE,   /* JSON, but not what belongs here */
  WIRE_TOO_LONG /* a body above STORE_BODY_MOST */
};
const char *wire_fault_text(enum wire_fault f);

struct wire_put {
  struct span kind, body;
  bool keep;
};
/* {"kind", "body", "keep"}; 'keep' may be missing: false. Other keys are passed over. */
enum wire_fault wire_read_put(struct span json, struct wire_put *out, struct arena *arena) MUST_USE;
/* The export file. Entries that do not fit are passed over and counted in *ignored; it is WIRE_SHAPE when nothing is left.
 */
enum wire_fault wire_read_bundle(struct span json, struct store_bundle *out, size_t *ignored, struct arena *arena) MUST_USE;

/* {"id", "kind", "body", "rev", "saved"} */
void wire_text(struct buf *b, const struct store_text *t);
/* [...], entries as in wire_text(). */
void wire_list(struct buf *b, const struct store_list *l);
/* The ids of the texts that have damaged states. */
void wire_ids(struct buf *b, const struct store_list *l);
void wire_bundle(struct buf *b, const struct store_bundle *bundle);

#endif
