#include "desk/vessels/piece_rows.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/text.h"
#include "desk/vessels/section_file.h"
#include "methods/vessel/section.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

/// As the record keeps a place: hundredths of a millimetre.
Coordinate kept(double mm) { return {std::llround(mm * 100)}; }

template <class T>
Result<std::vector<T>> load(const Session& session, Kind kind, std::vector<std::string> columns = {},
                            std::vector<Having> having = {}) {
  SHERD_TRY(const Table table,
            session.store->read({session.site.code, kind, std::move(columns), {}, std::move(having)}));
  return rows_from<T>(table);
}

/// What a piece takes from the sherds: the lines by record, and one line of each vessel.
struct Lines {
  std::vector<RecordLine> all;
  std::map<std::string, std::size_t, std::less<>> by_record, by_vessel;

  explicit Lines(std::vector<RecordLine> lines) : all(std::move(lines)) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      by_record.emplace(all[i].record, i);
      if (all[i].vessel.empty()) continue;
      const auto [found, added] = by_vessel.emplace(all[i].vessel, i);
      if (!added && !tells(all[found->second]) && tells(all[i])) found->second = i;
    }
  }
  static bool tells(const RecordLine& line) { return !line.form.empty() || line.rim_percent.has_value(); }

  std::optional<RecordLine> of(const Piece& piece) const {
    const auto& index = piece.record.empty() ? by_vessel : by_record;
    const auto found = index.find(piece.record.empty() ? piece.vessel : piece.record);
    if (found == index.end() || found->first.empty()) return std::nullopt;
    return all[found->second];
  }
};

Result<PieceRecord> assembled(Piece piece, const std::vector<SectionPoint>& points, std::vector<Band> bands,
                              const Lines& lines) {
  PieceRecord record{.piece = std::move(piece), .sections = {}, .bands = std::move(bands), .line = {}, .form = {}};
  auto sections = sections_of(points);
  if (!sections) {
    sections.error().where.id = record.piece.piece;
    return fail(sections.error());
  }
  record.sections = std::move(*sections);
  record.line = lines.of(record.piece);
  record.form = record.piece.form.empty() && record.line ? record.line->form : record.piece.form;
  return record;
}

/// Tables of which a site's pieces are made.
struct Tables {
  std::vector<Piece> pieces;
  std::vector<SectionPoint> points;
  std::vector<Band> bands;
};

Result<std::vector<PieceRecord>> all_pieces(Tables tables, const Lines& lines) {
  std::map<std::string, std::vector<SectionPoint>, std::less<>> of_piece, of_vessel;
  std::vector<std::string> vessels;
  for (SectionPoint& point : tables.points) {
    auto& into = point.piece.empty() ? of_vessel : of_piece;
    const std::string& key = point.piece.empty() ? point.vessel : point.piece;
    if (point.piece.empty() && !of_vessel.contains(key)) vessels.push_back(key);
    into[key].push_back(std::move(point));
  }
  std::map<std::string, std::vector<Band>, std::less<>> bands;
  for (Band& band : tables.bands) bands[band.piece].push_back(std::move(band));
  std::vector<PieceRecord> records;
  for (Piece& piece : tables.pieces) {
    std::vector<SectionPoint>* points = &of_piece[piece.piece];
    // Points that name the vessel alone belong to its piece where that has none of its own.
    const auto loose = of_vessel.find(piece.vessel);
    if (points->empty() && !piece.vessel.empty() && loose != of_vessel.end()) {
      points = &loose->second;
      std::erase(vessels, piece.vessel);
    }
    std::vector<Band> own = std::move(bands[piece.piece]);
    SHERD_TRY(PieceRecord record, assembled(std::move(piece), *points, std::move(own), lines));
    records.push_back(std::move(record));
  }
  for (const std::string& vessel : vessels) {
    Piece piece;
    piece.piece = piece.vessel = vessel;
    SHERD_TRY(PieceRecord record, assembled(std::move(piece), of_vessel[vessel], {}, lines));
    records.push_back(std::move(record));
  }
  return records;
}

std::vector<std::string> line_columns() {
  return {"record",          "context",     "fabric", "form",      "part",       "vessel",
          "rim_diameter_mm", "rim_percent", "rims",   "technique", "decoration", "surface",
          "use_traces",      "mark",        "sample", "box",       "bag"};
}

}  // namespace

const Section* PieceRecord::section(std::string_view name) const {
  const auto found = std::ranges::find(sections, name, &Section::name);
  return found == sections.end() ? nullptr : &*found;
}

