#include "tests/acceptance/house.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <regex>
#include <stdexcept>

namespace lathbook::test {

namespace fs = std::filesystem;

House::House() : archive(folder / "house") {}

Ran House::in(const fs::path& where, std::vector<std::string> arguments, const std::string& input) const {
  std::vector<std::string> all{program(), "--archive", where.string()};
  all.insert(all.end(), arguments.begin(), arguments.end());
  return lathbook::test::run(all,
                             {"XDG_STATE_HOME=" + (folder / "state").string(), "LATHBOOK_NOW=" + now,
                              "LATHBOOK_ARCHIVE=", "LATHBOOK_RECORDER=" + recorder, "LATHBOOK_PLUGINS="},
                             input);
}

std::string House::done_in(const fs::path& where, const std::vector<std::string>& arguments) const {
  const auto ran = in(where, arguments);
  if (ran.code != 0) {
    std::string words;
    for (const auto& one : arguments) words += " " + one;
    throw std::runtime_error("exit code " + std::to_string(ran.code) + " of" + words + ": " + ran.err +
                             ran.out);
  }
  return ran.out;
}

void House::take_in(const fs::path& where, const std::vector<std::pair<std::string, std::string>>& sheets) {
  const fs::path batch = folder / ("sheets-" + std::to_string(++batches_));
  std::vector<std::string> arguments{"take-in"};
  for (const auto& [name, text] : sheets) {
    write_file(batch / name, text);
    arguments.push_back((batch / name).string());
  }
  done_in(where, arguments);
}

std::string House::say(const fs::path& where, const std::string& subject, const std::string& property,
                       const std::string& value, const std::vector<std::string>& more) const {
  std::vector<std::string> arguments{"say",     subject,    property,       value,     "--source", "S-1",
                                     "--class", "physical", "--confidence", "certain", "--json"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  return member(done_in(where, arguments), "statement");
}

std::string House::fingerprint(const fs::path& where) const {
  return member(done_in(where, {"tally", "--json"}), "fingerprint");
}

std::string House::everything(const fs::path& where) const {
  return done_in(where, {"write-out", "-", "--with-private"});
}

fs::path House::copy(const std::string& name) const {
  const fs::path to = folder / name;
  fs::copy(archive, to, fs::copy_options::recursive);
  return to;
}

std::string member(const std::string& json, const std::string& name) {
  std::smatch found;
  const std::regex pattern("\"" + name + "\"\\s*:\\s*\"?([^\",}\\s]*)");
  if (!std::regex_search(json, found, pattern)) throw std::runtime_error("no " + name + " in " + json);
  return found[1];
}

bool folder_holds(const fs::path& folder, const std::string& bytes) {
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file() && read_file(entry.path()).find(bytes) != std::string::npos) return true;
  }
  return false;
}

namespace {

std::string first_cell(const fs::path& database, const std::string& sql, bool all) {
  sqlite3* handle = nullptr;
  if (sqlite3_open(database.c_str(), &handle) != SQLITE_OK)
    throw std::runtime_error("cannot open the database");
  std::string found;
  std::string wrong;
  const char* rest = sql.c_str();
  while (wrong.empty() && *rest != '\0') {
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_prepare_v2(handle, rest, -1, &statement, &rest) != SQLITE_OK) {
      wrong = sqlite3_errmsg(handle);
      break;
    }
    if (statement == nullptr) break;
    const int result = sqlite3_step(statement);
    if (result == SQLITE_ROW) {
      const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement, 0));
      found.assign(bytes == nullptr ? "" : bytes,
                   static_cast<std::size_t>(sqlite3_column_bytes(statement, 0)));
    } else if (result != SQLITE_DONE) {
      wrong = sqlite3_errmsg(handle);
    }
    sqlite3_finalize(statement);
    if (!all) break;
  }
  sqlite3_close(handle);
  if (!wrong.empty()) throw std::runtime_error(wrong + " in " + sql);
  return found;
}

}  // namespace

void execute_sql(const fs::path& database, const std::string& sql) {
  first_cell(database, sql, true);
}
std::string query_sql(const fs::path& database, const std::string& sql) {
  return first_cell(database, sql, false);
}

bool is_one_sentence(const std::string& error) {
  return error.size() > 20 && error.rfind("lathbook: ", 0) == 0 && error.back() == '\n' &&
         std::count(error.begin(), error.end(), '\n') == 1;
}

std::vector<std::pair<std::string, std::string>> usual_sheets() {
  return {
      {"agents.csv",
       "code,name,agent-type,source,class,confidence\nME,Ada Reed,person,S-1,physical,certain\n"},
      {"sources.csv",
       "code,source-type,title,class,confidence\nS-1,physical inspection,Site book,physical,certain\n"},
      {"places.csv",
       "code,name,place-type,within,source,class,confidence\n"
       "B,The Fairlead,building,,S-1,physical,certain\n"
       "201,Chart Room,room,B,S-1,physical,certain\n"},
      {"elements.csv",
       "code,element-type,stands-in,part-of,source,class,confidence\n"
       "N-1,tile field,201 {face=north wall; role=shows in},,S-1,physical,certain\n"
       "N-2,plaster coat,201 {face=north wall; role=shows in},,S-1,physical,certain\n"
       "N-3,hearth,201 {face=north wall; role=shows in},,S-1,physical,certain\n"},
      {"containers.csv",
       "code,container-type,source,class,confidence\nK-1,crate,S-1,physical,certain\nK-2,crate,S-1,physical,"
       "certain\n"},
      {"pieces.csv",
       "code,piece-type,piece-of,source,class,confidence\nN-1.01,tile,N-1,S-1,physical,certain\n"},
  };
}

}  // namespace lathbook::test
