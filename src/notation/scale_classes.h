#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "model/scales.h"
#include "notation/scale.h"

/// What reading a grade and converting one share.
namespace sherd::notation {

constexpr double kNever = std::numeric_limits<double>::infinity();

inline double low_of(const ScaleClass& one) { return one.low.value_or(-kNever); }
inline double high_of(const ScaleClass& one) { return one.high.value_or(kNever); }
inline bool has_limits(const Scale& scale) { return !scale.unit.empty(); }

/// "0.25-0.5 mm", "over 2 mm".
std::string measure_text(const Measure& measure);
/// From the lowest limit of the classes to the highest.
Measure spanned(const std::vector<const ScaleClass*>& classes, const std::string& unit);
/// The class of that word or one of its other spellings, dashes and capitals aside; null where there is none.
const ScaleClass* class_named(const Scale& scale, std::string_view text);
/// The classes that share more than a limit with the measure. A limit belongs to the class above it.
std::vector<const ScaleClass*> classes_over(const Scale& scale, const Measure& measure);
std::vector<std::string> words_of(const std::vector<const ScaleClass*>& classes);

}  // namespace sherd::notation
