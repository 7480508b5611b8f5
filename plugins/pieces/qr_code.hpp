// A text as a QR code, drawn as one SVG path. The only door to libqrencode.
#pragma once

#include <string>

#include "core/base/xml_writer.hpp"

namespace lathbook::pieces {

/// One side of the square of modules and its rows, true where dark, without the quiet zone.
struct QrModules {
  int side = 0;
  std::string dark;  ///< side * side bytes, 1 = dark
};

/// ISO/IEC 18004, error correction level M, ASCII only: readers guess at other letters. Throws
/// Error(invalid) for other letters, and for a text of more than 2,331 bytes, empty or with a NUL.
QrModules qr_modules(const std::string& text);

/// An svg element with the quiet zone of four modules that the standard asks for.
void write_qr(XmlWriter& xml, const std::string& text, const std::string& title);

}  // namespace lathbook::pieces
