// The one file that knows Graphviz.
#include "plugins/sequence/layout.hpp"

#include <graphviz/gvc.h>

#include <algorithm>
#include <memory>
#include <string>

#include "core/base/error.hpp"

extern "C" {
extern gvplugin_library_t gvplugin_dot_layout_LTX_library;
}

namespace lathbook::sequence {

namespace {

constexpr double kPointsPerInch = 72;

struct FreeContext {
  void operator()(GVC_t* context) const { gvFreeContext(context); }
};

std::string inches(double points) {
  return std::to_string(points / kPointsPerInch);
}

class Drawing {
public:
  Drawing(const std::vector<std::uint32_t>& rank, std::uint32_t ranks, const LayoutSize& size)
      : rank_(rank), ranks_(ranks), size_(size) {
    const lt_symlist_t builtin[] = {
        {"gvplugin_dot_layout_LTX_library", static_cast<void*>(&gvplugin_dot_layout_LTX_library)},
        {nullptr, nullptr}};
    context_.reset(gvContextPlugins(builtin, 0));
    if (!context_) fail(ErrorKind::unsupported, "the Graphviz library could not be started");
    graph_ = agopen(name("sequence"), Agdirected, nullptr);
  }
  ~Drawing() {
    if (laid_out_) gvFreeLayout(context_.get(), graph_);
    agclose(graph_);
  }
  Drawing(const Drawing&) = delete;
  Drawing& operator=(const Drawing&) = delete;

  Layout make(const std::vector<LayoutLine>& lines) {
    set_defaults();
    add_spine();
    for (std::size_t at = 0; at < rank_.size(); ++at)
      boxes_.push_back(add_box("b" + std::to_string(at), rank_[at]));
    for (const LayoutLine& line : lines) add_line(line);
    if (gvLayout(context_.get(), graph_, "dot") != 0)
      fail(ErrorKind::unsupported, "the Graphviz library could not lay the drawing out");
    laid_out_ = true;
    return read(lines.size());
  }

private:
  // Graphviz's interface wants text that may be written to, and copies it.
  char* name(const std::string& text) {
    text_ = text;
    return text_.data();
  }
  void set(void* of, const char* key, const std::string& value) {
    key_ = key;
    agsafeset(of, key_.data(), name(value), empty_.data());
  }
  void set_default(int kind, const char* key, const std::string& value) {
    key_ = key;
    agattr(graph_, kind, key_.data(), name(value));
  }

  void set_defaults() {
    set_default(AGRAPH, "rankdir", "TB");
    set_default(AGRAPH, "nodesep", inches(size_.between_boxes));
    set_default(AGRAPH, "ranksep", inches(size_.between_ranks));
    set_default(AGRAPH, "splines", "true");
    set_default(AGRAPH, "rank", "");
    set_default(AGNODE, "shape", "box");
    set_default(AGNODE, "fixedsize", "true");
    set_default(AGNODE, "width", inches(size_.box_width));
    set_default(AGNODE, "height", inches(size_.box_height));
    set_default(AGNODE, "label", "");
    set_default(AGEDGE, "dir", "none");
    set_default(AGEDGE, "weight", "4");
    set_default(AGEDGE, "constraint", "true");
  }

  // A column of narrow posts, one a rank, holds every rank at its height.
  void add_spine() {
    for (std::uint32_t rank = 0; rank < ranks_; ++rank) {
      Agraph_t* level = agsubg(graph_, name("rank" + std::to_string(rank)), 1);
      set(level, "rank", "same");
      levels_.push_back(level);
      Agnode_t* post = agnode(level, name("post" + std::to_string(rank)), 1);
      set(post, "width", "0.01");
      posts_.push_back(post);
      if (rank > 0) set(agedge(graph_, post, posts_[rank - 1], nullptr, 1), "weight", "0");
    }
  }

  Agnode_t* add_box(const std::string& called, std::uint32_t rank) {
    return agnode(levels_[rank], name(called), 1);
  }

  void add_line(const LayoutLine& line) {
    Agnode_t* from = boxes_[line.later];
    Agnode_t* to = boxes_[line.earlier];
    Agedge_t* edge = agedge(graph_, from, to, name("line" + std::to_string(lines_.size())), 1);
    if (rank_[line.later] <= rank_[line.earlier]) set(edge, "constraint", "false");
    lines_.push_back(edge);
  }

  double y_of(std::uint32_t rank) const {
    return (static_cast<double>(ranks_ - rank) - 0.5) * (size_.box_height + size_.between_ranks);
  }

  // Graphviz counts upward from the lowest point; its ranks are evenly apart, as all boxes are of one height.
  Layout read(std::size_t count) const {
    Layout layout;
    const double low = ND_coord(posts_.front()).y, base = y_of(0);
    double left = 1e9, right = -1e9;
    const auto spot = [&](const pointf& point) {
      left = std::min(left, point.x);
      right = std::max(right, point.x);
      return Spot{point.x, base - (point.y - low)};
    };
    for (Agnode_t* box : boxes_) {
      layout.boxes.push_back(spot(ND_coord(box)));
      left = std::min(left, ND_coord(box).x - size_.box_width / 2);
      right = std::max(right, ND_coord(box).x + size_.box_width / 2);
    }
    layout.lines.resize(count);
    for (std::size_t at = 0; at < count; ++at) {
      const splines* drawn = ED_spl(lines_[at]);
      if (!drawn || drawn->size == 0) continue;
      const bezier& curve = drawn->list[0];
      for (std::size_t point = 0; point < static_cast<std::size_t>(curve.size); ++point)
        layout.lines[at].push_back(spot(curve.list[point]));
    }
    for (Spot& box : layout.boxes) box.x -= left;
    for (auto& line : layout.lines)
      for (Spot& point : line) point.x -= left;
    layout.width = right - left;
    return layout;
  }

  const std::vector<std::uint32_t>& rank_;
  std::uint32_t ranks_;
  LayoutSize size_;
  std::string text_, key_, empty_;
  std::unique_ptr<GVC_t, FreeContext> context_;
  Agraph_t* graph_ = nullptr;
  bool laid_out_ = false;
  std::vector<Agraph_t*> levels_;
  std::vector<Agnode_t*> posts_, boxes_;
  std::vector<Agedge_t*> lines_;
};

}  // namespace

Layout lay_out(const std::vector<std::uint32_t>& rank, std::uint32_t ranks,
               const std::vector<LayoutLine>& lines, const LayoutSize& size) {
  if (rank.empty()) return {};
  return Drawing(rank, ranks, size).make(lines);
}

}  // namespace lathbook::sequence
