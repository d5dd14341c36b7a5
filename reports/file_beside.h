#pragma once

#include <string>

namespace backplate {

/// A new empty file in the folder of `path`, its name. Throws OutsideFault.
std::string make_beside(const std::string& path);

/// The file `beside` takes the place of `path` once its bytes are on the disk. Throws OutsideFault;
/// `path` is then as it was.
void take_place(const std::string& beside, const std::string& path);

/// `path` holds these bytes, or is as it was: OutsideFault.
void replace_file(const std::string& path, const std::string& bytes);

} // namespace backplate
