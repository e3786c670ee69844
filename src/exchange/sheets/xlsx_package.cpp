#include "exchange/sheets/xlsx_package.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>

#include "base/text.h"

namespace sherd::exchange {
namespace {

bool is_true(std::string_view text) { return text == "1" || text == "true" || text == "on"; }

struct Relationship {
  std::string id;
  std::string type;
  std::string part;
};

class RelationshipsReader final : public XmlHandler {
 public:
  explicit RelationshipsReader(std::string_view source) : source_(source) {}
  XmlStep start(const XmlName& name, const XmlAttributes& attributes) override {
    if (name.local == "Relationship" && attributes.get("TargetMode") != "External")
      found.push_back({std::string(attributes.get("Id")), std::string(attributes.get("Type")),
                       resolved_part(source_, attributes.get("Target"))});
    return XmlStep::go_on;
  }
  XmlStep end(const XmlName&) override { return XmlStep::go_on; }
  XmlStep text(std::string_view) override { return XmlStep::go_on; }

  std::vector<Relationship> found;

 private:
  std::string source_;
};

Result<std::vector<Relationship>> relationships_of(ZipFile& zip, const std::string& part) {
  const std::size_t slash = part.rfind('/');
  const std::string folder = slash == std::string::npos ? "" : part.substr(0, slash + 1);
  RelationshipsReader reader(part);
  SHERD_CHECK(read_xml(zip, folder + "_rels/" + part.substr(folder.size()) + ".rels", reader));
  return std::move(reader.found);
}

class WorkbookReader final : public XmlHandler {
 public:
  XmlStep start(const XmlName& name, const XmlAttributes& attributes) override {
    if (!is_root_seen_) {
      is_root_seen_ = true;
      is_workbook = name.space == XmlSpace::sheet && name.local == "workbook";
      return is_workbook ? XmlStep::go_on : XmlStep::stop;
    }
    if (name.space != XmlSpace::sheet) return XmlStep::go_on;
    if (name.local == "workbookPr") since_1904 = is_true(attributes.get("date1904"));
    if (name.local == "sheet") {
      const std::string_view state = attributes.get("state");
      sheets.push_back({std::string(attributes.get("name")), std::string(attributes.get(XmlSpace::relation, "id")),
                        state == "hidden" || state == "veryHidden"});
    }
    return XmlStep::go_on;
  }
  XmlStep end(const XmlName&) override { return XmlStep::go_on; }
  XmlStep text(std::string_view) override { return XmlStep::go_on; }

  bool is_workbook = false;
  bool since_1904 = false;
  std::vector<XlsxSheet> sheets;  ///< with the relationship's id for the part

 private:
  bool is_root_seen_ = false;
};

class StylesReader final : public XmlHandler {
 public:
  XmlStep start(const XmlName& name, const XmlAttributes& attributes) override {
    if (name.space != XmlSpace::sheet) return XmlStep::go_on;
    if (name.local == "numFmt") codes_[number(attributes.get("numFmtId"))] = attributes.get("formatCode");
    if (name.local == "cellXfs") in_cell_formats_ = true;
    if (name.local == "xf" && in_cell_formats_) {
      const int id = number(attributes.get("numFmtId"));
      const auto code = codes_.find(id);
      styles.push_back(style_of_format(id, code == codes_.end() ? std::string_view{} : std::string_view(code->second)));
    }
    return XmlStep::go_on;
  }
  XmlStep end(const XmlName& name) override {
    if (name.local == "cellXfs") in_cell_formats_ = false;
    return XmlStep::go_on;
  }
  XmlStep text(std::string_view) override { return XmlStep::go_on; }

  std::vector<NumberStyle> styles;

