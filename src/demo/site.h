#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "model/record.h"
#include "model/record_deposit.h"
#include "model/record_vessels.h"

/// The demo site: an invented excavation whose true dates are known.
namespace sherd::demo {

constexpr std::string_view kSiteCode = "SAL26";
constexpr std::string_view kSiteTitle = "Tanyard Lane, Sallowhythe";
/// What a box of the demo may weigh. Common practice, no source.
constexpr Weight kBoxLimit{10'000'000};

/// When a context truly formed.
struct TrueDate {
  std::string context;
  Year began, completed;
};

/// How a vessel truly came into its context. `own`: broken while the context formed.
enum class Origin { own, residual, intrusive };

/// A vessel as it truly was, beside what was recorded of it.
struct TrueVessel {
  std::string context;  ///< where it truly lay, whatever the bags say
  std::string fabric, form, decoration;
  Year made, broken;
  Origin origin = Origin::own;
};

/// A mistake put into the record on purpose, for the checks to find.
struct Planted {
  std::string code;   ///< what the checks should report
  std::string place;  ///< record, context, relation, bag, box
  std::string id;     ///< which one; several with "; " between
  std::string sentence;
};

/// A cell as it was typed, where the record's own units cannot hold it.
struct AsTyped {
  std::string record, column, text;
};

/// Something in the site that is worth talking about.
struct Story {
  std::string context, sentence;
};

/// The chemistry of the site as tables of text, the header first: see clay.h.
struct ClayBook {
  std::vector<std::vector<std::string>> standards, certified, sources, samples, petrology, point_counts, readings,
      truth;
};

/// The quote and the hours as tables of text, the header first.
struct CostBook {
  std::vector<std::vector<std::string>> rates, estimates, hours;
};

/// All rows of the site as the field recorded them, and what is true of it.
struct DemoSite {
  std::uint64_t seed = 0;
  std::vector<Context> contexts;
  std::vector<Relation> relations;
  std::vector<Phase> phases;
  std::vector<Fabric> fabrics;
  std::vector<Form> forms;
  std::vector<WareDate> dates;
  std::vector<RecordLine> sherds;
  std::vector<Rim> rims;
  std::vector<Join> joins;
  std::vector<Piece> pieces;
  std::vector<SectionPoint> outlines;
  std::vector<Band> bands;
  std::vector<Drawing> drawings;
  std::vector<Repository> repositories;
  std::vector<Loan> loans;
  std::vector<Selection> selections;
  std::vector<AsTyped> as_typed;
  std::vector<TrueDate> truth;
  std::vector<TrueVessel> vessels;
  std::vector<Planted> planted;
  std::vector<Story> stories;
  ClayBook clay;
  CostBook costs;
};

}  // namespace sherd::demo
