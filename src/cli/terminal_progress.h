#pragma once

#include <atomic>
#include <chrono>
#include <iosfwd>

#include "base/progress.h"

namespace sherd::cli {

/// One line on a terminal that is written over, at most ten times a second: how far it is, with what, and how long it
/// may yet take; silent elsewhere. Ctrl-C stops the work.
class TerminalProgress final : public Progress {
 public:
  TerminalProgress(std::ostream& err, bool shown);
  ~TerminalProgress() override;
  TerminalProgress(const TerminalProgress&) = delete;
  TerminalProgress& operator=(const TerminalProgress&) = delete;

  bool step(double fraction, std::string_view text) override;
  /// Wipes the line.
  void finish();

 private:
  std::ostream& err_;
  bool shown_;
  bool drawn_ = false;
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now(), last_;
};

}  // namespace sherd::cli
