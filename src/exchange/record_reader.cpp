#include "exchange/record_reader.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::exchange {

namespace {

std::string_view cell_at(const SheetRow& row, std::size_t at) {
  return at < row.cells.size() ? trim(row.cells[at].text) : std::string_view{};
}

bool is_number_column(CellType type) { return !is_text(type) && type != CellType::year; }

/// What the decimals of one file look like, told over its number columns.
struct DecimalVotes {
  std::int64_t points = 0;
  std::int64_t commas = 0;  ///< that cannot be a thousand's mark

  void look(std::string_view text) {
    const std::size_t comma = text.find(',');
    if (text.find('.') != std::string_view::npos) ++points;
    if (comma == std::string_view::npos || text.find(',', comma + 1) != std::string_view::npos) return;
    const std::size_t behind = text.size() - comma - 1;
    if (behind != 3 || comma == 0 || comma > 3 || text.starts_with("0,")) ++commas;
  }
};

void add_to(std::optional<std::int64_t>& total, std::int64_t value) {
  if (value != Column::kNull) total = total.value_or(0) + value;
}

}  // namespace

Result<std::unique_ptr<RecordReader>> RecordReader::open(Kind kind, std::string_view bytes, std::string file_name,
                                                         ReadOptions options) {
  std::unique_ptr<RecordReader> reader(new RecordReader(kind, bytes, std::move(file_name), std::move(options)));
  if (const std::string& style = reader->options_.mapping.date_style; !style.empty()) {
    SHERD_TRY(reader->style_.date_style, notation::date_style_named(style));
  }
  SHERD_TRY(reader->source_, reader->open_again());
  SHERD_CHECK(reader->read_headings());
  SHERD_CHECK(reader->look_ahead());
  reader->parser_ = std::make_unique<RowParser>(reader->spec_, reader->plan_, reader->style_, reader->options_.known,
                                                reader->options_.new_codes, reader->options_.stored);
  return reader;
}

Result<void> RecordReader::read_headings() {
  SheetRow row;
  SHERD_TRY(const bool any, source_->next(row));
  if (!any) return fail("empty_file", "the table has no rows");
  std::vector<std::string> headings;
  for (const Cell& cell : row.cells) headings.emplace_back(trim(cell.text));
  SHERD_TRY(plan_, plan_headings(spec_.kind, headings, options_.mapping, options_.stored != nullptr));
  return {};
}

Result<std::unique_ptr<RowSource>> RecordReader::open_again() const {
  return open_table(bytes_, file_name_, options_.sheet, options_.limits);
}

Result<std::int64_t> RecordReader::largest_record() {
  if (largest_record_) return *largest_record_;
  largest_record_ = 0;
  const auto planned = std::find_if(plan_.columns.begin(), plan_.columns.end(), [](const PlannedColumn& column) {
    return column.spec->name == "record" && column.sources.size() == 1;
  });
  if (planned == plan_.columns.end()) return *largest_record_;
  SHERD_TRY(const auto source, open_again());
  SheetRow row;
  for (;;) {
    SHERD_TRY(const bool any, source->next(row));
    if (!any) return *largest_record_;
    const auto number = parse_scaled(cell_at(row, planned->sources.front()), 0);
    if (number) largest_record_ = std::max(*largest_record_, *number);
  }
}

Result<void> RecordReader::look_ahead() {
  const bool refers_to_itself = std::any_of(spec_.columns.begin(), spec_.columns.end(),
                                            [&](const ColumnSpec& c) { return c.refers == spec_.kind; });
  const bool may_have_commas = options_.mapping.decimal.empty() && bytes_.find(',') != std::string_view::npos &&
                               (source_->format().kind == "csv" || source_->format().kind == "tsv");
  if (!options_.mapping.decimal.empty()) style_.decimal = options_.mapping.decimal.front();
  if (!refers_to_itself && !may_have_commas) return {};
  constexpr std::int64_t kLook = 20'000;  // rows whose decimals are looked at
  SHERD_TRY(const auto source, open_again());
  DecimalVotes votes;
  SheetRow row;
  bool heading = true;
  for (std::int64_t seen = 0; refers_to_itself || seen < kLook; ++seen) {
    SHERD_TRY(const bool any, source->next(row));
    if (!any) break;
    if (std::exchange(heading, false)) continue;
    for (const PlannedColumn& column : plan_.columns) {
      if (column.sources.size() != 1) continue;
      const std::string_view text = cell_at(row, column.sources.front());
      if (is_number_column(column.spec->type)) votes.look(text);
      if (refers_to_itself && column.spec->key && !text.empty()) options_.known[spec_.kind].add(text);
    }
  }
  if (may_have_commas && votes.commas > 0 && votes.points == 0) style_.decimal = ',';
  return {};
}

