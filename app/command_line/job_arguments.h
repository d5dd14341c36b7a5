#pragma once

#include <functional>
#include <memory>
#include <string>

#include "app/command_line/commands.h"

namespace CLI {
class App;
}

namespace backplate {

/// Adds a command with the common options to a group; `run` is what it does.
using AddCommand = std::function<CLI::App*(CLI::App& group, const char* name, const char* text,
                                           std::function<int()> run)>;

/// Adds `jobs` with its commands; `common` lives as long as they do.
void add_jobs(CLI::App& app, const std::shared_ptr<const CommonArguments>& common,
              const AddCommand& add);

} // namespace backplate
