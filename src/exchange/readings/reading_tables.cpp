#include "exchange/readings/reading_tables.h"

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "exchange/cell_reader.h"
#include "model/rows.h"
#include "notation/analyte.h"

namespace sherd::exchange {

namespace {

/// Whether amounts are written with a comma: some are, and none has a point.
bool has_decimal_comma(const RawReadings& raw) {
  bool comma = false;
  for (const RawReading& reading : raw.readings) {
    for (const RawAmount& amount : reading.amounts) {
      if (amount.value.find('.') != std::string::npos && amount.value.find_first_of("0123456789") != std::string::npos)
        return false;
      comma = comma || (amount.value.find(',') != std::string::npos &&
                        amount.value.find_first_of("0123456789") != std::string::npos);
    }
  }
  return comma;
}

/// Beyond all of a sample, with one part in a hundred for calibrations that are somewhat out.
std::int64_t most_of(FractionUnit unit) {
  constexpr std::int64_t kOne = 1'000'000;
  return (unit == FractionUnit::percent ? 101 : 1'010'000) * kOne;
}

class Maker {
 public:
  Maker(const RawReadings& raw, const ReadingSettings& settings, const std::string& file)
      : raw_(raw), settings_(settings), file_(file) {}

  Result<ReadingTables> run() {
    out_.decimal_comma = settings_.decimal.empty() ? has_decimal_comma(raw_) : settings_.decimal == ",";
    decimal_ = out_.decimal_comma ? ',' : '.';
    SHERD_CHECK(settle_units());
    SHERD_CHECK(settle_errors());
    name_readings();
    for (std::size_t i = 0; i < raw_.readings.size(); ++i) take(raw_.readings[i], names_[i]);
    warn();
    return std::move(out_);
  }

 private:
  AnalyteCount& count_of(const std::string& analyte) {
    for (AnalyteCount& count : out_.analytes) {
      if (count.analyte == analyte) return count;
    }
    out_.analytes.push_back({.analyte = analyte});
    return out_.analytes.back();
  }

  std::optional<FractionUnit> unit_of(const RawAmount& amount) const {
    if (const auto unit = notation::read_unit(amount.unit)) return unit;
    if (amount.unit_of_heading) return amount.unit_of_heading;
    if (const auto said = settings_.units.find(amount.analyte); said != settings_.units.end()) return said->second;
    return settings_.unit;
  }

  Result<void> settle_units() {
    std::vector<std::string> without;
    std::map<std::string, FractionUnit> units;
    for (const RawReading& reading : raw_.readings) {
      for (const RawAmount& amount : reading.amounts) {
        if (amount.analyte.empty()) continue;
        const auto unit = unit_of(amount);
        if (!unit && std::ranges::find(without, amount.analyte) == without.end()) without.push_back(amount.analyte);
        if (!unit) continue;
        const auto [known, fresh] = units.emplace(amount.analyte, *unit);
        if (!fresh && known->second != *unit) {
          Error error{.code = "mixed_units",
                      .message = amount.analyte + " is in percent in one row and in ppm in another",
                      .hint = "one unit an analyte in a file: part the file where its mode changes"};
          error.where.row = amount.row;
          error.where.column = amount.column;
          return fail(std::move(error));
        }
        AnalyteCount& count = count_of(amount.analyte);
        count.unit = *unit;
        count.unit_said = notation::read_unit(amount.unit) == std::nullopt && !amount.unit_of_heading;
      }
    }
    if (without.empty()) return {};
    return fail("unit_unknown", "the file does not say the unit of " + join(without, ", "),
                "the instrument's settings tell: --units ppm, --units percent, or one by one, --units "
                "Fe=percent,Zr=ppm");
  }

  std::optional<int> multiple_of(const RawAmount& amount) const {
    return amount.multiple ? amount.multiple : settings_.errors;
  }

  Result<void> settle_errors() {
    std::vector<std::string> without;
    for (const RawReading& reading : raw_.readings) {
      for (const RawAmount& amount : reading.amounts) {
        if (amount.error.empty() || amount.analyte.empty()) continue;
        const auto multiple = multiple_of(amount);
        if (multiple) count_of(amount.analyte).errors = multiple;
        if (!multiple && std::ranges::find(without, amount.analyte) == without.end()) without.push_back(amount.analyte);
      }
    }
    if (without.empty()) return {};
    return fail("error_unknown",
                "the file does not say how many standard deviations the errors are (" + join(without, ", ") + ")",
                "instruments give 1, 2 or 3: look at its settings and say --errors 1, 2 or 3");
  }

