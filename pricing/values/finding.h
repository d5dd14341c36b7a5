#pragma once

#include <string>
#include <utility>
#include <vector>

namespace backplate {

enum class Severity { note, warning, stop };

/// A doubt. Title, severity and text are the row `code` of the findings table; the parameters
/// are texts already printed. At most one finding per code and box, or per job.
struct Finding {
    std::string code;
    Severity severity = Severity::note;
    std::string where; ///< JSON pointer into the request, or `#` + pointer into the estimate
    std::vector<std::pair<std::string, std::string>> params;
};

/// One printed assumption: the first absent key of its group.
struct Assumption {
    std::string field; ///< JSON pointer into the request
    std::string value; ///< JSON text of the value taken
    std::string unit;  ///< empty: none
    std::string rule;  ///< defaults/KEY
    std::string text;
};

} // namespace backplate
