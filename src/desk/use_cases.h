#pragma once

#include "desk/access/access_use_cases.h"
#include "desk/archive/archive_use_cases.h"
#include "desk/assemblage/assemblage_use_cases.h"
#include "desk/chemistry/chemistry_use_cases.h"
#include "desk/costs/costs_use_cases.h"
#include "desk/dates/date_contexts.h"
#include "desk/dates/mean_dates.h"
#include "desk/dates/sensitivity.h"
#include "desk/dates/spot_dates.h"
#include "desk/dates/stem_bores.h"
#include "desk/demo/make_demo.h"
#include "desk/public/public_use_cases.h"
#include "desk/recording/check_bags.h"
#include "desk/recording/edit_commands.h"
#include "desk/recording/find_similar.h"
#include "desk/recording/find_text.h"
#include "desk/recording/list_queue.h"
#include "desk/recording/list_rows.h"
#include "desk/recording/recording_cards_use_cases.h"
#include "desk/recording/show_links.h"
#include "desk/recording/show_progress.h"
#include "desk/recording/show_scan.h"
#include "desk/report/report_use_cases.h"
#include "desk/series/date_object.h"
#include "desk/series/earlier_calls.h"
#include "desk/series/export_kind.h"
#include "desk/series/identify_fabric.h"
#include "desk/series/list_evidence.h"
#include "desk/series/merge_codes.h"
#include "desk/series/read_notation.h"
#include "desk/series/rename_code.h"
#include "desk/series/series_list.h"
#include "desk/series/split_code.h"
#include "desk/serve/open_workbench.h"
#include "desk/serve/serve_workbench.h"
#include "desk/site/backup.h"
#include "desk/site/check_record.h"
#include "desk/site/conflicts.h"
#include "desk/site/copy_store.h"
#include "desk/site/history.h"
#include "desk/site/import_given.h"
#include "desk/site/import_table.h"
#include "desk/site/list_lines.h"
#include "desk/site/merge_copy.h"
#include "desk/site/new_site.h"
#include "desk/site/site_summary.h"
#include "desk/site/verify_store.h"
#include "desk/stratigraphy/preview_tables.h"
#include "desk/stratigraphy/show_stratigraphy.h"
#include "desk/use_case.h"
#include "desk/vessels/vessels_use_cases.h"

