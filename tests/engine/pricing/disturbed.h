// A right text with lines lost, doubled and strayed: what a hurried hand leaves of it.
#pragma once

#include "engine/fault/fault.h"

#include <rapidcheck.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

namespace endband::testing {

// All lines but the first may suffer.
inline std::string disturbed(std::string_view right) {
  std::vector<std::string> lines;
  std::istringstream text{std::string(right)};
  for (std::string line; std::getline(text, line);) lines.push_back(line);
  auto const at = [&] {
    return *rc::gen::inRange<std::ptrdiff_t>(1, static_cast<std::ptrdiff_t>(lines.size()));
  };
  int const times = *rc::gen::inRange(1, 4);
  for (int i = 0; i < times; ++i) {
    std::string const line = lines[static_cast<std::size_t>(at())];
    if (*rc::gen::arbitrary<bool>()) lines.erase(lines.begin() + at());
    if (*rc::gen::arbitrary<bool>()) lines.insert(lines.begin() + at(), line);
  }
  std::string left;
  for (std::string const& line : lines) left += line + '\n';
  return left;
}

// Each fault has its place in the text and says what would be right; they stand in the text's order.
inline void assert_told_well(std::vector<Fault> const& faults, std::string const& text) {
  auto const lines = std::count(text.begin(), text.end(), '\n');
  RC_ASSERT(!faults.empty());
  for (Fault const& fault : faults) {
    RC_ASSERT(!fault.where.source.empty());
    RC_ASSERT(fault.where.line >= 1 && fault.where.line <= lines + 1);
    RC_ASSERT(fault.where.column >= 1);
    RC_ASSERT(!fault.expected.empty());
  }
  RC_ASSERT(std::is_sorted(faults.begin(), faults.end(), [](Fault const& a, Fault const& b) {
    return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
  }));
}

}  // namespace endband::testing
