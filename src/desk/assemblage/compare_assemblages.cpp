#include "desk/assemblage/compare_assemblages.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "desk/assemblage/compare_delivery.h"
#include "desk/assemblage/compare_figures.h"
#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/compare_prepare.h"
#include "desk/assemblage/compare_ways.h"
#include "methods/compare/clusters.h"
#include "methods/compare/diversity.h"
#include "methods/compare/ordering.h"
#include "methods/compare/similarity.h"

namespace sherd::desk {

namespace {

template <std::size_t N>
Result<std::size_t> chosen(const char* option, const std::string& word, const std::array<std::string, N>& known,
                           std::size_t unless_said) {
  if (word.empty()) return unless_said;
  const auto at = std::ranges::find(known, word);
  if (at != known.end()) return static_cast<std::size_t>(at - known.begin());
  const std::string near = did_you_mean(word, known);
  return fail(ErrorKind::usage, "bad_choice", fmt::format("--{} does not know \"{}\"", option, word),
              near.empty() ? "choose " + join(known, ", ") : near);
}

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
                                         .resamples = request_.resamples.value_or(input_.counts ? 1000 : 0),
                                         .seed = seed()};
    SHERD_TRY(response_.ordination, compare::ordination(input_.table, settings, progress_));
    if (input_.years.empty()) return {};
    SHERD_TRY(compare::AxisDates dates, compare::dates_on_axes(*response_.ordination, input_.years, {}));
    to_historical(dates);
    response_.ordination->dates = std::move(dates);
    return {};
  }

  Result<void> similarity() {
    const compare::SimilaritySettings settings{
        .draws = request_.resamples.value_or(input_.counts ? 1000 : 0), .counts = input_.counts, .seed = seed()};
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
    const compare::DiversitySettings settings{
        .counts = input_.counts, .sizes = {}, .draws = request_.resamples.value_or(1000), .seed = seed()};
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

void finish(const CompareRequest& request, CompareResponse& response, std::vector<std::string> warnings,
            Provenance provenance) {
  warnings.insert(warnings.end(), response.warnings.begin(), response.warnings.end());
  response.warnings = std::move(warnings);
  response.provenance = std::move(provenance);
  auto& settings = response.provenance.settings;
  settings["how"] = request.how;
  const auto note = [&](const char* name, const std::string& value) {
    if (!value.empty()) settings[name] = value;
  };
  note("aside", join(request.aside, ", "));
  note("beside", join(request.beside, ", "));
  note("beside_columns", join(request.beside_columns, ", "));
  note("merge", join(request.merge, ", "));
  note("dates", join(request.dates, ", "));
  note("linkage", request.linkage);
  note("distance", request.distance);
  note("groups", request.groups);
  note("layer", request.layer);
  note("impossible", join(request.impossible, ", "));
  note("zeros", request.zeros);
  note("method", request.method);
  if (request.cut) settings["cut"] = std::to_string(*request.cut);
  if (request.resamples) settings["resamples"] = std::to_string(*request.resamples);
  response.provenance.seed = static_cast<std::uint64_t>(request.seed.value_or(1));
}

Result<CompareResponse> by_distance(const CompareRequest& request, bool store, Environment& environment,
                                    CompareResponse response) {
  if (store) {
    return fail(ErrorKind::usage, "not_for_this", "distance compares places of a table",
                "write a table of places with a column of distances and one of amounts");
  }
  SHERD_TRY(const std::size_t zeros, chosen<2>("zeros", request.zeros, {"leave-out", "add-half"}, 0));
  SHERD_TRY(PlacesInput input, places_of_table(request, environment));
  SHERD_TRY(response.distance, compare::fall_off(input.places, static_cast<compare::Zeros>(zeros)));
  response.table.rows = static_cast<std::int64_t>(input.places.size());
  response.table.columns = 1;
  response.table.measure = request.measure;
  for (const compare::Place& place : input.places) response.table.total += place.amount;
  finish(request, response, std::move(input.warnings), std::move(input.provenance));
  response.provenance.settings["measure"] = request.measure;
  response.provenance.settings["columns"] = request.columns;
  std::vector<DrawnPicture> pictures;
  if (wants_figures(request)) {
    FigureWords words = figure_words(request, response, "", "", {});
    words.rows = "places";
    words.columns = request.columns.empty() ? "distance" : request.columns;
    pictures = pictures_of(response, words);
  }
  SHERD_CHECK(deliver(request, std::move(pictures), environment, response));
  return response;
}

Result<void> run(Work& work, const std::string& how) {
  if (how == "ordination") return work.ordination();
  if (how == "similarity") return work.similarity();
  if (how == "order") return work.order();
  if (how == "diversity") return work.diversity();
  if (how == "clusters") return work.clusters();
  return work.difference();
}

}  // namespace

Result<CompareResponse> compare_assemblages(const CompareRequest& request, Environment& environment,
                                            Progress& progress) {
  SHERD_TRY(const CompareWay way, way_named(request.how));
  SHERD_CHECK(check_delivery(request));
  CompareResponse response;
  response.how = request.how;
  response.caution = way.caution;
  SHERD_TRY(const bool store, is_store(request.store, environment));
  if (request.how == "distance") return by_distance(request, store, environment, std::move(response));
  auto read = store ? input_of_store(request, environment, progress) : input_of_table(request, environment);
  if (!read) return fail(std::move(read).error());
  CompareInput input = std::move(*read);
  Beside beside;
  SHERD_CHECK(prepare(request, input, beside));
  Work work(request, input, beside, response, progress);
  if (auto done = run(work, request.how); !done) {
    Error error = done.error();
    if (!store && error.where.file.empty()) error.where.file = request.store;
    return fail(std::move(error));
  }
  response.table = input.about;
  finish(request, response, std::move(input.warnings), std::move(input.provenance));
  std::vector<DrawnPicture> pictures;
  if (wants_figures(request))
    pictures = pictures_of(
        response, figure_words(request, response, input.row_field, input.column_field, std::move(input.records)));
  SHERD_CHECK(deliver(request, std::move(pictures), environment, response));
  return response;
}

}  // namespace sherd::desk
