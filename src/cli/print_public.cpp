#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"
#include "desk/public/pick_list_sheet.h"

/// The public side: pick lists, cards, the key of volunteers, the glossary.
namespace sherd::cli {

namespace {

using desk::csv_cell;

constexpr std::size_t kWidest = 44;

std::string wrote(const std::vector<std::string>& files) {
  std::string out;
  for (const std::string& file : files) out += "Wrote " + file + ".\n";
  return out;
}

std::string left_out(const std::vector<desk::PickLeftOut>& all) {
  std::string out;
  for (const desk::PickLeftOut& one : all) out += counted(one.lines, "line") + " left out: " + one.because + "\n";
  return out;
}

std::string reading(const prose::Readability& found) {
  return fmt::format("Flesch-Kincaid grade {}, reading ease {}, Coleman-Liau {}: {} in {}\n",
                     format_fixed(found.grade, 1), format_fixed(found.ease, 0), format_fixed(found.letter_grade, 1),
                     counted(found.words, "word"), counted(found.sentences, "sentence"));
}

}  // namespace

CsvRows table_of(const desk::PickListResponse& response) { return desk::csv_rows(response.objects); }

std::string text_of(const desk::PickListResponse& response) {
  TextTable table({"record", "object", "made", "where it is", "bears", "mind"});
  for (const desk::PublicObject& one : response.objects) {
    std::string mind;
    for (const desk::PublicCaution& caution : one.cautions) {
      if (caution.caution != "food") mind += (mind.empty() ? "" : ", ") + replace_all(caution.caution, "_", " ");
    }
    table.row({one.record, one.title + ", " + one.fabric, range_text({one.earliest, one.latest}), desk::where_is(one),
               csv_cell(one.sturdiness), mind});
  }
  std::string out =
      table.text(kWidest) +
      fmt::format("{} of {} that fit\n", counted(std::ssize(response.objects), "object"), grouped(response.fitting));
  out += left_out(response.left_out);
  out += "Do not eat or drink from an old pot. Sign a slip for each piece that leaves its bag.\n";
  if (!response.file.empty()) out += "Wrote " + response.file + ".\n";
  return out;
}

CsvRows table_of(const desk::CardsResponse& response) {
  CsvRows rows{{"record", "title", "grade", "ease", "letter_grade", "too_hard"}};
  for (const desk::CardReading& one : response.readings) {
    rows.push_back({one.record, one.title, csv_cell(one.reading.grade), csv_cell(one.reading.ease),
                    csv_cell(one.reading.letter_grade), csv_cell(one.too_hard)});
  }
  return rows;
}

std::string text_of(const desk::CardsResponse& response) {
  TextTable table({"record", "card", "grade", ""});
  for (const desk::CardReading& one : response.readings)
    table.row({one.record, one.title, format_fixed(one.reading.grade, 1), one.too_hard ? "too hard at twelve" : ""});
  return table.text(kWidest) + reading(response.reading) + left_out(response.left_out) + wrote(response.files);
}

CsvRows table_of(const desk::KeyResponse& response) { return desk::csv_rows(response.pictures); }

std::string text_of(const desk::KeyResponse& response) {
  TextTable table({"picture", "fabric", "name", "sherds"});
  for (const desk::KeyEntry& one : response.pictures)
    table.row({std::to_string(one.number), one.fabric, one.name, grouped(one.sherds)});
  std::string out = table.text(kWidest);
  if (response.key)
    out += fmt::format("Key {}: its pictures stand for {} % of the sherds so far\n", *response.key, response.share);
  return out + wrote(response.files);
}

CsvRows table_of(const desk::GlossaryResponse& response) { return desk::csv_rows(response.terms); }

std::string text_of(const desk::GlossaryResponse& response) {
  std::string out;
  for (const desk::GlossaryEntry& one : response.terms) {
    out += one.term + (one.also.empty() ? "" : " (" + join(one.also, ", ") + ")") + "\n  " + one.meaning + "\n";
  }
  return out;
}

std::string text_of(const desk::ReadabilityResponse& response) {
  std::string out = reading(response);
  if (!response.long_words.empty()) out += "long words: " + join(response.long_words, ", ") + "\n";
  return out + (response.at_twelve ? "Readable at twelve.\n"
                                   : "Harder than the seventh grade: shorten sentences, choose shorter words.\n");
}

}  // namespace sherd::cli
