#include "desk/demo/make_demo.h"

#include <array>

#include "base/text.h"
#include "demo/files.h"
#include "demo/generate.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/spot_dates.h"
#include "desk/frame/session.h"
#include "desk/report/write_report.h"
#include "desk/site/check_record.h"
#include "desk/site/import_table.h"
#include "desk/site/new_site.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kMarker = "made-by-demo.txt";
constexpr std::string_view kStore = "tanyard.sherds";

/// The tables in the order in which each finds what it refers to.
constexpr std::array kOrder{
    Kind::phases,    Kind::contexts,     Kind::relations,    Kind::fabrics, Kind::forms,      Kind::dates,
    Kind::sherds,    Kind::rims,         Kind::joins,        Kind::pieces,  Kind::sections,   Kind::bands,
    Kind::drawings,  Kind::standards,    Kind::certified,    Kind::sources, Kind::samples,    Kind::readings,
    Kind::petrology, Kind::point_counts, Kind::repositories, Kind::loans,   Kind::selections, Kind::rates,
    Kind::estimates, Kind::hours,        Kind::bibliography, Kind::texts};

struct Demo {
  Environment& environment;
  Progress& progress;
  std::string folder;
  DemoResponse response;

  std::string path(std::string_view name) const { return folder + "/" + std::string(name); }
  std::string store() const { return path(kStore); }
};

/// Makes the folder, or empties one that an earlier demo made.
Result<void> clear_folder(Demo& demo, const std::vector<demo::DemoFile>& files) {
  Files& disk = *demo.environment.files;
  if (disk.exists(demo.folder) && !disk.exists(demo.path(kMarker))) {
    return fail("folder_in_use", "the folder " + demo.folder + " is there and was not made by a demo",
                "name another folder");
  }
  SHERD_CHECK(disk.make_folder(demo.folder));
  std::vector<std::string> old{std::string(kStore),
                               std::string(kStore) + "-wal",
                               std::string(kStore) + "-shm",
                               "spot-dates.html",
                               "spot-dates.csv",
                               "spot-dates.xlsx",
                               "report.html"};
  for (const demo::DemoFile& file : files) old.push_back(file.name);
  for (const std::string& name : old) {
    if (disk.exists(demo.path(name))) SHERD_CHECK(disk.remove(demo.path(name)));
  }
  SHERD_CHECK(disk.write(demo.path(kMarker), "This folder was made by `sherdwright demo`, which may make it anew.\n"));
  for (const demo::DemoFile& file : files) SHERD_CHECK(disk.write(demo.path(file.name), file.bytes));
  return {};
}

Result<void> import_tables(Demo& demo) {
  const NewRequest sheet{.store = demo.store(),
                         .site = std::string(demo::kSiteCode),
                         .title = std::string(demo::kSiteTitle),
                         .counting_rule = "minimum",
                         .counted = "before_joining"};
  SHERD_CHECK(make_site(sheet, demo.environment, demo.progress));
  for (const Kind kind : kOrder) {
    const std::string name = kind_spec(kind).name;
    ImportRequest request{.store = demo.store(), .file = demo.path(name + ".csv"), .as = name};
    request.keep_good = true;
    SHERD_TRY(const ImportResponse answer, import_table(request, demo.environment, demo.progress));
    DemoImport& import = demo.response.imports.emplace_back(
        DemoImport{name + ".csv", name, answer.rows_read, answer.rows_kept, answer.rows_refused, {}});
    for (const exchange::Problem& problem : answer.problems) {
      import.problems.push_back("row " + std::to_string(problem.row) + ", " + problem.column + ": " + problem.message);
    }
  }
  return {};
}

Result<void> check_and_tally(Demo& demo) {
  SHERD_TRY(const CheckResponse check, check_record({.store = demo.store()}, demo.environment, demo.progress));
  demo.response.check_errors = check.error_count;
  demo.response.check_warnings = check.warning_count;
  demo.response.check_notes = check.note_count;
  TallyRequest request;
  request.store = demo.store();
  request.by = {"fabric.ware_group"};
  SHERD_TRY(TallyResponse tally, tally_sherds(request, demo.environment, demo.progress));
  demo.response.tally = std::move(tally.rows);
  demo.response.total = std::move(tally.total);
  return {};
}

Result<void> write_lists(Demo& demo) {
  for (const std::string_view name : {"spot-dates.html", "spot-dates.xlsx"}) {
    const SpotDatesRequest request{.store = demo.store(), .out = demo.path(name), .issue = name.ends_with(".html")};
    SHERD_TRY(const SpotDatesResponse answer, write_spot_dates(request, demo.environment, demo.progress));
    demo.response.lists.push_back(answer.file);
  }
  return {};
}

Result<void> write_the_report(Demo& demo) {
  const ReportRequest request{.store = demo.store(), .out = demo.path("report.html"), .type = 3};
  SHERD_TRY(const ReportResponse answer, write_report(request, demo.environment, demo.progress));
  demo.response.report = answer.file;
  return {};
}

Result<void> score_dates(Demo& demo, const demo::DemoSite& site) {
  SHERD_TRY(const Session session, open_session(demo.environment, demo.store(), {}));
  SHERD_TRY(const Record record, load_record(session));
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, demo.progress));
  std::vector<demo::FoundDate> found;
  for (const DatedContext& context : dated.contexts) {
    demo::FoundDate date{context.context->context, {}, {}};
    if (!context.mixed) date.terminus = context.effective.year;
    if (context.spot) date.spot = {context.spot->earliest, context.spot->latest};
    found.push_back(std::move(date));
  }
  demo.response.score = demo::score(site.truth, found);
  SHERD_TRY(demo.response.provenance, session.provenance(demo.environment));
  return {};
}

}  // namespace

Result<DemoResponse> make_demo(const DemoRequest& request, Environment& environment, Progress& progress) {
  const std::uint64_t seed = request.seed ? static_cast<std::uint64_t>(*request.seed) : demo::kSeed;
  SHERD_TRY(const demo::DemoSite site, demo::generate(seed));
  Demo demo{environment, progress, request.folder.empty() ? "demo" : request.folder, {}};
  while (demo.folder.size() > 1 && demo.folder.ends_with('/')) demo.folder.pop_back();
  SHERD_CHECK(clear_folder(demo, demo::write(site)));
  SHERD_CHECK(import_tables(demo));
  SHERD_CHECK(check_and_tally(demo));
  SHERD_CHECK(write_lists(demo));
  SHERD_CHECK(write_the_report(demo));
  SHERD_CHECK(score_dates(demo, site));
  DemoResponse& response = demo.response;
  response.folder = demo.folder;
  response.store = demo.store();
  response.site = demo::kSiteCode;
  response.title = demo::kSiteTitle;
  response.planted = static_cast<std::int64_t>(site.planted.size());
  for (const demo::Planted& mistake : site.planted) response.planted_mistakes.push_back(mistake.sentence);
  response.provenance.seed = seed;
  return std::move(demo.response);
}

}  // namespace sherd::desk
