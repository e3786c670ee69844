#include "desk/dates/dated_record.h"

#include <algorithm>

#include "desk/dates/measured_parts.h"
#include "methods/dating/apportion.h"
#include "methods/dating/bracket.h"
#include "methods/dating/mean_date.h"
#include "methods/dating/ware_dates.h"
#include "methods/quantify/natural_order.h"
#include "methods/stratigraphy/termini.h"

namespace sherd::desk {

const DatedContext* DatedRecord::find(std::string_view context) const {
  const auto found = std::lower_bound(
      contexts.begin(), contexts.end(), context,
      [](const DatedContext& a, std::string_view b) { return quantify::natural_order(a.context->context, b) < 0; });
  return found != contexts.end() && found->context->context == context ? &*found : nullptr;
}

bool mean_dates_by_formula(const Record& record, const DatingSettings& settings) {
  const auto lines = static_cast<std::int64_t>(record.lines.size());
  return lines > kMostDraws / std::max<std::int64_t>(1, settings.resamples);
}

namespace {

class Dater {
 public:
  Dater(const Record& record, const DatingSettings& settings, Progress& progress)
      : record_(record),
        settings_(settings),
        progress_(progress),
        by_formula_(mean_dates_by_formula(record, settings)),
        rims_(record) {}

  Result<DatedRecord> run() {
    const dating::WareDates wares(record_.dates, record_.fabrics, record_.forms);
    for (const RecordLine& line : record_.lines) out_.line_dates.push_back(wares.date_line(line));
    sort_contexts();
    share_lines();
    SHERD_CHECK(date_contexts());
    carry();
    return std::move(out_);
  }

 private:
  void sort_contexts() {
    for (const Context& context : record_.contexts) out_.contexts.push_back({.context = &context});
    std::sort(out_.contexts.begin(), out_.contexts.end(), [](const DatedContext& a, const DatedContext& b) {
      return quantify::natural_order(a.context->context, b.context->context) < 0;
    });
    for (std::size_t i = 0; i < out_.contexts.size(); ++i) place_[out_.contexts[i].context->context] = i;
  }

  void share_lines() {
    for (std::size_t i = 0; i < record_.lines.size(); ++i) {
      const RecordLine& line = record_.lines[i];
      const auto place = place_.find(line.context);
      if (place == place_.end()) continue;
      DatedContext& context = out_.contexts[place->second];
      context.lines.push_back(i);
      std::optional<std::int64_t> rims = line.rims;
      if (const auto rows = rims_.of(line.record); !rims && !rows.empty())
        rims = static_cast<std::int64_t>(rows.size());
      context.dated.push_back({line.record, out_.line_dates[i].range(), out_.line_dates[i].because, line.vessel,
                               line.count, line.vessels, rims, line.weight, line.judged});
    }
  }

  Result<void> date_contexts() {
    for (std::size_t i = 0; i < out_.contexts.size(); ++i) {
      DatedContext& context = out_.contexts[i];
      context.mixed = context.context->deposit == Deposit::mixed;
      context.termini = dating::terminus_post_quem(context.dated);
      if (!context.mixed) context.spot = dating::spot_range(context.dated);
      if (curves_asked(context)) SHERD_CHECK(curves(context, i));
      const double done = static_cast<double>(i + 1) / static_cast<double>(out_.contexts.size());
      if (!progress_.step(done, "dating " + context.context->context))
        return fail(ErrorKind::stopped, "stopped", "stopped");
    }
    return {};
  }

  bool curves_asked(const DatedContext& context) const {
    return settings_.curves && (settings_.only.empty() || settings_.only == context.context->context);
  }

  Result<void> curves(DatedContext& context, std::size_t stream) {
    const MeasuredContext measured = measure_context(record_, out_.line_dates, context, rims_, settings_.measure);
    std::vector<dating::DatedAmount> amounts;
    for (const dating::MeasuredPart& part : measured.parts) amounts.push_back({part.range, part.amount, part.full});
    SHERD_TRY(context.mean,
              dating::mean_date_of_units(measured.parts, {settings_.resamples, settings_.seed, stream, by_formula_}));
    context.mean.unit = measured.unit;
    SHERD_TRY(context.curve, dating::apportion(amounts, {.width = settings_.bin_years, .shape = settings_.curve}));
    return {};
  }

  void carry() {
    std::vector<stratigraphy::ContextTermini> own;
    for (const DatedContext& context : out_.contexts)
      own.push_back({context.context->context, context.termini, context.context->deposit});
    stratigraphy::CarriedTermini carried = stratigraphy::carry_termini(own, record_.relations);
    out_.stopped = std::move(carried.stopped);
    out_.loops = std::move(carried.loops);
    for (std::size_t i = 0; i < out_.contexts.size(); ++i) {
      DatedContext& context = out_.contexts[i];
      context.effective = std::move(carried.contexts[i]);
      if (context.mixed) continue;
      if (context.effective.year) {
        context.residual = dating::residual_before(*context.effective.year, context.dated);
        context.kept_long = dating::kept_long(*context.effective.year, signs_of(record_, context, rims_));
      }
      if (curves_asked(context)) context.bracket = dating::bracket_of(context.dated, context.effective.year);
    }
  }

  const Record& record_;
  const DatingSettings& settings_;
  Progress& progress_;
  bool by_formula_;
  RimIndex rims_;
  std::map<std::string_view, std::size_t> place_;
  DatedRecord out_;
};

}  // namespace

Result<DatedRecord> date_record(const Record& record, const DatingSettings& settings, Progress& progress) {
  Dater dater(record, settings, progress);
  return dater.run();
}

}  // namespace sherd::desk
