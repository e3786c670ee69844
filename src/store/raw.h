#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// Rows exactly as a database holds them, for moving a store from one kind of database to another.
namespace sherd::store {

enum class Storage { integer, text, bytes };

struct RawColumn {
  std::string name;
  Storage storage = Storage::text;
};

struct RawTable {
  std::string name;
  std::vector<RawColumn> columns;
  std::string order = {};  ///< columns by which rows come; in no order where it is blank

  std::string query() const {
    return "select " + quoted_columns() + " from " + name + (order.empty() ? "" : " order by " + order);
  }
  /// `"a","b"`
  std::string quoted_columns() const {
    std::string text;
    for (const RawColumn& column : columns) text += (text.empty() ? "\"" : ",\"") + column.name + '"';
    return text;
  }
};

/// Nothing, a whole number, or text or bytes, valid until the next row. Empty text is not nothing.
using RawCell = std::variant<std::monostate, std::int64_t, std::string_view>;
using RawRow = std::span<const RawCell>;

/// Adds rows to one table. Members throw what the database throws.
class RawWriter {
 public:
  virtual ~RawWriter() = default;
  virtual void add(RawRow row) = 0;
  /// To be called after the last row; without it the rows may be lost.
  virtual void finish() = 0;
};

}  // namespace sherd::store
