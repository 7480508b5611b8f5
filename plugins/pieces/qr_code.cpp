#include "plugins/pieces/qr_code.hpp"

#include <qrencode.h>

#include <algorithm>
#include <memory>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook::pieces {

QrModules qr_modules(const std::string& text) {
  if (std::any_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; }))
    fail(ErrorKind::invalid,
         quote(text) + " holds letters that QR readers guess at; a QR code takes ASCII, so encode it first");
  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(
      text.find('\0') == std::string::npos && text.size() <= 2331
          ? QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M)
          : nullptr,
      QRcode_free);
  if (!code)
    fail(ErrorKind::invalid, quote(text) + " is empty or too long for a QR code; set a shorter base address");
  QrModules modules;
  modules.side = code->width;
  for (int i = 0; i < code->width * code->width; ++i)
    modules.dark.push_back(static_cast<char>(code->data[i] & 1));
  return modules;
}

void write_qr(XmlWriter& xml, const std::string& text, const std::string& title) {
  const QrModules modules = qr_modules(text);
  const std::string side = std::to_string(modules.side + 8);
  xml.start("svg")
      .attribute("xmlns", "http://www.w3.org/2000/svg")
      .attribute("viewBox", "0 0 " + side + " " + side);
  xml.attribute("role", "img").attribute("shape-rendering", "crispEdges").element("title", title);
  xml.start("rect").attribute("width", side).attribute("height", side).attribute("fill", "#fff").end();
  std::string path;
  for (int y = 0; y < modules.side; ++y)
    for (int x = 0; x < modules.side; ++x)
      if (modules.dark[static_cast<std::size_t>(y * modules.side + x)] != 0)
        path += "M" + std::to_string(x + 4) + " " + std::to_string(y + 4) + "h1v1h-1z";
  xml.start("path").attribute("d", path).attribute("fill", "#000").end().end();
}

}  // namespace lathbook::pieces
