#include "desk/archive/archive_metadata.h"

#include <algorithm>

#include "base/csv.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/archive/archive_words.h"
#include "model/words.h"
#include "notation/edtf.h"
#include "reference/tables.h"
#include "report/html.h"

namespace sherd::desk {

namespace {

std::string keys_of(const ArchivedTable& table) {
  std::vector<std::string> keys;
  for (const ArchivedField& field : table.fields) {
    if (field.key) keys.push_back(field.name);
  }
  return join(keys, ", ");
}

std::string with_unit_words(const ArchivedField& field) {
  std::string out = field.description;
  if (field.unit == "year") out += "; historical years: negative is BC, there is no year 0";
  if (!field.unit.empty() && field.unit != "year") out += "; in " + field.unit;
  if (!field.codes.empty()) out += "; codes: " + replace_all(field.codes, "|", ", ") + " (codes.csv)";
  return out;
}

std::string limit_text(const std::optional<double>& value) { return value ? format_double(*value) : std::string(); }

std::string element(std::string_view name, std::string_view text) {
  if (text.empty()) return {};
  return "  <dc:" + std::string(name) + ">" + report::html_text(text) + "</dc:" + std::string(name) + ">\n";
}

std::string or_said(const std::string& text, const std::string& otherwise) { return text.empty() ? otherwise : text; }

std::string size_words(const ArchiveAbout& about) {
  return grouped(about.sherds) + " sherds, " + format_fixed(about.weight.g() / 1000, 3) + " kg, in " +
         grouped(about.lines) + " lines from " + grouped(about.contexts) + " contexts";
}

}  // namespace

std::string fields_csv(const std::vector<ArchivedTable>& tables) {
  CsvRows rows{{"Filename", "Table name", "Field name", "Field description", "Field data type", "Field length",
                "Primary key", "Foreign key"}};
  for (const ArchivedTable& table : tables) {
    for (const ArchivedField& field : table.fields) {
      rows.push_back({table.path, table.name, field.name, with_unit_words(field), field.type,
                      std::to_string(field.length), field.key ? "yes" : "", field.refers});
    }
  }
  return csv_text(rows);
}

std::string tables_csv(const std::vector<ArchivedTable>& tables) {
  CsvRows rows{{"Filename", "Table name", "Description", "Primary key", "Foreign keys", "Row count"}};
  for (const ArchivedTable& table : tables) {
    std::vector<std::string> foreign;
    for (const ArchivedField& field : table.fields) {
      if (!field.refers.empty()) foreign.push_back(field.name + " to " + field.refers);
    }
    rows.push_back(
        {table.path, table.name, table.description, keys_of(table), join(foreign, "; "), std::to_string(table.rows)});
  }
  return csv_text(rows);
}

std::string codes_csv(const std::vector<ArchivedTable>& tables) {
  CsvRows rows{{"Table name", "Field name", "Code", "Meaning"}};
  for (const ArchivedTable& table : tables) {
    for (const ArchivedField& field : table.fields) {
      if (field.codes.empty() || table.history) continue;
      for (const auto code : split(field.codes, '|'))
        rows.push_back({table.name, field.name, std::string(code), code_words(field.name, code)});
    }
  }
  return csv_text(rows);
}

std::string scales_csv() {
  CsvRows rows{{"Attribute", "Scale", "Version", "Unit", "Word", "From", "To", "Exact", "Known", "Note", "Source"}};
  for (const Scale& scale : reference::scales().scales) {
    for (const ScaleClass& one : scale.classes) {
      rows.push_back({std::string(word(scale.attribute)), scale.name, scale.version, scale.unit, one.word,
                      limit_text(one.low), limit_text(one.high), one.exact ? "yes" : "no", std::string(word(one.known)),
                      one.note, scale.source});
    }
  }
  return csv_text(rows);
}

std::string files_csv(const ArchiveAbout& about, const std::vector<ArchivedFile>& files) {
  CsvRows rows{{"Filename", "Data Category/Type", "Title", "Description", "Tag", "Creator", "Copyright holder",
                "Creation history", "Language", "Date file digitally created", "Additional metadata filename"}};
  for (const ArchivedFile& file : files) {
    const bool table = file.category == "database table";
    rows.push_back({file.path, file.category, file.title, file.description, file.tag, join(about.creators, "; "),
                    about.copyright_holder, file.history.empty() ? "written by " + about.made_by() : file.history,
                    about.language, slashed(about.day), table ? "metadata/fields.csv" : ""});
  }
  return csv_text(rows);
}

std::string collection_csv(const ArchiveAbout& about) {
  const Repository none;
  const Repository& repository = about.repository ? *about.repository : none;
  const std::string unsaid = "not said in the record";
  const CsvRows rows{
      {"Element", "Value"},
      {"Project name", or_said(about.site.title, about.site.code)},
      {"Site code", about.site.code},
      {"Accession number", or_said(repository.accession, unsaid)},
      {"Other identifiers", repository.identifiers},
      {"Repository", or_said(or_said(repository.repository, about.site.repository), unsaid)},
      {"Size", size_words(about)},
      {"Subject", join(about.ware_groups, "; ")},
      {"Date range", range_text(about.span)},
      {"Date range (EDTF)", notation::edtf_text(about.span)},
      {"Region", about.site.region},
      {"Creators", join(about.creators, "; ")},
      {"Copyright holder", or_said(about.copyright_holder, unsaid)},
      {"Licence", or_said(about.licence, unsaid)},
      {"Languages", about.language},
      {"Contact", repository.contact},
      {"Level of recording", about.site.level ? std::string(word(*about.site.level)) : unsaid},
      {"Vessels counted by", about.site.counting_rule ? std::string(word(*about.site.counting_rule)) : unsaid},
      {"Sherds counted", about.site.counted ? replace_all(std::string(word(*about.site.counted)), "_", " ") : unsaid},
      {"Rests on", about.site.code + "@" + about.last.uid + ", change " + std::to_string(about.last.seq)},
      {"Made with", about.made_by()}};
  return csv_text(rows);
}

std::string dublin_core(const ArchiveAbout& about) {
  std::string out =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<oai_dc:dc "
      "xmlns:oai_dc=\"http://www.openarchives.org/OAI/2.0/oai_dc/\" "
      "xmlns:dc=\"http://purl.org/dc/elements/1.1/\">\n";
  const Repository none;
  const Repository& repository = about.repository ? *about.repository : none;
  out += element("title", about.title());
  for (const std::string& name : about.creators) out += element("creator", name);
  for (const char* subject : {"pottery", "archaeology"}) out += element("subject", subject);
  for (const std::string& group : about.ware_groups) out += element("subject", group + " pottery");
  out += element("description", size_words(about) + ".");
  out += element("publisher", repository.repository);
  out += element("contributor", about.made_by());
  out += element("date", about.day);
  out += element("type", "Dataset");
  for (const char* format : {"text/csv", "application/json"}) out += element("format", format);
  out += element("identifier", about.site.code + "@" + about.last.uid);
  out += element("identifier", repository.accession);
  out += element("source", "the record of site " + about.site.code);
  out += element("language", about.language);
  out += element("relation", repository.identifiers);
  out += element("coverage", about.site.region);
  if (!about.span.empty()) out += element("coverage", notation::edtf_text(about.span));
  out += element("rights", about.copyright_holder +
                               (about.licence.empty() || about.copyright_holder.empty() ? "" : ", ") + about.licence);
  return out + "</oai_dc:dc>\n";
}

}  // namespace sherd::desk
