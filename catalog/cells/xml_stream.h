#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <string_view>

#include "catalog/cells/zip_archive.h"

namespace backplate {

/// Attributes of an element while it begins; names are local names, without their prefix.
class XmlAttributes {
public:
    explicit XmlAttributes(const char** pairs) : pairs_(pairs) {}

    /// The attribute whose name space holds `space` (any where it is empty).
    std::optional<std::string_view> find(std::string_view name, std::string_view space = {}) const;
    std::string_view get(std::string_view name, std::string_view space = {}) const {
        return find(name, space).value_or(std::string_view{});
    }
    /// A whole number from 1 to `most`; `absent` where it is not given. Throws std::out_of_range.
    std::size_t number(std::string_view name, std::size_t absent, std::size_t most) const;
    /// "1" or "true".
    bool flag(std::string_view name) const;

private:
    const char** pairs_; ///< name, value, … null
};

/// What is done with the elements of a document. `name` is the local name.
class XmlHandler {
public:
    virtual ~XmlHandler() = default;
    virtual void begin(std::string_view name, const XmlAttributes& attributes) = 0;
    virtual void end(std::string_view name) = 0;
    virtual void text(std::string_view part) = 0;
};

/// Streams a member of the archive through the handler. Document type declarations, with them
/// entities, and elements nested above 256 are refused. Throws RefusedList, Stopped, and what the
/// handler throws.
void read_xml(ZipArchive& archive, const std::string& member, XmlHandler& handler,
              const std::stop_token& stop);

} // namespace backplate
