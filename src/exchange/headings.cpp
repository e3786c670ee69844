#include "exchange/headings.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "exchange/synonyms.h"

namespace sherd::exchange {

std::string folded_heading(std::string_view heading) {
  std::string out;
  for (const char c : lower(trim(heading))) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
    if (letter) {
      out += c;
    } else if (c == '%') {
      out += out.empty() || out.back() == '_' ? "percent" : "_percent";
    } else if (!out.empty() && out.back() != '_') {
      out += '_';
    }
  }
  while (!out.empty() && out.back() == '_') out.pop_back();
  return out;
}

namespace {

class Planner {
 public:
  Planner(Kind kind, const std::vector<std::string>& headings, const Mapping& mapping, bool alters)
      : spec_(kind_spec(kind)),
        headings_(headings),
        mapping_(mapping),
        alters_(alters),
        taken_(headings.size(), false) {
    plan_.applied = mapping;
    for (const std::string& heading : headings) folded_.push_back(folded_heading(heading));
  }

  Result<HeadingPlan> run() {
    SHERD_CHECK(apply_mapping());
    SHERD_CHECK(apply_names());
    SHERD_CHECK(apply_eve());
    SHERD_CHECK(apply_filters());
    keep_extras();
    SHERD_CHECK(require());
    for (PlannedColumn& column : plan_.columns) finish(column);
    return std::move(plan_);
  }

 private:
  Result<std::size_t> find_heading(const std::string& wanted) const {
    for (std::size_t i = 0; i < headings_.size(); ++i) {
      if (trim(headings_[i]) == trim(wanted)) return i;
    }
    const std::string folded = folded_heading(wanted);
    for (std::size_t i = 0; i < headings_.size(); ++i) {
      if (folded_[i] == folded && !folded.empty()) return i;
    }
    std::string hint = did_you_mean(wanted, headings_);
    if (hint.empty()) hint = "the headings are: " + join(headings_, ", ");
    return fail("no_heading", "the mapping names the heading \"" + wanted + "\", which the table does not have", hint);
  }

  Result<void> apply_mapping() {
    for (const auto& [name, rule] : mapping_.columns) {
      PlannedColumn column{.spec = spec_.column(name), .separator = rule.separator, .times = rule.times};
      for (const std::string& from : rule.from) {
        SHERD_TRY(const std::size_t source, find_heading(from));
        column.sources.push_back(source);
        taken_[source] = true;
      }
      plan_.columns.push_back(std::move(column));
    }
    return {};
  }

  bool planned(std::string_view name) const {
    return std::any_of(plan_.columns.begin(), plan_.columns.end(), [&](const auto& c) { return c.spec->name == name; });
  }

  Result<void> add(std::size_t source, const std::string& name, const std::string& times) {
    for (const PlannedColumn& column : plan_.columns) {
      if (column.spec->name != name) continue;
      if (mapping_.columns.contains(name)) return {};  // the mapping decided; the other heading is kept as it is
      return fail("column_twice",
                  "the headings \"" + headings_[column.sources.front()] + "\" and \"" + headings_[source] +
                      "\" both mean " + name,
                  "say which with --columns: {\"columns\": {\"" + name + "\": \"" + headings_[source] + "\"}}");
    }
    plan_.columns.push_back({.spec = spec_.column(name), .sources = {source}, .times = times});
    plan_.applied.columns[name] = {{headings_[source]}, " ", times};
    taken_[source] = true;
    return {};
  }

  Result<void> apply_names() {
    for (std::size_t i = 0; i < headings_.size(); ++i) {
      if (!taken_[i] && spec_.column(folded_[i]) != nullptr) SHERD_CHECK(add(i, folded_[i], {}));
    }
    for (std::size_t i = 0; i < headings_.size(); ++i) {
      if (taken_[i] || folded_[i].empty()) continue;
      const auto synonym = find_synonym(spec_.name, folded_[i]);
      if (!synonym) continue;
      if (synonym->column == "eve") {
        eve_ = i;
      } else if (!planned(synonym->column)) {
        SHERD_CHECK(add(i, synonym->column, synonym->times));
      } else if (!mapping_.columns.contains(synonym->column) && !canonical_heading(synonym->column)) {
        SHERD_CHECK(add(i, synonym->column, synonym->times));
      }
    }
    if (spec_.kind == Kind::sherds && !eve_) {
      const auto at = std::find(folded_.begin(), folded_.end(), "eve");
      if (at != folded_.end()) eve_ = static_cast<std::size_t>(at - folded_.begin());
    }
    return {};
  }

