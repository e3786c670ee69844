#include <algorithm>
#include <array>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/archive/archive_metadata.h"

namespace sherd::desk {

namespace {

/// Breaks text into lines of at most 78 characters, later lines indented.
std::string wrapped(std::string_view text, std::string_view first, std::string_view later) {
  constexpr std::size_t kWidth = 78;
  std::string out, line(first);
  bool fresh = true;
  for (const auto word : split(text, ' ')) {
    if (!fresh && line.size() + 1 + word.size() > kWidth) {
      out += line + "\n";
      line = later;
      fresh = true;
    }
    line += (fresh ? "" : " ") + std::string(word);
    fresh = false;
  }
  return out + line + "\n";
}

std::string heading(std::string_view text) {
  return "\n" + std::string(text) + "\n" + std::string(text.size(), '-') + "\n";
}

std::string item(std::string_view text) { return wrapped(text, "- ", "  "); }

std::string counted_files(const std::vector<ArchivedFile>& files, std::string_view folder) {
  const auto inside = std::ranges::count_if(
      files, [&](const ArchivedFile& file) { return file.path.starts_with(std::string(folder) + "/"); });
  return inside == 0 ? std::string() : counted(inside, "file");
}

std::string folders(const std::vector<ArchivedFile>& files) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kFolders{
      {{"tables", "the record as it is now: one table a file"},
       {"history", "every change, and the values that were replaced"},
       {"documents", "issued lists and reports, and results that were kept, as they went out"},
       {"imports", "the files that were read in, as they came"},
       {"pictures", "photographs and drawings, their bytes untouched"},
       {"figures", "figures drawn from the record, as SVG and PDF"},
       {"drawings", "vessels drawn from their measured sections, as SVG and PDF at the scale that each shows"},
       {"results", "dates and quantities computed from the record, with settings and seeds"},
       {"report", "the report as it stands on this record"},
       {"metadata", "what each file, table, field and code is; how the tables belong together"}}};
  std::string out;
  for (const auto& [folder, words] : kFolders) {
    const std::string how_many = counted_files(files, folder);
    if (!how_many.empty())
      out += wrapped(std::string(words) + " (" + how_many + ")", std::string(folder) + "/  ", "    ");
  }
  return out;
}

std::string reading() {
  std::string out = heading("How to read the tables");
  out += item(
      "CSV as RFC 4180 has it: commas, double quotes, the first row names the columns. Text is UTF-8, lines end in a "
      "line feed.");
  out += item("A blank cell means that it was not recorded. It never means 0.");
  out += item(
      "Columns end in their unit: weight_g in grams, rim_diameter_mm in millimetres, rim_percent in percent of the "
      "rim's circle.");
  out += item(
      "Years are historical: 120 is AD 120, -43 is 43 BC, and there is no year 0. Columns named edtf hold the Extended "
      "Date/Time Format (ISO 8601-2), which counts 1 BC as 0000 and 43 BC as -0042.");
  out += item(
      "row_id names a row for ever, whatever becomes of its values. from_change is the change that gave it its values; "
      "history/changes.csv says who made it and when. history/former_*.csv hold the values that were replaced.");
  out += item(
      "metadata/fields.csv says what each column is, metadata/codes.csv what each code means, "
      "metadata/entity_relations.svg how the tables belong together. datapackage.json says the same for programs.");
  return out;
}

std::string checking(const ArchiveAbout& about) {
  std::string out = heading("How to check it");
  out += item(
      "manifest-sha256.txt has the SHA-256 of every file (FIPS 180-4). On a computer with the usual tools: sha256sum "
      "-c manifest-sha256.txt");
  out += item("tables/sherds.csv: the column count comes to " + grouped(about.sherds) + ", weight_g to " +
              format_scaled(about.weight.mg, 3) + ", over " + grouped(about.lines) + " rows.");
  out += item(
      "sherdwright verify FOLDER does all of this, and sherdwright restore FOLDER STORE makes of it a record to work "
      "on.");
  return out;
}

}  // namespace

std::string archive_readme(const ArchiveAbout& about, const ArchivedTables& tables,
                           const std::vector<ArchivedFile>& files, const std::vector<std::string>& left_out) {
  std::string out = about.title() + "\n" + std::string(about.title().size(), '=') + "\n\n";
  out += wrapped("This is the whole record of the pottery of site " + about.site.code + ": " + grouped(about.sherds) +
                     " sherds, " + format_fixed(about.weight.g() / 1000, 3) + " kg, in " + grouped(about.lines) +
                     " lines from " + grouped(about.contexts) +
                     " contexts. It needs no program of ours: tables are plain text, figures SVG and PDF.",
                 "", "");
  if (about.repository) {
    out += "\nRepository:  " + about.repository->repository + "\n";
    if (!about.repository->accession.empty()) out += "Accession:   " + about.repository->accession + "\n";
  }
  out += std::string(about.repository ? "" : "\n") + "Made by:     " + join(about.creators, "; ") + "\n";
  if (!about.copyright_holder.empty()) out += "Copyright:   " + about.copyright_holder + "\n";
  if (!about.licence.empty()) out += "Licence:     " + about.licence + "\n";
  out += "State:       change " + std::to_string(about.last.seq) + (about.day.empty() ? "" : " of " + about.day) + "\n";
  out += "Written by:  " + about.made_by() + "\n";
  out += heading("What is where") + folders(files);
  out += reading() + checking(about);
  out += heading("Tables");
  for (const ArchivedTable& table : tables.tables) {
    if (table.rows > 0 && !table.history)
      out += item(table.path + ", " + counted(table.rows, "row") + ": " + table.description);
  }
  std::vector<std::string> doubts = left_out;
  for (const std::string& one : tables.dangling) doubts.push_back("A reference that leads nowhere: " + one + ".");
  if (!doubts.empty()) {
    out += heading("What is not here");
    for (const std::string& one : doubts) out += item(one);
  }
  return out;
}

}  // namespace sherd::desk
