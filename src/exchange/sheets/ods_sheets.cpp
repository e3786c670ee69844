#include "exchange/sheets/ods_sheets.h"

#include <set>

namespace sherd::exchange {
namespace {

class SheetLister final : public XmlHandler {
 public:
  XmlStep start(const XmlName& name, const XmlAttributes& attributes) override {
    ++depth_;
    if (spreadsheet_depth_ == 0) {
      if (name.local == "spreadsheet" && name.space == XmlSpace::office) spreadsheet_depth_ = depth_;
      if (name.local == "style" && name.space == XmlSpace::style) style_ = attributes.get(XmlSpace::style, "name");
      if (name.local == "table-properties" && name.space == XmlSpace::style &&
          attributes.get(XmlSpace::table, "display") == "false")
        hiding_styles_.insert(style_);
    } else if (depth_ == spreadsheet_depth_ + 1 && name.local == "table" && name.space == XmlSpace::table) {
      sheets.names.emplace_back(attributes.get(XmlSpace::table, "name"));
      sheets.hidden.push_back(hiding_styles_.contains(std::string(attributes.get(XmlSpace::table, "style-name"))));
    }
    return XmlStep::go_on;
  }
  XmlStep end(const XmlName&) override {
    if (depth_-- == spreadsheet_depth_) spreadsheet_depth_ = 0;
    return XmlStep::go_on;
  }
  XmlStep text(std::string_view) override { return XmlStep::go_on; }

  OdsSheets sheets;

 private:
  int depth_ = 0;
  int spreadsheet_depth_ = 0;  ///< 0 outside of it
  std::string style_;
  std::set<std::string> hiding_styles_;
};

}  // namespace

Result<OdsSheets> list_ods_sheets(ZipFile& zip) {
  SheetLister lister;
  SHERD_CHECK(read_xml(zip, "content.xml", lister));
  return std::move(lister.sheets);
}

}  // namespace sherd::exchange
