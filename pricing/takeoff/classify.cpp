#include "pricing/takeoff/classify.h"

#include <set>
#include <vector>

namespace backplate {
namespace {

using Is = Verdict::Is;

Verdict point(std::string signal) { return {Is::point, {{std::move(signal), 1}}, false, {}, {}}; }

Verdict question(std::string reason) { return {Is::question, {}, false, std::move(reason), {}}; }

Verdict question(std::string reason, std::string proposed) {
    return {Is::question, {{std::move(proposed), 1}}, true, std::move(reason), {}};
}

/// What the electrics say, one flag per meaning.
struct Electrics {
    bool milliamps, volts, rtd, thermocouple, resistance, bridge;
    bool relay, contact, mains, dc24, other_dc, namur, npn, counter, solid_state, safety;

    Electrics(const Squeezed& text, const Lexicon& lexicon)
        : milliamps(lexicon.says(text, "milliamps")), volts(lexicon.says(text, "volts")),
          rtd(lexicon.says(text, "RTD")), thermocouple(lexicon.says(text, "TC")),
          resistance(lexicon.says(text, "AI_R")), bridge(lexicon.says(text, "AI_BRIDGE")),
          relay(lexicon.says(text, "relay")),
          contact(lexicon.words_said(text, "wiring").contains("contact")),
          mains(lexicon.says(text, "mains")), dc24(lexicon.says(text, "dc24")),
          other_dc(!dc24 && lexicon.says(text, "dc")), namur(lexicon.says(text, "namur")),
          npn(lexicon.says(text, "npn")), counter(lexicon.says(text, "CNT")),
          solid_state(lexicon.says(text, "solid_state")), safety(lexicon.says(text, "safety")) {}

