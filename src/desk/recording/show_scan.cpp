#include "desk/recording/show_scan.h"

#include <algorithm>

#include "base/text.h"
#include "desk/frame/session.h"
#include "model/kind_spec.h"
#include "model/record.h"
#include "model/rows.h"
#include "notation/entry.h"

namespace sherd::desk {

namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  for (const std::string_view word : split(text, ' ')) {
    if (!trim(word).empty()) words.emplace_back(trim(word));
  }
  return words;
}

/// Takes an amount off the end of the words; false where the last word is none.
bool take_amount(std::vector<std::string>& words, ScannedWare& ware) {
  const std::string& last = words.back();
  if (last == "S" || last == "M" || last == "L") {
    if (ware.amount) return false;
    ware.amount = from_word<Amount>(last);
  } else if (const auto count = notation::read_entry(last, CellType::count); count && !ware.count) {
    ware.count = count->value;
  } else if (const auto weight = notation::read_entry(last, CellType::weight);
             weight && !ware.weight && last.find_first_of("gG") != std::string::npos) {
    ware.weight = Weight{weight->value};
  } else {
    return false;
  }
  words.pop_back();
  return true;
}

ScannedWare ware_in(std::string_view text) {
  ScannedWare ware;
  std::vector<std::string> words = words_of(text);
  for (std::size_t i = 0; i + 1 < words.size();) {  // "120 g" is one amount
    const bool unit = words[i + 1] == "g" || words[i + 1] == "kg";
    if (unit && i > 0) words[i] += words[i + 1];
    if (unit && i > 0) words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    ++i;
  }
  while (words.size() > 1 && take_amount(words, ware)) {
  }
  const std::string name = join(words, " ");
  const notation::DoubtfulCode code = notation::read_doubt(name);
  ware.ware = code.code;
  ware.certainty = code.certainty;
  return ware;
}

template <class Q>
std::optional<Q> left(const std::optional<Q>& said, const std::optional<Q>& recorded) {
  if (!said) return std::nullopt;
  if constexpr (std::is_same_v<Q, Weight>) {
    return Weight{said->mg - (recorded ? recorded->mg : 0)};
  } else {
    return *said - recorded.value_or(0);
  }
}

void add_line(const RecordLine& line, ScanWare& ware) {
  ++ware.lines;
  if (line.count) ware.count_recorded = ware.count_recorded.value_or(0) + *line.count;
  if (line.weight)
    ware.weight_recorded = Weight{(ware.weight_recorded ? ware.weight_recorded->mg : 0) + line.weight->mg};
}

void settle(ScanWare& ware) {
  ware.count_left = left(ware.count, ware.count_recorded);
  ware.weight_left = left(ware.weight, ware.weight_recorded);
}

ScanWare& ware_named(const std::string& name, std::vector<ScanWare>& wares) {
  const auto found = std::ranges::find_if(wares, [&](const ScanWare& ware) { return ware.ware == name; });
  if (found != wares.end()) return *found;
  wares.emplace_back().ware = name;
  return wares.back();
}

/// The same ware named twice is one.
void say(const ScannedWare& said, std::vector<ScanWare>& wares) {
  ScanWare& ware = ware_named(said.ware, wares);
  ware.said = true;
  if (said.certainty) ware.certainty = said.certainty;
  if (said.amount) ware.amount = said.amount;
  if (said.count) ware.count = ware.count.value_or(0) + *said.count;
  if (said.weight) ware.weight = Weight{(ware.weight ? ware.weight->mg : 0) + said.weight->mg};
}

}  // namespace

std::vector<ScannedWare> scanned_wares(std::string_view text) {
  std::vector<ScannedWare> wares;
  const std::string lines = replace_all(std::string(text), "\n", ";");
  for (const std::string_view one : split(lines, ';')) {
    if (!trim(one).empty()) wares.push_back(ware_in(one));
  }
  return wares;
}

Result<ScanResponse> show_scan(const ScanRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  ScanResponse response;
  response.warnings = session.store->warnings();
  std::vector<std::string> columns = kind_spec(Kind::scans).column_names();
  columns.emplace_back("uid");
  SHERD_TRY(const Table scans,
            session.store->read({session.site.code, Kind::scans, columns, {}, {{"context", request.context}}}));
  if (scans.rows() == 0)
    return fail("no_scan", "context \"" + shortened(request.context, 40) + "\" was not scanned", "add a row to scans");
  response.uid = scans.find("uid")->text(0);
  response.scan = rows_from<Scan>(scans).front();
  for (const ScannedWare& said : scanned_wares(response.scan.wares)) say(said, response.wares);
  response.total.said = true;
  response.total.amount = response.scan.amount;
  response.total.count = response.scan.count;
  response.total.weight = response.scan.weight;
  SHERD_TRY(
      const Table lines,
      session.store->read(
          {session.site.code, Kind::sherds, {"fabric", "count", "weight_g"}, {}, {{"context", request.context}}}));
  for (const RecordLine& line : rows_from<RecordLine>(lines)) {
    add_line(line, ware_named(line.fabric, response.wares));
    add_line(line, response.total);
  }
  SHERD_TRY(const Table fabrics, session.store->read({session.site.code, Kind::fabrics, {"fabric"}, {}}));
  const auto& known = fabrics.find("fabric")->words();
  for (ScanWare& ware : response.wares) {
    ware.known = std::ranges::find(known, ware.ware) != known.end();
    settle(ware);
  }
  settle(response.total);
  SHERD_TRY(response.provenance, session.provenance(environment));
  return response;
}

}  // namespace sherd::desk
