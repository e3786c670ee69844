#include "desk/archive/archive_names.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"

namespace sherd::desk {

namespace {

constexpr std::size_t kLongestStem = 60;

bool is_lower_or_figure(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); }
bool is_allowed(char c) { return is_lower_or_figure(c) || (c >= 'A' && c <= 'Z') || c == '-' || c == '_'; }

constexpr std::array<std::pair<std::string_view, std::string_view>, 16> kTypes{
    {{"text/csv", ".csv"},
     {"text/plain", ".txt"},
     {"text/html", ".html"},
     {"text/markdown", ".md"},
     {"application/json", ".json"},
     {"application/xml", ".xml"},
     {"application/pdf", ".pdf"},
     {"image/svg+xml", ".svg"},
     {"image/png", ".png"},
     {"image/jpeg", ".jpg"},
     {"image/webp", ".webp"},
     {"image/tiff", ".tif"},
     {"text/tab-separated-values", ".tsv"},
     {"application/zip", ".zip"},
     {"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", ".xlsx"},
     {"application/vnd.oasis.opendocument.spreadsheet", ".ods"}}};

}  // namespace

std::vector<std::string> name_troubles(std::string_view path) {
  std::vector<std::string> out;
  const auto parts = split(path, '/');
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const bool last = i + 1 == parts.size();
    const std::size_t dot = last ? parts[i].rfind('.') : std::string_view::npos;
    const std::string_view stem = parts[i].substr(0, dot);
    if (stem.empty()) out.push_back("\"" + std::string(path) + "\" has an empty name in it");
    if (!std::ranges::all_of(stem, is_allowed)) {
      out.push_back("\"" + std::string(parts[i]) + "\" has other characters than a-z, A-Z, 0-9, hyphen and underscore");
    }
    if (!last) continue;
    if (dot == std::string_view::npos || dot + 1 == parts[i].size()) {
      out.push_back("\"" + std::string(parts[i]) + "\" has no ending that says what it is");
    } else if (!std::ranges::all_of(parts[i].substr(dot + 1), is_lower_or_figure)) {
      out.push_back("the ending of \"" + std::string(parts[i]) + "\" is not in lower case");
    }
  }
  return out;
}

std::string safe_stem(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const char put = is_allowed(c) ? c : '_';
    if (put == '_' && (out.empty() || out.back() == '_')) continue;
    out += put;
  }
  out.resize(std::min(out.size(), kLongestStem));
  while (!out.empty() && out.back() == '_') out.pop_back();
  return out.empty() ? "unnamed" : out;
}

std::string FreeNames::take(std::string_view folder, std::string_view stem, std::string_view ending) {
  const std::string start = (folder.empty() ? std::string() : std::string(folder) + "/") + safe_stem(stem);
  std::string path = start + std::string(ending);
  for (int number = 2; !taken_.insert(lower(path)).second; ++number)
    path = start + "_" + std::to_string(number) + std::string(ending);
  return path;
}

std::string ending_of(std::string_view mime) {
  for (const auto& [type, ending] : kTypes) {
    if (type == mime) return std::string(ending);
  }
  return ".bin";
}

std::string mime_of(std::string_view path) {
  for (const auto& [type, ending] : kTypes) {
    if (path.ends_with(ending)) return std::string(type);
  }
  return "application/octet-stream";
}

}  // namespace sherd::desk
