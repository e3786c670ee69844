#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/report/sections.h"

/// Descriptions of the fabrics, the forms, and what they were used for.
namespace sherd::desk {

namespace {

using report::BulletList;
using report::DocumentTable;
using report::Heading;
using report::Paragraph;
using report::Section;
using report::Words;

std::string sentence(std::string text) {
  while (!text.empty() && (text.back() == ' ' || text.back() == '.')) text.pop_back();
  return text.empty() ? text : text + ".";
}

void add_part(std::vector<std::string>& parts, const std::string& name, const std::string& value) {
  if (!value.empty()) parts.push_back(name + " " + value);
}

std::string inclusion_words(const Inclusion& inclusion) {
  std::vector<std::string> parts{inclusion.frequency.empty() ? inclusion.inclusion
                                                             : inclusion.frequency + " " + inclusion.inclusion};
  const auto mm = [](const Length& length) { return format_scaled(length.hundredths_mm, Length::kDecimals); };
  if (inclusion.size_least && inclusion.size_most) {
    parts.push_back(mm(*inclusion.size_least) + "\u2013" + mm(*inclusion.size_most) + " mm");
  } else if (inclusion.size_most) {
    parts.push_back("\u2264 " + mm(*inclusion.size_most) + " mm");
  }
  for (const std::string& more : {inclusion.sorting, inclusion.rounding, inclusion.colour}) {
    if (!more.empty()) parts.push_back(more);
  }
  return join(parts, ", ");
}

std::string paste(const ReportInput& input, const Fabric& fabric) {
  const Words& words = input.words;
  std::vector<std::string> parts;
  add_part(parts, words("fabrics.outside"), fabric.outside);
  add_part(parts, words("fabrics.core"), fabric.core);
  add_part(parts, words("fabrics.inside"), fabric.inside);
  add_part(parts, words("fabrics.hardness"), fabric.hardness);
  add_part(parts, words("fabrics.feel"), fabric.feel);
  add_part(parts, words("fabrics.fracture"), fabric.fracture);
  add_part(parts, words("fabrics.firing"), fabric.firing);
  std::vector<std::string> inclusions;
  std::string scale;
  for (const Inclusion& inclusion : input.rows.inclusions) {
    if (inclusion.fabric != fabric.fabric) continue;
    inclusions.push_back(inclusion_words(inclusion));
    if (!inclusion.scale.empty()) scale = inclusion.scale;
  }
  if (!inclusions.empty())
    parts.push_back(words("fabrics.inclusions") + " " + join(inclusions, "; ") +
                    (scale.empty() ? "" : " (" + words("fabrics.scale") + " " + scale + ")"));
  return sentence(join(parts, "; "));
}

std::string equivalents(const ReportInput& input, const Fabric& fabric) {
  std::vector<std::string> out;
  for (const Equivalent& equivalent : input.rows.equivalents) {
    if (equivalent.fabric != fabric.fabric) continue;
    const std::string relation = equivalent.relation ? std::string(word(*equivalent.relation)) : "same";
    out.push_back(input.words("fabrics.is_" + relation) + " " + equivalent.series + " " + equivalent.code);
  }
  return sentence(join(out, "; "));
}

std::string fabric_amount(const ReportInput& input, const std::string& code) {
  for (const quantify::TallyRow& row : input.by_fabric.tally.rows) {
    if (row.keys.front().value_or("") != code) continue;
    return input.words("fabrics.amount", {{"sherds", row.count ? input.words.counted(*row.count, "sherd") : "\u2013"},
                                          {"weight", shown(row.weight_g, 0)},
                                          {"eve", shown(row.eve, 2)}});
  }
  return {};
}

void describe(const ReportInput& input, const Fabric& fabric, Section& section) {
  const Words& words = input.words;
  section.blocks.emplace_back(Heading{fabric.fabric + (fabric.name.empty() ? "" : ": " + fabric.name)});
  std::vector<std::string> parts;
  for (const std::string& part :
       {fabric_amount(input, fabric.fabric), sentence(fabric.description), paste(input, fabric)}) {
    if (!part.empty()) parts.push_back(part);
  }
  if (!fabric.variant_of.empty()) parts.push_back(words("fabrics.variant", {{"fabric", fabric.variant_of}}));
  if (!fabric.source_area.empty()) parts.push_back(words("fabrics.source", {{"source", fabric.source_area}}));
  if (fabric.earliest || fabric.latest)
    parts.push_back(words("fabrics.dated", {{"years", range_text({fabric.earliest, fabric.latest})}}));
  if (const std::string other = equivalents(input, fabric); !other.empty()) parts.push_back(other);
  if (!fabric.reference.empty())
    parts.push_back(words("fabrics.reference", {{"reference", sentence(fabric.reference)}}));
  if (fabric.description.empty()) parts.push_back(words("fabrics.undescribed"));
  section.blocks.emplace_back(Paragraph{join(parts, " ")});
}

}  // namespace

report::Section fabrics(const ReportInput& input) {
  Section section{"fabrics", input.words("section.fabrics"), {}};
  std::map<std::string, bool> used;
  for (const RecordLine& line : input.record.lines) used[line.fabric] = true;
  for (const Fabric& fabric : input.record.fabrics) {
    if (used.contains(fabric.fabric)) describe(input, fabric, section);
  }
  if (section.blocks.empty()) section.blocks.emplace_back(Paragraph{input.words("fabrics.none")});
  return section;
}

report::Section forms(const ReportInput& input) {
  const Words& words = input.words;
  Section section{"forms", words("section.forms"), {}};
  DocumentTable table{.caption = words("forms.caption"),
                      .columns = {{words("form"), false},
                                  {words("name"), false},
                                  {words("forms.class"), false},
                                  {words("years"), false},
                                  {words("sherds"), true},
                                  {words("vessels"), true},
                                  {"EVE", true},
                                  {words("reference"), false}},
                      .rows = {},
                      .total = {},
                      .note = {},
                      .id = "form_series"};
  for (const quantify::TallyRow& row : input.by_form.tally.rows) {
    const auto form = std::ranges::find(input.record.forms, row.keys.front().value_or(""), &Form::form);
    if (form == input.record.forms.end()) continue;
    table.rows.push_back({form->form, form->name, form->vessel_class, range_text({form->earliest, form->latest}),
                          shown(row.count), shown(row.vessels), shown(row.eve, 2), form->reference});
  }
  if (!table.rows.empty()) section.blocks.emplace_back(std::move(table));
  if (std::ranges::any_of(input.record.lines, [](const RecordLine& line) { return !line.decoration.empty(); })) {
    section.blocks.emplace_back(Heading{words("forms.decoration")});
    section.blocks.emplace_back(
        tally_table(input, "decoration", words("forms.decorations"), {words("decoration")}, input.by_decoration.tally));
  }
  if (section.blocks.empty()) section.blocks.emplace_back(Paragraph{words("forms.none")});
  return section;
}

report::Section use(const ReportInput& input) {
  const Words& words = input.words;
  Section section{"use", words("section.use"), {}};
  if (std::ranges::any_of(input.record.lines, [](const RecordLine& line) { return !line.use_traces.empty(); })) {
    section.blocks.emplace_back(
        tally_table(input, "use_traces", words("use.caption"), {words("use.traces")}, input.by_use.tally));
  } else {
    section.blocks.emplace_back(Paragraph{words("use.none")});
  }
  return section;
}

}  // namespace sherd::desk
