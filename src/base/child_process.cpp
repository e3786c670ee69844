#include "base/child_process.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <spawn.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

extern char** environ;  // NOLINT(readability-redundant-declaration): POSIX names it in no header

namespace sherd {
namespace {

using Clock = std::chrono::steady_clock;
constexpr int kTickMs = 50;

// A file descriptor that is closed with its owner.
class Descriptor {
 public:
  Descriptor() = default;
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close(); }
  void reset(int fd) {
    close();
    fd_ = fd;
  }
  void close() {
    if (fd_ >= 0) ::close(fd_);
    fd_ = -1;
  }
  int get() const { return fd_; }
  bool is_open() const { return fd_ >= 0; }

 private:
  int fd_ = -1;
};

struct Pipe {
  Descriptor read, write;
};

bool open_pipe(Pipe& pipe) {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) return false;
  pipe.read.reset(ends[0]);
  pipe.write.reset(ends[1]);
  return true;
}

// While one lives, writing to a program that no longer reads is an error and not the end of us.
class NoBrokenPipeSignal {
 public:
  NoBrokenPipeSignal() {
    sigemptyset(&pipe_);
    sigaddset(&pipe_, SIGPIPE);
    sigset_t pending;
    sigpending(&pending);
    was_pending_ = sigismember(&pending, SIGPIPE) == 1;
    pthread_sigmask(SIG_BLOCK, &pipe_, &before_);
  }
  NoBrokenPipeSignal(const NoBrokenPipeSignal&) = delete;
  NoBrokenPipeSignal& operator=(const NoBrokenPipeSignal&) = delete;
  ~NoBrokenPipeSignal() {
    const timespec at_once{};
    if (!was_pending_) {
      while (sigtimedwait(&pipe_, nullptr, &at_once) == -1 && errno == EINTR) continue;
    }
    pthread_sigmask(SIG_SETMASK, &before_, nullptr);
  }

 private:
  sigset_t pipe_{}, before_{};
  bool was_pending_ = false;
};

// The program in a process group of its own; killed and buried with its owner. It is buried last, so that its number
// cannot belong to another by the time its group is killed.
class Running {
 public:
  explicit Running(pid_t pid) : pid_(pid) {}
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  ~Running() {
    ::kill(-pid_, SIGKILL);
    while (::waitpid(pid_, nullptr, 0) == -1 && errno == EINTR) continue;
  }
  bool has_ended() {
    if (end_.si_pid != pid_) ::waitid(P_PID, static_cast<id_t>(pid_), &end_, WEXITED | WNOHANG | WNOWAIT);
    return end_.si_pid == pid_;
  }
  int exit_code() const { return end_.si_code == CLD_EXITED ? end_.si_status : 0; }
  int signal() const { return end_.si_code == CLD_EXITED ? 0 : end_.si_status; }

 private:
  pid_t pid_;
  siginfo_t end_{};
};

class SpawnSetting {
 public:
  SpawnSetting(const Pipe& in, const Pipe& out, const Pipe& err) {
    posix_spawn_file_actions_init(&actions_);
    posix_spawn_file_actions_adddup2(&actions_, in.read.get(), STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&actions_, out.write.get(), STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&actions_, err.write.get(), STDERR_FILENO);
    posix_spawnattr_init(&attributes_);
    sigset_t none, usual;
    sigemptyset(&none);
    sigemptyset(&usual);
    sigaddset(&usual, SIGPIPE);
    posix_spawnattr_setsigmask(&attributes_, &none);
    posix_spawnattr_setsigdefault(&attributes_, &usual);
    posix_spawnattr_setpgroup(&attributes_, 0);
    posix_spawnattr_setflags(&attributes_, POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  }
  SpawnSetting(const SpawnSetting&) = delete;
  SpawnSetting& operator=(const SpawnSetting&) = delete;
  ~SpawnSetting() {
    posix_spawn_file_actions_destroy(&actions_);
    posix_spawnattr_destroy(&attributes_);
  }
  int spawn(pid_t& pid, std::span<const std::string> argv) const {
    std::vector<std::string> words(argv.begin(), argv.end());
    std::vector<char*> pointers;
    pointers.reserve(words.size() + 1);
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    return ::posix_spawnp(&pid, pointers[0], &actions_, &attributes_, pointers.data(), environ);
  }

 private:
  posix_spawn_file_actions_t actions_{};
  posix_spawnattr_t attributes_{};
};

// Reads what there is, at most one buffer. False: the other end is closed.
bool read_some(Descriptor& from, std::string& into) {
  std::array<char, 65536> buffer;  // NOLINT(cppcoreguidelines-pro-type-member-init): read fills it
  const ssize_t n = ::read(from.get(), buffer.data(), buffer.size());
  if (n > 0) into.append(buffer.data(), static_cast<std::size_t>(n));
  if (n == 0 || (n < 0 && errno != EINTR && errno != EAGAIN)) from.close();
  return from.is_open();
}

void write_some(Descriptor& to, std::string_view& input) {
  const ssize_t n = input.empty() ? 0 : ::write(to.get(), input.data(), input.size());
  if (n > 0) input.remove_prefix(static_cast<std::size_t>(n));
  if (input.empty() || (n < 0 && errno != EINTR && errno != EAGAIN)) to.close();
}

std::string seconds_text(std::chrono::milliseconds time) {
  return fmt::format("{:g} s", static_cast<double>(time.count()) / 1000);
}

// Talks to the program until it has ended and everything that it said is read.
class Talk {
 public:
  Talk(std::string name, std::string_view input, const ChildLimit& limit, Progress& progress)
      : name_(std::move(name)), input_(input), limit_(limit), progress_(progress) {}