bool RecordReader::is_left_out(const SheetRow& row) const {
  return std::any_of(plan_.only.begin(), plan_.only.end(),
                     [&](const RowFilter& filter) { return !filter.values.contains(cell_at(row, filter.source)); });
}

bool RecordReader::has_other_key() const {
  return options_.only && !options_.only->has(key_text(spec_, parser_->values()));
}

bool RecordReader::is_repeated_relation() {
  if (spec_.kind != Kind::relations) return false;
  const std::string key = key_text(spec_, parser_->values());
  return !seen_.add(key) || (!options_.update && options_.existing.has(key));
}

bool RecordReader::key_is_free() {
  const std::string key = key_text(spec_, parser_->values());
  if (key.empty() || spec_.kind == Kind::relations) return true;
  const std::string column = spec_.key_names().front();
  if (!options_.update && options_.existing.has(key)) {
    parser_->problems().push_back({0,
                                   {},
                                   column,
                                   "already_there",
                                   key,
                                   spec_.one + " \"" + shortened(key, 60) + "\" is in the store already",
                                   "--update applies the differences"});
    return false;
  }
  if (!seen_.add(key)) {
    parser_->problems().push_back(
        {0, {}, column, "duplicate", key, spec_.one + " \"" + shortened(key, 60) + "\" stands in the table twice", {}});
    return false;
  }
  return true;
}

std::string RecordReader::extra_of(const SheetRow& row) const {
  nlohmann::ordered_json extra = nlohmann::ordered_json::object();
  for (const auto& [source, heading] : plan_.extras) {
    if (const std::string_view text = cell_at(row, source); !text.empty()) extra[heading] = std::string(text);
  }
  return extra.empty() ? std::string{} : extra.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

Table RecordReader::empty_table() const {
  Table table(spec_.kind);
  for (std::size_t i = 0; i < spec_.columns.size(); ++i) {
    if (parser_->present()[i]) table.add(spec_.columns[i].name, spec_.columns[i].type);
  }
  if (!plan_.extras.empty()) table.add("extra", CellType::text);
  return table;
}

void RecordReader::push(Table& table, const SheetRow& row) {
  std::size_t at = 0;
  for (std::size_t i = 0; i < spec_.columns.size(); ++i) {
    if (!parser_->present()[i]) continue;
    Column& column = table.columns()[at++];
    const RowValue& value = parser_->values()[i];
    if (is_text(column.type())) {
      column.push_text(value.text);
    } else {
      column.push_integer(value.integer);
    }
  }
  if (!plan_.extras.empty()) table.columns().back().push_text(extra_of(row));
}

void RecordReader::add_totals() {
  const RowView row(spec_, parser_->values());
  const auto add = [&](std::optional<std::int64_t>& total, std::string_view column) {
    add_to(total, row.integer(column).value_or(Column::kNull));
  };
  if (spec_.kind == Kind::sherds) {
    add(totals_.count, "count");
    add(totals_.weight_mg, "weight_g");
    add(totals_.vessels, "vessels");
  }
  if (spec_.kind == Kind::sherds || spec_.kind == Kind::rims) add(totals_.permille, "rim_percent");
}

Result<Table> RecordReader::next(std::size_t rows) {
  Table table = empty_table();
  SheetRow row;
  while (table.rows() < rows) {
    SHERD_TRY(const bool any, source_->next(row));
    if (!any) break;
    ++read_;
    if (is_left_out(row)) {
      ++left_out_;
      continue;
    }
    const bool good = parser_->parse(row);
    if (has_other_key()) {
      ++left_out_;
      continue;
    }
    parser_->count_unknown();
    if (good && is_repeated_relation()) {
      ++left_out_;
      ++repeated_;
      continue;
    }
    if (good && key_is_free()) {
      ++kept_;
      push(table, row);
      add_totals();
      continue;
    }
    ++refused_;
    for (Problem& problem : parser_->problems()) {
      problem.row = row.row;
      if (row.line > 0) problem.line = row.line;
      problems_.push_back(std::move(problem));
    }
  }
  return table;
}

}  // namespace sherd::exchange
