#include "db/undo.h"
