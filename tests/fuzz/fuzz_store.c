/* fuzz_store.c: any bytes as the store's file. It is refused and left as it is, byte for byte; or it is opened, every answer
 * keeps the rules, and a text that is saved in it is found again. */
#define _DEFAULT_SOURCE
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fuzz_library.h"
#include "store/store.h"

static char folder[64], path[96];

static void clean_up(void) {
  static const char *const END[] = {"", "-wal", "-shm", "-journal"};
  char name[128];
  for (size_t i = 0; i < COUNT_OF(END); i++) {
    snprintf(name, sizeof name, "%s%s", path, END[i]);
    unlink(name);
  }
}

static void remove_folder(void) {
  clean_up();
  rmdir(folder);
}

static void put_file(const uint8_t *data, size_t size) {
  if (!folder[0]) {
    struct stat st;
    bool shm = stat("/dev/shm", &st) == 0;
    snprintf(folder, sizeof folder, "%s/bowlwright-fuzz-XXXXXX", shm ? "/dev/shm" : "/tmp");
    if (!mkdtemp(folder)) exit(1);
    snprintf(path, sizeof path, "%s/texts.db", folder);
    atexit(remove_folder);
  }
  clean_up();
  int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (fd < 0 || write(fd, data, size) != (ssize_t)size) exit(1);
  close(fd);
}

static void is_untouched(const uint8_t *data, size_t size, struct arena *arena) {
  char *now = arena_alloc(arena, size + 1, 1);
  int fd = open(path, O_RDONLY);
  must(fd >= 0 && read(fd, now, size + 1) == (ssize_t)size && memcmp(now, data, size) == 0, "a refused file stays as it was",
       SPAN_LIT(""));
  close(fd);
}

static void rules(const struct store_list *l) {
  for (size_t i = 0; i < l->count; i++) {
    const struct store_text *t = &l->item[i];
    must(store_id_fits(t->id) && store_kind_known(t->kind) && store_saved_fits(t->saved) && store_body_fits(t->body) &&
             t->rev >= 1,
         "a text keeps the rules", t->body);
  }
}

static void use(struct store *s, struct arena *arena) {
  struct store_list l;
  struct store_bundle b;
  struct store_text t = {0}, theirs;
  struct store_change *change;
  const struct store_versions_wish wish = {0, true, 1000, SIZE_MAX};
  int64_t rev = 0, last = 0;
  size_t count = 0;
  bool found = false;
  if (store_list(s, false, &l, arena) == STORE_DONE) rules(&l);
  for (size_t i = 0; i < l.count && i < 4; i++) {
    struct store_list versions;
    if (store_versions(s, l.item[i].id, &wish, &versions, arena) == STORE_DONE) rules(&versions);
  }
  if (store_list(s, true, &l, arena) == STORE_DONE) rules(&l);
  if (store_export(s, true, SIZE_MAX, &b, arena) == STORE_DONE) rules(&b.texts);
  if (store_changes(s, 0, 1000, &change, &count, arena) != STORE_DONE) return;
  if (store_last_change(s, &last) != STORE_DONE) return;
  const struct store_save save = {SPAN_LIT("fuzz"),          SPAN_LIT("recipe"), SPAN_LIT("mine"), 0, true,
                                  "2026-11-02T09:30:00.123Z"};
  if (store_write(s, &save, &rev, &theirs, &found, arena) != STORE_DONE) return;
  must(store_read(s, SPAN_LIT("fuzz"), &t, &found, arena) == STORE_DONE && found && span_is(t.body, "mine") && t.rev == rev,
       "what is saved is there", SPAN_LIT(""));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct buf why;
  struct store *s = NULL;
  arena_init(&arena, NULL);
  buf_init(&why, &arena, 1 << 16);
  put_file(data, size);
  enum store_outcome outcome = store_open(path, &s, &why);
  must((outcome == STORE_DONE) == (s != NULL), "open or not", SPAN_LIT(""));
  if (s) {
    use(s, &arena);
    store_close(s);
  } else {
    must(why.n > 0, "a refusal has words", SPAN_LIT(""));
    is_untouched(data, size, &arena);
  }
  clean_up();
  arena_free(&arena);
  return 0;
}
