#include "http/event_text.h"

#include "base/text.h"

namespace sherd::http {

std::string event_text(std::string_view name, std::string_view id, std::string_view document) {
  std::string out;
  if (!name.empty()) out.append("event: ").append(name).append("\n");
  if (!id.empty()) out.append("id: ").append(id).append("\n");
  for (const std::string_view line : split(document, '\n')) out.append("data: ").append(line).append("\n");
  return out + "\n";
}

}  // namespace sherd::http
