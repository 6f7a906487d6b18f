#include "engine/stock/stock.h"
