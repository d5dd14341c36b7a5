#pragma once

#include <optional>
#include <string>

namespace backplate {

/// The schema from which on a library remembers answers.
inline constexpr int first_version_with_answers = 3;

/// What the library remembers about the lists of a client, as the JSON that was given; nothing
/// where it remembers none. The client's name counts letter by letter. Throws OutsideFault as
/// Library.
std::optional<std::string> remembered_answers(const std::string& library,
                                              const std::string& client);

/// Puts the answers in the place of what stands for the client. Throws OutsideFault as Library.
void remember_answers(const std::string& library, const std::string& client,
                      const std::string& answers, const std::string& person);

} // namespace backplate
