#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <string_view>
#include <vector>

#include "store/sqlite_file.h"

namespace sherd::store {

namespace {

namespace fs = std::filesystem;

constexpr auto kDay = std::chrono::hours(24);

bool all_digits(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

/// As name_beside makes them, by another process than this one: NAME.part-1234, NAME.new-1234-2.
bool is_name_of_leftover(std::string_view name) {
  for (const std::string_view word : {".part-", ".new-"}) {
    const std::size_t at = name.rfind(word);
    if (at == std::string_view::npos || at == 0) continue;
    const std::string_view number = name.substr(at + word.size());
    const std::size_t dash = number.find('-');
    const std::string_view process = number.substr(0, dash);
    const bool counted = dash == std::string_view::npos || all_digits(number.substr(dash + 1));
    if (all_digits(process) && counted) return process != std::to_string(::getpid());
  }
  return false;
}

/// Others name files so, too: a piece of an archive, say. Ours is empty, or has a store's header, or nothing but its
/// journal yet.
bool is_ours(const fs::path& path) {
  std::array<char, 100> header{};
  std::ifstream in(path, std::ios::binary);
  if (!in.is_open()) return false;
  in.read(header.data(), static_cast<std::streamsize>(header.size()));
  if (in.gcount() == 0) return true;
  if (in.gcount() < static_cast<std::streamsize>(header.size())) return false;
  if (std::ranges::all_of(header, [](char c) { return c == 0; })) return file_exists(path.string() + "-journal");
  // Offsets: "Database File Format", section 1.3, sqlite.org/fileformat2.html
  constexpr std::string_view kMagic("SQLite format 3\0", 16);
  constexpr std::string_view kOurs("SHRD");
  const std::string_view text(header.data(), header.size());
  return text.starts_with(kMagic) && text.substr(68, 4) == kOurs;
}

bool is_old(const fs::path& path) {
  std::error_code error;
  const auto written = fs::last_write_time(path, error);
  return !error && written < fs::file_time_type::clock::now() - kDay;
}

}  // namespace

void sweep_leftovers(const std::string& path) {
  const fs::path parent = fs::path(path).parent_path();
  std::vector<fs::path> left;
  std::error_code error;
  for (fs::directory_iterator at(parent.empty() ? "." : parent, error); !error && at != fs::directory_iterator();
       at.increment(error)) {
    std::error_code unreadable;
    if (at->symlink_status(unreadable).type() != fs::file_type::regular) continue;
    if (is_name_of_leftover(at->path().filename().string()) && is_old(at->path()) && is_ours(at->path())) {
      left.push_back(at->path());
    }
  }
  for (const fs::path& each : left) discard(each.string());
}

}  // namespace sherd::store
