#include "desk/chemistry/store_readings.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.h"
#include "methods/chemistry/units.h"
#include "model/rows.h"
#include "notation/analyte.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

chemistry::Unit unit_of(const std::optional<FractionUnit>& unit) {
  return unit == FractionUnit::percent ? chemistry::Unit::percent : chemistry::Unit::ppm;
}

Result<Table> whole(const Session& session, Kind kind) {
  return session.store->read({session.site.code, kind, kind_spec(kind).column_names(), {}});
}

/// FIELD=VALUE of the table of readings.
class Wanted {
 public:
  static Result<Wanted> read(const std::vector<std::string>& where, const Table& table) {
    Wanted out;
    for (const std::string& text : where) {
      const auto equals = text.find('=');
      const std::string field(trim(std::string_view(text).substr(0, equals)));
      const Column* column = table.find(field);
      if (equals == std::string::npos || column == nullptr)
        return fail(ErrorKind::usage, "no_column", "\"" + text + "\" names no column of the readings",
                    did_you_mean(field, table.names()));
      out.conditions_.emplace_back(column, std::string(trim(std::string_view(text).substr(equals + 1))));
    }
    return out;
  }
  bool holds(std::size_t row) const {
    return std::ranges::all_of(conditions_,
                               [&](const auto& each) { return cell_text(*each.first, row) == each.second; });
  }

 private:
  std::vector<std::pair<const Column*, std::string>> conditions_;
};

/// "12 (beam 2)" -> "12"
std::string of_beam(const Reading& reading) {
  const std::string tail = " (" + reading.beam + ")";
  const bool part = !reading.beam.empty() && reading.reading.ends_with(tail);
  return part ? reading.reading.substr(0, reading.reading.size() - tail.size()) : reading.reading;
}

std::vector<bool> counted_readings(const std::vector<Reading>& readings) {
  std::set<std::string> averaged;
  for (const Reading& reading : readings) {
    if (reading.beam == "average") averaged.insert(reading.file + "\n" + reading.reading);
  }
  std::vector<bool> out;
  for (const Reading& reading : readings) {
    const bool beam = !reading.beam.empty() && reading.beam != "average";
    out.push_back(!beam || !averaged.contains(reading.file + "\n" + of_beam(reading)));
  }
  return out;
}

/// Of each element the form that most amounts have; percent where any amount is in percent.
void settle_forms(const std::vector<Concentration>& amounts, StoreReadings& out) {
  const AtomicWeights& weights = reference::atomic_weights();
  std::map<std::string, std::map<std::string, std::int64_t>> forms;
  std::map<std::string, bool> percent;
  std::vector<std::string> order;
  for (const Concentration& each : amounts) {
    const auto formula = notation::read_formula(each.analyte, weights);
    if (!formula) continue;
    if (!forms.contains(formula->element)) order.push_back(formula->element);
    ++forms[formula->element][each.analyte];
    percent[formula->element] = percent[formula->element] || each.unit == FractionUnit::percent;
  }
  for (const std::string& element : order) {
    const auto& of = forms[element];
    const auto most = std::ranges::max_element(of, {}, [](const auto& form) { return form.second; });
    out.analytes.push_back({most->first, percent[element] ? chemistry::Unit::percent : chemistry::Unit::ppm});
    out.formulas.push_back(*notation::read_formula(most->first, weights));
    if (of.size() > 1) out.warnings.push_back("amounts of " + element + " were brought to " + most->first);
  }
}

