#pragma once

#include <string>
#include <vector>

#include "desk/archive/archive_about.h"
#include "desk/archive/archive_folder.h"
#include "desk/archive/archive_tables.h"

/// What an archive says of itself for programs and for readers.
namespace sherd::desk {

/// datapackage.json: a Tabular Data Package with every CSV table that is given (Frictionless Data Package,
/// specification 1.0: specs.frictionlessdata.io/tabular-data-package).
std::string data_package(const ArchiveAbout& about, const std::vector<ArchivedTable>& tables,
                         const std::vector<ArchivedFile>& files, std::int64_t next_record);

/// Field-level and table-level metadata with the headings of the Archaeology Data Service's template for databases.
std::string fields_csv(const std::vector<ArchivedTable>& tables);
std::string tables_csv(const std::vector<ArchivedTable>& tables);
/// The closed lists, and the scales whose words the record uses.
std::string codes_csv(const std::vector<ArchivedTable>& tables);
std::string scales_csv();
/// File-level metadata with the headings of the same template.
std::string files_csv(const ArchiveAbout& about, const std::vector<ArchivedFile>& files);
/// The collection as a whole: what the template for it asks for and the record can say.
std::string collection_csv(const ArchiveAbout& about);
/// The fifteen elements of the Dublin Core Metadata Element Set 1.1 (ISO 15836-1), in XML.
std::string dublin_core(const ArchiveAbout& about);

/// README.txt.
std::string archive_readme(const ArchiveAbout& about, const ArchivedTables& tables,
                           const std::vector<ArchivedFile>& files, const std::vector<std::string>& left_out);

}  // namespace sherd::desk
