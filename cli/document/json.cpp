#include "cli/document/json.h"

#include "cli/document/json_line.h"
#include "cli/document/text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdint>

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

Json::Json() = default;
Json::Json(std::nullptr_t) {}
Json::Json(bool value) : value_(value) {}
Json::Json(int value) : value_(std::int64_t{value}) {}
Json::Json(std::int64_t value) : value_(value) {}
Json::Json(char const* value) : value_(std::string(value)) {}
Json::Json(std::string_view value) : value_(std::string(value)) {}
Json::Json(std::string value) : value_(std::move(value)) {}
Json::Json(Array value) : value_(std::move(value)) {}
Json::Json(Object value) : value_(std::move(value)) {}
Json::Json(Json const&) = default;
Json::Json(Json&&) noexcept = default;
Json& Json::operator=(Json const&) = default;
Json& Json::operator=(Json&&) noexcept = default;
Json::~Json() = default;

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

namespace {

// What nlohmann reads, as it reads it: no tree is made.
class LineReader {
 public:
  using number_integer_t = nlohmann::json::number_integer_t;
  using number_unsigned_t = nlohmann::json::number_unsigned_t;
  using number_float_t = nlohmann::json::number_float_t;
  using string_t = nlohmann::json::string_t;
  using binary_t = nlohmann::json::binary_t;

  explicit LineReader(JsonLine& line) : line_(line) {
    line_.within.clear();
    line_.members.clear();
  }
  Read<bool> result() const { return fault_ ? Read<bool>(refuse(*fault_)) : Read<bool>(true); }

  bool start_object(std::size_t) {
    if (depth_ == 1) {
      if (!line_.members.empty() || !line_.within.empty()) return wrong("one object in it");
      line_.within = key_;
    }
    return ++depth_ <= 2 || wrong("a whole number, words or null");
  }
  bool end_object() {
    --depth_;
    return true;
  }
  bool start_array(std::size_t) { return wrong(depth_ == 0 ? "an object" : "a whole number, words or null"); }
  bool end_array() { return true; }
  bool key(string_t& name) {
    if (depth_ == 1 && !line_.within.empty()) return wrong("nothing beside its one object");
    key_.swap(name);
    return true;
  }
  bool null() { return value(nullptr); }
  bool boolean(bool yes) { return wrong("a whole number, words or null", yes ? "true" : "false"); }
  bool number_integer(number_integer_t number) { return value(std::int64_t{number}); }
  bool number_unsigned(number_unsigned_t number) {
    if (number > std::uint64_t{INT64_MAX}) return wrong("a whole number of 64 bits", std::to_string(number));
    return value(static_cast<std::int64_t>(number));
  }
  bool number_float(number_float_t, string_t const& text) { return wrong("a whole number of 64 bits", text); }
  bool string(string_t& words) { return value(std::move(words)); }
  bool binary(binary_t&) { return false; }
  bool parse_error(std::size_t position, std::string const& token, nlohmann::json::exception const&) {
    fault_ = {FaultCode::bad_syntax,
              {"", 0, static_cast<int>(std::max<std::size_t>(position, 1)), ""},
              token.substr(token.size() - std::min<std::size_t>(token.size(), 40)),
              "JSON, one object a line",
              {}};
    return false;
  }

 private:
  bool value(JsonLine::Value value) {
    if (depth_ == 0) return wrong("an object");
    line_.members.emplace_back(key_, std::move(value));
    return true;
  }
  bool wrong(std::string expected, std::string found = "") {
    if (!found.empty() && depth_ > 0) found = key_ + ": " + found;
    fault_ = {FaultCode::wrong_type,
              {"", 0, 0, depth_ == 0 ? "" : key_},
              std::move(found),
              std::move(expected),
              {}};
    return false;
  }

  JsonLine& line_;
  std::string key_;
  int depth_ = 0;
  std::optional<Fault> fault_;
};

}  // namespace

Read<bool> read_json_line(std::string_view text, JsonLine& line) {
  LineReader reader(line);
  nlohmann::json::sax_parse(text.begin(), text.end(), &reader);
  return reader.result();
}

bool append_json_words(std::string& out, std::string_view words) {
  static constexpr std::string_view hex = "0123456789abcdef";
  auto const escape = [&](unsigned char byte) { ((out += "\\u00") += hex[byte >> 4U]) += hex[byte & 15U]; };
  if (!is_utf8(words)) return false;
  out += '"';
  for (std::size_t i = 0; i < words.size(); ++i) {
    auto const byte = static_cast<unsigned char>(words[i]);
    auto const next = i + 1 < words.size() ? static_cast<unsigned char>(words[i + 1]) : 0;
    if (byte == '"' || byte == '\\')
      (out += '\\') += words[i];
    else if (byte == '\n')
      out += "\\n";
    else if (byte < 0x20 || byte == 0x7F)
      escape(byte);
    else if (byte == 0xC2 && next < 0xA0)  // U+0080 to U+009F move a terminal's cursor too
      escape(static_cast<unsigned char>(words[++i]));
    else
      out += words[i];
  }
  out += '"';
  return true;
}

}  // namespace endband::cli