std::vector<SectionPoint> points_of(const std::string& piece, const std::vector<Section>& sections) {
  std::vector<SectionPoint> rows;
  for (const Section& section : sections) {
    for (const auto& [side, points] :
         {std::pair(Side::outer, &section.outer), std::pair(Side::inner, &section.inner),
          std::pair(Side::handle, &section.handle), std::pair(Side::handle_section, &section.handle_section)}) {
      std::int64_t number = 0;
      for (const OutlinePoint& point : *points) {
        SectionPoint row;
        row.piece = piece;
        row.section = section.name;
        row.side = side;
        row.point = ++number;
        row.r = kept(point.r_mm);
        row.z = kept(point.z_mm);
        if (point.conjectured) row.drawn = Drawn::conjectured;
        rows.push_back(std::move(row));
      }
    }
  }
  return rows;
}

Result<std::vector<Section>> sections_of(const std::vector<SectionPoint>& points) {
  std::vector<std::string> order;
  std::map<std::string, std::array<std::vector<const SectionPoint*>, 5>> sides;  // the fifth: blank
  for (const SectionPoint& point : points) {
    if (!point.r || !point.z) continue;
    if (!sides.contains(point.section)) order.push_back(point.section);
    sides[point.section][point.side ? static_cast<std::size_t>(*point.side) : 4].push_back(&point);
  }
  std::vector<Section> sections;
  for (const std::string& name : order) {
    std::array<std::vector<OutlinePoint>, 5> outlines;
    for (std::size_t side = 0; side < 5; ++side) {
      auto& rows = sides[name][side];
      if (std::ranges::all_of(rows, [](const SectionPoint* row) { return row->point.has_value(); }))
        std::ranges::stable_sort(rows, {}, [](const SectionPoint* row) { return *row->point; });
      for (const SectionPoint* row : rows)
        outlines[side].push_back({row->r->mm(), row->z->mm(), row->drawn == Drawn::conjectured});
    }
    Section section{name, outlines[0], outlines[1], outlines[2], outlines[3]};
    SHERD_CHECK(put_blank_side(section, std::move(outlines[4]), Side::outer));
    if (section.outer.empty() && section.inner.empty()) continue;
    // Heights stay as the record has them: bands are told by them.
    SHERD_TRY(section, vessel::tidy_section(std::move(section), {.move_to_zero = false}));
    sections.push_back(std::move(section));
  }
  return sections;
}

Result<std::vector<PieceRecord>> read_pieces(const Session& session) {
  Tables tables;
  SHERD_TRY(tables.pieces, load<Piece>(session, Kind::pieces));
  SHERD_TRY(tables.points, load<SectionPoint>(session, Kind::sections));
  SHERD_TRY(tables.bands, load<Band>(session, Kind::bands));
  if (tables.pieces.empty() && tables.points.empty()) return std::vector<PieceRecord>{};
  SHERD_TRY(auto lines, load<RecordLine>(session, Kind::sherds, line_columns()));
  return all_pieces(std::move(tables), Lines(std::move(lines)));
}

Result<PieceRecord> read_piece(const Session& session, const std::string& name) {
  Tables tables;
  SHERD_TRY(tables.pieces, load<Piece>(session, Kind::pieces));
  auto found = std::ranges::find(tables.pieces, name, &Piece::piece);
  if (found == tables.pieces.end()) found = std::ranges::find(tables.pieces, name, &Piece::vessel);
  if (found == tables.pieces.end()) found = std::ranges::find(tables.pieces, name, &Piece::record);
  Piece piece;
  if (found != tables.pieces.end() && !name.empty()) {
    piece = *found;
    SHERD_TRY(tables.points, load<SectionPoint>(session, Kind::sections, {}, {{"piece", piece.piece}}));
    SHERD_TRY(tables.bands, load<Band>(session, Kind::bands, {}, {{"piece", piece.piece}}));
    if (tables.points.empty() && !piece.vessel.empty()) {
      SHERD_TRY(tables.points,
                load<SectionPoint>(session, Kind::sections, {}, {{"vessel", piece.vessel}, {"piece", ""}}));
    }
  } else {
    SHERD_TRY(tables.points, load<SectionPoint>(session, Kind::sections, {}, {{"vessel", name}, {"piece", ""}}));
    piece.piece = piece.vessel = name;
    if (tables.points.empty()) {
      std::vector<std::string> known;
      for (const Piece& one : tables.pieces) known.insert(known.end(), {one.piece, one.vessel});
      std::string hint = did_you_mean(name, known);
      if (hint.empty()) hint = "`sherdwright pieces STORE` lists what was measured";
      return fail("no_piece", "nothing measured is called \"" + shortened(name, 40) + "\"", hint);
    }
  }
  const std::vector<Having> which = piece.record.empty() ? std::vector<Having>{{"vessel", piece.vessel}}
                                                         : std::vector<Having>{{"record", piece.record}};
  std::vector<RecordLine> lines;
  if (!which.front().value.empty()) {
    SHERD_TRY(lines, load<RecordLine>(session, Kind::sherds, line_columns(), which));
  }
  return assembled(std::move(piece), tables.points, std::move(tables.bands), Lines(std::move(lines)));
}

}  // namespace sherd::desk
