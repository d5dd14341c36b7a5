#include "catalog/cells/xlsx_styles.h"

#include <charconv>
#include <map>

#include "catalog/cells/xml_stream.h"

namespace backplate {
namespace {

/// Built-in formats of days and times (ECMA-376 part 1, 18.8.30), those of East Asia among them.
bool is_built_in_date(int id) {
    return (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) ||
           (id >= 50 && id <= 58);
}

int number_of(std::string_view text, int base = 10) {
    int value = -1;
    const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value, base);
    return error == std::errc{} && stop == text.data() + text.size() ? value : -1;
}

class StylesHandler : public XmlHandler {
public:
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "numFmt") {
            codes_[number_of(attributes.get("numFmtId"))] =
                is_date_format(attributes.get("formatCode"));
        } else if (name == "fonts" || name == "fills" || name == "cellXfs") {
            list_ = name;
        } else if (list_ == "fonts") {
            if (name == "font") struck_.push_back(false);
            if (name == "strike" && !struck_.empty())
                struck_.back() = !attributes.find("val") || attributes.flag("val");
        } else if (list_ == "fills") {
            begin_fill(name, attributes);
        } else if (list_ == "cellXfs" && name == "xf") {
            formats.push_back(format_of(attributes));
        }
    }
    void end(std::string_view name) override {
        if (name == list_) list_.clear();
    }
    void text(std::string_view) override {}

    std::vector<XlsxFormat> formats;

private:
    void begin_fill(std::string_view name, const XmlAttributes& attributes) {
        if (name == "fill") red_.push_back(false);
        if (name == "patternFill") solid_ = attributes.get("patternType") == "solid";
        if (name == "fgColor" && solid_ && !red_.empty())
            red_.back() = is_red(attributes.get("rgb"));
    }

    XlsxFormat format_of(const XmlAttributes& attributes) const {
        const auto at = [&](const std::vector<bool>& flags, const char* key) {
            const int index = number_of(attributes.get(key));
            return index >= 0 && static_cast<std::size_t>(index) < flags.size() &&
                   flags[static_cast<std::size_t>(index)];
        };
        const int code = number_of(attributes.get("numFmtId"));
        const auto own = codes_.find(code);
        return {{at(struck_, "fontId"), at(red_, "fillId")},
                own != codes_.end() ? own->second : is_built_in_date(code)};
    }

    std::string list_;
    std::map<int, bool> codes_; ///< of own formats: shows a day or a time
    std::vector<bool> struck_, red_;
    bool solid_ = false;
};

} // namespace

std::vector<XlsxFormat> read_xlsx_formats(ZipArchive& archive, const std::string& member,
                                          const std::stop_token& stop) {
    StylesHandler handler;
    read_xml(archive, member, handler, stop);
    return std::move(handler.formats);
}

bool is_date_format(std::string_view code) {
    char closing = 0;
    for (std::size_t i = 0; i < code.size(); ++i) {
        const char c = code[i];
        if (closing) {
            if (c == closing) closing = 0;
        } else if (c == '"' || c == '[') {
            closing = c == '"' ? '"' : ']';
        } else if (c == '\\' || c == '_' || c == '*') {
            ++i;
        } else if (std::string_view("yYmMdDhHsS").find(c) != std::string_view::npos) {
            return true;
        }
    }
    return false;
}

bool is_red(std::string_view colour) {
    if (colour.starts_with('#')) colour.remove_prefix(1);
    if (colour.size() == 8) colour.remove_prefix(2);
    if (colour.size() != 6) return false;
    const int red = number_of(colour.substr(0, 2), 16), green = number_of(colour.substr(2, 2), 16),
              blue = number_of(colour.substr(4, 2), 16);
    return red >= 0xC0 && green >= 0 && green <= 0x50 && blue >= 0 && blue <= 0x50;
}

} // namespace backplate
