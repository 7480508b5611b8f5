// A piece cut out of a photograph on which it is marked, to compare candidates with.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/analysis/piece_accounts.hpp"
#include "core/base/xml_writer.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::pieces {

struct Likeness {
  RecordInfo piece, source;
  std::string face;  ///< of choice list 'shown-face'; empty when not said
  PieceSpot spot;
  FieldPicture picture;
  std::string condition;  ///< of choice list 'piece-condition'; empty when never said
};

/// For each face that is shown, the piece that is seen largest on its photograph, one that is held and whole
/// before others: front first. Needs find_pictures() before.
std::vector<Likeness> likenesses(const FieldAccount& field);

/// The pieces side by side, each with its code and source. What is no picture, lacks its file or is larger
/// than 12 MiB is named instead.
void write_likenesses(XmlWriter& xml, const std::vector<Likeness>& shown, const ArchiveFiles& files);

}  // namespace lathbook::pieces
