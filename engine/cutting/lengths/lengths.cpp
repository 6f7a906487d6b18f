#include "engine/cutting/lengths/lengths.h"
