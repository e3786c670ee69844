#pragma once

#include "base/result.h"
#include "http/route.h"
#include "http/visitor.h"

/// What each role may have done over HTTP; the table stands in docs/security.md.
namespace sherd::http {

/// Error `not_allowed` where the visitor's role does not reach so far. Reading and jobs: reader. Lines and what hangs
/// on them, scans, bags, what is said of a context, provisional codes, keeping dates that were worked out and taking
/// back one's own changes: recorder. Everything else that writes: editor.
Result<void> check_role(const Visitor& visitor, const Route& route, const Work& work);
/// Of pictures that are kept.
Result<void> check_role_of_files(const Visitor& visitor);

}  // namespace sherd::http
