// The schedule and its findings for a terminal.
#include "core/base/text.hpp"
#include <algorithm>

#include "core/base/table.hpp"
#include "plugins/finishes/compare.hpp"
#include "plugins/finishes/schedule.hpp"
#include "plugins/finishes/write.hpp"

namespace lathbook::finishes {

namespace {

// A table may be so much wider than the lines of words: what it shows cannot be broken.
constexpr std::size_t kWider = 30;

class Text {
public:
  Text(const FinishLayers& layers, std::ostream& out, std::size_t columns)
      : layers_(layers), out_(out), columns_(columns) {}

  void write() {
    if (layers_.groups.empty()) out_ << "no layers of paint are recorded there\n";
    bool first = true;
    for (const FinishGroup& group : layers_.groups) {
      if (!first) out_ << '\n';
      first = false;
      group_text(group);
    }
    if (!layers_.groups.empty()) {
      out_ << '\n';
      paragraph(layers_.method, 0);
    }
    if (layers_.reading.withheld > 0)
      paragraph(std::to_string(layers_.reading.withheld) +
                    " statements withheld; more may be said in the private archive.",
                0);
    out_ << "state " << layers_.reading.fingerprint.hex() << '\n';
  }

private:
  void paragraph(const std::string& words, std::size_t indent) {
    for (const std::string& line : wrap(safe_display(words), columns_ - indent))
      out_ << std::string(indent, ' ') << line << '\n';
  }

  void group_text(const FinishGroup& group) {
    const Schedule schedule = schedule_of(layers_, group);
    paragraph(title_of(group), 0);
    out_ << '\n';
    tables(schedule);
    for (const ScheduleColumn& column : schedule.columns) {
      const FinishSequence& sequence = layers_.sequences[column.sequence];
      std::string head = thing_words(sequence.element);
      if (sequence.sample.id != Uuid{}) head += ", sample " + thing_words(sequence.sample);
      paragraph(head + ", " + read_words(sequence), 2);
      paragraph(finding_of(layers_, schedule, column), 4);
      for (const ReasonStep& step : sequence.substrate) paragraph(step.words, 4);
    }
    for (const std::string& remark : group.remarks) paragraph(remark, 2);
  }

  std::string code_of(const ScheduleColumn& column) const {
    const FinishSequence& sequence = layers_.sequences[column.sequence];
    return sequence.sample.id == Uuid{} ? sequence.element.code : sequence.sample.code;
  }

  // Columns that stand beside the words of each coat; the reference first in every panel.
  void tables(const Schedule& schedule) {
    std::size_t words = 12;
    for (std::size_t row = 0; row < schedule.rows.size(); ++row) {
      const FinishCoat& coat = coat_of_row(layers_, schedule, row);
      words = std::max(words, display_width(coat.colour) + display_width(coat.munsell));
    }
    const std::size_t room = columns_ + kWider - std::min(columns_ + kWider, words + 30);
    std::size_t next = 1;
    do {
      std::vector<std::size_t> panel{0};
      std::size_t wide = display_width(code_of(schedule.columns[0]));
      while (next < schedule.columns.size()) {
        wide += 2 + display_width(code_of(schedule.columns[next]));
        if (panel.size() > 1 && wide > room) break;
        panel.push_back(next++);
      }
      table(schedule, panel);
      out_ << '\n';
    } while (next < schedule.columns.size());
  }

  // Numbers of the layers under the code of each element, from the surface down to the substrate.
  void table(const Schedule& schedule, const std::vector<std::size_t>& panel) {
    std::vector<std::string> header;
    for (const std::size_t column : panel) header.push_back(code_of(schedule.columns[column]));
    header.insert(header.end(), {"layer", "colour", "Munsell", ""});
    Table table(header);
    for (std::size_t row = schedule.rows.size(); row-- > 0;) {
      std::vector<std::string> cells;
      const FinishCoat* shown = nullptr;
      for (const std::size_t column : panel) {
        const FinishCoat* coat = coat_at(layers_, schedule, row, column);
        cells.push_back(coat ? std::to_string(coat->layer) : "-");
        if (!shown) shown = coat;
      }
      if (!shown) continue;
      cells.insert(cells.end(), {shown->role, shown->colour, shown->munsell});
      cells.push_back(shown->marker ? "marker" : !shown->colour_fault.empty() ? "colour not read" : "");
      table.add(cells);
    }
    table.print(out_, 2);
  }

  const FinishLayers& layers_;
  std::ostream& out_;
  std::size_t columns_;
};

}  // namespace

void write_text(const FinishLayers& layers, std::ostream& out, std::size_t columns) {
  Text(layers, out, columns).write();
}

}  // namespace lathbook::finishes
