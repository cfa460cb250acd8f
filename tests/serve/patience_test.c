/* Clients that are slow, silent or many, on a server whose patience is counted in single seconds: each is seen off when its
 * time is over, none sooner, and others are answered all the while. That the usual times are those which docs/security.md
 * names is asked as well. Clients of several addresses stand on several addresses of the loopback network. */
#define _DEFAULT_SOURCE
#include <arpa/inet.h>
#include <errno.h>
#include <poll.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#include "serve/internal.h"

enum { FAR_SECONDS = 60 }; /* a machine that is ever so busy */
static const struct serve_patience SHORT = {.head = 2, .body = 4, .silence = 2};
static const char HALF_HEAD[] = "GET /api/texts HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n";
static const char HALF_BODY[] = "PUT /api/texts/a HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nContent-Length: 900\r\n\r\n{";

static struct {
  char folder[64], path[96];
  struct store *store;
  struct server *server;
  uint16_t port;
} t;

static void on_full(void) { abort(); }

static void start(const char *listen, struct serve_patience patience) {
  static const struct site_file INDEX = {"index.html", "\"1\"", (const unsigned char *)"<html><head></head></html>", 26};
  static const struct site SITE = {&INDEX, 1};
  struct arena arena;
  struct buf why;
  bool in_use = false;
  arena_init(&arena, on_full);
  buf_init(&why, &arena, 1024);
  snprintf(t.folder, sizeof t.folder, "/tmp/bowlwright-patience-XXXXXX");
  assert_non_null(mkdtemp(t.folder));
  snprintf(t.path, sizeof t.path, "%s/texts.db", t.folder);
  assert_int_equal(store_open(t.path, &t.store, &why), STORE_DONE);
  struct serve_setup setup = {.store = t.store, .site = &SITE, .listen = listen, .on_full = on_full, .patience = patience};
  assert_true(serve_start(&setup, &t.server, &in_use, &why));
  t.port = (uint16_t)atoi(strrchr(serve_address(t.server), ':') + 1);
  arena_free(&arena);
}

static void stop(void) {
  serve_stop(t.server);
  store_close(t.store);
  unlink(t.path);
  assert_int_equal(rmdir(t.folder), 0); /* nothing but the store was written */
}

/* ---- clients ---- */

static struct sockaddr_in place(const char *address, uint16_t port) {
  struct sockaddr_in a = {.sin_family = AF_INET, .sin_port = htons(port)};
  assert_int_equal(inet_pton(AF_INET, address, &a.sin_addr), 1);
  return a;
}

static int client(const char *from) {
  struct sockaddr_in own = place(from, 0), to = place("127.0.0.1", t.port);
  int fd = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  assert_true(fd >= 0);
  assert_int_equal(bind(fd, (struct sockaddr *)&own, sizeof own), 0);
  assert_int_equal(connect(fd, (struct sockaddr *)&to, sizeof to), 0);
  return fd;
}

/* False when it was seen off meanwhile. */
static bool say(int fd, const char *text) {
  char said[512];
  int n = snprintf(said, sizeof said, text, (int)t.port);
  return send(fd, said, (size_t)n, MSG_NOSIGNAL) == n;
}

/* Reads what is there, waiting up to so many milliseconds for the first of it. */
static bool is_seen_off(int fd, int milliseconds) {
  char bytes[4096];
  struct pollfd p = {.fd = fd, .events = POLLIN};
  while (poll(&p, 1, milliseconds) > 0) {
    ssize_t n = recv(fd, bytes, sizeof bytes, 0);
    if (n <= 0) return true;
  }
  return false;
}

