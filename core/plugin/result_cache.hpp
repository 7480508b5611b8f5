// Results of analyses, kept by all that they depend on. Internal to core/plugin.
#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <tuple>

#include "core/plugin/plugin.hpp"

namespace lathbook {

/// Values only, so results may outlive the call that made them; addresses stay good until clear().
class ResultCache {
public:
  using Key =
      std::tuple<std::string, Digest, std::int64_t, bool, bool, Uuid, Level, std::vector<Digest>, Settings>;

  /// The order in which statements to leave out are named changes nothing, nor that of different settings;
  /// of one setting given twice the order stays.
  static Key key(std::string_view analysis, const Reading& reading, const AnalysisRequest& request) {
    std::vector<Digest> leave_out = request.leave_out;
    std::sort(leave_out.begin(), leave_out.end());
    Settings settings = request.settings;
    std::stable_sort(settings.begin(), settings.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    return {
        std::string(analysis), reading.fingerprint, reading.known_day, reading.is_head, reading.with_private,
        request.scope,         request.level,       leave_out,         settings};
  }

  const AnalysisResult* find(const Key& key) const {
    const auto found = results_.find(key);
    return found == results_.end() ? nullptr : &found->second;
  }
  const AnalysisResult& keep(const Key& key, AnalysisResult result) {
    return results_.insert_or_assign(key, std::move(result)).first->second;
  }
  void clear() { results_.clear(); }

private:
  std::map<Key, AnalysisResult> results_;
};

}  // namespace lathbook
