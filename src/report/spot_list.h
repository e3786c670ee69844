#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::report {

/// One context in the list for the excavator; everything as it is printed.
struct SpotListRow {
  std::string context, deposit, phase, sherds, weight_g, vessels;
  std::string own_date, own_reason, confidence;
  std::string terminus, set_by;
  std::string spot, notes, comment, status;
  bool changed = false;  ///< since the last issue

  /// The columns in the order in which tables give them; also what an issue keeps and compares.
  template <class V>
  static void fields(V& v) {
    v.field("context", &SpotListRow::context);
    v.field("deposit", &SpotListRow::deposit);
    v.field("phase", &SpotListRow::phase);
    v.field("own_date", &SpotListRow::own_date);
    v.field("terminus", &SpotListRow::terminus);
    v.field("set_by", &SpotListRow::set_by);
    v.field("spot", &SpotListRow::spot);
    v.field("sherds", &SpotListRow::sherds);
    v.field("weight_g", &SpotListRow::weight_g);
    v.field("vessels", &SpotListRow::vessels);
    v.field("confidence", &SpotListRow::confidence);
    v.field("notes", &SpotListRow::notes);
    v.field("comment", &SpotListRow::comment);
    v.field("own_reason", &SpotListRow::own_reason);
    v.field("status", &SpotListRow::status);
  }
};

/// One value that differs from the last issue.
struct SpotListChange {
  std::string context, column, was, now;

  template <class V>
  static void fields(V& v) {
    v.field("context", &SpotListChange::context);
    v.field("column", &SpotListChange::column);
    v.field("was", &SpotListChange::was);
    v.field("now", &SpotListChange::now);
  }
};

struct SpotList {
  std::string site, title;
  std::optional<std::int64_t> issue;  ///< none: a draft
  std::string record;                 ///< the state of the record it rests on
  std::string version;
  std::int64_t lines = 0, unchecked = 0;
  std::vector<SpotListRow> rows;
  std::vector<SpotListChange> changes;  ///< since the issue before
  std::vector<std::string> warnings;
};

/// One self-contained page that prints on A4, landscape, with its headings on every sheet. No script, no address of
/// anything outside.
std::string spot_list_html(const SpotList& list);

}  // namespace sherd::report
