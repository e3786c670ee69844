#include "desk/chemistry/chemistry_record.h"

#include "desk/chemistry/store_readings.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

template <class Row>
Result<std::vector<Row>> rows_of(const Session& session, Kind kind) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, kind_spec(kind).column_names(), {}}));
  return rows_from<Row>(table);
}

}  // namespace

Result<ChemistryRecord> load_chemistry(const Session& session, const std::string& today) {
  ChemistryRecord out;
  out.today = today.substr(0, 10);
  SHERD_TRY(out.standards, rows_of<Standard>(session, Kind::standards));
  SHERD_TRY(out.certified, rows_of<Certified>(session, Kind::certified));
  SHERD_TRY(out.samples, rows_of<Sample>(session, Kind::samples));
  SHERD_TRY(out.readings, rows_of<Reading>(session, Kind::readings));
  SHERD_TRY(out.sources, rows_of<Source>(session, Kind::sources));
  SHERD_TRY(out.amounts, rows_of<Concentration>(session, Kind::concentrations));
  SHERD_TRY(out.sections, rows_of<ThinSection>(session, Kind::petrology));
  SHERD_TRY(out.points, rows_of<PointCount>(session, Kind::point_counts));
  if (out.readings.empty()) return out;
  // Readings that cannot be set beside one another have no chart; the findings say why by what they lack.
  if (auto all = load_readings(session, {})) {
    if (auto instrument = judge_instrument(*all, {})) out.charts = std::move(instrument->charts);
  }
  return out;
}

}  // namespace sherd::desk
