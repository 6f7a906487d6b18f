#include "engine/stock/to_buy.h"
