/* Preloaded into the program by the durability tests: makes system calls fail, sets the clock off, and writes down what
 * reaches the disk. It is told what to do by the environment:
 *
 *   SHERD_FAIL_CALLS  names with commas: open write pwrite fsync fdatasync ftruncate rename link unlink
 *   SHERD_FAIL_AT     the first call that fails, counted from 1 over those calls
 *   SHERD_FAIL_FOR    how many fail from there on (1 unless said; 0: all)
 *   SHERD_FAIL_WITH   ENOSPC, EIO, or SHORT (half of the bytes are written, and the call says so)
 *   SHERD_FAIL_PATH   only files whose path contains this
 *   SHERD_FAIL_NOTE   a file: gets a line for each call that was failed
 *   SHERD_CLOCK       seconds to add to the wall clock
 *   SHERD_STATFS      the type that statfs(2) tells of every file system, in hexadecimal
 *   SHERD_RECORD      a file: gets every write, truncation, sync, creation, rename and removal of the files of
 *                     SHERD_RECORD_PATH, in their order; record(2) below is its form
 *
 * Built with: cc -shared -fPIC -O1 -o fail_calls.so fail_calls.c -ldl */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <sys/vfs.h>
#include <time.h>
#include <unistd.h>

static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static long counted = 0;

static const char* setting(const char* name) {
  const char* value = getenv(name);
  return value != NULL && *value != '\0' ? value : NULL;
}

static long number(const char* name, long otherwise) {
  const char* value = setting(name);
  return value != NULL ? atol(value) : otherwise;
}

static int listed(const char* name) {
  const char* list = setting("SHERD_FAIL_CALLS");
  const size_t length = strlen(name);
  while (list != NULL && *list != '\0') {
    const char* comma = strchrnul(list, ',');
    if ((size_t)(comma - list) == length && strncmp(list, name, length) == 0) return 1;
    list = *comma == ',' ? comma + 1 : comma;
  }
  return 0;
}

static void path_of(int fd, char* path) {
  char link[64];
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  const ssize_t length = syscall(SYS_readlink, link, path, (size_t)PATH_MAX - 1);
  path[length > 0 ? length : 0] = '\0';
}

/* `path` from the root on, in `whole`. */
static const char* absolute(const char* path, char* whole) {
  char here[PATH_MAX];
  if (path == NULL || *path == '/' || getcwd(here, sizeof here) == NULL) return path;
  if (snprintf(whole, 2 * PATH_MAX, "%s/%s", here, path) >= 2 * PATH_MAX) return path;
  return whole;
}

