#include "desk/vessels/find_capacity.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/vessels/number_options.h"
#include "desk/vessels/piece_rows.h"
#include "desk/vessels/section_file.h"
#include "methods/vessel/capacity.h"
#include "methods/vessel/five_measures.h"
#include "methods/vessel/section.h"
#include "model/rows.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

// Common practice, no source: how well a stance is found on the rim plane, and by eye.
constexpr double kMeasuredStanceDeg = 1;
constexpr double kEstimatedStanceDeg = 3;
constexpr double kLimitsInSd = 2 * 1.96;  // a diameter's two limits lie so many standard deviations apart
constexpr double kMostTimes = 4;

/// The store's measures beside the shipped ones, in the place of those of the same name and region.
Result<std::vector<KnownMeasure>> measures_of(const Session* session) {
  std::vector<KnownMeasure> measures = reference::measures();
  if (session == nullptr) return measures;
  SHERD_TRY(const Table table, session->store->read({session->site.code, Kind::measures, {}, {}}));
  for (const Measure& row : rows_from<Measure>(table)) {
    if (!row.holds) continue;
    KnownMeasure own{row.measure, row.region,    static_cast<double>(row.holds->ml), row.earliest,
                     row.latest,  row.reference, row.known.value_or(Known::read),    row.notes};
    const auto same = std::ranges::find_if(
        measures, [&](const KnownMeasure& one) { return one.measure == own.measure && one.region == own.region; });
    if (same == measures.end()) {
      measures.push_back(std::move(own));
    } else {
      *same = std::move(own);
    }
  }
  return measures;
}

bool in_use(const KnownMeasure& measure, const std::optional<Year>& year) {
  return !year || ((!measure.earliest || *measure.earliest <= *year) && (!measure.latest || *measure.latest >= *year));
}

void add_measures(CapacityResponse& response, const std::vector<KnownMeasure>& measures,
                  const std::optional<Year>& year) {
  for (const KnownMeasure& measure : measures) {
    if (!in_use(measure, year)) continue;
    MeasureEntry entry{.measure = measure.measure, .region = measure.region, .holds_ml = measure.holds_ml};
    entry.times = response.capacity_ml / measure.holds_ml;
    const double whole = std::max(1.0, std::round(entry.times));
    entry.near = whole <= kMostTimes && response.low95_ml <= whole * measure.holds_ml &&
                 whole * measure.holds_ml <= response.high95_ml;
    if (measure.earliest) entry.earliest = historical(*measure.earliest);
    if (measure.latest) entry.latest = historical(*measure.latest);
    entry.reference = measure.reference;
    entry.known = word(measure.known);
    entry.notes = measure.notes;
    response.measures.push_back(std::move(entry));
  }
}

vessel::CapacitySettings settings_of_piece(const Piece& piece) {
  vessel::CapacitySettings settings;
  if (piece.rim_least && piece.rim_most)
    settings.diameter_error_mm = (piece.rim_most->mm() - piece.rim_least->mm()) / kLimitsInSd;
  if (piece.stance == Stance::measured) settings.stance_error_deg = kMeasuredStanceDeg;
  if (piece.stance == Stance::estimated || piece.stance == Stance::unknown)
    settings.stance_error_deg = kEstimatedStanceDeg;
  return settings;
}

/// What a capacity is of.
struct Vessel {
  std::optional<Session> session;
  std::string piece;
  std::vector<Section> sections;
  vessel::CapacitySettings settings;
  std::vector<std::string> warnings;
};

Result<void> from_store(const CapacityRequest& request, Environment& environment, Vessel& vessel, Reply& reply) {
  SHERD_TRY(vessel.session, open_session(environment, request.store, request.site));
  SHERD_TRY(PieceRecord record, read_piece(*vessel.session, request.vessel));
  vessel.piece = record.piece.piece;
  vessel.settings = settings_of_piece(record.piece);
  vessel.sections = std::move(record.sections);
  // What stands on its own base stands as it stood.
  if (std::ranges::any_of(vessel.sections,
                          [](const Section& section) { return vessel::measure_section(section).has_base; }))
    vessel.settings.stance_error_deg = 0;
  std::erase_if(vessel.sections, [](const Section& section) { return section.inner.empty(); });
  SHERD_TRY(reply.provenance, vessel.session->provenance(environment));
  return {};
}

Result<void> from_file(const CapacityRequest& request, Environment& environment, Vessel& vessel, Reply& reply) {
  SHERD_TRY(SectionFile file, read_sections(environment, request.section, {.blank_side = Side::inner}));
  if (file.vessels > 1) {
    Error error{.code = "several_sections",
                .message = "the file has sections of " + std::to_string(file.vessels) + " vessels, where one is wanted",
                .hint = "give the points of one vessel; several sections of it are told apart by a column section"};
    error.where.file = request.section;
    return fail(std::move(error));
  }
  vessel.sections = std::move(file.sections);
  vessel.warnings = std::move(file.warnings);
  reply.provenance.version = environment.version;
  reply.provenance.inputs.push_back("sha256:" + file.sha256);
  if (!request.store.empty()) {
    SHERD_TRY(vessel.session, open_session(environment, request.store, request.site));
  }
  return {};
}

