#include "desk/chemistry/run_structure.h"

#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/compare_choice.h"
#include "methods/chemistry/clusters.h"
#include "methods/chemistry/components.h"
#include "methods/chemistry/dilution.h"
#include "methods/chemistry/discriminant.h"
#include "methods/chemistry/means.h"
#include "methods/chemistry/membership.h"
#include "methods/chemistry/outliers.h"
#include "methods/chemistry/variation.h"

namespace sherd::desk {

namespace {

constexpr int kPlaces = 12;
constexpr double kUnit = 1e12;

/// "CaO=0.01,MnO=0.001"
Result<std::map<std::string, double>> limits_of(const std::string& text) {
  std::map<std::string, double> out;
  if (text.empty()) return out;
  for (const std::string_view part : split(text, ',')) {
    const std::size_t equals = part.find('=');
    const auto value = equals == std::string_view::npos ? parse_scaled("", kPlaces)
                                                        : parse_scaled(trim(part.substr(equals + 1)), kPlaces);
    if (!value) {
      return fail(ErrorKind::usage, "bad_choice", "--zeros does not understand \"" + std::string(trim(part)) + "\"",
                  "write each limit as CaO=0.01, parted by commas");
    }
    out[std::string(trim(part.substr(0, equals)))] = static_cast<double>(*value) / kUnit;
  }
  return out;
}

/// log10 unless said; variation is one of ratios whatever is said.
Result<chemistry::PreparationSettings> preparation_of(const ChemistryRequest& request) {
  using enum chemistry::Transform;
  SHERD_TRY(const std::size_t transform,
            chosen<6>("transform", request.transform, {"none", "log10", "closed", "clr", "ilr", "alr"},
                      request.how == "variation" ? 3 : 1));
  SHERD_TRY(const std::size_t missing, chosen<3>("missing", request.missing, {"refuse", "samples", "parts"}, 0));
  if (!request.divisor.empty() && static_cast<chemistry::Transform>(transform) != alr)
    return fail(ErrorKind::usage, "bad_choice", "--divisor goes with --transform alr");
  chemistry::PreparationSettings out{.transform = static_cast<chemistry::Transform>(transform),
                                     .missing = static_cast<chemistry::Missing>(missing),
                                     .share_of_limit = request.share.value_or(0.65),
                                     .divisor = request.divisor};
  SHERD_TRY(out.limits, limits_of(request.zeros));
  return out;
}

class Work {
 public:
  Work(const ChemistryRequest& request, const chemistry::Prepared& samples,
       const std::vector<chemistry::Source>& sources, ChemistryResponse& response, Progress& progress)
      : request_(request), samples_(samples), sources_(sources), response_(response), progress_(progress) {}

  Result<void> run() {
    const std::string& how = request_.how;
    if (how == "components") return components();
    if (how == "clusters") return clusters();
    if (how == "membership") return membership();
    if (how == "discriminant") return discriminant();
    if (how == "manova") return manova();
    if (how == "variation") return variation();
    if (how == "outliers") return outliers();
    if (how == "dilution") return dilution();
    return origin();
  }

 private:
  Result<bool> scaled() const {
    SHERD_TRY(const std::size_t at, chosen<2>("distance", request_.distance, {"plain", "scaled"}, 0));
    return at == 1;
  }

  /// The samples by their analytes, or by their first components.
  Result<chemistry::Prepared> reduced() {
    if (!request_.components) return samples_;
    if (*request_.components < 1)
      return fail(ErrorKind::usage, "bad_choice", "--components takes a number of 1 and above");
    SHERD_TRY(const bool standardise, scaled());
    SHERD_TRY(chemistry::Prepared out,
              chemistry::on_components(
                  samples_, {.standardise = standardise, .shown = static_cast<std::size_t>(*request_.components)}));
    response_.preparation = out.about;
    return out;
  }

  Result<void> components() {
    SHERD_TRY(const bool standardise, scaled());
    const std::int64_t shown = request_.components.value_or(10);
    if (shown < 1) return fail(ErrorKind::usage, "bad_choice", "--components takes a number of 1 and above");
    SHERD_TRY(response_.components,
              chemistry::components(samples_, {.standardise = standardise, .shown = static_cast<std::size_t>(shown)}));
    return {};
  }

