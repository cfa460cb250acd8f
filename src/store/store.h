/* store.h: texts in one SQLite file, with every state that each of them ever had.
 *
 * A text is known by its id. Each save makes a new state of it, counted by 'rev' from 1; no state is ever changed or thrown
 * away, not by a removal either. A save names the rev that it was made from and is refused when that is no longer the
 * newest: compare and swap within one transaction, so that nothing is overwritten unseen, by two threads or by two programs
 * on one file. A change that was answered with STORE_DONE is on the disk.
 *
 * One 'struct store' may be used by several threads; calls take turns. Spans in answers live in the caller's arena.
 *
 * Layer: store, above base only. Native only. */
#ifndef BW_STORE_H
#define BW_STORE_H

#include "base/buf.h"

enum {
  STORE_BODY_MOST = 4 * 1024 * 1024, /* bytes of one text */
  STORE_ID_MOST = 100,
  STORE_REV_MOST = 1000000000, /* of a state that is brought in from elsewhere */
  STORE_SAVED_BYTES = 25       /* "2026-11-02T09:30:00.123Z" and the NUL */
};

enum store_outcome {
  STORE_DONE,
  STORE_CONFLICT,  /* the named rev is not the newest; nothing was changed */
  STORE_NO_ROOM,   /* the disk is full or refuses to write; nothing was changed, later tries may succeed */
  STORE_BUSY,      /* another program held the file for too long; nothing was changed */
  STORE_DAMAGED,   /* the file is no whole store; it was left as it is */
  STORE_FOREIGN,   /* a database of another program; it was left as it is */
  STORE_NEWER,     /* made by a newer edition of this program; it was left as it is */
  STORE_MOVED,     /* the file was removed or moved while it was open: what is saved now would be found nowhere */
  STORE_EXISTS,    /* a file that would be written is there already */
  STORE_READ_ONLY, /* the file, or what it lies on, may only be read; nothing was changed */
  STORE_TROUBLE    /* the file cannot be opened, or the system failed */
};

struct store;

struct store_text {
  struct span id, kind, body, saved; /* saved: ISO 8601 in UTC */
  int64_t rev;
};
struct store_list {
  struct store_text *item;
  size_t count, cap;
  size_t damaged;          /* rows that cannot be read, or are not what was written; they are left alone */
  struct span *damaged_id; /* of the texts that they belong to, each once; no id: it cannot be read either */
  size_t damaged_ids, damaged_cap;
  bool more; /* there is more than was asked for */
};

/* ---- what is accepted ---- */
bool store_id_fits(struct span id);       /* [A-Za-z0-9-], 1 to STORE_ID_MOST */
bool store_kind_known(struct span kind);  /* recipe, animals, larder, foods, plan, journal */
bool store_body_fits(struct span body);   /* UTF-8 without NUL, up to STORE_BODY_MOST */
bool store_saved_fits(struct span saved); /* 2026-11-02T09:30:00Z, with or without a fraction of a second */
/* An entry of a bundle, with a rev from 1 to STORE_REV_MOST; the kind of a version may be empty. */
bool store_entry_fits(const struct store_text *t, bool version);
void store_now(char out[STORE_SAVED_BYTES]); /* the clock, in milliseconds */

/* ---- the file ---- */

/* Opens 'path', checks it, and makes it (with its folder, readable by its owner alone) when it is not there. On any outcome
 * but STORE_DONE *out is NULL, an existing file was left byte for byte as it was, and 'why' holds a sentence without a full
 * stop. A file that may only be read is opened for reading: every change then ends as STORE_READ_ONLY. On a full disk the
 * file is opened for this process alone: what is there can be read, and changes end as STORE_NO_ROOM until there is room. */
enum store_outcome store_open(const char *path, struct store **out, struct buf *why) MUST_USE;
void store_close(struct store *s); /* NULL is fine */
bool store_is_read_only(const struct store *s);
/* A whole, checked copy in a new file, while others may go on writing. STORE_EXISTS rather than write over a file. The name
 * 'to' is given when the copy is whole and on the disk; a run that is killed leaves a file 'to'.unfinished-* at most. */
enum store_outcome store_backup(struct store *s, const char *to, struct buf *why) MUST_USE;
/* SQLite's own words for the last failure; with several threads another call's may have come between. */
const char *store_reason(struct store *s, struct arena *arena);

/* ---- texts ---- */

/* All texts that are not removed, by id; 'removed': the ones that are, in their last state. */
enum store_outcome store_list(struct store *s, bool removed, struct store_list *out, struct arena *arena) MUST_USE;
/* *found is false when there is no such text, it is removed, or its newest state cannot be read. */
enum store_outcome store_read(struct store *s, struct span id, struct store_text *out, bool *found,
                              struct arena *arena) MUST_USE;

struct store_save {
  struct span id, kind, body;
  int64_t base;   /* the newest rev as the writer knows it; 0: there is none, or it was removed */
  bool keep;      /* the state that this one follows is worth showing as an earlier version */
  const char *at; /* now */
};
/* *rev is the new one. On STORE_CONFLICT 'theirs' is the newest state, with *found as in store_read. */
enum store_outcome store_write(struct store *s, const struct store_save *save, int64_t *rev, struct store_text *theirs,
                               bool *found, struct arena *arena) MUST_USE;
/* A text that is not there is removed already: STORE_DONE. Its states stay, and a write with base 0 brings it back. */
enum store_outcome store_remove(struct store *s, struct span id, int64_t base, struct store_text *theirs, bool *found,
                                struct arena *arena) MUST_USE;

struct store_versions_wish {
  int64_t before;    /* only revs below this one; 0: from the newest */
  bool every;        /* also the states that nobody marked as worth keeping */
  size_t most;       /* entries */
  size_t most_bytes; /* of their bodies; at least one entry is given */
};
/* States before the newest (of a removed text: the newest as well), newest first. */
enum store_outcome store_versions(struct store *s, struct span id, const struct store_versions_wish *wish,
                                  struct store_list *out, struct arena *arena) MUST_USE;

/* ---- one file out and in (bundle.c) ---- */

struct store_bundle {
  struct store_list texts, versions; /* versions of removed texts too; newest first within a text */
};
/* Versions are left out (versions.more) when all bodies together, and 256 bytes an entry for what stands around them, would
 * pass 'most_bytes'. */
enum store_outcome store_export(struct store *s, bool every, size_t most_bytes, struct store_bundle *out,
                                struct arena *arena) MUST_USE;
/* All or nothing. A text that is here already gets the versions of the bundle as new states on top of its own, those that it
 * has already excepted, and then the bundle's text, unless that is what it says: nothing is lost, and a second import right
 * after changes nothing. Of several texts with one id the last by rev is the text, the others are versions. A version's kind
 * may be empty: its text's. Versions of no known text and without a kind are passed over. */
enum store_outcome store_import(struct store *s, const struct store_bundle *in, struct arena *arena) MUST_USE;

/* ---- what changed ---- */

struct store_change {
  int64_t number; /* grows with every change of the whole store */
  struct span id;
  int64_t rev; /* 0: removed */
};
/* Number of the newest change, also by another program on the same file; 0 for an empty store. */
enum store_outcome store_last_change(struct store *s, int64_t *number) MUST_USE;
/* Texts that changed after 'number', each once, oldest first, up to 'most'. */
enum store_outcome store_changes(struct store *s, int64_t number, size_t most, struct store_change **out, size_t *count,
                                 struct arena *arena) MUST_USE;

#endif
