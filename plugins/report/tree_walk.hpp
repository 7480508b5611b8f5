// Walks the sentences of a report in reading order.
#pragma once

#include "plugins/report/tree.hpp"

namespace lathbook::report {

namespace walk {

template <typename Words, typename Visitor>
void all(Words& sentences, const Visitor& visit) {
  for (auto& sentence : sentences) visit(sentence);
}

template <typename Part, typename Visitor>
void in(Part& block, const Visitor& visit) {
  if (auto* paragraph = std::get_if<Paragraph>(&block)) all(paragraph->sentences, visit);
  if (auto* warning = std::get_if<Warning>(&block)) all(warning->words.sentences, visit);
  if (auto* figure = std::get_if<Figure>(&block)) all(figure->caption.sentences, visit);
  if (auto* list = std::get_if<List>(&block))
    for (auto& entry : list->entries) all(entry.sentences, visit);
  if (auto* table = std::get_if<Table>(&block))
    for (auto& row : table->rows)
      for (auto& cell : row.cells) all(cell.sentences, visit);
}

}  // namespace walk

/// Calls the visitor for every sentence of the document, in reading order.
template <typename Whole, typename Visitor>
void each_sentence(Whole& document, const Visitor& visit) {
  for (auto& block : document.front) walk::in(block, visit);
  for (auto& chapter : document.chapters)
    for (auto& block : chapter.blocks) walk::in(block, visit);
}

}  // namespace lathbook::report
