/*
 * Writes down, in their order, all changes that a process makes to the files of one folder: to be
 * preloaded, so that what a power cut would leave can be made from it later, byte by byte.
 *
 * FILETRACE_FOLDER is the folder, FILETRACE_OUT the file that is written. Each entry:
 *   u8   what: W written, T cut or grown, S flushed, U removed, R renamed
 *   u16  length of the name, then the name below the folder (empty: the folder itself)
 *   u64  offset, or for T the new length
 *   u32  length of the data, then the data (for R the new name)
 * in the byte order of the machine. A lock is held over the change and its entry.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <unistd.h>

static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static char folder[PATH_MAX];
static size_t folder_length;
static int out = -1;

static void begin(void) {
  static int begun;
  if (begun) {
    return;
  }
  begun = 1;
  const char *at = getenv("FILETRACE_FOLDER");
  const char *to = getenv("FILETRACE_OUT");
  if (at && to && realpath(at, folder)) {
    folder_length = strlen(folder);
    out = syscall(SYS_openat, AT_FDCWD, to, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
  }
}

/* The name below the folder; NULL if it is not in it. */
static const char *below(const char *path) {
  if (out < 0 || strncmp(path, folder, folder_length) != 0) {
    return NULL;
  }
  const char *rest = path + folder_length;
  if (*rest == '/') {
    return strchr(rest + 1, '/') ? NULL : rest + 1;
  }
  return *rest ? NULL : rest;
}

static const char *of_descriptor(int fd, char *path) {
  char link[64];
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  ssize_t n = syscall(SYS_readlinkat, AT_FDCWD, link, path, PATH_MAX - 1);
  if (n < 0) {
    return NULL;
  }
  path[n] = 0;
  return below(path);
}

static void put(const void *data, size_t length) {
  const char *from = data;
  while (length > 0) {
    ssize_t n = syscall(SYS_write, out, from, length);
    if (n < 0 && errno != EINTR) {
      abort(); /* a trace with a hole would prove nothing */
    }
    if (n > 0) {
      from += n;
      length -= n;
    }
  }
}

static void entry(
    char what, const char *name, uint64_t offset, const void *data, size_t length) {
  uint16_t name_length = strlen(name);
  uint32_t data_length = length;
  put(&what, 1);
  put(&name_length, sizeof name_length);
  put(name, name_length);
  put(&offset, sizeof offset);
  put(&data_length, sizeof data_length);
  put(data, length);
}

/* Runs a change and notes it if it came about; the result is that of the change. */
#define NOTED(fd, change, note)                                \
  do {                                                         \
    char path[PATH_MAX];                                       \
    pthread_mutex_lock(&lock);                                 \
    begin();                                                   \
    const char *name = out < 0 ? NULL : of_descriptor(fd, path); \
    long result = (change);                                    \
    int error = errno;                                         \
    if (name && result >= 0) {                                 \
      note;                                                    \
    }                                                          \
    pthread_mutex_unlock(&lock);                               \
    errno = error;                                             \
    return result;                                             \
  } while (0)

ssize_t pwrite64(int fd, const void *data, size_t length, off64_t offset) {
  NOTED(fd, syscall(SYS_pwrite64, fd, data, length, offset),
        entry('W', name, offset, data, result));
}

ssize_t pwrite(int fd, const void *data, size_t length, off_t offset) {
  return pwrite64(fd, data, length, offset);
}

ssize_t write(int fd, const void *data, size_t length) {
  NOTED(fd, syscall(SYS_write, fd, data, length),
        entry('W', name, lseek(fd, 0, SEEK_CUR) - result, data, result));
}

int ftruncate64(int fd, off64_t length) {
  NOTED(fd, syscall(SYS_ftruncate, fd, length), entry('T', name, length, "", 0));
}

int ftruncate(int fd, off_t length) { return ftruncate64(fd, length); }

int fsync(int fd) { NOTED(fd, syscall(SYS_fsync, fd), entry('S', name, 0, "", 0)); }

int fdatasync(int fd) { NOTED(fd, syscall(SYS_fdatasync, fd), entry('S', name, 0, "", 0)); }

int unlink(const char *path) {
  pthread_mutex_lock(&lock);
  begin();
  const char *name = below(path);
  long result = syscall(SYS_unlinkat, AT_FDCWD, path, 0);
  int error = errno;
  if (name && result == 0) {
    entry('U', name, 0, "", 0);
  }
  pthread_mutex_unlock(&lock);
  errno = error;
  return result;
}

int rename(const char *from, const char *to) {
  pthread_mutex_lock(&lock);
  begin();
  const char *old = below(from);
  const char *new = below(to);
  long result = syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0);
  int error = errno;
  if (old && new && result == 0) {
    entry('R', old, 0, new, strlen(new));
  }
  pthread_mutex_unlock(&lock);
  errno = error;
  return result;
}
