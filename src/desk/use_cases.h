#pragma once

#include "desk/assemblage/tally_sherds.h"
#include "desk/dates/date_contexts.h"
#include "desk/dates/mean_dates.h"
#include "desk/dates/spot_dates.h"
#include "desk/dates/stem_bores.h"
#include "desk/demo/make_demo.h"
#include "desk/report/write_report.h"
#include "desk/series/date_object.h"
#include "desk/series/list_evidence.h"
#include "desk/series/read_notation.h"
#include "desk/serve/serve_workbench.h"
#include "desk/site/backup.h"
#include "desk/site/check_record.h"
#include "desk/site/history.h"
#include "desk/site/import_table.h"
#include "desk/site/list_lines.h"
#include "desk/site/new_site.h"
#include "desk/site/site_summary.h"
#include "desk/site/verify_store.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// The table of use cases: calls `visit(use_case)` for each, in the order in which a job needs them.
template <class Visit>
void for_each_use_case(Visit&& visit) {
  visit(UseCase<NewRequest, NewResponse>{"new", "POST", "/api/stores", "makes an empty store with a project sheet",
                                         make_site});
  visit(UseCase<ImportRequest, ImportResponse>{"import", "POST", "/api/imports", "reads a table into the store",
                                               import_table});
  visit(UseCase<SiteRequest, SiteResponse>{"site", "GET", "/api/site",
                                           "the project sheet and what the record holds so far", summarise_site});
  visit(UseCase<LinesRequest, LinesResponse>{"lines", "GET", "/api/lines", "lists sherd lines", list_lines});
  visit(UseCase<CheckRequest, CheckResponse>{"check", "GET", "/api/findings",
                                             "checks the consistency of the whole record", check_record});
  visit(UseCase<TallyRequest, TallyResponse>{"tally", "GET", "/api/tally",
                                             "count, weight, vessels and EVE by any fields", tally_sherds});
  visit(UseCase<DateRequest, DateResponse>{"date", "GET", "/api/dates", "dates every context", date_contexts});
  visit(UseCase<SpotDatesRequest, SpotDatesResponse>{"spot-dates", "POST", "/api/spot-dates",
                                                     "writes the list of dates for the excavator", write_spot_dates});
  visit(UseCase<ReportRequest, ReportResponse>{"report", "POST", "/api/reports", "writes the report", write_report});
  visit(UseCase<NotationRequest, NotationResponse>{"read", "GET", "/api/read",
                                                   "explains what people write, such as a date", read_notation});
  visit(UseCase<WhenRequest, WhenResponse>{"when", "GET", "/api/when",
                                           "dates one piece by what is seen on it, with the reasons", date_object});
  visit(UseCase<EvidenceRequest, EvidenceResponse>{
      "evidence", "GET", "/api/evidence", "lists what is known that dates a piece, with its sources", list_evidence});
  visit(UseCase<MeanDatesRequest, MeanDatesResponse>{
      "mean-dates", "POST", "/api/mean-dates", "mean dates of a table of counts, such as a published one", mean_dates});
  visit(UseCase<StemBoresRequest, StemBoresResponse>{"stem-bores", "GET", "/api/stem-bores",
                                                     "dates a sample of clay-pipe stems by their bores", stem_bores});
  visit(UseCase<HistoryRequest, HistoryResponse>{"history", "GET", "/api/changes", "who changed what, and when",
                                                 show_history});
  visit(UseCase<UndoRequest, HistoryResponse>{"undo", "POST", "/api/undo", "takes one change back", undo_change});
  visit(UseCase<BackupRequest, BackupResponse>{
      "backup", "POST", "/api/backups", "writes a consistent, verified copy while the store is in use", back_up});
  visit(UseCase<RestoreRequest, BackupResponse>{"restore", "POST", "/api/restores", "makes a store of a backup",
                                                restore_backup});
  visit(UseCase<VerifyRequest, VerifyResponse>{"verify", "GET", "/api/verify", "looks for damage in the store",
                                               verify_store});
  visit(UseCase<ServeRequest, ServeResponse>{"serve", "POST", "/api/serve", "opens the workbench in a browser",
                                             serve_workbench});
  visit(UseCase<DemoRequest, DemoResponse>{"demo", "POST", "/api/demo",
                                           "makes the demo site, checks and dates it, writes its report", make_demo});
}

}  // namespace sherd::desk
