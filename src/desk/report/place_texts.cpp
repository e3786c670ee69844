#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/csv.h"
#include "base/text.h"
#include "desk/report/citations.h"
#include "desk/report/compose_report.h"
#include "desk/report/report_outline.h"
#include "report/html.h"
#include "report/markdown.h"
#include "sherd_desk_data.h"

/// The specialist's texts in the report, their fields, and the bibliography of what they cite.
namespace sherd::desk {

namespace {

using report::Block;
using report::Heading;
using report::Prose;
using report::Section;

/// Stands in a Prose until its fields can be filled: the number of the text.
constexpr char kRaw = '\x01';

bool leads(std::string_view section) {
  return section != "introduction" && section != "method" && section != "archive" && section != "bibliography" &&
         section != "doubts";
}

Section* find(std::vector<Section>& sections, std::string_view id) {
  const auto found = std::ranges::find(sections, id, &Section::id);
  return found == sections.end() ? nullptr : &*found;
}

std::vector<Block> blocks_of(const ReportInput& input, const std::vector<TextBlock>& texts, std::string_view section) {
  std::vector<Block> blocks;
  for (const SlotPlan& slot : slot_plans()) {
    if (slot.section != section) continue;
    bool headed = slot.slot == section;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (texts[i].section != slot.slot) continue;
      if (!headed) blocks.emplace_back(Heading{input.words("slot." + std::string(slot.slot))});
      headed = true;
      if (!texts[i].title.empty()) blocks.emplace_back(Heading{texts[i].title});
      blocks.emplace_back(Prose{std::string(1, kRaw) + std::to_string(i)});
    }
  }
  return blocks;
}

Error at_text(Error error, const TextBlock& text) {
  error.message = "text " + text.text + ": " + error.message;
  error.where.column = "body";
  error.where.id = text.text;
  return error;
}

std::string link(const std::string& words, const std::string& place) {
  return "[" + report::markdown_text(words) + "](#" + place + ")";
}

/// Letters that may stand in an address of the page.
std::string place_of(std::string_view key) {
  std::string out = "ref-";
  for (const char c : key) out += (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ? c : '-';
  return out;
}

struct Reader {
  const ReportInput& input;
  ComposedReport& out;
  std::vector<std::string>& cited;
  std::map<std::string, std::string, std::less<>> items;
  const ReportFields& fields;

  Result<std::string> operator()(const BracedField& field) const {
    for (const std::string_view kind : {"table ", "figure ", "plate "}) {
      if (field.words.starts_with(kind)) return item(field.words, trim(field.words.substr(kind.size())));
    }
    if (field.words.starts_with("cite ")) return cite(trim(field.words.substr(5)));
    SHERD_TRY(const std::string value, fields.value(field.words));
    out.prose_values[std::string(field.words)] = value;
    return report::markdown_text(value);
  }

  Result<std::string> item(std::string_view field, std::string_view asked) const {
    const auto alias = out.aliases.find(asked);
    const std::string_view name = alias == out.aliases.end() ? asked : std::string_view(alias->second);
    if (const auto found = items.find(name); found != items.end()) return link(found->second, "item-" + found->first);
    std::vector<std::string> known;
    for (const auto& [id, words] : items) known.push_back(id);
    const std::string hint = did_you_mean(name, known);
    return fail("unknown_item", "the report has no table or figure for {{" + std::string(field) + "}}",
                hint.empty() ? "its tables and figures: sherdwright report-check STORE" : hint);
  }

  Result<std::string> cite(std::string_view asked) const {
    const std::size_t colon = asked.find(':');
    const std::string key(trim(asked.substr(0, colon)));
    const auto work = std::ranges::find(input.rows.works, key, &PublishedWork::citation);
    if (work == input.rows.works.end()) {
      std::vector<std::string> known;
      for (const PublishedWork& one : input.rows.works) known.push_back(one.citation);
      const std::string hint = did_you_mean(key, known);
      return fail("unknown_citation", "the bibliography has no work \"" + key + "\"",
                  hint.empty() ? "import it: sherdwright bibliography STORE FILE.bib" : hint);
    }
    cited.push_back(key);
    std::string mark = citation_mark(*work);
    if (colon != std::string_view::npos) mark += ", " + std::string(trim(asked.substr(colon + 1)));
    return link(mark, place_of(key));
  }
};

// Bibliography
// ----------------------------------------------------------------------------------------------------------

std::string list_html(const std::vector<std::pair<std::string, std::string>>& works) {
  std::string html = "<ul class=\"works\">\n";
  for (const auto& [key, entry] : works) {
    const std::string mark = key.empty() ? "" : "<span id=\"" + place_of(key) + "\"></span>";
    html += "<li>" + mark + report::html_text(entry) + "</li>\n";
  }
  return html + "</ul>\n";
}

/// What the rows of the record that are in use name as their source.
std::set<std::string> references_of(const ReportInput& input) {
  std::set<std::string> fabrics, forms, out;
  for (const RecordLine& line : input.record.lines) {
    fabrics.insert(line.fabric);
    forms.insert(line.form);
  }
  for (const Fabric& fabric : input.record.fabrics) {
    if (fabrics.contains(fabric.fabric)) out.insert(fabric.reference);
  }
  for (const Form& form : input.record.forms) {
    if (forms.contains(form.form)) out.insert(form.reference);
  }
  for (const WareDate& date : input.record.dates) {
    if (fabrics.contains(date.fabric) || forms.contains(date.form)) out.insert(date.reference);
  }
  for (const Equivalent& equivalent : input.rows.equivalents) {
    if (fabrics.contains(equivalent.fabric)) out.insert(equivalent.reference);
  }
  out.erase("");
  return out;
}

bool has_item(const ComposedReport& out, std::string_view id) { return report::item_names(out.document).contains(id); }

/// The sources of the methods that this report uses, from data/report/sources.csv: what they are of, and the work.
std::vector<std::pair<std::string, std::string>> method_sources(const ReportInput& input, const ComposedReport& out) {
  std::vector<std::pair<std::string, std::string>> works;
  const auto rows = parse_csv(report_sources_csv);
  if (!rows) return works;
  for (std::size_t i = 1; i < rows->size(); ++i) {
    const auto& row = (*rows)[i];
    if (row.size() != 2) continue;
    const bool used = row[0] == "in_sequence" ? !input.in_sequence.contexts.empty() : has_item(out, row[0]);
    if (row[0].empty() || used) works.emplace_back("", row[1]);
  }
  return works;
}

void bibliography(const ReportInput& input, const std::vector<std::string>& cited, ComposedReport& out) {
  Section* section = find(out.document.sections, "bibliography");
  if (section == nullptr) return;
  std::set<std::string> keys(cited.begin(), cited.end());
  std::vector<std::pair<std::string, std::string>> works, plain;
  for (const std::string& reference : references_of(input)) {
    const auto work = std::ranges::find(input.rows.works, reference, &PublishedWork::citation);
    if (work == input.rows.works.end()) {
      plain.emplace_back("", reference);
    } else {
      keys.insert(work->citation);
    }
  }
  for (const PublishedWork& work : input.rows.works) {
    if (keys.contains(work.citation)) works.emplace_back(work.citation, citation_entry(work));
  }
  std::ranges::sort(works, {}, [](const auto& one) { return one.second; });
  const auto add = [&](const char* title, const auto& list) {
    if (list.empty()) return;
    section->blocks.emplace_back(Heading{input.words(title)});
    section->blocks.emplace_back(Prose{list_html(list)});
  };
  add("bibliography.cited", works);
  add("bibliography.record", plain);
  add("bibliography.methods", method_sources(input, out));
}

}  // namespace

std::set<std::string> cited_works(const ReportInput& input) {
  std::set<std::string> keys = references_of(input);
  for (const TextBlock& text : input.rows.texts) {
    if (!is_for(text.reports, input.type) || is_public(text.section)) continue;
    // What is wrong with a text is told when it is placed.
    static_cast<void>(fill_fields(text.body, [&](const BracedField& field) -> Result<std::string> {
      if (field.words.starts_with("cite ")) {
        const std::string_view asked = field.words.substr(5);
        keys.emplace(trim(asked.substr(0, asked.find(':'))));
      }
      return std::string();
    }));
  }
  return keys;
}

void place_texts(const ReportInput& input, std::vector<report::Section>& sections, ComposedReport& out) {
  for (const TextBlock& text : input.rows.texts) {
    if (!is_for(text.reports, input.type) || is_public(text.section)) continue;
    if (section_of(text.section).empty()) {
      const std::string hint = did_you_mean(text.section, slot_names());
      out.warnings.push_back("text " + text.text + " stands under \"" + text.section + "\", which no report has" +
                             (hint.empty() ? "" : "; " + hint));
      continue;
    }
    out.texts.push_back(text);
  }
  for (Section& section : sections) {
    std::vector<Block> blocks = blocks_of(input, out.texts, section.id);
    const auto at = leads(section.id) ? section.blocks.begin() : section.blocks.end();
    section.blocks.insert(at, std::make_move_iterator(blocks.begin()), std::make_move_iterator(blocks.end()));
  }
}

Result<std::string> text_html(const std::string& body, const ReportInput& input, ComposedReport& out,
                              std::vector<std::string>& cited) {
  const ReportFields fields(input);
  const Reader reader{input, out, cited, report::item_names(out.document), fields};
  SHERD_TRY(const std::string markdown, fill_fields(body, reader));
  return report::markdown_html(markdown);
}

void fill_texts(const ReportInput& input, ComposedReport& out) {
  const ReportFields fields(input);
  out.fields = fields.all();
  std::vector<std::string> cited;
  const Reader reader{input, out, cited, report::item_names(out.document), fields};
  std::vector<std::string> authors;
  for (const TextBlock& text : out.texts) {
    if (text.section == "author") authors.push_back(text.body);
  }
  if (!authors.empty())
    out.document.facts.insert(out.document.facts.begin() + 1, {input.words("fact.author"), join(authors, "; ")});
  for (Section& section : out.document.sections) {
    for (Block& block : section.blocks) {
      auto* prose = std::get_if<Prose>(&block);
      if (prose == nullptr || !prose->html.starts_with(kRaw)) continue;
      const TextBlock& text = out.texts[static_cast<std::size_t>(std::stoul(prose->html.substr(1)))];
      const auto markdown = fill_fields(text.body, [&](const BracedField& field) -> Result<std::string> {
        auto value = reader(field);
        if (value) return value;
        Error error = value.error();
        error.message += " (line " + std::to_string(field.line) + ")";
        out.problems.push_back(at_text(std::move(error), text));
        return std::string();
      });
      if (!markdown) out.problems.push_back(at_text(markdown.error(), text));
      prose->html = markdown ? report::markdown_html(*markdown) : std::string();
    }
  }
  bibliography(input, cited, out);
}

}  // namespace sherd::desk
