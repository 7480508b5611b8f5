// premis.xml: the files of a bag and what befell them, as PREMIS 3 has it.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "core/view/snapshot.hpp"
#include "plugins/bag/contents.hpp"
#include "plugins/bag/packed_file.hpp"

namespace lathbook::bag {

/// A file with the digest by which the archive names it; nil for the exchange document.
struct Kept {
  Packed packed;
  Digest digest;
};

/// Source: PREMIS Editorial Committee, 'PREMIS Data Dictionary for Preservation Metadata', version 3.0, 2015.
/// Events are those the archive knows: capture of the document (on the day up to which the state is known),
/// ingestion of each file (when the statement that cites it was entered), deletion (expunged contents).
void write_premis(std::ostream& out, const StatementReader& reader, const std::string& base,
                  const std::vector<Kept>& files, const Contents& contents);

}  // namespace lathbook::bag
