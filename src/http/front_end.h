#pragma once

#include "http/assets.h"

namespace sherd::http {

/// The workbench's own files, built from web/ and kept inside the program; empty where they were not built.
const AssetTable& front_end();

}  // namespace sherd::http