  Result<void> clusters() {
    SHERD_TRY(const bool standardise, scaled());
    SHERD_TRY(const std::size_t linkage,
              chosen<6>("linkage", request_.linkage,
                        {"single", "complete", "average", "ward", "k-means", "ward-unsquared"}, 2));
    statistics::ClusteringSettings settings{.grouping = static_cast<statistics::Grouping>(linkage),
                                            .cut = request_.cut,
                                            .starts = request_.starts.value_or(200),
                                            .groups = {},
                                            .seed = static_cast<std::uint64_t>(request_.seed.value_or(1))};
    response_.provenance.seed = settings.seed;
    SHERD_TRY(response_.clusters, chemistry::clusters(samples_, standardise, std::move(settings), progress_));
    return {};
  }

  Result<void> membership() {
    SHERD_TRY(const chemistry::Prepared samples, reduced());
    SHERD_TRY(response_.membership,
              chemistry::membership(samples, {.level = request_.level.value_or(0.01)}, progress_));
    return {};
  }

  Result<void> discriminant() {
    SHERD_TRY(const chemistry::Prepared samples, reduced());
    SHERD_TRY(const std::size_t priors, chosen<2>("priors", request_.priors, {"shares", "equal"}, 0));
    SHERD_TRY(response_.discriminant, chemistry::discriminant(samples, static_cast<chemistry::Priors>(priors)));
    return {};
  }

  Result<void> manova() {
    SHERD_TRY(const chemistry::Prepared samples, reduced());
    SHERD_TRY(response_.manova, chemistry::manova(samples));
    return {};
  }

  Result<void> variation() {
    SHERD_TRY(response_.variation, chemistry::variation(samples_));
    return {};
  }

  Result<void> outliers() {
    SHERD_TRY(response_.outliers, chemistry::outliers(samples_, request_.level.value_or(0.05)));
    return {};
  }

  Result<void> dilution() {
    SHERD_TRY(response_.dilution, chemistry::dilution(samples_));
    return {};
  }

  Result<void> origin() {
    SHERD_TRY(const chemistry::Prepared samples, reduced());
    std::vector<std::string> ask;
    for (const std::string& one : request_.ask) {
      for (const std::string_view id : split(one, ',')) ask.emplace_back(trim(id));
    }
    SHERD_TRY(response_.origin,
              chemistry::origin(samples, sources_, {.level = request_.level.value_or(0.01), .ask = ask}, progress_));
    return {};
  }

  const ChemistryRequest& request_;
  const chemistry::Prepared& samples_;
  const std::vector<chemistry::Source>& sources_;
  ChemistryResponse& response_;
  Progress& progress_;
};

void note_settings(const ChemistryRequest& request, ChemistryResponse& response) {
  auto& settings = response.provenance.settings;
  settings["transform"] = response.preparation->transform;
  const auto note = [&](const char* name, const std::string& value) {
    if (!value.empty()) settings[name] = value;
  };
  note("missing", request.missing);
  note("zeros", request.zeros);
  note("divisor", request.divisor);
  note("linkage", request.linkage);
  note("distance", request.distance);
  note("priors", request.priors);
  if (request.cut) settings["cut"] = std::to_string(*request.cut);
  if (request.starts) settings["starts"] = std::to_string(*request.starts);
  if (request.components) settings["components"] = std::to_string(*request.components);
  if (request.share) settings["share"] = format_double(*request.share);
  if (request.level) settings["level"] = format_double(*request.level);
}

}  // namespace

Result<void> run_structure(const ChemistryRequest& request, const chemistry::Composition& composition,
                           const std::vector<chemistry::Source>& sources, ChemistryResponse& response,
                           Progress& progress) {
  SHERD_TRY(const chemistry::PreparationSettings settings, preparation_of(request));
  SHERD_TRY(const chemistry::Prepared samples, chemistry::prepare(composition, settings));
  response.preparation = samples.about;
  SHERD_CHECK(Work(request, samples, sources, response, progress).run());
  note_settings(request, response);
  for (const std::string& note : response.preparation->notes) response.warnings.push_back(note);
  return {};
}

}  // namespace sherd::desk
