#pragma once

#include <string>

#include "desk/assemblage/published.h"

namespace sherd::desk {

/// The table that `published_of` reads back.
std::string csv_of_published(const PublishedAssemblage& assemblage);

}  // namespace sherd::desk
