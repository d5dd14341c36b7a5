#pragma once

#include "app/command_line/commands.h"
#include "app/inputs.h"
#include "pricing/takeoff/take_off.h"

namespace backplate {

/// `takeoff LIST --against OLD`: points added, removed, of another kind or in another box, and with
/// --request what that does to the price, both lists fed into copies of the request. Returns the
/// exit status: not_as_asked where one of the two is not built.
int print_list_changes(const TakeoffArguments& arguments, const CommonArguments& common,
                       const Inputs& inputs, const TakeoffWish& wish);

} // namespace backplate
