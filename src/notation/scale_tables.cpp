#include "notation/scale_tables.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::notation {

namespace {

enum Columns : std::size_t {
  kAttribute,
  kScale,
  kVersion,
  kUnit,
  kUsual,
  kWord,
  kAlso,
  kLow,
  kHigh,
  kExact,
  kKnown,
  kNote,
  kSource
};

Result<ScaleClass> class_at(const CsvTable& table, std::size_t row) {
  ScaleClass one;
  one.word = table.text(row, kWord);
  if (one.word.empty()) return table.bad(row, kWord, "is blank");
  if (!table.text(row, kAlso).empty()) {
    for (const std::string_view also : split(table.text(row, kAlso), '|')) one.also.emplace_back(also);
  }
  SHERD_TRY(one.low, table.number(row, kLow));
  SHERD_TRY(one.high, table.number(row, kHigh));
  if (one.low && one.high && *one.high < *one.low) return table.bad(row, kHigh, "is below low");
  one.exact = table.text(row, kExact) == "yes";
  const auto known = from_word<Known>(table.text(row, kKnown));
  if (!known) return table.bad(row, kKnown, "is none of read, memory, calculated");
  one.known = *known;
  one.note = table.text(row, kNote);
  return one;
}

}  // namespace

Result<ScaleTables> scale_tables(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"attribute", "scale", "version", "unit", "usual", "word", "also",
                                                      "low", "high", "exact", "known", "note", "source"}));
  ScaleTables out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    const auto attribute = from_word<Attribute>(table.text(r, kAttribute));
    if (!attribute) return table.bad(r, kAttribute, "is nothing that is graded");
    const std::string& name = table.text(r, kScale);
    if (out.scales.empty() || out.scales.back().name != name || out.scales.back().attribute != *attribute) {
      const bool twice = std::ranges::any_of(
          out.scales, [&](const Scale& scale) { return scale.name == name && scale.attribute == *attribute; });
      if (twice) return table.bad(r, kScale, "stands in two places");
      if (table.text(r, kSource).empty()) return table.bad(r, kSource, "names no source");
      out.scales.push_back({*attribute,
                            name,
                            table.text(r, kVersion),
                            table.text(r, kUnit),
                            table.text(r, kSource),
                            table.text(r, kUsual) == "yes",
                            {}});
    }
    SHERD_TRY(ScaleClass one, class_at(table, r));
    out.scales.back().classes.push_back(std::move(one));
  }
  return out;
}

}  // namespace sherd::notation
