#include "desk/dates/dated_record.h"

#include <algorithm>

#include "methods/dating/apportion.h"
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
  std::int64_t sherds = 0;
  for (const RecordLine& line : record.lines) sherds += line.count.value_or(0);
  return sherds > kMostDraws / std::max<std::int64_t>(1, settings.resamples);
}

namespace {

class Dater {
 public:
  Dater(const Record& record, const DatingSettings& settings, Progress& progress)
      : record_(record),
        settings_(settings),
        progress_(progress),
        by_formula_(mean_dates_by_formula(record, settings)),
        rims_of_(rims_by_record(record)) {}

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
  static std::map<std::string_view, std::int64_t> rims_by_record(const Record& record) {
    std::map<std::string_view, std::int64_t> rims;
    for (const Rim& rim : record.rims) ++rims[rim.record];
    return rims;
  }

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
      if (const auto rows = rims_of_.find(line.record); !rims && rows != rims_of_.end()) rims = rows->second;
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
      if (settings_.curves) SHERD_CHECK(curves(context, i));
      const double done = static_cast<double>(i + 1) / static_cast<double>(out_.contexts.size());
      if (!progress_.step(done, "dating " + context.context->context))
        return fail(ErrorKind::stopped, "stopped", "stopped");
    }
    return {};
  }

  Result<void> curves(DatedContext& context, std::size_t stream) {
    std::vector<dating::DatedCount> counts;
    std::vector<dating::DatedAmount> amounts;
    for (const std::size_t i : context.lines) {
      const RecordLine& line = record_.lines[i];
      if (!line.count) continue;
      const YearRange range = out_.line_dates[i].range();
      counts.push_back({line.fabric, range, *line.count});
      amounts.push_back({range, static_cast<double>(*line.count)});
    }
    SHERD_TRY(context.mean, dating::mean_date(counts, {settings_.resamples, settings_.seed, stream, by_formula_}));
    SHERD_TRY(context.curve, dating::apportion(amounts, {.width = settings_.bin_years}));
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
      if (context.effective.year && !context.mixed)
        context.residual = dating::residual_before(*context.effective.year, context.dated);
    }
  }

  const Record& record_;
  const DatingSettings& settings_;
  Progress& progress_;
  bool by_formula_;
  std::map<std::string_view, std::int64_t> rims_of_;
  std::map<std::string_view, std::size_t> place_;
  DatedRecord out_;
};

}  // namespace

Result<DatedRecord> date_record(const Record& record, const DatingSettings& settings, Progress& progress) {
  Dater dater(record, settings, progress);
  return dater.run();
}

}  // namespace sherd::desk
