#include "desk/stratigraphy/stratigraphy_figure.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "base/text.h"
#include "desk/dates/flags.h"

namespace sherd::desk {

namespace {

std::string words_of(const stratigraphy::RecordedRelation& relation) {
  std::string kind(word(relation.kind));
  std::ranges::replace(kind, '_', ' ');
  return relation.later + " " + kind + " " + relation.earlier;
}

class Drawer {
 public:
  Drawer(const Record& record, const DatedRecord& dated, const stratigraphy::Reduction& reduction,
         const std::vector<KeptDate>& in_sequence, const DiagramChoice& choice)
      : record_(record), dated_(dated), reduction_(reduction), choice_(choice) {
    for (const KeptDate& date : in_sequence) kept_.emplace(date.context, &date);
  }

  figure::StratigraphyFigure run() {
    figure_.with_redundant = choice_.with_redundant;
    figure_.about.title =
        "Stratigraphic diagram: " + counted(static_cast<std::int64_t>(dated_.contexts.size()), "context") +
        ", later above earlier";
    add_phases();
    for (const stratigraphy::SameGroup& group : reduction_.same) {
      for (const std::string& name : group.contexts) head_[name] = group.contexts.front();
    }
    for (const DatedContext& context : dated_.contexts) add_context(context);
    for (const stratigraphy::SameGroup& group : reduction_.same) {
      const auto at = box_.find(group.contexts.front());
      const bool shown = at != box_.end() && figure_.contexts[at->second].data_set.starts_with("context=");
      if (shown) figure_.contexts[at->second].label = join(group.contexts, " = ");
    }
    for (const auto& relation : reduction_.relations) add_relation(relation, figure::RelationLook::order);
    for (const auto& one : reduction_.redundant) add_relation(one.relation, figure::RelationLook::redundant);
    for (const stratigraphy::Loop& loop : reduction_.loops) {
      for (const auto& relation : loop.relations) {
        if (relation.kind != RelationKind::same_as) add_relation(relation, figure::RelationLook::loop);
      }
      for (const std::string& name : loop.contexts) {
        if (const auto at = place_of(name)) figure_.contexts[*at].in_loop = true;
      }
      figure_.loops.push_back(loop_sentence(loop));
    }
    for (const auto& relation : reduction_.contemporary) add_link(relation);
    for (const auto& relation : reduction_.apart) add_link(relation);
    return std::move(figure_);
  }

 private:
  /// The latest first within each area; areas in the order of their names.
  void add_phases() {
    std::vector<const Phase*> phases;
    for (const Phase& phase : record_.phases) phases.push_back(&phase);
    std::ranges::stable_sort(phases, [](const Phase* a, const Phase* b) {
      if (a->area != b->area) return a->area < b->area;
      return a->order.value_or(0) > b->order.value_or(0);
    });
    for (const Phase* phase : phases) {
      phase_[phase->phase] = figure_.phases.size();
      figure_.phases.push_back({phase->phase, phase->title, phase->area, "phase=" + phase->phase});
    }
  }

  void add_context(const DatedContext& dated) {
    const Context& sheet = *dated.context;
    if (choice_.folded.contains(sheet.phase) && phase_.contains(sheet.phase)) return fold(sheet);
    const auto head = head_.find(sheet.context);
    if (head != head_.end() && head->second != sheet.context && box_.contains(head->second)) {
      box_[sheet.context] = box_.at(head->second);
      merge_dates(figure_.contexts[box_.at(head->second)], dated);
      return;
    }
    figure::DiagramContext box;
    box.label = sheet.context;
    box.type = sheet.type;
    box.area = sheet.area;
    if (const auto phase = phase_.find(sheet.phase); phase != phase_.end()) box.phase = phase->second;
    box.own = {sheet.my_earliest, sheet.my_latest};
    if (dated.mixed) box.note = "mixed deposit";
    box.data_set = "context=" + sheet.context;
    box_[sheet.context] = figure_.contexts.size();
    if (head != head_.end()) box_.emplace(head->second, figure_.contexts.size());
    figure_.contexts.push_back(std::move(box));
    merge_dates(figure_.contexts.back(), dated);
  }

  /// All contexts of a folded phase stand in one box, which says how many.
  void fold(const Context& sheet) {
    Fold& fold = folds_[sheet.phase];
    if (fold.contexts++ == 0) {
      fold.at = figure_.contexts.size();
      figure::DiagramContext box;
      box.area = sheet.area;
      box.phase = phase_.at(sheet.phase);
      box.data_set = "phase=" + sheet.phase;
      figure_.contexts.push_back(std::move(box));
    }
    box_[sheet.context] = fold.at;
    figure_.contexts[fold.at].label = counted(fold.contexts, "context");
    if (const auto same = head_.find(sheet.context); same != head_.end()) box_.emplace(same->second, fold.at);
  }

  void merge_dates(figure::DiagramContext& box, const DatedContext& dated) {
    if (dated.mixed) return;
    if (dated.spot && box.spot.empty()) {
      box.spot = {dated.spot->earliest, dated.spot->latest};
      box.single = dated.spot->single;
    }
    if (dated.effective.year && (!box.terminus || *dated.effective.year > *box.terminus)) {
      box.terminus = dated.effective.year;
      box.terminus_carried = dated.effective.from != dated.context->context;
    }
    if (const auto kept = kept_.find(dated.context->context); kept != kept_.end() && box.sequence.empty())
      box.sequence = {kept->second->earliest, kept->second->latest};
  }

  std::optional<std::size_t> place_of(const std::string& name) const {
    const auto at = box_.find(name);
    return at == box_.end() ? std::nullopt : std::optional(at->second);
  }

  void add_relation(const stratigraphy::RecordedRelation& relation, figure::RelationLook look) {
    const auto later = place_of(relation.later);
    const auto earlier = place_of(relation.earlier);
    if (!later || !earlier || *later == *earlier) return;
    const bool folded = !choice_.folded.empty();
    if (folded && !drawn_.emplace(*later, *earlier, look).second) return;
    figure_.relations.push_back(
        {*later, *earlier, words_of(relation), look, "later=" + relation.later + " earlier=" + relation.earlier});
  }

  void add_link(const stratigraphy::RecordedRelation& relation) {
    const auto a = place_of(relation.later);
    const auto b = place_of(relation.earlier);
    if (a && b && *a != *b) figure_.links.push_back({*a, *b, words_of(relation), ""});
  }

  const Record& record_;
  const DatedRecord& dated_;
  struct Fold {
    std::size_t at = 0;
    std::int64_t contexts = 0;
  };

  const stratigraphy::Reduction& reduction_;
  const DiagramChoice& choice_;
  std::map<std::string, Fold, std::less<>> folds_;
  std::set<std::tuple<std::size_t, std::size_t, figure::RelationLook>> drawn_;
  std::map<std::string_view, const KeptDate*> kept_;
  std::map<std::string, std::string, std::less<>> head_;
  std::map<std::string, std::size_t, std::less<>> box_;
  std::map<std::string, std::size_t, std::less<>> phase_;
  figure::StratigraphyFigure figure_;
};

}  // namespace

figure::StratigraphyFigure stratigraphy_figure(const Record& record, const DatedRecord& dated,
                                               const stratigraphy::Reduction& reduction,
                                               const std::vector<KeptDate>& in_sequence, const DiagramChoice& choice) {
  return Drawer(record, dated, reduction, in_sequence, choice).run();
}

}  // namespace sherd::desk
