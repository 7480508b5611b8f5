// What is answered to a command line that cannot be read: one sentence of what, where and what to do.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace lathbook::cli {

/// What was typed wrongly, by the error of parsing it, and which help tells more.
std::string wrong_use_words(const CLI::App& app, const CLI::ParseError& error);

/// There is no such command, and which are spelled nearly so.
std::string no_command_words(const CLI::App& app, const std::string& name);

}  // namespace lathbook::cli
