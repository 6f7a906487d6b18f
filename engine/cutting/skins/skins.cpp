#include "engine/cutting/skins/skins.h"
