// Puts JSON together and writes it.
#include "plugins/linked-art/json_node.hpp"

#include <algorithm>

namespace lathbook::linked_art {

Node Node::number(double value) {
  Node node;
  node.form_ = Form::number;
  node.number_ = value;
  return node;
}

Node Node::list(std::vector<Node> items) {
  Node node;
  node.form_ = Form::list;
  node.items_ = std::move(items);
  return node;
}

const Node* Node::get(std::string_view key) const {
  const auto found = std::find(keys_.begin(), keys_.end(), key);
  return found == keys_.end() ? nullptr : &items_[static_cast<std::size_t>(found - keys_.begin())];
}

bool Node::set(std::string_view key, Node value) {
  if (has(key)) return false;
  keys_.emplace_back(key);
  items_.push_back(std::move(value));
  return true;
}

void Node::add(std::string_view key, Node item) {
  const auto known = std::find(keys_.begin(), keys_.end(), key);
  if (known == keys_.end()) {
    set(key, list({std::move(item)}));
    return;
  }
  auto& items = items_[static_cast<std::size_t>(known - keys_.begin())].items_;
  if (std::find(items.begin(), items.end(), item) == items.end()) items.push_back(std::move(item));
}

void Node::write(JsonWriter& json) const {
  switch (form_) {
    case Form::words:
      json.string(text_);
      return;
    case Form::number:
      json.number(number_);
      return;
    case Form::list:
      json.begin_array();
      for (const Node& item : items_) item.write(json);
      json.end_array();
      return;
    case Form::object:
      break;
  }
  json.begin_object();
  for (std::size_t at = 0; at < keys_.size(); ++at) {
    json.key(keys_[at]);
    items_[at].write(json);
  }
  json.end_object();
}

}  // namespace lathbook::linked_art
