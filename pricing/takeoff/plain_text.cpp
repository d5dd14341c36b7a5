#include "pricing/takeoff/plain_text.h"

#include <algorithm>
#include <array>

namespace backplate {
namespace {

/// The code point at `at` of UTF-8 text; steps over it. A broken byte stands for itself.
char32_t next_point(std::string_view text, std::size_t& at) {
    const auto lead = static_cast<unsigned char>(text[at++]);
    const int more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC0 ? 1 : 0;
    if (more == 0 || at + static_cast<std::size_t>(more) > text.size()) return lead;
    char32_t point = lead & (0x3Fu >> more);
    for (int i = 0; i < more; ++i)
        point = (point << 6) | (static_cast<unsigned char>(text[at++]) & 0x3Fu);
    return point;
}

bool is_blank(char32_t point) {
    return point <= 0x20 || point == 0xA0 || (point >= 0x2000 && point <= 0x200A) ||
           point == 0x2028 || point == 0x2029 || point == 0x202F || point == 0x205F ||
           point == 0x3000;
}

/// Zero width, direction marks, soft hyphen, byte order mark.
bool is_unseen(char32_t point) {
    return point == 0xAD || point == 0xFEFF || (point >= 0x200B && point <= 0x200F) ||
           (point >= 0x202A && point <= 0x202E) || (point >= 0x2060 && point <= 0x2069);
}

struct Fold {
    std::u32string_view from;
    std::string_view to;
};

/// Letters taken as one for comparing; Cyrillic and Greek ones that look like Latin ones too.
constexpr std::array<Fold, 26> folds{
    Fold{U"àáâãäåāăąа", "a"}, Fold{U"çćčс", "c"},     Fold{U"ďđ", "d"},
    Fold{U"èéêëēėęěеё", "e"}, Fold{U"ğģ", "g"},       Fold{U"ìíîïīįıİ", "i"},
    Fold{U"ķк", "k"},         Fold{U"ļľł", "l"},      Fold{U"м", "m"},
    Fold{U"ñńņň", "n"},       Fold{U"òóôõöøőо", "o"}, Fold{U"р", "p"},
    Fold{U"ŕř", "r"},         Fold{U"śşš", "s"},      Fold{U"ţťт", "t"},
    Fold{U"ùúûüūůűų", "u"},   Fold{U"х", "x"},        Fold{U"ýÿу", "y"},
    Fold{U"źżž", "z"},        Fold{U"н", "h"},        Fold{U"в", "b"},
    Fold{U"і", "i"},          Fold{U"ß", "ss"},       Fold{U"æ", "ae"},
    Fold{U"œ", "oe"},         Fold{U"µ", "μ"}};

char32_t lower(char32_t point) {
    if (point >= 0xFF01 && point <= 0xFF5E) point -= 0xFEE0;
    if (point >= 'A' && point <= 'Z') return point + 32;
    if (point >= 0xC0 && point <= 0xDE && point != 0xD7) return point + 32;
    if (point >= 0x391 && point <= 0x3A9) return point + 32;
    if (point >= 0x410 && point <= 0x42F) return point + 32;
    if (point >= 0x400 && point <= 0x40F) return point + 80;
    const bool odd_pair = (point >= 0x139 && point <= 0x148) || (point >= 0x179 && point <= 0x17E);
    if (odd_pair) return point % 2 == 1 ? point + 1 : point;
    if (point >= 0x100 && point <= 0x177 && point != 0x130) return point | 1u;
    return point;
}

void append_point(std::string& text, char32_t point) {
    const auto byte = [&](char32_t value) { text += static_cast<char>(value); };
    if (point < 0x80) return byte(point);
    if (point < 0x800) {
        byte(0xC0 | (point >> 6));
    } else if (point < 0x10000) {
        byte(0xE0 | (point >> 12));
        byte(0x80 | ((point >> 6) & 0x3F));
    } else {
        byte(0xF0 | (point >> 18));
        byte(0x80 | ((point >> 12) & 0x3F));
        byte(0x80 | ((point >> 6) & 0x3F));
    }
    byte(0x80 | (point & 0x3F));
}

enum class Class { dropped, letter, digit, single };

Class class_of(char32_t point) {
    if (point >= '0' && point <= '9') return Class::digit;
    if (point == '%' || point == '#' || point == 0xB1 || point == 0xD7) return Class::single;
    if (point < 0x80) return point >= 'a' && point <= 'z' ? Class::letter : Class::dropped;
    if (point < 0xC0) return point == 0xB5 ? Class::letter : Class::dropped;
    if (point == 0xF7) return Class::dropped; // ÷ as a dash between two ends of a range
    if (point < 0x2000) return Class::letter;
    const bool script_without_blanks = (point >= 0x3041 && point <= 0x30FF && point != 0x30FB) ||
                                       (point >= 0x3400 && point <= 0x9FFF) ||
                                       (point >= 0xAC00 && point <= 0xD7AF) ||
                                       (point >= 0xFF66 && point <= 0xFF9F);
    return script_without_blanks ? Class::single : Class::dropped;
}

/// Puts points one after the other and marks the boundaries between them.
class Squeezer {
public:
    void add(char32_t point) {
        const Class kind = class_of(point);
        if (kind == Class::dropped) {
            last_ = kind;
            return;
        }
        if (point < 0x80) { // all folds are beyond
            out_.starts.push_back(kind != last_ || kind == Class::single);
            out_.text += static_cast<char>(point);
            last_ = kind;
            return;
        }
        std::string bytes;
        append_folded(bytes, point);
        for (std::size_t i = 0; i < bytes.size(); ++i)
            out_.starts.push_back(i == 0 && (kind != last_ || kind == Class::single));
        out_.text += bytes;
        last_ = kind;
    }