  std::string sample_of(const RawReading& reading) const {
    const auto found = reading.columns.find("sample");
    if (found == reading.columns.end()) return {};
    std::string sample = found->second;
    if (settings_.cut.empty()) return sample;
    const std::size_t at = sample.find_last_of(settings_.cut);
    return at == std::string::npos || at == 0 ? sample : std::string(trim(std::string_view(sample).substr(0, at)));
  }

  static bool is_average(std::string_view beam) {
    const std::string word = lower(beam);
    return word.starts_with("av") || word == "mean" || word == "total" || word == "all" || word == "combined";
  }

  /// Every reading gets a name of its own: the file's; else the sample's with a number behind it. A beam follows it.
  void name_readings() {
    std::map<std::string, int> seen;
    for (const RawReading& reading : raw_.readings) {
      const auto own = reading.columns.find("reading");
      const auto sample = reading.columns.find("sample");
      const auto beam = reading.columns.find("beam");
      std::string name = settings_.prefix;
      if (own != reading.columns.end()) {
        name += own->second;
      } else {
        name += sample == reading.columns.end() ? "row " + std::to_string(reading.row) : sample->second;
      }
      const bool part = beam != reading.columns.end() && !is_average(beam->second);
      if (part) name += " (" + beam->second + ")";
      const int times = ++seen[name];
      if (own == reading.columns.end() && times > 1) name += "." + std::to_string(times);
      if (own != reading.columns.end() && times > 1)
        add(reading.row, "reading", "already_known", own->second,
            "there are two readings \"" + own->second + "\" in the file",
            "give every reading a number of its own; where the rows are beams of one reading, name the column beam");
      names_.push_back(std::move(name));
    }
  }

  void add(std::int64_t row, std::string column, std::string code, std::string text, std::string message,
           std::string hint) {
    out_.problems.push_back(
        {row, {}, std::move(column), std::move(code), std::move(text), std::move(message), std::move(hint)});
  }

  /// The columns of the table of readings that are not of the amounts; words and numbers read as anywhere else.
  Reading reading_of(const RawReading& raw, const std::string& name) {
    Table table(Kind::readings);
    const std::size_t before = out_.problems.size();
    for (const auto& [column, text] : raw.columns) {
      const ColumnSpec* spec = kind_spec(Kind::readings).column(column);
      if (spec == nullptr || text.empty()) continue;
      Column& cell = table.add(column, spec->type);
      if (spec->type == CellType::text || spec->type == CellType::day) {
        cell.push_text(text);
      } else if (spec->type == CellType::word) {
        const auto known = read_word(text, spec->words);
        if (!known) add(raw.row, column, known.error().code, text, known.error().message, known.error().hint);
        cell.push_text(known ? *known : std::string_view{});
      } else {
        const auto value = read_number(text, spec->type, {}, {decimal_, {}});
        if (!value) add(raw.row, column, value.error().code, text, value.error().message, value.error().hint);
        cell.push_integer(value ? *value : Column::kNull);
      }
    }
    if (table.columns().empty()) table.add("reading", CellType::text).push_text(name);
    Reading reading = rows_from<Reading>(table).front();
    reading.reading = name;
    reading.sample = sample_of(raw);
    reading.file = file_;
    reading.file_row = raw.row;
    if (!reading.beam.empty() && is_average(reading.beam)) reading.beam = "average";
    if (out_.problems.size() > before) out_.refused.insert(name);
    return reading;
  }

  void take(const RawReading& raw, const std::string& name) {
    const std::size_t before = out_.problems.size();
    Reading reading = reading_of(raw, name);
    if (!reading.sequence) reading.sequence = static_cast<std::int64_t>(out_.readings.size()) + 1;
    std::set<std::string> seen;
    for (const RawAmount& amount : raw.amounts) {
      if (amount.analyte.empty()) {
        add(amount.row, "analyte", "unknown_analyte", amount.column,
            "\"" + shortened(amount.column, 40) + "\" is no element or oxide", "write the symbol, such as Fe or Fe2O3");
      } else if (!seen.insert(amount.analyte).second) {
        add(amount.row, amount.column, "analyte_twice", amount.value,
            amount.analyte + " is there twice in reading " + name, "leave one of the two rows");
      } else {
        take_amount(amount, name);
      }
    }
    if (out_.problems.size() > before) out_.refused.insert(name);
    out_.readings.push_back(std::move(reading));
    out_.extras.push_back(raw.extra);
  }

