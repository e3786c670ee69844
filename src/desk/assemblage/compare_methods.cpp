#include "desk/assemblage/compare_methods.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "desk/assemblage/compare_choice.h"
#include "methods/compare/clusters.h"
#include "methods/compare/diversity.h"
#include "methods/compare/ordering.h"
#include "methods/compare/similarity.h"

namespace sherd::desk {

namespace {

class Work {
 public:
  Work(const CompareRequest& request, CompareInput& input, const Beside& beside, CompareResponse& response,
       Progress& progress)
      : request_(request), input_(input), beside_(beside), response_(response), progress_(progress) {}

  Result<void> ordination() {
    if (request_.axes && *request_.axes < 1)
      return fail(ErrorKind::usage, "bad_choice", "--axes takes a number of 1 and above");
    compare::OrdinationSettings settings{.axes = static_cast<std::size_t>(request_.axes.value_or(20)),
                                         .counts = input_.counts,
                                         .rows = beside_.rows,
                                         .columns = beside_.columns,
                                         .resamples = request_.resamples.value_or(!input_.counts ? 0
                                                                                  : is_large()   ? 200
                                                                                                 : 1000),
                                         .seed = seed()};
    SHERD_TRY(response_.ordination, compare::ordination(input_.table, settings, progress_));
    if (input_.years.empty()) return {};
    SHERD_TRY(compare::AxisDates dates,
              compare::dates_on_axes(*response_.ordination, input_.years,
                                     {.axes = static_cast<std::size_t>(request_.axes.value_or(0))}));
    to_historical(dates);
    response_.ordination->dates = std::move(dates);
    return {};
  }

  Result<void> similarity() {
    const bool many = input_.table.row_labels.size() > kMostPairs && !request_.resamples && input_.counts;
    const compare::SimilaritySettings settings{.draws = request_.resamples.value_or(input_.counts && !many ? 1000 : 0),
                                               .counts = input_.counts,
                                               .seed = seed()};
    if (many) {
      response_.warnings.push_back(fmt::format(
          "p is left out of more than {} rows, whose pairs are too many to draw: --resamples 100 would make it",
          kMostPairs));
    }
    SHERD_TRY(response_.similarity, compare::similarity(input_.table, settings, progress_));
    return {};
  }

  Result<void> order() {
    SHERD_TRY(const std::size_t method, chosen<2>("method", request_.method, {"search", "axis"}, 0));
    const compare::OrderingSettings settings{.search = method == 0,
                                             .resamples = request_.resamples.value_or(input_.counts ? 200 : 0),
                                             .counts = input_.counts,
                                             .seed = seed()};
    SHERD_TRY(response_.order, compare::ordering(input_.table, settings, progress_));
    if (method == 0 && response_.order->method == "axis")
      response_.warnings.emplace_back("above 500 rows the order is that of the axis; nothing was searched");
    return {};
  }

  Result<void> diversity() {
    const compare::DiversitySettings settings{.counts = input_.counts,
                                              .sizes = {},
                                              .draws = request_.resamples.value_or(is_large() ? 200 : 1000),
                                              .seed = seed()};
    SHERD_TRY(response_.diversity, compare::diversity(input_.table, settings, progress_));
    return {};
  }

  Result<void> clusters() {
    SHERD_TRY(const std::size_t linkage,
              chosen<5>("linkage", request_.linkage, {"single", "complete", "average", "ward", "k-means"}, 2));
    SHERD_TRY(const std::size_t distance,
              chosen<4>("distance", request_.distance, {"percent", "chi-square", "similarity", "amounts"}, 0));
    const compare::ClusterSettings settings{.grouping = static_cast<compare::Grouping>(linkage),
                                            .between = static_cast<compare::Between>(distance),
                                            .cut = request_.cut,
                                            .groups = input_.groups,
                                            .seed = seed()};
    SHERD_TRY(response_.clusters, compare::clusters(input_.table, settings, progress_));
    return {};
  }

