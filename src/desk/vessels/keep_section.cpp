#include "desk/vessels/keep_section.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "desk/vessels/number_options.h"
#include "desk/vessels/piece_rows.h"
#include "desk/vessels/section_file.h"
#include "methods/vessel/section.h"

namespace sherd::desk {

namespace {

Result<double> reduction_of(const std::string& scale) {
  if (trim(scale).empty()) return 1.0;
  const auto sides = split(scale, ':');
  const auto from = sides.size() == 2 ? read_decimal(sides[0]) : Result<double>(std::unexpected(Error{}));
  const auto to = sides.size() == 2 ? read_decimal(sides[1]) : Result<double>(std::unexpected(Error{}));
  if (from && to && *from > 0 && *to > 0) return *to / *from;
  return fail(ErrorKind::usage, "bad_scale", "\"" + shortened(scale, 20) + "\" is no scale", "such as 1:4");
}

Result<std::map<std::string, std::string>> values_of(const std::vector<std::string>& set) {
  std::map<std::string, std::string> values;
  for (const std::string& one : set) {
    const std::size_t equals = one.find('=');
    if (equals == std::string::npos)
      return fail(ErrorKind::usage, "bad_value", "\"" + shortened(one, 40) + "\" is not COLUMN=VALUE",
                  "such as form=jar-2");
    values[std::string(trim(one.substr(0, equals)))] = std::string(trim(one.substr(equals + 1)));
  }
  return values;
}

Result<void> set_up_all(std::vector<Section>& sections, std::optional<double> rim_diameter,
                        std::optional<double> tilt) {
  if (!rim_diameter && !tilt) return {};
  for (Section& section : sections) {
    const auto radius = rim_diameter ? std::optional(*rim_diameter / 2) : std::nullopt;
    SHERD_TRY(section, vessel::set_up(section, tilt.value_or(0), radius));
  }
  return {};
}

/// A piece as its values would make it, for the checks alone.
Piece piece_for_checks(const std::map<std::string, std::string>& values) {
  Piece piece;
  const auto text = [&](std::string_view name) {
    const auto found = values.find(std::string(name));
    return found == values.end() ? std::string() : found->second;
  };
  const auto length = [&](std::string_view name) -> std::optional<Length> {
    const auto number = read_decimal(text(name));
    if (!number) return std::nullopt;
    return Length{std::llround(*number * 100)};
  };
  piece.part = text("part");
  piece.scale = text("scale");
  piece.source = from_word<SectionSource>(text("source"));
  piece.rim_diameter = length("rim_diameter_mm");
  piece.rim_least = length("rim_least_mm");
  piece.rim_most = length("rim_most_mm");
  return piece;
}

void put_views(const SectionToKeep& keep, SectionResponse& response) {
  const Piece piece = piece_for_checks(keep.values);
  response.piece = keep.piece;
  for (const Section& section : keep.sections) response.sections.push_back(view_of(section, piece, true));
}

/// Each section as a piece of its own.
std::vector<SectionToKeep> parted(const SectionToKeep& keep) {
  std::vector<SectionToKeep> pieces;
  for (const Section& section : keep.sections) {
    SectionToKeep one = keep;
    one.piece += "-" + std::to_string(pieces.size() + 1);
    one.sections = {section};
    one.sections.front().name.clear();
    pieces.push_back(std::move(one));
  }
  return pieces;
}

Result<void> keep_it(const SectionToKeep& keep, bool each, const std::string& store, const std::string& site,
                     Environment& environment, SectionResponse& response) {
  for (const SectionView& view : response.sections) {
    if (const auto good = sound(view); !good) {
      response.errors.push_back(good.error());
      return {};
    }
  }
  SHERD_TRY(Session session, open_session(environment, store, site));
  auto seq = write_sections(session, each ? parted(keep) : std::vector{keep}, {keep.change, keep.who, keep.label},
                            environment);
  if (!seq && seq.error().code == "edit_refused") {
    response.errors.push_back(seq.error());
    return {};
  }
  if (!seq) return fail(seq.error());
  response.kept = true;
  response.seq = *seq;
  SHERD_TRY(const Provenance provenance, session.provenance(environment));
  response.provenance.inputs.insert(response.provenance.inputs.end(), provenance.inputs.begin(),
                                    provenance.inputs.end());
  return {};
}

Result<std::vector<Section>> sections_given(const std::vector<PointGiven>& points) {
  std::vector<Section> sections;
  for (const PointGiven& point : points) {
    auto found = std::ranges::find(sections, point.section, &Section::name);
    if (found == sections.end()) {
      found = sections.insert(sections.end(), Section{});
      found->name = point.section;
    }
    const auto side = point.side.empty() ? std::optional(Side::outer) : from_word<Side>(point.side);
    if (!side)
      return fail(ErrorKind::usage, "unknown_word", "\"" + shortened(point.side, 40) + "\" is no side of a section",
                  "outer, inner, handle or handle_section");
    std::vector<OutlinePoint>* const outlines[] = {&found->outer, &found->inner, &found->handle,
                                                   &found->handle_section};
    outlines[static_cast<std::size_t>(*side)]->push_back({point.r_mm, point.z_mm, point.conjectured});
  }
  for (Section& section : sections) {
    SHERD_TRY(section, vessel::tidy_section(std::move(section)));
  }
  return sections;
}

}  // namespace

Result<SectionResponse> keep_section(const SectionRequest& request, Environment& environment, Progress&) {
  if (request.store.empty() != request.piece.empty())
    return fail(ErrorKind::usage, "bad_request", "a section is kept in a store under a piece",
                "say both --in and --piece, or neither to look at it alone");
  SectionFileOptions options;
  SHERD_TRY(options.mm_per_unit, number_option("mm-per-unit", request.mm_per_unit));
  SHERD_TRY(options.rim_diameter_mm, number_option("rim-diameter", request.rim_diameter));
  SHERD_TRY(options.reduction, reduction_of(request.scale));
  SHERD_TRY(const auto tilt, number_option("tilt", request.tilt));
  SHERD_TRY(SectionFile file, read_sections(environment, request.file, options));
  if (!request.store.empty() && !request.each && file.vessels > 1) {
    Error error{.code = "several_sections",
                .message = "the file has sections of " + std::to_string(file.vessels) +
                           " vessels, and one piece is no place for them",
                .hint =
                    "say --each to keep each as a piece of its own, or bring them in by their names: sherdwright "
                    "import --as sections"};
    error.where.file = request.file;
    return fail(std::move(error));
  }
  SectionToKeep keep;
  keep.piece = request.piece;
  keep.label = "section of " + request.piece + " " + request.file;
  SHERD_TRY(keep.values, values_of(request.set));
  keep.values.try_emplace("source", word(file.source));
  keep.values.try_emplace("source_file", request.file);
  if (!file.scale.empty()) keep.values.try_emplace("scale", file.scale);
  keep.sections = std::move(file.sections);
  if (!request.name.empty() && keep.sections.size() == 1) keep.sections.front().name = request.name;
  // One section that its file names after the piece or vessel is the only one.
  if (request.name.empty() && keep.sections.size() == 1) keep.sections.front().name.clear();
  SHERD_CHECK(set_up_all(keep.sections, options.rim_diameter_mm, tilt));
  SectionResponse response;
  response.warnings = std::move(file.warnings);
  response.provenance.version = environment.version;
  response.provenance.inputs.push_back("sha256:" + file.sha256);
  put_views(keep, response);
  if (!request.store.empty())
    SHERD_CHECK(keep_it(keep, request.each, request.store, request.site, environment, response));
  return response;
}

Result<SectionResponse> keep_section_of_page(const KeepSectionRequest& request, Environment& environment, Progress&) {
  SectionToKeep keep;
  keep.piece = request.piece;
  keep.change = request.change;
  keep.who = request.who;
  keep.label = request.label.empty() ? "section of " + request.piece : request.label;
  keep.values = request.values;
  SHERD_TRY(keep.sections, sections_given(request.points));
  if (keep.sections.empty()) return fail("no_side", "there are no points", "give the points of at least one side");
  SHERD_CHECK(set_up_all(keep.sections, request.rim_diameter, request.tilt));
  SectionResponse response;
  response.provenance.version = environment.version;
  put_views(keep, response);
  if (request.check_only) return response;
  if (request.piece.empty())
    return fail(ErrorKind::usage, "bad_request", "it is not said which piece the section is of", "give it a name");
  SHERD_CHECK(keep_it(keep, false, request.store, request.site, environment, response));
  return response;
}

}  // namespace sherd::desk
