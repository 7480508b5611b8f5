// A page looked at in a real browser (chromium, without a window), as wide as a phone or as a desk.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace lathbook::test {

/// Loads the page `width` CSS pixels wide and gives what the script returns, as text. The script is the body
/// of a function of `view` (the page's window) and `doc` (its document) and may return a promise. Nothing
/// when no browser is installed: the test then says so with WARN and ends. Throws std::runtime_error with
/// what was thrown in the page, or when the browser gives no answer within a minute.
std::optional<std::string> in_browser(const std::filesystem::path& page, int width,
                                      const std::string& script);

}  // namespace lathbook::test
