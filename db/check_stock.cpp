#include "db/check.h"
