#include "trenches.h"

#include <algorithm>
#include <string>
#include <vector>

#include "base/random.h"

// Made up for these pictures; no site, no phase and no date in it is real.
namespace sherd::figure {
namespace {

constexpr std::size_t kNatural = static_cast<std::size_t>(-1);

class Area {
 public:
  Area(StratigraphyFigure& figure, std::string name, std::size_t contexts, Random& random)
      : figure_(figure), name_(std::move(name)), random_(random), exposed_(10 + contexts / 2, kNatural) {
    static const std::vector<std::string> kTitles = {"Roadside ditches", "Abandonment and dark earth",
                                                     "Plots and Building 1", "Town gardens", "The house and after"};
    const std::size_t first = figure.contexts.size();
    for (std::size_t p = 0; p < kTitles.size(); ++p) {
      figure.phases.push_back(
          {name_ + std::to_string(p + 1), kTitles[p], name_, "phase=" + name_ + std::to_string(p + 1)});
      phase_ = figure.phases.size() - 1;
      from_ = 50 + 350 * static_cast<int>(p);
      while (figure.contexts.size() - first < contexts * (p + 1) / kTitles.size()) feature();
    }
    // A machine strips the rest.
    phase_.reset();
    add("layer", 0, exposed_.size());
  }

 private:
  std::size_t somewhere(std::size_t width) {
    return random_.below(static_cast<std::uint32_t>(exposed_.size() - std::min(width, exposed_.size() - 1)));
  }

  void feature() {
    const std::uint32_t kind = random_.below(10);
    if (kind < 3) {
      const std::size_t width = 4 + random_.below(std::min(40U, static_cast<std::uint32_t>(exposed_.size() / 3 + 1)));
      add("layer", somewhere(width), width);
    } else if (kind < 4) {
      const std::size_t at = somewhere(3);
      add("cut", at, 3);
      add("structure", at + 1, 1);
      add("fill", at, 3);
    } else {
      std::size_t width = 2 + random_.below(4), at = somewhere(width);
      add("cut", at, width);
      for (std::uint32_t fills = 1 + random_.below(3); fills > 0; --fills) {
        add("fill", at, width);
        if (width > 2) {
          ++at;
          width -= 2;
        }
      }
    }
  }

  void add(const char* type, std::size_t at, std::size_t width) {
    DiagramContext c;
    const std::size_t me = figure_.contexts.size();
    c.label = std::to_string(1001 + me);
    c.type = type;
    c.area = name_;
    c.phase = phase_;
    c.data_set = "context=" + c.label;
    if (c.type != "cut" && random_.below(4) != 0) date(c);
    figure_.contexts.push_back(c);
    std::vector<std::size_t> onto;
    for (std::size_t x = at; x < std::min(at + width, exposed_.size()); ++x) {
      if (exposed_[x] != kNatural && std::ranges::find(onto, exposed_[x]) == onto.end()) onto.push_back(exposed_[x]);
      exposed_[x] = me;
    }
    std::erase_if(onto, [&](std::size_t b) {
      return std::ranges::any_of(onto, [&](std::size_t a) { return a != b && lies_above(a, b); });
    });
    for (const std::size_t b : onto) {
      figure_.relations.push_back({me, b,
                                   c.label + (c.type == "cut" ? " cuts " : " above ") + figure_.contexts[b].label,
                                   RelationLook::order, "relation=" + c.label + "," + figure_.contexts[b].label});
    }
    beneath_.resize(me + 1);
    beneath_[me] = onto;
  }

  void date(DiagramContext& c) {
    const int residual = random_.below(4) == 0 ? 300 : 0;
    const int from = from_ + static_cast<int>(random_.below(200)) - residual;
    c.spot = {Year{from}, Year{from + 60 + static_cast<int>(random_.below(200))}};
    c.single = random_.below(9) == 0;
    c.terminus = Year{from};
    const int start = from_ + 60 + static_cast<int>(random_.below(150));
    c.sequence = {Year{start}, Year{start + 40 + static_cast<int>(random_.below(60))}};
  }

  bool lies_above(std::size_t a, std::size_t b) const {
    std::vector<std::size_t> stack = {a};
    std::vector<bool> seen(beneath_.size(), false);
    while (!stack.empty()) {
      const std::size_t v = stack.back();
      stack.pop_back();
      for (const std::size_t w : beneath_[v]) {
        if (w == b) return true;
        if (w > b && !seen[w]) stack.push_back(w);
        seen[w] = true;
      }
    }
    return false;
  }

  StratigraphyFigure& figure_;
  std::string name_;
  Random& random_;
  std::vector<std::size_t> exposed_;  // at each step along the trench
  std::vector<std::vector<std::size_t>> beneath_;
  std::optional<std::size_t> phase_;
  int from_ = 0;
};

}  // namespace

StratigraphyFigure trenches(std::size_t contexts, std::size_t areas, std::uint64_t seed) {
  StratigraphyFigure figure;
  Random random(seed);
  for (std::size_t a = 0; a < areas; ++a)
    Area(figure, std::string(1, static_cast<char>('A' + a)), contexts / areas, random);
  // The latest first.
  const std::size_t n = figure.phases.size();
  std::ranges::reverse(figure.phases);
  for (DiagramContext& c : figure.contexts) {
    if (c.phase) c.phase = n - 1 - *c.phase;
  }
  figure.about = {"Stratigraphic diagram of an invented site", {}};
  return figure;
}

}  // namespace sherd::figure
