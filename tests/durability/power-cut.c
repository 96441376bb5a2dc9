/*
 * Keeps beside a folder what of it is certainly on the disk: a copy of each file as it was when it was last synced.
 * Loaded into the host (LD_PRELOAD), so that after a kill the copy is what a cut of the power would have left: writes that
 * nobody synced are not in it. Names (creating, renaming, removing) count as on the disk at once.
 *
 * POWER_CUT_WATCHED: the folder. POWER_CUT_SYNCED: where the copy goes. Flat: folders inside are left out.
 * POWER_CUT_HISTORY: a folder that gets every step of the copy as a file, so that a cut after any of them can be played:
 * NUMBER,sync,NAME with what was synced; NUMBER,unlink,NAME and NUMBER,rename,NAME,NAME, which are empty.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef int (*sync_function)(int);
typedef int (*rename_function)(const char *, const char *);
typedef int (*unlink_function)(const char *);

/* The copy's path of a watched file, or 0 where it is not watched. */
static int synced_path(const char *path, char *out) {
  const char *watched = getenv("POWER_CUT_WATCHED");
  const char *synced = getenv("POWER_CUT_SYNCED");
  if (!watched || !synced) return 0;
  size_t length = strlen(watched);
  if (strncmp(path, watched, length) != 0 || path[length] != '/' || strchr(path + length + 1, '/')) return 0;
  return snprintf(out, PATH_MAX, "%s%s", synced, path + length) < PATH_MAX;
}

/* Where the next step of the copy goes, or 0 where nobody keeps a history. Only one thread syncs: the casebook's. */
static int history_path(const char *step, char *out) {
  static int number = 0;
  const char *history = getenv("POWER_CUT_HISTORY");
  if (!history) return 0;
  return snprintf(out, PATH_MAX, "%s/%06d,%s", history, ++number, step) < PATH_MAX;
}

static const char *name_of(const char *path) { return strrchr(path, '/') + 1; }

static void copy_file(const char *from_path, const char *to_path) {
  char buffer[65536];
  int from = open(from_path, O_RDONLY | O_CLOEXEC);
  int to = open(to_path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  if (from >= 0 && to >= 0)
    for (ssize_t got; (got = read(from, buffer, sizeof buffer)) > 0;)
      if (write(to, buffer, (size_t)got) != got) break;
  if (to >= 0) close(to);
  /* Closing a second handle of a file gives up a process's locks on it: left open on purpose, and few. */
}

static void copy_synced(int handle) {
  char link[64], path[PATH_MAX], copy[PATH_MAX], part[PATH_MAX + 8];
  snprintf(link, sizeof link, "/proc/self/fd/%d", handle);
  ssize_t length = readlink(link, path, sizeof path - 1);
  if (length < 0) return;
  path[length] = 0;
  struct stat what;
  /* A folder that is synced keeps names, and those count as kept anyway. */
  if (!synced_path(path, copy) || fstat(handle, &what) != 0 || !S_ISREG(what.st_mode)) return;
  snprintf(part, sizeof part, "%s.copying", copy);
  copy_file(path, part);
  char step[PATH_MAX + 16], kept[PATH_MAX];
  snprintf(step, sizeof step, "sync,%s", name_of(copy));
  if (history_path(step, kept)) copy_file(path, kept);
  rename_function real = (rename_function)dlsym(RTLD_NEXT, "rename");
  real(part, copy);
}

int fsync(int handle) {
  sync_function real = (sync_function)dlsym(RTLD_NEXT, "fsync");
  int result = real(handle);
  if (result == 0) copy_synced(handle);
  return result;
}

int fdatasync(int handle) {
  sync_function real = (sync_function)dlsym(RTLD_NEXT, "fdatasync");
  int result = real(handle);
  if (result == 0) copy_synced(handle);
  return result;
}

int rename(const char *from, const char *to) {
  rename_function real = (rename_function)dlsym(RTLD_NEXT, "rename");
  int result = real(from, to);
  char copy_from[PATH_MAX], copy_to[PATH_MAX];
  if (result == 0 && synced_path(from, copy_from) && synced_path(to, copy_to)) {
    real(copy_from, copy_to);
    char step[PATH_MAX + 16], kept[PATH_MAX];
    snprintf(step, sizeof step, "rename,%s,%s", name_of(copy_from), name_of(copy_to));
    if (history_path(step, kept)) close(open(kept, O_WRONLY | O_CREAT | O_CLOEXEC, 0600));
  }
  return result;
}

int unlink(const char *path) {
  unlink_function real = (unlink_function)dlsym(RTLD_NEXT, "unlink");
  int result = real(path);
  char copy[PATH_MAX];
  if (result == 0 && synced_path(path, copy)) {
    real(copy);
    char step[PATH_MAX + 16], kept[PATH_MAX];
    snprintf(step, sizeof step, "unlink,%s", name_of(copy));
    if (history_path(step, kept)) close(open(kept, O_WRONLY | O_CREAT | O_CLOEXEC, 0600));
  }
  return result;
}
