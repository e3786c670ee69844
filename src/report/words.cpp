#include "report/words.h"

#include <algorithm>
#include <map>

#include "base/csv.h"
#include "base/text.h"
#include "sherd_report_data.h"

namespace sherd::report {

namespace {

struct Wording {
  std::string british, american;
};

struct Catalogue {
  std::vector<std::string> names;
  std::map<std::string, Wording, std::less<>> wordings;
};

/// The file is built in; its test reads it again.
const Catalogue& catalogue() {
  static const Catalogue kCatalogue = [] {
    Catalogue out;
    const auto rows = parse_csv(report_words_csv);
    if (!rows) return out;
    for (std::size_t i = 1; i < rows->size(); ++i) {
      const auto& row = (*rows)[i];
      if (row.size() != 3) continue;
      out.names.push_back(row[0]);
      out.wordings[row[0]] = {row[1], row[2].empty() ? row[1] : row[2]};
    }
    return out;
  }();
  return kCatalogue;
}

}  // namespace

std::string Words::operator()(std::string_view name) const {
  const auto& wordings = catalogue().wordings;
  const auto found = wordings.find(name);
  if (found == wordings.end()) return "[[" + std::string(name) + "]]";
  return spelling_ == Spelling::american ? found->second.american : found->second.british;
}

std::string Words::operator()(std::string_view name, Values values) const {
  const std::string wording = (*this)(name);
  std::string out;
  for (std::size_t at = 0; at < wording.size();) {
    const std::size_t close = wording[at] == '{' ? wording.find('}', at) : std::string::npos;
    if (close == std::string::npos) {
      out += wording[at++];
      continue;
    }
    const std::string_view asked = std::string_view(wording).substr(at + 1, close - at - 1);
    const auto* value = std::ranges::find(values, asked, [](const auto& pair) { return pair.first; });
    out += value == values.end() ? "{" + std::string(asked) + "}" : value->second;
    at = close + 1;
  }
  return out;
}

std::string Words::counted(std::int64_t n, std::string_view noun) const {
  const std::string both = (*this)("n." + std::string(noun));
  const std::size_t bar = both.find('|');
  if (bar == std::string::npos) return grouped(n) + " " + both;
  return grouped(n) + " " + (n == 1 ? both.substr(0, bar) : both.substr(bar + 1));
}

std::vector<std::string> Words::names() { return catalogue().names; }

}  // namespace sherd::report
