#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// Does neither the dust nor the corrosion of the place forbid the stage of cooling, or the
/// material of the enclosure; rows of the table site_limits. Source: climate-and-supply 4 (ingress
/// rule table), electrical-facts 3 (site table).
bool place_allows_stage(const Site& site, const std::string& stage, const RuleBook& rules);
bool place_allows_material(const Site& site, const std::string& material, const RuleBook& rules);

/// "IP66 or Type 4X": the marks of which the place asks for one at least where the mark asked meets
/// none of them; empty where it is enough. Source: electrical-facts 3 (site table; types that are
/// for indoor use only).
std::string marks_of_place(const Site& site, const RuleBook& rules);

/// "stainless, glass_reinforced": the materials that the place allows; empty where it allows any.
std::string allowed_materials(const Site& site, const RuleBook& rules);

} // namespace backplate
