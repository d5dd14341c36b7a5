#pragma once

#include <map>
#include <optional>
#include <string>

#include "pricing/takeoff/lexicon.h"
#include "pricing/takeoff/list_answers.h"

namespace backplate {

/// The texts of a row that say what its point is, cleaned.
struct KindTexts {
    std::string type, electrics, address;
};

/// What a row stands for.
struct Verdict {
    enum class Is { point, question, bus, soft, not_wired };
    Is is = Is::question;
    SignalCounts signals; ///< of a point, none for "0 DI"; of a question what is proposed
    bool proposes = false;
    std::string reason; ///< of a question
    std::string bus;    ///< protocol
};

/// Reads type and electrics of one row; never guesses. The order decides: bus, soft, none, serial
/// port, safety, encoder, pulse output, counter, the four basic kinds, sensor words alone, and the
/// address (IEC 61131-3) only where the type is missing, a data type or only a direction. Then the
/// electrics: a transmitter's signal beats a sensor word. A type that names several kinds is read
/// piece by piece and added up.
Verdict classify(const KindTexts& texts, const Lexicon& lexicon);

/// The address lies in memory, in a timer or in a data block, so nothing can be wired to it.
bool is_memory_address(const std::string& address, const Lexicon& lexicon);

} // namespace backplate
