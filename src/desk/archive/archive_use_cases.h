#pragma once

#include "desk/archive/check_deposit.h"
#include "desk/archive/list_boxes.h"
#include "desk/archive/list_loans.h"
#include "desk/archive/print_labels.h"
#include "desk/archive/reconcile_selection.h"
#include "desk/archive/write_archive.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// Those that hand the record over, in the order of the table.
template <class Visit>
void for_each_archive_use_case(Visit& visit) {
  visit(UseCase<LoansRequest, LoansResponse>{"loans", "GET", "/api/loans",
                                             "what is out of its bag, and what has no slip", list_loans});
  visit(UseCase<SelectionRequest, SelectionResponse>{"selection", "GET", "/api/selection",
                                                     "what is kept and what is not, and whether the counts come out",
                                                     reconcile_selection});
  visit(UseCase<BoxesRequest, BoxesResponse>{
      "boxes", "POST", "/api/box-lists", "the boxes with contents and weights, and those over the limit", list_boxes});
  visit(UseCase<LabelsRequest, LabelsResponse>{
      "labels", "POST", "/api/labels", "prints labels of bags and boxes, and slips for what is out", print_labels});
  visit(UseCase<DepositRequest, DepositResponse>{"deposit", "GET", "/api/deposit",
                                                 "what stands in the way of handing the archive over", check_deposit});
  visit(UseCase<ArchiveRequest, ArchiveResponse>{
      "archive", "POST", "/api/archives", "writes the whole record as a folder that needs no program", write_archive});
}

}  // namespace sherd::desk