  Result<ChildOutput> until_end(Running& running, Descriptor& in, Descriptor& out, Descriptor& err) {
    const Clock::time_point end = Clock::now() + limit_.time;
    if (input_.empty()) in.close();
    while (true) {
      const bool ended = running.has_ended();
      // A grandchild may hold the pipes open after the program's end: then what lies in them is all.
      if (ended && (!turn(in, out, err, 0) || (!out.is_open() && !err.is_open()))) break;
      if (!ended) turn(in, out, err, kTickMs);
      if (std::max(output_.out.size(), output_.err.size()) > limit_.output_bytes) return too_much();
      if (!progress_.step(0, name_)) return fail(ErrorKind::stopped, "stopped", name_ + " was stopped.");
      if (Clock::now() > end) return too_slow();
    }
    output_.exit_code = running.exit_code();
    output_.signal = running.signal();
    return std::move(output_);
  }

 private:
  // Waits for something to read or write. False where there was nothing.
  bool turn(Descriptor& in, Descriptor& out, Descriptor& err, int wait_ms) {
    std::array<pollfd, 3> of = {{{in.get(), POLLOUT, 0}, {out.get(), POLLIN, 0}, {err.get(), POLLIN, 0}}};
    if (!in.is_open() && !out.is_open() && !err.is_open()) {
      if (wait_ms > 0) std::this_thread::sleep_for(std::chrono::milliseconds(std::min(wait_ms, 5)));
      return false;
    }
    if (::poll(of.data(), of.size(), wait_ms) <= 0) return false;
    if (in.is_open() && of[0].revents != 0) write_some(in, input_);
    bool read = false;
    if (out.is_open() && of[1].revents != 0) read = read_some(out, output_.out) || read;
    if (err.is_open() && of[2].revents != 0) read = read_some(err, output_.err) || read;
    return read;
  }

  Result<ChildOutput> too_slow() const {
    return fail("program_too_slow", fmt::format("{} took longer than {}.", name_, seconds_text(limit_.time)),
                "Try again with less, or on a machine that is less busy.");
  }
  Result<ChildOutput> too_much() const {
    return fail("program_says_too_much", fmt::format("{} wrote more than {} bytes.", name_, limit_.output_bytes),
                "Try again with less.");
  }

  std::string name_;
  std::string_view input_;
  const ChildLimit& limit_;
  Progress& progress_;
  ChildOutput output_;
};

Result<ChildOutput> not_started(const std::string& name, int error) {
  if (error == ENOENT || error == ENOTDIR || error == EACCES) {
    return fail("no_program", name + " is not installed, or not on the PATH.", "Install it.");
  }
  return fail(ErrorKind::internal, "program_not_started", name + " could not be started: " + std::strerror(error) + ".",
              "Try again when the machine has more room.");
}

/// Whether the path, or the name on the PATH, is a program that may be run.
bool is_program(const std::string& name) {
  const auto runs = [](const std::string& path) {
    struct stat about{};
    return ::stat(path.c_str(), &about) == 0 && S_ISREG(about.st_mode) && ::access(path.c_str(), X_OK) == 0;
  };
  if (name.find('/') != std::string::npos) return runs(name);
  const char* const path = std::getenv("PATH");  // NOLINT(concurrency-mt-unsafe): nobody sets it
  std::istringstream folders(path == nullptr ? "/usr/bin:/bin" : path);
  for (std::string folder; std::getline(folders, folder, ':');) {
    if (runs((folder.empty() ? "." : folder) + "/" + name)) return true;
  }
  return false;
}

/// The command with its limit in force before it begins. A limit that is set from here afterwards may come when the
/// program has reserved more already, and then it has no room at all: pandoc reserves its addresses at once.
std::vector<std::string> limited(std::span<const std::string> argv, std::size_t bytes) {
  std::vector<std::string> out;
  if (bytes != 0) out = {"/bin/sh", "-c", R"(ulimit -v "$0" && exec "$@")", std::to_string(bytes / 1024)};
  out.insert(out.end(), argv.begin(), argv.end());
  return out;
}

}  // namespace

Result<ChildOutput> SystemProcess::run(std::span<const std::string> argv, std::string_view input,
                                       const ChildLimit& limit, Progress& progress) {
  if (argv.empty() || argv[0].empty()) return fail(ErrorKind::internal, "no_program", "No program was named.");
  const NoBrokenPipeSignal no_signal;
  Pipe in, out, err;
  if (!open_pipe(in) || !open_pipe(out) || !open_pipe(err)) return not_started(argv[0], errno);
  pid_t pid = -1;
  const SpawnSetting setting(in, out, err);
  if (limit.memory_bytes != 0 && !is_program(argv[0])) return not_started(argv[0], ENOENT);
  const std::vector<std::string> command = limited(argv, limit.memory_bytes);
  if (const int error = setting.spawn(pid, command); error != 0) return not_started(argv[0], error);
  Running running(pid);
  in.read.close();
  out.write.close();
  err.write.close();
  for (const int fd : {in.write.get(), out.read.get(), err.read.get()}) ::fcntl(fd, F_SETFL, O_NONBLOCK);
  return Talk(argv[0], input, limit, progress).until_end(running, in.write, out.read, err.read);
}

}  // namespace sherd
