#include "core/storage/record_facts.hpp"

#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/storage/index.hpp"

namespace lathbook {

namespace {

constexpr std::uint32_t kElementType = 30;

// A name beats a title beats a type; among names the one in use now wins, then the surer.
int rank_of(const Content& content) {
  int rank = 0;
  switch (content.property) {
    case property::public_name:
      rank = 400;
      break;
    case property::name:
      rank = 300;
      break;
    case property::title:
      rank = 200;
      break;
    default:
      rank = 100;
      break;
  }
  if (content.qualifier("sort") == "in use now") rank += 50;
  return rank - static_cast<int>(content.confidence);
}

}  // namespace

std::string RecordFacts::wanted() {
  std::string list;
  for (const auto id :
       {property::kind, property::code, property::name, property::private_record, property::source_type,
        property::title, property::consent, property::public_name, kElementType}) {
    if (!list.empty()) list += ',';
    list += std::to_string(id);
  }
  return list;
}

void RecordFacts::offer(Shown& shown, const std::string& text, int rank) {
  if (rank > shown.rank) shown = {text, rank};
}

void RecordFacts::add(const Content& content, std::int64_t closed) {
  switch (content.property) {
    case property::kind:
      if (kind_ == Kind::unknown) kind_ = kind_from_word(content.value).value_or(Kind::unknown);
      return;
    case property::code:
      offer(code_, content.value, 1);
      if (closed == 0) offer(open_code_, content.value, 1);
      return;
    case property::private_record: {
      const auto until = Edtf::try_parse(content.qualifier("until"));
      closed_ = std::max(closed_, until && until->latest() ? *until->latest() + 1 : kClosedForEver);
      return;
    }
    case property::source_type:
      interview_ = interview_ || content.value == "interview";
      return;
    case property::consent:
      consent_ = true;
      return;
    default:
      break;
  }
  const int rank = rank_of(content);
  // The form for the public is for the public; the house itself goes on using the plain name.
  if (content.property != property::public_name) offer(name_, content.value, rank);
  if (closed == 0) offer(open_name_, content.value, rank);
}

void RecordFacts::store(const Database& database, std::int64_t record) const {
  auto update = database.prepare(
      "UPDATE record SET kind = ?2, code = ?3, name = ?4, open_code = ?5, open_name = ?6, closed = ?7, "
      "silent = ?8 WHERE id = ?1");
  update.bind(1, record).bind(2, static_cast<std::int64_t>(kind_));
  const auto bind_shown = [&](int index, const Shown& shown) {
    if (shown.rank == 0) {
      update.bind_null(index);
    } else {
      update.bind_text(index, shown.text);
    }
  };
  bind_shown(3, code_);
  bind_shown(4, name_.rank == 0 ? open_name_ : name_);
  bind_shown(5, open_code_);
  bind_shown(6, open_name_);
  update.bind(7, closed_).bind(8, silent() ? 1 : 0).run();
}

}  // namespace lathbook
