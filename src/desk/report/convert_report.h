#pragma once

#include <string>

#include "base/progress.h"
#include "base/result.h"
#include "desk/frame/environment.h"

/// What other programs of this machine make of a report's pages. Each gets its input on standard input and nothing to
/// fetch: pictures stand in the pages themselves.
namespace sherd::desk {

/// A word processor's file, by pandoc. Errors: `no_pandoc`, `not_converted`, those of a child process.
Result<std::string> docx_of(const std::string& html, Environment& environment, Progress& progress);

/// Printed pages, by WeasyPrint, which fetches data: addresses alone. Errors: `no_weasyprint`, `not_converted`, those
/// of a child process.
Result<std::string> pdf_of(const std::string& html, Environment& environment, Progress& progress);

/// BibTeX as CSL JSON, by pandoc, which reads no file for it. Errors as of docx_of, `not_bibtex`.
Result<std::string> csl_of_bibtex(const std::string& bibtex, Environment& environment, Progress& progress);

}  // namespace sherd::desk