Result<vessel::FiveMeasures> five_measures(const std::string& text) {
  vessel::FiveMeasures measures;
  const std::map<std::string_view, double*> places{
      {"rim", &measures.rim_mm},           {"neck", &measures.neck_mm}, {"height", &measures.height_mm},
      {"shoulder", &measures.shoulder_mm}, {"wall", &measures.wall_mm}, {"neck_height", &measures.neck_height_mm}};
  std::set<std::string_view> given;
  for (const std::string_view part : split(text, ',')) {
    const auto sides = split(part, '=');
    const auto place = places.find(trim(sides.front()));
    const auto value = sides.size() == 2 ? read_decimal(sides[1]) : Result<double>(std::unexpected(Error{}));
    if (place == places.end() || !value)
      return fail(ErrorKind::usage, "bad_value", "\"" + std::string(trim(part)) + "\" is none of the measures",
                  "such as rim=111,neck=100,shoulder=103,height=55,neck_height=25");
    if (!given.insert(place->first).second)
      return fail(ErrorKind::usage, "bad_value", std::string(place->first) + " is given twice",
                  "give each measure once");
    *place->second = *value;
  }
  const bool all = given.size() - given.count("wall") == 5;
  if (!all)
    return fail(ErrorKind::usage, "bad_value", "five measures are needed: rim, neck, shoulder, height, neck_height");
  return measures;
}

/// An inside that is open below is filled from its lowest point, and more may have been beneath it.
void note_open_floor(const std::vector<Section>& sections, std::vector<std::string>& warnings) {
  for (const Section& section : sections) {
    if (section.inner.empty() || section.inner.front().r_mm <= 0) continue;
    warnings.push_back("the inside" + (section.name.empty() ? std::string() : " of " + section.name) +
                       " does not reach the axis below: it is filled from a flat floor of " +
                       format_fixed(2 * section.inner.front().r_mm, 0) +
                       " mm across; where that is a break, the vessel held more");
  }
}

Result<std::optional<Year>> year_of(const std::string& text) {
  SHERD_TRY(const auto number, number_option("year", text));
  if (!number) return std::nullopt;
  return from_historical(static_cast<std::int64_t>(std::llround(*number)));
}

}  // namespace

namespace {

Result<CapacityResponse> by_measures(const CapacityRequest& request, Environment& environment) {
  if (!request.vessel.empty() || !request.section.empty() || !request.fill.empty())
    return fail(ErrorKind::usage, "bad_request", "five measures stand alone: no section, vessel or fill line");
  CapacityResponse response;
  SHERD_TRY(const auto measures, five_measures(request.measures));
  SHERD_TRY(static_cast<vessel::Capacity&>(response), vessel::capacity_by_measures(measures));
  SHERD_TRY(const auto year, year_of(request.year));
  response.provenance.version = environment.version;
  response.provenance.settings["measures"] = request.measures;
  if (measures.wall_mm == 0)
    response.warnings.emplace_back("no wall was given: this is the volume of the outside, which is more than it holds");
  SHERD_TRY(const auto known, measures_of(nullptr));
  add_measures(response, known, year);
  return response;
}

}  // namespace

Result<CapacityResponse> find_capacity(const CapacityRequest& request, Environment& environment, Progress&) {
  if (!request.measures.empty()) return by_measures(request, environment);
  const bool of_record = !request.vessel.empty();
  if (of_record == !request.section.empty() || (of_record && request.store.empty())) {
    return fail(ErrorKind::usage, "bad_request", "say one vessel: a file with its section, or --vessel with --in",
                "such as: sherdwright capacity jar.csv");
  }
  CapacityResponse response;
  Vessel vessel;
  SHERD_CHECK(of_record ? from_store(request, environment, vessel, response)
                        : from_file(request, environment, vessel, response));
  vessel::CapacitySettings& settings = vessel.settings;
  SHERD_TRY(settings.fill_mm, number_option("fill", request.fill));
  SHERD_TRY(const auto section_error, number_option("section-error", request.section_error));
  SHERD_TRY(const auto diameter_error, number_option("diameter-error", request.diameter_error));
  SHERD_TRY(const auto stance_error, number_option("stance-error", request.stance_error));
  SHERD_TRY(const auto year, year_of(request.year));
  settings.section_error_mm = section_error.value_or(settings.section_error_mm);
  settings.diameter_error_mm = diameter_error.value_or(settings.diameter_error_mm);
  settings.stance_error_deg = stance_error.value_or(settings.stance_error_deg);
  auto capacity = vessel::capacity_of(vessel.sections, settings);
  if (!capacity) {
    if (of_record) capacity.error().where.id = request.vessel;
    if (!of_record) capacity.error().where.file = request.section;
    return fail(capacity.error());
  }
  static_cast<vessel::Capacity&>(response) = std::move(*capacity);
  response.piece = vessel.piece;
  response.warnings = std::move(vessel.warnings);
  note_open_floor(vessel.sections, response.warnings);
  if (response.conjectured_share > 0) {
    response.warnings.push_back(format_fixed(100 * response.conjectured_share, 0) +
                                " % of the inside is conjectured; the interval does not know how wrong that may be");
  }
  auto& said = response.provenance.settings;
  said["section_error_mm"] = format_double(settings.section_error_mm);
  said["diameter_error_mm"] = format_double(settings.diameter_error_mm);
  said["stance_error_deg"] = format_double(settings.stance_error_deg);
  if (settings.fill_mm) said["fill_mm"] = format_double(*settings.fill_mm);
  SHERD_TRY(const auto measures, measures_of(vessel.session ? &*vessel.session : nullptr));
  add_measures(response, measures, year);
  return response;
}

Result<CapacityResponse> find_piece_capacity(const PieceCapacityRequest& request, Environment& environment,
                                             Progress& progress) {
  CapacityRequest full;
  full.store = request.store;
  full.vessel = request.vessel;
  full.fill = request.fill;
  full.year = request.year;
  full.site = request.site;
  return find_capacity(full, environment, progress);
}

}  // namespace sherd::desk
