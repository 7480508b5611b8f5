#include "core/cli/wrong_use.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include "core/base/text.hpp"
#include "core/view/english.hpp"

namespace lathbook::cli {

std::string wrong_use_words(const CLI::App& app, const CLI::ParseError& error) {
  const auto chosen = app.get_subcommands();
  std::string words = error.what();
  std::replace(words.begin(), words.end(), '\n', ' ');
  if (chosen.empty()) {
    const auto rest = app.remaining();
    if (!rest.empty() && !rest.front().starts_with('-')) return no_command_words(app, rest.front());
    return words + "; 'lathbook help' lists what there is";
  }
  const CLI::App& sub = *chosen.front();
  constexpr std::string_view kRequired = " is required";
  if (words.ends_with(kRequired) && words.size() > kRequired.size()) {
    const std::string name = words.substr(0, words.size() - kRequired.size());
    const auto* option = sub.get_option_no_throw(name);
    words = quote(name) + " is missing after 'lathbook " + sub.get_name() + "'";
    if (option != nullptr && !option->get_description().empty())
      words += " (" + option->get_description() + ")";
  } else {
    words = "'lathbook " + sub.get_name() + "': " + words;
  }
  return words + "; 'lathbook help " + sub.get_name() + "' tells what belongs there";
}

std::string no_command_words(const CLI::App& app, const std::string& name) {
  std::vector<std::string> names;
  for (const CLI::App* sub : app.get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(sub->get_name());
  const auto close = nearest(name, names);
  return "there is no command " + quote(name) +
         (close.empty() ? "; 'lathbook help' lists them"
                        : "; did you mean " + listed(close, "or") + " ('lathbook help' lists all)?");
}

}  // namespace lathbook::cli
