#pragma once

#include <string_view>

#include "desk/frame/schema_openapi_parts.h"

namespace sherd::desk::openapi_parts {

/// What may stand for a parameter of an operation, "" where no example is given: of the demo site, where each gets an
/// answer.
std::string_view example_of(std::string_view operation, std::string_view parameter);

/// An example of a request's body, where there is one.
void body_example(Document& document, std::string_view definition);

}  // namespace sherd::desk::openapi_parts
