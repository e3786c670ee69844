#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace sherd::desk {

/// What a result rests on.
struct Provenance {
  std::string version;
  std::vector<std::string> inputs;  ///< site and newest change, or the SHA-256 of a file read
  std::map<std::string, std::string> settings;
  std::optional<std::uint64_t> seed;

  template <class V>
  static void fields(V& v) {
    v.field("version", &Provenance::version);
    v.field("inputs", &Provenance::inputs);
    v.field("settings", &Provenance::settings);
    v.field("seed", &Provenance::seed);
  }
};

/// What every answer carries. A use case that could answer in part (a refused import knows its problems) returns its
/// response with `errors` filled; one that could not answer at all returns the Error.
struct Reply {
  std::vector<Error> errors;
  std::vector<std::string> warnings;
  Provenance provenance;

  bool ok() const { return errors.empty(); }
};

}  // namespace sherd::desk
