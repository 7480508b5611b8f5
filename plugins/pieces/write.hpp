// The accounts as text, JSON and printed sheets.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "core/analysis/piece_accounts.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::pieces {

/// What stands at the head of a sheet: where work is stopped (core/view/stops.hpp), then the hazards.
struct Care {
  std::vector<std::string> stops, hazards;
};

void write_text(const PieceAccounts& accounts, const std::vector<std::string>& stops, std::ostream& out);
void write_json(const PieceAccounts& accounts, const std::vector<std::string>& stops, std::ostream& out);
/// A matching sheet to take to the dealer: size, colour, back, photographs, count. `care` goes on top. Needs
/// find_pictures() of the fields that want pieces before.
void write_shopping(const PieceAccounts& accounts, const Care& care, const ArchiveFiles& files,
                    std::ostream& out);
/// Contents of each container in order, with weight, which way up and hazards.
void write_crate_list(const PieceAccounts& accounts, const Care& care, std::ostream& out);
/// What labels say beside the codes.
struct Labelling {
  std::string base_iri;  ///< under which exports name the records; empty when none is set
  std::string house;     ///< name of the archive
};
/// Labels for containers and bags with a QR code (the address under which exports name the record; the code
/// alone when no base address is set) and the code for people, several a
/// sheet. Never for a tile: the sheet says why.
void write_labels(const PieceAccounts& accounts, const Labelling& labelling, const Care& care,
                  std::ostream& out);

/// How many pieces or bricks a size takes, from settings alone (docs/pieces.md); no record is asked. Throws
/// Error(invalid) naming the setting that is wrong or missing.
void write_quantities(const Settings& settings, std::ostream& out);

/// "152 x 152 x 9 mm, plus or minus 0.5 mm"; says so when nothing was measured.
std::string size_words(const PieceSize& size);
std::string foot_line(const PieceAccounts& accounts);

}  // namespace lathbook::pieces
