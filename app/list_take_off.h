#pragma once

#include <string>

#include "pricing/takeoff/propose_assemblies.h"
#include "pricing/takeoff/take_off.h"

namespace backplate {

/// A list file and what it gives.
struct TakenList {
    ListReading reading;
    std::vector<ListSheet> sheets; ///< as they were read
    Takeoff takeoff;
    std::vector<ProposedAssembly> assemblies;
};

/// Reads a list and takes it off. Throws RefusedList (nothing_found among its reasons), BadInput
/// where it lacks the sheet, OutsideFault, Stopped.
TakenList take_list(const std::string& path, const RuleBook& rules, const TakeoffWish& wish);

/// What the library remembers for the client; nothing in it for the starter data, an empty name or
/// an unknown client.
ListAnswers remembered_for(const std::string& library, const std::string& client,
                           const RuleBook& rules);

/// Says at every open question what the client's earlier answer was.
void offer_answers(Takeoff& takeoff, const ListAnswers& remembered);

/// Keeps the answers for the client, those for single rows and sheets left out, in the place of
/// earlier ones to the same question, and what they teach as rule rows. Returns the number of new
/// rows. Throws BadInput for the starter data.
int remember_for(const std::string& library, const std::string& client, const ListAnswers& answers,
                 const RuleBook& rules);

} // namespace backplate
