#include "desk/series/series_list.h"

#include <algorithm>
#include <map>

#include "desk/frame/session.h"
#include "desk/series/series_description.h"
#include "model/kind_spec.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

template <class Entry>
Result<std::vector<Entry>> read_rows(const Session& session, Kind kind) {
  std::vector<std::string> columns = kind_spec(kind).column_names();
  columns.insert(columns.end(), {"uid", "changed"});
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, columns, {}}));
  using Plain = typename Entry::Plain;
  std::vector<Plain> plain = rows_from<Plain>(table);
  std::vector<Entry> rows(plain.size());
  for (std::size_t row = 0; row < plain.size(); ++row) {
    static_cast<Plain&>(rows[row]) = std::move(plain[row]);
    rows[row].uid = table.find("uid")->text(row);
    rows[row].changed = table.find("changed")->integer(row);
  }
  return rows;
}

using Amounts = std::map<std::string, SeriesAmount>;

Result<Amounts> amounts_by(const Session& session, const std::string& column) {
  SHERD_TRY(const Table table, session.store->sums({session.site.code, Kind::sherds, column, {"count", "weight_g"}}));
  Amounts amounts;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    SeriesAmount& amount = amounts[std::string(table.find(column)->text(row))];
    amount.lines = table.find("rows")->integer(row);
    if (const Column& count = *table.find("count"); !count.is_null(row)) amount.count = count.integer(row);
    if (const Column& weight = *table.find("weight_g"); !weight.is_null(row))
      amount.weight = Weight{weight.integer(row)};
  }
  return amounts;
}

/// The rows whose `member` is the code.
template <class Entry, class Base>
std::vector<Entry> of_code(const std::vector<Entry>& rows, std::string Base::* member, const std::string& code) {
  std::vector<Entry> out;
  for (const Entry& row : rows) {
    if (row.*member == code) out.push_back(row);
  }
  return out;
}

/// What is told of codes beside their own rows.
struct Beside {
  std::vector<DateEntry> dates;
  std::vector<InclusionEntry> inclusions;
  std::vector<EquivalentEntry> equivalents;
  std::vector<SpecimenEntry> specimens;
  std::vector<PictureEntry> pictures;

  static Result<Beside> read(const Session& session) {
    Beside out;
    SHERD_TRY(out.dates, read_rows<DateEntry>(session, Kind::dates));
    SHERD_TRY(out.inclusions, read_rows<InclusionEntry>(session, Kind::inclusions));
    SHERD_TRY(out.equivalents, read_rows<EquivalentEntry>(session, Kind::equivalents));
    SHERD_TRY(out.specimens, read_rows<SpecimenEntry>(session, Kind::specimens));
    SHERD_TRY(out.pictures, read_rows<PictureEntry>(session, Kind::pictures));
    return out;
  }
};

Result<std::vector<FabricEntry>> fabrics_of(const Session& session, const Beside& beside) {
  SHERD_TRY(std::vector<FabricEntry> out, read_rows<FabricEntry>(session, Kind::fabrics));
  SHERD_TRY(const Amounts amounts, amounts_by(session, "fabric"));
  for (FabricEntry& each : out) {
    if (const auto found = amounts.find(each.fabric); found != amounts.end())
      static_cast<SeriesAmount&>(each) = found->second;
    each.dates = of_code(beside.dates, &WareDate::fabric, each.fabric);
    each.inclusions = of_code(beside.inclusions, &Inclusion::fabric, each.fabric);
    each.equivalents = of_code(beside.equivalents, &Equivalent::fabric, each.fabric);
    each.specimens = of_code(beside.specimens, &Specimen::fabric, each.fabric);
    each.pictures = of_code(beside.pictures, &Picture::fabric, each.fabric);
    read_description(each);
  }
  for (FabricEntry& each : out) {
    for (const FabricEntry& other : out) {
      if (other.variant_of == each.fabric) each.variants.push_back(other.fabric);
    }
  }
  return out;
}

Result<std::vector<FormEntry>> forms_of(const Session& session, const Beside& beside) {
  SHERD_TRY(std::vector<FormEntry> out, read_rows<FormEntry>(session, Kind::forms));
  SHERD_TRY(const Amounts amounts, amounts_by(session, "form"));
  for (FormEntry& each : out) {
    if (const auto found = amounts.find(each.form); found != amounts.end())
      static_cast<SeriesAmount&>(each) = found->second;
    each.dates = of_code(beside.dates, &WareDate::form, each.form);
    each.specimens = of_code(beside.specimens, &Specimen::form, each.form);
    each.pictures = of_code(beside.pictures, &Picture::form, each.form);
  }
  return out;
}

Result<std::vector<DecorationEntry>> decorations_of(const Session& session, const Beside& beside) {
  SHERD_TRY(std::vector<DecorationEntry> out, read_rows<DecorationEntry>(session, Kind::decorations));
  SHERD_TRY(Amounts amounts, amounts_by(session, "decoration"));
  amounts.erase("");
  for (const auto& [decoration, amount] : amounts) {
    auto found = std::ranges::find(out, decoration, &DecorationEntry::decoration);
    if (found == out.end()) {
      out.emplace_back().decoration = decoration;
      found = std::prev(out.end());
    }
    static_cast<SeriesAmount&>(*found) = amount;
  }
  for (DecorationEntry& each : out) each.dates = of_code(beside.dates, &WareDate::decoration, each.decoration);
  return out;
}

}  // namespace

Result<SeriesResponse> list_series(const SeriesRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Beside beside, Beside::read(session));
  SeriesResponse response;
  SHERD_TRY(response.fabrics, fabrics_of(session, beside));
  SHERD_TRY(response.forms, forms_of(session, beside));
  SHERD_TRY(response.decorations, decorations_of(session, beside));
  response.tree = series_tree(response.fabrics);
  SHERD_TRY(response.provenance, session.provenance(environment));
  for (const std::string& warning : session.store->warnings()) response.warnings.push_back(warning);
  return response;
}

}  // namespace sherd::desk
