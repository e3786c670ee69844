#include "exchange/mapping.h"

#include <nlohmann/json.hpp>

#include "base/numbers.h"
#include "base/text.h"
#include "model/kind_spec.h"

namespace sherd::exchange {

using Json = nlohmann::json;
using Ordered = nlohmann::ordered_json;  // as it is written; its objects are lists, slow where they are long

namespace {

std::unexpected<Error> bad(std::string message, std::string hint = {}) {
  return fail("bad_mapping", "the mapping file: " + std::move(message), std::move(hint));
}

Result<void> known_key(std::string_view key, const std::vector<std::string>& known, std::string_view what) {
  for (const std::string& name : known) {
    if (name == key) return {};
  }
  std::string hint = did_you_mean(key, known);
  if (hint.empty()) hint = "known are: " + join(known, ", ");
  return bad("\"" + std::string(key) + "\" is no " + std::string(what), hint);
}

Result<std::string> text_of(const Json& value, std::string_view key) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_number()) return value.dump();
  return bad("\"" + std::string(key) + "\" must be text");
}

Result<std::vector<std::string>> texts_of(const Json& value, std::string_view key) {
  std::vector<std::string> out;
  if (!value.is_array()) {
    SHERD_TRY(out.emplace_back(), text_of(value, key));
    return out;
  }
  for (const Json& item : value) {
    SHERD_TRY(out.emplace_back(), text_of(item, key));
  }
  return out;
}

Result<ColumnRule> rule_of(const Json& value, const std::string& column) {
  ColumnRule rule;
  if (!value.is_object()) {
    SHERD_TRY(rule.from, texts_of(value, column));
    return rule;
  }
  for (const auto& [key, item] : value.items()) {
    SHERD_CHECK(known_key(key, {"from", "times", "join"}, "part of the rule of column " + column));
    if (key == "from") {
      SHERD_TRY(rule.from, texts_of(item, column));
    } else if (key == "times") {
      SHERD_TRY(rule.times, text_of(item, key));
      const auto factor = parse_scaled(rule.times, 6);
      if (!factor || *factor <= 0) return bad("\"times\" of column " + column + " must be a number above 0");
    } else {
      SHERD_TRY(rule.separator, text_of(item, key));
    }
  }
  if (rule.from.empty()) return bad("column " + column + " says no \"from\"");
  return rule;
}

Result<std::string> eve_of(const Json& value) {
  std::string as;
  if (value.is_object() && value.contains("as")) {
    SHERD_TRY(as, text_of(value["as"], "eve"));
  } else {
    SHERD_TRY(as, text_of(value, "eve"));
  }
  if (as != "vessels" && as != "percent") return bad("\"eve\" must be \"vessels\" (0.14) or \"percent\" (14)");
  return as;
}

struct Reader {
  Mapping mapping;
  std::vector<std::string> columns;  // canonical names of the kind

  Result<void> read_columns(const Json& value) {
    for (const auto& [name, rule] : value.items()) {
      if (name == "eve") {
        SHERD_TRY(mapping.eve, eve_of(rule));
        continue;
      }
      SHERD_CHECK(known_key(name, columns, "column of this table"));
      SHERD_TRY(mapping.columns[name], rule_of(rule, name));
    }
    return {};
  }

  Result<void> read_only(const Json& value) {
    for (const auto& [heading, values] : value.items()) {
      SHERD_TRY(mapping.only[heading], texts_of(values, heading));
    }
    return {};
  }

  Result<void> read_codes(const Json& value) {
    for (const auto& [name, codes] : value.items()) {
      SHERD_CHECK(known_key(name, columns, "column of this table"));
      if (!codes.is_object()) return bad("\"codes\" of column " + name + " must be pairs of code and word");
      for (const auto& [code, meaning] : codes.items()) {
        SHERD_TRY(mapping.codes[name][code], text_of(meaning, code));
      }
    }
    return {};
  }

  Result<void> read_blanks(const Json& value) {
    for (const auto& [name, meaning] : value.items()) {
      SHERD_CHECK(known_key(name, columns, "column of this table"));
      SHERD_TRY(mapping.blank_as[name], text_of(meaning, name));
    }
    return {};
  }

  Result<void> read_part(const std::string& key, const Json& value) {
    SHERD_CHECK(known_key(key, {"columns", "only", "codes", "blank_as", "date_style", "decimal", "eve"}, "part of it"));
    const bool wants_object = key == "columns" || key == "only" || key == "codes" || key == "blank_as";
    if (wants_object && !value.is_object()) return bad("\"" + key + "\" must be an object");
    if (key == "columns") return read_columns(value);
    if (key == "only") return read_only(value);
    if (key == "codes") return read_codes(value);
    if (key == "blank_as") return read_blanks(value);
    if (key == "eve") {
      SHERD_TRY(mapping.eve, eve_of(value));
      return {};
    }
    std::string& text = key == "decimal" ? mapping.decimal : mapping.date_style;
    SHERD_TRY(text, text_of(value, key));
    if (key == "decimal" && text != "," && text != ".") return bad("\"decimal\" must be \",\" or \".\"");
    return {};
  }
};

}  // namespace

Result<Mapping> read_mapping(std::string_view json, Kind kind) {
  const Json document = Json::parse(json, nullptr, false, true);
  if (document.is_discarded()) return bad("it is not JSON", "an example stands in docs/import.md");
  if (!document.is_object()) return bad("it must be one JSON object");
  Reader reader{{}, kind_spec(kind).column_names()};
  for (const auto& [key, value] : document.items()) SHERD_CHECK(reader.read_part(key, value));
  return std::move(reader.mapping);
}

std::string mapping_text(const Mapping& mapping) {
  Ordered document = Ordered::object();
  Ordered columns = Ordered::object();
  for (const auto& [name, rule] : mapping.columns) {
    Ordered from = rule.from.size() == 1 ? Ordered(rule.from.front()) : Ordered(rule.from);
    if (rule.times.empty() && rule.from.size() == 1) {
      columns[name] = std::move(from);
      continue;
    }
    columns[name]["from"] = std::move(from);
    if (!rule.times.empty()) columns[name]["times"] = Ordered::parse(rule.times);
    if (rule.from.size() > 1) columns[name]["join"] = rule.separator;
  }
  if (!columns.empty()) document["columns"] = columns;
  if (!mapping.only.empty()) document["only"] = mapping.only;
  if (!mapping.codes.empty()) document["codes"] = mapping.codes;
  if (!mapping.blank_as.empty()) document["blank_as"] = mapping.blank_as;
  if (!mapping.date_style.empty()) document["date_style"] = mapping.date_style;
  if (!mapping.decimal.empty()) document["decimal"] = mapping.decimal;
  if (!mapping.eve.empty()) document["eve"] = Ordered{{"as", mapping.eve}};
  return document.dump(2, ' ', false, Ordered::error_handler_t::replace) + "\n";
}

}  // namespace sherd::exchange
