#include "model/kind_spec.h"

#include <cstdint>

#include "model/chemistry.h"
#include "model/record.h"
#include "model/record_deposit.h"
#include "model/record_more.h"
#include "model/record_report.h"
#include "model/record_vessels.h"
#include "model/site.h"

namespace sherd {

namespace {

template <class T>
struct TypeOf;
template <>
struct TypeOf<std::string> {
  static constexpr CellType kType = CellType::text;
};
template <>
struct TypeOf<std::optional<std::int64_t>> {
  static constexpr CellType kType = CellType::count;
};
template <>
struct TypeOf<std::optional<Weight>> {
  static constexpr CellType kType = CellType::weight;
};
template <>
struct TypeOf<std::optional<Length>> {
  static constexpr CellType kType = CellType::length;
};
template <>
struct TypeOf<std::optional<Coordinate>> {
  static constexpr CellType kType = CellType::coordinate;
};
template <>
struct TypeOf<std::optional<Percent>> {
  static constexpr CellType kType = CellType::percent;
};
template <>
struct TypeOf<std::optional<Volume>> {
  static constexpr CellType kType = CellType::volume;
};
template <>
struct TypeOf<std::optional<Decimal>> {
  static constexpr CellType kType = CellType::decimal;
};
template <>
struct TypeOf<std::optional<Year>> {
  static constexpr CellType kType = CellType::year;
};
template <WordList E>
struct TypeOf<std::optional<E>> {
  static constexpr CellType kType = CellType::word;
};

template <class M>
struct WordsOf {
  static std::span<const std::string_view> names() { return {}; }
};
template <WordList E>
struct WordsOf<std::optional<E>> {
  static std::span<const std::string_view> names() { return Words<E>::kNames; }
};

struct SpecBuilder {
  Kind kind{};
  std::vector<ColumnSpec> columns;

  template <class T, class M>
  void field(std::string_view name, M T::*, const ColumnNote& note) {
    CellType type = TypeOf<M>::kType;
    const bool of_work = kind == Kind::drawings || kind == Kind::standards || kind == Kind::samples ||
                         kind == Kind::texts || kind == Kind::estimates || kind == Kind::hours;
    if (of_work ? name.ends_with("_on") : name == "recorded_on" || name == "measured_on") type = CellType::day;
    columns.push_back({std::string(name), stored_name(name, type), type, note.key, note.required, note.refers,
                       WordsOf<M>::names(), note.help});
  }
};

template <class T>
KindSpec spec_of(Kind kind, std::string name, std::string one) {
  SpecBuilder builder{kind, {}};
  T::fields(builder);
  return {kind, std::move(name), std::move(one), std::move(builder.columns)};
}

}  // namespace

const std::vector<KindSpec>& all_kinds() {
  static const std::vector<KindSpec> kSpecs{
      spec_of<Context>(Kind::contexts, "contexts", "context"),
      spec_of<Relation>(Kind::relations, "relations", "relation"),
      spec_of<Phase>(Kind::phases, "phases", "phase"),
      spec_of<Fabric>(Kind::fabrics, "fabrics", "fabric"),
      spec_of<Form>(Kind::forms, "forms", "form"),
      spec_of<WareDate>(Kind::dates, "dates", "date row"),
      spec_of<Evidence>(Kind::evidence, "evidence", "evidence row"),
      spec_of<RecordLine>(Kind::sherds, "sherds", "line"),
      spec_of<Rim>(Kind::rims, "rims", "rim"),
      spec_of<Join>(Kind::joins, "joins", "join"),
      spec_of<Scan>(Kind::scans, "scans", "scan line"),
      spec_of<Bag>(Kind::bags, "bags", "bag"),
      spec_of<Decoration>(Kind::decorations, "decorations", "decoration"),
      spec_of<Inclusion>(Kind::inclusions, "inclusions", "inclusion"),
      spec_of<Equivalent>(Kind::equivalents, "equivalents", "equivalent"),
      spec_of<Specimen>(Kind::specimens, "specimens", "specimen"),
      spec_of<Picture>(Kind::pictures, "pictures", "picture"),
      spec_of<TrayLine>(Kind::trays, "trays", "line of a tray"),
      spec_of<Person>(Kind::people, "people", "person"),
      spec_of<Piece>(Kind::pieces, "pieces", "piece"),
      spec_of<SectionPoint>(Kind::sections, "sections", "point of a section"),
      spec_of<Band>(Kind::bands, "bands", "band"),
      spec_of<Drawing>(Kind::drawings, "drawings", "drawing"),
      spec_of<Measure>(Kind::measures, "measures", "measure"),
      spec_of<Repository>(Kind::repositories, "repositories", "repository"),
      spec_of<Loan>(Kind::loans, "loans", "loan"),
      spec_of<Selection>(Kind::selections, "selections", "decision"),
      spec_of<Standard>(Kind::standards, "standards", "standard"),
      spec_of<Certified>(Kind::certified, "certified", "certified value"),
      spec_of<Sample>(Kind::samples, "samples", "sample"),
      spec_of<Source>(Kind::sources, "sources", "source"),
      spec_of<Reading>(Kind::readings, "readings", "reading"),
      spec_of<Concentration>(Kind::concentrations, "concentrations", "concentration"),
      spec_of<ThinSection>(Kind::petrology, "petrology", "thin section"),
      spec_of<PointCount>(Kind::point_counts, "point_counts", "point count"),
      spec_of<AnalyteUse>(Kind::analytes, "analytes", "analyte"),
      spec_of<TextBlock>(Kind::texts, "texts", "text"),
      spec_of<ReportItem>(Kind::report_items, "report_items", "item of the report"),
      spec_of<Citation>(Kind::bibliography, "bibliography", "work"),
      spec_of<Rate>(Kind::rates, "rates", "rate"),
      spec_of<Estimate>(Kind::estimates, "estimates", "line of a quote"),
      spec_of<WorkedHours>(Kind::hours, "hours", "entry of hours")};
  return kSpecs;
}

const std::vector<ColumnSpec>& site_columns() {
  static const std::vector<ColumnSpec> kColumns = [] {
    SpecBuilder builder;
    Site::fields(builder);
    return std::move(builder.columns);
  }();
  return kColumns;
}

const KindSpec& kind_spec(Kind kind) { return all_kinds()[static_cast<std::size_t>(kind)]; }

std::optional<Kind> kind_named(std::string_view name) {
  for (const KindSpec& spec : all_kinds()) {
    if (spec.name == name) return spec.kind;
  }
  return std::nullopt;
}

std::vector<std::string> kind_names() {
  std::vector<std::string> names;
  for (const KindSpec& spec : all_kinds()) names.push_back(spec.name);
  return names;
}

CellType kind_column_type(Kind kind, std::string_view name) {
  const ColumnSpec* column = kind_spec(kind).column(name);
  return column ? column->type : CellType::text;
}

const ColumnSpec* KindSpec::column(std::string_view wanted) const {
  for (const ColumnSpec& column : columns) {
    if (column.name == wanted) return &column;
  }
  return nullptr;
}

std::vector<std::string> KindSpec::column_names() const {
  std::vector<std::string> names;
  for (const ColumnSpec& column : columns) names.push_back(column.name);
  return names;
}

std::vector<std::string> KindSpec::key_names() const {
  std::vector<std::string> names;
  for (const ColumnSpec& column : columns) {
    if (column.key) names.push_back(column.name);
  }
  return names;
}

}  // namespace sherd
