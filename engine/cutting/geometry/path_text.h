// The characters of SVG path data: commands, numbers and flags (SVG 1.1, 8.3.9).
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace endband::cutting::drawing {

class PathText {
 public:
  explicit PathText(std::string_view text) : text_(text) {}
  std::size_t at() const { return at_; }
  bool at_end() const { return at_ == text_.size(); }
  void skip_space();
  // A comma counts as said only where a number must follow.
  void skip_space_and_comma();
  bool at_number() const;
  char command();                  // the next character, taken
  std::optional<double> number();  // nullopt: none here, or too large to be one
  std::optional<bool> flag();      // one 0 or 1, which needs nothing between it and what follows
  // After a full set of arguments: whether another follows. A comma with no number behind it stays untaken.
  bool another_set();

 private:
  std::size_t digits_from(std::size_t at) const;  // where they end

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace endband::cutting::drawing
