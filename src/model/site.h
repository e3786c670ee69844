#pragma once

#include <optional>
#include <string>

#include "model/column.h"
#include "model/quantity.h"
#include "model/words.h"

namespace sherd {

/// The project sheet of one site.
struct Site {
  std::string code;  ///< "SAL26"; part of every key
  std::string title;
  std::optional<CountingRule> counting_rule;  ///< how vessels are counted where in doubt
  std::optional<CountedWhen> counted;         ///< sherds before or after joining
  std::optional<Weight> box_limit;            ///< the most a box may weigh
  std::optional<Level> level = {};            ///< how deep the project records
  std::optional<Length> crumbs_below = {};    ///< smaller sherds are weight only
  std::string date_style = {}, region = {}, repository = {}, notes = {};

  template <class V>
  static void fields(V& v) {
    v.field("code", &Site::code, ColumnNote{.key = true, .required = true});
    v.field("title", &Site::title, ColumnNote{});
    v.field("counting_rule", &Site::counting_rule, ColumnNote{});
    v.field("counted", &Site::counted, ColumnNote{});
    v.field("box_limit_g", &Site::box_limit, ColumnNote{});
    v.field("level", &Site::level, ColumnNote{});
    v.field("crumbs_below_mm", &Site::crumbs_below, ColumnNote{});
    v.field("date_style", &Site::date_style, ColumnNote{});
    v.field("region", &Site::region, ColumnNote{});
    v.field("repository", &Site::repository, ColumnNote{});
    v.field("notes", &Site::notes, ColumnNote{});
  }
};

}  // namespace sherd
