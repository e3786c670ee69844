#include "base/text.h"
#include "desk/assemblage/compare_record.h"
#include "desk/assemblage/context_rows.h"

namespace sherd::desk {

Result<void> add_years(const CompareRequest& request, Environment& environment, Progress& progress,
                       CompareInput& input) {
  if (request.dates.size() != 1) {
    return fail(ErrorKind::usage, "bad_choice", "years of a store come from one place",
                "--dates own, sequence, spot or phase");
  }
  SHERD_TRY(const YearSource source, year_source(request.dates.front()));
  CompareInput again;
  SHERD_TRY(const auto contexts, context_rows(request, environment, "context", again, progress));
  SHERD_TRY(const auto years, years_of_rows(*contexts, source, environment));
  input.years.assign(input.table.row_labels.size(), std::nullopt);
  for (std::size_t i = 0; i < input.years.size(); ++i) {
    const auto place = contexts->rows.place.find(input.table.row_labels[i]);
    if (place == contexts->rows.place.end() || !years[place->second]) continue;
    const YearRange& range = *years[place->second];
    input.years[i] = static_cast<double>(range.earliest->value + range.latest->value) / 2;
  }
  if (source == YearSource::spot) {
    input.warnings.emplace_back(
        "spot dates come from the pottery that makes the axes: the dates found fit them better than they fit the "
        "truth");
  }
  return {};
}

}  // namespace sherd::desk
