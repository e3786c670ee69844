#include "demo/files.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.h"
#include "demo/csv.h"
#include "model/rows.h"
#include "sherd_demo_data.h"

namespace sherd::demo {

namespace {

template <class T>
DemoFile table_file(Kind kind, const std::vector<T>& rows) {
  return {kind_spec(kind).name + ".csv", csv_text(rows_of(table_from(kind, rows)))};
}

DemoFile clay_file(const std::string& name, const Rows& rows) { return {name + ".csv", csv_text(rows)}; }

DemoFile sherds_file(const DemoSite& site) {
  Rows rows = rows_of(table_from(Kind::sherds, site.sherds));
  for (const AsTyped& cell : site.as_typed) {
    const auto line = std::ranges::find(site.sherds, cell.record, &RecordLine::record);
    const auto column = std::ranges::find(rows.front(), cell.column);
    if (line == site.sherds.end() || column == rows.front().end()) continue;
    const auto row = static_cast<std::size_t>(line - site.sherds.begin()) + 1;
    rows[row][static_cast<std::size_t>(column - rows.front().begin())] = cell.text;
  }
  return {"sherds.csv", csv_text(rows)};
}

DemoFile truth_file(const DemoSite& site) {
  Rows rows{{"context", "began", "completed"}};
  for (const TrueDate& date : site.truth) {
    rows.push_back({date.context, std::to_string(historical(date.began)), std::to_string(historical(date.completed))});
  }
  return {"truth.csv", csv_text(rows)};
}

DemoFile planted_file(const DemoSite& site) {
  Rows rows{{"code", "place", "id", "sentence"}};
  for (const Planted& planted : site.planted) {
    rows.push_back({planted.code, planted.place, planted.id, planted.sentence});
  }
  return {"planted.csv", csv_text(rows)};
}

/// Breaks text into lines of at most 96 bytes.
std::string wrapped(std::string_view text, std::string_view indent) {
  std::string out;
  std::string line(indent);
  for (const auto word : split(text, ' ')) {
    if (line.size() + 1 + word.size() > 96) {
      out += line + "\n";
      line = indent;
    }
    if (line.size() > indent.size()) line += ' ';
    line += word;
  }
  return out + line + "\n";
}

std::string amounts(const DemoSite& site) {
  std::int64_t sherds = 0;
  std::int64_t mg = 0;
  for (const RecordLine& line : site.sherds) {
    sherds += line.count.value_or(0);
    mg += line.weight ? line.weight->mg : 0;
  }
  return fmt::format("{} contexts, {} relations, {} phases, {} fabrics, {} forms; {} lines with {} sherds, {:.1f} kg.",
                     site.contexts.size(), site.relations.size(), site.phases.size(), site.fabrics.size(),
                     site.forms.size(), grouped(static_cast<long long>(site.sherds.size())), grouped(sherds),
                     static_cast<double>(mg) / 1e6);
}

DemoFile readme_file(const DemoSite& site) {
  std::string text = fmt::format("{}, {}\n\n", kSiteTitle, kSiteCode);
  text += wrapped(
      "An invented excavation, for trying things out: no such place, no such pottery, no such people. The wares, their "
      "dates and the true dates of the contexts were made up together, so that what a method finds can be scored. The "
      "names of the wares are plain descriptions, and their dates are not to be cited.",
      "");
  text += "\n" + wrapped(amounts(site), "") +
          fmt::format("Made from seed {}: the same seed makes the same files.\n", site.seed);
  text +=
      "\nTables to import, in this order: phases, contexts, relations, fabrics, forms, dates, sherds, rims, joins, "
      "pieces,\n"
      "sections, bands, drawings, standards, certified, sources, samples, readings (an instrument's file), petrology,\n"
      "point_counts, repositories, loans, selections, rates, estimates, hours, bibliography, texts\n";
  text += "truth.csv    when each context truly began and was complete\n";
  text += "clay-truth.csv  where the clay of each sample was truly dug\n";
  text += "planted.csv  the mistakes put into the tables for the checks to find\n";
  text += "\nWhat to look for\n";
  for (const Story& story : site.stories) text += "- " + story.context + "\n" + wrapped(story.sentence, "  ");
  return {"README.txt", text};
}

}  // namespace

std::vector<DemoFile> write(const DemoSite& site) {
  return {table_file(Kind::phases, site.phases),
          table_file(Kind::contexts, site.contexts),
          table_file(Kind::relations, site.relations),
          table_file(Kind::fabrics, site.fabrics),
          table_file(Kind::forms, site.forms),
          table_file(Kind::dates, site.dates),
          sherds_file(site),
          table_file(Kind::rims, site.rims),
          table_file(Kind::joins, site.joins),
          table_file(Kind::pieces, site.pieces),
          table_file(Kind::sections, site.outlines),
          table_file(Kind::bands, site.bands),
          table_file(Kind::drawings, site.drawings),
          clay_file("standards", site.clay.standards),
          clay_file("certified", site.clay.certified),
          clay_file("sources", site.clay.sources),
          clay_file("samples", site.clay.samples),
          clay_file("petrology", site.clay.petrology),
          clay_file("point_counts", site.clay.point_counts),
          clay_file("readings", site.clay.readings),
          clay_file("clay-truth", site.clay.truth),
          table_file(Kind::repositories, site.repositories),
          table_file(Kind::loans, site.loans),
          table_file(Kind::selections, site.selections),
          clay_file("rates", site.costs.rates),
          clay_file("estimates", site.costs.estimates),
          clay_file("hours", site.costs.hours),
          {"bibliography.csv", std::string(bibliography_csv)},
          {"texts.csv", std::string(texts_csv)},
          truth_file(site),
          planted_file(site),
          readme_file(site)};
}

}  // namespace sherd::demo
