#include "db/jobs.h"
