#pragma once

#include <chrono>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "base/progress.h"
#include "base/result.h"

namespace sherd {

/// What another program may cost.
struct ChildLimit {
  std::chrono::milliseconds time{30'000};
  std::size_t output_bytes = std::size_t{256} << 20;  ///< of standard output, and of standard error, each
  std::size_t memory_bytes = std::size_t{2} << 30;    ///< of address space; 0 is no limit
};

struct ChildOutput {
  int exit_code = 0;  ///< 0 where a signal ended it
  int signal = 0;     ///< the signal that ended it, or 0
  std::string out, err;

  bool succeeded() const { return exit_code == 0 && signal == 0; }
};

/// Runs other programs. A fake of it can stand in for them in tests.
class ChildProcess {
 public:
  virtual ~ChildProcess() = default;
  /// Runs argv[0], looked up on the PATH, without a shell; hands it `input` on standard input and waits for its end.
  /// `progress` is asked some times a second with fraction 0 and the program's name. Whatever happens, neither the
  /// program nor a child of its own process group is left running. Errors: `no_program`, `program_not_started`,
  /// `program_too_slow`, `program_says_too_much`; `stopped` (ErrorKind::stopped) where `progress` says so.
  virtual Result<ChildOutput> run(std::span<const std::string> argv, std::string_view input, const ChildLimit& limit,
                                  Progress& progress) = 0;
};

/// Programs of this machine.
class SystemProcess final : public ChildProcess {
 public:
  Result<ChildOutput> run(std::span<const std::string> argv, std::string_view input, const ChildLimit& limit,
                          Progress& progress) override;
};

}  // namespace sherd
