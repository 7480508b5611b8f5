// Regions as people write them, and sizes of pictures as their bytes tell them.
#include "core/picture/region.hpp"

#include <catch2/catch.hpp>

#include "core/base/text.hpp"
#include "tests/formats/press.hpp"
#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using namespace lathbook::test;
using Catch::Contains;

// Forms: W3C, 'Media Fragments URI 1.0 (basic)', 2012, section 4.2.2.
TEST_CASE("regions are read, cut at the edges, or refused") {
  const auto read = [](const char* words) {
    const auto region = read_region(words, 640, 480);
    return region ? region->text() : std::string("-");
  };
  CHECK(read("xywh=160,120,320,240") == "xywh=160,120,320,240");
  CHECK(read("xywh=pixel:160,120,320,240") == "xywh=160,120,320,240");
  CHECK(read("xywh=percent:25,25,50,50") == "xywh=160,120,320,240");
  CHECK(read("right of the pipe; xywh=1,2,3,4.") == "xywh=1,2,3,4");
  CHECK(read("xywh=600,400,100,100") == "xywh=600,400,40,80");
  CHECK(read("xywh=percent:99.9,0,0.05,1") == "xywh=639,0,1,5");
  for (const char* wrong :
       {"", "right of the pipe", "xywh=1,2,3", "xywh=-1,2,3,4", "xywh=1,2,0,4", "xywh=640,0,10,10",
        "xywh=a,b,c,d", "xywh=percent:1,2,3,%", "xywh=99999999999999999999999,0,1,1"})
    CHECK(read(wrong) == "-");
}

namespace {

std::string from_hex(const std::string& hex) {
  std::string bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    bytes += static_cast<char>(hex_value(hex[i]) * 16 + hex_value(hex[i + 1]));
  return bytes;
}

/// Three by two pixels, grey; made with zlib.
std::string small_png() {
  return from_hex(
      "89504e470d0a1a0a0000000d4948445200000003000000020800000000b81f39c60000000e49444154789c63484c4a66006200"
      "0934024d133de6650000000049454e44ae426082");
}

/// A JPEG's head: Exif that says how the camera was held (tag 274), and a frame of 40 by 30 pixels.
std::string held_jpeg(char orientation) {
  std::string exif = from_hex(
      "457869660000"
      "4d4d002a00000008"
      "0001"
      "0112"
      "0003"
      "00000001");
  exif += from_hex("00");
  exif += orientation;
  exif += from_hex(
      "0000"
      "00000000");
  std::string bytes = from_hex(
      "ffd8"
      "ffe1");
  bytes += static_cast<char>(0);
  bytes += static_cast<char>(exif.size() + 2);
  bytes += exif;
  bytes += from_hex(
      "ffc0"
      "000b"
      "08"
      "001e"
      "0028"
      "01"
      "011100");
  bytes += from_hex(
      "ffda"
      "0008"
      "01"
      "0100"
      "003f00"
      "00"
      "ffd9");
  return bytes;
}

}  // namespace

TEST_CASE("pictures are as large as they are shown, and other files are told") {
  FakeReader reader;
  const Uuid wall = reader.add(Kind::element, "E-1", "Wall");
  const TempFolder folder;
  Press press;
  int number = 0;
  const auto add = [&](const std::string& bytes) {
    const Uuid source = reader.add(Kind::source, "S-" + std::to_string(++number), "Photograph");
    reader.say(source, "media", sha256(bytes).hex(), Confidence::none, {{"file-name", "x.png"}});
    reader.say(wall, "pictured-in", source, {{"spot", "xywh=9999,1,1,1"}});
    press.files.held.emplace(sha256(bytes), bytes);
  };
  add(small_png());
  add(held_jpeg(1));
  add(held_jpeg(6));
  add("<svg xmlns='http://www.w3.org/2000/svg' width='12px' height='8'/>");
  add("<svg xmlns='http://www.w3.org/2000/svg' width='100%' viewBox='0 0 1000 500'/>");
  for (const char* other : {"<svg", "<html/>", "plain words", "<svg xmlns='http://www.w3.org/2000/svg'/>"})
    add(other);
  add(small_png().substr(0, 20));
  press.folder(reader, "iiif", folder / "out");
  const auto manifest = read_file(folder / "out" / "manifests" / (wall.text() + ".json"));
  for (const auto& [height, width] :
       std::vector<std::pair<int, int>>{{2, 3}, {30, 40}, {40, 30}, {8, 12}, {500, 1000}}) {
    INFO(width << " by " << height);
    CHECK_THAT(manifest, Contains("\"height\": " + std::to_string(height) +
                                  ",\n      \"width\": " + std::to_string(width)));
  }
  CHECK_THAT(manifest, Contains("image/png") && Contains("image/jpeg") && Contains("image/svg+xml"));
  CHECK_THAT(joined(press.ear.notes), Contains("files that are no picture a browser shows (5)") &&
                                          Contains("5 regions (xywh=) are not well formed or lie outside"));
  if (have_python()) CHECK(joined(judged({"iiif=" + (folder / "out").string()})) == "");
}
