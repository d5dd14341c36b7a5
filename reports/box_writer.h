#pragma once

#include "reports/figure_writer.h"

namespace backplate {

/// Writes the members of a box of an estimate; where nothing builds it, its figures are null.
class BoxWriter : public FigureWriter {
public:
    BoxWriter(int digits, bool buildable) : FigureWriter(digits), buildable_(buildable) {}

protected:
    void box_members(const BoxResult& box);

private:
    void stations(const BoxResult& box);
    void supply_members(const SupplyResult& supply);
    void heat(const BoxResult& box);
    void enclosures(const BoxResult& box);
    void protection(const BoxResult& box);
    void incoming(const BoxResult& box);

    bool buildable_;
};

} // namespace backplate
