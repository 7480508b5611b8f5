#include "plugins/marks/references.hpp"

#include <algorithm>
#include <iterator>

#include "core/base/text.hpp"
#include "core/view/views.hpp"

namespace lathbook::marks {

namespace {

constexpr std::size_t kCells = 7;  // entry, maker, form, place, role, from, to

// A name as on a label, "Corrane & Pell, Burslow, England", stands in lines on the thing.
std::string in_lines(const std::string& name) {
  std::string form;
  for (const auto& part : split(name, ',')) form += (form.empty() ? "" : " / ") + std::string(trim(part));
  return form;
}

}  // namespace

References::References(const Snapshot& archive, const ArchiveFiles* files, const Uuid& only) {
  if (only == Uuid{}) add_own(archive);
  add_files(archive, files, only);
  list_.make_ready();
}

void References::add_own(const Snapshot& archive) {
  MarkListInfo info;
  info.title = "this archive's own firms";
  lists_.push_back(info);
  archive.each(Kind::agent, [&](const RecordView& agent) {
    const bool firm = agent.text("agent-type") == "firm";
    for (const Statement* form : agent.all("mark-form")) add_own_form(agent, *form, form->content.value);
    for (const Statement* name : agent.all("name")) {
      if (!firm) continue;
      firms_.emplace(fold(name->content.value), std::pair(agent.info.id, agent.info.code));
      const bool label = name->content.qualifier("sort") == "on a label";
      add_own_form(agent, *name, label ? in_lines(name->content.value) : name->content.value);
    }
  });
  lists_.front().marks = own_.size();
}

void References::add_own_form(const RecordView& agent, const Statement& statement, const std::string& form) {
  MarkCandidate candidate;
  candidate.maker = agent.info.name;
  candidate.form = form;
  candidate.place = agent.text("place-of-business");
  candidate.role = statement.content.qualifier("as");
  candidate.from = statement.content.qualifier("from");
  candidate.to = statement.content.qualifier("to");
  candidate.list = lists_.front().title;
  candidate.entry = agent.info.code;
  candidate.agent = agent.info.id;
  candidate.statement = statement.id;
  own_.push_back(std::move(candidate));
  list_.add(form, true);
}

void References::add_files(const Snapshot& archive, const ArchiveFiles* files, const Uuid& only) {
  archive.each(Kind::source, [&](const RecordView& record) {
    const Statement* said = record.best("mark-list");
    if (said == nullptr || (only != Uuid{} && record.info.id != only)) return;
    const SourceView source(record);
    MarkListInfo info;
    info.title = source.title;
    info.rights = source.rights;
    info.source = record.info;
    File file;
    file.info = lists_.size();
    file.first = static_cast<std::uint32_t>(list_.marks());
    const auto digest = Digest::from_hex(said->content.value);
    std::unique_ptr<std::istream> stream;
    if (files != nullptr && digest) stream = files->media(*digest);
    if (stream == nullptr) {
      info.trouble =
          files == nullptr ? "files of the archive are not lent here" : "its file is not in this copy";
      lists_.push_back(std::move(info));
      return;
    }
    file.bytes.assign(std::istreambuf_iterator<char>(*stream), {});
    lists_.push_back(std::move(info));
    add_lines(std::move(file));
  });
}

void References::add_lines(File file) {
  std::size_t at = 0;
  while (at < file.bytes.size()) {
    const std::size_t end = std::min(file.bytes.find('\n', at), file.bytes.size());
    const std::string_view line = std::string_view(file.bytes).substr(at, end - at);
    const auto start = static_cast<std::uint32_t>(at);
    at = end + 1;
    if (line.empty() || line.front() == '#') continue;
    const auto cells = split(line, '\t');
    if (cells.size() != kCells || first_invalid_utf8(line)) {
      lists_[file.info].trouble =
          "its file is no list that 'lathbook mark-list' made, at line " +
          std::to_string(std::count(file.bytes.begin(), file.bytes.begin() + start, '\n') + 1);
      return;
    }
    list_.add(cells[2]);
    file.lines.push_back(start);
  }
  lists_[file.info].marks = file.lines.size();
  files_.push_back(std::move(file));
}

MarkCandidate References::tell(std::uint32_t mark) const {
  if (mark < own_.size()) return own_[mark];
  auto file = std::find_if(files_.begin(), files_.end(), [mark](const File& one) {
    return mark >= one.first && mark < one.first + one.lines.size();
  });
  MarkCandidate candidate;
  if (file == files_.end()) return candidate;
  const std::size_t at = file->lines[mark - file->first];
  const auto cells = split(std::string_view(file->bytes).substr(at, file->bytes.find('\n', at) - at), '\t');
  candidate.entry = cells[0];
  candidate.maker = cells[1];
  candidate.form = cells[2];
  candidate.place = cells[3];
  candidate.role = cells[4];
  candidate.from = cells[5];
  candidate.to = cells[6];
  candidate.list = lists_[file->info].title;
  candidate.source = lists_[file->info].source.id;
  if (const auto firm = firms_.find(fold(candidate.maker)); firm != firms_.end())
    candidate.agent = firm->second.first;
  return candidate;
}

}  // namespace lathbook::marks