  Result<void> difference() {
    if (input_.about.measure == "weight_g") {
      return fail("not_counts", "weights cannot be tested: a gram is no independent thing",
                  "compare vessels, or eve, which is turned into pseudo-counts");
    }
    compare::DifferenceSettings settings{.shuffles = 999, .resamples = 999, .seed = seed()};
    if (request_.resamples) settings.shuffles = settings.resamples = *request_.resamples;
    if (input_.about.measure == "eve") {
      SHERD_TRY(response_.difference, compare::difference(input_.table.row_labels, input_.table.column_labels,
                                                          input_.families, settings, progress_));
    } else {
      SHERD_TRY(response_.difference, compare::difference(input_.table, settings, progress_));
    }
    response_.difference->merged = request_.merge;
    if (response_.difference->expected_below_5 > 0) say_small();
    if (input_.cube) {
      SHERD_TRY(response_.difference->log_linear, compare::log_linear(*input_.cube));
      const compare::LogLinear& models = *response_.difference->log_linear;
      const auto possible = static_cast<double>(models.cells - models.structural_zeros);
      if (models.total < 5 * possible) {
        response_.warnings.push_back(
            fmt::format("{:.1f} a cell on average is too few for the p of log-linear models: choose coarser fields",
                        models.total / possible));
      }
    }
    return {};
  }

 private:
  static constexpr std::size_t kMostPairs = 400;  // rows
  /// Too large for the full number of resamples while someone waits.
  bool is_large() const { return input_.table.counts.values.size() > 40'000; }

  std::uint64_t seed() const { return static_cast<std::uint64_t>(request_.seed.value_or(1)); }

  static double historical(double year) { return year < 1 ? year - 1 : year; }
  static void to_historical(compare::AxisDates& dates) {
    for (std::vector<compare::AxisDate>* list : {&dates.rows, &dates.columns}) {
      for (compare::AxisDate& date : *list) {
        for (double* year : {&date.year, &date.low95, &date.high95}) *year = historical(*year);
        if (date.given) date.given = historical(*date.given);
        if (date.left_out) date.left_out = historical(*date.left_out);
      }
    }
  }

  static std::vector<std::string> small_rows(const compare::Difference& found) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < found.labels.size(); ++i) {
      const auto few = std::ranges::count_if(found.expected[i], [](double x) { return x < 5; });
      if (2 * few > static_cast<std::ptrdiff_t>(found.types.size())) out.push_back(found.labels[i]);
    }
    return out;
  }

  void say_small() {
    const compare::Difference& found = *response_.difference;
    std::string text = fmt::format("{} of {} cells are expected fewer than 5 times, where chi-square is a poor guide",
                                   found.expected_below_5, found.labels.size() * found.types.size());
    if (!found.merge_suggestion.empty()) {
      text += ": these types could be counted as one: --merge \"" + join(found.merge_suggestion, "+") + "\"";
    } else if (const auto rows = small_rows(found); !rows.empty() && rows.size() < found.labels.size()) {
      text +=
          ": most cells are so small in " + join(rows, ", ") + ", which could be left out or put together with others";
    }
    response_.warnings.push_back(text);
  }

  const CompareRequest& request_;
  CompareInput& input_;
  const Beside& beside_;
  CompareResponse& response_;
  Progress& progress_;
};

}  // namespace

Result<void> run_method(const CompareRequest& request, CompareInput& input, const Beside& beside,
                        CompareResponse& response, Progress& progress) {
  Work work(request, input, beside, response, progress);
  const std::string& how = request.how;
  if (how == "ordination") return work.ordination();
  if (how == "similarity") return work.similarity();
  if (how == "order") return work.order();
  if (how == "diversity") return work.diversity();
  if (how == "clusters") return work.clusters();
  if (how == "difference") return work.difference();
  return fail(ErrorKind::internal, "no_method", "nothing carries out the way to compare called \"" + how + "\"");
}

}  // namespace sherd::desk