 private:
  static int number(std::string_view text) {
    int value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
  }
  std::map<int, std::string> codes_;
  bool in_cell_formats_ = false;
};

}  // namespace

std::string resolved_part(std::string_view from, std::string_view target) {
  std::vector<std::string_view> folders;
  if (!target.starts_with('/')) {
    folders = split(from, '/');
    folders.pop_back();
  }
  for (const std::string_view step : split(target, '/')) {
    if (step == "..") {
      if (!folders.empty()) folders.pop_back();
    } else if (!step.empty() && step != ".") {
      folders.push_back(step);
    }
  }
  return fmt::format("{}", fmt::join(folders, "/"));
}

Result<XlsxPackage> read_xlsx_package(ZipFile& zip) {
  const std::unexpected<Error> no_workbook = fail("not_a_table", "The file is an office document, but no spreadsheet.",
                                                  "Give a table as CSV, TSV, XLSX or ODS.");
  SHERD_TRY(const std::vector<Relationship> roots, relationships_of(zip, ""));
  const auto root =
      std::ranges::find_if(roots, [](const Relationship& r) { return r.type.ends_with("/officeDocument"); });
  if (root == roots.end()) return no_workbook;
  if (lower(root->part).ends_with(".bin"))
    return fail("old_spreadsheet", "The file is a binary spreadsheet (XLSB).", "Save it as XLSX and read that.");
  WorkbookReader workbook;
  SHERD_CHECK(read_xml(zip, root->part, workbook));
  if (!workbook.is_workbook) return no_workbook;

  XlsxPackage package;
  package.since_1904 = workbook.since_1904;
  SHERD_TRY(const std::vector<Relationship> parts, relationships_of(zip, root->part));
  for (const Relationship& part : parts) {
    if (part.type.ends_with("/styles")) package.styles_part = part.part;
    if (part.type.ends_with("/sharedStrings")) package.shared_strings_part = part.part;
  }
  for (XlsxSheet& sheet : workbook.sheets) {
    const auto part = std::ranges::find(parts, sheet.part, &Relationship::id);
    if (part == parts.end())
      return damaged(fmt::format("The file is damaged: its sheet \"{}\" is missing.", sheet.name));
    if (!part->type.ends_with("/worksheet")) continue;
    sheet.part = part->part;
    package.sheets.push_back(std::move(sheet));
  }
  return package;
}

Result<std::vector<NumberStyle>> read_xlsx_styles(ZipFile& zip, const std::string& part) {
  StylesReader reader;
  if (!part.empty()) SHERD_CHECK(read_xml(zip, part, reader));
  return std::move(reader.styles);
}

class SharedStringsReader final : public XmlHandler {
 public:
  explicit SharedStringsReader(const ReadLimits& limits) : limits_(limits) {}

  XmlStep start(const XmlName& name, const XmlAttributes&) override {
    if (name.space != XmlSpace::sheet) return XmlStep::go_on;
    if (name.local == "rPh") in_phonetic_ = true;
    if (name.local == "t") in_text_ = !in_phonetic_;
    return XmlStep::go_on;
  }
  XmlStep end(const XmlName& name) override {
    if (name.space != XmlSpace::sheet) return XmlStep::go_on;
    if (name.local == "t") in_text_ = false;
    if (name.local == "rPh") in_phonetic_ = false;
    if (name.local == "si") finish();
    return XmlStep::go_on;
  }
  XmlStep text(std::string_view text) override {
    if (!in_text_) return XmlStep::go_on;
    strings_.text_ += text;
    if (strings_.text_.size() - start_ > limits_.max_cell_bytes) {
      return stop_with(
          fail("cell_too_large",
               fmt::format("A cell holds more than {} bytes.", grouped(static_cast<long long>(limits_.max_cell_bytes))),
               "Shorten the cell, or check that the sheet is a table."));
    }
    if (strings_.text_.size() > limits_.max_shared_text_bytes) {
      return stop_with(fail("unzipped_too_large",
                            fmt::format("The file holds more than {} bytes of text.",
                                        grouped(static_cast<long long>(limits_.max_shared_text_bytes))),
                            "Save only the sheet that is needed, as XLSX or CSV, and read that."));
    }
    return XmlStep::go_on;
  }
  SharedStrings take() { return std::move(strings_); }

 private:
  void finish() {
    std::string& all = strings_.text_;
    const std::string_view last = std::string_view(all).substr(start_);
    if (last.find("_x") != std::string_view::npos || last.find('\r') != std::string_view::npos)
      all.replace(start_, std::string::npos, unescaped(last));
    start_ = all.size();
    strings_.ends_.push_back(start_);
  }
  const ReadLimits& limits_;
  SharedStrings strings_;
  std::size_t start_ = 0;
  bool in_text_ = false;
  bool in_phonetic_ = false;
};

Result<SharedStrings> read_shared_strings(ZipFile& zip, const std::string& part, const ReadLimits& limits) {
  SharedStringsReader reader(limits);
  if (!part.empty()) SHERD_CHECK(read_xml(zip, part, reader));
  return reader.take();
}

}  // namespace sherd::exchange
