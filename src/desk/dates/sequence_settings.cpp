#include "desk/dates/sequence_settings.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <vector>

#include "base/fields.h"
#include "base/numbers.h"
#include "base/text.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::json;

std::unexpected<Error> bad(const std::string& place, const std::string& message, const std::string& hint) {
  return fail(ErrorKind::usage, "bad_settings", "the settings: " + place + " " + message, hint);
}

/// Numbers that are a share or a chance.
bool is_share(std::string_view name) {
  static const std::set<std::string_view> kShares{"kept_share",     "deposited_flat", "alike",     "source_now",
                                                  "recent_share",   "intrusive_size", "intrusive", "none_own",
                                                  "most_intrusive", "conflict_below", "own_above", "moved_below"};
  return kShares.contains(name);
}

bool may_be_zero(std::string_view name) {
  return is_share(name) || name == "shoulder" || name == "margin" || name == "warm_up" || name == "seed" ||
         name == "threads" || name == "durations" || name == "close_call" || name == "or_later_after" ||
         name == "few_vessels" || name == "wide_years" || name == "coarse_from" || name == "duration_learned" ||
         name == "sealed";
}

/// The most that a number may be: beyond it the answer would not come, or the sums would not hold.
double most_of(std::string_view name) {
  static const std::map<std::string_view, double> kMost{
      {"chains", 64},           {"draws", 1e7},        {"warm_up", 1e7},     {"least_draws", 1e7},
      {"least_effective", 1e7}, {"nodes", 64},         {"threads", 1024},    {"margin", 20'000},
      {"shoulder", 1000},       {"durations", 10'000}, {"use_life", 10'000}, {"kept_life", 10'000}};
  const auto most = kMost.find(name);
  return most == kMost.end() ? 1e9 : most->second;
}

/// Takes single values of an object.
struct Taker {
  std::string place;  ///< "dump.", or "" at the top
  std::optional<Error> error = {};

  void refuse(std::string_view name, const std::string& message, const std::string& hint) {
    if (!error) error = bad(place + std::string(name), message, hint).error();
  }

  void check(std::string_view name, double value) {
    if (!std::isfinite(value) || value < 0) return refuse(name, "should not be below 0", "");
    if (value == 0 && !may_be_zero(name)) return refuse(name, "should be above 0", "");
    if (is_share(name) && value > 1) return refuse(name, "is a share: 0 to 1", "");
    if (name == "intrusive" && value == 1) return refuse(name, "should be below 1: not all pottery is intrusive", "");
    if (value > most_of(name))
      return refuse(name, "should be " + std::to_string(static_cast<std::int64_t>(most_of(name))) + " or less", "");
    if ((name == "residual_a" || name == "residual_b") && value < 1) refuse(name, "should be 1 or more", "");
  }

  void take(std::string_view name, const Json& given, double& value) {
    if (!given.is_number()) return refuse(name, "should be a number", "");
    check(name, given.get<double>());
    value = given.get<double>();
  }
  void take(std::string_view name, const Json& given, std::int64_t& value) {
    if (!given.is_number_integer()) return refuse(name, "should be a whole number", "");
    check(name, given.get<double>());
    value = given.get<std::int64_t>();
  }
  void take(std::string_view name, const Json& given, std::uint64_t& value) {
    if (!given.is_number_unsigned()) return refuse(name, "should be a whole number, 0 or more", "");
    value = given.get<std::uint64_t>();
  }
  void take(std::string_view name, const Json& given, bool& value) {
    if (!given.is_boolean()) return refuse(name, "should be true or false", "");
    value = given.get<bool>();
  }
  template <WordList E>
  void take(std::string_view name, const Json& given, E& value) {
    const std::vector<std::string> words(Words<E>::kNames.begin(), Words<E>::kNames.end());
    const auto chosen = given.is_string() ? from_word<E>(given.get<std::string>()) : std::nullopt;
    if (!chosen) return refuse(name, "is none of its words", "say one of " + join(words, ", "));
    value = *chosen;
  }
  template <class T>
  void take(std::string_view name, const Json& given, std::vector<T>& values) {
    if (!given.is_array() || given.empty()) return refuse(name, "should be a list of numbers", "");
    values.assign(given.size(), T{});
    double sum = 0;
    for (std::size_t i = 0; i < given.size(); ++i) {
      take("durations", given[i], values[i]);
      sum += static_cast<double>(values[i]);
    }
    if (sum <= 0 && std::is_same_v<T, double>) refuse(name, "should not all be 0", "");
  }
  template <HasFields T>
  void take(std::string_view name, const Json& given, T& value);
};

/// Walks a field list and takes from the object what it names.
template <class Of>
struct Reader {
  const Json& object;
  Of& of;
  Taker taker;
  std::vector<std::string> names = {};

  template <class M>
  void field(std::string_view name, M Of::* member) {
    names.emplace_back(name);
    if (const auto given = object.find(std::string(name)); given != object.end()) taker.take(name, *given, of.*member);
  }
};

template <class Of>
std::optional<Error> read_object(const Json& object, const std::string& place, Of& of) {
  Reader<Of> reader{object, of, {place}};
  Of::fields(reader);
  for (const auto& [name, value] : object.items()) {
    if (std::ranges::find(reader.names, name) != reader.names.end()) continue;
    return bad(place + name, "is not known", did_you_mean(name, reader.names)).error();
  }
  return reader.taker.error;
}

template <HasFields T>
void Taker::take(std::string_view name, const Json& given, T& value) {
  if (!given.is_object()) return refuse(name, "should be an object", "such as {\"residual_a\": 1}");
  if (auto inner = read_object(given, place + std::string(name) + ".", value); inner && !error) error = inner;
}

/// Writes each value of a field list as text, those of deposits under "dump.residual_a".
struct Texts {
  std::map<std::string, std::string>& out;

  static std::string text(double value) { return format_double(value); }
  static std::string text(std::int64_t value) { return std::to_string(value); }
  static std::string text(std::uint64_t value) { return std::to_string(value); }
  static std::string text(bool value) { return value ? "true" : "false"; }
  template <WordList E>
  static std::string text(E value) {
    return std::string(word(value));
  }
  template <class T>
  static std::string text(const std::vector<T>& values) {
    std::vector<std::string> all;
    for (const T& value : values) all.push_back(text(value));
    return join(all, " ");
  }

  template <class Of>
  void object(const Of& of, const std::string& place);
};

template <class Of>
struct TextFields {
  Texts& texts;
  const Of& of;
  std::string place;

  template <class M>
  void field(std::string_view name, M Of::* member) {
    if constexpr (HasFields<M>) {
      texts.object(of.*member, place + std::string(name) + ".");
    } else {
      texts.out[place + std::string(name)] = Texts::text(of.*member);
    }
  }
};

template <class Of>
void Texts::object(const Of& of, const std::string& place) {
  TextFields<Of> fields{*this, of, place};
  Of::fields(fields);
}

}  // namespace

Result<void> read_settings(std::string_view json, stratigraphy::SequenceSettings& settings) {
  const Json object = Json::parse(json, nullptr, false);
  if (object.is_discarded() || !object.is_object()) {
    return fail(ErrorKind::usage, "bad_settings", "the settings are not a JSON object",
                "such as {\"use_life\": 20, \"dump\": {\"none_own\": 0.1}}");
  }
  if (auto error = read_object(object, "", settings)) return fail(std::move(*error));
  return {};
}

std::map<std::string, std::string> settings_texts(const stratigraphy::SequenceSettings& settings) {
  std::map<std::string, std::string> out;
  Texts{out}.object(settings, "");
  out.erase("threads");  // whose number changes nothing
  return out;
}

}  // namespace sherd::desk
