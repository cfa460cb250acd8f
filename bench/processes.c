/* processes.c: wall time and peak memory of two commands, run in turns.
 *
 * Usage: bench_processes RUNS COMMAND [ARG]... -- COMMAND [ARG]...   Prints, one line a command: median milliseconds, peak
 * kilobytes. A small program of its own, because the peak of a child counts from its parent's size until the exec. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { RUNS_MOST = 1000 };

static double now_ms(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

static double run(char **command, long *peak_kb) {
  double start = now_ms();
  pid_t child = fork();
  if (child == 0) {
    int nowhere = open("/dev/null", O_WRONLY);
    dup2(nowhere, 1);
    dup2(nowhere, 2);
    execv(command[0], command);
    _exit(127);
  }
  int status;
  struct rusage used;
  if (child < 0 || wait4(child, &status, 0, &used) != child || status != 0) {
    fprintf(stderr, "failed: %s\n", command[0]);
    exit(1);
  }
  if (used.ru_maxrss > *peak_kb) *peak_kb = used.ru_maxrss;
  return now_ms() - start;
}

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

int main(int argc, char **argv) {
  static double took[2][RUNS_MOST];
  long peak[2] = {0, 0};
  int split = 2;
  while (split < argc && strcmp(argv[split], "--") != 0) split++;
  int runs = argc > 1 ? atoi(argv[1]) : 0;
  if (runs < 1 || runs > RUNS_MOST || split == 2 || split + 1 >= argc) return 2;
  argv[split] = NULL;
  char **command[2] = {argv + 2, argv + split + 1};
  for (int r = 0; r < runs; r++)
    for (int k = 0; k < 2; k++) took[k][r] = run(command[k], &peak[k]);
  for (int k = 0; k < 2; k++) {
    qsort(took[k], (size_t)runs, sizeof took[k][0], by_size);
    printf("%.4f %ld\n", took[k][runs / 2], peak[k]);
  }
  return 0;
}
