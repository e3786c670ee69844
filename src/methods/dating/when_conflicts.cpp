#include "methods/dating/when_conflicts.h"

#include <algorithm>

#include "base/text.h"
#include "methods/dating/conflict.h"
#include "methods/dating/when_evidence.h"

namespace sherd::dating {

namespace {

std::string years_text(const Piece& piece) { return range_text(hull_of(allowed_years(piece, 0))); }

bool contains(const std::vector<std::size_t>& places, std::size_t place) {
  return std::find(places.begin(), places.end(), place) != places.end();
}

WhenDrop drop_of(const std::vector<std::size_t>& places, const std::vector<Piece>& pieces,
                 const WhenQuestion& question) {
  WhenDrop drop;
  std::vector<const Piece*> rest;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (contains(places, i)) {
      drop.evidence.push_back(words_of(pieces[i], question.observations));
    } else {
      rest.push_back(&pieces[i]);
    }
  }
  const YearRange years = hull_of(allowed_years(rest, 0));
  drop.earliest = years.earliest;
  drop.latest = years.latest;
  return drop;
}

void add_sources(const Piece& piece, std::vector<std::string>& out) {
  for (const DatedRow* row : piece.rows) {
    const std::string& source = row->evidence.reference;
    if (!source.empty() && std::find(out.begin(), out.end(), source) == out.end()) out.push_back(source);
  }
}

/// No year in common; `shoulder` is that by which it was tried.
WhenConflict no_common_year(const std::vector<Piece>& pieces, const WhenQuestion& question, std::int64_t shoulder) {
  std::vector<YearSet> allowed;
  for (const Piece& piece : pieces) allowed.push_back(allowed_years(piece, shoulder));
  WhenConflict out;
  for (const std::vector<std::size_t>& places : smallest_drops(allowed))
    out.drop.push_back(drop_of(places, pieces, question));
  std::vector<std::string> said;
  for (const Piece& piece : pieces) {
    if (allowed_years(piece, 0) == every_year()) continue;
    out.evidence.push_back(words_of(piece, question.observations));
    said.push_back(out.evidence.back() + " " + years_text(piece));
    add_sources(piece, out.sources);
  }
  out.message = join(said, "; ");
  return out;
}

void add_over_years(const std::vector<Piece>& pieces, const WhenQuestion& question, const YearDensity& density,
                    std::vector<WhenConflict>& out) {
  const std::vector<const Piece*> all = pointers_to(pieces);
  if (allowed_years(all, question.shoulder).empty()) {
    out.push_back(no_common_year(pieces, question, question.shoulder));
    out.back().code = "no_year_fits";
    out.back().message = "no year fits all of these: " + out.back().message;
  } else if (density.empty() && question.window) {
    out.push_back({.code = "outside_window",
                   .message = "the evidence allows no year between " + range_text(*question.window),
                   .evidence = {},
                   .sources = {},
                   .drop = {}});
  } else if (allowed_years(all, 0).empty()) {
    out.push_back(no_common_year(pieces, question, 0));
    out.back().code = "spans_miss";
    out.back().message = "these miss each other by a few years: " + out.back().message;
  }
}

bool years_differ(const DatedRow* a, const DatedRow* b) {
  return a->evidence.earliest != b->evidence.earliest || a->evidence.latest != b->evidence.latest;
}

bool regions_apart(const Piece& piece) {
  for (std::size_t i = 1; i < piece.rows.size(); ++i) {
    if (piece.rows[i]->evidence.region == piece.rows.front()->evidence.region) continue;
    return true;
  }
  return false;
}

void add_over_sources(const Piece& piece, const WhenQuestion& question, std::vector<WhenConflict>& out) {
  const bool differ = std::any_of(piece.rows.begin(), piece.rows.end(),
                                  [&](const DatedRow* row) { return years_differ(row, piece.rows.front()); });
  if (!differ) return;
  WhenConflict conflict;
  const bool regions = regions_apart(piece);
  conflict.code = regions ? "regions_differ" : "sources_differ";
  conflict.evidence.push_back(words_of(piece, question.observations));
  add_sources(piece, conflict.sources);
  std::vector<std::string> said;
  for (const DatedRow* row : piece.rows) {
    const Evidence& evidence = row->evidence;
    said.push_back(range_text({evidence.earliest, evidence.latest}) +
                   (regions && !evidence.region.empty() ? ", " + evidence.region : "") + " (" + evidence.reference +
                   ")");
  }
  std::vector<YearRange> ranges;
  for (const DatedRow* row : piece.rows) ranges.push_back({row->evidence.earliest, row->evidence.latest});
  std::vector<std::string> used;
  for (const YearRange& range : united_years(std::move(ranges))) used.push_back(range_text(range));
  conflict.message =
      (regions ? "it depends on the region, which was not given: " : "equally specific rows differ on ") +
      (regions ? std::string{} : conflict.evidence.front() + ": ") + join(said, "; ") +
      ". Used: " + join(used, " and ");
  out.push_back(std::move(conflict));
}

void add_unusual(const std::vector<Piece>& pieces, const WhenQuestion& question, Window window,
                 std::vector<WhenConflict>& out) {
  std::vector<const Piece*> hard;
  for (const Piece& piece : pieces) {
    if (piece.nature != Nature::usual) hard.push_back(&piece);
  }
  const YearSet years = common_years(allowed_years(hard, question.shoulder), {YearRange{window.first, window.last}});
  for (const Piece& piece : pieces) {
    if (piece.nature != Nature::usual || years.empty()) continue;
    std::vector<YearRange> usual;
    for (const DatedRow* row : piece.rows) usual.push_back(reach_of(row->evidence, question.shoulder));
    const std::string words = words_of(piece, question.observations);
    if (!common_years(united_years(usual), years).empty()) continue;
    std::vector<YearRange> said;
    for (const DatedRow* row : piece.rows) said.push_back({row->evidence.earliest, row->evidence.latest});
    WhenConflict conflict;
    conflict.code = "unusual";
    conflict.evidence = {words};
    add_sources(piece, conflict.sources);
    conflict.message = words + " is usual in " + range_text(hull_of(united_years(said))) +
                       ", which the other evidence rules out; it is not used";
    out.push_back(std::move(conflict));
  }
}

}  // namespace

std::vector<WhenConflict> conflicts_of(const std::vector<Piece>& pieces, const WhenQuestion& question, Window window,
                                       const YearDensity& density) {
  std::vector<WhenConflict> out;
  add_over_years(pieces, question, density, out);
  for (const Piece& piece : pieces) {
    add_over_sources(piece, question, out);
    for (const Piece::Reading& reading : piece.readings) {
      for (const Piece& part : reading.pieces) add_over_sources(part, question, out);
    }
  }
  add_unusual(pieces, question, window, out);
  return out;
}

}  // namespace sherd::dating
