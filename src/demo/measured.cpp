#include <algorithm>
#include <cmath>
#include <set>

#include "demo/profiles.h"

/// The measuring table: which rims are drawn, and what of each is there.
namespace sherd::demo {

namespace {

constexpr std::size_t kOfEach = 2;                 // vessels drawn of one profile
constexpr double kLeastFit = 0.7, kMostFit = 1.4;  // how far a profile may be scaled to a rim
constexpr double kWholePercent = 35;               // so much of a rim belongs to a vessel that was put together

Length mm(double value) { return {std::llround(value * 100)}; }
Coordinate place(double value) { return {std::llround(value * 100)}; }

/// A rim that may be drawn: one on its line, measured, and not among what was typed wrongly.
bool can_be_drawn(const RecordLine& line, const DemoSite& site) {
  if (!line.rim_diameter || !line.rim_percent || line.rims.value_or(1) != 1 || line.rim_percent->tenths > 1000)
    return false;
  const auto same = std::ranges::count(site.sherds, line.record, &RecordLine::record);
  const bool typed = std::ranges::find(site.as_typed, line.record, &AsTyped::record) != site.as_typed.end();
  return same == 1 && !typed && line.form_certainty.value_or(Certainty::sure) == Certainty::sure;
}

/// One measured vessel while it is written down.
class Measuring {
 public:
  Measuring(DemoSite& site, const Profile& profile, const RecordLine& line)
      : site_(site), profile_(profile), line_(line) {
    fit_ = line.rim_diameter->mm() / profile.rim_diameter_mm();
    percent_ = line.rim_percent->percent();
    whole_ = line.part == "profile" || percent_ >= kWholePercent;
  }

  void write(const std::string& name) {
    name_ = name;
    write_piece();
    for (const Side side : {Side::outer, Side::inner}) write_side(side);
    if (whole_) {
      for (const Side side : {Side::handle, Side::handle_section}) write_side(side);
    }
    write_bands();
  }

 private:
  /// Below this the vessel is not there: drawn as conjecture where much of it is, else not at all.
  double cut() const { return profile_.cut_z_mm * fit_; }
  bool is_profile() const { return line_.part == "profile"; }

  void write_piece() {
    Piece piece;
    piece.piece = name_;
    piece.vessel = line_.vessel;
    piece.record = line_.record;
    piece.part = line_.part;
    piece.technique = profile_.technique;
    piece.stance = percent_ >= 10 ? Stance::measured : Stance::estimated;
    piece.rim_diameter = line_.rim_diameter;
    piece.diameter_certainty = percent_ >= 10  ? Certainty::sure
                               : percent_ >= 5 ? Certainty::probable
                                               : Certainty::possible;
    piece.rim_percent = line_.rim_percent;
    piece.source = SectionSource::points;
    if (has(Side::handle) && whole_) piece.handles = 1;
    site_.pieces.push_back(std::move(piece));
  }

  bool has(Side side) const {
    return std::ranges::find(profile_.points, side, &ProfilePoint::side) != profile_.points.end();
  }

  void write_side(Side side) {
    std::int64_t number = 0;
    const auto add = [&](double r, double z, bool seen) {
      SectionPoint point;
      point.piece = name_;
      point.side = side;
      point.point = ++number;
      point.r = place(r);
      point.z = place(z);
      if (!seen) point.drawn = Drawn::conjectured;
      site_.outlines.push_back(std::move(point));
    };
    const bool cuts = (side == Side::outer || side == Side::inner) && !is_profile();
    const ProfilePoint* before = nullptr;
    for (const ProfilePoint& p : profile_.points) {
      if (p.side != side) continue;
      const double r = p.r_mm * fit_, z = p.z_mm * fit_;
      if (cuts && z < cut()) {
        if (whole_) add(r, z, false);
      } else {
        if (cuts && before && before->z_mm * fit_ < cut() && z > cut()) {
          const double share = (cut() - before->z_mm * fit_) / (z - before->z_mm * fit_);
          add(fit_ * before->r_mm + share * (r - fit_ * before->r_mm), cut(), !whole_);
        }
        add(r, z, true);
      }
      before = &p;
    }
  }

