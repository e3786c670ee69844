#include "exchange/drawings/read_tps.h"

#include <cstdint>

#include "base/numbers.h"
#include "base/text.h"
#include "exchange/drawings/path_data.h"

namespace sherd::exchange {

namespace {

constexpr std::size_t kMostPoints = 200'000;

class TpsReader {
 public:
  explicit TpsReader(std::string_view text) : lines_(split(text, '\n')) {}

  Result<std::vector<LandmarkSet>> read() {
    for (at_ = 0; at_ < lines_.size(); ++at_) {
      const std::string_view line = trim(lines_[at_]);
      const std::size_t equals = line.find('=');
      if (line.empty()) continue;
      if (equals == std::string_view::npos) return trouble("\"" + shortened(line, 30) + "\" is no KEY=VALUE");
      const std::string key = lower(trim(line.substr(0, equals)));
      const std::string_view value = trim(line.substr(equals + 1));
      if (key == "lm" || key == "lm3" || key == "points") SHERD_CHECK(points(key, value));
      if (sets_.empty()) continue;
      if (key == "id") sets_.back().id = value;
      if (key == "scale") SHERD_CHECK(scale(value));
    }
    if (sets_.empty()) return fail("no_lines", "the file has no landmarks", "each specimen begins with LM=");
    return std::move(sets_);
  }

 private:
  std::unexpected<Error> trouble(std::string message) const {
    Error error{.code = "bad_tps", .message = std::move(message)};
    error.where.line = static_cast<std::int64_t>(at_) + 1;
    return fail(std::move(error));
  }

  Result<void> points(const std::string& key, std::string_view value) {
    const auto count = parse_scaled(value, 0);
    if (!count || *count < 0 || static_cast<std::size_t>(*count) > kMostPoints)
      return trouble("\"" + shortened(value, 20) + "\" is no number of points");
    if (key == "lm3") return trouble("points in three dimensions are no half-section");
    if (key == "lm") sets_.emplace_back();
    if (sets_.empty()) return trouble("points of a curve stand before LM=");
    for (std::int64_t i = 0; i < *count; ++i) {
      if (++at_ >= lines_.size()) return trouble("the file ends before its points do");
      const auto numbers = read_numbers(trim(lines_[at_]));
      if (!numbers || numbers->size() != 2) return trouble("two numbers are expected in a line of points");
      sets_.back().points.push_back({(*numbers)[0], (*numbers)[1]});
      if (++read_ > kMostPoints) return trouble("the file has more points than can be read");
    }
    return {};
  }

  /// Comes behind the points of its specimen.
  Result<void> scale(std::string_view value) {
    const auto numbers = read_numbers(value);
    if (!numbers || numbers->size() != 1 || !(numbers->front() > 0))
      return trouble("\"" + shortened(value, 20) + "\" is no scale");
    if (sets_.back().scaled) return trouble("a specimen has two scales");
    sets_.back().scaled = true;
    for (OutlinePoint& point : sets_.back().points) {
      point.r_mm *= numbers->front();
      point.z_mm *= numbers->front();
    }
    return {};
  }

  std::vector<std::string_view> lines_;
  std::size_t at_ = 0, read_ = 0;
  std::vector<LandmarkSet> sets_;
};

}  // namespace

Result<std::vector<LandmarkSet>> read_tps(std::string_view text) { return TpsReader(text).read(); }

}  // namespace sherd::exchange
