#pragma once

#include <string>

namespace sherd::desk {

/// What a report of its type should say and the record does not, and where it is entered.
struct ReportNeed {
  std::string section;  ///< of the report
  std::string what;     ///< "the aims of the work"
  std::string table;    ///< of the record
  std::string command;  ///< to type; STORE stands for the store
  std::string room;     ///< of the workbench, where it is entered there
  std::string slot;     ///< the place of the text that is missing; "" where it is no text

  template <class V>
  static void fields(V& v) {
    v.field("section", &ReportNeed::section);
    v.field("what", &ReportNeed::what);
    v.field("table", &ReportNeed::table);
    v.field("command", &ReportNeed::command);
    v.field("room", &ReportNeed::room);
    v.field("slot", &ReportNeed::slot);
  }
};

}  // namespace sherd::desk
