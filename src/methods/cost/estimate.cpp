#include "methods/cost/estimate.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/random.h"
#include "methods/statistics/quantile.h"

namespace sherd::cost {

namespace {

constexpr std::int64_t kFewestDraws = 100, kMostDraws = 1'000'000;

/// One quantity of a line, or of several that share it.
struct Drawn {
  std::size_t variable = 0;  ///< which uniform it follows
  Quantiles quantile;
};

struct Parts {
  double hours = 0, outside = 0, money = 0;
};

/// All of a line at the given values.
Parts parts_of(const Line& line, double sherds, double pace, double hours, double cost) {
  Parts out;
  if (line.hours) {
    out.hours = line.amount * hours;
  } else if (line.sherds && line.pace) {
    out.hours = line.amount * sherds / pace;
  }
  out.outside = line.cost ? line.amount * cost : 0;
  out.money = out.hours * line.rate_hour + out.outside;
  return out;
}

double or_nought(const std::optional<ThreePoints>& points, double ThreePoints::* member) {
  return points ? (*points).*member : 0;
}

Parts at_end(const Line& line, double ThreePoints::* end, double ThreePoints::* pace_end) {
  return parts_of(line, or_nought(line.sherds, end), or_nought(line.pace, pace_end), or_nought(line.hours, end),
                  or_nought(line.cost, end));
}

class Sampler {
 public:
  Sampler(const std::vector<Line>& lines, const Settings& settings) : lines_(lines), settings_(settings) {
    for (const Line& line : lines) {
      stage_of_.push_back(stage_at(line.stage));
      draws_.push_back({follow("sherds " + line.sherds_key, line.sherds_key.empty(), line.sherds),
                        follow("pace " + line.pace_key, line.pace_key.empty(), line.pace), follow("", true, line.hours),
                        follow("", true, line.cost)});
    }
  }

  Result<Estimate> run(Progress& progress) {
    const std::size_t sums = lines_.size() + stages_.size() + 1;
    hours_.resize(sums);
    outside_.resize(sums);
    money_.resize(sums);
    for (std::int64_t i = 0; i < settings_.draws; ++i) {
      if (i % 4096 == 0 &&
          !progress.step(static_cast<double>(i) / static_cast<double>(settings_.draws), "drawing costs"))
        return fail(ErrorKind::stopped, "stopped", "stopped");
      draw_once();
    }
    return gather();
  }

 private:
  struct Follow {
    std::optional<Drawn> drawn;
  };

  std::size_t stage_at(const std::string& stage) {
    const auto found = std::ranges::find(stages_, stage);
    if (found != stages_.end()) return static_cast<std::size_t>(found - stages_.begin());
    stages_.push_back(stage);
    return stages_.size() - 1;
  }
  Follow follow(const std::string& key, bool alone, const std::optional<ThreePoints>& points) {
    if (!points) return {};
    std::size_t variable = variables_;
    if (!alone) {
      const auto [place, fresh] = shared_.emplace(key, variables_);
      variable = place->second;
      if (fresh) ++variables_;
    } else {
      ++variables_;
    }
    while (streams_.size() < variables_) streams_.emplace_back(settings_.seed, streams_.size());
    return {Drawn{variable, Quantiles(*points, settings_.shape)}};
  }

  void draw_once() {
    uniform_.clear();
    for (Random& stream : streams_) uniform_.push_back(stream.uniform());
    Parts total;
    std::vector<Parts> by_stage(stages_.size());
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      const Parts parts =
          parts_of(lines_[i], value(draws_[i][0]), value(draws_[i][1]), value(draws_[i][2]), value(draws_[i][3]));
      keep(i, parts);
      for (Parts* sum : {&by_stage[stage_of_[i]], &total}) {
        sum->hours += parts.hours;
        sum->outside += parts.outside;
        sum->money += parts.money;
      }
    }
    for (std::size_t i = 0; i < by_stage.size(); ++i) keep(lines_.size() + i, by_stage[i]);
    keep(lines_.size() + by_stage.size(), total);
  }
  double value(const Follow& follow) const {
    return follow.drawn ? follow.drawn->quantile(uniform_[follow.drawn->variable]) : 0;
  }
  void keep(std::size_t at, const Parts& parts) {
    hours_[at].push_back(parts.hours);
    outside_[at].push_back(parts.outside);
    money_[at].push_back(parts.money);
  }

  Spread spread(std::vector<double>& values) const {
    Spread out;
    double sum = 0;
    for (const double value : values) sum += value;
    out.mean = sum / static_cast<double>(values.size());
    std::ranges::sort(values);
    out.low = statistics::quantile(values, (1 - settings_.share) / 2);
    out.middle = statistics::quantile(values, 0.5);
    out.high = statistics::quantile(values, (1 + settings_.share) / 2);
    return out;
  }
  LineEstimate at(std::size_t place) { return {spread(hours_[place]), spread(money_[place]), spread(outside_[place])}; }

  static void add_ends(LineEstimate& to, const Line& line) {
    const auto add = [&](double Spread::* end, const Parts& parts) {
      to.hours.*end += parts.hours;
      to.money.*end += parts.money;
      to.outside.*end += parts.outside;
    };
    add(&Spread::least, at_end(line, &ThreePoints::low, &ThreePoints::high));
    add(&Spread::likely, at_end(line, &ThreePoints::likely, &ThreePoints::likely));
    add(&Spread::most, at_end(line, &ThreePoints::high, &ThreePoints::low));
  }

  Estimate gather() {
    Estimate out;
    for (std::size_t i = 0; i < stages_.size(); ++i) out.stages.push_back({stages_[i], at(lines_.size() + i)});
    out.total = at(lines_.size() + stages_.size());
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      out.lines.push_back(at(i));
      add_ends(out.lines.back(), lines_[i]);
      add_ends(out.stages[stage_of_[i]].sum, lines_[i]);
      add_ends(out.total, lines_[i]);
    }
    return out;
  }

  const std::vector<Line>& lines_;
  const Settings& settings_;
  std::vector<std::string> stages_;
  std::vector<std::size_t> stage_of_;
  std::map<std::string, std::size_t> shared_;
  std::size_t variables_ = 0;
  std::vector<std::array<Follow, 4>> draws_;
  std::vector<Random> streams_;
  std::vector<double> uniform_;
  std::vector<std::vector<double>> hours_, outside_, money_;
};

Result<void> understood(const std::vector<Line>& lines, const Settings& settings) {
  if (settings.draws < kFewestDraws || settings.draws > kMostDraws)
    return fail(ErrorKind::usage, "bad_request", "draws are 100 to 1,000,000");
  if (!(settings.share > 0 && settings.share < 1))
    return fail(ErrorKind::usage, "bad_request", "the share between low and high is above 0 and below 1");
  for (const Line& line : lines) {
    if (!std::isfinite(line.amount) || line.amount < 0 || !std::isfinite(line.rate_hour) || line.rate_hour < 0)
      return fail("bad_request", "an amount or a rate is below nought");
    for (const auto* points : {&line.sherds, &line.pace, &line.hours, &line.cost}) {
      if (!*points) continue;
      SHERD_CHECK(check(**points));
    }
    if (line.pace && !(line.pace->low > 0)) return fail("bad_request", "a pace is above nought");
  }
  return {};
}

}  // namespace

Result<Estimate> estimate(const std::vector<Line>& lines, const Settings& settings, Progress& progress) {
  SHERD_CHECK(understood(lines, settings));
  return Sampler(lines, settings).run(progress);
}

}  // namespace sherd::cost
