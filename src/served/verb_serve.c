/* bowlwright serve: the page in a browser on this machine, with its texts in one file; and a copy of that file. */
#define _POSIX_C_SOURCE 200809L
#include <signal.h>
#include <spawn.h>
#include <stdlib.h>

#include "cli/run.h"
#include "serve/server.h"
#include "served/journal_store.h"

enum { PORT = 8427, PATH_MOST = 4096, WHY_MOST = 4096 };
static const char LOOPBACK[] = "127.0.0.1";
extern char **environ;

/* ---- the store ---- */

static const char *usual_store(const struct run *s) {
  const char *data = getenv("XDG_DATA_HOME"), *home = getenv("HOME");
  struct buf path;
  buf_init(&path, s->arena, PATH_MOST);
  if (data && data[0] == '/') {
    buf_addf(&path, "%s/bowlwright/bowlwright.db", data);
  } else if (home && home[0]) {
    buf_addf(&path, "%s/.local/share/bowlwright/bowlwright.db", home);
  } else {
    complain("there is no home folder to keep texts in; name a file with --store FILE");
    return NULL;
  }
  return buf_text(&path);
}

static int open_store(const struct run *s, const char *path, struct store **out) {
  struct buf why;
  buf_init(&why, s->arena, WHY_MOST);
  if (store_open(path, out, &why) == STORE_DONE) return EXIT_COMPUTED;
  complain("the store '%s' is not used: %s", path, buf_text(&why));
  return EXIT_TROUBLE;
}

static int back_up(const struct run *s, const char *path, const char *to) {
  struct store *store = NULL;
  struct buf why, out;
  if (!file_exists(path)) {
    complain("there is no store '%s' to copy", path);
    return EXIT_TROUBLE;
  }
  int code = open_store(s, path, &store);
  if (code != EXIT_COMPUTED) return code;
  buf_init(&why, s->arena, WHY_MOST);
  enum store_outcome outcome = store_backup(store, to, &why);
  store_close(store);
  if (outcome != STORE_DONE) {
    complain("'%s' was not written: %s", to, buf_text(&why));
    return EXIT_TROUBLE;
  }
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  buf_addf(&out, "%s holds a whole, checked copy of %s\n", to, path);
  return write_answer(&out);
}

/* ---- the page ---- */

static int find_page(const struct run *s, struct site *folder, const struct site **out) {
  struct buf why;
  buf_init(&why, s->arena, WHY_MOST);
  if (s->options->page) {
    if (!site_read_folder(s->options->page, folder, &why, s->arena)) {
      complain("%s", buf_text(&why));
      return EXIT_TROUBLE;
    }
    *out = folder;
    return EXIT_COMPUTED;
  }
  *out = &site_built_in;
  if (site_built_in.count > 0) return EXIT_COMPUTED;
  complain("this build has no page in it; 'make serve' builds one, and starts it");
  return EXIT_TROUBLE;
}

/* ---- listening ---- */

static int check_address(const struct run *s) {
  const char *listen = s->options->listen;
  if (!listen) return EXIT_COMPUTED;
  if (!serve_is_address(listen)) {
    complain("--listen takes an address in figures such as 127.0.0.1 or ::1, not '%s'", listen);
    return EXIT_USAGE;
  }
  if (serve_is_loopback(listen)) return EXIT_COMPUTED;
  if (!s->options->beyond) {
    complain("--listen %s would let everybody who can reach this machine read and change the texts; if that is meant, say "
             "--yes-beyond-this-machine as well",
             listen);
    return EXIT_USAGE;
  }
  complain("warning: everybody who can reach this machine at %s can read and change the texts; nothing is encrypted",
           listen);
  return EXIT_COMPUTED;
}

static int cannot_listen(const struct serve_setup *setup, bool in_use, const char *why) {
  const char *at = setup->listen ? setup->listen : LOOPBACK;
  if (in_use) {
    complain("port %d of %s is in use, perhaps by this program itself: look in a browser, or take another port, such as "
             "--port %d (--port 0: any that is free)",
             setup->port, at, setup->port < 65535 ? setup->port + 1 : setup->port - 1);
  } else {
    complain("cannot listen at %s, port %d: %s", at, setup->port, why);
  }
  return EXIT_TROUBLE;
}

/* Best effort: the address was printed. */
static void show_in_browser(const char *address, const sigset_t *usual) {
  char program[] = "xdg-open";
  char *url = strdup(address);
  char *argv[] = {program, url, NULL};
  posix_spawnattr_t how;
  pid_t child;
  if (!url) return;
  posix_spawnattr_init(&how);
  posix_spawnattr_setsigmask(&how, usual);
  posix_spawnattr_setflags(&how, POSIX_SPAWN_SETSIGMASK);
  if (posix_spawnp(&child, program, NULL, &how, argv, environ) != 0)
    complain("no browser could be opened: open %s", address);
  posix_spawnattr_destroy(&how);
  free(url);
}

/* Blocks the signals that end a run, for this thread and those to come. */
static sigset_t hold_signals(sigset_t *usual) {
  sigset_t ending;
  sigemptyset(&ending);
  sigaddset(&ending, SIGINT);
  sigaddset(&ending, SIGTERM);
  sigaddset(&ending, SIGHUP);
  pthread_sigmask(SIG_BLOCK, &ending, usual);
  return ending;
}

static int listen_until_stopped(const struct run *s, const struct serve_setup *setup, const char *path) {
  struct server *server = NULL;
  struct buf why, out;
  sigset_t usual;
  bool in_use = false;
  int signal_number = 0;
  buf_init(&why, s->arena, WHY_MOST);
  const sigset_t ending = hold_signals(&usual);
  if (!serve_start(setup, &server, &in_use, &why)) return cannot_listen(setup, in_use, buf_text(&why));
  note(s,
       store_is_read_only(setup->store) ? "texts in %s can be read, not changed; Ctrl-C stops"
                                        : "texts are kept in %s; Ctrl-C stops",
       path);
  buf_init(&out, s->arena, WHY_MOST);
  buf_addf(&out, "%s\n", serve_address(server));
  int code = write_answer(&out);
  if (code == EXIT_COMPUTED) {
    if (s->options->open) show_in_browser(serve_address(server), &usual);
    sigwait(&ending, &signal_number);
  }
  serve_stop(server);
  return code;
}

int verb_serve(struct run *s) {
  const struct options *o = s->options;
  const char *path = o->store ? o->store : usual_store(s);
  struct serve_setup setup = {.listen = o->listen, .port = (uint16_t)PORT, .on_full = out_of_memory};
  struct site folder;
  /* A file that may not grow is an error of write, not the end of the process. */
  signal(SIGXFSZ, SIG_IGN);
  if (!path) return EXIT_TROUBLE;
  if (o->backup) return back_up(s, path, o->backup);
  if (o->port >= 0) setup.port = (uint16_t)o->port;
  int code = check_address(s);
  if (code == EXIT_COMPUTED) code = find_page(s, &folder, &setup.site);
  if (code == EXIT_COMPUTED) code = open_store(s, path, &setup.store);
  if (code == EXIT_COMPUTED) code = journal_as_text(s, setup.store);
  if (code == EXIT_COMPUTED) code = listen_until_stopped(s, &setup, path);
  store_close(setup.store);
  return code;
}
