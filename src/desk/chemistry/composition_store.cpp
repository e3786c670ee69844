#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "base/text.h"
#include "desk/chemistry/composition_input.h"
#include "model/record.h"
#include "model/rows.h"

/// Compositions of the sherds of a store: readings of one sample averaged.
namespace sherd::desk {

namespace {

using chemistry::Cell;
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

/// What groups may be of: by record, and by sample.
struct Fields {
  std::map<std::string, std::string> fabric, of_record, of_sample;
};

Result<Table> columns(const Session& session, Kind kind, std::vector<std::string> names) {
  return session.store->read({session.site.code, kind, std::move(names), {}});
}

Result<Fields> load_fields(const Session& session, const std::string& by) {
  Fields out;
  SHERD_TRY(const Table lines, columns(session, Kind::sherds, {"record", "fabric", "form", "context"}));
  SHERD_TRY(const Table fabrics, columns(session, Kind::fabrics, {"fabric", "ware_group"}));
  std::map<std::string, std::string> wares;
  for (const Fabric& each : rows_from<Fabric>(fabrics)) wares[each.fabric] = each.ware_group;
  for (const RecordLine& line : rows_from<RecordLine>(lines)) {
    out.fabric[line.record] = line.fabric;
    if (by == "fabric") out.of_record[line.record] = line.fabric;
    if (by == "form") out.of_record[line.record] = line.form;
    if (by == "context") out.of_record[line.record] = line.context;
    if (by == "ware_group") out.of_record[line.record] = wares[line.fabric];
  }
  if (by != "petro_group") return out;
  SHERD_TRY(const Table sections, columns(session, Kind::petrology, {"section", "sample", "record", "petro_group"}));
  for (const ThinSection& each : rows_from<ThinSection>(sections)) {
    if (!each.record.empty()) out.of_record[each.record] = each.petro_group;
    if (!each.sample.empty()) out.of_sample[each.sample] = each.petro_group;
  }
  return out;
}

class Averager {
 public:
  Averager(const StoreReadings& all, const ChemistryRequest& request, const Fields& fields)
      : all_(all),
        single_(request.readings == "single"),
        by_(request.by.empty() ? "chem_group" : request.by),
        share_(request.share.value_or(0.65)),
        fields_(fields) {}

  CompositionInput run() {
    std::map<std::string, std::size_t> places;
    for (std::size_t i = 0; i < all_.readings.size(); ++i) {
      if (!all_.is_sherd(i)) continue;
      const Reading& reading = all_.readings[i];
      std::string id = reading.reading;
      if (!single_ && !reading.sample.empty()) id = reading.sample;
      if (!single_ && reading.sample.empty() && !reading.record.empty()) id = reading.record;
      const auto [place, fresh] = places.emplace(id, ids_.size());
      if (fresh) ids_.push_back(id);
      if (fresh) readings_.emplace_back();
      readings_[place->second].push_back(i);
      ++out_.about.readings;
    }
    chemistry::Composition& table = out_.composition;
    table.analytes = all_.analytes;
    table.ids = ids_;
    table.values = statistics::Matrix(ids_.size(), all_.analytes.size());
    table.cells.assign(table.values.values.size(), Cell::missing);
    for (std::size_t s = 0; s < ids_.size(); ++s) take(s);
    out_.about.groups_by = by_;
    out_.about.unit = "said";
    if (mixed_ > 0)
      out_.warnings.push_back(counted(mixed_, "mean") +
                              " of readings some of which are below their limit: those count as a share of it");
    if (torn_ > 0)
      out_.warnings.push_back(counted(torn_, "sample") + " whose readings name more than one group: taken as in none");
    return std::move(out_);
  }

 private:
  void take(std::size_t s) {
    chemistry::Composition& table = out_.composition;
    const std::vector<std::size_t>& rows = readings_[s];
    std::string record;
    std::string group;
    bool torn = false;
    for (const std::size_t i : rows) {
      const Reading& reading = all_.readings[i];
      if (record.empty()) record = reading.record;
      torn = torn || (!group.empty() && !reading.chem_group.empty() && group != reading.chem_group);
      if (!reading.chem_group.empty()) group = reading.chem_group;
    }
    if (by_ != "chem_group") {
      group.clear();
      torn = false;
      if (const auto at = fields_.of_record.find(record); at != fields_.of_record.end()) group = at->second;
      if (const auto at = fields_.of_sample.find(ids_[s]); at != fields_.of_sample.end()) group = at->second;
    }
    if (torn) ++torn_;
    table.records.push_back(record);
    table.groups.push_back(torn ? "" : group);
    const auto fabric = fields_.fabric.find(record);
    out_.fabrics.push_back(fabric == fields_.fabric.end() ? "" : fabric->second);
    for (std::size_t j = 0; j < all_.analytes.size(); ++j) mean(s, j);
  }

