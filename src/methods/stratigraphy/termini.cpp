#include "methods/stratigraphy/termini.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include "methods/quantify/natural_order.h"
#include "methods/stratigraphy/graph.h"

namespace sherd::stratigraphy {

namespace {

constexpr std::string_view kIntrusive = "judged intrusive";
constexpr std::string_view kMixed = "mixed deposit";
constexpr std::string_view kLoop = "loop";

/// A terminus on its way: the context whose line sets it, and the one through which it came last.
struct Carried {
  const ContextTermini* source = nullptr;
  std::string_view via;

  bool there() const { return source != nullptr; }
  Year year() const { return *source->termini.own->year; }
};

/// True where `a` goes before `b`: later, or as late from a context that is listed first.
bool before(const Carried& a, const Carried& b) {
  if (!a.there() || !b.there()) return a.there() && !b.there();
  if (a.year() != b.year()) return a.year() > b.year();
  const auto order = quantify::natural_order(a.source->context, b.source->context);
  return order != 0 ? order < 0 : quantify::natural_order(a.via, b.via) < 0;
}

class Carrier {
 public:
  Carrier(std::span<const ContextTermini> given, std::span<const std::string> names,
          std::span<const Relation> relations)
      : given_(given),
        graph_(names, relations),
        looped_(graph_.looped()),
        own_(graph_.units()),
        effective_(graph_.units()),
        mixed_(graph_.units()),
        incomplete_(graph_.units()) {
    for (const ContextTermini& context : given_) {
      const std::uint32_t unit = unit_of(context);
      if (context.deposit == Deposit::mixed) mixed_[unit] = true;
      if (!context.termini.own || !context.termini.own->year) continue;
      if (const Carried own{&context, {}}; before(own, own_[unit])) own_[unit] = own;
    }
  }

  CarriedTermini run() {
    for (const ContextTermini& context : given_) {
      if (const auto& late = context.termini.intrusive) {
        out_.stopped.push_back({context.context, late->year, context.context, late->record, std::string(kIntrusive)});
      }
    }
    for (const std::uint32_t unit : graph_.earliest_first()) carry_into(unit);
    for (std::uint32_t unit = 0; unit < graph_.units(); ++unit) {
      if (!looped_[unit]) continue;
      incomplete_[unit] = true;
      keep_own(unit, kLoop);
    }
    for (const ContextTermini& context : given_) out_.contexts.push_back(describe(context));
    out_.loops = graph_.loops();
    return std::move(out_);
  }

 private:
  std::uint32_t unit_of(const ContextTermini& context) const { return graph_.unit_of(*graph_.find(context.context)); }
  const std::string& name(std::uint32_t unit) const { return graph_.contexts()[graph_.members(unit).front()]; }
  bool passes_on(std::uint32_t unit) const { return !looped_[unit] && !mixed_[unit]; }

  /// The best of what the units directly beneath pass on.
  Carried from_below(std::uint32_t unit) const {
    Carried best;
    for (const Graph::Edge& edge : graph_.below(unit)) {
      if (!passes_on(edge.earlier) || !effective_[edge.earlier].there()) continue;
      const Carried next{effective_[edge.earlier].source, graph_.relations()[edge.relation].earlier};
      if (before(next, best)) best = next;
    }
    return best;
  }

  void carry_into(std::uint32_t unit) {
    if (mixed_[unit]) {
      keep_own(unit, kMixed);
      return;
    }
    const Carried below = from_below(unit);
    const bool own_holds = own_[unit].there() && (!below.there() || own_[unit].year() >= below.year());
    effective_[unit] = own_holds ? own_[unit] : below;
    incomplete_[unit] = std::ranges::any_of(graph_.below(unit), [&](const Graph::Edge& edge) {
      return looped_[edge.earlier] || (passes_on(edge.earlier) && incomplete_[edge.earlier]);
    });
  }

  /// The unit neither receives nor passes on: both are noted as stopped.
  void keep_own(std::uint32_t unit, std::string_view reason) {
    effective_[unit] = own_[unit];
    for (const Carried& stopped : {own_[unit], from_below(unit)}) {
      if (!stopped.there()) continue;
      const dating::Terminus& terminus = *stopped.source->termini.own;
      out_.stopped.push_back(
          {name(unit), terminus.year, stopped.source->context, terminus.record, std::string(reason)});
    }
  }

  EffectiveTerminus describe(const ContextTermini& context) const {
    const std::uint32_t unit = unit_of(context);
    EffectiveTerminus out;
    out.context = context.context;
    if (context.termini.own) out.own = context.termini.own->year;
    out.in_loop = looped_[unit];
    out.incomplete = incomplete_[unit];
    out.mixed = mixed_[unit];
    const Carried& effective = effective_[unit];
    if (!effective.there()) return out;
    const dating::Terminus& terminus = *effective.source->termini.own;
    out.year = terminus.year;
    out.from = effective.source->context;
    out.record = terminus.record;
    out.via = effective.via;
    out.own_is_earlier = out.own && *out.own < *out.year;
    if (effective.source == &context) {
      out.because = terminus.because;
    } else if (out.via.empty()) {
      out.because = fmt::format("from {}, the same context: {}", out.from, terminus.because);
    } else {
      out.because = fmt::format("carried up from {}{}: {}", out.from,
                                out.via == out.from ? "" : " by way of " + out.via, terminus.because);
    }
    return out;
  }

  std::span<const ContextTermini> given_;
  Graph graph_;
  std::vector<bool> looped_;
  std::vector<Carried> own_;
  std::vector<Carried> effective_;
  std::vector<bool> mixed_;
  std::vector<bool> incomplete_;
  CarriedTermini out_;
};

}  // namespace

CarriedTermini carry_termini(std::span<const ContextTermini> contexts, std::span<const Relation> relations) {
  std::vector<std::string> names;
  names.reserve(contexts.size());
  for (const ContextTermini& context : contexts) names.push_back(context.context);
  return Carrier(contexts, names, relations).run();
}

}  // namespace sherd::stratigraphy
