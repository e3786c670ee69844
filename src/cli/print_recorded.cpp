#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// What recording shows beside the rows: like lines, links, scans, bags, progress.
namespace sherd::cli {

namespace {

using desk::csv_cell;

std::string table_text(CsvRows rows) {
  TextTable table(rows.front());
  for (std::size_t row = 1; row < rows.size(); ++row) table.row(std::move(rows[row]));
  constexpr std::size_t kWidest = 36;
  return table.text(kWidest);
}

}  // namespace

CsvRows table_of(const desk::SimilarResponse& response) {
  CsvRows rows{
      {"record", "context", "form", "part", "decoration", "count", "weight_g", "rim_diameter_mm", "alike", "notes"}};
  for (const desk::SimilarLine& similar : response.lines) {
    const RecordLine& line = similar.line;
    rows.push_back({line.record, line.context, line.form, line.part, line.decoration, csv_cell(line.count),
                    csv_cell(line.weight), csv_cell(line.rim_diameter), join(similar.alike, ", "), line.notes});
  }
  return rows;
}

std::string text_of(const desk::SimilarResponse& response) {
  std::string out = table_text(table_of(response));
  out += fmt::format("{} of {} in {}; {} agree in all that was said\n", counted(response.of_fabric, "line"),
                     response.fabric, counted(response.contexts, "context"), grouped(response.alike_in_all));
  if (response.usual_weight_g) out += "usual weight of a sherd: " + format_fixed(*response.usual_weight_g, 1) + " g\n";
  return out;
}

CsvRows table_of(const desk::LinksResponse& response) {
  CsvRows rows{{"record_a", "record_b", "kind", "uid"}};
  for (const desk::Link& link : response.links)
    rows.push_back({link.record_a, link.record_b, csv_cell(link.kind), link.uid});
  return rows;
}

std::string text_of(const desk::LinksResponse& response) {
  TextTable table({"record", "context", "fabric", "form", "part", "count", "g", "vessel", "links away"});
  for (const desk::LinkedLine& line : response.lines) {
    table.row({line.record, line.context, line.fabric, line.form, line.part, csv_cell(line.count),
               csv_cell(line.weight), line.vessel, grouped(line.steps)});
  }
  std::string out = table.text();
  for (const desk::Link& link : response.links) {
    out +=
        fmt::format("  {} {} {}\n", link.record_a, replace_all(std::string(word(link.kind)), "_", " "), link.record_b);
  }
  const auto vessels = static_cast<std::int64_t>(response.vessels.size());
  out += counted(vessels, "vessel");
  if (response.fewest_vessels < vessels)
    out += fmt::format(", {} if all that are possibly the same are", response.fewest_vessels);
  out += "\n";
  if (response.cut_off) out += "the network goes on beyond these lines\n";
  return out;
}

CsvRows table_of(const desk::ScanResponse& response) {
  CsvRows rows{{"ware", "amount", "count", "count_recorded", "count_left", "weight_g", "weight_recorded_g",
                "weight_left_g", "lines"}};
  const auto put = [&](const desk::ScanWare& ware, const std::string& name) {
    rows.push_back({name, csv_cell(ware.amount), csv_cell(ware.count), csv_cell(ware.count_recorded),
                    csv_cell(ware.count_left), csv_cell(ware.weight), csv_cell(ware.weight_recorded),
                    csv_cell(ware.weight_left), csv_cell(ware.lines)});
  };
  for (const desk::ScanWare& ware : response.wares) put(ware, ware.ware);
  put(response.total, "all");
  return rows;
}

std::string text_of(const desk::ScanResponse& response) { return table_text(table_of(response)); }

std::string text_of(const desk::ProgressResponse& response) {
  TextTable table({"", "recorded", "expected", "%", "an hour", "hours left"});
  const auto put = [&](const char* name, const desk::ProgressMeasure& measure) {
    const auto shown = [](const std::optional<double>& value, int places) {
      return value ? format_fixed(*value, places) : std::string("-");
    };
    table.row({name, format_fixed(measure.recorded, 0), format_fixed(measure.expected, 0),
               measure.share ? format_fixed(100 * *measure.share, 1) : "-", shown(measure.per_hour, 0),
               shown(measure.hours_left, 1)});
  };
  put("sherds", response.sherds);
  put("g", response.weight_g);
  put("contexts done", response.contexts);
  put("lines checked", response.lines_checked);
  std::string out = table.text();
  if (response.contexts_without_expectation > 0) {
    out += "nothing says how much " + counted(response.contexts_without_expectation, "context") +
           " not done hold: they count with what is recorded\n";
  }
  return out + fmt::format("{} h at work in the last {}: {}\n", format_fixed(response.hours, 1),
                           counted(response.days, "day"), response.basis);
}

CsvRows table_of(const desk::ReceiveResponse& response) {
  CsvRows rows{{"bag", "box", "context", "standing", "count", "count_recorded", "weight_g", "weight_recorded_g",
                "lines", "troubles"}};
  for (const desk::BagEntry& bag : response.bags) {
    rows.push_back({bag.bag, bag.box, bag.context, csv_cell(bag.standing), csv_cell(bag.count),
                    csv_cell(bag.count_recorded), csv_cell(bag.weight), csv_cell(bag.weight_recorded),
                    csv_cell(bag.lines), csv_cell(bag.troubles)});
  }
  return rows;
}

std::string text_of(const desk::ReceiveResponse& response) {
  return table_text(table_of(response)) +
         fmt::format(
             "{} expected, {} received, {} missing, {} empty, {} not on the list; {} with something that does not "
             "fit\n",
             response.expected, response.received, response.missing, response.empty, response.unlisted,
             response.troubled);
}

}  // namespace sherd::cli