  /// Most readings measured: their mean, one below its limit counting as a share of it. Else the cell is below the
  /// greatest limit.
  void mean(std::size_t s, std::size_t j) {
    double sum = 0;
    double greatest = kNone;
    std::size_t measured = 0;
    std::size_t below = 0;
    std::size_t with_limit = 0;
    for (const std::size_t i : readings_[s]) {
      const std::size_t place = all_.place(i, j);
      const double value = all_.values.values[place];
      if (all_.cells[place] == Cell::measured) {
        sum += value;
        ++measured;
      } else if (all_.cells[place] == Cell::below) {
        ++below;
        if (std::isnan(value)) continue;
        sum += share_ * value;
        ++with_limit;
        greatest = std::isnan(greatest) ? value : std::max(greatest, value);
      }
    }
    if (measured + below == 0) {
      out_.composition.values(s, j) = kNone;
      return;
    }
    const std::size_t cell = s * all_.analytes.size() + j;
    if (measured > below) {
      out_.composition.values(s, j) = sum / static_cast<double>(measured + with_limit);
      out_.composition.cells[cell] = Cell::measured;
      if (below > 0) ++mixed_;
    } else {
      out_.composition.values(s, j) = greatest;
      out_.composition.cells[cell] = Cell::below;
    }
  }

  const StoreReadings& all_;
  bool single_;
  std::string by_;
  double share_;
  const Fields& fields_;
  std::vector<std::string> ids_;
  std::vector<std::vector<std::size_t>> readings_;
  std::int64_t mixed_ = 0, torn_ = 0;
  CompositionInput out_;
};

/// All analytes that the table of acceptance does not rule out; those asked for, whatever it says.
void accept(const ChemistryRequest& request, CompositionInput& input) {
  ChemistryRequest wanted;
  if (!request.analytes.empty()) return;
  std::vector<std::string> out;
  for (std::size_t j = 0; j < input.composition.parts(); ++j) {
    const chemistry::Acceptance& each = input.instrument.acceptance[j];
    const bool nothing = [&] {
      for (std::size_t i = 0; i < input.composition.rows(); ++i) {
        if (input.composition.cell(i, j) == Cell::measured) return false;
      }
      return true;
    }();
    if (each.decision == "leave_out" || nothing) {
      out.push_back(each.analyte + ": " + (nothing ? "measured in no sample" : join(each.reasons, "; ")));
    } else {
      wanted.analytes.push_back(each.analyte);
    }
  }
  if (out.empty() || wanted.analytes.empty()) return;
  (void)choose(wanted, input);
  input.about.analytes_left_out = std::move(out);
}

}  // namespace

Result<CompositionInput> composition_of_store(const ChemistryRequest& request, Environment& environment) {
  static const std::vector<std::string> kBy{"chem_group", "fabric", "ware_group", "petro_group", "context", "form"};
  if (!request.by.empty() && std::ranges::find(kBy, request.by) == kBy.end())
    return fail(ErrorKind::usage, "bad_choice", "--by does not know \"" + request.by + "\"",
                "choose " + join(kBy, ", "));
  if (!request.readings.empty() && request.readings != "means" && request.readings != "single")
    return fail(ErrorKind::usage, "bad_choice", "--readings does not know \"" + request.readings + "\"",
                "choose means or single");
  SHERD_TRY(const InstrumentChoice choice, instrument_choice(request));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(StoreReadings all, load_readings(session, request.where));
  SHERD_TRY(Instrument instrument, judge_instrument(all, choice));
  SHERD_TRY(const Fields fields, load_fields(session, request.by));
  CompositionInput out = Averager(all, request, fields).run();
  out.instrument = std::move(instrument);
  out.about.corrected = choice.corrected;
  out.about.drift = choice.drift;
  SHERD_TRY(const Table sources, columns(session, Kind::sources, {"chem_group", "name", "east", "north"}));
  for (const Source& each : rows_from<Source>(sources)) {
    chemistry::Source source{.group = each.chem_group, .name = each.name, .east = {}, .north = {}};
    if (each.east) source.east = each.east->value();
    if (each.north) source.north = each.north->value();
    out.sources.push_back(std::move(source));
  }
  const auto add = [&](const std::vector<std::string>& more) {
    out.warnings.insert(out.warnings.end(), more.begin(), more.end());
  };
  add(session.store->warnings());
  add(all.warnings);
  add(out.instrument.warnings);
  if (out.composition.rows() == 0)
    return fail("no_readings", "the store has no readings of sherds", "import-readings takes an instrument's file");
  SHERD_TRY(out.provenance, session.provenance(environment));
  accept(request, out);
  SHERD_CHECK(choose(request, out));
  finish(out);
  return out;
}

}  // namespace sherd::desk
