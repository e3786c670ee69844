#include "desk/archive/print_labels.h"

#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/archive/archive_about.h"
#include "desk/archive/list_boxes.h"
#include "desk/archive/list_loans.h"
#include "desk/frame/session.h"
#include "desk/recording/check_bags.h"
#include "figure/label_sheet.h"
#include "figure/render.h"

namespace sherd::desk {

namespace {

using figure::Label;
using figure::LabelLine;
using figure::LabelSheet;

/// Fields of labels and sizes where no repository says them: common practice, no source.
constexpr std::string_view kBagFields = "accession, context, material, bag, box, sample, count, weight";
constexpr std::string_view kBoxFields = "accession, contexts, bags, material, count, weight";
constexpr double kBagWidth = 64, kBagHeight = 38, kBoxWidth = 97, kBoxHeight = 68, kSlipWidth = 97, kSlipHeight = 66;
constexpr double kA4Width = 210, kA4Height = 297, kLetterWidth = 215.9, kLetterHeight = 279.4;

/// What a field is called on a label, and what it holds.
using Values = std::map<std::string, std::string, std::less<>>;

std::string kg(Weight weight) { return format_fixed(weight.g() / 1000, 2) + " kg"; }
std::string grams(Weight weight) { return format_fixed(weight.g(), 0) + " g"; }

/// The lines of a label in the order that the rules give. Error `unknown_field`.
Result<std::vector<LabelLine>> lines_of(const std::string& fields, const Values& values) {
  std::vector<LabelLine> lines;
  std::vector<std::string> known;
  for (const auto& [name, value] : values) known.push_back(name);
  for (const auto part : split(fields, ',')) {
    const std::string name = lower(trim(part));
    if (name.empty()) continue;
    const auto found = values.find(name);
    if (found == values.end()) {
      const std::string near = did_you_mean(name, known);
      return fail("unknown_field",
                  "the repository's rules ask for \"" + name + "\", which labels of that kind do not have",
                  near.empty() ? "they have: " + join(known, ", ") : near);
    }
    if (!found->second.empty()) lines.push_back({name, found->second});
  }
  return lines;
}

class Labels {
 public:
  Labels(const LabelsRequest& request, const Session& session, std::optional<Repository> repository,
         Environment& environment, Progress& progress)
      : request_(request),
        session_(session),
        rules_(repository ? *repository : Repository{}),
        environment_(environment),
        progress_(progress) {}

  Result<LabelSheet> run() {
    SHERD_CHECK(set_sheet());
    const auto size = [&](std::optional<Length> width, std::optional<Length> height, double usual_w, double usual_h) {
      sheet_.width_mm = width ? width->mm() : usual_w;
      sheet_.height_mm = height ? height->mm() : usual_h;
    };
    if (request_.of == "bags") {
      size(rules_.bag_label_width, rules_.bag_label_height, kBagWidth, kBagHeight);
      SHERD_CHECK(add_bags());
    } else if (request_.of == "boxes") {
      size(rules_.box_label_width, rules_.box_label_height, kBoxWidth, kBoxHeight);
      SHERD_CHECK(add_boxes());
    } else {
      size({}, {}, kSlipWidth, kSlipHeight);
      SHERD_CHECK(add_slips());
    }
    sheet_.title = session_.site.code + ", " + request_.of;
    return std::move(sheet_);
  }

 private:
  Result<void> set_sheet() {
    const std::string name = lower(trim(rules_.sheet));
    if (name == "letter") {
      sheet_.sheet_width_mm = kLetterWidth;
      sheet_.sheet_height_mm = kLetterHeight;
    } else if (name.empty() || name == "a4") {
      sheet_.sheet_width_mm = kA4Width;
      sheet_.sheet_height_mm = kA4Height;
    } else {
      return fail("unknown_sheet", "the repository's rules name the sheet \"" + rules_.sheet + "\"",
                  "known are A4 and letter");
    }
    return {};
  }

  std::string code(const char* what, const std::string& number) const {
    return session_.site.code + ":" + what + ":" + number;
  }

