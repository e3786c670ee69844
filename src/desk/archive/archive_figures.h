#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/archive/archive_folder.h"
#include "desk/archive/archive_tables.h"

namespace sherd::desk {

/// A drawing that goes into an archive.
struct FigureFile {
  std::string path;  ///< without its ending
  std::string title, description;
};

/// The drawing as SVG and as PDF. Errors: those of the drawing and the folder.
Result<void> archive_figure(const FigureFile& figure, const std::string& svg, ArchiveFolder& folder);

/// The figures of a page of ours, each with its caption.
struct PageFigure {
  std::string caption, svg;
};
std::vector<PageFigure> figures_of(std::string_view html);

/// How the tables of the record belong together, drawn; SVG and PDF.
Result<void> archive_relations(const std::vector<ArchivedTable>& tables, ArchiveFolder& folder, Progress& progress);

}  // namespace sherd::desk
