#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/assemblage/compare_assemblages.h"
#include "desk/assemblage/record_filter.h"
#include "desk/dates/plain_table.h"
#include "methods/compare/difference.h"
#include "methods/compare/fall_off.h"
#include "methods/compare/table.h"

namespace sherd::desk {

/// What is compared, wherever it came from.
struct CompareInput {
  compare::CountTable table;  ///< without empty rows and columns
  ComparedTable about;
  bool counts = true;                        ///< numbers of things
  std::vector<compare::Family> families;     ///< of a store by EVE
  std::optional<compare::Cube> cube;         ///< of a store with a third field; pseudo-counts of EVE
  std::vector<std::string> layers;           ///< values of the third field
  std::string row_field, column_field;       ///< of a store
  RecordFilter records;                      ///< of a store: what figures open
  std::vector<std::string> groups;           ///< of the rows
  std::vector<std::optional<double>> years;  ///< of the rows, with decimals, without a year 0 between
  std::vector<std::string> warnings;
  Provenance provenance;
};

/// A store is told from a table by what the file holds. Errors: see `compare_assemblages`.
Result<bool> is_store(const std::string& address, Environment& environment);
Result<CompareInput> input_of_table(const CompareRequest& request, Environment& environment);
Result<CompareInput> input_of_store(const CompareRequest& request, Environment& environment, Progress& progress);

/// Places of a table with their distances and amounts.
struct PlacesInput {
  std::vector<compare::Place> places;
  std::optional<statistics::Interval> source = {};  ///< where it was made, on the map
  std::string map_unit = {};
  std::string measure = {};  ///< what the amounts are; "" as the request names it
  std::vector<std::string> warnings;
  Provenance provenance;
};
/// By the columns that the request names.
Result<PlacesInput> places_in(const PlainTable& table, const CompareRequest& request);
/// The published assemblages of a store, where it is said where they lie: how much each has, in percent, of the ware
/// that a condition of the request names. Errors: `no_ware`, `no_row`, `unlike_places`, and as for a table.
Result<PlacesInput> places_of_published(const CompareRequest& request, Environment& environment);
Result<PlacesInput> places_of_table(const CompareRequest& request, Environment& environment);

}  // namespace sherd::desk
