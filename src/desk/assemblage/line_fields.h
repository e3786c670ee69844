#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "desk/frame/session.h"
#include "model/table.h"

namespace sherd::desk {

/// The fields of sherd lines as columns: the lines' own (`fabric`), those of what they refer to (`context.phase`,
/// `fabric.ware_group`, `form.vessel_class`), and the columns kept from the file (`extra.COLUMN`).
class LineFields {
 public:
  /// `fields`: what will be asked for beside `always`, so that only these columns are read. Error `unknown_field`.
  static Result<LineFields> read(const Session& session, const std::vector<std::string>& fields,
                                 const std::vector<std::string>& always);

  /// Of lines that are no record's.
  static LineFields of(Table lines);

  const Table& lines() const { return *lines_; }
  /// nullptr for a field that was not asked for.
  const Column* column(const std::string& field) const;

 private:
  std::unique_ptr<Table> lines_;
  std::map<std::string, std::unique_ptr<Column>> made_;  ///< joined and extra columns
};

/// One FIELD=VALUE of a request, or with `negated` one FIELD!=VALUE; an empty value asks for blanks.
struct Condition {
  std::string field, value;
  bool negated = false;
};
/// Error `bad_where`.
Result<std::vector<Condition>> conditions_of(const std::vector<std::string>& where);
/// Error `bad_where` for a FIELD!=VALUE, where only equality can be asked for.
Result<void> check_none_negated(const std::vector<Condition>& conditions);
/// The lines that meet every condition; their fields must have been read. A value A||B is met by either.
std::vector<std::uint32_t> chosen_lines(const LineFields& fields, const std::vector<Condition>& conditions);

}  // namespace sherd::desk
