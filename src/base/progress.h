#pragma once

#include <string_view>

namespace sherd {

/// Long work tells how far it is and asks whether to go on. Called from the thread that does the work.
class Progress {
 public:
  virtual ~Progress() = default;
  /// `fraction` 0..1; `text` is one short phrase. False: stop, with ErrorKind::stopped.
  virtual bool step(double fraction, std::string_view text) = 0;
};

/// For callers that do not watch.
class NoProgress final : public Progress {
 public:
  bool step(double, std::string_view) override { return true; }
};

}  // namespace sherd
