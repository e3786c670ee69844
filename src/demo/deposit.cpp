#include "demo/deposit.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace sherd::demo {

namespace {

constexpr std::size_t kDrawn = 6, kSampled = 5, kShown = 3;

/// An invented museum; its rules are made up, the sizes common practice without a source.
void add_repository(DemoSite& site) {
  Repository repository;
  repository.repository = "Sallowhythe Museum";
  repository.accession = "SHM 2026.14";
  repository.identifiers = "SAL26";
  repository.creator = "Tanyard Lane Project";
  repository.copyright_holder = "Tanyard Lane Project";
  repository.licence = "CC BY 4.0";
  repository.language = "en";
  repository.box_limit = kBoxLimit;
  repository.bag_label_width = Length{6400};
  repository.bag_label_height = Length{3800};
  repository.box_label_width = Length{9700};
  repository.box_label_height = Length{6700};
  repository.bag_fields = "accession, context, material, bag, box, count, weight";
  repository.box_fields = "accession, contexts, bags, material, count, weight";
  repository.sheet = "A4";
  repository.rules = "Conditions of deposit (invented)";
  site.repositories.push_back(std::move(repository));
}

Loan loan_of(const DemoSite& site, const RecordLine& line, Purpose purpose, const char* holder) {
  Loan loan;
  loan.loan = "L" + std::to_string(site.loans.size() + 1);
  loan.record = line.record;
  loan.purpose = purpose;
  loan.holder = holder;
  loan.taken_on = line.recorded_on;
  loan.taken_by = line.recorder;
  return loan;
}

void add_loans(DemoSite& site) {
  std::size_t drawn = 0, sampled = 0, shown = 0;
  std::set<std::string> fabrics;
  for (const RecordLine& line : site.sherds) {
    const std::int64_t count = line.count.value_or(0);
    if (line.part == "profile" && drawn < kDrawn) {
      Loan loan = loan_of(site, line, Purpose::drawing, "illustrator");
      loan.reference = "D" + std::to_string(++drawn);
      // The last one is still on the drawing table.
      if (drawn < kDrawn) {
        loan.returned = Return::back;
        loan.returned_on = "2026-06-12";
      } else {
        loan.due_on = "2026-06-30";
      }
      site.loans.push_back(std::move(loan));
    } else if (line.part == "body" && count >= 5 && sampled < kSampled && fabrics.insert(line.fabric).second) {
      Loan loan = loan_of(site, line, Purpose::sample, "thin-section laboratory");
      loan.reference = "TS" + std::to_string(++sampled);
      loan.count = 1;
      loan.returned = Return::used_up;
      site.loans.push_back(std::move(loan));
    } else if (!line.decoration.empty() && line.part == "rim" && shown < kShown) {
      Loan loan = loan_of(site, line, Purpose::display, "Sallowhythe Museum");
      loan.place = "case 4";
      ++shown;
      loan.due_on = "2026-12-01";
      site.loans.push_back(std::move(loan));
    }
  }
}

/// The context with most body sherds of factory-made wares: these are not kept. Of all others everything is.
void add_selections(DemoSite& site) {
  std::set<std::string> factory;
  for (const Fabric& fabric : site.fabrics) {
    if (fabric.ware_group == "factory-made") factory.insert(fabric.fabric);
  }
  std::map<std::string, std::int64_t> sherds;
  const auto plain = [&](const RecordLine& line) { return factory.contains(line.fabric) && line.part == "body"; };
  for (const RecordLine& line : site.sherds) {
    if (plain(line)) sherds[line.context] += line.count.value_or(0);
  }
  const auto most = std::ranges::max_element(sherds, {}, [](const auto& one) { return one.second; });
  const auto add = [&](Selection selection, Decision decision, const char* reason) {
    selection.selection = "S" + std::to_string(site.selections.size() + 1);
    selection.decision = decision;
    selection.reason = reason;
    selection.decided_on = "2026-06-01";
    site.selections.push_back(std::move(selection));
  };
  for (const RecordLine& line : site.sherds) {
    if (most == sherds.end() || line.context != most->first || !plain(line) ||
        line.mark.size() + line.decoration.size() > 0)
      continue;
    Selection selection;
    selection.record = line.record;
    selection.context = line.context;
    selection.disposal = "handling collection of the school";
    add(std::move(selection), Decision::deselected, "plain body sherds of factory-made wares, counted and weighed");
  }
  std::set<std::string> named;
  for (const RecordLine& line : site.sherds) named.insert(line.context);
  for (const Context& context : site.contexts) {
    if (!named.contains(context.context)) continue;
    Selection selection;
    selection.context = context.context;
    add(std::move(selection), Decision::kept, "selection strategy: all stratified pottery is kept");
  }
}

}  // namespace

void settle_deposit(DemoSite& site) {
  add_repository(site);
  add_loans(site);
  add_selections(site);
}

}  // namespace sherd::demo