  void take_amount(const RawAmount& amount, const std::string& reading) {
    auto cell = read_amount_cell(amount.value, decimal_);
    if (!cell)
      return add(amount.row, amount.column, cell.error().code, amount.value, cell.error().message, cell.error().hint);
    AnalyteCount& count = count_of(amount.analyte);
    if (!cell->state) {
      ++count.blank;
      return;
    }
    if (cell->value && *cell->value > most_of(count.unit))
      return add(amount.row, amount.column, "more_than_all", amount.value,
                 amount.value + (count.unit == FractionUnit::percent ? " percent" : " ppm") + " of " + amount.analyte +
                     " is more than there can be",
                 "is the unit another? --units, or the heading, says which");
    if (cell->value == 0) ++count.zeros;
    if (cell->value == 0 && settings_.zeros_are_below) *cell = {AmountState::below, {}, {}};
    Concentration out{.reading = reading,
                      .analyte = amount.analyte,
                      .unit = count.unit,
                      .state = cell->state,
                      .raw = amount.value,
                      .raw_error = amount.error};
    if (cell->value) out.value = Decimal{*cell->value};
    const auto error = side_number(amount, amount.error, "error");
    const auto limit = side_number(amount, amount.limit, "limit");
    if (limit) out.limit = Decimal{*limit};
    if (cell->limit) out.limit = Decimal{*cell->limit};
    if (out.state == AmountState::measured && error) out.error = Decimal{*error / *multiple_of(amount)};
    if (out.state == AmountState::below) settle_limit(out, error, count);
    count_state(*out.state, count);
    out_.concentrations.push_back(std::move(out));
  }

  /// Where the cell says "<LOD" and no more: the error's cell, which then holds the limit; the table of limits.
  void settle_limit(Concentration& out, std::optional<std::int64_t> error, AnalyteCount& count) const {
    if (!out.limit && error && *error > 0) out.limit = Decimal{*error};
    if (const auto said = settings_.limits.find(out.analyte); !out.limit && said != settings_.limits.end())
      out.limit = Decimal{said->second};
    if (!out.limit) ++count.without_limit;
  }

  std::optional<std::int64_t> side_number(const RawAmount& amount, const std::string& text, const char* what) {
    const auto cell = read_amount_cell(text, decimal_);
    if (!cell) {
      add(amount.row, amount.column + " " + what, cell.error().code, text, cell.error().message, cell.error().hint);
      return std::nullopt;
    }
    return cell->limit ? cell->limit : cell->value;
  }

  static void count_state(AmountState state, AnalyteCount& count) {
    if (state == AmountState::measured) ++count.measured;
    if (state == AmountState::below) ++count.below;
    if (state == AmountState::above) ++count.above;
    if (state == AmountState::missing) ++count.missing;
  }

  void warn() {
    std::vector<std::string> zeros;
    std::vector<std::string> limits;
    for (const AnalyteCount& count : out_.analytes) {
      if (count.zeros > 0) zeros.push_back(count.analyte + " " + std::to_string(count.zeros));
      if (count.without_limit > 0) limits.push_back(count.analyte + " " + std::to_string(count.without_limit));
    }
    if (!zeros.empty() && !settings_.zeros_are_below)
      out_.warnings.push_back("amounts of 0 are kept as 0 (" + join(zeros, ", ") +
                              "); where the instrument writes 0 for what it did not detect, say --zeros below");
    if (!limits.empty())
      out_.warnings.push_back("below a limit that is not known (" + join(limits, ", ") +
                              "): --limits FILE gives them, by analyte");
    if (out_.decimal_comma) out_.warnings.emplace_back("numbers were read with a decimal comma");
    if (!raw_.pseudo.empty())
      out_.warnings.push_back("no elements, kept beside the readings: " + join(raw_.pseudo, ", "));
    if (raw_.header_changes > 0)
      out_.warnings.push_back("the headings change " + counted(raw_.header_changes, "time") + " on the way down");
  }

  const RawReadings& raw_;
  const ReadingSettings& settings_;
  const std::string& file_;
  char decimal_ = '.';
  std::vector<std::string> names_;
  ReadingTables out_;
};

}  // namespace

Result<ReadingTables> reading_tables(const RawReadings& raw, const ReadingSettings& settings, const std::string& file) {
  return Maker(raw, settings, file).run();
}

}  // namespace sherd::exchange
