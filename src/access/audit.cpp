#include "access/audit.h"

#include <fmt/format.h>

#include <memory>
#include <mutex>
#include <utility>

namespace sherd::access {

namespace {

constexpr std::size_t kMostBytes = 80;

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text.substr(0, kMostBytes)) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || byte > 0x7e) {
      out += fmt::format("\\x{:02x}", byte);
    } else {
      out += c;
    }
  }
  return out + (text.size() > kMostBytes ? "...\"" : "\"");
}

}  // namespace

std::string audit_line(std::string_view time, const AuditEntry& entry) {
  std::string line =
      fmt::format("{} audit event={} outcome={} account={}", time, entry.event, entry.outcome, quoted(entry.account));
  if (!entry.by.empty()) line += " by=" + quoted(entry.by);
  if (!entry.address.empty()) line += " address=" + quoted(entry.address);
  if (!entry.asked.empty()) line += " asked=" + quoted(entry.asked);
  if (!entry.reason.empty()) line += fmt::format(" reason={}", entry.reason);
  return line;
}

Audit audit_by_lines(std::function<std::string()> now, std::function<void(const std::string& line)> write) {
  return [now = std::move(now), write = std::move(write),
          one_at_a_time = std::make_shared<std::mutex>()](const AuditEntry& entry) {
    const std::scoped_lock lock(*one_at_a_time);
    write(audit_line(now(), entry));
  };
}

}  // namespace sherd::access
