#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "methods/series/identify.h"
#include "model/record_more.h"
#include "model/scales.h"

/// Text of descriptions as values of the key.
namespace sherd::desk {

/// An inclusion that is not there stands this far below "rare", the first class of frequency: a rare one is easily
/// missed, an abundant one is not. Ours; no source.
constexpr double kNotThere = -1.5;

/// Places on the usual scale of the attribute, its first class 1. `scale`: whose words they are; "" or a scale of
/// another attribute is any. Errors: those of reading a scale; `unreadable_seen` where the usual scale has no place for
/// it.
Result<series::Value> place_on_scale(Attribute attribute, const std::string& text, const std::string& scale);
/// The distance between the ends of the usual scale.
double range_of(Attribute attribute);

/// Sizes in mm on Krumbein's phi.
series::Value size_value(std::optional<double> least_mm, std::optional<double> most_mm);
/// "0.3-0.8 mm", "medium sand".
Result<series::Value> size_of(const std::string& text);
Result<series::Value> colour_of(const std::string& text);
/// "smooth to harsh", "soapy, powdery": any of the words.
series::Value words_of(const std::string& text);
/// "quartz, common, 0.3-0.8 mm, well sorted, subrounded" as a row; "quartz, none" has that frequency. Error
/// `unreadable_seen`, naming the part.
Result<Inclusion> inclusion_of(const std::string& text);
/// As one word for the same thing: "Quartz " is "quartz".
std::string inclusion_name(std::string_view text);

}  // namespace sherd::desk
