#pragma once

#include <string>
#include <vector>

#include "desk/assemblage/compare_assemblages.h"
#include "desk/assemblage/record_filter.h"
#include "figure/page.h"

namespace sherd::desk {

/// What the figures of a comparison need beside its answer.
struct FigureWords {
  std::string rows, columns;  ///< "contexts", "fabrics"
  std::string measure;        ///< "sherds"
  std::string groups;         ///< of places: what tells their groups apart
  RecordFilter records;
  figure::Page page;
};
FigureWords figure_words(const CompareRequest& request, const CompareResponse& response, std::string row_field,
                         std::string column_field, RecordFilter records);

/// The figures of an answer, each with its caution and what was left out beneath it.
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const FigureWords& words);

/// What every figure of a comparison says beneath it.
figure::About about_figure(const CompareResponse& response, const FigureWords& words, std::string title);

/// The parts of `pictures_of`.
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Ordination& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Similarity& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Ordering& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Diversity& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Clusters& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Difference& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::FallOff& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Breakage& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Residuality& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::JoinNetwork& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::KeyGroups& found,
                                      const FigureWords& words);
std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::SampleSize& found,
                                      const FigureWords& words);

}  // namespace sherd::desk
