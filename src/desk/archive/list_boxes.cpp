#include "desk/archive/list_boxes.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/archive/archive_about.h"
#include "desk/archive/list_loans.h"
#include "desk/archive/reconcile_selection.h"
#include "desk/frame/csv.h"
#include "methods/quantify/natural_order.h"
#include "model/record_more.h"
#include "model/rows.h"
#include "report/document.h"

namespace sherd::desk {

namespace {

struct Natural {
  bool operator()(const std::string& a, const std::string& b) const { return quantify::natural_order(a, b) < 0; }
};
using NaturalSet = std::set<std::string, Natural>;

struct Box {
  BoxEntry entry;
  NaturalSet contexts, bags, materials;
};

class Boxes {
 public:
  explicit Boxes(const Session& session) : session_(session) {}

  Result<BoxesResponse> run() {
    SHERD_CHECK(find_limit());
    SHERD_CHECK(read_bags());
    SHERD_CHECK(read_lines());
    SHERD_CHECK(add_bags_without_lines());
    SHERD_CHECK(count_loans());
    for (auto& [name, box] : boxes_) out_.boxes.push_back(finished(name, box));
    return std::move(out_);
  }

 private:
  Result<void> find_limit() {
    SHERD_TRY(const auto repository, repository_of(session_));
    if (repository && repository->box_limit) {
      out_.limit = repository->box_limit;
      out_.limit_of = repository->repository;
    } else if (session_.site.box_limit) {
      out_.limit = session_.site.box_limit;
      out_.limit_of = "the project sheet";
    }
    return {};
  }

  Result<void> read_bags() {
    SHERD_TRY(const Table table, session_.store->read({session_.site.code, Kind::bags, {}}));
    for (Bag& bag : rows_from<Bag>(table)) {
      const std::string name = bag.bag;
      bags_.emplace(name, std::move(bag));
    }
    return {};
  }

  Result<void> read_lines() {
    SHERD_TRY(const Reconciled selection, reconcile(session_));
    SHERD_TRY(const Table table,
              session_.store->read(
                  {session_.site.code, Kind::sherds, {"record", "context", "bag", "box", "count", "weight_g"}}));
    const auto text = [&](std::size_t i, std::size_t row) { return std::string(table.columns()[i].text(row)); };
    for (std::size_t row = 0; row < table.rows(); ++row) {
      const std::string bag = text(2, row);
      std::string name = text(3, row);
      const auto listed = bags_.find(bag);
      if (name.empty() && listed != bags_.end()) name = listed->second.box;
      if (!bag.empty()) with_lines_.insert(bag);
      if (name.empty()) {
        ++out_.without_box;
        continue;
      }
      Box& box = boxes_[name];
      ++box.entry.lines;
      box.contexts.insert(text(1, row));
      if (!bag.empty()) box.bags.insert(bag);
      box.materials.insert(listed != bags_.end() && !listed->second.material.empty() ? listed->second.material
                                                                                     : "pottery");
      if (!table.columns()[4].is_null(row)) box.entry.sherds += table.columns()[4].integer(row);
      if (!table.columns()[5].is_null(row)) box.entry.weight.mg += table.columns()[5].integer(row);
      if (const auto decided = selection.lines.find(text(0, row)); decided != selection.lines.end()) {
        box.entry.sherds -= decided->second.deselected;
        box.entry.weight.mg -= decided->second.deselected_weight.mg;
      }
    }
    return {};
  }

  Result<void> add_bags_without_lines() {
    for (const auto& [name, bag] : bags_) {
      const bool here = bag.received != Received::missing && bag.received != Received::empty;
      if (bag.box.empty() || with_lines_.contains(name) || !here) continue;
      Box& box = boxes_[bag.box];
      box.bags.insert(name);
      if (!bag.context.empty()) box.contexts.insert(bag.context);
      if (!bag.material.empty()) box.materials.insert(bag.material);
      box.entry.sherds += bag.count.value_or(0);
      if (bag.weight) box.entry.weight.mg += bag.weight->mg;
    }
    return {};
  }

  Result<void> count_loans() {
    SHERD_TRY(const auto loans, all_loans(session_, {}));
    for (const LoanEntry& loan : loans) {
      const auto box = boxes_.find(loan.box);
      if (box != boxes_.end() && loan.standing == Return::out) ++box->second.entry.out;
    }
    return {};
  }

  BoxEntry finished(const std::string& name, Box& box) {
    BoxEntry& entry = box.entry;
    entry.box = name;
    entry.contexts.assign(box.contexts.begin(), box.contexts.end());
    entry.bags.assign(box.bags.begin(), box.bags.end());
    entry.materials.assign(box.materials.begin(), box.materials.end());
    entry.over = out_.limit && entry.weight > *out_.limit;
    out_.over += entry.over ? 1 : 0;
    out_.weight.mg += entry.weight.mg;
    return std::move(entry);
  }

