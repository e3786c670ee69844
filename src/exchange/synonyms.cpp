#include "exchange/synonyms.h"

#include <map>
#include <utility>

#include "base/text.h"
#include "sherd_exchange_data.h"

namespace sherd::exchange {

namespace {

using Key = std::pair<std::string, std::string>;

std::map<Key, Synonym> read_synonyms() {
  std::map<Key, Synonym> synonyms;
  for (const std::string_view line : split(synonyms_csv, '\n')) {
    const auto cells = split(trim(line), ',');
    if (cells.size() == 4)
      synonyms.emplace(Key{cells[0], cells[2]}, Synonym{std::string(cells[1]), std::string(cells[3])});
  }
  return synonyms;
}

}  // namespace

std::optional<Synonym> find_synonym(std::string_view kind, std::string_view heading) {
  static const std::map<Key, Synonym> kSynonyms = read_synonyms();
  const auto found = kSynonyms.find(Key{kind, heading});
  if (found == kSynonyms.end()) return std::nullopt;
  return found->second;
}

}  // namespace sherd::exchange
