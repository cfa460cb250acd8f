/* Workers, and what comes back from them. */
#define _XOPEN_SOURCE 700
#define _DEFAULT_SOURCE
#include "cli/many.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "judge/memory.h"
#include "report/many.h"

enum { WORKERS_MOST = 64, NOTE_BYTES = 300, POLL_MS = 100, LAST_POLL_MS = 1 };
#define NOTHING SIZE_MAX

/* What one worker says of one text, in one write: shorter than PIPE_BUF, so that pieces of two never mix. */
struct message {
  size_t at;
  int code;
  struct tally tally;
  char note[NOTE_BYTES];
};
static_assert(sizeof(struct message) <= 4096, "a message passes the pipe in one piece"); /* PIPE_BUF of Linux */

/* Seen by all processes. */
struct board {
  atomic_size_t next;
  atomic_size_t now[WORKERS_MOST]; /* the text that a worker has in hand */
};

struct crew {
  struct run *s;
  struct folder in;
  const char *out; /* NULL: no answers are kept */
  const char *ending;
  struct board *board;
  int pipe[2];
  pid_t worker[WORKERS_MOST];
  int workers;
  struct many_file *file;
  size_t done;
};

static volatile sig_atomic_t stopped;

static void on_stop(int number) {
  (void)number;
  stopped = 1;
}

/* ---- in a worker ---- */

static const char *part_name(const struct crew *c, long worker, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 64);
  buf_addf(&b, ".answer-%ld.part", worker);
  return in_folder(c->out, buf_text(&b), arena);
}

static const char *answer_name(const struct crew *c, const char *name, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, strlen(name) + 32);
  buf_addf(&b, "%s%s", name, c->ending);
  return buf_text(&b);
}

/* The first line of what was complained of, without the program's name. */
static void read_note(int fd, char *note) {
  static const char NAME[] = "bowlwright: ";
  char text[NOTE_BYTES + sizeof NAME];
  ssize_t n = pread(fd, text, sizeof text - 1, 0);
  text[n > 0 ? n : 0] = '\0';
  const char *from = strncmp(text, NAME, sizeof NAME - 1) == 0 ? text + sizeof NAME - 1 : text;
  size_t len = strcspn(from, "\n");
  if (len >= NOTE_BYTES) len = NOTE_BYTES - 1;
  while (len > 0 && ((unsigned char)from[len] & 0xC0) == 0x80) len--; /* no half character */
  memcpy(note, from, len);
  note[len] = '\0';
}

/* An answer is kept when there is one: computed, short or over, or refused with what may be said. */
static bool is_answer(int code) { return code == EXIT_COMPUTED || code == EXIT_SHORT_OR_OVER || code == EXIT_REFUSED; }

static int keep_answer(const struct crew *c, int fd, const char *part, struct message *m, struct arena *arena) {
  const char *name = answer_name(c, c->in.name[m->at], arena);
  int error = close(fd) == 0 ? 0 : errno;
  if (error == 0 && is_answer(m->code) && rename(part, in_folder(c->out, name, arena)) == 0) return m->code;
  if (error == 0 && is_answer(m->code)) error = errno;
  unlink(part);
  if (error != 0 && is_answer(m->code)) {
    snprintf(m->note, sizeof m->note, "the answer could not be written: %s", strerror(error));
    return EXIT_TROUBLE;
  }
  return m->code;
}

