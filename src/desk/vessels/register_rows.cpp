#include "desk/vessels/register_rows.h"

#include <algorithm>
#include <limits>

#include "base/text.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

bool shows(const Drawing& drawing, const PieceRecord& record) {
  const Piece& piece = record.piece;
  if (!drawing.piece.empty()) return drawing.piece == piece.piece;
  if (!drawing.vessel.empty()) return drawing.vessel == piece.vessel;
  return !drawing.record.empty() && drawing.record == piece.record;
}

}  // namespace

Result<std::vector<Drawing>> read_drawings(const Session& session) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::drawings, {}, {}}));
  std::vector<Drawing> drawings = rows_from<Drawing>(table);
  std::ranges::stable_sort(
      drawings, {}, [](const Drawing& d) { return d.catalogue.value_or(std::numeric_limits<std::int64_t>::max()); });
  return drawings;
}

Result<void> all_known(const std::vector<std::string>& names, const std::vector<Drawing>& drawings) {
  std::vector<std::string> known;
  for (const Drawing& drawing : drawings) known.push_back(drawing.drawing);
  for (const std::string& asked : names) {
    if (std::ranges::find(known, asked) == known.end())
      return fail("unknown_drawing", "the register has no drawing \"" + asked + "\"", did_you_mean(asked, known));
  }
  return {};
}

bool is_wanted(const Drawing& drawing) { return drawing.status != DrawingStatus::dropped; }

const PieceRecord* piece_of(const Drawing& drawing, const std::vector<PieceRecord>& pieces) {
  const auto found = std::ranges::find_if(pieces, [&](const PieceRecord& p) { return shows(drawing, p); });
  return found == pieces.end() ? nullptr : &*found;
}

std::string catalogue_number(const std::vector<Drawing>& drawings, const PieceRecord& piece) {
  for (const Drawing& drawing : drawings) {
    if (is_wanted(drawing) && drawing.catalogue && shows(drawing, piece)) return std::to_string(*drawing.catalogue);
  }
  return {};
}

}  // namespace sherd::desk
