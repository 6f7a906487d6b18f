#include "db/stock.h"
