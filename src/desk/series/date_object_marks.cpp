#include "desk/series/date_object_marks.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "methods/dating/ware_dates.h"
#include "model/rows.h"
#include "notation/mark.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

const std::size_t kMarkKey = *dating::evidence_key("mark");

DatedRow row_of(const notation::MarkAnswer& answer, std::string mark) {
  DatedRow row;
  row.evidence.mark = std::move(mark);
  if (answer.dates != MarkDates::stamp) row.evidence.earliest = answer.range.earliest;
  if (answer.dates != MarkDates::design) row.evidence.latest = answer.range.latest;
  row.evidence.nature = answer.nature;
  row.evidence.reference = answer.source;
  row.evidence.known = answer.known;
  row.evidence.notes = answer.reads;
  return row;
}

/// The likely answers, those to the same words together.
std::vector<std::vector<const notation::MarkAnswer*>> by_mark(const notation::MarkReading& reading) {
  std::vector<std::vector<const notation::MarkAnswer*>> out;
  for (const notation::MarkAnswer& answer : reading.answers) {
    if (!answer.likely || !answer.ruled_out.empty()) continue;
    const auto same = std::ranges::find_if(out, [&](const auto& group) { return group.front()->mark == answer.mark; });
    if (same == out.end()) {
      out.push_back({&answer});
    } else {
      (*same).push_back(&answer);
    }
  }
  return out;
}

void add_notes(const notation::MarkReading& reading, const std::string& text, std::vector<dating::WhenNote>& notes) {
  const std::string evidence = "mark=" + text;
  for (const notation::MarkAnswer& answer : reading.answers) {
    if (!answer.ruled_out.empty()) {
      notes.push_back({evidence, answer.reads + ": " + answer.ruled_out, answer.source});
    } else if (!answer.likely) {
      notes.push_back({evidence, "not used: " + answer.reads + ", " + range_text(answer.range), answer.source});
    }
  }
  for (const std::string& sentence : reading.not_said) notes.push_back({evidence, sentence, ""});
  for (const std::string& sentence : reading.warnings) notes.push_back({evidence, sentence, ""});
}

/// Lines of the record that bear one mark and have the same years.
struct Bearing {
  std::string text;
  std::int64_t lines = 0;
  std::vector<std::string> records;
};

std::string records_text(const Bearing& bearing) {
  constexpr std::size_t kMost = 6;
  std::vector<std::string> shown(
      bearing.records.begin(),
      bearing.records.begin() + static_cast<std::ptrdiff_t>(std::min(kMost, bearing.records.size())));
  const std::size_t more = bearing.records.size() - shown.size();
  return (bearing.records.size() == 1 ? "record " : "records ") + join(shown, ", ") +
         (more > 0 ? " and " + std::to_string(more) + " more" : "");
}

}  // namespace

Result<ReadMark> read_as_evidence(const std::string& text) {
  SHERD_TRY(const notation::MarkReading reading, notation::read_mark(text, reference::diamonds(), reference::marks()));
  ReadMark out;
  const auto groups = by_mark(reading);
  for (const auto& group : groups) {
    const std::string& words = groups.size() == 1 ? text : group.front()->mark;
    const std::size_t place = out.observations.size();
    out.observations.push_back({kMarkKey, words});
    for (const notation::MarkAnswer* answer : group) {
      const std::string value = group.size() == 1 ? words : words + ": " + answer->reads;
      out.readings.push_back({.observation = place, .row = row_of(*answer, value)});
    }
  }
  add_notes(reading, text, out.notes);
  return out;
}

Result<std::vector<dating::OtherReading>> marks_of_record(const Session& session, const StoreEvidence& own,
                                                          const std::vector<dating::Observation>& observations) {
  std::vector<dating::OtherReading> out;
  std::vector<std::size_t> asked;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const dating::Observation& seen = observations[i];
    if (dating::kEvidenceKeys[seen.key].pattern && dating::is_pattern(seen.value)) asked.push_back(i);
  }
  if (asked.empty()) return out;
  SHERD_TRY(const Table table,
            session.store->read({session.site.code,
                                 Kind::sherds,
                                 {"record", "mark", "fabric", "form", "decoration", "earliest", "latest"},
                                 {}}));
  const dating::WareDates wares(own.dates, own.fabrics, own.forms);
  const std::vector<RecordLine> lines = rows_from<RecordLine>(table);
  for (const std::size_t i : asked) {
    const auto member = dating::kEvidenceKeys[observations[i].key].member;
    std::map<std::tuple<std::string, std::optional<Year>, std::optional<Year>>, Bearing> bearings;
    for (const RecordLine& line : lines) {
      if (line.mark.empty() || !dating::fits_pattern(observations[i].value, line.mark)) continue;
      const dating::LineDate date = wares.date_line(line);
      Bearing& bearing = bearings[{lower(line.mark), date.earliest, date.latest}];
      bearing.text = line.mark;
      ++bearing.lines;
      bearing.records.push_back(line.record);
    }
    for (const auto& [key, bearing] : bearings) {
      dating::OtherReading reading{.observation = i, .row = {}, .times = bearing.lines, .of_record = true};
      Evidence& row = reading.row.evidence;
      row.*member = bearing.text;
      row.earliest = std::get<1>(key);
      row.latest = std::get<2>(key);
      row.nature = Nature::span;
      row.reference = records_text(bearing);
      reading.row.of_store = true;
      out.push_back(std::move(reading));
    }
  }
  return out;
}

}  // namespace sherd::desk
