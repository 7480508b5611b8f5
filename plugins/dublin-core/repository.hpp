// The list file of an OAI Static Repository.
#pragma once

#include <string>
#include <vector>

#include "plugins/dublin-core/record.hpp"

namespace lathbook::dublin_core {

/// What the list says of its keeper.
struct Keeper {
  std::string name;
  std::vector<std::string> emails;
  std::string address;  ///< under which the gateway answers
};

/// As the archive says it. Emails that have not the form of one are left out.
Keeper keeper_of(const StatementReader& reader);
/// Empty when the list can be written, else what must be entered first, in words that go on after "enter".
std::string missing(const Keeper& keeper);

/// Source: C. Lagoze, H. Van de Sompel, M. Nelson, S. Warner (ed.), 'Specification for an OAI Static
/// Repository and an OAI Static Repository Gateway', Open Archives Initiative, 23 April 2004, section 3.
class RepositoryWriter {
public:
  RepositoryWriter(std::ostream& out, const Keeper& keeper, const std::string& earliest);
  void write(const RecordView& record, const Ground& ground);
  void finish();

private:
  void identify(const Keeper& keeper, const std::string& earliest);
  void formats();

  XmlWriter xml_;
};

}  // namespace lathbook::dublin_core
