#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "methods/dating/result_context.h"
#include "model/record.h"

namespace sherd::dating {

/// What a line says of itself that a date may hang on; blank where it does not say.
struct WareKeys {
  std::string_view fabric, form, decoration, region;
};

/// The date rows of a record, the ranges that its fabrics and forms carry, and which fabric is a variant of which.
/// Safe to use from several threads once made.
class WareDates {
 public:
  WareDates(std::vector<WareDate> rows, const std::vector<Fabric>& fabrics, const std::vector<Form>& forms);

  /// The most specific row whose every key agrees: the most keys first, then one with decoration, then form, then
  /// region. A fabric's own range counts as a row that names the fabric alone, behind such a row of the table. Where
  /// no row names the line's fabric, its parent's rows stand in. A form's own range is used where nothing else is.
  /// Equally specific rows with different ranges: both in `conflicts`, and their hull as the range.
  LineDate find(const WareKeys& keys) const;

  /// As `find`, unless the line carries years of its own: these then stand alone.
  LineDate date_line(const RecordLine& line, std::string_view region = {}) const;

 private:
  using Index = std::map<std::string, std::vector<std::size_t>, std::less<>>;

  void add(WareDate row);
  std::vector<std::size_t> matching(std::string_view fabric, const WareKeys& keys) const;

  std::vector<WareDate> rows_;
  Index rows_of_fabric_;  ///< "" holds rows without a fabric
  std::map<std::string, std::string, std::less<>> parent_;
  std::map<std::string, WareDate, std::less<>> form_;
  std::size_t own_from_ = 0;  ///< rows_ from here on are fabrics' own ranges
};

}  // namespace sherd::dating
