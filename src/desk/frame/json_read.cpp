#include "desk/frame/json_read.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>

#include "base/text.h"

namespace sherd::desk {

using Json = nlohmann::json;

/// A query is kept as an object of lists of texts, so that both are read alike.
struct Given::State {
  Json object = Json::object();
  bool query = false;

  const Json* find(std::string_view name) const {
    const auto found = object.find(std::string(name));
    return found == object.end() || found->is_null() ? nullptr : &*found;
  }
};

namespace {

std::unexpected<Error> refuse(std::string_view place, std::string message, std::string hint = {}) {
  Error error{.kind = ErrorKind::usage, .code = "bad_request", .message = std::move(message), .hint = std::move(hint)};
  error.where.column = place;
  return fail(std::move(error));
}

std::string_view kind_of(const Json& value) {
  if (value.is_string()) return "text";
  if (value.is_boolean()) return "true or false";
  if (value.is_number_integer()) return "a whole number";
  if (value.is_number()) return "a number";
  return value.is_array() ? "a list" : "an object";
}

std::unexpected<Error> wrong(std::string_view place, std::string_view wanted, const Json& value) {
  std::string shown = value.is_string() ? "\"" + shortened(value.get_ref<const std::string&>(), 40) + "\""
                                        : std::string(kind_of(value));
  return refuse(place, std::string(place) + " should be " + std::string(wanted) + ", but is " + shown);
}

Result<void> check_text(std::string_view place, const std::string& text) {
  if (text.find('\0') != std::string::npos) return refuse(place, std::string(place) + " holds a NUL character");
  return {};
}

std::optional<int> hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return std::nullopt;
}

/// As HTML forms encode it: percent and two digits is a byte, + is a space.
std::optional<std::string> decoded(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      out += text[i] == '+' ? ' ' : text[i];
      continue;
    }
    if (i + 2 >= text.size()) return std::nullopt;
    const auto high = hex_digit(text[i + 1]), low = hex_digit(text[i + 2]);
    if (!high || !low) return std::nullopt;
    out += static_cast<char>(*high * 16 + *low);
    i += 2;
  }
  if (!is_utf8(out)) return std::nullopt;
  return out;
}

/// A number that is the whole of the text.
template <class T>
std::optional<T> number_in(const std::string& text) {
  T value{};
  const char* end = text.data() + text.size();
  const auto [stopped, error] = std::from_chars(text.data(), end, value);
  const bool whole = error == std::errc{} && stopped == end && std::isfinite(static_cast<double>(value));
  return whole ? std::optional(value) : std::nullopt;
}

/// The one text of a query's name.
Result<std::string> single(std::string_view name, const Json& texts) {
  if (texts.size() != 1)
    return refuse(name, std::string(name) + " is given " + counted(static_cast<long long>(texts.size()), "time"),
                  "give it once");
  return texts.front().get<std::string>();
}

template <class T>
Result<void> read_number(std::string_view name, std::string_view wanted, const Json* value, bool query, T& out) {
  if (value == nullptr) return {};
  if (query) {
    SHERD_TRY(const std::string text, single(name, *value));
    const std::optional<T> number = number_in<T>(text);
    if (!number) return wrong(name, wanted, text);
    out = *number;
    return {};
  }
  const bool right = std::is_integral_v<T> ? value->is_number_integer() : value->is_number();
  const bool fits = !value->is_number_unsigned() || !std::is_integral_v<T> ||
                    std::in_range<std::int64_t>(value->get<std::uint64_t>());
  if (!right || !fits) return wrong(name, fits ? wanted : "a smaller number", *value);
  out = value->get<T>();
  return {};
}

/// Passes over a document and notes a name that stands twice in one object. The library's own way of watching while it
/// builds looks through a whole list at the end of each object in it, so that its time grows with the square.
class NamesTwice final : public nlohmann::json_sax<Json> {
 public:
  std::string twice;

  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override {
    seen_.emplace_back();
    return true;
  }
  bool key(string_t& name) override {
    if (!seen_.back().insert(name).second) twice = name;
    return true;
  }
  bool end_object() override {
    seen_.pop_back();
    return true;
  }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override { return false; }

 private:
  std::vector<std::set<std::string>> seen_;  ///< of each object that is open
};

}  // namespace

Given::Given(std::unique_ptr<State> state) : state_(std::move(state)) {}
Given::Given(Given&&) noexcept = default;
Given& Given::operator=(Given&&) noexcept = default;
Given::~Given() = default;

Result<Given> Given::json(std::string_view text) {
  auto state = std::make_unique<State>();
  if (trim(text).empty()) return Given(std::move(state));
  try {
    state->object = Json::parse(text);
  } catch (const Json::parse_error& error) {
    Error refused{.kind = ErrorKind::usage, .code = "bad_request", .message = "this is not JSON"};
    const std::string_view before = text.substr(0, std::min(error.byte, text.size()));
    refused.where.line = 1 + std::count(before.begin(), before.end(), '\n');
    return fail(std::move(refused));
  } catch (const Json::exception&) {
    return refuse("", "this JSON holds a number beyond all bounds");
  }
  if (!state->object.is_object())
    return refuse("", "a JSON object is expected, but this is " + std::string(kind_of(state->object)));
  NamesTwice names;
  Json::sax_parse(text, &names);
  if (!names.twice.empty()) return refuse(names.twice, names.twice + " is given twice");
  return Given(std::move(state));
}

