#pragma once

#include <vector>

#include "base/result.h"
#include "desk/assemblage/compare_assemblages.h"
#include "desk/frame/environment.h"

namespace sherd::desk {

/// Whether the request's figures and files can be made at all: `bad_choice`, `unknown_format`.
Result<void> check_delivery(const CompareRequest& request);

/// Draws figures and makes files, as far as the request asks for any. Errors: `no_figure` (with the names of those that
/// there are), those of the renderer, of the spreadsheet and of writing.
Result<void> deliver(const CompareRequest& request, std::vector<DrawnPicture> pictures, Environment& environment,
                     CompareResponse& response);
/// True where it does, so that nothing need be drawn where it does not.
bool wants_figures(const CompareRequest& request);

}  // namespace sherd::desk
