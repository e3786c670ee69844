#include "desk/public/pick_list_sheet.h"

#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/csv.h"
#include "report/document.h"

namespace sherd::desk {

namespace {

std::string asked_for(const PickWish& wish) {
  std::string out = wish.use == "handling" ? "for a handling box" : "for a talk";
  if (!wish.theme.empty()) out += ", theme " + wish.theme;
  if (!wish.period.empty()) out += ", " + wish.period;
  return out;
}

std::string grams(const PublicObject& object) {
  std::string out = object.count ? std::to_string(*object.count) : "";
  if (object.weight_g) out += (out.empty() ? "" : ", ") + format_fixed(*object.weight_g, 0) + " g";
  return out;
}

std::string codes(const PublicObject& object) {
  std::string out;
  for (const PublicCaution& one : object.cautions) {
    if (one.caution != "food") out += (out.empty() ? "" : ", ") + replace_all(one.caution, "_", " ");
  }
  return out;
}

}  // namespace

std::string where_is(const PublicObject& object) {
  if (!object.away.empty()) return object.away;
  std::vector<std::string> parts;
  if (!object.tray.empty()) parts.push_back("tray " + object.tray);
  if (!object.bag.empty()) parts.push_back("bag " + object.bag);
  if (!object.box.empty()) parts.push_back("box " + object.box);
  return parts.empty() ? "not recorded" : join(parts, ", ");
}

std::string pick_list_html(const Site& site, const PickWish& wish, const PickListResponse& list) {
  report::Document document;
  document.title = site.title.empty() ? site.code : site.title;
  document.subtitle = "Pick list, " + asked_for(wish);
  document.facts = {{"Site", site.code}, {"Rests on", "record " + list.provenance.inputs.front()}};
  report::DocumentTable table{.caption = "What to fetch. Sign a slip for each piece that leaves its bag.",
                              .columns = {{"got", false},
                                          {"record", false},
                                          {"object", false},
                                          {"made", false},
                                          {"where it is", false},
                                          {"pieces", false},
                                          {"bears", false},
                                          {"mind", false}},
                              .rows = {},
                              .total = {},
                              .note = {}};
  std::map<std::string, std::string> cautions;
  for (const PublicObject& object : list.objects) {
    table.rows.push_back(
        {"\u2610", object.record,
         object.title + ", " + object.fabric + (object.decoration.empty() ? "" : ", " + object.decoration),
         range_text({object.earliest, object.latest}), where_is(object), grams(object),
         csv_cell(object.sturdiness) + ": " + join(object.because, "; "), codes(object)});
    for (const PublicCaution& one : object.cautions) cautions.emplace(one.caution, one.text);
  }
  for (const PickLeftOut& one : list.left_out)
    table.note += (table.note.empty() ? "" : " ") + counted(one.lines, "line") + " left out: " + one.because + ".";
  report::Section mind{"mind", "What to mind", {}};
  report::BulletList sentences;
  for (const auto& [caution, text] : cautions) sentences.items.push_back(text);
  sentences.items.emplace_back("Local rules, and the advice of whoever keeps the collection, go before this list.");
  mind.blocks.emplace_back(std::move(sentences));
  document.sections = {{"objects", "Objects", {table}}, mind};
  return report::document_html(document);
}

std::string pick_list_csv(const PickListResponse& list) {
  std::vector<std::vector<std::string>> rows{{"record", "object", "fabric", "form", "decoration", "context", "earliest",
                                              "latest", "themes", "sturdiness", "because", "cautions", "tray", "bag",
                                              "box", "away", "count", "weight_g"}};
  for (const PublicObject& one : list.objects) {
    rows.push_back({one.record, one.title, one.fabric, one.form, one.decoration, one.context, csv_cell(one.earliest),
                    csv_cell(one.latest), join(one.themes, "; "), csv_cell(one.sturdiness), join(one.because, "; "),
                    codes(one), one.tray, one.bag, one.box, one.away, csv_cell(one.count), csv_cell(one.weight_g)});
  }
  return csv_text(rows);
}

}  // namespace sherd::desk
