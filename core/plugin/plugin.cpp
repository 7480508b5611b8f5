// Key functions of the contract's classes: their tables live in the core, not in every plugin.
#include "core/plugin/plugin.hpp"

namespace lathbook {

Services::~Services() = default;
Analysis::~Analysis() = default;
Exporter::~Exporter() = default;
Report::~Report() = default;
Importer::~Importer() = default;

Plugin::~Plugin() = default;
Analysis* Plugin::analysis() {
  return nullptr;
}
Exporter* Plugin::exporter() {
  return nullptr;
}
Report* Plugin::report() {
  return nullptr;
}
Importer* Plugin::importer() {
  return nullptr;
}

}  // namespace lathbook
