#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "desk/dates/dated_record.h"
#include "desk/public/public_object.h"
#include "model/record.h"

/// What is said of a piece to the public: short sentences in plain words.
namespace sherd::desk {

/// "between 1180 and 1350", "after 270", "before 410", "about 1350"; "" where there is none.
std::string plain_years(const YearRange& years);
/// "about 650 years ago", from the middle of a closed range; "" otherwise.
std::string years_ago(const YearRange& years, Year now);
/// With a capital and a full stop.
std::string as_sentence(std::string text);
/// "Cooking pot", by the form's name; "Piece of a pot" where the form is not known.
std::string object_title(const RecordLine& line, const Form* form);
/// "This is a piece from the rim of a cooking pot: a round pot made to stand in or over the fire."
std::string part_sentence(const RecordLine& line, const Form* form);
/// Clay, where it came from, decoration, traces of use.
std::vector<std::string> look_sentences(const RecordLine& line, const Fabric* fabric);
/// Why the years are what they are, from the line's date, its context's terminus and the specialist's own date.
std::vector<std::string> reasons(const RecordLine& line, const Fabric* fabric, const dating::LineDate& date,
                                 const DatedContext* context);
/// "Found in the cess pit, in layer 1026."
std::string found_sentence(const RecordLine& line, const Context* context, const std::string& phase_title);

}  // namespace sherd::desk