  bool canonical_heading(std::string_view name) const {
    return std::find(folded_.begin(), folded_.end(), name) != folded_.end();
  }

  Result<void> apply_eve() {
    if (!eve_ || taken_[*eve_]) return {};
    if (planned("rim_percent")) return {};
    if (mapping_.eve.empty()) {
      return fail("eve_ambiguous",
                  "the column \"" + headings_[*eve_] + "\" may hold vessels (0.14) or percent of the rim's circle (14)",
                  R"(say which with --columns: {"eve": {"as": "vessels"}} or {"eve": {"as": "percent"}})");
    }
    return add(*eve_, "rim_percent", mapping_.eve == "vessels" ? "100" : "");
  }

  Result<void> apply_filters() {
    for (const auto& [heading, values] : mapping_.only) {
      SHERD_TRY(const std::size_t source, find_heading(heading));
      plan_.only.push_back({source, {values.begin(), values.end()}});
    }
    return {};
  }

  /// A name that no other column kept has, so that neither takes the other's place.
  std::string extra_name(const std::string& heading, std::size_t at) const {
    std::string number = "column " + std::to_string(at + 1);
    const bool there = std::any_of(plan_.extras.begin(), plan_.extras.end(),
                                   [&](const auto& extra) { return extra.second == heading; });
    if (heading.empty()) return number;
    return there ? heading + " (" + number + ")" : heading;
  }

  void keep_extras() {
    const std::vector<std::string> names = spec_.column_names();
    for (std::size_t i = 0; i < headings_.size(); ++i) {
      if (taken_[i]) continue;
      const std::string heading(trim(headings_[i]));
      plan_.extras.emplace_back(i, extra_name(heading, i));
      const auto near = closest(folded_[i], names);
      if (near && !planned(*near)) {
        plan_.proposals.push_back("the heading \"" + heading + "\" is kept as it is; if it means " + *near +
                                  ", say so with --columns");
      }
    }
  }

  /// Whether no table of these rows can do without it.
  bool is_needed(const ColumnSpec& column) const {
    if (!alters_) return column.required;
    return column.key && (column.required || spec_.key_names().size() == 1);
  }

  Result<void> require() const {
    for (const ColumnSpec& column : spec_.columns) {
      if (!is_needed(column) || planned(column.name) || mapping_.blank_as.contains(column.name)) continue;
      std::string hint = did_you_mean(column.name, headings_);
      if (hint.empty()) hint = "the headings are: " + join(headings_, ", ");
      return fail("missing_column",
                  "the table has no column for " + column.name + (alters_ ? ", which tells which row is meant" : ""),
                  hint + "; name it with --columns");
    }
    if (!alters_ && spec_.kind == Kind::sherds && !planned("count") && !planned("weight_g")) {
      return fail("missing_column", "the table has a column neither for count nor for weight_g",
                  "the headings are: " + join(headings_, ", ") + "; name one with --columns");
    }
    return {};
  }

  void finish(PlannedColumn& column) const {
    if (const auto codes = mapping_.codes.find(column.spec->name); codes != mapping_.codes.end())
      column.codes = codes->second;
    if (const auto blank = mapping_.blank_as.find(column.spec->name); blank != mapping_.blank_as.end())
      column.blank_as = blank->second;
  }

  const KindSpec& spec_;
  const std::vector<std::string>& headings_;
  const Mapping& mapping_;
  bool alters_;
  std::vector<std::string> folded_;
  std::vector<bool> taken_;
  std::optional<std::size_t> eve_;
  HeadingPlan plan_;
};

}  // namespace

Result<HeadingPlan> plan_headings(Kind kind, const std::vector<std::string>& headings, const Mapping& mapping,
                                  bool alters) {
  Planner planner(kind, headings, mapping, alters);
  SHERD_TRY(HeadingPlan plan, planner.run());
  plan.headings = headings;
  for (const auto& [name, blank] : mapping.blank_as) {
    const bool there =
        std::any_of(plan.columns.begin(), plan.columns.end(), [&](const auto& c) { return c.spec->name == name; });
    if (!there) plan.columns.push_back({.spec = kind_spec(kind).column(name), .blank_as = blank});
  }
  return plan;
}

}  // namespace sherd::exchange
