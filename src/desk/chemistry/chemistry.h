#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/chemistry/structure_answer.h"
#include "desk/frame/delivery.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/chemistry/calibration_result.h"

namespace sherd::desk {

/// What is studied, and how.
struct ChemistryChoice {
  std::string store, site, how, by, transform, id, units, readings;
  std::vector<std::string> analytes, without, where;
  // Structure.
  std::string missing, linkage, distance, divisor, zeros, priors, svg;
  std::vector<std::string> ask, groups;
  std::optional<std::int64_t> cut, starts, components, seed;
  std::optional<double> share, level;
  // Calibration of the readings of a store.
  std::string line, drift, corrected;
};

struct ChemistryRequest : ChemistryChoice, DeliveryRequest {
  template <class V>
  static void fields(V& v) {
    v.field("store", &ChemistryRequest::store,
            argument("the store, or a table: a row a sample, a column an element or oxide; to calibrate: columns "
                     "standard, certified and reported, with analyte where there are several"));
    v.field("how", &ChemistryRequest::how,
            required_option(
                "components, clusters, membership, discriminant, variation, outliers, manova, dilution, origin, "
                "calibrate, drift, acceptance or fabrics"));
    v.field("by", &ChemistryRequest::by,
            option("the groups: a column of the table; of a store chem_group (unless said), fabric, ware_group, "
                   "petro_group, context or form"));
    v.field("transform", &ChemistryRequest::transform, option("log10 (unless said), clr, ilr, alr, closed or none"));
    v.field("analytes", &ChemistryRequest::analytes,
            option("the elements or oxides to use, parted by commas; all that may be used unless said"));
    v.field("without", &ChemistryRequest::without, option("ids to leave out, parted by commas"));
    v.field("where", &ChemistryRequest::where,
            option("FIELD=VALUE: readings of the store that meet it, such as surface=\"fresh break\"; may be given "
                   "again"));
    v.field("id", &ChemistryRequest::id,
            option("of a table: the column that names the rows (reading, sample, else the first of text)"));
    v.field("units", &ChemistryRequest::units, option("of columns that say none: ppm, percent, or Fe=percent,Zr=ppm"));
    v.field("readings", &ChemistryRequest::readings,
            option("of a store: means (of the readings of a sample, unless said) or single"));
    v.field("missing", &ChemistryRequest::missing,
            option("where a cell is missing: refuse (unless said), samples or parts: which of them are left out"));
    v.field("zeros", &ChemistryRequest::zeros,
            option("limits of detection for zeros and cells without one, such as CaO=0.01,MnO=0.001"));
    v.field("share", &ChemistryRequest::share,
            option("share of its limit that is put in for an amount below it (0.65 unless said)"));
    v.field("divisor", &ChemistryRequest::divisor, option("alr: the part that all others are divided by"));
    v.field("groups", &ChemistryRequest::groups, option("only these groups, parted by commas"));
    v.field("ask", &ChemistryRequest::ask,
            option("origin: the sherds asked about, parted by commas; those without a group unless said"));
    v.field("level", &ChemistryRequest::level,
            option("probability below which a sherd is none of a group (0.01 unless said)"));
    v.field("components", &ChemistryRequest::components,
            option("membership and origin: on so many principal components instead of the analytes themselves"));
    v.field("linkage", &ChemistryRequest::linkage,
            option("clusters: average (unless said), single, complete, ward, ward-unsquared or k-means"));
    v.field("distance", &ChemistryRequest::distance,
            option("components and clusters: scaled (by each variable's standard deviation) or plain (unless said)"));
    v.field("cut", &ChemistryRequest::cut, option("clusters: how many; as many as lie best apart unless said"));
    v.field("starts", &ChemistryRequest::starts, option("k-means: random starts (200 unless said)"));
    v.field("seed", &ChemistryRequest::seed, option("the seed of the starts (1 unless said)"));
    v.field("priors", &ChemistryRequest::priors,
            option("discriminant: shares (of the groups among the samples, unless said) or equal"));
    v.field("line", &ChemistryRequest::line,
            option("calibrate: ordinary (unless said), weighted, inverse (weights of 1/x), origin or both (errors in "
                   "both)"));
    v.field("drift", &ChemistryRequest::drift,
            option("of a store: the check standard; amounts are corrected by its readings along the run"));
    v.field("corrected", &ChemistryRequest::corrected,
            option("of a store: yes: amounts by the calibration; within: only those within the standards; no (unless "
                   "said)"));
    v.field("svg", &ChemistryRequest::svg, option("the same as --out, for one figure"));
    delivery_fields(v);
    v.field("site", &ChemistryRequest::site, option("the site, where the store holds several"));
  }
};

/// What the compositions are that a method was given.
struct ComposedTable {
  std::int64_t rows = 0, readings = 0;
  std::vector<std::string> analytes;
  std::string unit;  ///< percent or ppm; "" where the table does not say
  std::int64_t below = 0, missing = 0, zeros = 0;
  std::string groups_by;
  std::vector<std::string> left_out;  ///< ids, each with the reason
  std::vector<std::string> analytes_left_out;
  std::string corrected, drift;

