#pragma once

#include "desk/series/read_notation.h"
#include "notation/date.h"
#include "notation/firing.h"
#include "notation/mark_reading.h"
#include "notation/munsell.h"
#include "notation/scale.h"

/// Readings of `notation` as the response shows them.
namespace sherd::desk {

void show(const notation::DateReading& reading, NotationResponse& response);
void show(const notation::MarkReading& reading, NotationResponse& response);
void show(const notation::ColourReading& reading, NotationResponse& response);
void show(const notation::FiringReading& reading, NotationResponse& response);
void show(const notation::ScaleReading& reading, NotationResponse& response);

}  // namespace sherd::desk