Result<Given> Given::query(std::string_view text) {
  auto state = std::make_unique<State>();
  state->query = true;
  if (text.starts_with('?')) text.remove_prefix(1);
  for (const std::string_view part : split(text, '&')) {
    if (part.empty()) continue;
    const std::size_t equals = std::min(part.find('='), part.size());
    const auto name = decoded(part.substr(0, equals));
    const auto value = decoded(part.substr(std::min(equals + 1, part.size())));
    if (!name || !value)
      return refuse(part.substr(0, equals), "\"" + shortened(part, 40) + "\" is not properly encoded",
                    "% and two hexadecimal digits stand for a byte of UTF-8");
    SHERD_CHECK(check_text(*name, *value));
    state->object[*name].push_back(*value);
  }
  return Given(std::move(state));
}

std::vector<std::string> Given::names() const {
  std::vector<std::string> names;
  for (const auto& [name, value] : state_->object.items()) names.push_back(name);
  return names;
}

bool Given::has(std::string_view name) const { return state_->find(name) != nullptr; }

Result<void> Given::read(std::string_view name, std::string& value) const {
  const Json* found = state_->find(name);
  if (found == nullptr) return {};
  if (state_->query) {
    SHERD_TRY(value, single(name, *found));
    return {};
  }
  if (!found->is_string()) return wrong(name, "text", *found);
  value = found->get<std::string>();
  return check_text(name, value);
}

Result<void> Given::read(std::string_view name, bool& value) const {
  const Json* found = state_->find(name);
  if (found == nullptr) return {};
  if (state_->query) {
    SHERD_TRY(const std::string text, single(name, *found));
    if (text != "true" && text != "false") return wrong(name, "true or false", text);
    value = text == "true";
    return {};
  }
  if (!found->is_boolean()) return wrong(name, "true or false", *found);
  value = found->get<bool>();
  return {};
}

Result<void> Given::read(std::string_view name, std::int64_t& value) const {
  return read_number(name, "a whole number", state_->find(name), state_->query, value);
}

Result<void> Given::read(std::string_view name, double& value) const {
  return read_number(name, "a number", state_->find(name), state_->query, value);
}

Result<void> Given::read(std::string_view name, std::vector<std::string>& values) const {
  const Json* found = state_->find(name);
  if (found == nullptr) return {};
  if (!found->is_array()) return wrong(name, "a list of texts", *found);
  for (std::size_t i = 0; i < found->size(); ++i) {
    const Json& item = (*found)[i];
    const std::string place = std::string(name) + "[" + std::to_string(i) + "]";
    if (!item.is_string()) return wrong(place, "text", item);
    const std::string text = item.get<std::string>();
    SHERD_CHECK(check_text(place, text));
    if (state_->query && name == "by") {
      for (const std::string_view part : split(text, ',')) values.emplace_back(part);
    } else {
      values.push_back(text);
    }
  }
  return {};
}

Result<Given> Given::object(std::string_view name) const {
  auto state = std::make_unique<State>();
  if (const Json* found = state_->find(name)) {
    if (state_->query || !found->is_object()) return wrong(name, "an object", *found);
    state->object = *found;
  }
  return Given(std::move(state));
}

Result<void> Given::read(std::string_view name, std::map<std::string, std::string>& values) const {
  const Json* found = state_->find(name);
  if (found == nullptr) return {};
  if (state_->query || !found->is_object()) return wrong(name, "an object of texts", *found);
  for (const auto& [key, value] : found->items()) {
    const std::string place = std::string(name) + "." + key;
    SHERD_CHECK(check_text(place, key));
    if (value.is_null()) continue;
    if (!value.is_string()) return wrong(place, "text", value);
    SHERD_CHECK(check_text(place, value.get_ref<const std::string&>()));
    values[key] = value.get<std::string>();
  }
  return {};
}

Result<std::vector<Given>> Given::objects(std::string_view name) const {
  std::vector<Given> all;
  const Json* found = state_->find(name);
  if (found == nullptr) return all;
  if (state_->query || !found->is_array()) return wrong(name, "a list of objects", *found);
  for (const Json& one : *found) {
    if (!one.is_object()) return wrong(std::string(name) + "[" + std::to_string(all.size()) + "]", "an object", one);
    auto state = std::make_unique<State>();
    state->object = one;
    all.push_back(Given(std::move(state)));
  }
  return all;
}

Error Given::within(std::string_view list, std::size_t place, Error error) {
  const std::string before = std::string(list) + "[" + std::to_string(place) + "]";
  error.where.column = error.where.column.empty() ? before : before + "." + error.where.column;
  return error;
}

namespace detail {

Error missing_field(std::string_view name, std::string_view help) {
  return std::move(
      refuse(name, std::string(name) + " is missing", std::string(name) + ": " + std::string(help)).error());
}

std::optional<Error> refused_name(const Given& given, std::vector<std::string> known,
                                  const std::vector<Preset>& presets) {
  const auto is_preset = [&](const std::string& name) {
    return std::any_of(presets.begin(), presets.end(), [&](const Preset& preset) { return preset.name == name; });
  };
  std::erase_if(known, is_preset);
  for (const std::string& name : given.names()) {
    if (is_preset(name)) return refuse(name, name + " is settled by the program that serves", "leave it out").error();
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    std::string hint = did_you_mean(name, known);
    if (hint.empty()) hint = known.empty() ? "nothing can be given here" : "it may have: " + join(known, ", ");
    return refuse(name, "\"" + shortened(name, 40) + "\" is not a field of this request", std::move(hint)).error();
  }
  return std::nullopt;
}

}  // namespace detail

Result<void> check_names(const Given& given, std::vector<std::string> known) {
  if (auto error = detail::refused_name(given, std::move(known), {})) return fail(std::move(*error));
  return {};
}

}  // namespace sherd::desk
