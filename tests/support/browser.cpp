// The page stands in a frame of the wanted width: a window without a screen is never narrower than 500
// pixels.
#include "tests/support/browser.hpp"

#include <array>
#include <stdexcept>

#include "tests/support/support.hpp"

namespace lathbook::test {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kBefore = "<pre id=\"answer\">", kAfter = "</pre>";

std::optional<fs::path> browser() {
  for (const char* path : {"/usr/bin/chromium", "/usr/bin/chromium-browser"})
    if (fs::exists(path)) return fs::path(path);
  return std::nullopt;
}

// In the address of a file: what is no plain letter, digit or harmless sign goes as %XX.
std::string address(const fs::path& path) {
  static constexpr std::array<char, 17> digits{"0123456789ABCDEF"};
  std::string text = "file://";
  for (const char c : fs::absolute(path).string()) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       std::string_view("/-_.").find(c) != std::string_view::npos;
    const auto byte = static_cast<unsigned char>(c);
    text += plain ? std::string(1, c) : std::string{'%', digits[byte >> 4U], digits[byte & 15U]};
  }
  return text;
}

std::string frame_page(const fs::path& page, int width, const std::string& script) {
  return "<!DOCTYPE html><meta charset=\"utf-8\"><body style=\"margin:0\">\n"
         "<iframe id=\"frame\" style=\"border:0;width:" +
         std::to_string(width) + "px;height:800px\" src=\"" + address(page) +
         "\"></iframe>\n<script>\n"
         "const frame = document.getElementById('frame');\n"
         "const say = (text) => {\n"
         "  const answer = document.createElement('pre');\n"
         "  answer.id = 'answer';\n"
         "  answer.textContent = text;\n"
         "  frame.remove();\n"
         "  document.body.append(answer);\n"
         "};\n"
         "frame.onload = async () => {\n"
         "  try {\n"
         "    const look = async (view, doc) => {\n" +
         script +
         "\n    };\n"
         "    say('good ' + await look(frame.contentWindow, frame.contentDocument));\n"
         "  } catch (error) { say('fault ' + error); }\n"
         "};\n</script>\n";
}

// Text of an element as the browser writes it out.
std::string plain(std::string text) {
  for (const auto& [sign, letter] :
       {std::pair<std::string, std::string>{"&lt;", "<"}, {"&gt;", ">"}, {"&amp;", "&"}})
    for (std::size_t at = text.find(sign); at != std::string::npos; at = text.find(sign, at + 1))
      text.replace(at, sign.size(), letter);
  return text;
}

}  // namespace

std::optional<std::string> in_browser(const fs::path& page, int width, const std::string& script) {
  const auto program = browser();
  if (!program) return std::nullopt;
  const TempFolder folder;
  write_file(folder / "frame.html", frame_page(page, width, script));
  const Ran ran =
      run({"/usr/bin/timeout", "60", program->string(), "--headless", "--no-sandbox", "--disable-gpu",
           "--disable-dev-shm-usage", "--no-first-run", "--hide-scrollbars", "--allow-file-access-from-files",
           "--user-data-dir=" + (folder / "profile").string(), "--window-size=1400,1000",
           "--virtual-time-budget=20000", "--dump-dom", address(folder / "frame.html")});
  const auto begin = ran.out.find(kBefore);
  const auto end = ran.out.find(kAfter, begin);
  if (begin == std::string::npos || end == std::string::npos)
    throw std::runtime_error("the browser gave no answer: " + ran.err);
  const std::string answer = plain(ran.out.substr(begin + kBefore.size(), end - begin - kBefore.size()));
  if (answer.starts_with("good ")) return answer.substr(5);
  throw std::runtime_error("in the page: " + answer);
}

}  // namespace lathbook::test
