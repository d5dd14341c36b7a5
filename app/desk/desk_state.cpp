#include "app/desk/desk_state.h"

namespace backplate {

std::vector<std::string> DeskState::to_confirm(const std::string& pointer) const {
    std::vector<std::string> fields;
    std::string around;
    for (const auto& [place, field] : unconfirmed) {
        if (place == pointer || place.starts_with(pointer + "/")) fields.push_back(field);
        if (pointer.starts_with(place + "/")) around = field;
    }
    if (fields.empty() && !around.empty()) fields.push_back(around);
    return fields;
}

} // namespace backplate
