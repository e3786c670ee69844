#include "cli/terminal_progress.h"

#include <csignal>
#include <ostream>

#include "base/text.h"
#include "base/time_left.h"

namespace sherd::cli {

namespace {

volatile std::sig_atomic_t interrupted = 0;

extern "C" void on_interrupt(int) {
  if (interrupted != 0) std::_Exit(130);  // asked twice: at once
  interrupted = 1;
}

}  // namespace

TerminalProgress::TerminalProgress(std::ostream& err, bool shown) : err_(err), shown_(shown) {
  interrupted = 0;
  std::signal(SIGINT, on_interrupt);
}

TerminalProgress::~TerminalProgress() { std::signal(SIGINT, SIG_DFL); }

bool TerminalProgress::step(double fraction, std::string_view text) {
  const auto now = std::chrono::steady_clock::now();
  if (shown_ && now - last_ > std::chrono::milliseconds(100)) {
    last_ = now;
    drawn_ = true;
    err_ << "\r\x1b[K";
    if (fraction > 0) err_ << static_cast<int>(100 * fraction) << " % ";
    err_ << shortened(text, 60);
    if (const std::string left = time_left(fraction, now - began_); !left.empty()) err_ << ", " << left;
    err_ << std::flush;
  }
  return interrupted == 0;
}

void TerminalProgress::finish() {
  if (drawn_) err_ << "\r\x1b[K" << std::flush;
  drawn_ = false;
}

}  // namespace sherd::cli
