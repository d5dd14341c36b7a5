#pragma once

#include <string>
#include <vector>

#include "pricing/request/bid_request.h"

namespace backplate {

/// How the points of a box are shared over several boxes.
enum class Shares {
    even,    ///< of every line of points as many to each box, what is left over in turn
    together ///< line after line, each box full before the next: a line stands in few boxes
};

/// Which controllers the further boxes have.
enum class Controllers {
    each, ///< one of its own each; where another box leads the parted one, that one leads them too
    one   ///< they are stations of the parted box
};

/// A box of a request that becomes several.
struct Parting {
    std::size_t box = 0; ///< place in the request
    int boxes = 2;       ///< with the parted one, at least 2
    Shares shares = Shares::even;
    Controllers controllers = Controllers::each;
};

/// Lines of points and then assemblies of the request: so many pieces of each stand in a box.
using BoxShare = std::vector<int>;

/// The shares of the boxes, the parted one first; every line's shares add up to its count. Lines
/// that come with an assembly are not among them.
std::vector<BoxShare> shares_of(const Box& box, int boxes, Shares shares);

struct PartedBox {
    Node boxes;                     ///< member `boxes` of the change that parts it
    std::vector<std::string> names; ///< of the further boxes, borne by no box before
};

/// The parted box keeps its equipment, parts kept by hand, work and existing plate; the further
/// boxes have its site and its other choices. Lists of points are parted with their lines.
PartedBox part_box(const BidRequest& request, const Parting& how);

/// What becomes of the options of a request where boxes are parted.
struct OptionsAfter {
    Node options;                      ///< null: none of them names a parted box
    std::vector<std::string> left_out; ///< titles of those that change what was shared out
};

/// An option that changes site or choices of the box `name` changes them of `further` too; one that
/// changes what was shared out is left out.
OptionsAfter options_after(const Node& options, const std::string& name,
                           const std::vector<std::string>& further);

} // namespace backplate
