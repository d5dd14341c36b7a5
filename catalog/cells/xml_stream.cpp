#include "catalog/cells/xml_stream.h"

#include <charconv>
#include <exception>
#include <stdexcept>

#include <expat.h>

#include "catalog/cells/list_file.h"
#include "pricing/values/work.h"

namespace backplate {
namespace {

constexpr int deepest = 256;
constexpr char space_mark = '|';

std::string_view local_name(std::string_view name) {
    const auto mark = name.rfind(space_mark);
    return mark == std::string_view::npos ? name : name.substr(mark + 1);
}

/// A parser whose handlers never let an exception through the C library.
class Parser {
public:
    Parser(XmlHandler& handler, std::string place)
        : parser_(XML_ParserCreateNS(nullptr, space_mark)), handler_(handler),
          place_(std::move(place)) {
        if (!parser_) throw std::bad_alloc();
        XML_SetUserData(parser_, this);
        XML_SetElementHandler(parser_, on_begin, on_end);
        XML_SetCharacterDataHandler(parser_, on_text);
        XML_SetStartDoctypeDeclHandler(parser_, on_doctype);
    }
    ~Parser() { XML_ParserFree(parser_); }
    Parser(const Parser&) = delete;
    Parser& operator=(const Parser&) = delete;

    void feed(std::string_view block, bool last) {
        const auto status =
            XML_Parse(parser_, block.data(), static_cast<int>(block.size()), last ? 1 : 0);
        if (fault_) std::rethrow_exception(fault_);
        if (status != XML_STATUS_OK) refuse("is no well-formed XML");
    }

private:
    [[noreturn]] void refuse(const std::string& what) const {
        throw RefusedList("damaged_archive", place_ + " " + what +
                                                 "; expected a workbook as a spreadsheet program "
                                                 "writes it");
    }

    template <class Action> void guarded(Action action) {
        if (fault_) return;
        try {
            action();
        } catch (...) {
            fault_ = std::current_exception();
            XML_StopParser(parser_, XML_FALSE);
        }
    }

    static void on_begin(void* self, const char* name, const char** pairs) {
        auto& parser = *static_cast<Parser*>(self);
        parser.guarded([&] {
            if (++parser.depth_ > deepest) parser.refuse("nests its elements too deep");
            parser.handler_.begin(local_name(name), XmlAttributes(pairs));
        });
    }
    static void on_end(void* self, const char* name) {
        auto& parser = *static_cast<Parser*>(self);
        --parser.depth_;
        parser.guarded([&] { parser.handler_.end(local_name(name)); });
    }
    static void on_text(void* self, const char* text, int length) {
        auto& parser = *static_cast<Parser*>(self);
        parser.guarded([&] { parser.handler_.text({text, static_cast<std::size_t>(length)}); });
    }
    static void on_doctype(void* self, const char*, const char*, const char*, int) {
        auto& parser = *static_cast<Parser*>(self);
        parser.guarded([&] { parser.refuse("holds a document type declaration"); });
    }

    XML_Parser parser_;
    XmlHandler& handler_;
    std::string place_;
    int depth_ = 0;
    std::exception_ptr fault_;
};

} // namespace

std::optional<std::string_view> XmlAttributes::find(std::string_view name,
                                                    std::string_view space) const {
    for (const char** pair = pairs_; *pair; pair += 2) {
        const std::string_view full = *pair;
        if (local_name(full) == name &&
            full.substr(0, full.size() - name.size()).find(space) != std::string_view::npos)
            return std::string_view(pair[1]);
    }
    return std::nullopt;
}

std::size_t XmlAttributes::number(std::string_view name, std::size_t absent,
                                  std::size_t most) const {
    const auto found = find(name);
    if (!found) return absent;
    std::size_t value = 0;
    const auto [stop, error] = std::from_chars(found->data(), found->data() + found->size(), value);
    if (error != std::errc{} || stop != found->data() + found->size() || value < 1 || value > most)
        throw std::out_of_range(std::string(name));
    return value;
}

bool XmlAttributes::flag(std::string_view name) const {
    const auto value = get(name);
    return value == "1" || value == "true";
}

void read_xml(ZipArchive& archive, const std::string& member, XmlHandler& handler,
              const std::stop_token& stop) {
    const std::string place = archive.path() + ": its part " + member;
    Parser parser(handler, place);
    try {
        archive.read(member, [&](std::string_view block) {
            if (stop.stop_requested()) throw Stopped{};
            parser.feed(block, false);
        });
        parser.feed({}, true);
    } catch (const std::out_of_range& fault) {
        throw RefusedList("damaged_archive", place + " holds '" + fault.what() +
                                                 "' outside its range; expected a workbook as a "
                                                 "spreadsheet program writes it");
    }
}

} // namespace backplate
