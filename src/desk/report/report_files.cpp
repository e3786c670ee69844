#include "desk/report/report_files.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/csv.h"
#include "base/text.h"
#include "desk/frame/csv.h"
#include "desk/report/convert_report.h"
#include "exchange/sheets/write_xlsx.h"
#include "report/html.h"

namespace sherd::desk {

namespace {

using report::Block;
using report::Document;
using report::DocumentTable;
using report::Section;

constexpr std::size_t kMostPrinted = 2000;

struct Format {
  ReportFormat format;
  std::string_view ending, media_type;
};
constexpr Format kFormats[]{
    {ReportFormat::html, "html", "text/html"},
    {ReportFormat::docx, "docx", "application/vnd.openxmlformats-officedocument.wordprocessingml.document"},
    {ReportFormat::pdf, "pdf", "application/pdf"},
    {ReportFormat::xlsx, "xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"},
    {ReportFormat::csv, "csv", "text/csv"}};

const Format& row_of(ReportFormat format) { return kFormats[static_cast<std::size_t>(format)]; }

std::string sheet_title(const DocumentTable& table) {
  std::string title = std::to_string(table.number) + " " + replace_all(table.id.empty() ? "table" : table.id, "_", " ");
  for (char& c : title) {
    if (std::string_view("[]:*?/\\").find(c) != std::string_view::npos) c = ' ';
  }
  return shortened(title, 28);
}

exchange::XlsxTable sheet_of(const DocumentTable& table) {
  auto rows = plain_rows(table);
  exchange::XlsxTable sheet{.title = sheet_title(table), .columns = {}, .rows = {}};
  const bool grouped = !table.heads.empty();
  for (std::size_t i = 0; i < rows.front().size(); ++i) {
    const bool first = grouped && i == 0;
    const std::size_t column = grouped && !first ? i - 1 : i;
    const bool number = !first && table.columns[column].number;
    sheet.columns.push_back({rows.front()[i], number ? 10.0 : 24.0,
                             number ? exchange::XlsxColumnType::number : exchange::XlsxColumnType::text});
  }
  sheet.rows.assign(std::make_move_iterator(rows.begin() + 1), std::make_move_iterator(rows.end()));
  return sheet;
}

Result<std::string> workbook(const std::vector<const DocumentTable*>& tables, const std::string& title) {
  exchange::XlsxBook book{.sheets = {}, .title = title};
  for (const DocumentTable* table : tables) book.sheets.push_back(sheet_of(*table));
  if (book.sheets.empty()) return fail("no_table", "the report has no tables");
  return exchange::write_xlsx(book);
}

Result<std::string> one_table(const Document& document, const std::string& wanted) {
  std::vector<std::string> known;
  const auto tables = report::tables_of(document);
  for (const DocumentTable* table : tables) known.push_back(table->id);
  if (wanted.empty())
    return fail(ErrorKind::usage, "which_table", "a CSV holds one table",
                "say --table with one of: " + join(known, ", ") + "; an .xlsx holds all of them");
  const auto found = std::ranges::find(tables, wanted, [](const DocumentTable* table) { return table->id; });
  if (found == tables.end()) {
    const std::string hint = did_you_mean(wanted, known);
    return fail(ErrorKind::usage, "no_table", "the report has no table \"" + wanted + "\"",
                hint.empty() ? "it has: " + join(known, ", ") : hint);
  }
  return csv_text(plain_rows(**found));
}

/// Tables of more than 2,000 rows taken out, a sentence in the place of each.
std::vector<DocumentTable> take_long(Document& document, const std::string& annex_name) {
  std::vector<DocumentTable> taken;
  for (Section& section : document.sections) {
    for (Block& block : section.blocks) {
      auto* table = std::get_if<DocumentTable>(&block);
      if (table == nullptr || table->rows.size() <= kMostPrinted) continue;
      const std::string name = document.words("table") + " " + std::to_string(table->number);
      const std::string rows = document.words.counted(std::ssize(table->rows), "row");
      const std::string words =
          annex_name.empty() ? document.words("pdf.annex_here", {{"table", name}, {"rows", rows}})
                             : document.words("pdf.annex", {{"table", name}, {"rows", rows}, {"file", annex_name}});
      // What refers to the table leads here.
      const std::string anchor = table->id.empty() ? "" : " id=\"item-" + report::html_text(table->id) + "\"";
      taken.push_back(std::move(*table));
      block = report::Prose{"<p" + anchor + ">" + report::html_text(words) + "</p>\n"};
    }
  }
  return taken;
}

Result<ReportFile> printed(Document document, const std::string& annex_name, Environment& environment,
                           Progress& progress) {
  ReportFile out;
  const std::vector<DocumentTable> taken = take_long(document, annex_name);
  if (!taken.empty()) {
    std::vector<const DocumentTable*> tables;
    for (const DocumentTable& table : taken) tables.push_back(&table);
    if (!annex_name.empty()) {
      SHERD_TRY(out.annex, workbook(tables, document.title));
    }
    out.warnings.push_back(fmt::format("{} longer than {} rows {}", counted(std::ssize(taken), "table"),
                                       grouped(kMostPrinted),
                                       annex_name.empty() ? "not printed" : "in the annex " + annex_name));
  }
  SHERD_TRY(out.bytes, pdf_of(report::document_html(document), environment, progress));
  return out;
}

}  // namespace

Result<ReportFormat> report_format(const std::string& name) {
  const std::string low = lower(name);
  for (const Format& format : kFormats) {
    if (low == format.ending || low.ends_with("." + std::string(format.ending))) return format.format;
  }
  return fail(ErrorKind::usage, "unknown_format", "\"" + name + "\" names no format that the report can have",
              "end it in .html, .docx, .pdf, .xlsx or .csv");
}

std::string_view media_type(ReportFormat format) { return row_of(format).media_type; }
std::string_view ending(ReportFormat format) { return row_of(format).ending; }

std::vector<std::vector<std::string>> plain_rows(const report::DocumentTable& table) {
  const bool grouped = !table.heads.empty();
  std::vector<std::vector<std::string>> out(1);
  if (grouped) out[0].emplace_back("group");
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    std::string title = table.columns[i].title;
    if (title == "%" && i > 0) title = table.columns[i - 1].title + " %";
    out[0].push_back(std::move(title));
  }
  std::string group;
  const auto add = [&](const std::vector<std::string>& cells) {
    std::vector<std::string>& row = out.emplace_back();
    if (grouped) row.push_back(group);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const std::string cell = i < cells.size() ? cells[i] : "";
      row.push_back(table.columns[i].number ? report::plain_number(cell) : cell);
    }
  };
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    if (std::ranges::find(table.heads, i) != table.heads.end()) {
      group = table.rows[i].front();
    } else {
      add(table.rows[i]);
    }
  }
  group.clear();
  if (!table.total.empty()) add(table.total);
  return out;
}

Result<ReportFile> report_file(const report::Document& document, ReportFormat format, const std::string& table,
                               const std::string& annex_name, Environment& environment, Progress& progress) {
  ReportFile out;
  switch (format) {
    case ReportFormat::html:
      out.bytes = report::document_html(document);
      return out;
    case ReportFormat::docx: {
      SHERD_TRY(out.bytes, docx_of(report::document_pandoc(document), environment, progress));
      return out;
    }
    case ReportFormat::pdf:
      return printed(document, annex_name, environment, progress);
    case ReportFormat::xlsx: {
      SHERD_TRY(out.bytes, workbook(report::tables_of(document), document.title));
      return out;
    }
    case ReportFormat::csv: {
      SHERD_TRY(out.bytes, one_table(document, table));
      return out;
    }
  }
  return out;
}

}  // namespace sherd::desk
