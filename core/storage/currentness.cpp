#include "core/storage/currentness.hpp"

namespace lathbook {

std::string counts_against_targets(std::string_view statements) {
  return "s.presence = 0 AND (s.act = 1 AND s.current = 1 OR s.act = 0 AND NOT EXISTS(SELECT 1 FROM link "
         "back "
         "JOIN " +
         std::string(statements) +
         " w ON w.id = back.statement WHERE back.target = s.digest AND back.role = 1 AND w.act = 1 AND "
         "w.presence = 0 AND w.current = 1))";
}

std::string anything_against(std::string_view statements) {
  return "SELECT 1 FROM link l JOIN " + std::string(statements) +
         " s ON s.id = l.statement WHERE l.target = ?1 AND l.role = 1 AND " +
         counts_against_targets(statements) + " LIMIT 1";
}

}  // namespace lathbook
