#include "demo/costs.h"

namespace sherd::demo {

CostBook cost_book() {
  CostBook out;
  out.rates = {{"task", "grade", "rate_day", "pace_low", "pace_likely", "pace_high", "currency", "reference"},
               {"scan", "specialist", "260", "150", "220", "300", "pounds", "invented"},
               {"detailed record", "specialist", "260", "35", "50", "70", "pounds", "invented"},
               {"checking", "specialist", "260", "180", "250", "320", "pounds", "invented"},
               {"drawing", "illustrator", "220", "", "", "", "pounds", "invented"},
               {"writing", "specialist", "260", "", "", "", "pounds", "invented"}};
  out.estimates = {
      {"estimate", "quote", "stage", "task", "grade", "basis", "amount", "sherds_low", "sherds_likely", "sherds_high",
       "hours_low", "hours_likely", "hours_high", "cost_low", "cost_likely", "cost_high", "currency", "made_on"},
      {"E1", "Q1", "assessment", "scan", "specialist", "boxes", "54", "60", "90", "130", "", "", "", "", "", "", "",
       "2026-02-10"},
      {"E2", "Q1", "analysis", "detailed record", "specialist", "boxes", "54", "60", "90", "130", "", "", "", "", "",
       "", "", "2026-02-10"},
      {"E3", "Q1", "analysis", "checking", "specialist", "boxes", "54", "60", "90", "130", "", "", "", "", "", "", "",
       "2026-02-10"},
      {"E4", "Q1", "analysis", "", "", "samples", "8", "", "", "", "", "", "", "35", "40", "55", "pounds",
       "2026-02-10"},
      {"E5", "Q1", "illustration", "drawing", "illustrator", "drawings", "30", "", "", "", "1", "1.5", "2.5", "", "",
       "", "", "2026-02-10"},
      {"E6", "Q1", "report", "writing", "specialist", "fixed", "1", "", "", "", "45", "60", "90", "", "", "", "",
       "2026-02-10"},
      {"E7", "Q1", "archive", "", "", "boxes", "54", "", "", "", "", "", "", "85", "85", "85", "pounds", "2026-02-10"}};
  out.hours = {{"entry", "stage", "task", "who", "worked_on", "hours"},
               {"H1", "assessment", "scan", "R1", "2026-03-06", "24.5"},
               {"H2", "analysis", "detailed record", "R1", "2026-03-27", "31"},
               {"H3", "analysis", "detailed record", "R1", "2026-04-10", "29.5"},
               {"H4", "analysis", "detailed record", "R2", "2026-04-17", "22"},
               {"H5", "analysis", "checking", "R2", "2026-04-24", "18"},
               {"H6", "analysis", "detailed record", "R1", "2026-05-08", "26"},
               {"H7", "illustration", "drawing", "R1", "2026-05-22", "21"}};
  return out;
}

}  // namespace sherd::demo
