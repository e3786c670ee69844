#include <fmt/format.h>

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "desk/frame/csv.h"

/// The order of the ground.
namespace sherd::cli {

namespace {

constexpr std::size_t kShown = 30;

std::string sentence(const stratigraphy::RecordedRelation& relation) {
  std::string kind(word(relation.kind));
  std::ranges::replace(kind, '_', ' ');
  return relation.later + " " + kind + " " + relation.earlier;
}

/// A heading with a count, and the first of the list.
template <class T, class Text>
std::string listed(const std::vector<T>& list, const std::string& heading, Text text) {
  if (list.empty()) return {};
  std::string out = fmt::format("\n{} ({})\n", heading, list.size());
  for (std::size_t i = 0; i < std::min(kShown, list.size()); ++i) out += "  " + text(list[i]) + "\n";
  if (list.size() > kShown) out += fmt::format("  and {} more; --json lists them all\n", list.size() - kShown);
  return out;
}

std::string loop_text(const stratigraphy::Loop& loop) {
  std::vector<std::string> parts;
  for (const auto& relation : loop.relations) parts.push_back(sentence(relation));
  std::string out = join(loop.contexts, ", ") + ": " + join(parts, "; ");
  if (!loop.look_at.empty()) out += "\n      look first at: " + sentence(loop.look_at.front());
  return out + (loop.because.empty() ? "" : " (" + loop.because + ")");
}

}  // namespace

std::string text_of(const desk::StratigraphyResponse& response) {
  std::string out = fmt::format("{}, {} recorded; {} say the same order.\n", counted(response.contexts, "context"),
                                counted(response.recorded, "relation"), response.edges.size());
  out += listed(response.troubles, "Cannot stand as they are", [](const stratigraphy::RelationTrouble& one) {
    return one.message + (one.hint.empty() ? "" : "\n      " + one.hint);
  });
  out += listed(response.loops, "Loops, the shortest first", loop_text);
  out += listed(response.redundant, "Follow from others", [](const stratigraphy::RedundantRelation& one) {
    return sentence(one.relation) + ", by way of " + one.through;
  });
  out += listed(response.repeated, "Say what another relation says", sentence);
  out += listed(response.doubtful, "Doubtful",
                [](const stratigraphy::DoubtfulRelation& one) { return sentence(one.relation) + ": " + one.because; });
  out += listed(response.same, "Taken for one context",
                [](const stratigraphy::SameGroup& one) { return join(one.contexts, " = "); });
  out += listed(response.apart, "Said to be the same, looked at apart", sentence);
  out += listed(response.contemporary, "Contemporary: no order", sentence);
  out += listed(response.abutments, "Abutments of which nobody has said what they order", sentence);
  out += listed(response.termini, "Termini from another context", [](const stratigraphy::EffectiveTerminus& one) {
    return fmt::format("{}: {} by context {}, {}", one.context, year_text(*one.year), one.from, one.because);
  });
  if (!response.file.empty()) out += "\nWrote " + response.file + "\n";
  return out;
}

std::string text_of(const desk::RephaseResponse& response) {
  std::string out = response.change ? fmt::format("Applied as change {}.\n", *response.change)
                                    : std::string("Nothing is changed yet; --apply makes it so.\n");
  out += listed(response.problems, "Rows that cannot be read", [](const exchange::Problem& one) {
    return fmt::format("row {}{}: {}", one.row, one.column.empty() ? "" : ", " + one.column, one.message);
  });
  out += listed(response.loops, "Loops that the new relations run in", loop_text);
  out += listed(response.relations_gone, "Relations that go", sentence);
  out += listed(response.relations_added, "Relations that come", sentence);
  out += listed(response.values, "Values", [](const desk::RephasedValue& one) {
    if (one.column.empty()) return one.table + " " + one.key + ": new";
    return fmt::format("{} {}, {}: \"{}\" becomes \"{}\"", one.table, one.key, one.column, one.was, one.now);
  });
  const auto year = [](const std::optional<Year>& value) { return value ? year_text(*value) : std::string("none"); };
  out += listed(response.moved, "Termini that move", [&](const desk::MovedDate& one) {
    return fmt::format("{}: {} becomes {}{}", one.context, year(one.was), year(one.now),
                       one.now_because.empty() ? "" : " (" + one.now_because + ")");
  });
  out += listed(response.stale, "No longer holds",
                [](const desk::StaleIssue& one) { return one.name + ": " + one.because; });
  return out;
}

CsvRows table_of(const desk::RephaseResponse& response) { return desk::csv_rows(response.values); }

CsvRows table_of(const desk::StratigraphyResponse& response) { return desk::csv_rows(response.edges); }

}  // namespace sherd::cli
