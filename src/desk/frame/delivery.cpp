#include "desk/frame/delivery.h"

#include <algorithm>
#include <array>
#include <optional>

#include "base/base64.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/csv.h"
#include "exchange/sheets/write_xlsx.h"
#include "figure/render.h"

namespace sherd::desk {

namespace {

enum class Format { svg, pdf, png, csv, xlsx };
constexpr std::array<std::string_view, 5> kEndings{"svg", "pdf", "png", "csv", "xlsx"};
constexpr std::array<std::string_view, 5> kMediaTypes{
    "image/svg+xml", "application/pdf", "image/png", "text/csv",
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"};
constexpr std::int64_t kNarrowestMm = 84, kWidestMm = 400;

std::optional<Format> format_named(std::string_view ending) {
  const auto at = std::ranges::find(kEndings, ending);
  if (at == kEndings.end()) return std::nullopt;
  return static_cast<Format>(at - kEndings.begin());
}

std::optional<Format> format_of_file(const std::string& file) {
  const auto dot = file.rfind('.');
  return dot == std::string::npos ? std::nullopt : format_named(lower(file.substr(dot + 1)));
}

bool is_drawn(Format format) { return format == Format::svg || format == Format::pdf || format == Format::png; }

/// A column whose cells are all numbers or blank.
bool is_of_numbers(const std::vector<std::vector<std::string>>& rows, std::size_t column) {
  bool any = false;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const std::string& cell = column < rows[i].size() ? rows[i][column] : std::string();
    if (cell.empty()) continue;
    if (!parse_scaled(cell, 9)) return false;
    any = true;
  }
  return any;
}

exchange::XlsxTable sheet_of(AnswerTable table) {
  exchange::XlsxTable out{.title = std::move(table.title), .columns = {}, .rows = {}};
  for (std::size_t j = 0; j < table.rows.front().size(); ++j) {
    const bool numbers = j > 0 && is_of_numbers(table.rows, j);
    out.columns.push_back({table.rows.front()[j], j == 0 ? 20.0 : 12.0,
                           numbers ? exchange::XlsxColumnType::number : exchange::XlsxColumnType::text});
  }
  table.rows.erase(table.rows.begin());
  out.rows = std::move(table.rows);
  return out;
}

/// What the figures' words and the warnings say, so that a table is not read without them.
exchange::XlsxTable about_sheet(const Deliverable& what, const Reply& reply) {
  exchange::XlsxTable out{.title = "about", .columns = {{"what", 20}, {"", 90}}, .rows = {}};
  if (!what.caution.empty()) out.rows.push_back({"caution", what.caution});
  for (const auto& [name, value] : reply.provenance.settings) {
    if (!value.empty()) out.rows.push_back({name, value});
  }
  for (const std::string& input : reply.provenance.inputs) out.rows.push_back({"from", input});
  if (reply.provenance.seed) out.rows.push_back({"seed", std::to_string(*reply.provenance.seed)});
  for (const std::string& warning : reply.warnings) out.rows.push_back({"warning", warning});
  out.rows.push_back({"version", reply.provenance.version});
  return out;
}

class Maker {
 public:
  Maker(const DeliveryRequest& request, const Deliverable& what, const std::vector<DrawnPicture>& pictures,
        const Reply& reply)
      : request_(request), what_(what), pictures_(pictures), reply_(reply) {}

  Result<std::string> bytes(Format format) const {
    if (format == Format::csv || format == Format::xlsx) return table_bytes(format);
    SHERD_TRY(const DrawnPicture* picture, chosen());
    if (format == Format::svg) return picture->svg;
    if (format == Format::pdf) return figure::to_pdf(picture->svg, {.title = picture->title});
    return figure::to_png(picture->svg, {});
  }

  /// "ordination-map" without an ending.
  Result<std::string> name(Format format) const {
    if (!is_drawn(format)) return what_.name;
    SHERD_TRY(const DrawnPicture* picture, chosen());
    return what_.name + "-" + picture->name;
  }

 private:
  Result<const DrawnPicture*> chosen() const {
    std::vector<std::string> names;
    for (const DrawnPicture& picture : pictures_) {
      if (request_.figure.empty() || picture.name == request_.figure) return &picture;
      names.push_back(picture.name);
    }
    if (names.empty()) return fail("no_figure", "there is no figure of this", "write a table: .csv or .xlsx");
    return fail(ErrorKind::usage, "no_figure", "there is no figure \"" + request_.figure + "\" of this",
                "choose " + join(names, ", "));
  }

  Result<std::string> table_bytes(Format format) const {
    std::vector<AnswerTable> tables = what_.tables();
    if (tables.empty() || tables.front().rows.empty())
      return fail("no_table", "there is no table of this", "say --json");
    if (format == Format::csv) return csv_text(tables.front().rows);
    exchange::XlsxBook book{.sheets = {}, .title = what_.title, .created = 0};
    for (AnswerTable& table : tables) book.sheets.push_back(sheet_of(std::move(table)));
    book.sheets.push_back(about_sheet(what_, reply_));
    return exchange::write_xlsx(book);
  }

  const DeliveryRequest& request_;
  const Deliverable& what_;
  const std::vector<DrawnPicture>& pictures_;
  const Reply& reply_;
};

}  // namespace

bool wants_figures(const DeliveryRequest& request) {
  const auto drawn = [](std::optional<Format> format) { return format && is_drawn(*format); };
  return request.picture || drawn(format_named(request.give)) ||
         std::ranges::any_of(request.out, [&](const std::string& file) { return drawn(format_of_file(file)); });
}

Result<void> check_delivery(const DeliveryRequest& request) {
  const std::string known = "choose svg, pdf, png, csv or xlsx";
  if (!request.give.empty() && !format_named(request.give))
    return fail(ErrorKind::usage, "unknown_format", "no file of the kind \"" + request.give + "\" can be given", known);
  for (const std::string& file : request.out) {
    if (!format_of_file(file))
      return fail(ErrorKind::usage, "unknown_format", "\"" + file + "\" names no format that can be written",
                  "end it in .svg, .pdf, .png, .csv or .xlsx");
  }
  if (request.width && (*request.width < kNarrowestMm || *request.width > kWidestMm))
    return fail(ErrorKind::usage, "bad_choice", "--width takes 84 to 400 mm");
  return {};
}

Result<void> deliver(const DeliveryRequest& request, const Deliverable& what, std::vector<DrawnPicture> pictures,
                     Environment& environment, const Reply& reply, Delivered& out) {
  const Maker maker(request, what, pictures, reply);
  for (const std::string& file : request.out) {
    SHERD_TRY(const std::string bytes, maker.bytes(*format_of_file(file)));
    SHERD_CHECK(environment.files->write(file, bytes));
    out.files.push_back(file);
  }
  if (!request.give.empty()) {
    const Format format = *format_named(request.give);
    const auto place = static_cast<std::size_t>(format);
    SHERD_TRY(const std::string name, maker.name(format));
    SHERD_TRY(const std::string bytes, maker.bytes(format));
    out.document = GivenFile{name + "." + std::string(kEndings[place]), std::string(kMediaTypes[place]), base64(bytes)};
  }
  if (request.picture && !request.figure.empty())
    std::erase_if(pictures, [&](const DrawnPicture& picture) { return picture.name != request.figure; });
  if (request.picture) out.pictures = std::move(pictures);
  return {};
}

}  // namespace sherd::desk
