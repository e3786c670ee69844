#include "desk/vessels/match_section.h"

#include <algorithm>

#include "base/numbers.h"
#include "desk/frame/session.h"
#include "desk/vessels/number_options.h"
#include "desk/vessels/piece_rows.h"
#include "desk/vessels/section_file.h"
#include "figure/match_places.h"
#include "methods/vessel/match.h"

namespace sherd::desk {

namespace {

/// A known section and whose it is.
struct KnownSection {
  const PieceRecord* record = nullptr;
  Section section;
};

std::vector<KnownSection> known_sections(const std::vector<PieceRecord>& records, const std::string& without) {
  std::vector<KnownSection> known;
  for (const PieceRecord& record : records) {
    if (!without.empty() && record.piece.piece == without) continue;
    for (const Section& section : record.sections) {
      if (section.outer.size() > 1) known.push_back({&record, section});
    }
  }
  return known;
}

std::vector<OutlineEntry> scaled(const std::vector<OutlinePoint>& outline, double size) {
  std::vector<OutlineEntry> entries = entries_of(outline);
  for (OutlineEntry& entry : entries) {
    entry.r_mm *= size;
    entry.z_mm *= size;
  }
  return entries;
}

MatchCandidate candidate_of(const vessel::MatchPlace& place, const KnownSection& known, const Section& fragment,
                            bool outlines) {
  MatchCandidate candidate;
  static_cast<vessel::MatchPlace&>(candidate) = place;
  candidate.form = known.record->form;
  candidate.piece = known.record->piece.piece;
  candidate.vessel = known.record->piece.vessel;
  candidate.section = known.section.name;
  if (!outlines) return candidate;
  const Section laid = vessel::laid_over(fragment, place);
  candidate.fragment_outer = entries_of(laid.outer);
  candidate.fragment_inner = entries_of(laid.inner);
  candidate.known_outer = scaled(known.section.outer, place.size_percent / 100);
  candidate.known_inner = scaled(known.section.inner, place.size_percent / 100);
  return candidate;
}

/// Over all places found, not only those told.
std::vector<FormScore> form_scores(const std::vector<vessel::MatchPlace>& places,
                                   const std::vector<KnownSection>& known) {
  std::vector<FormScore> scores;
  for (const vessel::MatchPlace& place : places) {
    const std::string& form = known[place.reference].record->form;
    auto found = std::ranges::find(scores, form, &FormScore::form);
    if (found == scores.end()) found = scores.insert(scores.end(), {form, 0});
    found->score += place.score;
  }
  std::ranges::stable_sort(scores, std::greater{}, &FormScore::score);
  return scores;
}

Result<Section> fragment_of(const MatchRequest& request, const Session& session, Environment& environment, Reply& reply,
                            std::string& own) {
  if (request.section.empty() == request.vessel.empty())
    return fail(ErrorKind::usage, "bad_request", "say one fragment: a file with its section, or --vessel",
                "such as: sherdwright match rim.csv --in tanyard.sherds");
  if (!request.section.empty()) {
    SHERD_TRY(SectionFile file, read_sections(environment, request.section));
    reply.provenance.inputs.push_back("sha256:" + file.sha256);
    if (file.sections.size() != 1) return read_section_file(environment, request.section);
    return std::move(file.sections.front());
  }
  SHERD_TRY(const PieceRecord record, read_piece(session, request.vessel));
  own = record.piece.piece;
  if (record.sections.empty())
    return fail("no_section", "piece " + own + " has no section", "read one in with: sherdwright section");
  return record.sections.front();
}

constexpr std::size_t kDrawn = 4;

/// The best places, one drawn over the other.
std::string picture_of(const std::vector<vessel::MatchPlace>& places, const std::vector<KnownSection>& known,
                       const Section& fragment) {
  figure::MatchPlacesData data;
  data.about.title = "Where the fragment lies on known sections";
  for (std::size_t i = 0; i < std::min(kDrawn, places.size()); ++i) {
    const vessel::MatchPlace& place = places[i];
    const KnownSection& one = known[place.reference];
    const Section laid = vessel::laid_over(fragment, place);
    figure::MatchPanel panel;
    panel.name = one.record->form.empty() ? one.record->piece.piece : one.record->form + ", " + one.record->piece.piece;
    panel.words = "score " + format_fixed(place.score, 2) + ", gap " + format_fixed(place.distance_mm, 1) + " mm";
    panel.data_set = one.record->piece.piece;
    panel.known_outer = one.section.outer;
    panel.known_inner = one.section.inner;
    for (std::vector<OutlinePoint>* side : {&panel.known_outer, &panel.known_inner}) {
      for (OutlinePoint& point : *side) {
        point.r_mm *= place.size_percent / 100;
        point.z_mm *= place.size_percent / 100;
      }
    }
    panel.fragment_outer = laid.outer;
    panel.fragment_inner = laid.inner;
    data.panels.push_back(std::move(panel));
  }
  return figure::match_places(data, {.width_mm = figure::kDoubleColumnMm});
}

}  // namespace

Result<MatchResponse> match_section(const MatchRequest& request, Environment& environment, Progress& progress) {
  vessel::MatchSettings settings;
  SHERD_TRY(const auto tilt, number_option("tilt", request.tilt));
  SHERD_TRY(const auto diameter, number_option("diameter", request.diameter));
  SHERD_TRY(const auto size, number_option("size", request.size));
  SHERD_TRY(const auto gap, number_option("gap", request.gap));
  settings.gap_mm = gap.value_or(settings.gap_mm);
  settings.tilt_deg = tilt.value_or(settings.tilt_deg);
  settings.diameter_percent = diameter.value_or(settings.diameter_percent);
  settings.size_percent = size.value_or(settings.size_percent);
  const std::int64_t most = request.most.value_or(static_cast<std::int64_t>(settings.most));
  if (most < 1) return fail(ErrorKind::usage, "bad_number", "most is at least 1");
  settings.most = settings.refine;
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  MatchResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  std::string own;
  SHERD_TRY(const Section fragment, fragment_of(request, session, environment, response, own));
  SHERD_TRY(const auto records, read_pieces(session));
  const std::vector<KnownSection> known = known_sections(records, own);
  std::vector<Section> sections;
  for (const KnownSection& one : known) sections.push_back(one.section);
  response.compared = static_cast<std::int64_t>(sections.size());
  SHERD_TRY(const auto places, vessel::MatchIndex(sections).match(fragment, settings, progress));
  for (const vessel::MatchPlace& place : places) {
    if (response.candidates.size() == static_cast<std::size_t>(most)) break;
    response.candidates.push_back(candidate_of(place, known[place.reference], fragment, request.outlines));
  }
  response.forms = form_scores(places, known);
  if (!request.svg.empty()) {
    SHERD_CHECK(environment.files->write(request.svg, picture_of(places, known, fragment)));
    response.file = request.svg;
  } else if (request.outlines) {
    response.picture = picture_of(places, known, fragment);
  }
  auto& said = response.provenance.settings;
  said["tilt_deg"] = format_double(settings.tilt_deg);
  said["diameter_percent"] = format_double(settings.diameter_percent);
  said["size_percent"] = format_double(settings.size_percent);
  said["gap_mm"] = format_double(settings.gap_mm);
  if (vessel::fits_nothing(places.front().distance_mm, settings)) {
    response.warnings.push_back("nothing in the store fits well: the best gap is " +
                                format_fixed(places.front().distance_mm, 1) +
                                " mm; the scores only weigh what there is against each other");
  }
  return response;
}

Result<MatchResponse> match_piece(const PieceMatchRequest& request, Environment& environment, Progress& progress) {
  MatchRequest full;
  full.store = request.store;
  full.vessel = request.vessel;
  full.tilt = request.tilt;
  full.diameter = request.diameter;
  full.size = request.size;
  full.gap = request.gap;
  full.most = request.most;
  full.site = request.site;
  full.outlines = true;
  return match_section(full, environment, progress);
}

}  // namespace sherd::desk
