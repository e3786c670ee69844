#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "desk/chemistry/chemistry.h"
#include "figure/page.h"

namespace sherd::desk {

/// The figures of a structural answer, the chief one first, each with its caution and what was done to the amounts
/// beneath it; none where there is nothing to draw (manova). `width_mm` 0: 174.
std::vector<DrawnPicture> structure_pictures(const ChemistryResponse& response, std::int64_t width_mm);

/// What the figures of one answer share.
struct StructureWords {
  const ChemistryResponse& response;
  figure::Page page;

  /// `said` first, then the parts, what was left out or put in, and the caution of the method.
  figure::About about(std::string title, std::vector<std::string> said = {}) const;
};

/// "Al2O3" as it is printed: its figures set low.
std::string printed_part(const std::string& name);

/// Of a mark: the sample it stands for, and its line of the record where it has one.
std::string sample_set(const std::string& id, const std::string& record);

std::vector<DrawnPicture> pictures_of(const chemistry::Components& found, const StructureWords& words);
std::vector<DrawnPicture> pictures_of(const statistics::Clusters& found, const StructureWords& words);
std::vector<DrawnPicture> pictures_of(const chemistry::Membership& found, const StructureWords& words);
std::vector<DrawnPicture> pictures_of(const chemistry::Discriminant& found, const StructureWords& words);
std::vector<DrawnPicture> pictures_of(const chemistry::Variation& found, const StructureWords& words);
std::vector<DrawnPicture> pictures_of(const chemistry::Outliers& found, const StructureWords& words);
std::vector<DrawnPicture> pictures_of(const chemistry::Dilution& found, const StructureWords& words);
std::vector<DrawnPicture> pictures_of(const chemistry::Origin& found, const StructureWords& words);

}  // namespace sherd::desk
