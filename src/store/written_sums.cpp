#include "store/written_sums.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "model/table.h"
#include "store/dialect.h"

namespace sherd::store {

namespace {

// It keeps nothing secret. Hashes made with it are in stores: do not change.
constexpr SipKey kKey{'s', 'h', 'e', 'r', 'd', 'w', 'r', 'i', 'g', 'h', 't', ' ', '0', '0', '0', '6'};
constexpr char kInteger = 1;
constexpr char kText = 2;
constexpr char kEnd = 3;

std::uint64_t tag_of(std::string_view name) { return siphash128(kKey, name).low; }

std::string hex(const Bits128& value) { return fmt::format("{:016x}{:016x}", value.high, value.low); }

}  // namespace

std::string sums_text(const ChangeSums& sums) {
  std::string text;
  for (const auto& [table, sum] : sums) {
    if (sum.wrote == Bits128{} && sum.ended == Bits128{}) continue;
    text += fmt::format("{}{} {} {}", text.empty() ? "" : "\n", table, hex(sum.wrote), hex(sum.ended));
  }
  return text;
}

VersionHash::VersionHash(std::string_view table, const std::vector<std::string>& columns) : table_(tag_of(table)) {
  for (std::size_t i = 0; i < columns.size(); ++i) places_.push_back({i, tag_of(columns[i])});
  std::ranges::sort(places_, [&](const Place& a, const Place& b) { return columns[a.at] < columns[b.at]; });
}

void VersionHash::add(std::uint64_t value) {
  std::array<char, 8> bytes{};
  for (unsigned i = 0; i < 8; ++i) bytes[i] = static_cast<char>((value >> (8U * i)) & 0xFFU);
  bytes_.append(bytes.data(), bytes.size());
}

void VersionHash::add(const Place& place, std::int64_t value) {
  add(place.tag);
  bytes_ += kInteger;
  add(static_cast<std::uint64_t>(value));
}

void VersionHash::add(const Place& place, std::string_view text) {
  add(place.tag);
  bytes_ += kText;
  add(std::uint64_t{text.size()});
  bytes_ += text;
}

void VersionHash::begin(std::string_view site, std::string_view uid) {
  bytes_.clear();
  add(table_);
  for (const std::string_view text : {site, uid}) {
    add(std::uint64_t{text.size()});
    bytes_ += text;
  }
}

Bits128 VersionHash::of(std::string_view site, std::string_view uid, RawRow cells) {
  begin(site, uid);
  for (const Place& place : places_) {
    const RawCell& cell = cells[place.at];
    if (const auto* integer = std::get_if<std::int64_t>(&cell)) {
      add(place, *integer);
    } else if (const auto* text = std::get_if<std::string_view>(&cell)) {
      add(place, *text);
    }
  }
  return siphash128(kKey, bytes_);
}

Bits128 VersionHash::of(std::string_view site, std::string_view uid,
                        std::span<const std::pair<std::string, const Column*>> columns, std::size_t row) {
  begin(site, uid);
  for (const Place& place : places_) {
    const Column& cells = *columns[place.at].second;
    if (cells.is_null(row)) continue;
    if (is_text(cells.type())) {
      add(place, cells.text(row));
    } else {
      add(place, cells.integer(row));
    }
  }
  return siphash128(kKey, bytes_);
}

Bits128 VersionHash::of_end(std::string_view site, std::string_view uid, std::int64_t from) {
  begin(site, uid);
  bytes_ += kEnd;
  add(static_cast<std::uint64_t>(from));
  return siphash128(kKey, bytes_);
}

void WrittenSums::clear() { *this = {}; }

void WrittenSums::add(const NewVersions& rows, std::string_view site) {
  std::vector<std::string> names;
  for (const auto& [name, column] : rows.columns) names.push_back(name);
  VersionHash hash(rows.table, names);
  TableSums& sums = sums_[std::string(rows.table)];
  for (std::size_t row = 0; row < rows.rows; ++row) sums.wrote += hash.of(site, rows.uid(row), rows.columns, row);
}

}  // namespace sherd::store
