#pragma once

#include <string>
#include <vector>

#include "desk/public/public_object.h"
#include "model/record.h"
#include "model/record_more.h"

/// The rules of data/public upon one line.
namespace sherd::desk {

/// What is searched for the words of themes and cautions.
struct ObjectTexts {
  std::string vessel_class, form, use, source, decoration, mark, text, ware, place, burial;
};
ObjectTexts texts_of(const RecordLine& line, const Fabric* fabric, const Form* form, const Context* context,
                     const Bag* bag);

std::vector<std::string> themes_of(const ObjectTexts& texts);
std::vector<PublicCaution> cautions_of(const ObjectTexts& texts);

/// How much it bears, and why. By weight a sherd, wall, hardness and condition; common practice, no source.
Sturdiness sturdiness_of(const RecordLine& line, const Fabric* fabric, std::vector<std::string>& because);

}  // namespace sherd::desk
