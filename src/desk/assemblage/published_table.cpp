#include "desk/assemblage/published_table.h"

#include <algorithm>
#include <array>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/table_cells.h"
#include "desk/frame/csv.h"

namespace sherd::desk {

namespace {

constexpr std::array<std::string_view, 8> kColumns{"assemblage", "field", "measure", "source",
                                                   "rounded_to", "code",  "amount",  "notes"};
/// What lies on a plane, and what is in degrees.
constexpr std::array<std::string_view, 2> kPlane{"east", "north"}, kDegrees{"longitude", "latitude"};

/// Where each column stands; nothing where the table has none.
class Reader {
 public:
  explicit Reader(const PlainTable& table) : table_(table) {}

  Result<std::vector<PublishedAssemblage>> read() {
    for (std::size_t k = 0; k < kColumns.size(); ++k) {
      const std::array<std::string_view, 1> name{kColumns[k]};
      place_[k] = table_.column_named(name);
    }
    find_coordinates();
    for (const std::size_t k : {0UL, 2UL, 3UL, 5UL, 6UL}) {
      if (place_[k]) continue;
      Error error{
          .code = "no_column",
          .message = "the table has no column " + std::string(kColumns[k]),
          .hint = "it needs assemblage, measure, source, code and amount; field, rounded_to and notes may be there"};
      error.where.file = table_.file;
      return fail(std::move(error));
    }
    for (const PlainTable::Row& row : table_.rows) SHERD_CHECK(add(row));
    if (!out_.empty()) return std::move(out_);
    Error error{.code = "empty_table", .message = "the table has no rows"};
    error.where.file = table_.file;
    return fail(std::move(error));
  }

 private:
  void find_coordinates() {
    for (const auto* names : {&kPlane, &kDegrees}) {
      const auto named = [&](std::size_t k) {
        const std::array<std::string_view, 1> name{(*names)[k]};
        return table_.column_named(name);
      };
      if (!named(0) || !named(1)) continue;
      east_ = named(0);
      north_ = named(1);
      degrees_ = names == &kDegrees;
    }
  }
  std::string text(const PlainTable::Row& row, std::size_t k) const {
    return place_[k] ? row.cells[*place_[k]] : std::string();
  }
  std::unexpected<Error> at(const PlainTable::Row& row, std::size_t k, Error error) const {
    return table_.at(row, *place_[k], std::move(error));
  }

  Result<PublishedAssemblage> head_of(const PlainTable::Row& row) const {
    PublishedAssemblage out{.assemblage = text(row, 0),
                            .field = text(row, 1),
                            .measure = text(row, 2),
                            .source = text(row, 3),
                            .totals = {},
                            .notes = text(row, 7)};
    if (out.field.empty()) out.field = "fabric";
    if (out.measure == "weight") out.measure = "weight_g";
    if (out.measure == "sherds") out.measure = "count";
    if (out.assemblage.empty())
      return at(row, 0, {.code = "no_label", .message = "the row names no assemblage", .hint = "name it in every row"});
    if (out.source.empty())
      return at(row, 3,
                {.code = "no_source",
                 .message = "it is not said where this is published",
                 .hint = "give author, year and page"});
    const std::array<std::string, 4> measures{"count", "weight_g", "vessels", "eve"};
    if (std::ranges::find(measures, out.measure) == measures.end()) {
      const std::string near = did_you_mean(out.measure, measures);
      return at(row, 2,
                {.code = "unknown_word",
                 .message = "\"" + out.measure + "\" is no measure",
                 .hint = near.empty() ? "choose count, weight_g, vessels or eve" : near});
    }
    if (const std::string rounding = text(row, 4); !rounding.empty()) {
      SHERD_TRY(out.rounded_to, amount_at(table_, row, *place_[4]));
    }
    if (east_ && !row.cells[*east_].empty() && !row.cells[*north_].empty()) {
      SHERD_TRY(out.east, number_at(table_, row, *east_));
      SHERD_TRY(out.north, number_at(table_, row, *north_));
      out.degrees = degrees_;
    }
    return out;
  }

  Result<void> add(const PlainTable::Row& row) {
    SHERD_TRY(PublishedAssemblage head, head_of(row));
    PublishedTotal total{.code = text(row, 5)};
    if (total.code.empty())
      return at(row, 5,
                {.code = "no_label", .message = "the row names no type", .hint = "give the code that the site uses"});
    SHERD_TRY(total.amount, amount_at(table_, row, *place_[6]));
    auto known = std::ranges::find(out_, head.assemblage, &PublishedAssemblage::assemblage);
    if (known == out_.end()) {
      out_.push_back(std::move(head));
      known = out_.end() - 1;
    } else if (known->measure != head.measure || known->field != head.field || known->source != head.source ||
               known->rounded_to != head.rounded_to || known->east != head.east || known->north != head.north) {
      return at(row, 0,
                {.code = "differs",
                 .message =
                     "\"" + head.assemblage + "\" has another measure, field, source, rounding or place in a row above",
                 .hint = "give what was published by another measure a name of its own"});
    }
    if (!codes_.insert(known->assemblage + "\n" + total.code).second)
      return at(
          row, 5,
          {.code = "code_twice", .message = "\"" + total.code + "\" is there twice", .hint = "add the two rows up"});
    known->totals.push_back(std::move(total));
    return {};
  }

  const PlainTable& table_;
  std::array<std::optional<std::size_t>, 8> place_;
  std::optional<std::size_t> east_, north_;
  bool degrees_ = false;
  std::vector<PublishedAssemblage> out_;
  std::set<std::string> codes_;
};

}  // namespace

Result<std::vector<PublishedAssemblage>> published_of(const std::string& bytes, const std::string& file) {
  SHERD_TRY(const PlainTable table, plain_table_of(bytes, file));
  return Reader(table).read();
}

std::string csv_of_published(const PublishedAssemblage& assemblage) {
  std::vector<std::vector<std::string>> rows{{kColumns.begin(), kColumns.end()}};
  const auto& names = assemblage.degrees ? kDegrees : kPlane;
  rows[0].insert(rows[0].end(), names.begin(), names.end());
  const auto coordinate = [](const std::optional<double>& value) { return value ? format_double(*value) : ""; };
  for (const PublishedTotal& total : assemblage.totals) {
    rows.push_back({assemblage.assemblage, assemblage.field, assemblage.measure, assemblage.source,
                    assemblage.rounded_to > 0 ? format_double(assemblage.rounded_to) : "", total.code,
                    format_double(total.amount), assemblage.notes, coordinate(assemblage.east),
                    coordinate(assemblage.north)});
  }
  return csv_text(rows);
}

}  // namespace sherd::desk
