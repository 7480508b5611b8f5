// A report that throws, from its calls, what its format names; and one that upsets its stream.
#include <exception>
#include <ios>
#include <new>

#include "core/plugin/descriptor.hpp"

namespace lathbook::thrower {

namespace {

/// A type that the host has never heard of, with its text and its virtual functions in this library.
class PrivateTrouble : public std::exception {
public:
  const char* what() const noexcept override { return "a trouble\nknown here only"; }
};

class Thrower : public Report {
public:
  std::vector<std::string> formats() const override {
    return {"standard", "private", "number", "error", "memory", "needless", "stream"};
  }
  void write(const Snapshot&, const ReportRequest& request, std::ostream& out, Services& services) override {
    if (request.format == "standard") throw std::runtime_error("the kiln is cold");
    if (request.format == "private") throw PrivateTrouble();
    if (request.format == "number") throw 42;
    if (request.format == "error") fail(ErrorKind::not_found, "there is no such room");
    if (request.format == "memory") throw std::bad_alloc();
    if (request.format == "needless") services.result("timeline");
    out << std::hex << std::showbase << 255;
    out.exceptions(std::ios::badbit | std::ios::failbit | std::ios::eofbit);
  }
};

}  // namespace

class ThrowerPlugin : public Plugin {
public:
  Report* report() override { return &report_; }
  Exporter* exporter() override { throw PrivateTrouble(); }

private:
  Thrower report_;
};

}  // namespace lathbook::thrower

LATHBOOK_PLUGIN(lathbook::thrower::ThrowerPlugin, .name = "thrower", .version = "1.0",
                .kind = "report export", .summary = "throws");
