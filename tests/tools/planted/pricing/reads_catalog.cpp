// layer
#include "catalog/cells/table.h"