  void write_bands() {
    int number = 0;
    for (const ProfileBand& from : profile_.bands) {
      double low = from.from_z_mm * fit_;
      const double high = from.to_z_mm * fit_;
      if (!is_profile()) {
        if (high < cut()) continue;
        low = std::max(low, cut());
      }
      Band band;
      band.piece = name_;
      band.band = std::to_string(++number);
      band.kind = from.kind;
      if (from.side == Side::inner) band.side = Side::inner;
      band.from = place(low);
      if (high > low) band.to = place(high);
      band.lines = from.lines;
      band.angle = from.angle;
      if (from.spacing_mm) band.spacing = mm(*from.spacing_mm);
      band.colour = from.colour;
      site_.bands.push_back(std::move(band));
    }
  }

  DemoSite& site_;
  const Profile& profile_;
  const RecordLine& line_;
  std::string name_;
  double fit_ = 1, percent_ = 0;
  bool whole_ = false;
};

std::vector<const RecordLine*> best_rims(const DemoSite& site, const Profile& profile) {
  std::vector<const RecordLine*> out;
  for (const RecordLine& line : site.sherds) {
    if (line.fabric != profile.fabric || line.form != profile.form || !can_be_drawn(line, site)) continue;
    const double fit = line.rim_diameter->mm() / profile.rim_diameter_mm();
    if (fit >= kLeastFit && fit <= kMostFit) out.push_back(&line);
  }
  std::ranges::stable_sort(out, std::ranges::greater{}, [](const RecordLine* line) {
    return std::pair(line->part == "profile", line->rim_percent->tenths);
  });
  // Two vessels of one kind, not the same one twice.
  std::vector<const RecordLine*> chosen;
  std::set<std::string> vessels;
  for (const RecordLine* line : out) {
    if (chosen.size() == kOfEach) break;
    if (line->vessel.empty() || vessels.insert(line->vessel).second) chosen.push_back(line);
  }
  return chosen;
}

/// How far each has got, over and over: most are still to be drawn.
void set_status(Drawing& drawing, std::size_t i, const std::string& day) {
  switch (i % 7) {
    case 1:
      drawing.status = DrawingStatus::sent;
      drawing.sent_on = day;
      drawing.illustrator = "in house";
      drawing.place = "with the illustrator";
      break;
    case 3:
      drawing.status = DrawingStatus::drawn;
      drawing.sent_on = drawing.drawn_on = day;
      drawing.illustrator = "in house";
      break;
    case 5:
      drawing.status = DrawingStatus::to_correct;
      drawing.illustrator = "in house";
      drawing.sent_on = drawing.drawn_on = day;
      drawing.corrections = "the rim stands too upright; look again on the flat";
      break;
    default:
      drawing.status = DrawingStatus::to_draw;
  }
}

}  // namespace

Result<void> measure_vessels(DemoSite& site) {
  SHERD_TRY(const std::vector<Profile> profiles, read_profiles());
  std::size_t n = 0;
  std::int64_t number = 0;
  for (const Profile& profile : profiles) {
    for (const RecordLine* line : best_rims(site, profile)) {
      const std::string name = "P" + std::to_string(++n);
      Measuring(site, profile, *line).write(name);
      Drawing drawing;
      drawing.drawing = "D" + std::to_string(n);
      drawing.piece = name;
      drawing.record = line->record;
      drawing.reason = line->part == "profile" ? "whole profile" : "form and rim of the ware";
      drawing.scale = "1:4";
      set_status(drawing, n, line->recorded_on);
      const bool dropped = n == 6;  // its number is left open until the catalogue is numbered anew
      ++number;
      if (dropped) {
        drawing.status = DrawingStatus::dropped;
        drawing.notes = "another of its kind is better preserved";
      } else {
        drawing.catalogue = number;
      }
      site.drawings.push_back(std::move(drawing));
    }
  }
  return {};
}

}  // namespace sherd::demo
