// layer
#include "reports/wording.h"
