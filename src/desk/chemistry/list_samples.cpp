#include "desk/chemistry/list_samples.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "desk/frame/session.h"
#include "model/chemistry.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

struct Register {
  std::map<std::string, RecordLine> lines;
  std::map<std::string, std::int64_t> readings;  ///< by sample
  std::map<std::string, ThinSection> sections;   ///< by sample
  std::map<std::string, std::vector<CountedComponent>> points;
  std::vector<Sample> samples;
};

Result<Register> load(const Session& session) {
  const auto read = [&](Kind kind, std::vector<std::string> columns) {
    return session.store->read({session.site.code, kind, std::move(columns), {}});
  };
  Register out;
  SHERD_TRY(const Table lines, read(Kind::sherds, {"record", "context", "fabric"}));
  for (RecordLine& line : rows_from<RecordLine>(lines)) out.lines[line.record] = line;
  SHERD_TRY(const Table readings, read(Kind::readings, {"sample"}));
  for (std::size_t i = 0; i < readings.rows(); ++i) ++out.readings[std::string(readings.columns()[0].text(i))];
  SHERD_TRY(const Table sections, read(Kind::petrology, kind_spec(Kind::petrology).column_names()));
  for (ThinSection& section : rows_from<ThinSection>(sections)) out.sections[section.sample] = section;
  SHERD_TRY(const Table points, read(Kind::point_counts, kind_spec(Kind::point_counts).column_names()));
  for (const PointCount& row : rows_from<PointCount>(points))
    out.points[row.section].push_back({row.component, row.count.value_or(0), 0});
  SHERD_TRY(const Table samples, read(Kind::samples, kind_spec(Kind::samples).column_names()));
  out.samples = rows_from<Sample>(samples);
  return out;
}

std::string state_of(const Sample& sample) {
  const bool result = !sample.received_on.empty() || !sample.result.empty();
  if (result && sample.remainder && (*sample.remainder != Remainder::returned || !sample.returned_on.empty()))
    return "closed";
  if (result) return "in";
  return sample.sent_on.empty() ? "taken" : "sent";
}

void add_section(const Register& all, const std::string& sample, SampleRow& row) {
  const auto found = all.sections.find(sample);
  if (found == all.sections.end()) return;
  const ThinSection& section = found->second;
  row.section = section.section;
  row.petro_group = section.petro_group;
  row.section_fabric = section.fabric;
  const auto points = all.points.find(section.section);
  if (points != all.points.end()) row.components = points->second;
  std::int64_t sum = 0;
  for (const CountedComponent& each : row.components) sum += each.count;
  row.points = section.points.value_or(sum);
  for (CountedComponent& each : row.components)
    each.percent = sum > 0 ? 100.0 * static_cast<double>(each.count) / static_cast<double>(sum) : 0;
  if (section.points && sum > 0 && *section.points != sum)
    row.flags.push_back("the counts come to " + std::to_string(sum) + ", and " + std::to_string(*section.points) +
                        " points are said");
  if (!row.fabric.empty() && !section.fabric.empty() && row.fabric != section.fabric)
    row.flags.push_back("the thin section is called " + section.fabric + ", the sherd " + row.fabric);
}

SampleRow row_of(const Register& all, const Sample& sample) {
  SampleRow row{.sample = sample.sample,
                .record = sample.record,
                .context = sample.context,
                .kind = sample.kind ? std::string(word(*sample.kind)) : "",
                .question = sample.question,
                .technique = sample.technique,
                .permission = sample.permission,
                .laboratory = sample.laboratory,
                .sent_on = sample.sent_on,
                .received_on = sample.received_on,
                .result = sample.result,
                .remainder = sample.remainder ? std::string(word(*sample.remainder)) : "",
                .returned_on = sample.returned_on,
                .cost = sample.cost};
  const auto line = all.lines.find(sample.record);
  if (line != all.lines.end()) {
    row.fabric = line->second.fabric;
    if (row.context.empty()) row.context = line->second.context;
  }
  const auto readings = all.readings.find(sample.sample);
  if (readings != all.readings.end()) row.readings = readings->second;
  row.state = state_of(sample);
  add_section(all, sample.sample, row);
  if (sample.permission.empty()) row.flags.emplace_back("no permission is noted");
  if (sample.question.empty()) row.flags.emplace_back("no question is noted");
  if (!sample.sent_on.empty() && !sample.received_on.empty() && sample.received_on < sample.sent_on)
    row.flags.emplace_back("the result came before the sample was sent");
  if (row.state == "in" && sample.remainder == Remainder::returned)
    row.flags.emplace_back("the remainder is returned, on no day that is noted");
  return row;
}

}  // namespace

Result<SamplesResponse> list_samples(const SamplesRequest& request, Environment& environment, Progress&) {
  const std::vector<std::string> states{"taken", "sent", "in", "closed"};
  if (!request.state.empty() && std::ranges::find(states, request.state) == states.end())
    return fail(ErrorKind::usage, "bad_choice", "--state does not know \"" + request.state + "\"",
                "choose " + join(states, ", "));
  if (!request.kind.empty() && !from_word<SampleKind>(request.kind))
    return fail(ErrorKind::usage, "bad_choice", "--kind does not know \"" + request.kind + "\"",
                "choose thin_section, residue, chemistry or other");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Register all, load(session));
  SamplesResponse response;
  for (const Sample& sample : all.samples) {
    SampleRow row = row_of(all, sample);
    if (!request.kind.empty() && row.kind != request.kind) continue;
    if (row.state == "taken") ++response.taken;
    if (row.state == "sent") ++response.sent;
    if (row.state == "in") ++response.in;
    if (row.state == "closed") ++response.closed;
    if (request.state.empty() || row.state == request.state) response.samples.push_back(std::move(row));
  }
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace sherd::desk
