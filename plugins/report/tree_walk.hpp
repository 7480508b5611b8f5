// Walks the sentences of a report in reading order; both forms write them by it.
#pragma once

#include "plugins/report/tree.hpp"

namespace lathbook::report {

namespace walk {

template <typename Words, typename Visitor>
void all(Words& words, const Visitor& visit) {
  for (auto& sentence : words.sentences) visit(sentence);
  for (auto& point : words.points) all(point, visit);
}

template <typename Part, typename Visitor>
void in(Part& block, const Visitor& visit) {
  if (auto* paragraph = std::get_if<Paragraph>(&block)) all(*paragraph, visit);
  if (auto* warning = std::get_if<Warning>(&block)) all(warning->words, visit);
  if (auto* figure = std::get_if<Figure>(&block)) all(figure->caption, visit);
  if (auto* list = std::get_if<List>(&block))
    for (auto& entry : list->entries) all(entry, visit);
  if (auto* table = std::get_if<Table>(&block))
    for (auto& row : table->rows)
      for (auto& cell : row.cells)
        for (auto& sentence : cell.sentences) visit(sentence);
}

}  // namespace walk

/// Writes sentences one after the other, each with its notes: `out` has runs(), numbers() and blank().
template <typename Form>
void write_sentences(const std::vector<Sentence>& sentences, Form& out) {
  for (std::size_t at = 0; at < sentences.size(); ++at) {
    if (at != 0) out.blank();
    out.runs(sentences[at].runs);
    if (!sentences[at].notes_beside) out.numbers(sentences[at].notes);
  }
}

/// Calls the visitor for every sentence of the document, in reading order.
template <typename Whole, typename Visitor>
void each_sentence(Whole& document, const Visitor& visit) {
  for (auto& block : document.front) walk::in(block, visit);
  for (auto& chapter : document.chapters)
    for (auto& block : chapter.blocks) walk::in(block, visit);
}

/// The same for every block of one kind, Figure or Table.
template <typename Kind, typename Whole, typename Visitor>
void each_block(Whole& document, const Visitor& visit) {
  const auto look = [&](auto& block) {
    if (auto* one = std::get_if<Kind>(&block)) visit(*one);
  };
  for (auto& block : document.front) look(block);
  for (auto& chapter : document.chapters)
    for (auto& block : chapter.blocks) look(block);
}

}  // namespace lathbook::report
