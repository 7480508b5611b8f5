// One invented room whose elements and relations are said in a few words, as sheets for the program.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace lathbook::test {

/// "E-1 covers E-2" each, with "; contact" of its own after it or 'laps over' where one is needed.
struct Said3 {
  std::string later;
  std::string relation;
  std::string earlier;
  std::string contact = "laps over";
  std::string confidence = "certain";
};

/// Element of the room R: code, name, class.
struct Element3 {
  std::string code;
  std::string name;
  std::string of_class = "plaster";
  std::string installed = {};
  std::string seen_on = {};
  std::string placements = {};
  std::string room = "R";
};

inline std::vector<std::pair<std::string, std::string>> small_wall(const std::vector<Element3>& elements,
                                                                   const std::vector<Said3>& relations) {
  const auto quoted = [](const std::string& text) {
    std::string cell = "\"";
    for (const char letter : text) cell += letter == '"' ? std::string("\"\"") : std::string(1, letter);
    return cell + "\"";
  };
  std::string things =
      "code,name,element-type,element-class,stands-in,installed,seen-on,placements,source,class,confidence\n";
  for (const Element3& one : elements)
    things += one.code + "," + quoted(one.name) + ",thing," + one.of_class + "," + one.room + "," +
              one.installed + "," + one.seen_on + "," + one.placements + ",S-1,physical,certain\n";
  std::string bonds = "from,relation,to,contact,source,class,confidence\n";
  for (const Said3& one : relations)
    bonds += one.later + "," + one.relation + "," + one.earlier + "," + one.contact + ",S-1,physical," +
             one.confidence + "\n";
  return {{"sources.csv",
           "code,source-type,title,class,confidence\nS-1,physical inspection,Site book,physical,certain\n"},
          {"places.csv",
           "code,name,place-type,within,source,class,confidence\nB,House,building,,S-1,physical,certain\n"
           "R,Small room,room,B,S-1,physical,certain\nQ,Other room,room,B,S-1,physical,certain\n"},
          {"elements.csv", things},
          {"relations.csv", bonds}};
}

}  // namespace lathbook::test