    void add_decimal_mark() {
        out_.starts.push_back(false);
        out_.text += '.';
    }

    Squeezed take() {
        out_.starts.push_back(true);
        return std::move(out_);
    }

private:
    static void append_folded(std::string& bytes, char32_t point) {
        if (point == 0xD7) point = 'x';
        const auto found = std::find_if(folds.begin(), folds.end(), [&](const Fold& fold) {
            return fold.from.find(point) != std::u32string_view::npos;
        });
        if (found != folds.end())
            bytes += found->to;
        else
            append_point(bytes, point);
    }

    Squeezed out_;
    Class last_ = Class::dropped;
};

bool is_digit(char32_t point) { return point >= '0' && point <= '9'; }

bool is_decimal_mark(const std::vector<char32_t>& points, std::size_t at) {
    return (points[at] == '.' || points[at] == ',') && at > 0 && at + 1 < points.size() &&
           is_digit(points[at - 1]) && is_digit(points[at + 1]);
}

bool is_number_byte(char byte) { return (byte >= '0' && byte <= '9') || byte == '.'; }

} // namespace

std::string clean_text(std::string_view cell) {
    std::string text;
    bool blank = false;
    for (std::size_t at = 0; at < cell.size();) {
        const std::size_t begin = at;
        const char32_t point = next_point(cell, at);
        if (is_unseen(point)) continue;
        if (is_blank(point) || point == 0x7F) {
            blank = !text.empty();
            continue;
        }
        if (blank) text += ' ';
        blank = false;
        text += cell.substr(begin, at - begin);
    }
    if (text.size() >= 3 && text.starts_with("=\"") && text.ends_with('"'))
        return text.substr(2, text.size() - 3);
    return text.starts_with('\'') ? text.substr(1) : text;
}

std::string lower_ascii(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

Squeezed squeeze(std::string_view text) {
    std::vector<char32_t> points;
    points.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        if (text.substr(at).starts_with("+/-")) {
            points.push_back(0xB1);
            at += 3;
            continue;
        }
        const char32_t point = lower(next_point(text, at));
        if (!is_unseen(point)) points.push_back(point);
    }
    Squeezer squeezer;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (is_decimal_mark(points, i))
            squeezer.add_decimal_mark();
        else
            squeezer.add(points[i]);
    }
    return squeezer.take();
}

bool matches_at(const Squeezed& text, std::size_t at, const Squeezed& spelling, Match& match) {
    if (spelling.empty() || !text.starts[at]) return false;
    Match found{at, at, {}};
    for (std::size_t i = 0; i < spelling.text.size(); ++i) {
        if (found.end >= text.text.size()) return false;
        if (spelling.text[i] == '#') {
            const std::size_t begin = found.end;
            if (!text.starts[begin] || !is_number_byte(text.text[begin])) return false;
            do ++found.end;
            while (!text.starts[found.end]);
            found.numbers.push_back(text.text.substr(begin, found.end - begin));
            continue;
        }
        const bool inside_number =
            i > 0 && is_number_byte(spelling.text[i]) && is_number_byte(spelling.text[i - 1]);
        if (text.text[found.end] != spelling.text[i]) return false;
        if (inside_number && text.starts[found.end] != spelling.starts[i]) return false;
        ++found.end;
    }
    if (!text.starts[found.end]) return false;
    match = std::move(found);
    return true;
}

} // namespace backplate
