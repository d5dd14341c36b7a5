#pragma once

#include <map>
#include <string>

namespace backplate::electrical {

/// Check values of the electrical facts that no formula here gives, with the reason.
inline const std::map<std::string, const char*> uncomputed_checks{
    {"OC4", "every load counts as continuous: the safe side"},
    {"OC8", "motor feeders are no load of the control supply here"},
    {"OC9", "motor feeders are no load of the control supply here"},
    {"OC10", "no rating is a maximum here"},
    {"ME3", "duct rows hold wires of 2.6 mm, see the tests of the starter rules"},
    {"CO6", "no device above the ampacity of its conductor"},
    {"VD1", "no voltage drop is computed"},
    {"VD2", "no voltage drop is computed"},
    {"VD3", "no voltage drop is computed"},
    {"VD4", "no voltage drop is computed"},
    {"LP1", "no loop voltage is computed"},
    {"LP2", "no loop voltage is computed"},
    {"LP3", "no measured current is scaled"},
    {"LP4", "no measured current is judged"},
    {"DI1", "filters are data of modules"},
    {"RL1", "life of contacts is not estimated"},
    {"RL2", "life of contacts is not estimated"},
    {"PT1", "no temperature is measured"},
    {"PS1", "the supply's tolerance is no figure of an estimate"},
    {"PS2", "no class 2 circuit is claimed"},
    {"PS5", "no tripping is judged"},
    {"PD1", "contact ratings are data of parts"},
    {"ME2", "widths are data of parts"},
    {"ME5", "no working space is planned"},
};

} // namespace backplate::electrical
