#pragma once

#include "model/analyte.h"
#include "model/mark_tables.h"
#include "model/munsell_table.h"
#include "model/period.h"
#include "model/scales.h"

/// The reference tables that are built into the program, read once. They are in data/reference, each row with its
/// source. A table that does not fit stops the program with a message: its bytes are the program's own.
namespace sherd::reference {

const AtomicWeights& atomic_weights();
/// What is known beforehand of reading each element by X-ray fluorescence.
const std::vector<ElementAdviceRow>& element_advice();
const DiamondTables& diamonds();
const MarkTables& marks();
const MunsellTable& munsell();
const ScaleTables& scales();
/// Periods by authority, then reigns and ruling houses.
const PeriodTable& periods();

}  // namespace sherd::reference
