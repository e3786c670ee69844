#include <cstddef>
#include <cstdint>
#include <string>

#include "desk/dates/sequence_settings.h"

/// A file of settings of the model of dates; what is read can be told.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  sherd::stratigraphy::SequenceSettings settings;
  const std::string text(data, data + size);
  if (!sherd::desk::read_settings(text, settings)) return 0;
  if (sherd::desk::settings_texts(settings).empty()) __builtin_trap();
  return 0;
}
