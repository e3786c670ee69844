#include "desk/dates/sequence_input.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "methods/dating/vessel_units.h"
#include "notation/condition.h"

namespace sherd::desk {

namespace {

/// A quarter of a rim's circle, in percent.
constexpr double kQuarter = 25;

std::string kind_name(const RecordLine& line) {
  std::string name = line.fabric;
  for (const std::string* more : {&line.form, &line.decoration}) {
    if (!more->empty()) name += (name.empty() ? "" : ", ") + *more;
  }
  return name;
}

std::set<std::string, std::less<>> fresh_joins(const Record& record) {
  std::set<std::string, std::less<>> lines;
  for (const Join& join : record.joins) {
    if (join.kind != JoinKind::join_fresh) continue;
    lines.insert(join.record_a);
    lines.insert(join.record_b);
  }
  return lines;
}

class Gatherer {
 public:
  Gatherer(const Record& record, const DatedRecord& dated)
      : record_(record), dated_(dated), fresh_(fresh_joins(record)) {}

  SequenceEvidence run(Year present) {
    out_.input.present = present;
    for (const DatedContext& context : dated_.contexts) out_.input.contexts.push_back(context_of(context));
    out_.input.relations = record_.relations;
    out_.input.phases = record_.phases;
    if (open_ > 0) {
      out_.left_out.push_back(counted(open_, "line") +
                              " with a date that is open at one end: give such wares the other end to let them date");
    }
    if (undated_ > 0) out_.left_out.push_back(counted(undated_, "line") + " without a date");
    if (at_odds_ > 0) {
      out_.left_out.push_back(counted(at_odds_, "vessel") +
                              " whose lines have dates that exclude each other: taken over all their years");
    }
    return std::move(out_);
  }

 private:
  stratigraphy::SequenceContext context_of(const DatedContext& context) {
    const Context& sheet = *context.context;
    stratigraphy::SequenceContext out;
    out.context = sheet.context;
    out.deposit = sheet.deposit.value_or(Deposit::unknown);
    out.integrity = sheet.integrity.value_or(Integrity::ordinary);
    out.phase = sheet.phase;
    out.not_before = sheet.not_before;
    out.not_after = sheet.not_after;
    out.limit_basis = sheet.limit_basis;
    if (context.mixed) return out;
    for (const dating::DatedLine& line : context.dated) {
      undated_ += line.range.empty() ? 1 : 0;
      open_ += !line.range.empty() && !line.range.closed() ? 1 : 0;
    }
    const auto closed = dating::lines_where(std::span<const dating::DatedLine>(context.dated),
                                            [](const dating::DatedLine& line) { return line.range.closed(); });
    for (const dating::VesselUnit& unit : dating::dated_vessels(context.dated, closed)) {
      if (unit.vessels > 0) out.kinds.push_back(kind_of(context, unit));
    }
    return out;
  }

  stratigraphy::VesselKind kind_of(const DatedContext& context, const dating::VesselUnit& unit) {
    stratigraphy::VesselKind kind;
    const YearRange range = unit.range();
    kind.earliest = *range.earliest;
    kind.latest = *range.latest;
    kind.vessels = unit.vessels;
    at_odds_ += unit.at_odds ? 1 : 0;
    auto wear = Wear::unknown;
    bool alike = !unit.at_odds;
    for (const std::size_t i : unit.lines) {
      const std::size_t at = context.lines[i];
      const RecordLine& line = record_.lines[at];
      const dating::LineDate& date = dated_.line_dates[at];
      kind.records.push_back(line.record);
      if (kind.name.empty()) kind.name = kind_name(line);
      if (!kind.judged) kind.judged = line.judged;
      alike = alike && date.range() == range;
      if (i == unit.lines.front()) kind.basis = date.basis;
      wear = stronger(wear, wear_of(line, fresh_.contains(line.record), context.dated[i].rims.value_or(1)));
    }
    if (alike) {
      const YearRange full = dated_.line_dates[context.lines[unit.lines.front()]].full;
      const bool sound = (!full.earliest || (*full.earliest >= kind.earliest && *full.earliest <= kind.latest)) &&
                         (!full.latest || (*full.latest <= kind.latest && *full.latest >= kind.earliest)) &&
                         (!full.closed() || *full.earliest <= *full.latest);
      if (sound) {
        kind.full_from = full.earliest;
        kind.full_to = full.latest;
      }
    }
    if (wear == Wear::fresh) kind.fresh = kind.vessels;
    if (wear == Wear::abraded) kind.abraded = kind.vessels;
    if (wear == Wear::heavily_abraded) kind.heavily_abraded = kind.vessels;
    return kind;
  }

  /// Joining or complete wins over abraded; of two that are worn, the more worn.
  static Wear stronger(Wear a, Wear b) {
    if (a == Wear::fresh || b == Wear::fresh) return Wear::fresh;
    return std::max(a, b);
  }

  const Record& record_;
  const DatedRecord& dated_;
  std::set<std::string, std::less<>> fresh_;
  std::int64_t open_ = 0, undated_ = 0, at_odds_ = 0;
  SequenceEvidence out_;
};

}  // namespace

Wear wear_of(const RecordLine& line, bool joins_fresh, std::int64_t rims) {
  if (joins_fresh) return Wear::fresh;
  if (line.rim_percent && line.rim_percent->percent() > kQuarter * static_cast<double>(std::max<std::int64_t>(1, rims)))
    return Wear::fresh;
  auto wear = Wear::unknown;
  for (const notation::ConditionTriple& seen : notation::read_condition(line.condition)) {
    const std::string type = lower(seen.type);
    const bool worn = type.starts_with("abra") || type.starts_with("rolled") || type.starts_with("water");
    if (type == "fresh" || type == "unabraded") return Wear::fresh;
    if (!worn) continue;
    const std::string level = lower(seen.level);
    const bool heavy = level.starts_with("heav") || level.starts_with("sever") || level.starts_with("very") ||
                       type.find("heavil") != std::string::npos;
    wear = std::max(wear, heavy ? Wear::heavily_abraded : Wear::abraded);
  }
  return wear;
}

SequenceEvidence sequence_evidence(const Record& record, const DatedRecord& dated, Year present) {
  return Gatherer(record, dated).run(present);
}

ExpectedResidual expected_residual(const stratigraphy::ContextDate& date,
                                   const std::map<std::string_view, const RecordLine*>& lines) {
  ExpectedResidual out;
  for (const stratigraphy::GroupDate& group : date.groups) {
    const double chance = group.residual.value_or(0);
    out.vessels += chance * static_cast<double>(group.vessels);
    for (const stratigraphy::KindDate& kind : group.kinds) {
      for (const std::string& record : kind.records) {
        const auto line = lines.find(record);
        if (line == lines.end()) continue;
        if (line->second->count) out.count += chance * static_cast<double>(*line->second->count);
        if (line->second->weight) out.weight_g += chance * static_cast<double>(line->second->weight->mg) / 1000;
      }
    }
  }
  return out;
}

}  // namespace sherd::desk