    bool analogue() const { return milliamps || volts || sensors() > 0; }
    bool switched() const { return relay || contact || mains || namur || counter; }
    int sensors() const { return int(rtd) + int(thermocouple) + int(resistance) + int(bridge); }
};

Verdict sensor(const Electrics& electrics) {
    if (electrics.sensors() > 1) return question("contradiction");
    if (electrics.bridge) return question("load_cell", "AI_BRIDGE");
    if (electrics.rtd) return point("RTD");
    return point(electrics.thermocouple ? "TC" : "AI_R");
}

Verdict digital_input(const Electrics& electrics, const Lexicon& lexicon, const Squeezed& text) {
    if (electrics.safety)
        return lexicon.says(text, "dual_channel")
                   ? Verdict{Is::question, {{"DI_SAFE", 2}}, true, "dual_channel", {}}
                   : point("DI_SAFE");
    if (electrics.analogue() && !electrics.switched() && !electrics.dc24)
        return question("contradiction");
    if (electrics.namur) return point("DI_NAMUR");
    if (electrics.mains) return point("DI_AC");
    if (electrics.other_dc) return question("contradiction");
    if (electrics.counter) return point("CNT");
    return point(electrics.npn ? "DI_NPN" : "DI");
}

Verdict digital_output(const Electrics& electrics) {
    if (electrics.safety) return point("DO_SAFE");
    if (electrics.relay || electrics.contact) return point("DO_RELAY");
    if (electrics.mains)
        return electrics.solid_state ? point("DO_AC") : question("do_mains", "DO_RELAY");
    if (electrics.other_dc || (electrics.analogue() && !electrics.dc24))
        return question("contradiction");
    return point("DO");
}

Verdict analogue_input(const Electrics& electrics) {
    if (electrics.milliamps && electrics.volts) return question("contradiction");
    if (electrics.milliamps) return point("AI_MA");
    if (electrics.volts) return point("AI_V");
    if (electrics.sensors() > 0) return sensor(electrics);
    if (electrics.switched()) return question("contradiction");
    return question("ai_range_missing", "AI_MA");
}

Verdict analogue_output(const Electrics& electrics) {
    if (electrics.milliamps != electrics.volts)
        return point(electrics.milliamps ? "AO_MA" : "AO_V");
    if (electrics.milliamps || electrics.sensors() > 0 || electrics.switched())
        return question("contradiction");
    return question("ao_range_missing", "AO_MA");
}

/// The basic kinds that a nature and a direction name: "digital input".
std::set<std::string> kinds_by_words(const Squeezed& text, const Lexicon& lexicon) {
    std::set<std::string> kinds;
    for (const char* nature : {"digital", "analogue"})
        for (const char* direction : {"input", "output"})
            if (lexicon.says(text, nature) && lexicon.says(text, direction))
                kinds.insert(std::string(*nature == 'd' ? "D" : "A") +
                             (*direction == 'i' ? "I" : "O"));
    return kinds;
}

/// The basic kinds that the text names: by their codes, else by a nature and a direction.
std::set<std::string> basic_kinds(const Squeezed& text, const Lexicon& lexicon) {
    std::set<std::string> kinds;
    for (const char* kind : {"DI", "DO", "AI", "AO"})
        if (lexicon.says(text, kind)) kinds.insert(kind);
    return kinds.empty() ? kinds_by_words(text, lexicon) : kinds;
}

Verdict resolve(const std::string& kind, const Squeezed& text, const Lexicon& lexicon) {
    const Electrics electrics(text, lexicon);
    if (kind == "DI") return digital_input(electrics, lexicon, text);
    if (kind == "DO") return digital_output(electrics);
    return kind == "AI" ? analogue_input(electrics) : analogue_output(electrics);
}

std::optional<Verdict> by_signal_word(const Squeezed& kind, const Lexicon& lexicon) {
    for (const std::string signal : {"SERIAL", "IO_LINK", "ENC", "PWM", "CNT"}) {
        if (!lexicon.says(kind, signal)) continue;
        const bool counts_an_output = signal == "CNT" && basic_kinds(kind, lexicon).contains("DO");
        return counts_an_output ? question("contradiction") : point(signal);
    }
    return std::nullopt;
}

/// A row without a basic kind: sensor words alone; a relay only where the type itself says so.
std::optional<Verdict> by_words_alone(const Squeezed& type, const Squeezed& all,
                                      const Lexicon& lexicon) {
    const Electrics in_type(type, lexicon), in_all(all, lexicon);
    if (in_type.sensors() > 0 || (type.empty() && in_all.sensors() > 0))
        return analogue_input(in_all);
    if (in_type.namur) return point("DI_NAMUR");
    if (in_type.relay || in_type.solid_state) return digital_output(in_all);
    return std::nullopt;
}

/// `direction`: I or O where the type names it.
std::optional<Verdict> by_address(const KindTexts& texts, const Squeezed& all,
                                  const Lexicon& lexicon, std::string_view direction) {
    // Short forms without a mark are only trusted where nothing else says the kind.
    const Squeezed address = squeeze(texts.address);
    if (is_memory_address(texts.address, lexicon) || lexicon.is(address, "memory_short"))
        return Verdict{Is::soft, {}, false, {}, {}};
    const auto kinds = lexicon.words_said(address, "address");
    if (kinds.size() != 1) return std::nullopt;
    if (!kinds.begin()->ends_with(direction)) return question("contradiction");
    return resolve(*kinds.begin(), all, lexicon);
}

std::string number_after(const std::optional<Match>& match) {
    return match && match->numbers.size() == 1 ? match->numbers[0] : "";
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }

/// Counts set apart from what they count: "DI(2) DO(1)" as "DI x2; DO x1;", "2xDI" as "2x DI".
std::string with_counts_apart(const std::string& type) {
    std::string text;
    for (std::size_t i = 0; i < type.size(); ++i) {
        const auto close = type.find(')', i);
        const bool count = type[i] == '(' && close != std::string::npos && close > i + 1 &&
                           type.find_first_not_of("0123456789", i + 1) == close;
        const bool times = (type[i] == 'x' || type[i] == 'X') && i > 0 && is_digit(type[i - 1]) &&
                           i + 1 < type.size() && is_letter(type[i + 1]);
        if (count) {
            text += " x" + type.substr(i + 1, close - i - 1) + ";";
            i = close;
        } else {
            text += type[i];
            if (times) text += ' ';
        }
    }
    return text;
}

/// How many of its kind a piece of a type cell names: "2×DI", "DI x2", "4 x RTD"; else 1.
int pieces_of(const std::string& piece, const Lexicon& lexicon) {
    const std::string number = number_after(lexicon.find(squeeze(piece), "pieces_of_kind"));
    if (number.empty() || number.size() > 4 || number.find('.') != std::string::npos) return 1;
    return std::stoi(number);
}

std::optional<Verdict> known_verdict(const Squeezed& type, const KindTexts& texts,
                                     const Squeezed& all, const Lexicon& lexicon) {
    const Squeezed& kind = type.empty() ? all : type;
    if (auto verdict = by_signal_word(kind, lexicon)) return verdict;
    const auto kinds = basic_kinds(kind, lexicon);
    if (kinds.size() == 1) return resolve(*kinds.begin(), all, lexicon);
    if (!kinds.empty()) return std::nullopt;
    if (auto verdict = by_words_alone(type, all, lexicon)) return verdict;
    const bool in = lexicon.says(type, "input"), out = lexicon.says(type, "output");
    const bool nature = lexicon.says(type, "digital") || lexicon.says(type, "analogue");
    // The nature may stand in one column and the direction in the other.
    const auto of_both = in != out || nature ? kinds_by_words(all, lexicon) : kinds;
    if (of_both.size() == 1) return resolve(*of_both.begin(), all, lexicon);
    const bool range = lexicon.says(type, "milliamps") || lexicon.says(type, "volts");
    if (range && in != out) return resolve(in ? "AI" : "AO", all, lexicon); // "0-10 V input"
    if (type.empty() || in != out || lexicon.says(type, "data_type"))
        return by_address(texts, all, lexicon, in == out ? "" : in ? "I" : "O");
    return std::nullopt;
}

/// One piece of a type cell that names at most one kind.
Verdict classify_piece(const std::string& piece, const KindTexts& texts, const Lexicon& lexicon) {
    Squeezed type = squeeze(piece);
    if (lexicon.is(type, "filler")) type = squeeze("");
    const Squeezed all = squeeze(piece + " " + texts.electrics);
    if (auto verdict = known_verdict(type, texts, all, lexicon)) {
        for (auto& [signal, count] : verdict->signals) count *= pieces_of(piece, lexicon);
        const bool none =
            std::erase_if(verdict->signals, [](const auto& each) { return each.second == 0; }) > 0;
        return none ? Verdict{Is::point, {}, false, {}, {}} : *verdict;
    }
    if (type.empty()) return question("type_blank");
    return question(basic_kinds(type, lexicon).size() > 1 ? "io_unspecific" : "type_unknown");
}

std::vector<std::string> split_pieces(const std::string& type) {
    std::vector<std::string> pieces(1);
    for (const char c : type) {
        if (std::string_view("+,;/&").find(c) != std::string_view::npos)
            pieces.emplace_back();
        else
            pieces.back() += c;
    }
    return pieces;
}

/// Adds up the pieces of a type such as "3 DI, 1 DO, 1 AI 4-20 mA"; a question in one of them is
/// a question of the whole row.
Verdict classify_several(const KindTexts& texts, const Lexicon& lexicon) {
    Verdict sum{Is::point, {}, false, {}, {}};
    for (const std::string& piece : split_pieces(texts.type)) {
        if (squeeze(piece).empty()) continue;
        const Verdict verdict = classify_piece(piece, texts, lexicon);
        if (verdict.is != Is::point) return question("io_unspecific");
        for (const auto& [signal, count] : verdict.signals) sum.signals[signal] += count;
    }
    return sum;
}

} // namespace

bool is_memory_address(const std::string& address, const Lexicon& lexicon) {
    return lexicon.begins(squeeze(address), "memory");
}

Verdict classify(const KindTexts& texts, const Lexicon& lexicon) {
    const Squeezed type = squeeze(texts.type), all = squeeze(texts.type + " " + texts.electrics);
    const auto buses = lexicon.words_said(all, "bus");
    if (!buses.empty()) return {Is::bus, {}, false, {}, *buses.begin()};
    if (lexicon.says(type, "soft")) return {Is::soft, {}, false, {}, {}};
    if (lexicon.is_written(texts.type, "unspecific")) return question("io_unspecific");
    if (lexicon.is(type, "not_wired")) return {Is::not_wired, {}, false, {}, {}};
    const KindTexts counted{with_counts_apart(texts.type), texts.electrics, texts.address};
    if (basic_kinds(squeeze(counted.type), lexicon).size() > 1)
        return classify_several(counted, lexicon);
    return classify_piece(counted.type, counted, lexicon);
}

} // namespace backplate