/* 0: go on; else the errno to fail with, or -1 for a short write. */
static int verdict(const char* name, const char* path) {
  if (!listed(name)) return 0;
  char whole[2 * PATH_MAX];
  path = absolute(path, whole);
  const char* part = setting("SHERD_FAIL_PATH");
  if (part != NULL && (path == NULL || strstr(path, part) == NULL)) return 0;
  pthread_mutex_lock(&lock);
  const long n = ++counted;
  pthread_mutex_unlock(&lock);
  const long at = number("SHERD_FAIL_AT", 0);
  const long count = number("SHERD_FAIL_FOR", 1);
  if (at <= 0 || n < at || (count > 0 && n >= at + count)) return 0;
  const char* note = setting("SHERD_FAIL_NOTE");
  if (note != NULL) {
    const int out = (int)syscall(SYS_openat, AT_FDCWD, note, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
    if (out >= 0) {
      char line[2 * PATH_MAX + 64];
      const int length = snprintf(line, sizeof line, "%ld %s %s\n", n, name, path != NULL ? path : "");
      syscall(SYS_write, out, line, (size_t)length);
      syscall(SYS_close, out);
    }
  }
  const char* with = setting("SHERD_FAIL_WITH");
  if (with != NULL && strcmp(with, "SHORT") == 0) return -1;
  return with != NULL && strcmp(with, "EIO") == 0 ? EIO : ENOSPC;
}

/* record(2): a line "call length offset path\n", then `length` bytes. One write, so that processes do not mix. */
static void record(const char* call, const char* path, const void* bytes, size_t length, int64_t offset) {
  const char* file = setting("SHERD_RECORD");
  if (file == NULL) return;
  char whole[2 * PATH_MAX];
  if (strchr(path, '\t') == NULL) path = absolute(path, whole);
  const char* part = setting("SHERD_RECORD_PATH");
  if (part != NULL && strstr(path, part) == NULL) return;
  char head[4 * PATH_MAX + 96];
  const int head_length = snprintf(head, sizeof head, "%s %zu %lld %s\n", call, length, (long long)offset, path);
  const int out = (int)syscall(SYS_openat, AT_FDCWD, file, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
  if (out < 0) abort();
  const struct iovec parts[2] = {{head, (size_t)head_length}, {(void*)bytes, length}};
  if (syscall(SYS_writev, out, parts, length > 0 ? 2 : 1) != (long)((size_t)head_length + length)) abort();
  syscall(SYS_close, out);
}

static void record_fd(const char* call, int fd, const void* bytes, size_t length, int64_t offset) {
  if (setting("SHERD_RECORD") == NULL) return;
  char path[PATH_MAX];
  path_of(fd, path);
  if (*path == '/') record(call, path, bytes, length, offset);
}

#define NEXT(type, name)   \
  static type next = NULL; \
  if (next == NULL) next = (type)dlsym(RTLD_NEXT, name)

typedef int (*open_call)(const char*, int, ...);
typedef int (*openat_call)(int, const char*, int, ...);
typedef ssize_t (*write_call)(int, const void*, size_t);
typedef ssize_t (*writev_call)(int, const struct iovec*, int);
typedef ssize_t (*pwrite_call)(int, const void*, size_t, off64_t);
typedef int (*fd_call)(int);
typedef int (*truncate_call)(int, off64_t);
typedef int (*path_call)(const char*);
typedef int (*paths_call)(const char*, const char*);
typedef int (*renameat2_call)(int, const char*, int, const char*, unsigned);
typedef int (*clock_call)(clockid_t, struct timespec*);

static int refuse_open(const char* path) {
  const int why = verdict("open", path);
  if (why == 0) return 0;
  errno = why > 0 ? why : ENOSPC;
  return 1;
}

static int opened(int fd, const char* path, int flags, int was_there) {
  if (fd >= 0 && (flags & O_CREAT) != 0 && !was_there) record("create", path, NULL, 0, 0);
  if (fd >= 0 && (flags & O_TRUNC) != 0 && was_there) record("ftruncate", path, NULL, 0, 0);
  return fd;
}

static int is_there(const char* path) {
  struct stat status;
  return lstat(path, &status) == 0;
}

#define OPEN(name)                                                  \
  int name(const char* path, int flags, ...) {                      \
    NEXT(open_call, #name);                                         \
    mode_t mode = 0;                                                \
    if ((flags & (O_CREAT | O_TMPFILE)) != 0) {                     \
      va_list more;                                                 \
      va_start(more, flags);                                        \
      mode = va_arg(more, mode_t);                                  \
      va_end(more);                                                 \
    }                                                               \
    if (refuse_open(path)) return -1;                               \
    const int was_there = is_there(path);                           \
    return opened(next(path, flags, mode), path, flags, was_there); \
  }
OPEN(open)
OPEN(open64)

#define OPENAT(name)                                                        \
  int name(int folder, const char* path, int flags, ...) {                  \
    NEXT(openat_call, #name);                                               \
    mode_t mode = 0;                                                        \
    if ((flags & (O_CREAT | O_TMPFILE)) != 0) {                             \
      va_list more;                                                         \
      va_start(more, flags);                                                \
      mode = va_arg(more, mode_t);                                          \
      va_end(more);                                                         \
    }                                                                       \
    if (refuse_open(path)) return -1;                                       \
    const int was_there = is_there(path);                                   \
    return opened(next(folder, path, flags, mode), path, flags, was_there); \
  }
OPENAT(openat)
OPENAT(openat64)

static int verdict_fd(const char* name, int fd) {
  if (!listed(name)) return 0;
  char path[PATH_MAX];
  path_of(fd, path);
  return verdict(name, *path == '/' ? path : NULL); /* a pipe has none */
}

static ssize_t refused(int why) {
  errno = why;
  return -1;
}

ssize_t write(int fd, const void* bytes, size_t length) {
  NEXT(write_call, "write");
  const int why = verdict_fd("write", fd);
  if (why > 0) return refused(why);
  const int64_t at = setting("SHERD_RECORD") != NULL ? lseek(fd, 0, SEEK_CUR) : 0;
  const ssize_t done = next(fd, bytes, why < 0 && length > 1 ? length / 2 : length);
  if (done > 0 && at >= 0) record_fd("write", fd, bytes, (size_t)done, at);
  return done;
}

ssize_t writev(int fd, const struct iovec* parts, int count) {
  NEXT(writev_call, "writev");
  const int why = verdict_fd("write", fd);
  if (why > 0) return refused(why);
  if (why < 0 && count > 0) return write(fd, parts[0].iov_base, parts[0].iov_len);
  if (setting("SHERD_RECORD") == NULL) return next(fd, parts, count);
  ssize_t all = 0;
  for (int i = 0; i < count; ++i) {
    const ssize_t done = write(fd, parts[i].iov_base, parts[i].iov_len);
    if (done < 0) return all > 0 ? all : done;
    all += done;
    if ((size_t)done < parts[i].iov_len) break;
  }
  return all;
}

#define PWRITE(name, offset_type)                                                              \
  ssize_t name(int fd, const void* bytes, size_t length, offset_type offset) {                 \
    NEXT(pwrite_call, #name);                                                                  \
    const int why = verdict_fd("pwrite", fd);                                                  \
    if (why > 0) return refused(why);                                                          \
    const ssize_t done = next(fd, bytes, why < 0 && length > 1 ? length / 2 : length, offset); \
    if (done > 0) record_fd("write", fd, bytes, (size_t)done, offset);                         \
    return done;                                                                               \
  }
PWRITE(pwrite, off_t)
PWRITE(pwrite64, off64_t)

#define SYNC(name)                                          \
  int name(int fd) {                                        \
    NEXT(fd_call, #name);                                   \
    const int why = verdict_fd(#name, fd);                  \
    if (why != 0) return (int)refused(why > 0 ? why : EIO); \
    const int done = next(fd);                              \
    if (done == 0) record_fd("sync", fd, NULL, 0, 0);       \
    return done;                                            \
  }
SYNC(fsync)
SYNC(fdatasync)

#define TRUNCATE(name, size_type)                             \
  int name(int fd, size_type size) {                          \
    NEXT(truncate_call, #name);                               \
    const int why = verdict_fd("ftruncate", fd);              \
    if (why != 0) return (int)refused(why > 0 ? why : EIO);   \
    const int done = next(fd, size);                          \
    if (done == 0) record_fd("ftruncate", fd, NULL, 0, size); \
    return done;                                              \
  }
TRUNCATE(ftruncate, off_t)
TRUNCATE(ftruncate64, off64_t)

/* A rename's line has both paths with a tab between them. */
static int renamed(int done, const char* from, const char* to) {
  if (done != 0 || setting("SHERD_RECORD") == NULL) return done;
  char both[4 * PATH_MAX + 2], whole_from[2 * PATH_MAX], whole_to[2 * PATH_MAX];
  snprintf(both, sizeof both, "%s\t%s", absolute(from, whole_from), absolute(to, whole_to));
  record("rename", both, NULL, 0, 0);
  return done;
}

int rename(const char* from, const char* to) {
  NEXT(paths_call, "rename");
  const int why = verdict("rename", to);
  if (why != 0) return (int)refused(why > 0 ? why : EIO);
  return renamed(next(from, to), from, to);
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
  NEXT(renameat2_call, "renameat2");
  const int why = verdict("rename", to);
  if (why != 0) return (int)refused(why > 0 ? why : EIO);
  return renamed(next(from_folder, from, to_folder, to, flags), from, to);
}

int link(const char* from, const char* to) {
  NEXT(paths_call, "link");
  const int why = verdict("link", to);
  if (why != 0) return (int)refused(why > 0 ? why : EIO);
  return next(from, to);
}

int unlink(const char* path) {
  NEXT(path_call, "unlink");
  const int why = verdict("unlink", path);
  if (why != 0) return (int)refused(why > 0 ? why : EIO);
  const int done = next(path);
  if (done == 0) record("unlink", path, NULL, 0, 0);
  return done;
}

#define STATFS(name)                                                               \
  int name(const char* path, struct name* status) {                                \
    NEXT(name##_call, #name);                                                      \
    const int done = next(path, status);                                           \
    const char* type = setting("SHERD_STATFS");                                    \
    if (done == 0 && type != NULL) status->f_type = (long)strtoul(type, NULL, 16); \
    return done;                                                                   \
  }
typedef int (*statfs_call)(const char*, struct statfs*);
typedef int (*statfs64_call)(const char*, struct statfs64*);
STATFS(statfs)
STATFS(statfs64)

int clock_gettime(clockid_t clock, struct timespec* time) {
  NEXT(clock_call, "clock_gettime");
  const int done = next(clock, time);
  if (done == 0 && clock == CLOCK_REALTIME) time->tv_sec += number("SHERD_CLOCK", 0);
  return done;
}
