#pragma once

#include "methods/dating/result_context.h"
#include "methods/dating/result_object.h"
#include "methods/dating/result_stems.h"
