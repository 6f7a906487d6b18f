#include "cli/commands/svg_drawing.h"

#include "cli/document/text.h"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

namespace endband::cli {
namespace {

constexpr std::string_view blanks = " \t\r\n";

struct Attribute {
  std::string_view name, value;
  std::size_t at = 0;  // of the value, in the file
};

struct Element {
  std::string_view name;  // without its prefix
  std::size_t at = 0;
  std::vector<Attribute> attributes;
  bool closed = false;  // <path ... />
};

std::string_view without_prefix(std::string_view name) {
  std::size_t const colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

// What lies in one of these is drawn elsewhere, or not at all.
bool hides(std::string_view name) {
  constexpr std::array names{std::string_view("defs"),    std::string_view("clipPath"),
                             std::string_view("marker"),  std::string_view("mask"),
                             std::string_view("pattern"), std::string_view("symbol")};
  return std::ranges::find(names, name) != names.end();
}

Attribute const* attribute_of(Element const& element, std::string_view name) {
  auto const found = std::ranges::find(element.attributes, name, &Attribute::name);
  return found == element.attributes.end() ? nullptr : &*found;
}

// The attribute that moves or turns what is in the element.
Attribute const* transform_of(Element const& element) {
  Attribute const* const plain = attribute_of(element, "transform");
  if (plain != nullptr && plain->value.find_first_not_of(blanks) != std::string_view::npos) return plain;
  Attribute const* const style = attribute_of(element, "style");
  for (std::string_view const word : {"transform:", "transform :", "translate:", "rotate:", "scale:"})
    if (style != nullptr && style->value.find(word) != std::string_view::npos) return style;
  return nullptr;
}

class Drawing {
 public:
  explicit Drawing(std::string_view file) : file_(file) {}

  Read<DrawnPath> path() {
    while (!fault_ && at_ < file_.size()) {
      std::size_t const opened = file_.find('<', at_);
      if (opened == std::string_view::npos) break;
      at_ = opened;
      if (auto path = mark()) return std::move(*path);
    }
    if (!fault_) fault_ = Fault{FaultCode::bad_value, {}, "", "an SVG drawing with a path, uncompressed", {}};
    return refuse(std::move(*fault_));
  }

 private:
  std::string_view rest() const { return file_.substr(at_); }
  void fail(FaultCode code, std::size_t at, std::string_view found, std::string expected) {
    if (!fault_) fault_ = Fault{code, place_in(file_, at), std::string(found), std::move(expected), {}};
  }

  // One mark at a '<'; the path, when it is that.
  std::optional<DrawnPath> mark() {
    if (rest().starts_with("<!--")) return pass("<!--", "-->");
    if (rest().starts_with("<![CDATA[")) return pass("<![CDATA[", "]]>");
    if (rest().starts_with("<?")) return pass("<?", "?>");
    if (rest().starts_with("<!")) return pass_document_type();
    if (rest().starts_with("</")) {
      if (!open_.empty()) open_.pop_back();
      return pass("</", ">");
    }
    auto element = read_element();
    if (!element) return std::nullopt;
    if (auto path = path_of(*element)) return path;
    if (!element->closed) open_.push_back(std::move(*element));
    return std::nullopt;
  }

  std::optional<DrawnPath> pass(std::string_view begin, std::string_view end) {
    std::size_t const found = file_.find(end, at_ + begin.size());
    if (found == std::string_view::npos)
      fail(FaultCode::bad_syntax, at_, begin, "it has no end; a whole SVG file was due");
    else
      at_ = found + end.size();
    return std::nullopt;
  }

  // It may have a part of its own in brackets, with '>' in it.
  std::optional<DrawnPath> pass_document_type() {
    std::size_t const mark = file_.find_first_of("[>", at_);
    bool const brackets = mark != std::string_view::npos && file_[mark] == '[';
    if (brackets) pass("<!", "]");
    return fault_ ? std::nullopt : pass(brackets ? "" : "<!", ">");
  }

  std::optional<Element> read_element() {
    Element element;
    element.at = at_++;
    element.name = without_prefix(take_name());
    if (element.name.empty()) {
      fail(FaultCode::bad_syntax, element.at, "<", "the name of an element was due after it");
      return std::nullopt;
    }
    while (true) {
      skip_blanks();
      if (rest().starts_with(">") || rest().starts_with("/>")) break;
      auto attribute = read_attribute();
      if (!attribute) return std::nullopt;
      element.attributes.push_back(*attribute);
    }
    element.closed = file_[at_] == '/';
    at_ += element.closed ? 2 : 1;
    return element;
  }

  void skip_blanks() { at_ = std::min(file_.find_first_not_of(blanks, at_), file_.size()); }

  std::string_view take_name() {
    std::size_t const begin = at_;
    at_ = std::min(file_.find_first_of(" \t\r\n=/>\"'<", at_), file_.size());
    return file_.substr(begin, at_ - begin);
  }

  std::optional<Attribute> read_attribute() {
    std::size_t const begin = at_;
    Attribute attribute;
    attribute.name = take_name();
    skip_blanks();
    bool good = !attribute.name.empty() && rest().starts_with("=");
    if (good) {
      ++at_;
      skip_blanks();
      good = rest().starts_with('"') || rest().starts_with('\'');
    }
    std::size_t const end = good ? file_.find(file_[at_], at_ + 1) : std::string_view::npos;
    if (end == std::string_view::npos) {
      fail(FaultCode::bad_syntax, std::min(begin, file_.size() - 1), attribute.name,
           "an attribute with its value in quotes, or the end of the element, was due");
      return std::nullopt;
    }
    attribute.at = at_ + 1;
    attribute.value = file_.substr(attribute.at, end - attribute.at);
    at_ = end + 1;
    return attribute;
  }

  std::optional<DrawnPath> path_of(Element const& element) {
    Attribute const* const data = attribute_of(element, "d");
    bool const hidden = std::ranges::any_of(open_, [](Element const& in) { return hides(in.name); });
    if (element.name != "path" || data == nullptr || hidden) return std::nullopt;
    refuse_transform(element);
    for (Element const& in : open_) refuse_transform(in);
    if (std::size_t const entity = data->value.find('&'); entity != std::string_view::npos)
      fail(FaultCode::bad_syntax, data->at + entity, "&", "path data without entities was due");
    if (fault_) return std::nullopt;
    return DrawnPath{std::string(data->value), data->at};
  }

  void refuse_transform(Element const& element) {
    Attribute const* const transform = transform_of(element);
    if (transform == nullptr) return;
    std::string_view const value = transform->value.substr(0, 60);
    fail(FaultCode::contradiction, transform->at, value,
         "a path that nothing moves, turns or stretches: this " + std::string(transform->name) + " of <" +
             std::string(element.name) +
             "> is not read; ungroup it, or save as plain SVG with transforms applied");
  }

  std::string_view file_;
  std::size_t at_ = 0;
  std::vector<Element> open_;
  std::optional<Fault> fault_;
};

}  // namespace

Where place_in(std::string_view file, std::size_t at) {
  std::string_view const before = file.substr(0, at);
  std::size_t const line_end = before.find_last_of('\n');
  std::string_view const line = line_end == std::string_view::npos ? before : before.substr(line_end + 1);
  return {{},
          static_cast<int>(std::ranges::count(before, '\n')) + 1,
          static_cast<int>(code_points(line)) + 1,
          {}};
}

Read<DrawnPath> first_path(std::string_view file) { return Drawing(file).path(); }

}  // namespace endband::cli
