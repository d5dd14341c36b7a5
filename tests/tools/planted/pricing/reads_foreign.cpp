// foreign header
#include <nlohmann/json_fwd.hpp>
