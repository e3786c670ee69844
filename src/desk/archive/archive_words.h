#pragma once

#include <string>
#include <string_view>

#include "model/column.h"

/// What an archive says of the tables and columns of the record: data/archive, built in.
namespace sherd::desk {

/// "What a reader should know of the table", one sentence.
std::string table_words(std::string_view table);
/// A description of a column; the help of its field list is put first. Never empty.
std::string field_words(std::string_view table, std::string_view field, std::string_view help);
/// What a code of a closed list means; the code itself where the key has nothing.
std::string code_words(std::string_view field, std::string_view code);
/// "g", "mm", "percent", "litres", "year"; "" for text and plain numbers.
std::string_view unit_of(CellType type);

}  // namespace sherd::desk
