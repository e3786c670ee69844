#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

#include "desk/archive/archive_csv.h"
#include "desk/archive/read_archive.h"
#include "desk_world.h"

using namespace sherd;

namespace {

void check_table(const std::string& text) {
  static const auto kStore = std::move(*store::in_memory());
  TableVersions versions = *kStore->whole().empty("sherds");
  if (!desk::read_versions(text, "sherds.csv", versions)) return;
  desk::sort_versions(versions);
  TableVersions again = *kStore->whole().empty("sherds");
  for (const bool former : {false, true}) {
    if (!desk::read_versions(desk::csv_of(versions, former).text, "sherds.csv", again)) __builtin_trap();
  }
  if (again.rows.rows() != versions.rows.rows()) __builtin_trap();
}

}  // namespace

/// The input, cut at NUL bytes, becomes the list of checksums, the description, the history and a table of an archive
/// in a folder, which is then read, checked and filled into a store. Nothing that was altered passes as sound, and what
/// is read of a table is written as the same table.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  constexpr std::array<const char*, 4> kParts{"manifest-sha256.txt", "datapackage.json", "history/changes.csv",
                                              "tables/sherds.csv"};
  static desk::MemoryFiles files;
  static desk::Environment environment = fuzz::environment_in_memory(files);
  NoProgress progress;
  std::array<std::string, kParts.size()> inside;
  std::size_t part = 0;
  for (std::size_t i = 0; i < size; ++i) {
    if (data[i] != 0) {
      inside[part] += static_cast<char>(data[i]);
    } else if (++part == inside.size()) {
      return -1;
    }
  }
  for (const char* folder : {"a/history", "a/tables"}) (void)files.make_folder(folder);
  for (std::size_t i = 0; i < kParts.size(); ++i) (void)files.write("a/" + std::string(kParts[i]), inside[i]);
  static const auto kStore = std::move(*store::in_memory());
  check_table(inside[3]);
  auto archive = desk::ReadArchive::open(environment, "a");
  if (!archive) return 0;
  (void)archive->contradictions();
  const auto faults = archive->faults(progress);
  if (faults && faults->empty() && archive->files() < 3) __builtin_trap();
  return 0;
}
