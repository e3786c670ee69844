#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/result.h"
#include "methods/stratigraphy/settings.h"

namespace sherd::desk {

/// A settings file: a JSON object of any of the names of SequenceSettings; those of deposits are objects in their turn.
/// What is not named stays as it is in `settings`. Errors (`bad_settings`, usage): not JSON, an unknown name with "did
/// you mean", a value of another type or that cannot be (a share beyond 0..1, a mean that is not above 0), each with
/// the name's place ("dump.residual_a").
Result<void> read_settings(std::string_view json, stratigraphy::SequenceSettings& settings);

/// Every number that was used, by its name, for the provenance of a result.
std::map<std::string, std::string> settings_texts(const stratigraphy::SequenceSettings& settings);

}  // namespace sherd::desk
