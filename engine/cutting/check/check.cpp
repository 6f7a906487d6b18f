#include "engine/cutting/check/check.h"
