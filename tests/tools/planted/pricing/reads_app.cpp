// layer
#include "app/command_line/commands.h"
