#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/quantity.h"
#include "model/record.h"
#include "model/record_more.h"

namespace sherd::desk {

struct SeriesRequest {
  std::string store, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SeriesRequest::store, argument("the store"));
    v.field("site", &SeriesRequest::site, option("the site, where the store holds several"));
  }
};

/// How much of the record is called so.
struct SeriesAmount {
  std::int64_t lines = 0;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;

  template <class V>
  static void fields(V& v) {
    v.field("lines", &SeriesAmount::lines);
    v.field("count", &SeriesAmount::count);
    v.field("weight_g", &SeriesAmount::weight);
  }
};

/// A colour of a fabric as it is written and as a screen shows it.
struct SeriesColour {
  std::string zone, text, words;
  std::string srgb, to_srgb;  ///< "" where it is no Munsell colour, or has no numbers; the other end of a range
  bool in_gamut = true;

  template <class V>
  static void fields(V& v) {
    v.field("zone", &SeriesColour::zone);
    v.field("text", &SeriesColour::text);
    v.field("words", &SeriesColour::words);
    v.field("srgb", &SeriesColour::srgb);
    v.field("to_srgb", &SeriesColour::to_srgb);
    v.field("in_gamut", &SeriesColour::in_gamut);
  }
};

/// A word of a description, the scale that it is of, and what that scale says of it.
struct SeriesGrade {
  std::string of, text;  ///< "hardness"; "quartz frequency"
  std::string scale, measure, source, trouble;

  template <class V>
  static void fields(V& v) {
    v.field("of", &SeriesGrade::of);
    v.field("text", &SeriesGrade::text);
    v.field("scale", &SeriesGrade::scale);
    v.field("measure", &SeriesGrade::measure);
    v.field("source", &SeriesGrade::source);
    v.field("trouble", &SeriesGrade::trouble);
  }
};

/// A row with its uid and the change that gave it its values of today.
template <class Row>
struct SeriesRow : Row {
  using Plain = Row;
  std::string uid;
  std::int64_t changed = 0;

  template <class V>
  static void fields(V& v) {
    Row::fields(v);
    v.field("uid", &SeriesRow::uid);
    v.field("changed", &SeriesRow::changed);
  }
};

struct DateEntry : SeriesRow<WareDate> {};
struct InclusionEntry : SeriesRow<Inclusion> {};
struct EquivalentEntry : SeriesRow<Equivalent> {};
struct SpecimenEntry : SeriesRow<Specimen> {};
struct PictureEntry : SeriesRow<sherd::Picture> {};

struct FabricEntry : SeriesRow<Fabric>, SeriesAmount {
  std::string firing_words;
  std::vector<SeriesColour> colours;
  std::vector<SeriesGrade> grades;
  std::vector<std::string> variants;
  std::vector<DateEntry> dates;
  std::vector<InclusionEntry> inclusions;
  std::vector<EquivalentEntry> equivalents;
  std::vector<SpecimenEntry> specimens;
  std::vector<PictureEntry> pictures;

  template <class V>
  static void fields(V& v) {
    SeriesRow<Fabric>::fields(v);
    SeriesAmount::fields(v);
    v.field("firing_words", &FabricEntry::firing_words);
    v.field("colours", &FabricEntry::colours);
    v.field("grades", &FabricEntry::grades);
    v.field("variants", &FabricEntry::variants);
    v.field("dates", &FabricEntry::dates);
    v.field("inclusions", &FabricEntry::inclusions);
    v.field("equivalents", &FabricEntry::equivalents);
    v.field("specimens", &FabricEntry::specimens);
    v.field("pictures", &FabricEntry::pictures);
  }
};

struct FormEntry : SeriesRow<Form>, SeriesAmount {
  std::vector<DateEntry> dates;
  std::vector<SpecimenEntry> specimens;
  std::vector<PictureEntry> pictures;

  template <class V>
  static void fields(V& v) {
    SeriesRow<Form>::fields(v);
    SeriesAmount::fields(v);
    v.field("dates", &FormEntry::dates);
    v.field("specimens", &FormEntry::specimens);
    v.field("pictures", &FormEntry::pictures);
  }
};

/// A decoration that lines name and that has no row of its own has no uid.
struct DecorationEntry : SeriesRow<Decoration>, SeriesAmount {
  std::vector<DateEntry> dates;

  template <class V>
  static void fields(V& v) {
    SeriesRow<Decoration>::fields(v);
    SeriesAmount::fields(v);
    v.field("dates", &DecorationEntry::dates);
  }
};

/// Fabrics of one ware group, variants under what they are variants of; depth 0 is a fabric.
struct TreeRow {
  std::string fabric;
  std::int64_t depth = 0;

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &TreeRow::fabric);
    v.field("depth", &TreeRow::depth);
  }
};
struct WareGroup {
  std::string ware_group;  ///< "" where fabrics name none
  SeriesAmount amount;
  std::vector<TreeRow> rows;

  template <class V>
  static void fields(V& v) {
    v.field("ware_group", &WareGroup::ware_group);
    v.field("amount", &WareGroup::amount);
    v.field("rows", &WareGroup::rows);
  }
};

struct SeriesResponse : Reply {
  std::vector<WareGroup> tree;
  std::vector<FabricEntry> fabrics;
  std::vector<FormEntry> forms;
  std::vector<DecorationEntry> decorations;

  template <class V>
  static void fields(V& v) {
    v.field("tree", &SeriesResponse::tree);
    v.field("fabrics", &SeriesResponse::fabrics);
    v.field("forms", &SeriesResponse::forms);
    v.field("decorations", &SeriesResponse::decorations);
  }
};

/// The whole series of a site in one answer: ware groups, fabrics and variants, forms, decorations, with what is
/// described, dated, equated, kept and pictured of each, and how much of the record is called so. Errors: those of the
/// store.
Result<SeriesResponse> list_series(const SeriesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
