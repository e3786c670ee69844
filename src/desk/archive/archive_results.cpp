#include "desk/archive/archive_results.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "base/csv.h"
#include "base/text.h"
#include "desk/archive/archive_drawings.h"
#include "desk/archive/archive_figures.h"
#include "desk/assemblage/tally_sherds.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/flags.h"
#include "desk/dates/kept_dates.h"
#include "desk/frame/csv.h"
#include "desk/report/issue_report.h"
#include "desk/report/write_report.h"
#include "desk/stratigraphy/show_stratigraphy.h"
#include "notation/edtf.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::json;

struct ResultColumn {
  const char* name;
  const char* type;
  const char* description;
};

ArchivedTable result_table(const std::string& name, std::string description, std::span<const ResultColumn> columns,
                           const CsvRows& rows) {
  ArchivedTable table;
  table.name = "result_" + name;
  table.path = "results/" + name + ".csv";
  table.description = std::move(description);
  table.rows = std::ssize(rows) - 1;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    ArchivedField field;
    field.name = columns[i].name;
    field.type = columns[i].type;
    field.description = columns[i].description;
    field.key = field.required = field.name == "context";
    for (std::size_t row = 1; row < rows.size(); ++row) field.length = std::max(field.length, rows[row][i].size());
    table.fields.push_back(std::move(field));
  }
  return table;
}

CsvRows header_of(std::span<const ResultColumn> columns) {
  CsvRows rows(1);
  for (const ResultColumn& column : columns) rows[0].emplace_back(column.name);
  return rows;
}

std::string year_cell(const std::optional<Year>& year) { return csv_cell(year); }

class Results {
 public:
  Results(const Session& session, const std::string& store, const ArchiveAbout& about, Environment& environment,
          ArchiveFolder& folder, Progress& progress)
      : session_(session),
        store_(store),
        about_(about),
        environment_(environment),
        folder_(folder),
        progress_(progress) {}

  Result<ArchivedResults> run() {
    SHERD_CHECK(put_report());
    SHERD_CHECK(put_diagram());
    SHERD_CHECK(archive_drawings(session_, folder_, progress_));
    SHERD_CHECK(put_dates());
    for (const char* by : {"fabric", "form", "context", "context.phase"}) SHERD_CHECK(put_quantities(by));
    SHERD_CHECK(put_computations());
    return std::move(out_);
  }

 private:
  Result<void> put(ArchivedTable table, const CsvRows& rows) {
    ArchivedFile file;
    file.path = table.path;
    file.category = "database table";
    file.title = "Result " + table.name.substr(7);
    file.description = table.description;
    out_.tables.push_back(std::move(table));
    return folder_.add(std::move(file), csv_text(rows));
  }

  void computed(const std::string& what, const std::string& version, const std::string& setting,
                const std::string& value) {
    computations_.push_back({what, version, setting, value});
  }

  void computed(const std::string& what, const Provenance& provenance) {
    for (const std::string& input : provenance.inputs) computed(what, provenance.version, "rests on", input);
    if (provenance.seed) computed(what, provenance.version, "seed", std::to_string(*provenance.seed));
    for (const auto& [name, value] : provenance.settings) computed(what, provenance.version, name, value);
  }

  // Dates of contexts -------------------------------------------------------------------------------------------------

