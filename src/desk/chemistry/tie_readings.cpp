#include "desk/chemistry/tie_readings.h"

#include <fmt/format.h>

#include <map>
#include <set>

#include "base/text.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

/// Names of the record that a sample may be.
struct Known {
  std::map<std::string, std::string> standards;  ///< folded -> as it is
  std::map<std::string, std::string> samples;    ///< of the register -> record
  std::set<std::string> records, readings;
  std::map<std::string, std::int64_t> before;  ///< sample -> readings
};

Result<Known> known_names(const Session& session) {
  const auto column = [&](Kind kind, std::vector<std::string> names) {
    return session.store->read({session.site.code, kind, std::move(names), {}});
  };
  Known out;
  SHERD_TRY(const Table standards, column(Kind::standards, {"standard", "name"}));
  for (const Standard& each : rows_from<Standard>(standards)) {
    if (!each.name.empty()) out.standards.emplace(folded_name(each.name), each.standard);
    out.standards.insert_or_assign(folded_name(each.standard), each.standard);
  }
  SHERD_TRY(const Table samples, column(Kind::samples, {"sample", "record"}));
  for (const Sample& each : rows_from<Sample>(samples)) out.samples[each.sample] = each.record;
  SHERD_TRY(const Table records, column(Kind::sherds, {"record"}));
  for (const std::string& record : records.columns()[0].words()) out.records.insert(record);
  SHERD_TRY(const Table readings, column(Kind::readings, {"reading", "sample"}));
  for (const Reading& each : rows_from<Reading>(readings)) {
    out.readings.insert(each.reading);
    ++out.before[each.sample];
  }
  out.records.erase("");
  return out;
}

/// What the reading is of, in words; fills in its columns.
std::string tie(Reading& reading, const Known& known) {
  const std::string named = reading.standard.empty() ? reading.sample : reading.standard;
  if (const auto standard = known.standards.find(folded_name(named)); standard != known.standards.end()) {
    reading.standard = standard->second;
    reading.role = ReadingRole::standard;
    return "standard " + standard->second;
  }
  if (folded_name(reading.sample).starts_with("blank")) reading.role = ReadingRole::blank;
  if (reading.role == ReadingRole::blank) return "blank";
  if (!reading.record.empty()) return known.records.contains(reading.record) ? "record " + reading.record : "";
  const auto sample = known.samples.find(reading.sample);
  if (sample != known.samples.end()) {
    reading.record = sample->second;
    return sample->second.empty() ? "sample " + reading.sample : "record " + sample->second;
  }
  if (!known.records.contains(reading.sample)) return {};
  reading.record = reading.sample;
  return "record " + reading.sample;
}

void refuse(exchange::ReadingTables& tables, const Reading& reading, std::string column, std::string code,
            std::string text, std::string message, std::string hint) {
  tables.problems.push_back({reading.file_row.value_or(0),
                             {},
                             std::move(column),
                             std::move(code),
                             std::move(text),
                             std::move(message),
                             std::move(hint)});
  tables.refused.insert(reading.reading);
}

}  // namespace

std::string folded_name(std::string_view name) {
  std::string out;
  for (const char c : lower(name)) {
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80) out += c;
  }
  return out;
}

Result<void> tie_readings(const Session& session, const std::string& cut, exchange::ReadingTables& tables,
                          ImportReadingsResponse& response) {
  SHERD_TRY(const Known known, known_names(session));
  response.rule = cut.empty() ? "a reading is of the sample it names"
                              : "a reading is of what stands before the last \"" + cut + "\" in the sample's name";
  response.rule +=
      "; a sample is the standard, the sample of the register or the record number that has its name, and its "
      "readings are averaged";
  std::map<std::string, std::size_t> places;
  std::int64_t untied = 0;
  for (Reading& reading : tables.readings) {
    if (known.readings.contains(reading.reading)) {
      refuse(tables, reading, "reading", "already_known", reading.reading,
             "the store has a reading \"" + reading.reading + "\" already",
             "where the instrument counts from 1 every day, say --prefix, such as --prefix \"12 March/\"");
    }
    if (!reading.record.empty() && !known.records.contains(reading.record)) {
      refuse(tables, reading, "record", "unknown_name", reading.record, "there is no record \"" + reading.record + "\"",
             "read in the sherds first, or mend the number");
    }
    const std::string to = tie(reading, known);
    const auto [place, fresh] = places.emplace(reading.sample + "\n" + to, response.samples.size());
    if (fresh) {
      const auto before = known.before.find(reading.sample);
      response.samples.push_back({reading.sample, to, 0, before == known.before.end() ? 0 : before->second});
    }
    ++response.samples[place->second].readings;
    if (to.empty()) ++untied;
  }
  if (untied > 0)
    response.warnings.push_back(counted(untied, "reading") +
                                " of samples that neither a record, nor the register, nor a standard is named by");
  return {};
}

}  // namespace sherd::desk
