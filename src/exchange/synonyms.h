#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace sherd::exchange {

/// A heading that field sheets use for a canonical column; `times` turns its unit into ours ("10" from cm).
struct Synonym {
  std::string column;
  std::string times;
};

/// By the table's name and the folded heading, from data/synonyms.csv.
std::optional<Synonym> find_synonym(std::string_view kind, std::string_view heading);

}  // namespace sherd::exchange