  std::string site_words() const {
    return session_.site.code + (session_.site.title.empty() ? "" : "  " + session_.site.title);
  }

  std::string fields(const std::string& asked, std::string_view usual) const {
    return asked.empty() ? std::string(usual) : asked;
  }

  Result<void> add_bags() {
    const ReceiveRequest request{.store = request_.store, .box = request_.box, .site = request_.site};
    SHERD_TRY(const ReceiveResponse bags, check_bags(request, environment_, progress_));
    for (const BagEntry& bag : bags.bags) {
      if (bag.standing == BagStanding::missing || bag.standing == BagStanding::empty) continue;
      const auto count = bag.count_recorded ? bag.count_recorded : bag.count;
      const auto weight = bag.weight_recorded ? bag.weight_recorded : bag.weight;
      std::string context = bag.context;
      if (context.empty()) context = in_ranges(bag.contexts);
      const Values values{{"site", session_.site.code},
                          {"accession", rules_.accession},
                          {"repository", rules_.repository},
                          {"context", context},
                          {"material", bag.material.empty() ? "pottery" : bag.material},
                          {"bag", bag.bag},
                          {"box", bag.box},
                          {"sample", samples_of(bag.bag)},
                          {"count", count ? grouped(*count) : ""},
                          {"weight", weight ? grams(*weight) : ""}};
      Label label{
          site_words(), context.empty() ? "Bag " + bag.bag : "Context " + context, {}, {}, code("bag", bag.bag)};
      SHERD_TRY(label.lines, lines_of(fields(rules_.bag_fields, kBagFields), values));
      sheet_.labels.push_back(std::move(label));
    }
    return {};
  }

  /// The samples that lines of the bag come from.
  std::string samples_of(const std::string& bag) {
    if (samples_.empty()) {
      const auto table = session_.store->read({session_.site.code, Kind::sherds, {"bag", "sample"}});
      samples_[""] = "";
      for (std::size_t row = 0; table && row < table->rows(); ++row) {
        const std::string name(table->columns()[0].text(row)), sample(table->columns()[1].text(row));
        std::string& known = samples_[name];
        if (!sample.empty() && known.find(sample) == std::string::npos) known += (known.empty() ? "" : ", ") + sample;
      }
    }
    const auto found = samples_.find(bag);
    return found == samples_.end() ? std::string() : found->second;
  }

  Result<void> add_boxes() {
    SHERD_TRY(const BoxesResponse boxes, boxes_of(session_));
    const auto all = std::ssize(boxes.boxes);
    std::int64_t number = 0;
    for (const BoxEntry& box : boxes.boxes) {
      ++number;
      if (!request_.box.empty() && box.box != request_.box) continue;
      const Values values{{"site", session_.site.code},
                          {"accession", rules_.accession},
                          {"repository", rules_.repository},
                          {"contexts", in_ranges(box.contexts)},
                          {"bags", grouped(std::ssize(box.bags))},
                          {"material", join(box.materials, ", ")},
                          {"count", grouped(box.sherds)},
                          {"weight", kg(box.weight)}};
      Label label{site_words(), "Box " + box.box, {}, {}, code("box", box.box)};
      SHERD_TRY(label.lines, lines_of(fields(rules_.box_fields, kBoxFields), values));
      label.lines.push_back({"number", std::to_string(number) + " of " + std::to_string(all)});
      if (box.over) label.warning = "Over the limit of " + kg(*boxes.limit);
      sheet_.labels.push_back(std::move(label));
    }
    return {};
  }

