#include "desk/archive/archive_csv.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <numeric>
#include <optional>
#include <tuple>

#include "base/csv.h"
#include "base/numbers.h"
#include "base/text.h"
#include "exchange/sheets/write_csv.h"
#include "model/year.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::json;

/// What was kept from files, column by column.
struct Extras {
  std::map<std::string, std::vector<std::string>> columns;  ///< by name; a cell a row, shorter where blank at the end
  std::vector<std::string> as_json;                         ///< what does not go into columns
};

/// The columns of one kept object; nothing where they would not give the same text again.
std::optional<std::map<std::string, std::string>> as_columns(std::string_view text) {
  const Json object = Json::parse(text, nullptr, false);
  if (!object.is_object()) return std::nullopt;
  std::map<std::string, std::string> out;
  for (const auto& [name, value] : object.items()) {
    if (!value.is_string() || value.get_ref<const std::string&>().empty() || name.empty()) return std::nullopt;
    out[name] = value.get<std::string>();
  }
  if (object.dump() != text) return std::nullopt;
  return out;
}

Extras extras_of(const Column* kept, const std::vector<std::size_t>& rows) {
  Extras out;
  if (kept == nullptr) return out;
  for (std::size_t at = 0; at < rows.size(); ++at) {
    if (kept->is_null(rows[at])) continue;
    const std::string_view text = kept->text(rows[at]);
    const auto columns = as_columns(text);
    if (!columns) {
      out.as_json.resize(at + 1);
      out.as_json[at] = text;
      continue;
    }
    for (const auto& [name, value] : *columns) {
      auto& cells = out.columns[name];
      cells.resize(at + 1);
      cells[at] = value;
    }
  }
  return out;
}

std::string cell_at(const std::vector<std::string>& cells, std::size_t at) {
  return at < cells.size() ? cells[at] : std::string();
}

void note(CellFacts& facts, std::string_view cell) {
  facts.longest = std::max(facts.longest, cell.size());
  facts.any_blank = facts.any_blank || cell.empty();
  facts.all_days = facts.all_days && (cell.empty() || is_day(cell));
}

/// Writes the rows chosen of one table.
class Writer {
 public:
  Writer(const TableVersions& versions, bool former, const std::vector<AddedColumn>& added)
      : rows_of_(versions.rows), former_(former), added_(added) {
    const Column& to = *rows_of_.find("to_change");
    for (std::size_t row = 0; row < rows_of_.rows(); ++row) {
      if (to.is_null(row) != former) rows_.push_back(row);
    }
    for (std::size_t i = 0; i < rows_of_.names().size(); ++i) {
      const std::string& name = rows_of_.names()[i];
      if (name != "uid" && name != "from_change" && name != "to_change" && name != kExtraColumn) plain_.push_back(i);
    }
    extras_ = extras_of(rows_of_.find(kExtraColumn), rows_);
  }

  CsvText run() {
    head();
    out_.facts.resize(out_.names.size());
    csv_.row(std::span<const std::string>(out_.names));
    std::vector<std::string> cells(out_.names.size());
    for (std::size_t at = 0; at < rows_.size(); ++at) {
      fill(cells, at);
      for (std::size_t i = 0; i < cells.size(); ++i) note(out_.facts[i], cells[i]);
      csv_.row(std::span<const std::string>(cells));
    }
    out_.rows = std::ssize(rows_);
    out_.text = csv_.take();
    return std::move(out_);
  }

 private:
  void head() {
    for (const std::size_t i : plain_) out_.names.push_back(rows_of_.names()[i]);
    for (const AddedColumn& column : added_) out_.names.push_back(column.name);
    for (const auto& [name, cells] : extras_.columns) out_.names.push_back(std::string(kExtraPrefix) + name);
    if (!extras_.as_json.empty()) out_.names.emplace_back(kExtraColumn);
    out_.names.emplace_back(kRowColumn);
    out_.names.emplace_back(kFromColumn);
    if (former_) out_.names.emplace_back(kToColumn);
  }

  void fill(std::vector<std::string>& cells, std::size_t at) const {
    const std::size_t row = rows_[at];
    std::size_t place = 0;
    for (const std::size_t i : plain_) {
      const Column& column = rows_of_.columns()[i];
      if (is_text(column.type())) {
        cells[place++].assign(column.text(row));
      } else {
        cells[place++] = value_text(column.type(), column.integer(row));
      }
    }
    for (const AddedColumn& column : added_) cells[place++] = column.cell(row);
    for (const auto& [name, kept] : extras_.columns) cells[place++] = cell_at(kept, at);
    if (!extras_.as_json.empty()) cells[place++] = cell_at(extras_.as_json, at);
    cells[place++].assign(rows_of_.find("uid")->text(row));
    cells[place++] = cell_text(*rows_of_.find("from_change"), row);
    if (former_) cells[place++] = cell_text(*rows_of_.find("to_change"), row);
  }

