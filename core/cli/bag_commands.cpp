// Judging packages.
#include <iostream>

#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/finding_words.hpp"
#include "core/exchange/bag.hpp"

namespace lathbook::cli {

int verify_package(Context& context, const VerifyBag& wanted) {
  const auto verdict = verify_bag(wanted.folder);
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object().key("valid").boolean(verdict.valid()).key("version").string(verdict.version);
    json.key("files").number(verdict.files).key("bytes").number(verdict.bytes);
    json_findings(json, verdict.findings);
    json.end_object().finish();
  } else {
    tell_findings(context, verdict.findings);
    context.out() << quote(wanted.folder) << (verdict.valid() ? " is a valid bag" : " is not a valid bag");
    if (!verdict.version.empty()) context.out() << ", version " << safe_display(verdict.version);
    context.out() << "; payload: " << verdict.files << " files, " << verdict.bytes << " bytes\n";
  }
  return verdict.valid() ? kDone : kFaultsFound;
}

}  // namespace lathbook::cli