  Result<void> add_slips() {
    SHERD_TRY(const auto loans, all_loans(session_, {}));
    for (const LoanEntry& loan : loans) {
      const bool away = loan.standing != Return::back && !loan.loan.empty();
      if (!away || (!request_.box.empty() && loan.box != request_.box)) continue;
      Label label{site_words(), "Out: " + loan.loan, {}, {}, code("loan", loan.loan)};
      const auto line = [&](const char* name, const std::string& value) {
        if (!value.empty()) label.lines.push_back({name, value});
      };
      const std::string what = loan.fabric + (loan.form.empty() ? "" : ", " + loan.form);
      std::string count = loan.count ? std::to_string(*loan.count) : loan.of ? std::to_string(*loan.of) : "";
      if (!count.empty() && loan.of) count += " of " + std::to_string(*loan.of);
      line("line", loan.record + (loan.context.empty() ? "" : ", context " + loan.context));
      line("what", what);
      line("sherds", count);
      line("for", (loan.purpose ? replace_all(std::string(word(*loan.purpose)), "_", " ") : "") +
                      (loan.reference.empty() ? "" : " " + loan.reference));
      line("with", loan.holder + (loan.holder.empty() || loan.place.empty() ? "" : ", ") + loan.place);
      line("taken", loan.taken_on + (loan.taken_by.empty() ? "" : " by " + loan.taken_by));
      line("due", loan.due_on);
      line("bag", loan.bag + (loan.box.empty() ? "" : ", box " + loan.box));
      if (loan.standing == Return::out) {
        label.to_sign = true;
      } else {
        label.warning = loan.standing == Return::lost      ? "Lost"
                        : loan.standing == Return::used_up ? "Used up: does not come back"
                                                           : "Stays where it is";
      }
      sheet_.labels.push_back(std::move(label));
    }
    return {};
  }

  const LabelsRequest& request_;
  const Session& session_;
  Repository rules_;
  Environment& environment_;
  Progress& progress_;
  LabelSheet sheet_;
  Values samples_;
};

Result<std::string> bytes_of(const LabelsRequest& request, const LabelSheet& sheet,
                             const std::vector<std::string>& pages) {
  const std::string out = lower(request.out);
  if (out.ends_with(".pdf")) return figure::to_pdf_pages(pages, {sheet.title});
  const std::int64_t page = request.page.value_or(1);
  if (page < 1 || page > std::ssize(pages)) {
    return fail(ErrorKind::usage, "no_page",
                "there is no sheet " + std::to_string(page) + ": there are " + std::to_string(pages.size()),
                "a .pdf holds all of them");
  }
  const std::string& svg = pages[static_cast<std::size_t>(page - 1)];
  if (out.ends_with(".png")) return figure::to_png(svg, {});
  return svg;
}

Result<void> understood(const LabelsRequest& request) {
  if (request.of != "bags" && request.of != "boxes" && request.of != "slips") {
    const std::vector<std::string> known{"bags", "boxes", "slips"};
    return fail(ErrorKind::usage, "unknown_labels", "there are no labels of \"" + request.of + "\"",
                "they are of bags, boxes or slips");
  }
  const std::string out = lower(request.out);
  if (out.ends_with(".pdf") || out.ends_with(".svg") || out.ends_with(".png")) return {};
  return fail(ErrorKind::usage, "unknown_format", "\"" + request.out + "\" names no format that labels can have",
              "end it in .pdf, .svg or .png");
}

}  // namespace

Result<LabelsResponse> print_labels(const LabelsRequest& request, Environment& environment, Progress& progress) {
  SHERD_CHECK(understood(request));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const auto repository, repository_of(session));
  SHERD_TRY(LabelSheet sheet, Labels(request, session, repository, environment, progress).run());
  if (sheet.labels.empty()) {
    return fail("no_labels", "there is nothing to print labels of",
                request.of == "slips" ? "nothing is out of its bag" : "lines or the finds list name bags and boxes");
  }
  sheet.start = static_cast<std::size_t>(std::max<std::int64_t>(1, request.start.value_or(1)) - 1);
  SHERD_TRY(const auto pages, figure::label_sheets(sheet));
  SHERD_TRY(const std::string bytes, bytes_of(request, sheet, pages));
  SHERD_CHECK(environment.files->write(request.out, bytes));
  LabelsResponse response;
  response.file = request.out;
  response.labels = std::ssize(sheet.labels);
  response.sheets = std::ssize(pages);
  response.width_mm = sheet.width_mm;
  response.height_mm = sheet.height_mm;
  response.rules = repository ? repository->repository : "";
  for (const Label& label : sheet.labels) response.codes.push_back(label.code);
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace sherd::desk