  const Table& rows_of_;
  bool former_;
  const std::vector<AddedColumn>& added_;
  std::vector<std::size_t> rows_, plain_;
  Extras extras_;
  CsvText out_;
  exchange::CsvWriter csv_{',', exchange::FormulaCells::exact};
};

std::unexpected<Error> damaged(const std::string& file, std::int64_t row, const std::string& column,
                               std::string message) {
  Error error{.code = "damaged_archive", .message = std::move(message), .hint = "verify says which files were changed"};
  error.where.file = file;
  error.where.row = row;
  error.where.column = column;
  return fail(std::move(error));
}

Result<std::int64_t> integer_of(CellType type, std::string_view text) {
  if (text.empty()) return Column::kNull;
  if (type != CellType::year) return parse_scaled(text, decimals(type));
  SHERD_TRY(const std::int64_t number, parse_scaled(text, 0));
  return from_historical(number).value;
}

/// Where the cells of a text go.
class Reader {
 public:
  Reader(const std::string& file, TableVersions& into) : file_(file), into_(into.rows) {}

  Result<void> head(const std::vector<std::string>& names) {
    names_ = names;
    for (std::size_t i = 0; i < names.size(); ++i) {
      std::string name = names[i];
      if (name == kRowColumn) name = "uid";
      const bool kept = name.starts_with(kExtraPrefix);
      const auto known = std::ranges::find(into_.names(), name);
      if (kept) {
        extras_.emplace_back(i, name.substr(kExtraPrefix.size()));
      } else if (known != into_.names().end()) {
        place_[static_cast<std::size_t>(known - into_.names().begin())] = i;
      }
    }
    const Column* extra = into_.find(kExtraColumn);
    if (!extras_.empty() && extra == nullptr) return damaged(file_, 1, "extra", "the table keeps no other columns");
    return {};
  }

  Result<void> row(const std::vector<std::string>& cells, std::int64_t number) {
    for (std::size_t i = 0; i < into_.columns().size(); ++i) {
      Column& column = into_.columns()[i];
      const auto from = place_.find(i);
      if (from == place_.end()) {
        column.push_null();
      } else if (is_text(column.type())) {
        column.push_text(cells[from->second]);
      } else {
        const auto value = integer_of(column.type(), cells[from->second]);
        if (!value)
          return damaged(file_, number, names_[from->second], "\"" + cells[from->second] + "\" is not a number");
        column.push_integer(*value);
      }
    }
    keep_extras(cells);
    return {};
  }

 private:
  void keep_extras(const std::vector<std::string>& cells) {
    Json object = Json::object();
    for (const auto& [i, name] : extras_) {
      if (!cells[i].empty()) object[name] = cells[i];
    }
    if (object.empty()) return;
    Column& column = *into_.find(kExtraColumn);
    column.set_text(column.size() - 1, object.dump());
  }

  const std::string& file_;
  Table& into_;
  std::vector<std::string> names_;
  std::map<std::size_t, std::size_t> place_;  ///< column of the table -> cell
  std::vector<std::pair<std::size_t, std::string>> extras_;
};

}  // namespace

bool is_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i != 4 && i != 7 && (text[i] < '0' || text[i] > '9')) return false;
  }
  const int month = (text[5] - '0') * 10 + (text[6] - '0'), day = (text[8] - '0') * 10 + (text[9] - '0');
  constexpr std::array kDays{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12) return false;
  const int year = std::stoi(std::string(text.substr(0, 4)));
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return day >= 1 && day <= kDays[static_cast<std::size_t>(month - 1)] + (leap && month == 2 ? 1 : 0);
}

CsvText csv_of(const TableVersions& versions, bool former, const std::vector<AddedColumn>& added) {
  return Writer(versions, former, added).run();
}

Result<void> read_versions(std::string_view text, const std::string& file, TableVersions& into) {
  CsvCursor cursor(text);
  std::vector<std::string> cells;
  Reader reader(file, into);
  for (std::int64_t number = 1;; ++number) {
    const auto more = cursor.next(cells);
    if (!more) return damaged(file, number, {}, more.error().message);
    if (!*more) break;
    for (const std::string& cell : cells) {
      if (!is_utf8(cell)) return damaged(file, number, {}, "what stands here is no UTF-8 text");
    }
    if (number == 1) {
      SHERD_CHECK(reader.head(cells));
    } else {
      SHERD_CHECK(reader.row(cells, number));
    }
  }
  return {};
}

void sort_versions(TableVersions& versions) {
  const Table& rows = versions.rows;
  std::vector<std::uint32_t> order(rows.rows());
  std::iota(order.begin(), order.end(), 0U);
  const Column& uid = *rows.find("uid");
  const Column& from = *rows.find("from_change");
  const auto key = [&](std::uint32_t row) { return std::tuple(uid.text(row), from.integer(row)); };
  if (std::ranges::is_sorted(order, {}, key)) return;
  std::ranges::sort(order, {}, key);
  versions.rows = picked(rows, order);
}

}  // namespace sherd::desk
