#include "engine/job/job.h"
