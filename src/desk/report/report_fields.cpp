#include "desk/report/report_fields.h"

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::desk {

namespace {

std::string kilograms(const std::optional<double>& grams) {
  return grams ? format_fixed(*grams / 1000, 1) + " kg" : std::string("\u2013");
}

std::string percent(const std::optional<double>& share) {
  return share ? format_fixed(100 * *share, 1) + " %" : std::string("\u2013");
}

std::string or_dash(const YearRange& range) { return range.empty() ? "\u2013" : range_text(range); }

}  // namespace

ReportFields::ReportFields(const ReportInput& input) {
  add_totals(input);
  add_groups(input, input.by_fabric, "fabric");
  add_groups(input, input.by_form, "form");
  add_groups(input, input.by_phase, "phase");
  add_groups(input, input.by_context, "context");
  add_contexts(input);
}

void ReportFields::add_totals(const ReportInput& input) {
  const quantify::TallyRow& total = input.by_context.tally.total;
  const auto add = [&](const char* name, const char* says, std::string value) {
    ones_[name] = {says, std::move(value)};
  };
  add("total sherds", "number of sherds", shown(total.count));
  add("total weight", "weight in kg", kilograms(total.weight_g));
  add("total weight g", "weight in g", shown(total.weight_g, 0));
  add("total vessels", "number of vessels", shown(total.vessels));
  add("total eve", "estimated vessel equivalents", shown(total.eve, 2));
  add("mean sherd weight", "g a sherd", shown(total.mean_weight_g, 1));
  add("lines", "lines of the record", grouped(std::ssize(input.record.lines)));
  add("contexts", "contexts of the site", grouped(std::ssize(input.dated.contexts)));
  add("contexts with pottery", "contexts in which pottery was found", grouped(contexts_with_pottery(input)));
  add("phases", "phases of the site", grouped(std::ssize(input.record.phases)));
  std::int64_t fabrics = 0, forms = 0;
  for (const auto& row : input.by_fabric.tally.rows) fabrics += row.keys.front() ? 1 : 0;
  for (const auto& row : input.by_form.tally.rows) forms += row.keys.front() ? 1 : 0;
  add("fabrics", "fabrics in the record", grouped(fabrics));
  add("forms", "forms in the record", grouped(forms));
  add("illustrated vessels", "vessels in the catalogue", grouped(std::ssize(input.rows.drawings)));
  const YearRange span = span_of_lines(input);
  add("years", "first and last year of the wares", or_dash(span));
  add("earliest year", "first year of the wares", span.earliest ? year_text(*span.earliest) : "\u2013");
  add("latest year", "last year of the wares", span.latest ? year_text(*span.latest) : "\u2013");
  const Recording recording = recording_of(input);
  add("recorded from", "first day of recording", recording.first);
  add("recorded to", "last day of recording", recording.last);
  add("recorders", "who recorded", join(recording.recorders, ", "));
  add("site code", "code of the site", input.site.code);
  add("site title", "title of the site", input.site.title);
  add("repository", "where the archive goes", input.rows.repository ? input.rows.repository->repository : "");
  add("accession", "accession number", input.rows.repository ? input.rows.repository->accession : "");
}

void ReportFields::add_groups(const ReportInput&, const ReportTally& tally, const std::string& of) {
  const auto table = [&](const std::string& name, const std::string& says) -> auto& {
    OfCode& out = of_codes_[name + " " + of + "="];
    out.says = says + " of a " + of;
    return out.values;
  };
  auto& sherds = table("sherds", "number of sherds");
  auto& weight = table("weight", "weight in g");
  auto& vessels = table("vessels", "number of vessels");
  auto& eve = table("eve", "EVE");
  auto& share = table("percent sherds", "share of all sherds");
  auto& weight_share = table("percent weight", "share of all weight");
  auto& eve_share = table("percent eve", "share of all EVE");
  auto& mean = table("mean sherd weight", "g a sherd");
  for (const quantify::TallyRow& row : tally.tally.rows) {
    const std::string code = row.keys.front().value_or("");
    if (code.empty()) continue;
    sherds[code] = shown(row.count);
    weight[code] = shown(row.weight_g, 0);
    vessels[code] = shown(row.vessels);
    eve[code] = shown(row.eve, 2);
    share[code] = percent(row.shares.count);
    weight_share[code] = percent(row.shares.weight);
    eve_share[code] = percent(row.shares.eve);
    mean[code] = shown(row.mean_weight_g, 1);
  }
}

void ReportFields::add_contexts(const ReportInput& input) {
  OfCode& terminus = of_codes_["terminus context="];
  OfCode& spot = of_codes_["spot range context="];
  OfCode& own = of_codes_["own date context="];
  terminus.says = "terminus post quem of a context";
  spot.says = "spot range of a context";
  own.says = "the specialist's own date of a context";
  OfCode& sequence = of_codes_["date in sequence context="];
  sequence.says = "date in sequence of a context, as kept";
  for (const KeptDate& kept : input.in_sequence.contexts) {
    if (!kept.printed.empty()) sequence.values[kept.context] = kept.printed;
  }
  for (const DatedContext& context : input.dated.contexts) {
    const Context& sheet = *context.context;
    terminus.values[sheet.context] =
        !context.mixed && context.effective.year ? year_text(*context.effective.year) : "\u2013";
    spot.values[sheet.context] =
        context.spot && !context.mixed ? or_dash({context.spot->earliest, context.spot->latest}) : "\u2013";
    own.values[sheet.context] = or_dash({sheet.my_earliest, sheet.my_latest});
  }
}

Result<std::string> ReportFields::value(std::string_view field) const {
  if (const auto one = ones_.find(field); one != ones_.end()) return one->second.value;
  const std::size_t equals = field.find('=');
  if (equals != std::string_view::npos) {
    const auto group = of_codes_.find(field.substr(0, equals + 1));
    const std::string_view code = trim(field.substr(equals + 1));
    if (group != of_codes_.end()) {
      if (const auto found = group->second.values.find(code); found != group->second.values.end()) return found->second;
      std::vector<std::string> known;
      for (const auto& [name, value] : group->second.values) known.push_back(name);
      std::string hint = did_you_mean(code, known);
      if (known.empty() && group->first.starts_with("date in sequence"))
        hint = "no dates in sequence are kept: sherdwright date STORE --keep";
      return fail("unknown_code",
                  "the record has no pottery under " + std::string(field.substr(equals + 1)) + " for {{" +
                      std::string(field) + "}}",
                  hint.empty() ? "look the code up with: sherdwright tally" : hint);
    }
  }
  std::vector<std::string> known;
  for (const auto& [name, one] : ones_) known.push_back(name);
  for (const auto& [name, group] : of_codes_) known.push_back(name);
  for (const char* name : {"table ", "figure ", "cite "}) known.emplace_back(name);
  const std::string asked(equals == std::string_view::npos ? field : field.substr(0, equals + 1));
  const std::string hint = did_you_mean(asked, known);
  return fail("unknown_field", "there is no field {{" + std::string(field) + "}}",
              hint.empty() ? "all fields: sherdwright report-check STORE --fields" : hint);
}

std::vector<ReportField> ReportFields::all() const {
  std::vector<ReportField> out;
  for (const auto& [name, one] : ones_) out.push_back({name, one.says, one.value});
  for (const auto& [name, group] : of_codes_)
    out.push_back({name + "CODE", group.says, group.values.empty() ? "" : group.values.begin()->second});
  return out;
}

Result<std::string> fill_fields(std::string_view text,
                                const std::function<Result<std::string>(const BracedField&)>& value) {
  std::string out;
  std::size_t line = 1;
  for (std::size_t at = 0; at < text.size();) {
    if (text.substr(at).starts_with("\\{{")) {
      out += "{{";
      at += 3;
      continue;
    }
    if (!text.substr(at).starts_with("{{")) {
      if (text[at] == '\n') ++line;
      out += text[at++];
      continue;
    }
    const std::string_view rest = text.substr(at + 2);
    const std::size_t close = rest.find("}}");
    const std::string where = " (line " + std::to_string(line) + ")";
    if (close == std::string_view::npos || rest.substr(0, close).find('\n') != std::string_view::npos)
      return fail("open_field", "a field is opened with {{ and not closed: " + shortened(rest, 24) + where,
                  "close it with }} on its line; for braces as such write \\{{");
    const std::string_view words = trim(rest.substr(0, close));
    if (words.empty()) return fail("open_field", "a field holds nothing: {{}}" + where, "name a field, or write \\{{");
    auto filled = value({words, line});
    if (!filled) {
      Error error = filled.error();
      error.message += where;
      return std::unexpected(std::move(error));
    }
    out += *filled;
    at += 2 + close + 2;
  }
  return out;
}

}  // namespace sherd::desk
