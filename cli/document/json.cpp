#include "cli/document/json.h"

#include <nlohmann/json.hpp>

namespace endband::cli {
namespace {

using Tree = nlohmann::ordered_json;

struct ToTree {
  Tree operator()(std::nullptr_t) const { return nullptr; }
  Tree operator()(bool value) const { return value; }
  Tree operator()(std::int64_t value) const { return value; }
  Tree operator()(std::string const& value) const { return value; }
  Tree operator()(Json::Array const& values) const {
    Tree tree = Tree::array();
    for (Json const& value : values) tree.push_back(std::visit(*this, value.value()));
    return tree;
  }
  Tree operator()(Json::Object const& members) const {
    Tree tree = Tree::object();
    for (auto const& [key, value] : members) tree[key] = std::visit(*this, value.value());
    return tree;
  }
};

std::string_view unit_key(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "length_um";
    case Dimension::area: return "area_um2";
    case Dimension::mass: return "mass_mg";
    case Dimension::volume: return "volume_ul";
    case Dimension::count: return "count_thousandths";
    case Dimension::duration: return "duration_s";
  }
  return "";
}

}  // namespace

Json::Array json_words(std::vector<std::string> const& words) {
  return json_array(words, [](std::string const& word) { return Json(word); });
}

Json money_json(Money money) {
  return Json::Object{{"amount", money_text(money)}, {"currency", money.currency.code()}};
}

Json money_json(std::optional<Money> const& money) { return money ? money_json(*money) : Json(); }

Json ratio_json(Ratio ratio) { return ratio_text(ratio); }

Json amount_json(Amount amount) { return Json::Object{{std::string(unit_key(amount.dimension)), amount.n}}; }

std::string json_text(Json const& json, bool indented) {
  Tree const tree = std::visit(ToTree{}, json.value());
  // What is not UTF-8 can only come from a damaged file; it is shown as U+FFFD rather than lost with the
  // whole.
  return tree.dump(indented ? 2 : -1, ' ', false, Tree::error_handler_t::replace) + "\n";
}

}  // namespace endband::cli