  Result<void> put_dates() {
    static constexpr std::array<ResultColumn, 14> kColumns{
        {{"context", "string", "number of the context"},
         {"my_earliest", "integer", "the specialist's own date: first year"},
         {"my_latest", "integer", "the specialist's own date: last year"},
         {"my_edtf", "string", "the same as EDTF"},
         {"terminus", "integer", "terminus post quem: completed in that year or later"},
         {"terminus_because", "string", "what sets the terminus"},
         {"spot_earliest", "integer", "range in which the latest vessels could have been made: first year"},
         {"spot_latest", "integer", "the same: last year"},
         {"spot_edtf", "string", "the same as EDTF"},
         {"sequence_median", "integer", "date in sequence, as kept: median"},
         {"sequence_earliest", "integer", "date in sequence, as kept: first year of the 95 % range"},
         {"sequence_latest", "integer", "date in sequence, as kept: last year of the 95 % range"},
         {"sequence_edtf", "string", "the same as EDTF"},
         {"notes", "string", "what to know of these dates"}}};
    SHERD_TRY(const Record record, load_record(session_));
    SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress_));
    SHERD_TRY(const KeptDates kept, kept_dates(session_, environment_));
    std::map<std::string_view, const KeptDate*> in_sequence;
    for (const KeptDate& date : kept.contexts) in_sequence[date.context] = &date;
    CsvRows rows = header_of(kColumns);
    for (const DatedContext& context : dated.contexts) {
      const auto found = in_sequence.find(context.context->context);
      rows.push_back(date_row(context, found == in_sequence.end() ? nullptr : found->second));
    }
    Provenance provenance{environment_.version, {about_.site.code + "@" + about_.last.uid}, {}, {}};
    computed("results/context_dates.csv", provenance);
    if (kept.state.change) {
      computed("results/context_dates.csv", kept.state.version, "dates in sequence kept at change",
               std::to_string(*kept.state.change));
      for (const std::string& reason : kept.state.because)
        computed("results/context_dates.csv", kept.state.version, "dates in sequence are old", reason);
    }
    return put(result_table("context_dates",
                            "The dates of contexts: the specialist's own, by the pottery, and in sequence as kept.",
                            kColumns, rows),
               rows);
  }

  static std::vector<std::string> date_row(const DatedContext& context, const KeptDate* kept) {
    const Context& sheet = *context.context;
    const YearRange own{sheet.my_earliest, sheet.my_latest};
    YearRange spot, sequence;
    if (context.spot && !context.mixed) spot = {context.spot->earliest, context.spot->latest};
    if (kept != nullptr) sequence = {kept->earliest, kept->latest};
    const auto edtf = [](const YearRange& range) { return range.empty() ? std::string() : notation::edtf_text(range); };
    const bool has_terminus = !context.mixed && context.effective.year.has_value();
    const std::vector<std::string> flags = flags_of(context);
    return {sheet.context,
            year_cell(own.earliest),
            year_cell(own.latest),
            edtf(own),
            has_terminus ? year_cell(context.effective.year) : "",
            has_terminus ? context.effective.because : "",
            year_cell(spot.earliest),
            year_cell(spot.latest),
            edtf(spot),
            kept == nullptr ? "" : year_cell(kept->median),
            year_cell(sequence.earliest),
            year_cell(sequence.latest),
            edtf(sequence),
            join(flags, "; ")};
  }

  // Quantities --------------------------------------------------------------------------------------------------------

  Result<void> put_quantities(const std::string& by) {
    static constexpr std::array<ResultColumn, 6> kColumns{
        {{"group", "string", "what the row is of; blank where it is not recorded"},
         {"lines", "integer", "record lines"},
         {"count", "integer", "sherds"},
         {"weight_g", "number", "weight in g"},
         {"vessels", "integer", "vessels"},
         {"eve", "number", "estimated vessel equivalents"}}};
    TallyRequest request;
    request.store = store_;
    request.site = about_.site.code;
    request.by = {by};
    SHERD_TRY(const TallyResponse tally, tally_sherds(request, environment_, progress_));
    CsvRows rows = header_of(kColumns);
    for (const TallyResponseRow& row : tally.rows) {
      rows.push_back({row.group.empty() ? "" : row.group.front().second.value_or(""), csv_cell(row.lines),
                      csv_cell(row.count), csv_cell(row.weight_g), csv_cell(row.vessels), csv_cell(row.eve)});
    }
    const std::string name = "quantities_by_" + replace_all(by, "context.", "");
    computed("results/" + name + ".csv", tally.provenance);
    return put(
        result_table(name, "Sherds, weight, vessels and EVE by " + replace_all(by, "context.phase", "phase") + ".",
                     kColumns, rows),
        rows);
  }

  // Report and figures ------------------------------------------------------------------------------------------------

  /// That of the report that went out last; 2 where none has.
  Result<std::int64_t> type_of_report() {
    SHERD_TRY(const ErrataResponse issued, list_errata({store_, {}, about_.site.code}, environment_, progress_));
    return issued.issues.empty() ? 2 : issued.issues.back().type;
  }

  Result<void> put_report() {
    constexpr const char* kPath = "report/report.html";
    SHERD_CHECK(folder_.make_room(kPath));
    ReportRequest request;
    request.store = store_;
    request.site = about_.site.code;
    request.out = folder_.part() + "/" + kPath;
    SHERD_TRY(request.type, type_of_report());
    SHERD_TRY(const ReportResponse report, write_report(request, environment_, progress_));
    for (const Error& error : report.errors)
      out_.left_out.push_back("The report could not be written: " + error.message);
    if (!report.errors.empty()) return {};
    computed(kPath, report.provenance);
    SHERD_TRY(const std::string html, environment_.files->read(request.out));
    SHERD_CHECK(folder_.take({.path = kPath,
                              .category = "document",
                              .title = "Report",
                              .description = "the report as it stands on this record",
                              .tag = {},
                              .history = {},
                              .sha256 = {}}));
    int number = 0;
    for (const PageFigure& figure : figures_of(html)) {
      ++number;
      const std::string stem = std::string(number < 10 ? "figure_0" : "figure_") + std::to_string(number);
      SHERD_CHECK(
          archive_figure({"figures/" + stem, "Figure " + std::to_string(number), figure.caption}, figure.svg, folder_));
    }
    return {};
  }

  Result<void> put_diagram() {
    SHERD_TRY(const std::int64_t relations, session_.store->count_rows(about_.site.code, Kind::relations));
    if (relations == 0) return {};
    const StratigraphyRequest request{
        .store = store_, .site = about_.site.code, .svg = {}, .picture = true, .redundant = false, .fold = {}};
    const auto diagram = show_stratigraphy(request, environment_, progress_);
    if (!diagram) {
      if (diagram.error().kind == ErrorKind::stopped) return std::unexpected(diagram.error());
      out_.left_out.push_back("The stratigraphic diagram could not be drawn: " + diagram.error().message);
      return {};
    }
    computed("figures/stratigraphic_diagram.svg", diagram->provenance);
    return archive_figure(
        {"figures/stratigraphic_diagram", "Stratigraphic diagram", "the contexts in their order, later above earlier"},
        diagram->picture, folder_);
  }

  // Settings and seeds ------------------------------------------------------------------------------------------------

  /// What kept results say of how they were made.
  Result<void> read_kept() {
    SHERD_TRY(const auto names, session_.store->document_names(about_.site.code, ""));
    for (const std::string& name : names) {
      SHERD_TRY(const auto document, session_.store->document(about_.site.code, name));
      if (!document || document->mime != "application/json") continue;
      const Json json = Json::parse(document->bytes, nullptr, false);
      if (!json.is_object()) continue;
      const std::string version = json.value("version", "");
      if (json.contains("seed") && json["seed"].is_number())
        computed("document " + name, version, "seed", json["seed"].dump());
      if (!json.contains("settings") || !json["settings"].is_object()) continue;
      for (const auto& [setting, value] : json["settings"].items())
        computed("document " + name, version, setting, value.is_string() ? value.get<std::string>() : value.dump());
    }
    return {};
  }

  Result<void> put_computations() {
    static constexpr std::array<ResultColumn, 4> kColumns{
        {{"result", "string", "the file, or the document kept in the record"},
         {"version", "string", "version of the program that computed it"},
         {"setting", "string", "name of the setting, or seed"},
         {"value", "string", "its value"}}};
    SHERD_CHECK(read_kept());
    CsvRows rows = header_of(kColumns);
    rows.insert(rows.end(), computations_.begin(), computations_.end());
    return put(result_table("computations", "Settings and seeds of each computation.", kColumns, rows), rows);
  }

  const Session& session_;
  const std::string& store_;
  const ArchiveAbout& about_;
  Environment& environment_;
  ArchiveFolder& folder_;
  Progress& progress_;
  ArchivedResults out_;
  CsvRows computations_;
};

}  // namespace

Result<ArchivedResults> archive_results(const Session& session, const std::string& store, const ArchiveAbout& about,
                                        Environment& environment, ArchiveFolder& folder, Progress& progress) {
  return Results(session, store, about, environment, folder, progress).run();
}

}  // namespace sherd::desk