  const Session& session_;
  BoxesResponse out_;
  std::map<std::string, Bag> bags_;
  std::set<std::string> with_lines_;
  std::map<std::string, Box, Natural> boxes_;
};

std::string kg(Weight weight) { return format_fixed(weight.g() / 1000, 2); }

std::string box_list_html(const Session& session, const BoxesResponse& boxes, const Provenance& provenance) {
  report::Document document;
  document.title = session.site.title.empty() ? session.site.code : session.site.title;
  document.subtitle = "Box list";
  document.facts = {{"Site", session.site.code}, {"Rests on", "record " + provenance.inputs.front()}};
  if (boxes.limit) document.facts.emplace_back("Limit", kg(*boxes.limit) + " kg a box, by " + boxes.limit_of);
  report::DocumentTable table{
      .caption = "Boxes with their contents. The weight is that of the finds alone; box and packing come on top.",
      .columns = {{"box", false},
                  {"contexts", false},
                  {"bags", true},
                  {"material", false},
                  {"sherds", true},
                  {"kg", true},
                  {"out", true},
                  {"note", false}},
      .rows = {},
      .total = {},
      .note = {}};
  std::int64_t sherds = 0, bags = 0;
  for (const BoxEntry& box : boxes.boxes) {
    sherds += box.sherds;
    bags += std::ssize(box.bags);
    table.rows.push_back({box.box, in_ranges(box.contexts), grouped(std::ssize(box.bags)), join(box.materials, ", "),
                          grouped(box.sherds), kg(box.weight), box.out == 0 ? "" : grouped(box.out),
                          box.over ? "over the limit: divide it" : ""});
  }
  table.total = {"all",
                 "",
                 grouped(bags),
                 "",
                 grouped(sherds),
                 kg(boxes.weight),
                 "",
                 boxes.over == 0 ? "" : counted(boxes.over, "box", "boxes") + " over the limit"};
  if (boxes.without_box > 0) table.note = counted(boxes.without_box, "line") + " of the record name no box.";
  document.sections.push_back({"boxes", "Boxes", {table}});
  return report::document_html(document);
}

std::string box_list_csv(const BoxesResponse& boxes) {
  std::vector<std::vector<std::string>> rows{
      {"box", "contexts", "bags", "materials", "lines", "sherds", "weight_g", "over", "out"}};
  for (const BoxEntry& box : boxes.boxes) {
    rows.push_back({box.box, in_ranges(box.contexts), join(box.bags, "; "), join(box.materials, "; "),
                    csv_cell(box.lines), csv_cell(box.sherds), csv_cell(box.weight), csv_cell(box.over),
                    csv_cell(box.out)});
  }
  return csv_text(rows);
}

}  // namespace

std::string in_ranges(const std::vector<std::string>& names) {
  const auto number = [](const std::string& name) -> std::int64_t {
    std::int64_t value = 0;
    const auto read = std::from_chars(name.data(), name.data() + name.size(), value);
    const bool whole = read.ec == std::errc() && read.ptr == name.data() + name.size() && std::to_string(value) == name;
    return whole ? value : -1;
  };
  std::string out;
  for (std::size_t i = 0; i < names.size();) {
    std::size_t last = i;
    while (last + 1 < names.size() && number(names[last]) >= 0 && number(names[last + 1]) == number(names[last]) + 1)
      ++last;
    out += (out.empty() ? "" : ", ") + names[i];
    if (last > i) out += (last == i + 1 ? ", " : "\u2013") + names[last];
    i = last + 1;
  }
  return out;
}

Result<BoxesResponse> boxes_of(const Session& session) { return Boxes(session).run(); }

Result<BoxesResponse> list_boxes(const BoxesRequest& request, Environment& environment, Progress&) {
  const std::string ending = lower(request.out);
  const bool html = ending.ends_with(".html"), csv = ending.ends_with(".csv");
  if (!request.out.empty() && !html && !csv) {
    return fail(ErrorKind::usage, "unknown_format", "\"" + request.out + "\" names no format that a box list can have",
                "end it in .html or .csv");
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(BoxesResponse response, boxes_of(session));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  for (const BoxEntry& box : response.boxes) {
    if (box.over)
      response.warnings.push_back("box " + box.box + " holds " + kg(box.weight) + " kg, over the limit of " +
                                  kg(*response.limit) + " kg by " + response.limit_of);
  }
  if (html) SHERD_CHECK(environment.files->write(request.out, box_list_html(session, response, response.provenance)));
  if (csv) SHERD_CHECK(environment.files->write(request.out, box_list_csv(response)));
  response.file = request.out;
  return response;
}

}  // namespace sherd::desk
