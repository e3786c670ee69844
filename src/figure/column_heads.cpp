#include "figure/column_heads.h"

#include <algorithm>

#include "figure/axis.h"
#include "figure/frame.h"

namespace sherd::figure {
namespace {

constexpr double kGapMm = 0.5;
constexpr double kTurnedMm = 2.9;  // a column narrower than this has no room for a turned head

}  // namespace

ColumnHeads place_heads(std::vector<ColumnHead> heads, double most_mm) {
  ColumnHeads out;
  double widest = 0;
  for (const ColumnHead& head : heads) {
    const double width = text_width_mm(head.name, Face::sans, kTickPoints);
    widest = std::max(widest, width);
    out.turned = out.turned || width > head.width - kGapMm;
  }
  out.height = out.turned ? std::min(widest, most_mm) + 1 : line_mm(kTickPoints) + 0.5;
  out.heads = std::move(heads);
  return out;
}

void draw_heads(Svg& svg, const ColumnHeads& heads, double bottom) {
  double last = -kTurnedMm;
  for (const ColumnHead& head : heads.heads) {
    if (heads.turned && head.middle - last < kTurnedMm) continue;
    last = head.middle;
    const std::string text = fitted(head.name, Face::sans, kTickPoints, heads.turned ? heads.height - 0.9 : head.width);
    TextLook look{kTickPoints, Face::sans, Paint::ink, heads.turned ? Anchor::start : Anchor::middle};
    look.turned = heads.turned;
    svg.text({heads.turned ? head.middle + 0.9 : head.middle, bottom - 1}, text, look,
             text == head.name ? "" : head.name);
  }
}

}  // namespace sherd::figure
