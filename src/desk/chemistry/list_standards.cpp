#include "desk/chemistry/list_standards.h"

#include <map>

#include "base/text.h"
#include "methods/chemistry/checks.h"
#include "methods/chemistry/units.h"
#include "model/chemistry.h"
#include "model/rows.h"
#include "notation/analyte.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

StandardValue value_of(const Certified& row) {
  StandardValue out{.analyte = row.analyte,
                    .unit = row.unit ? std::string(word(*row.unit)) : "",
                    .uncertainty_kind = row.uncertainty_kind ? std::string(word(*row.uncertainty_kind)) : "none",
                    .status = std::string(word(row.status.value_or(ValueStatus::certified))),
                    .known = row.known ? std::string(word(*row.known)) : ""};
  if (row.value) out.value = row.value->value();
  if (row.uncertainty) out.uncertainty = row.uncertainty->value();
  if (row.k) out.k = row.k->value();
  out.sd = chemistry::standard_uncertainty(out.uncertainty.value_or(0), out.uncertainty_kind, out.k);
  return out;
}

void add_flags(StandardRow& row, const std::string& today) {
  if (row.total.plausible == false) row.flags.push_back(row.total.note);
  if (row.checked_by.empty()) row.flags.emplace_back("not held against the certificate by anyone named");
  if (row.values.empty()) row.flags.emplace_back("has no values");
  if (!row.expires_on.empty() && !today.empty() && row.expires_on < today.substr(0, 10))
    row.flags.push_back("the certificate ran out on " + row.expires_on);
  std::vector<std::string> memory;
  std::vector<std::string> strange;
  std::vector<std::string> wide;
  for (const StandardValue& value : row.values) {
    if (value.known == "memory") memory.push_back(value.analyte);
    if (!notation::read_formula(value.analyte, reference::atomic_weights())) strange.push_back(value.analyte);
    if (value.uncertainty && value.value > 0 && *value.uncertainty > 0.25 * value.value) wide.push_back(value.analyte);
  }
  if (!memory.empty()) row.flags.push_back("from memory: " + join(memory, ", "));
  if (!strange.empty()) row.flags.push_back("no element or oxide, so not used: " + join(strange, ", "));
  if (!wide.empty())
    row.flags.push_back("uncertainty above a quarter of the value, which may be one in another unit: " +
                        join(wide, ", "));
}

}  // namespace

Result<std::vector<StandardRow>> standard_rows(const Session& session, const std::string& today) {
  const auto whole = [&](Kind kind) {
    return session.store->read({session.site.code, kind, kind_spec(kind).column_names(), {}});
  };
  SHERD_TRY(const Table standards, whole(Kind::standards));
  SHERD_TRY(const Table certified, whole(Kind::certified));
  SHERD_TRY(const Table readings, session.store->read({session.site.code, Kind::readings, {"standard"}, {}}));
  std::map<std::string, std::int64_t> read;
  for (std::size_t i = 0; i < readings.rows(); ++i) ++read[std::string(readings.columns()[0].text(i))];
  std::map<std::string, std::vector<Certified>> values;
  for (Certified& row : rows_from<Certified>(certified)) values[row.standard].push_back(row);
  std::vector<StandardRow> out;
  for (const Standard& each : rows_from<Standard>(standards)) {
    StandardRow row{.standard = each.standard,
                    .name = each.name,
                    .issuer = each.issuer,
                    .basis = each.basis,
                    .expires_on = each.expires_on,
                    .checked_by = each.checked_by,
                    .source = each.source,
                    .readings = read[each.standard]};
    std::vector<chemistry::NamedAmount> amounts;
    for (const Certified& value : values[each.standard]) {
      row.values.push_back(value_of(value));
      const auto formula = notation::read_formula(value.analyte, reference::atomic_weights());
      const auto unit = value.unit == FractionUnit::percent ? chemistry::Unit::percent : chemistry::Unit::ppm;
      if (formula && value.value) amounts.push_back({*formula, unit, value.value->value()});
    }
    row.total = chemistry::oxide_total(amounts, reference::atomic_weights());
    add_flags(row, today);
    out.push_back(std::move(row));
  }
  return out;
}

Result<StandardsResponse> list_standards(const StandardsRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  StandardsResponse response;
  SHERD_TRY(response.standards, standard_rows(session, environment.now()));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace sherd::desk
