#include <fmt/format.h>

#include <set>

#include "base/hash.h"
#include "base/text.h"
#include "store/cell.h"
#include "store/change_sums.h"

namespace sherd::store {

namespace {

constexpr std::size_t kMostProblems = 100;
constexpr std::size_t kMostOfCommand = 60;

using Hashes = std::map<std::string, std::pair<std::string, std::string>, std::less<>>;

/// By table, as sums_text wrote it: what was written, what was ended.
Hashes hashes_in(std::string_view sums) {
  Hashes found;
  for (const std::string_view line : split(sums, '\n')) {
    const auto parts = split(line, ' ');
    if (parts.size() == 3) found[std::string(parts[0])] = {std::string(parts[1]), std::string(parts[2])};
  }
  return found;
}

class ContentCheck {
 public:
  ContentCheck(const Scan& scan, const std::vector<RawTable>& tables)
      : scan_(scan), changes_(scan_changes(scan)), sites_(scan_sites(scan)), sums_(scan, tables, sites_) {
    scan(kSealTable, [&](RawRow row) {
      seals_[integer_in(row[0])] = {std::string(text_in(row[1])),
                                    std::string(text_in(row[2])),
                                    integer_in(row[3]),
                                    std::string(text_in(row[4])),
                                    {}};
    });
    for (const auto& [seq, copy] : scan_copies(scan)) {
      if (const auto found = seals_.find(seq); found != seals_.end()) found->second.copy = copy;
    }
  }

  std::vector<std::string> run() {
    for (const auto& [seq, change] : changes_) look_at(change);
    for (const auto& [seq, seal] : seals_) {
      if (!changes_.contains(seq)) say(fmt::format("there are hashes of change {}, which is not there", seq));
    }
    look_at_counters();
    look_at_documents();
    return std::move(problems_);
  }

 private:
  void say(std::string problem) {
    if (problems_.size() < kMostProblems) problems_.push_back(std::move(problem));
  }
  static std::string name(const Change& change) {
    return fmt::format("change {} ({})", change.seq, shortened(readable(change.command), kMostOfCommand));
  }

  /// The link fits the one before: as that is noted, or as it should be.
  bool fits(const Change& change, const Seal& seal, const std::string& sums) {
    const Seal as_found{sums, seal.counters, seal.late, {}, seal.copy};
    return link_of(before_, change, as_found) == seal.link || link_of(before_due_, change, as_found) == seal.link;
  }

  void look_at(const Change& change) {
    const auto found = seals_.find(change.seq);
    if (found == seals_.end()) {
      say(fmt::format("{}: the hashes of what it wrote are gone", name(change)));
      return;
    }
    const Seal& seal = found->second;
    const std::string there = sums_text(sums_.of(change.seq));
    const bool same = there == seal.sums;
    if (fits(change, seal, there)) {
      if (!same) say(fmt::format("{}: its hashes are damaged, what it wrote is whole", name(change)));
    } else {
      if (!same) compare(change, hashes_in(seal.sums), hashes_in(there));
      if (same || !fits(change, seal, seal.sums)) {
        say(fmt::format("{}: what the history says of it is not what was kept", name(change)));
      }
    }
    before_due_ = link_of(before_due_, change, seal);
    before_ = seal.link;
  }

  void compare(const Change& change, const Hashes& noted, const Hashes& there) {
    std::set<std::string> tables;
    for (const auto& [table, hashes] : noted) tables.insert(table);
    for (const auto& [table, hashes] : there) tables.insert(table);
    const std::pair<std::string, std::string> none{std::string(32, '0'), std::string(32, '0')};
    for (const std::string& table : tables) {
      const auto a = noted.find(table), b = there.find(table);
      const auto& was = a == noted.end() ? none : a->second;
      const auto& now = b == there.end() ? none : b->second;
      if (was.first != now.first) {
        say(fmt::format("{}: what it wrote to {} is not what is there", name(change), readable(table)));
      }
      if (was.second != now.second) {
        say(fmt::format("{}: what it ended in {} is not what has ended there", name(change), readable(table)));
      }
    }
  }

  void look_at_counters() {
    std::map<std::string, std::pair<std::string, std::int64_t>> due;  // site -> as noted, by which change
    for (const auto& [seq, seal] : seals_) {
      for (const std::string_view part : split(seal.counters, ' ')) {
        if (!part.empty()) due[std::string(part.substr(0, part.find(':')))] = {std::string(part), seq};
      }
    }
    for (const auto& [site, counter] : scan_counters(scan_)) {
      const auto found = due.find(std::to_string(site));
      const bool untouched = found == due.end() && counter.next == 0;  // of a copy that has given none yet
      if (!untouched) compare_counter(site, counter, found == due.end() ? nullptr : &found->second);
      if (found != due.end()) due.erase(found);
    }
    for (const auto& [site, left] : due) {
      say(fmt::format("the record numbers of site {} are gone, which change {} had set", readable(site), left.second));
    }
  }

  void compare_counter(std::int64_t site, const Counter& counter, const std::pair<std::string, std::int64_t>* due) {
    const std::string there = counter_text(site, counter);
    // What a copy was given is noted with the first change that takes of it.
    if (due != nullptr && (there == due->first || counter_text(site, {counter.next, {}}) == due->first)) return;
    const auto code = sites_.find(site);
    const std::string name = code == sites_.end() ? std::to_string(site) : readable(code->second);
    if (due == nullptr) {
      say(fmt::format("the next record number of site {} is {}, which no change has set", name, counter.next));
    } else {
      say(fmt::format("the record numbers of site {} are not where change {} left them: {} where it was {}", name,
                      due->second, there, readable(due->first)));
    }
  }

  /// The bytes of every document that is or was kept, and of those that no version names any more.
  void look_at_documents() {
    std::set<std::pair<std::string, std::int64_t>> whole;
    std::string hash, bytes;
    std::int64_t next = 0;
    bool in_order = true;
    const auto close = [&] {
      if (hash.empty() && next == 0) return;
      if (in_order && sha256(bytes) == hash) {
        whole.emplace(hash, static_cast<std::int64_t>(bytes.size()));
      } else {
        damaged_.insert(hash);
      }
    };
    RawTable chunks{"document_chunk",
                    {{"sha256", Storage::text}, {"ordinal", Storage::integer}, {"bytes", Storage::bytes}}};
    chunks.order = "sha256, ordinal";
    scan_(chunks, [&](RawRow row) {
      if (text_in(row[0]) != hash) {
        close();
        hash = text_in(row[0]);
        bytes.clear();
        next = 0;
        in_order = true;
      }
      in_order = in_order && integer_in(row[1]) == next;
      ++next;
      bytes += text_in(row[2]);
    });
    close();
    for (const auto& [content, document] : sums_.documents()) {
      if (content.second == 0 || whole.contains(content)) continue;
      damaged_.erase(content.first);
      say(fmt::format("the document {} is not what was kept under that name", readable(document)));
    }
    if (!damaged_.empty()) {
      say(fmt::format("{} of documents that no one names any more: not what was kept",
                      counted(static_cast<long long>(damaged_.size()), "piece")));
    }
  }

  const Scan& scan_;
  std::map<std::int64_t, Change> changes_;
  std::map<std::int64_t, std::string> sites_;
  AllSums sums_;
  std::map<std::int64_t, Seal> seals_;
  std::string before_, before_due_;
  std::set<std::string> damaged_;
  std::vector<std::string> problems_;
};

}  // namespace

std::vector<std::string> content_problems(const Scan& scan, const std::vector<RawTable>& tables) {
  return ContentCheck(scan, tables).run();
}

}  // namespace sherd::store
