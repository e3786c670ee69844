#include <string>
#include <string_view>

#include "base/text.h"
#include "store/store.h"

namespace sherd {

namespace {

bool is_secret(std::string_view parameter) {
  const std::string name = lower(parameter.substr(0, parameter.find('=')));
  return name.find("password") != std::string::npos;
}

}  // namespace

std::string shown_address(const std::string& address) {
  const std::size_t scheme = address.find("://");
  if (!address.starts_with("postgres") || scheme == std::string::npos) return address;
  const std::size_t begin = scheme + 3;
  const std::size_t query = std::min(address.find('?', begin), address.size());
  std::string place = address.substr(begin, query - begin);
  // Up to the last @, since a password may hold one that was not written as %40; and so may it a question mark.
  const std::size_t far = address.rfind('@');
  const bool misread = far != std::string::npos && far > query;
  if (misread) place = address.substr(begin);
  if (const std::size_t at = place.rfind('@'); at != std::string::npos) {
    const std::string user = place.substr(0, std::min(place.find(':'), at));
    place = user + place.substr(at);
  }
  std::string shown = address.substr(0, begin) + place;
  if (misread) return shown;
  char separator = '?';
  for (const std::string_view parameter : split(std::string_view(address).substr(query), '&')) {
    const std::string_view words = parameter.starts_with('?') ? parameter.substr(1) : parameter;
    if (words.empty() || is_secret(words)) continue;
    shown += separator;
    shown += words;
    separator = '&';
  }
  return shown;
}

}  // namespace sherd
