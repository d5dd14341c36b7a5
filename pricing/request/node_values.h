#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "pricing/request/node.h"
#include "pricing/values/decimal.h"

namespace backplate {

/// The exact value of a number as it was written, an exponent included; nothing for any other
/// node and for a number of more than 18 digits or 9 decimals.
std::optional<Decimal> exact_value(const Node& node);

/// The value of a number as a double; nothing for any other node and beyond the range of one.
std::optional<double> number_value(const Node& node);

/// A decimal without needless zeros: "12.5", "450".
std::string short_text(Decimal value);

/// JSON text on one line: `{"a": [1, "b"]}`.
std::string json_line(const Node& node);

/// A text in quotes with the escapes of JSON (RFC 8259, 7).
std::string json_quoted(std::string_view text);

/// Equal whatever the order of members and however a number is written.
bool same_value(const Node& a, const Node& b);

} // namespace backplate
