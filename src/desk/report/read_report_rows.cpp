#include "desk/report/compose_report.h"

#include <algorithm>
#include <limits>
#include <memory>

#include "desk/archive/archive_about.h"
#include "desk/assemblage/line_fields.h"
#include "desk/vessels/register_rows.h"
#include "methods/quantify/tally.h"
#include "model/rows.h"

/// What the report reads from the store, and its tallies.
namespace sherd::desk {

namespace {

constexpr std::int64_t kResamples = 1000, kFewestResamples = 200;
constexpr std::int64_t kDrawsAtMost = 20'000'000;  ///< lines times resamples: a second's work

template <class T>
Result<std::vector<T>> rows_of_kind(const Session& session, Kind kind) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, {}, {}}));
  return rows_from<T>(table);
}

template <class T>
void by_position(std::vector<T>& rows) {
  std::ranges::stable_sort(
      rows, {}, [](const T& row) { return row.position.value_or(std::numeric_limits<std::int64_t>::max()); });
}

/// Tallies of one record by one set of fields after another, from one reading of the lines.
class Tallies {
 public:
  static Result<Tallies> read(const Session& session, const std::vector<ReportTally>& extra, Progress& progress) {
    Tallies out(progress);
    std::vector<std::string> names{"fabric",     "form",          "context",           "condition",       "decoration",
                                   "use_traces", "context.phase", "fabric.ware_group", "context.recovery"};
    for (const ReportTally& one : extra) names.insert(names.end(), one.by.begin(), one.by.end());
    SHERD_TRY(LineFields fields,
              LineFields::read(session, names, {"record", "count", "weight_g", "vessels", "vessel", "rim_percent"}));
    out.fields_ = std::make_unique<LineFields>(std::move(fields));
    SHERD_TRY(Table rims,
              session.store->read({session.site.code, Kind::rims, {"record", "rim_percent", "vessel"}, {}}));
    out.rims_ = std::make_unique<Table>(std::move(rims));
    return out;
  }

  Result<ReportTally> by(std::vector<std::string> fields, std::int64_t resamples = 0) const {
    quantify::TallyInput input;
    input.lines = fields_->lines().rows();
    input.line = quantify::line_columns(fields_->lines());
    input.rim = quantify::rim_columns(*rims_);
    for (const std::string& field : fields) input.by.push_back(fields_->column(field));
    input.resamples = resamples;
    input.seed = 1;
    SHERD_TRY(quantify::Tally tally, quantify::tally(input, *progress_));
    return ReportTally{std::move(fields), std::move(tally)};
  }

 private:
  explicit Tallies(Progress& progress) : progress_(&progress) {}
  Progress* progress_;
  std::unique_ptr<LineFields> fields_;
  std::unique_ptr<Table> rims_;
};

}  // namespace

std::int64_t resamples_for(std::int64_t lines) {
  return std::clamp(kDrawsAtMost / std::max<std::int64_t>(1, lines), kFewestResamples, kResamples);
}

Result<void> fill_tallies(ReportInput& input, const Session& session, Progress& progress) {
  SHERD_TRY(const Tallies tallies, Tallies::read(session, input.extra, progress));
  const std::int64_t resamples = resamples_for(std::ssize(input.record.lines));
  SHERD_TRY(input.by_fabric, tallies.by({"fabric"}, resamples));
  SHERD_TRY(input.by_form, tallies.by({"form"}));
  SHERD_TRY(input.by_context, tallies.by({"context"}));
  SHERD_TRY(input.by_phase, tallies.by({"context.phase"}, resamples));
  SHERD_TRY(input.by_phase_and_ware, tallies.by({"context.phase", "fabric.ware_group"}));
  SHERD_TRY(input.by_condition, tallies.by({"condition"}));
  SHERD_TRY(input.by_recovery, tallies.by({"context.recovery"}));
  SHERD_TRY(input.by_phase_and_fabric, tallies.by({"context.phase", "fabric"}));
  SHERD_TRY(input.by_fabric_and_form, tallies.by({"fabric", "form"}));
  SHERD_TRY(input.by_use, tallies.by({"use_traces"}));
  SHERD_TRY(input.by_decoration, tallies.by({"decoration"}));
  for (ReportTally& extra : input.extra) {
    SHERD_TRY(extra, tallies.by(extra.by));
  }
  return {};
}

Result<ReportRows> read_report_rows(const Session& session) {
  ReportRows rows;
  SHERD_TRY(rows.texts, rows_of_kind<TextBlock>(session, Kind::texts));
  by_position(rows.texts);
  SHERD_TRY(rows.items, rows_of_kind<ReportItem>(session, Kind::report_items));
  by_position(rows.items);
  SHERD_TRY(rows.works, rows_of_kind<PublishedWork>(session, Kind::bibliography));
  SHERD_TRY(rows.inclusions, rows_of_kind<Inclusion>(session, Kind::inclusions));
  SHERD_TRY(rows.equivalents, rows_of_kind<Equivalent>(session, Kind::equivalents));
  SHERD_TRY(rows.pictures, rows_of_kind<Picture>(session, Kind::pictures));
  SHERD_TRY(rows.selections, rows_of_kind<Selection>(session, Kind::selections));
  SHERD_TRY(rows.estimates, rows_of_kind<Estimate>(session, Kind::estimates));
  SHERD_TRY(const auto drawings, read_drawings(session));
  std::ranges::copy_if(drawings, std::back_inserter(rows.drawings), is_wanted);
  SHERD_TRY(rows.pieces, read_pieces(session));
  SHERD_TRY(rows.repository, repository_of(session));
  return rows;
}

}  // namespace sherd::desk
