/* The words of a text: split up and classed once, for a dozen readers that ask for the same sentence. */
#include "post/hear/post_hear.h"

enum {
  SPLIT_SLOTS = 512,
  SPLIT_MOST_TOKENS = 6000, /* kept at a time */
  SPLIT_MOST_BYTES = 4096   /* of one text: nobody asks often for a longer one */
};

struct split {
  const char *text; /* a copy, which the tokens point into; NULL none */
  size_t n;
  struct tokens t; /* none of them taken */
};

struct splits {
  struct arena arena;
  struct split slot[SPLIT_SLOTS];
  size_t tokens;
  struct known_words words;
};

struct splits *post_splits(struct arena *arena) {
  struct splits *s = ARENA_NEW(arena, struct splits, 1);
  arena_init(&s->arena, arena->on_full);
  return s;
}

void post_splits_free(struct splits *s) { arena_free(&s->arena); }

static size_t slot_of(struct span text) {
  uint64_t hash = text.n, eight;
  size_t i = 0;
  for (; i + sizeof eight <= text.n; i += sizeof eight) {
    memcpy(&eight, text.p + i, sizeof eight);
    hash = (hash ^ eight) * 0x9E3779B97F4A7C15U;
    hash ^= hash >> 29;
  }
  for (; i < text.n; i++) hash = (hash ^ (uint8_t)text.p[i]) * 0x9E3779B97F4A7C15U;
  return (size_t)(hash >> 40) % SPLIT_SLOTS;
}

/* Not while a sentence is read: its tokens have their words from here. */
void post_splits_make_room(struct splits *s) {
  if (s->tokens < SPLIT_MOST_TOKENS) return;
  arena_free(&s->arena);
  memset(s->slot, 0, sizeof s->slot);
  s->tokens = 0;
}

static void split_up(struct splits *s, struct split *slot, struct span text) {
  struct span own = arena_span(&s->arena, text);
  *slot = (struct split){own.p, own.n, tokens_of(own, &s->arena)};
  for (size_t i = 0; i < slot->t.count; i++) {
    token_know(&slot->t.item[i], &s->words);
    frequency_know(&slot->t.item[i]);
  }
  s->tokens += slot->t.count;
}

static struct tokens tokens_in(const struct post_reader *r, struct span text, struct arena *arena) {
  struct split *slot = &r->splits->slot[slot_of(text)];
  if (text.n == 0 || text.n > SPLIT_MOST_BYTES) return tokens_of(text, arena);
  if (slot->n != text.n || memcmp(slot->text, text.p, text.n) != 0) {
    if (r->splits->tokens >= SPLIT_MOST_TOKENS) return tokens_of(text, arena);
    split_up(r->splits, slot, text);
  }
  struct tokens t = {arena_raw(arena, slot->t.count, sizeof *t.item), slot->t.count};
  for (size_t i = 0; i < t.count; i++) {
    t.item[i] = slot->t.item[i];
    t.item[i].at.p = text.p + (slot->t.item[i].at.p - slot->text);
  }
  return t;
}

struct tokens post_tokens(const struct post_reader *r, struct span text) {
  return tokens_in(r, text, r->arena);
}

struct tokens post_tokens_kept(const struct post_reader *r, struct span text) {
  return tokens_in(r, text, r->keep);
}
