#include "engine/cutting/sheets/sheets.h"
