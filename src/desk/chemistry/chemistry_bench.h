#pragma once

#include <string>

#include "desk/chemistry/chemistry.h"
#include "desk/chemistry/import_readings.h"
#include "desk/chemistry/list_samples.h"
#include "desk/chemistry/list_standards.h"
#include "desk/site/import_bench.h"

/// For the tests of the chemistry: a small site with five lines, three standards and a run of readings.
namespace sherd::desk {

class ChemistryBench : public ImportBench {
 protected:
  explicit ChemistryBench(Result<std::unique_ptr<Store>> store) : ImportBench(std::move(store)) {
    take("sherds",
         "record,context,fabric,count\n1,1,grey-1,3\n2,1,grey-1,1\n3,2,grey-1,2\n4,2,green-1,1\n5,2,green-1,4\n");
    take("standards", "standard,name,checked_by\nB1,brick one,KM\nB2,brick two,KM\nB3,brick three,KM\n");
    take("certified",
         "standard,analyte,unit,value,uncertainty,uncertainty_kind\nB1,Fe,percent,2,0.04,expanded\n"
         "B2,Fe,percent,4,0.08,expanded\nB3,Fe,percent,6,0.1,expanded\nB1,Zr,ppm,100,,\nB2,Zr,ppm,200,,\nB3,Zr,ppm,"
         "300,,\n");
  }

  Result<ImportReadingsResponse> read(const std::string& text, ImportReadingsRequest request = {}) {
    request.store = "x.sherds";
    request.file = "r" + std::to_string(++number_) + ".csv";
    must(desk_.files.write(request.file, text));
    return import_readings(request, desk_.environment, desk_.progress);
  }
  ImportReadingsResponse taken(const std::string& text, const ImportReadingsRequest& request = {}) {
    ImportReadingsResponse answer = must(read(text, request));
    EXPECT_TRUE(answer.ok()) << (answer.errors.empty() ? "" : answer.errors.front().message);
    return answer;
  }
  Result<ChemistryResponse> study(const ChemistryChoice& choice, const DeliveryRequest& delivery = {}) {
    ChemistryRequest request{choice, delivery};
    if (request.store.empty()) request.store = "x.sherds";
    return study_chemistry(request, desk_.environment, desk_.progress);
  }

  /// Iron read as 0.1 + 1.05 of what it is, zirconium as it is.
  static constexpr const char* kRun =
      "reading,sample,chem_group,Fe_pct,Zr_ppm,Nb_ppm\n1,B1,,2.2,100,8\n2,B2,,4.3,200,<5\n3,B3,,6.4,300,<5\n"
      "4,1,clay-a,3.25,150,<5\n5,1,clay-a,3.25,152,<5\n6,2,clay-a,4.3,170,<5\n7,3,clay-b,5.35,250,9\n"
      "8,4,clay-b,5.35,260,<5\n9,5,clay-b,5.56,255,<5\n";

 private:
  int number_ = 0;
};

}  // namespace sherd::desk
