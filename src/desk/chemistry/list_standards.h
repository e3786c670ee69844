#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"
#include "methods/chemistry/calibration_result.h"

namespace sherd::desk {

struct StandardsRequest {
  std::string store, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &StandardsRequest::store, argument("the store"));
    v.field("site", &StandardsRequest::site, option("the site, where the store holds several"));
  }
};

struct StandardValue {
  std::string analyte, unit, uncertainty_kind, status, known;
  double value = 0;
  std::optional<double> uncertainty, k, sd;  ///< sd: the standard uncertainty that follows

  template <class V>
  static void fields(V& v) {
    v.field("analyte", &StandardValue::analyte);
    v.field("unit", &StandardValue::unit);
    v.field("value", &StandardValue::value);
    v.field("uncertainty", &StandardValue::uncertainty);
    v.field("uncertainty_kind", &StandardValue::uncertainty_kind);
    v.field("k", &StandardValue::k);
    v.field("sd", &StandardValue::sd);
    v.field("status", &StandardValue::status);
    v.field("known", &StandardValue::known);
  }
};

struct StandardRow {
  std::string standard, name, issuer, basis, expires_on, checked_by, source;
  std::int64_t readings = 0;
  chemistry::OxideTotal total;
  std::vector<std::string> flags;
  std::vector<StandardValue> values;

  template <class V>
  static void fields(V& v) {
    v.field("standard", &StandardRow::standard);
    v.field("name", &StandardRow::name);
    v.field("issuer", &StandardRow::issuer);
    v.field("basis", &StandardRow::basis);
    v.field("expires_on", &StandardRow::expires_on);
    v.field("checked_by", &StandardRow::checked_by);
    v.field("source", &StandardRow::source);
    v.field("readings", &StandardRow::readings);
    v.field("total", &StandardRow::total);
    v.field("flags", &StandardRow::flags);
    v.field("values", &StandardRow::values);
  }
};

struct StandardsResponse : Reply {
  std::vector<StandardRow> standards;

  template <class V>
  static void fields(V& v) {
    v.field("standards", &StandardsResponse::standards);
  }
};

/// The reference materials, each with its total of oxides and what speaks against its values.
Result<StandardsResponse> list_standards(const StandardsRequest& request, Environment& environment, Progress& progress);

/// The same of an open store; `today` is ISO 8601, "" where the day is of no matter.
Result<std::vector<StandardRow>> standard_rows(const Session& session, const std::string& today);

}  // namespace sherd::desk
