#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/report/sections.h"

/// What ought to be done next and where everything is: recommendations and archive.
namespace sherd::desk {

namespace {

using report::DocumentTable;
using report::Paragraph;
using report::Section;
using report::Words;

std::string decimal(const std::optional<Decimal>& value) {
  return value ? format_scaled(value->millionths, Decimal::kDecimals) : std::string("\u2013");
}

DocumentTable tasks(const ReportInput& input) {
  const Words& words = input.words;
  DocumentTable table = headed_table(words, "tasks", "recommendations.caption",
                                     {{"recommendations.stage"},
                                      {"recommendations.task"},
                                      {"recommendations.grade"},
                                      {"recommendations.basis"},
                                      {"recommendations.amount", true},
                                      {"recommendations.hours", true},
                                      {"recommendations.cost", true},
                                      {"recommendations.currency"}});
  table.note = words("recommendations.note");
  for (const Estimate& estimate : input.rows.estimates)
    table.rows.push_back({estimate.stage, estimate.task, estimate.grade,
                          estimate.basis ? std::string(word(*estimate.basis)) : "", decimal(estimate.amount),
                          decimal(estimate.hours_likely), decimal(estimate.cost_likely), estimate.currency});
  return table;
}

std::string selection_sentence(const ReportInput& input) {
  std::int64_t kept = 0, deselected = 0;
  for (const Selection& selection : input.rows.selections)
    (selection.decision == Decision::deselected ? deselected : kept) += 1;
  if (kept + deselected == 0) return {};
  return input.words("archive.selection", {{"kept", input.words.counted(kept, "decision")},
                                           {"deselected", input.words.counted(deselected, "decision")}});
}

}  // namespace

report::Section recommendations(const ReportInput& input) {
  Section section{"recommendations", input.words("section.recommendations"), {}};
  if (!input.rows.estimates.empty()) section.blocks.emplace_back(tasks(input));
  return section;
}

report::Section archive(const ReportInput& input) {
  const Words& words = input.words;
  Section section{"archive", words("section.archive"), {}};
  if (input.rows.repository) {
    const Repository& to = *input.rows.repository;
    section.blocks.emplace_back(Paragraph{
        words("archive.place", {{"repository", to.repository},
                                {"accession", to.accession.empty() ? words("archive.no_accession") : to.accession}})});
    std::vector<std::string> whose;
    if (!to.copyright_holder.empty()) whose.push_back(words("archive.copyright", {{"holder", to.copyright_holder}}));
    if (!to.licence.empty()) whose.push_back(words("archive.licence", {{"terms", to.licence}}));
    if (!whose.empty()) section.blocks.emplace_back(Paragraph{join(whose, " ")});
  } else {
    section.blocks.emplace_back(Paragraph{words("archive.none")});
  }
  if (const std::string selection = selection_sentence(input); !selection.empty())
    section.blocks.emplace_back(Paragraph{selection});
  section.blocks.emplace_back(Paragraph{words("archive.digital")});
  return section;
}

}  // namespace sherd::desk