  template <class V>
  static void fields(V& v) {
    v.field("rows", &ComposedTable::rows);
    v.field("readings", &ComposedTable::readings);
    v.field("analytes", &ComposedTable::analytes);
    v.field("unit", &ComposedTable::unit);
    v.field("below", &ComposedTable::below);
    v.field("missing", &ComposedTable::missing);
    v.field("zeros", &ComposedTable::zeros);
    v.field("groups_by", &ComposedTable::groups_by);
    v.field("left_out", &ComposedTable::left_out);
    v.field("analytes_left_out", &ComposedTable::analytes_left_out);
    v.field("corrected", &ComposedTable::corrected);
    v.field("drift", &ComposedTable::drift);
  }
};

/// A chem group, or a cluster, against the fabrics.
struct FabricCell {
  std::string fabric, group;
  std::int64_t samples = 0;
  std::vector<std::string> ids;

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &FabricCell::fabric);
    v.field("group", &FabricCell::group);
    v.field("samples", &FabricCell::samples);
    v.field("ids", &FabricCell::ids);
  }
};

/// A sherd whose fabric and chemistry do not go together.
struct Disagreement {
  std::string id, record, fabric, group, usual_group;
  std::int64_t of_fabric = 0, in_usual = 0;  ///< samples of the fabric, and those of them in its usual group

  template <class V>
  static void fields(V& v) {
    v.field("id", &Disagreement::id);
    v.field("record", &Disagreement::record);
    v.field("fabric", &Disagreement::fabric);
    v.field("group", &Disagreement::group);
    v.field("usual_group", &Disagreement::usual_group);
    v.field("of_fabric", &Disagreement::of_fabric);
    v.field("in_usual", &Disagreement::in_usual);
  }
};

struct ChemistryResponse : Reply, StructureResult, Delivered {
  std::string how, caution;
  ComposedTable table;
  std::vector<chemistry::Calibration> calibrations;
  std::vector<chemistry::ControlChart> charts;
  std::vector<chemistry::Acceptance> acceptance;
  std::vector<FabricCell> cells;
  std::vector<Disagreement> disagreements;
  std::string file;  ///< the figure that `svg` asked for

  template <class V>
  static void fields(V& v) {
    v.field("how", &ChemistryResponse::how);
    v.field("caution", &ChemistryResponse::caution);
    v.field("table", &ChemistryResponse::table);
    v.field("calibrations", &ChemistryResponse::calibrations);
    v.field("charts", &ChemistryResponse::charts);
    v.field("acceptance", &ChemistryResponse::acceptance);
    v.field("cells", &ChemistryResponse::cells);
    v.field("disagreements", &ChemistryResponse::disagreements);
    v.field("file", &ChemistryResponse::file);
    delivered_fields(v);
    structure_fields(v);
  }
};

/// The composition of sherds, of a store or of a plain table: docs/methods. Errors: those of the methods; `bad_how`,
/// `bad_choice`, `not_for_this`, `unit_unknown`, `mixed_units`, `analyte_twice`, `no_analytes`, `no_column`,
/// `label_twice`, `not_a_number`, those of files and stores.
Result<ChemistryResponse> study_chemistry(const ChemistryRequest& request, Environment& environment,
                                          Progress& progress);

}  // namespace sherd::desk
