#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

/// Names of files as archives ask for them: letters a-z and A-Z, figures, hyphen and underscore, one dot before an
/// ending in lower case (Archaeology Data Service, guidance on file names and its file-level metadata template).
namespace sherd::desk {

/// What is wrong with the path of a file in an archive, one sentence each; empty where nothing is.
std::vector<std::string> name_troubles(std::string_view path);

/// Text as the stem of a file's name: other characters become underscores, at most 60 of them; never empty.
std::string safe_stem(std::string_view text);

/// Gives out paths, none of them twice, capitals aside: "pictures/p1.jpg", then "pictures/p1_2.jpg".
class FreeNames {
 public:
  std::string take(std::string_view folder, std::string_view stem, std::string_view ending);

 private:
  std::set<std::string> taken_;
};

/// ".jpg" for image/jpeg; ".bin" for what is not known.
std::string ending_of(std::string_view mime);
std::string mime_of(std::string_view path);

}  // namespace sherd::desk
