#include "app/desk/difference_columns.h"

namespace backplate {

std::vector<ListColumn> difference_columns(std::vector<ListColumn> own) {
    for (const ListColumn& column : {ListColumn{"Price", 78, true},
                                     {"Wide", 46, true},
                                     {"W", 36, true},
                                     {"h", 42, true},
                                     {"Days", 40, true}})
        own.push_back(column);
    return own;
}

} // namespace backplate
