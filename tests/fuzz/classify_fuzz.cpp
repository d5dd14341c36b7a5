// Any texts as the cells of a row: type, electrics, address, tag and quantity, parted by the byte
// 0x1E. None may be read beyond its end, and squeezing must be stable.
#include <array>
#include <cstdint>
#include <cstdlib>

#include "pricing/takeoff/classify.h"
#include "pricing/takeoff/row_facts.h"
#include "pricing/takeoff/tags.h"
#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const Lexicon lexicon(tests::starter_rules().spellings);
    std::array<std::string, 5> cells;
    std::size_t cell = 0;
    for (std::size_t i = 0; i < size; ++i) {
        if (data[i] == 0x1E && cell + 1 < cells.size())
            ++cell;
        else
            cells[cell] += static_cast<char>(data[i]);
    }
    for (std::string& text : cells) text = clean_text(text);
    const Verdict verdict = classify({cells[0], cells[1], cells[2]}, lexicon);
    for (const auto& [signal, count] : verdict.signals)
        if (count < 1 || signal.empty()) std::abort();
    tag_warning(cells[3], lexicon);
    if (const auto tags = tags_in_range(cells[3]); tags && *tags < 2) std::abort();
    if (read_quantity(cells[4], lexicon).pieces < 0) std::abort();
    const Squeezed squeezed = squeeze(cells[0]);
    if (squeezed.starts.size() != squeezed.text.size() + 1) std::abort();
    return 0;
}
