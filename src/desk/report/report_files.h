#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/frame/environment.h"
#include "report/document.h"

/// A composed report as the bytes of a file.
namespace sherd::desk {

enum class ReportFormat : std::uint8_t { html, docx, pdf, xlsx, csv };

/// By the ending of a file's name, or by the format's own. Error, of kind usage: `unknown_format`.
Result<ReportFormat> report_format(const std::string& name);
std::string_view media_type(ReportFormat format);
std::string_view ending(ReportFormat format);

/// What a format made of a report, and what to know of it.
struct ReportFile {
  std::string bytes;
  std::string annex;  ///< PDF: XLSX of the tables that are too long to print; "" where there are none
  std::vector<std::string> warnings;
};

/// `table`: of CSV, its id. `annex_name`: how the annex of a PDF will be called, "" where none is written. Errors:
/// `which_table`, `no_table`; `no_pandoc`, `no_weasyprint` (with the package to install), `not_converted`; those of
/// XLSX.
Result<ReportFile> report_file(const report::Document& document, ReportFormat format, const std::string& table,
                               const std::string& annex_name, Environment& environment, Progress& progress);

/// A table with its heading and total as rows of plain cells: numbers as other programs read them, the name of a group
/// of rows in a column of its own.
std::vector<std::vector<std::string>> plain_rows(const report::DocumentTable& table);

}  // namespace sherd::desk
