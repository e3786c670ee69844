#pragma once

#include <string>
#include <vector>

#include "desk/use_cases.h"

/// Responses as text for a person at a terminal, and as the rows of a CSV table.
namespace sherd::cli {

std::string text_of(const desk::NewResponse& response);
std::string text_of(const desk::ImportResponse& response);
std::string text_of(const desk::SiteResponse& response);
std::string text_of(const desk::LinesResponse& response);
std::string text_of(const desk::RowsResponse& response);
std::string text_of(const desk::EditsResponse& response);
std::string text_of(const desk::QueueResponse& response);
std::string text_of(const desk::FindResponse& response);
std::string text_of(const desk::SimilarResponse& response);
std::string text_of(const desk::LinksResponse& response);
std::string text_of(const desk::ScanResponse& response);
std::string text_of(const desk::ProgressResponse& response);
std::string text_of(const desk::ReceiveResponse& response);
std::string text_of(const desk::NotationResponse& response);
std::string text_of(const desk::ReportResponse& response);
std::string text_of(const desk::ServeResponse& response);
std::string text_of(const desk::AccountsResponse& response);
std::string text_of(const desk::CheckResponse& response);
std::string text_of(const desk::TallyResponse& response);
std::string text_of(const desk::CompareResponse& response);
std::string text_of(const desk::PublishedResponse& response);
std::string text_of(const desk::AddPublishedResponse& response);
std::string text_of(const desk::DateResponse& response);
std::string text_of(const desk::SensitivityResponse& response);
std::string text_of(const desk::StratigraphyResponse& response);
std::string text_of(const desk::RephaseResponse& response);
std::string text_of(const desk::SpotDatesResponse& response);
std::string text_of(const desk::HistoryResponse& response);
std::string text_of(const desk::BackupResponse& response);
std::string text_of(const desk::DemoResponse& response);
std::string text_of(const desk::VerifyResponse& response);
std::string text_of(const desk::CopyResponse& response);
std::string text_of(const desk::MergeResponse& response);
std::string text_of(const desk::ConflictsResponse& response);
std::string text_of(const desk::SettleResponse& response);
std::string text_of(const desk::WhenResponse& response);
std::string text_of(const desk::EvidenceResponse& response);
std::string text_of(const desk::MeanDatesResponse& response);
std::string text_of(const desk::StemBoresResponse& response);
std::string text_of(const desk::SeriesResponse& response);
std::string text_of(const desk::IdentifyResponse& response);
std::string text_of(const desk::CodeChangeResponse& response);
std::string text_of(const desk::CallsResponse& response);
std::string text_of(const desk::ExportResponse& response);
std::string text_of(const desk::LoansResponse& response);
std::string text_of(const desk::SelectionResponse& response);
std::string text_of(const desk::BoxesResponse& response);
std::string text_of(const desk::LabelsResponse& response);
std::string text_of(const desk::DepositResponse& response);
std::string text_of(const desk::ArchiveResponse& response);
std::string text_of(const desk::PickListResponse& response);
std::string text_of(const desk::CardsResponse& response);
std::string text_of(const desk::KeyResponse& response);
std::string text_of(const desk::GlossaryResponse& response);
std::string text_of(const desk::ReadabilityResponse& response);
std::string text_of(const desk::ImportReadingsResponse& response);
std::string text_of(const desk::StandardsResponse& response);
std::string text_of(const desk::SamplesResponse& response);
std::string text_of(const desk::ChemistryResponse& response);
std::string text_of(const desk::RimResponse& response);
std::string text_of(const desk::PiecesResponse& response);
std::string text_of(const desk::SectionResponse& response);
std::string text_of(const desk::JoinPiecesResponse& response);
std::string text_of(const desk::RemoveSectionResponse& response);
std::string text_of(const desk::CapacityResponse& response);
std::string text_of(const desk::MatchResponse& response);
std::string text_of(const desk::DrawResponse& response);
std::string text_of(const desk::PlateResponse& response);
std::string text_of(const desk::RimChartResponse& response);
std::string text_of(const desk::CardsResponse& response);
std::string text_of(const desk::DrawingsResponse& response);
std::string text_of(const desk::RenumberResponse& response);
std::string text_of(const desk::BriefResponse& response);

using CsvRows = std::vector<std::vector<std::string>>;

/// Empty where the response has no table.
inline CsvRows table_of(const desk::Reply&) { return {}; }
CsvRows table_of(const desk::ImportResponse& response);
CsvRows table_of(const desk::AccountsResponse& response);
CsvRows table_of(const desk::LinesResponse& response);
CsvRows table_of(const desk::RowsResponse& response);
CsvRows table_of(const desk::EditsResponse& response);
CsvRows table_of(const desk::QueueResponse& response);
CsvRows table_of(const desk::FindResponse& response);
CsvRows table_of(const desk::SimilarResponse& response);
CsvRows table_of(const desk::LinksResponse& response);
CsvRows table_of(const desk::ScanResponse& response);
CsvRows table_of(const desk::ReceiveResponse& response);
CsvRows table_of(const desk::CheckResponse& response);
CsvRows table_of(const desk::TallyResponse& response);
CsvRows table_of(const desk::CompareResponse& response);
CsvRows table_of(const desk::PublishedResponse& response);
CsvRows table_of(const desk::DateResponse& response);
CsvRows table_of(const desk::SensitivityResponse& response);
CsvRows table_of(const desk::StratigraphyResponse& response);
CsvRows table_of(const desk::RephaseResponse& response);
CsvRows table_of(const desk::SpotDatesResponse& response);
CsvRows table_of(const desk::HistoryResponse& response);
CsvRows table_of(const desk::ConflictsResponse& response);
CsvRows table_of(const desk::WhenResponse& response);
CsvRows table_of(const desk::EvidenceResponse& response);
CsvRows table_of(const desk::MeanDatesResponse& response);
CsvRows table_of(const desk::SeriesResponse& response);
CsvRows table_of(const desk::IdentifyResponse& response);
CsvRows table_of(const desk::CodeChangeResponse& response);
CsvRows table_of(const desk::CallsResponse& response);
CsvRows table_of(const desk::LoansResponse& response);
CsvRows table_of(const desk::SelectionResponse& response);
CsvRows table_of(const desk::BoxesResponse& response);
CsvRows table_of(const desk::PickListResponse& response);
CsvRows table_of(const desk::CardsResponse& response);
CsvRows table_of(const desk::KeyResponse& response);
CsvRows table_of(const desk::GlossaryResponse& response);
CsvRows table_of(const desk::DepositResponse& response);
CsvRows table_of(const desk::ArchiveResponse& response);
CsvRows table_of(const desk::ImportReadingsResponse& response);
CsvRows table_of(const desk::StandardsResponse& response);
CsvRows table_of(const desk::SamplesResponse& response);
CsvRows table_of(const desk::ChemistryResponse& response);
CsvRows table_of(const desk::RimResponse& response);
CsvRows table_of(const desk::PiecesResponse& response);
CsvRows table_of(const desk::CapacityResponse& response);
CsvRows table_of(const desk::MatchResponse& response);
CsvRows table_of(const desk::PlateResponse& response);
CsvRows table_of(const desk::DrawingsResponse& response);
CsvRows table_of(const desk::RenumberResponse& response);

/// "sherdwright: rows.csv, row 12, column count: a count of 0 sherds\n  hint". Further lines of a message, such as a
/// caret under the place, stand under its first.
std::string error_text(const Error& error);

}  // namespace sherd::cli
