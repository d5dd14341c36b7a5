#include "app/command_line/unknown_name.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

namespace backplate {

void refuse_unknown(const std::string& name, const std::string& what,
                    const std::vector<std::string>& names) {
    constexpr std::size_t few = 40;
    std::string text = fmt::format("'{}' is no {}", name, what);
    if (const auto nearest = nearest_word(name, names); !nearest.empty())
        text += "; nearest: " + nearest;
    else if (!names.empty() && names.size() <= few)
        text += fmt::format("; expected one of {}", fmt::join(names, ", "));
    throw BadInput(text);
}

} // namespace backplate
