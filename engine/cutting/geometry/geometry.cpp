#include "engine/cutting/geometry/geometry.h"