void fill(const std::vector<Concentration>& amounts, StoreReadings& out) {
  const AtomicWeights& weights = reference::atomic_weights();
  std::map<std::string, std::size_t> readings;
  std::map<std::string, std::size_t> elements;
  for (std::size_t i = 0; i < out.readings.size(); ++i) readings[out.readings[i].reading] = i;
  for (std::size_t i = 0; i < out.formulas.size(); ++i) elements[out.formulas[i].element] = i;
  out.values = statistics::Matrix(out.readings.size(), out.analytes.size());
  std::ranges::fill(out.values.values, kNone);
  out.cells.assign(out.values.values.size(), chemistry::Cell::missing);
  std::map<std::size_t, std::int64_t> twice;  // by element: readings that hold it as element and as oxide
  for (const Concentration& each : amounts) {
    const auto formula = notation::read_formula(each.analyte, weights);
    const auto reading = readings.find(each.reading);
    if (!formula || reading == readings.end()) continue;
    const std::size_t analyte = elements[formula->element];
    const bool other_form = *formula != out.formulas[analyte];
    const double share =
        chemistry::element_share(*formula, weights) / chemistry::element_share(out.formulas[analyte], weights);
    const auto amount = [&](const Decimal& value) {
      return share * chemistry::in_unit(value.value(), unit_of(each.unit), out.analytes[analyte].unit);
    };
    const std::size_t place = out.place(reading->second, analyte);
    if (out.cells[place] != chemistry::Cell::missing) {
      ++twice[analyte];
      if (other_form) continue;
    }
    const AmountState state = each.state.value_or(AmountState::measured);
    if (state == AmountState::measured && each.value) {
      out.values.values[place] = amount(*each.value);
      out.cells[place] = chemistry::Cell::measured;
    } else if (state == AmountState::below) {
      if (each.limit) out.values.values[place] = amount(*each.limit);
      out.cells[place] = chemistry::Cell::below;
    } else if (state == AmountState::above) {
      ++out.above;
    }
  }
  for (const auto& [analyte, times] : twice) {
    out.warnings.push_back(counted(times, "reading") + " of " + out.formulas[analyte].element +
                           " in two forms: the amount of " + out.analytes[analyte].name + " was taken");
  }
}

}  // namespace

Result<StoreReadings> load_readings(const Session& session, const std::vector<std::string>& where) {
  StoreReadings out;
  SHERD_TRY(const Table table, whole(session, Kind::readings));
  SHERD_TRY(const Wanted wanted, Wanted::read(where, table));
  const std::vector<Reading> all = rows_from<Reading>(table);
  const std::vector<bool> counts = counted_readings(all);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool sherd = all[i].standard.empty() && all[i].role.value_or(ReadingRole::sherd) == ReadingRole::sherd;
    if (counts[i] && (!sherd || wanted.holds(i))) out.readings.push_back(all[i]);
  }
  if (out.readings.empty())
    return fail("no_readings", "the store has no readings" + std::string(where.empty() ? "" : " that meet this"),
                "import-readings takes an instrument's file");
  SHERD_TRY(const Table amounts, whole(session, Kind::concentrations));
  const auto rows = rows_from<Concentration>(amounts);
  settle_forms(rows, out);
  fill(rows, out);
  SHERD_TRY(const Table standards, whole(session, Kind::standards));
  SHERD_TRY(const Table certified, whole(session, Kind::certified));
  SHERD_TRY(const Table decisions, whole(session, Kind::analytes));
  out.standards = rows_from<Standard>(standards);
  out.certified = rows_from<Certified>(certified);
  out.decisions = rows_from<AnalyteUse>(decisions);
  if (out.above > 0)
    out.warnings.push_back(counted(out.above, "amount") + " beyond what the instrument reads: taken as missing");
  return out;
}

std::optional<CertifiedAmount> certified_amount(const StoreReadings& all, const std::string& standard,
                                                std::size_t analyte) {
  const AtomicWeights& weights = reference::atomic_weights();
  std::optional<CertifiedAmount> out;
  for (const Certified& each : all.certified) {
    if (each.standard != standard || !each.value) continue;
    const auto formula = notation::read_formula(each.analyte, weights);
    if (!formula || formula->element != all.formulas[analyte].element) continue;
    const double share =
        chemistry::element_share(*formula, weights) / chemistry::element_share(all.formulas[analyte], weights);
    const auto amount = [&](double value) {
      return share * chemistry::in_unit(value, unit_of(each.unit), all.analytes[analyte].unit);
    };
    out = CertifiedAmount{amount(each.value->value()), {}};
    const auto sd = chemistry::standard_uncertainty(each.uncertainty ? each.uncertainty->value() : 0,
                                                    each.uncertainty_kind ? word(*each.uncertainty_kind) : "none",
                                                    each.k ? std::optional(each.k->value()) : std::nullopt);
    if (sd) out->sd = amount(*sd);
    if (formula == all.formulas[analyte]) break;
  }
  return out;
}

std::vector<double> amounts_of(const StoreReadings& all, const std::string& standard, std::size_t analyte) {
  std::vector<double> out;
  for (std::size_t i = 0; i < all.readings.size(); ++i) {
    const std::size_t place = all.place(i, analyte);
    if (all.readings[i].standard == standard && all.cells[place] == chemistry::Cell::measured)
      out.push_back(all.values.values[place]);
  }
  return out;
}

}  // namespace sherd::desk