static double seconds(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

/* The status of an honest question; 0: no answer. */
static int ask(const char *from) {
  char got[64] = "";
  int fd = client(from), status = 0;
  struct pollfd p = {.fd = fd, .events = POLLIN};
  if (say(fd, "GET /api/token HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nConnection: close\r\n\r\n") &&
      poll(&p, 1, FAR_SECONDS * 1000) > 0 && recv(fd, got, sizeof got - 1, MSG_WAITALL) > 12)
    status = atoi(got + 9);
  close(fd);
  return status;
}

/* ---- tests ---- */

static void the_usual_times(void **state) {
  (void)state;
  start(NULL, (struct serve_patience){0, 0, 0});
  assert_int_equal(t.server->setup.patience.head, 10);
  assert_int_equal(t.server->setup.patience.body, 120);
  assert_int_equal(t.server->setup.patience.silence, 30);
  assert_int_equal(t.server->waiting.head, 10);
  assert_int_equal(t.server->waiting.body, 120);
  stop();
}

static void the_silent_are_seen_off(void **state) {
  (void)state;
  start(NULL, SHORT);
  double began = seconds();
  int fd[4] = {client("127.0.0.1"), client("127.0.0.1"), client("127.0.0.1"), client("127.0.0.1")};
  assert_true(say(fd[1], HALF_HEAD));
  assert_true(say(fd[2], HALF_BODY));
  assert_true(say(fd[3], "GET /api/token HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n\r\n")); /* and then nothing more */
  for (size_t i = 0; i < COUNT_OF(fd); i++) {
    assert_true(is_seen_off(fd[i], FAR_SECONDS * 1000));
    assert_true(seconds() - began > 1.0); /* two seconds of a clock that counts whole ones */
    close(fd[i]);
  }
  assert_int_equal(ask("127.0.0.1"), 200);
  stop();
}

/* Sends a letter now and then until it is seen off. */
static double dripped(const char *beginning) {
  int fd = client("127.0.0.1");
  double began = seconds();
  assert_true(say(fd, beginning));
  while (!is_seen_off(fd, 100) && say(fd, "x")) assert_true(seconds() - began < FAR_SECONDS);
  close(fd);
  return seconds() - began;
}

static void who_drips_has_its_time_in_all(void **state) {
  (void)state;
  start(NULL, (struct serve_patience){.head = 1, .body = 2, .silence = FAR_SECONDS * 2});
  dripped("GET / HTTP/1.1\r\nX-Slow: ");
  assert_true(dripped(HALF_BODY) > 1.0);
  assert_int_equal(ask("127.0.0.1"), 200);
  stop();
}

/* More of them than there are places. */
static void the_slow_hold_no_place(void **state) {
  (void)state;
  enum { SLOW = 130 };
  int fd[SLOW], left = SLOW;
  start(NULL, (struct serve_patience){.head = 2, .body = 4, .silence = FAR_SECONDS * 2});
  double began = seconds();
  for (int i = 0; i < SLOW; i++) {
    fd[i] = client("127.0.0.1");
    say(fd[i], HALF_HEAD);
    say(fd[i], "X-Slow: ");
  }
  while (left > 0) {
    for (int i = 0; i < SLOW; i++)
      if (fd[i] >= 0 && (is_seen_off(fd[i], 0) || !say(fd[i], "z"))) {
        close(fd[i]);
        fd[i] = -1;
        left--;
      }
    assert_int_equal(ask("127.0.0.1"), 200);
    assert_true(seconds() - began < FAR_SECONDS);
    usleep(50000);
  }
  stop();
}

/* Hundreds that say nothing, from an address that is not the one of who asks: each has a minute, and holds a place that
 * others do not need. 'listen' beyond this machine: one address has 50 places. */
static void a_silent_crowd(const char *listen) {
  enum { CROWD = 400 };
  static int fd[CROWD];
  start(listen, (struct serve_patience){.head = FAR_SECONDS, .body = FAR_SECONDS, .silence = FAR_SECONDS});
  for (int i = 0; i < CROWD; i++) {
    fd[i] = client("127.0.0.2");
    if (i % 20 == 19) assert_int_equal(ask("127.0.0.3"), 200);
  }
  int open = 0;
  for (int i = 0; i < CROWD; i++) {
    open += !is_seen_off(fd[i], i == 0 ? 2000 : 0);
    close(fd[i]);
  }
  assert_in_range(open, 1, strcmp(listen, "127.0.0.1") == 0 ? CONNECTIONS_MOST : CONNECTIONS_FROM_ONE);
  assert_int_equal(ask("127.0.0.3"), 200);
  stop();
}

static void a_silent_crowd_on_this_machine(void **state) {
  (void)state;
  a_silent_crowd("127.0.0.1");
}

static void a_silent_crowd_from_elsewhere(void **state) {
  (void)state;
  a_silent_crowd("0.0.0.0");
}

/* Each of them waits, and hardly works: all wait at once, each in a process with a server and a store of its own. */
int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_usual_times),
      cmocka_unit_test(the_silent_are_seen_off),
      cmocka_unit_test(who_drips_has_its_time_in_all),
      cmocka_unit_test(the_slow_hold_no_place),
      cmocka_unit_test(a_silent_crowd_on_this_machine),
      cmocka_unit_test(a_silent_crowd_from_elsewhere),
  };
  int failed = 0;
  for (size_t i = 0; i < COUNT_OF(tests); i++) {
    pid_t child = fork();
    if (child < 0) return 1;
    if (child > 0) continue;
    const struct CMUnitTest one[] = {tests[i]};
    return cmocka_run_group_tests_name(tests[i].name, one, NULL, NULL);
  }
  for (size_t i = 0; i < COUNT_OF(tests); i++) {
    int how = 0;
    failed += wait(&how) < 0 || !WIFEXITED(how) || WEXITSTATUS(how) != 0;
  }
  return failed;
}
