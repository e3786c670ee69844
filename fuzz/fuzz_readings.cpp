#include <cstddef>
#include <cstdint>
#include <string>

#include "exchange/readings/raw_readings.h"
#include "exchange/readings/reading_tables.h"
#include "reference/tables.h"

/// A table of an instrument. The first byte says what is said beside the file.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace sherd;
  if (size == 0) return 0;
  const unsigned said = data[0];
  const std::string bytes(data + 1, data + size);
  (void)exchange::holds_analytes(bytes, "input", "", reference::atomic_weights());
  const auto raw = exchange::read_raw_readings(bytes, "input", "", {}, reference::atomic_weights());
  if (!raw) return 0;
  if (raw->rows_read < 0) __builtin_trap();
  exchange::ReadingSettings settings;
  if ((said & 1U) != 0) settings.unit = FractionUnit::ppm;
  if ((said & 2U) != 0) settings.errors = 2;
  settings.zeros_are_below = (said & 4U) != 0;
  if ((said & 8U) != 0) settings.cut = "-_";
  if ((said & 16U) != 0) settings.decimal = ",";
  const auto tables = exchange::reading_tables(*raw, settings, "files/x");
  if (tables && tables->extras.size() != tables->readings.size()) __builtin_trap();
  return 0;
}
