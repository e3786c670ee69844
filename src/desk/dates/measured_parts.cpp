#include "desk/dates/measured_parts.h"

#include <algorithm>
#include <set>

#include "methods/dating/popularity.h"
#include "methods/dating/vessel_units.h"

namespace sherd::desk {

namespace {

using dating::DatedLine;
using dating::DatingMeasure;
using dating::MeasuredPart;

constexpr double kTenthsOfWhole = 1000;  // tenths of a percent in a whole rim

/// The years of full production, where they lie within the range; a line whose do not is spread as if it had none.
YearRange full_of(const dating::LineDate& date, const YearRange& range) {
  return range == date.range() && dating::is_sound({range, date.full}) ? date.full : YearRange{};
}

/// Numbers for units: one a named vessel, else one a line.
class Units {
 public:
  std::size_t of(std::string_view vessel) {
    if (vessel.empty()) return next_++;
    const auto [at, fresh] = named_.try_emplace(vessel, next_);
    if (fresh) ++next_;
    return at->second;
  }

 private:
  std::map<std::string_view, std::size_t> named_;
  std::size_t next_ = 0;
};

/// Rim on a line in tenths of a percent, by the vessel that each rim belongs to; "" is none named.
std::vector<std::pair<std::string_view, std::int64_t>> rims_on(const RecordLine& line, const RimIndex& rims) {
  std::vector<std::pair<std::string_view, std::int64_t>> out;
  for (const Rim* rim : rims.of(line.record)) {
    if (rim->rim_percent) out.emplace_back(rim->vessel.empty() ? line.vessel : rim->vessel, rim->rim_percent->tenths);
  }
  if (out.empty() && line.rim_percent) out.emplace_back(line.vessel, line.rim_percent->tenths);
  return out;
}

class Measurer {
 public:
  Measurer(const Record& record, const std::vector<dating::LineDate>& line_dates, const DatedContext& context,
           const RimIndex& rims)
      : record_(record), line_dates_(line_dates), context_(context), rims_(rims) {}

  std::vector<MeasuredPart> by_lines(DatingMeasure measure) {
    const auto whole = measure == DatingMeasure::eve ? rims_of_vessels() : Rims{};
    Units units;
    std::vector<MeasuredPart> out;
    for (const std::size_t i : context_.lines) {
      const RecordLine& line = record_.lines[i];
      const std::optional<double> amount = amount_of(line, measure, whole);
      if (!amount) continue;
      const YearRange range = line_dates_[i].range();
      out.push_back(
          {line.fabric, range, *amount, line.count.value_or(0), units.of(line.vessel), full_of(line_dates_[i], range)});
    }
    return out;
  }

  std::vector<MeasuredPart> by_vessels() {
    std::vector<MeasuredPart> out;
    const auto all = dating::lines_where(context_.dated, [](const DatedLine&) { return true; });
    std::set<std::string_view> named;
    for (const dating::VesselUnit& unit : dating::dated_vessels(context_.dated, all)) {
      named.insert(context_.dated[unit.lines.front()].vessel);
      add(out, unit, unit.range());
    }
    // Undated vessels are counted by the same rule: any range will do to have them counted.
    std::vector<DatedLine> rest = context_.dated;
    for (DatedLine& line : rest) line.range = {Year{1}, Year{1}};
    const auto undated = dating::lines_where(context_.dated, [&](const DatedLine& line) {
      return line.range.empty() && (line.vessel.empty() || !named.contains(line.vessel));
    });
    for (const dating::VesselUnit& unit : dating::dated_vessels(rest, undated)) add(out, unit, {});
    return out;
  }

 private:
  using Rims = std::map<std::string_view, double>;

  void add(std::vector<MeasuredPart>& out, const dating::VesselUnit& unit, const YearRange& range) const {
    const std::size_t first = context_.lines[unit.lines.front()];
    MeasuredPart part{record_.lines[first].fabric,       range, static_cast<double>(unit.vessels), 0, out.size(),
                      full_of(line_dates_[first], range)};
    for (const std::size_t i : unit.lines) part.sherds += context_.dated[i].count.value_or(0);
    out.push_back(part);
  }

  Rims rims_of_vessels() const {
    Rims out;
    for (const std::size_t i : context_.lines) {
      for (const auto& [vessel, tenths] : rims_on(record_.lines[i], rims_)) {
        if (!vessel.empty()) out[vessel] += static_cast<double>(tenths);
      }
    }
    return out;
  }

  std::optional<double> amount_of(const RecordLine& line, DatingMeasure measure, const Rims& whole) const {
    if (measure == DatingMeasure::count) return line.count ? std::optional<double>(*line.count) : std::nullopt;
    if (measure == DatingMeasure::weight_g) return line.weight ? std::optional(line.weight->g()) : std::nullopt;
    const auto rims = rims_on(line, rims_);
    if (rims.empty()) return std::nullopt;
    double eve = 0;
    for (const auto& [vessel, tenths] : rims) {
      const double present = vessel.empty() ? 0 : whole.at(vessel);
      eve += static_cast<double>(tenths) / std::max(kTenthsOfWhole, present);
    }
    return eve;
  }

  const Record& record_;
  const std::vector<dating::LineDate>& line_dates_;
  const DatedContext& context_;
  const RimIndex& rims_;
};

}  // namespace

RimIndex::RimIndex(const Record& record) {
  for (const Rim& rim : record.rims) rims_[rim.record].push_back(&rim);
}

std::span<const Rim* const> RimIndex::of(std::string_view line) const {
  const auto found = rims_.find(line);
  return found == rims_.end() ? std::span<const Rim* const>{} : std::span<const Rim* const>(found->second);
}

MeasuredContext measure_context(const Record& record, const std::vector<dating::LineDate>& line_dates,
                                const DatedContext& context, const RimIndex& rims, DatingMeasure measure) {
  Measurer measurer(record, line_dates, context, rims);
  const bool named = std::ranges::any_of(context.dated, [](const DatedLine& line) { return !line.vessel.empty(); });
  const bool vessels = measure == DatingMeasure::vessels;
  return {vessels ? measurer.by_vessels() : measurer.by_lines(measure), named || vessels ? "vessels" : "lines"};
}

std::vector<dating::LineSigns> signs_of(const Record& record, const DatedContext& context, const RimIndex& rims) {
  std::vector<dating::LineSigns> out;
  for (std::size_t i = 0; i < context.lines.size(); ++i) {
    const RecordLine& line = record.lines[context.lines[i]];
    dating::LineSigns signs{line.record, line.vessel, line.part,  line.condition, context.dated[i].range,
                            {},          {},          line.judged};
    double tenths = 0;
    const auto on = rims_on(line, rims);
    for (const auto& [vessel, rim] : on) tenths += static_cast<double>(rim);
    const auto circles = static_cast<double>(std::max<std::int64_t>(1, context.dated[i].rims.value_or(1)));
    if (!on.empty()) signs.rim_percent = tenths / 10 / circles;
    if (line.base_percent && line.count.value_or(1) <= 1) signs.base_percent = line.base_percent->percent();
    if (line.base_percent && !line.vessel.empty()) signs.base_percent = line.base_percent->percent();
    out.push_back(signs);
  }
  return out;
}

}  // namespace sherd::desk
