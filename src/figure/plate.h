#pragma once

#include <string>
#include <vector>

#include "figure/vessel_drawing.h"

namespace sherd::figure {

/// A journal's print area and how drawings stand on it.
struct PlateSettings {
  double width_mm = 135, height_mm = 205;  ///< with the caption: Surrey Archaeological Collections, notes for authors
  double gap_mm = 5;                       ///< at least, between drawings
  double row_gap_mm = 5;                   ///< at least, between rows
  DrawingSettings drawing;                 ///< one scale for all
  std::string caption;                     ///< "Fig. 12. Roman pottery, nos 1-40"; the scale is added
  int first_figure = 0;                    ///< its number, which counts on from page to page; 0: none
};

/// Drawings in their order, left to right and row under row: rims of a row on one line, numbers beneath, rows broken so
/// that they come out even, and so many on each page that pages come out even, too.
struct Plates {
  std::vector<std::string> pages;               ///< SVG, one a page, each as large as the print area
  std::vector<std::vector<std::size_t>> shown;  ///< which drawings are on each
  std::vector<std::size_t> too_large;           ///< that no page can hold at this scale; they are left out
  double scale_that_fits = 0;  ///< where something is too large: the least whole scale at which all fit
};

Plates plates(const std::vector<VesselDrawing>& drawings, const PlateSettings& settings);

}  // namespace sherd::figure
