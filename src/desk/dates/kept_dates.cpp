#include "desk/dates/kept_dates.h"

#include <array>
#include <nlohmann/json.hpp>
#include <set>

#include "base/hash.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/json.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::json;

constexpr std::string_view kName = "dates/in-sequence";
/// Beyond so many changes since, what they touched is not looked at one by one.
constexpr std::size_t kLookedAt = 200;
constexpr std::ptrdiff_t kNamed = 5;

constexpr std::array kRestsOn{Kind::contexts, Kind::relations, Kind::phases, Kind::fabrics, Kind::forms,
                              Kind::dates,    Kind::sherds,    Kind::rims,   Kind::joins};

bool rests_on(Kind kind) { return std::ranges::find(kRestsOn, kind) != kRestsOn.end(); }

KeptDate kept_of(const ContextDate& date) {
  KeptDate out{date.context, date.printed, {}, {}, {}, date.strain, {}};
  if (date.completed) {
    out.median = date.completed->median;
    if (!date.completed->range95.empty()) {
      out.earliest = date.completed->range95.front().front();
      out.latest = date.completed->range95.back().back();
    }
  }
  for (const stratigraphy::DateFlag& flag : date.date_flags) out.flags.push_back(flag.message);
  return out;
}

std::optional<Year> year_of(const Json& value) {
  return value.is_number_integer() ? std::optional(from_historical(value.get<std::int64_t>())) : std::nullopt;
}

KeptDate read_kept(const Json& one) {
  KeptDate out;
  out.context = one.value("context", "");
  out.printed = one.value("printed", "");
  if (const auto at = one.find("median"); at != one.end()) out.median = year_of(*at);
  if (const auto at = one.find("earliest"); at != one.end()) out.earliest = year_of(*at);
  if (const auto at = one.find("latest"); at != one.end()) out.latest = year_of(*at);
  if (const auto at = one.find("strain"); at != one.end() && at->is_number()) out.strain = at->get<double>();
  for (const Json& flag : one.value("flags", Json::array())) {
    if (flag.is_string()) out.flags.push_back(flag.get<std::string>());
  }
  return out;
}

/// What the changes after `seq` did to that on which dates rest: "3 lines changed", by kind.
Result<std::vector<std::string>> changed_since(Store& store, std::int64_t seq) {
  SHERD_TRY(const auto changes, store.changes(seq));
  if (changes.size() > kLookedAt) {
    return std::vector<std::string>{counted(static_cast<std::int64_t>(changes.size()), "change") + " since"};
  }
  std::map<Kind, std::set<std::string>> rows;
  for (const Change& change : changes) {
    SHERD_TRY(const auto differences, store.differences(change.seq));
    for (const Difference& one : differences) {
      if (rests_on(one.kind)) rows[one.kind].insert(one.column.empty() && !one.now.empty() ? one.now : one.id);
    }
  }
  std::vector<std::string> out;
  for (const auto& [kind, names] : rows) {
    std::vector<std::string> first(names.begin(),
                                   std::next(names.begin(), std::min<std::ptrdiff_t>(kNamed, std::ssize(names))));
    if (first.size() < names.size()) first.emplace_back("...");
    out.push_back(counted(static_cast<std::int64_t>(names.size()), kind_spec(kind).one) +
                  " changed since: " + join(first, ", "));
  }
  return out;
}

}  // namespace

Result<std::int64_t> keep_dates(const Session& session, const Environment& environment, const DateResponse& response) {
  SHERD_TRY(const auto newest, session.store->newest_change());
  std::string settings;
  for (const auto& [name, value] : response.provenance.settings)
    settings.append(name).append("=").append(value).append("\n");
  JsonWriter json;
  json.begin_object();
  json.key("change");
  write_json(json, newest ? newest->seq : std::int64_t{0});
  json.key("version");
  write_json(json, environment.version);
  json.key("settings_hash");
  write_json(json, sha256(settings));
  json.key("settings");
  write_json(json, response.provenance.settings);
  json.key("seed");
  write_json(json, response.provenance.seed);
  json.key("converged");
  write_json(json, !response.sampler || response.sampler->exact || response.sampler->converged);
  json.key("contexts");
  std::vector<KeptDate> dates;
  for (const ContextDate& date : response.contexts) dates.push_back(kept_of(date));
  write_json(json, dates);
  json.end();
  SHERD_TRY(auto writing, session.store->begin(change_note(environment, "date: kept")));
  SHERD_CHECK(writing->put_document(session.site.code, {std::string(kName), "application/json", json.text()}));
  SHERD_TRY(const Change change, writing->commit());
  return change.seq;
}

Result<KeptDates> kept_dates(const Session& session, const Environment& environment) {
  SHERD_TRY(const auto document, session.store->document(session.site.code, std::string(kName)));
  if (!document) return KeptDates{};
  const Json json = Json::parse(document->bytes, nullptr, false);
  if (!json.is_object() || !json.contains("contexts") || !json["contexts"].is_array()) {
    return fail("damaged_store", "the kept dates cannot be read", "make them anew: sherdwright date STORE --keep");
  }
  KeptDates out;
  out.state.change = json.value("change", std::int64_t{0});
  out.state.version = json.value("version", "");
  out.state.settings_hash = json.value("settings_hash", "");
  for (const Json& one : json["contexts"]) {
    if (one.is_object()) out.contexts.push_back(read_kept(one));
  }
  SHERD_TRY(out.state.because, changed_since(*session.store, *out.state.change));
  if (!json.value("converged", true))
    out.state.because.insert(out.state.because.begin(), "the draws had not converged when they were kept");
  if (out.state.version != environment.version)
    out.state.because.push_back("made by version " + out.state.version + " of the program");
  out.state.stale = !out.state.because.empty();
  return out;
}

}  // namespace sherd::desk
