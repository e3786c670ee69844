#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/series/identify.h"
#include "model/record.h"
#include "model/record_more.h"

namespace sherd::desk {

/// Fabrics as their rows describe them and a sherd as it is seen under the lens, both in the terms of the key: words on
/// named scales become places on the usual scale of each attribute, colours become Munsell numbers.
class LensView {
 public:
  /// Fabrics that are retired are left out.
  LensView(const std::vector<Fabric>& fabrics, const std::vector<Inclusion>& inclusions);

  /// "hardness=hard", "inclusion=quartz, common, 0.3-0.8 mm, well sorted". Errors: `bad_observation`,
  /// `unknown_key` with "did you mean", `unreadable_seen`, and those of reading colours, firing and scales.
  Result<void> see(const std::string& observation);
  /// Whatever is in the paste has been named.
  void see_nothing_else();
  /// "feel=0": another weight. Errors `bad_weight`, `unknown_key`.
  Result<void> weigh(const std::string& text);

  series::Question question() const;
  const std::vector<Fabric>& fabrics() const { return fabrics_; }
  /// What is seen, as it was understood.
  std::vector<std::string> seen() const;
  /// What of the descriptions could not be read and so has no say.
  const std::vector<std::string>& unread() const { return unread_; }
  /// Attribute -> weight, for the provenance.
  const std::map<std::string, double>& weights() const { return weights_; }

 private:
  using Values = std::map<std::string, series::Value>;  ///< by the key of a feature

  void describe(const Fabric& fabric, Values& values);
  void describe(const Inclusion& inclusion, Values& values);
  void note_kinds(const std::vector<Inclusion>& inclusions);
  Result<void> see_inclusion(const std::string& text);
  bool is_there(const std::string& kind) const;
  std::vector<series::Feature> features() const;

  std::vector<Fabric> fabrics_;
  std::vector<Values> described_;
  std::vector<bool> paste_known_;   ///< whether the fabric's inclusions are listed at all
  std::vector<std::string> kinds_;  ///< of inclusions, in the order in which they are met
  Values seen_;
  std::map<std::string, double> weights_;
  std::vector<std::string> unread_;
};

}  // namespace sherd::desk
