// A text of any length, a line at a time.
#pragma once

#include "engine/fault/fault.h"

#include <string>
#include <string_view>

namespace endband::cli {

class TextLines {
 public:
  // "-": standard input. `wanted`: what it should be, for the faults file_missing and file_unusable.
  static Read<TextLines> open(std::string const& path, std::string wanted);
  TextLines(TextLines&& other) noexcept;
  TextLines(TextLines const&) = delete;
  TextLines& operator=(TextLines const&) = delete;
  TextLines& operator=(TextLines&&) = delete;
  ~TextLines();

  // The next line without its end, which stands until the next call; false where there is none.
  Read<bool> next(std::string_view& line);
  int number() const { return number_; }  // of that line, from 1
  std::string const& source() const { return source_; }

 private:
  TextLines(int descriptor, std::string source, std::string wanted);
  bool fill();

  int descriptor_;
  std::string source_, wanted_;
  std::string room_;
  std::size_t at_ = 0;
  int number_ = 0;
};

}  // namespace endband::cli
