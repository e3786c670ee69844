#pragma once

#include <string>

/// What other programs may rely on, in writing: made from the table of use cases and the field lists.
namespace sherd::desk {

/// The API as an OpenAPI 3.1 document (JSON).
std::string openapi(const std::string& version);

/// The same as TypeScript: `web/src/api.ts`.
std::string typescript();

}  // namespace sherd::desk