namespace sherd::desk {

/// Those of the series, in the order of the table.
template <class Visit>
void for_each_series_use_case(Visit& visit) {
  visit(UseCase<NotationRequest, NotationResponse>{"read", "GET", "/api/read",
                                                   "explains what people write, such as a date", read_notation});
  visit(UseCase<WhenRequest, WhenResponse>{"when", "GET", "/api/when",
                                           "dates one piece by what is seen on it, with the reasons", date_object});
  visit(UseCase<EvidenceRequest, EvidenceResponse>{
      "evidence", "GET", "/api/evidence", "lists what is known that dates a piece, with its sources", list_evidence});
  visit(UseCase<SeriesRequest, SeriesResponse>{
      "series", "GET", "/api/series", "fabrics, forms and decorations with what is known of each", list_series});
  visit(UseCase<IdentifyRequest, IdentifyResponse>{"identify", "GET", "/api/identify",
                                                   "names a fabric by what is seen under the lens", identify_fabric});
  visit(UseCase<RenameRequest, CodeChangeResponse>{"rename", "POST", "/api/renames",
                                                   "gives a code of the series another name", rename_code, true});
  visit(UseCase<MergeCodesRequest, CodeChangeResponse>{"merge-codes", "POST", "/api/merges-of-codes",
                                                       "makes codes of the series one", merge_codes, true});
  visit(UseCase<SplitRequest, CodeChangeResponse>{
      "split", "POST", "/api/splits", "gives some lines of a code another one, with the list of sherds to pull",
      split_code, true});
  visit(UseCase<CallsRequest, CallsResponse>{
      "calls", "GET", "/api/calls", "what lines were called before they were called what they are", earlier_calls});
  visit(UseCase<ExportRequest, ExportResponse>{"export", "POST", "/api/exports", "writes a table of the record as CSV",
                                               export_kind});
  visit(UseCase<MeanDatesRequest, MeanDatesResponse>{
      "mean-dates", "POST", "/api/mean-dates", "mean dates of a table of counts, such as a published one", mean_dates});
  visit(UseCase<StemBoresRequest, StemBoresResponse>{"stem-bores", "GET", "/api/stem-bores",
                                                     "dates a sample of clay-pipe stems by their bores", stem_bores});
}

/// Those that say what the record amounts to, in the order of the table.
template <class Visit>
void for_each_finding_use_case(Visit& visit) {
  for_each_assemblage_use_case(visit);
  visit(UseCase<DateRequest, DateResponse>{"date", "GET", "/api/dates", "dates every context", date_contexts});
  visit(UseCase<SensitivityRequest, SensitivityResponse>{
      "sensitivity", "GET", "/api/sensitivity", "which dates move when the assumptions behind them do", sensitivity});
  visit(UseCase<StratigraphyRequest, StratigraphyResponse>{"stratigraphy", "GET", "/api/stratigraphy",
                                                           "the order of the ground, reduced, checked and drawn",
                                                           show_stratigraphy});
  visit(UseCase<RephaseRequest, RephaseResponse>{"rephase", "POST", "/api/rephasings",
                                                 "what new tables of the stratigraphers would change, before they do",
                                                 rephase});
  visit(UseCase<SpotDatesRequest, SpotDatesResponse>{"spot-dates", "POST", "/api/spot-dates",
                                                     "writes the list of dates for the excavator", write_spot_dates});
  for_each_report_use_case(visit);
}

/// The table of use cases: calls `visit(use_case)` for each, in the order in which a job needs them.
template <class Visit>
void for_each_use_case(Visit&& visit) {  // NOLINT(readability-function-size): a table
  visit(UseCase<NewRequest, NewResponse>{"new", "POST", "/api/stores", "makes an empty store with a project sheet",
                                         make_site});
  visit(UseCase<ImportRequest, ImportResponse>{"import", "POST", "/api/imports", "reads a table into the store",
                                               import_table});
  visit(UseCase<GivenTableRequest, ImportResponse>{"table-given", "POST", "/api/tables",
                                                   "reads a table that comes with the request", import_given, true});
  visit(UseCase<SiteRequest, SiteResponse>{"site", "GET", "/api/site",
                                           "the project sheet and what the record holds so far", summarise_site});
  visit(UseCase<LinesRequest, LinesResponse>{"lines", "GET", "/api/lines", "lists sherd lines", list_lines});
  visit(UseCase<RowsRequest, RowsResponse>{"rows", "GET", "/api/rows", "lists the rows of any table", list_rows});
  visit(UseCase<QueueRequest, QueueResponse>{
      "queue", "GET", "/api/queue", "the contexts as work: how far the recording of each has got", list_queue});
  visit(UseCase<FindRequest, FindResponse>{"find", "GET", "/api/find",
                                           "where a record, context, bag, box, mark or note is", find_text});
  visit(UseCase<SimilarRequest, SimilarResponse>{"similar", "GET", "/api/similar",
                                                 "lines recorded before that are like this one", find_similar});
  visit(UseCase<LinksRequest, LinksResponse>{
      "links", "GET", "/api/links", "the lines that joins and vessels tie to one, and the vessels they come to",
      show_links});
  visit(UseCase<ScanRequest, ScanResponse>{
      "scan", "GET", "/api/scan", "what a scan said of a context and lines do not account for yet", show_scan});
  visit(UseCase<ProgressRequest, ProgressResponse>{"progress", "GET", "/api/progress",
                                                   "how far the recording has got, and how long the rest may take",
                                                   show_progress});
  visit(UseCase<ReceiveRequest, ReceiveResponse>{"receive", "GET", "/api/receive",
                                                 "boxes and bags against the finds list", check_bags});
  for_each_recording_cards_use_case(visit);
  visit(UseCase<EditsRequest, EditsResponse>{"edits", "POST", "/api/edits",
                                             "makes one change of any steps: adds, alters and removes rows",
                                             apply_edits, true});
  visit(UseCase<AddRequest, EditsResponse>{"add", "POST", "", "adds a row to any table", add_row});
  visit(UseCase<EditRequest, EditsResponse>{"edit", "POST", "", "alters columns of a row", edit_row});
  visit(UseCase<RemoveRequest, EditsResponse>{"remove", "POST", "", "removes a row", remove_row});
  visit(UseCase<CheckRequest, CheckResponse>{"check", "GET", "/api/findings",
                                             "checks the consistency of the whole record", check_record});
  for_each_finding_use_case(visit);
  for_each_chemistry_use_case(visit);
  for_each_series_use_case(visit);
  for_each_vessels_use_case(visit);
  for_each_archive_use_case(visit);
  for_each_public_use_case(visit);
  for_each_costs_use_case(visit);
  visit(UseCase<HistoryRequest, HistoryResponse>{"history", "GET", "/api/changes", "who changed what, and when",
                                                 show_history});
  visit(UseCase<UndoRequest, HistoryResponse>{"undo", "POST", "/api/undo", "takes one change back", undo_change, true});
  visit(UseCase<BackupRequest, BackupResponse>{
      "backup", "POST", "/api/backups", "writes a consistent, verified copy while the store is in use", back_up});
  visit(UseCase<RestoreRequest, BackupResponse>{"restore", "POST", "/api/restores", "makes a store of a backup",
                                                restore_backup});
  visit(UseCase<VerifyRequest, VerifyResponse>{"verify", "GET", "/api/verify", "looks for damage in the store",
                                               verify_store});
  visit(UseCase<CopyRequest, CopyResponse>{"copy", "POST", "/api/copies", "makes a copy to work on away from the store",
                                           copy_store});
  visit(UseCase<MergeRequest, MergeResponse>{"merge", "POST", "/api/merges",
                                             "brings the changes of a copy back into its store", merge_copy});
  visit(UseCase<ConflictsRequest, ConflictsResponse>{
      "conflicts", "GET", "/api/conflicts", "lists what merging has left open, both sides of it", list_conflicts});
  visit(UseCase<SettleRequest, SettleResponse>{"settle", "POST", "/api/settlements", "settles one conflict",
                                               settle_conflict});
  for_each_access_use_case(visit);
  visit(UseCase<OpenRequest, ServeResponse>{
      "open", "POST", "", "opens the workbench at this machine: a store, or a page to choose one from",
      open_workbench});
  visit(UseCase<ServeRequest, ServeResponse>{"serve", "POST", "/api/serve", "opens the workbench in a browser",
                                             serve_workbench});
  visit(UseCase<DemoRequest, DemoResponse>{"demo", "POST", "/api/demo",
                                           "makes the demo site, checks and dates it, writes its report", make_demo});
}

}  // namespace sherd::desk
