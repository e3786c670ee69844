#include <array>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/dates/flags.h"
#include "desk/site/checks/checks.h"

/// Checks of contexts and their order.
namespace sherd::desk {

bool is_deposit(const Context& context, Deposit deposit) {
  return context.deposit ? context.deposit == deposit : lower(context.type) == word(deposit);
}

namespace {

void pottery_in_cut(const Check& check, const CheckInput& input, Findings& findings) {
  for (const DatedContext& context : input.dated.contexts) {
    const Context& sheet = *context.context;
    if (!is_deposit(sheet, Deposit::cut) || context.lines.empty()) continue;
    add(findings, check, {"contexts", sheet.context, "deposit"},
        counted(static_cast<std::int64_t>(context.lines.size()), "line") + " of pottery " +
            (context.lines.size() == 1 ? "is" : "are") + " booked to context " + sheet.context + ", which is a cut",
        "a cut holds nothing itself: book them to the fill they come from");
  }
}

void contexts_without_pottery(const Check& check, const CheckInput& input, Findings& findings) {
  std::vector<std::string> names;
  for (const DatedContext& context : input.dated.contexts) {
    const Context& sheet = *context.context;
    const bool may_hold = !is_deposit(sheet, Deposit::cut) && !is_deposit(sheet, Deposit::structure);
    if (context.lines.empty() && may_hold) names.push_back(sheet.context);
  }
  if (names.empty()) return;
  add(findings, check, {"contexts", {}, "context"},
      counted(static_cast<std::int64_t>(names.size()), "context") + " without pottery: " + join(names, ", "),
      "none found, or not yet recorded?");
}

void relations_loop(const Check& check, const CheckInput& input, Findings& findings) {
  for (const stratigraphy::Loop& loop : input.dated.loops) {
    std::vector<std::string> relations;
    for (const stratigraphy::RecordedRelation& relation : loop.relations) {
      relations.push_back(relation.later + " " + replace_all(std::string(word(relation.kind)), "_", " ") + " " +
                          relation.earlier);
    }
    add(findings, check, {"relations", loop.contexts.front(), "later"}, loop_sentence(loop),
        "one of these is wrong: " + join(relations, "; "));
  }
}

void provisional_codes(const Check& check, const CheckInput& input, Findings& findings) {
  std::vector<std::string> names;
  for (const Fabric& fabric : input.record.fabrics) {
    if (fabric.status == "provisional") names.push_back("fabric " + fabric.fabric);
  }
  for (const Form& form : input.record.forms) {
    if (form.status == "provisional") names.push_back("form " + form.form);
  }
  for (const Context& context : input.record.contexts) {
    if (context.notes == "provisional") names.push_back("context " + context.context);
  }
  if (names.empty()) return;
  constexpr std::size_t kShown = 30;
  const std::size_t more = names.size() > kShown ? names.size() - kShown : 0;
  const auto total = static_cast<std::int64_t>(names.size());
  names.resize(names.size() - more);
  add(findings, check, {"fabrics", {}, "status"},
      counted(total, "provisional name") + ": " + join(names, ", ") +
          (more > 0 ? " and " + std::to_string(more) + " more" : ""),
      "describe them in their tables, and read these in anew as updates");
}

std::string span_text(const dating::Spot& spot) { return range_text({spot.earliest, spot.latest}); }

/// What lies beneath is later, by its pottery, than what lies above: residual above, or bags exchanged, a relation the
/// wrong way round, something intrusive below.
void dates_against_order(const Check& check, const CheckInput& input, Findings& findings) {
  std::set<std::pair<std::string_view, std::string_view>> seen;  // a pair may be both above and cuts
  for (const Relation& relation : input.record.relations) {
    if (relation.kind == RelationKind::same_as || relation.kind == RelationKind::contemporary) continue;
    if (!seen.emplace(relation.later, relation.earlier).second) continue;
    const DatedContext* above = input.dated.find(relation.later);
    const DatedContext* below = input.dated.find(relation.earlier);
    if (above == nullptr || below == nullptr || !above->spot || !below->spot || above->mixed || below->mixed) continue;
    if (!above->spot->latest || !below->spot->earliest || *above->spot->latest >= *below->spot->earliest) continue;
    add(findings, check, {"relations", relation.later, "earlier"},
        "context " + relation.later + " (" + span_text(*above->spot) + ") lies above context " + relation.earlier +
            " (" + span_text(*below->spot) + "), whose pottery is later",
        "all residual above? else look at the bags of both and at the relation");
  }
}

constexpr std::array kChecks{
    Check{"relations_loop", Severity::error, "relations that run in a loop", relations_loop},
    Check{"pottery_in_cut", Severity::error, "pottery booked to a cut", pottery_in_cut},
    Check{"dates_against_order", Severity::warning, "pottery later below than above", dates_against_order},
    Check{"contexts_without_pottery", Severity::note, "contexts without pottery", contexts_without_pottery},
    Check{"provisional_codes", Severity::note, "contexts, fabrics and forms added as provisional", provisional_codes},
};

}  // namespace

std::span<const Check> context_checks() { return kChecks; }

}  // namespace sherd::desk