/* The verb's own answer to one text; standard output and error are this text's own. */
static void answer_one(const struct crew *c, long worker, int complaints, struct message *m) {
  struct arena arena;
  arena_init(&arena, out_of_memory);
  const char *path = in_folder(c->in.path, c->in.name[m->at], &arena),
             *part = c->out ? part_name(c, worker, &arena) : "/dev/null";
  int fd = open(part, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (ftruncate(complaints, 0) != 0 || lseek(complaints, 0, SEEK_SET) != 0) m->note[0] = '\0';
  if (fd < 0 || dup2(fd, STDOUT_FILENO) < 0) {
    snprintf(m->note, sizeof m->note, "the answer could not be written: %s", strerror(errno));
    m->code = EXIT_TROUBLE;
  } else {
    struct options o = *c->s->options;
    struct run one = *c->s;
    o.operand = (struct text_list){.item = &path, .count = 1, .cap = 1};
    o.out = NULL;
    o.quiet = true;
    one.options = &o;
    one.arena = &arena;
    one.tally = &m->tally;
    one.unread = !c->out;
    m->code = c->s->verb->run(&one);
    read_note(complaints, m->note);
  }
  if (c->out && fd >= 0)
    m->code = keep_answer(c, fd, part, m, &arena);
  else if (fd >= 0)
    close(fd);
  arena_free(&arena);
}

static void send_message(int fd, const struct message *m) {
  ssize_t n;
  do n = write(fd, m, sizeof *m);
  while (n < 0 && errno == EINTR);
  if (n != (ssize_t)sizeof *m) _exit(EXIT_TROUBLE); /* nobody listens */
}

NO_RETURN static void work(const struct crew *c, int place) {
  FILE *complaints = tmpfile();
  if (!complaints || dup2(fileno(complaints), STDERR_FILENO) < 0) _exit(EXIT_TROUBLE);
  long worker = (long)getpid();
  struct arena kept;
  arena_init(&kept, out_of_memory);
  c->s->lib.judged = judge_memory_new(&kept);
  for (size_t at; (at = atomic_fetch_add(&c->board->next, 1)) < c->in.count;) {
    struct message m = {.at = at};
    atomic_store(&c->board->now[place], at);
    answer_one(c, worker, fileno(complaints), &m);
    send_message(c->pipe[1], &m);
    atomic_store(&c->board->now[place], NOTHING);
  }
  _exit(EXIT_COMPUTED);
}

/* ---- at home ---- */

static bool start_worker(struct crew *c, int place) {
  sigset_t stops, before;
  sigemptyset(&stops);
  sigaddset(&stops, SIGTERM);
  sigaddset(&stops, SIGINT);
  atomic_store(&c->board->now[place], NOTHING);
  sigprocmask(SIG_BLOCK, &stops,
              &before); /* a worker sent home at once must not take the word for one of ours and work on */
  pid_t pid = fork();
  if (pid == 0) {
    signal(SIGTERM, SIG_DFL);
    signal(SIGINT, SIG_IGN);
    sigprocmask(SIG_SETMASK, &before, NULL);
    work(c, place);
  }
  sigprocmask(SIG_SETMASK, &before, NULL);
  c->worker[place] = pid > 0 ? pid : 0;
  if (pid < 0) complain("no worker could be started: %s", strerror(errno));
  return pid > 0;
}

static void take_message(struct crew *c, const struct message *m) {
  struct many_file *f = &c->file[m->at];
  if (f->code < 0) c->done++;
  f->code = m->code;
  f->tally = m->tally;
  f->note = arena_text(c->s->arena, span_of(m->note));
  f->written = c->out && is_answer(m->code) ? answer_name(c, f->name, c->s->arena) : "";
}

/* 'wait': for the first message, so many milliseconds at most. */
static void take_messages(struct crew *c, int wait) {
  struct pollfd p = {.fd = c->pipe[0], .events = POLLIN};
  while (poll(&p, 1, wait) > 0 && (p.revents & POLLIN)) {
    struct message m;
    if (read(c->pipe[0], &m, sizeof m) != (ssize_t)sizeof m || m.at >= c->in.count) return;
    take_message(c, &m);
    wait = 0;
  }
}

static void remove_part(const struct crew *c, pid_t pid) {
  if (c->out) unlink(part_name(c, (long)pid, c->s->arena));
}

/* A worker that died: its text is told, the others go on. */
static void look_after(struct crew *c) {
  for (int i = 0; i < c->workers; i++) {
    int how;
    if (c->worker[i] <= 0 || waitpid(c->worker[i], &how, WNOHANG) != c->worker[i]) continue;
    pid_t pid = c->worker[i];
    c->worker[i] = 0;
    if (WIFEXITED(how) && WEXITSTATUS(how) == EXIT_COMPUTED) continue;
    remove_part(c, pid);
    take_messages(c, 0); /* what it said before */
    size_t had = atomic_load(&c->board->now[i]);
    if (had < c->in.count && c->file[had].code < 0) {
      struct message m = {.at = had, .code = EXIT_TROUBLE};
      snprintf(m.note, sizeof m.note, "the program failed on this text%s",
               WIFSIGNALED(how) ? ", not on the others" : ": out of memory, or a folder that went away");
      take_message(c, &m);
    }
    if (!stopped && had != NOTHING) start_worker(c, i);
  }
}

static bool any_at_work(const struct crew *c) {
  for (int i = 0; i < c->workers; i++)
    if (c->worker[i] > 0) return true;
  return false;
}

static void send_home(struct crew *c) {
  for (int i = 0; i < c->workers; i++) {
    if (c->worker[i] <= 0) continue;
    kill(c->worker[i], SIGTERM);
    while (waitpid(c->worker[i], NULL, 0) < 0 && errno == EINTR) continue;
    remove_part(c, c->worker[i]);
    c->worker[i] = 0;
  }
}

static int cores(const struct run *s) {
  long n = s->options->jobs > 0 ? s->options->jobs : sysconf(_SC_NPROCESSORS_ONLN);
  return n < 1 ? 1 : n > WORKERS_MOST ? WORKERS_MOST : (int)n;
}

static int work_through(struct crew *c) {
  struct sigaction on = {.sa_handler = on_stop}, int_before, term_before;
  struct bar bar;
  sigemptyset(&on.sa_mask);
  c->board = mmap(NULL, sizeof *c->board, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  if (c->board == MAP_FAILED || pipe(c->pipe) != 0) {
    complain("no workers could be started: %s", strerror(errno));
    return EXIT_TROUBLE;
  }
  atomic_init(&c->board->next, 0);
  c->workers = cores(c->s);
  if ((size_t)c->workers > c->in.count) c->workers = (int)c->in.count;
  sigaction(SIGINT, &on, &int_before);
  sigaction(SIGTERM, &on, &term_before);
  bar_start(&bar, c->s, c->s->verb->word);
  bool any = false;
  for (int i = 0; i < c->workers; i++) any = start_worker(c, i) || any;
  while (!stopped && any_at_work(c)) {
    take_messages(c, c->done < c->in.count ? POLL_MS : LAST_POLL_MS); /* the workers are about to go home */
    look_after(c);
    bar_move(&bar, c->done, c->in.count);
  }
  send_home(c);
  take_messages(c, 0);
  bar_end(&bar);
  sigaction(SIGINT, &int_before, NULL);
  sigaction(SIGTERM, &term_before, NULL);
  close(c->pipe[0]);
  close(c->pipe[1]);
  munmap(c->board, sizeof *c->board);
  return any ? EXIT_COMPUTED : EXIT_TROUBLE;
}

/* ---- the summary ---- */

static void draw_summary(const struct run *s, const struct many *m, bool json, struct buf *out) {
  if (json) {
    json_many(&s->lib, m, out);
    buf_addc(out, '\n');
  } else {
    report_many(m, &s->style, out);
  }
}

static int write_summaries(const struct run *s, const char *folder, const struct many *m) {
  static const char *const NAMES[] = {"summary.txt", "summary.json", "summary.svg"};
  int worst = EXIT_COMPUTED;
  for (size_t i = 0; i < COUNT_OF(NAMES); i++) {
    struct buf out;
    struct run plain = *s;
    plain.style.colour = false;
    buf_init(&out, s->arena, ANSWER_MOST_BYTES);
    if (i < 2)
      draw_summary(&plain, m, i == 1, &out);
    else
      report_many_svg(m, &out);
    worst = worse_code(worst, folder_write(folder, NAMES[i], &out, s->arena));
  }
  return worst;
}

static int sum_up(const struct crew *c) {
  struct many m = {.file = c->file, .count = c->in.count, .other = c->in.other};
  struct buf out;
  int worst = EXIT_COMPUTED;
  many_count(&m);
  for (size_t i = 0; i < m.count; i++)
    if (m.file[i].code >= 0) worst = worse_code(worst, m.file[i].code);
  buf_init(&out, c->s->arena, ANSWER_MOST_BYTES);
  draw_summary(c->s, &m, c->s->options->json, &out);
  worst = worse_code(worst, write_answer(&out));
  if (c->out) worst = worse_code(worst, write_summaries(c->s, c->out, &m));
  if (!stopped) return worst;
  complain("stopped: %zu of %zu texts were answered", m.reached, m.count);
  return EXIT_TROUBLE;
}

bool many_is_asked(const struct run *s) {
  const struct options *o = s->options;
  return verb_of_many[o->verb].ending && o->operand.count == 1 && is_folder(o->operand.item[0]);
}

int many_run(struct run *s) {
  const struct options *o = s->options;
  struct crew c = {.s = s, .out = o->out, .ending = verb_of_many[o->verb].ending(o)};
  if (o->svg) {
    complain("--svg draws one recipe, and '%s' is a folder; its summary is drawn in summary.svg with --out",
             o->operand.item[0]);
    return EXIT_USAGE;
  }
  int code = folder_read(o->operand.item[0], &c.in, s->arena);
  if (code == EXIT_COMPUTED && c.in.count == 0) {
    complain("'%s' is a folder without a text; recipes and posts are files that end in .recipe, .txt, .post or .md",
             c.in.path);
    code = EXIT_TROUBLE;
  }
  if (code == EXIT_COMPUTED && !c.out && verb_of_many[o->verb].keeps_answers) {
    complain("'%s' of a folder needs a folder for the answers: --out FOLDER", s->verb->word);
    code = EXIT_USAGE;
  }
  if (code == EXIT_COMPUTED && c.out) code = folder_for_answers(c.out, c.in.path, s->arena);
  if (code != EXIT_COMPUTED) return code;
  c.file = ARENA_NEW(s->arena, struct many_file, c.in.count);
  for (size_t i = 0; i < c.in.count; i++)
    c.file[i] = (struct many_file){.name = c.in.name[i], .code = -1, .note = "", .written = ""};
  code = work_through(&c);
  return code == EXIT_COMPUTED ? sum_up(&c) : code;
}
