// A plan cut out again, by the words of sheets.h alone.
#pragma once

#include "engine/cutting/sheets/sheets.h"

#include <map>
#include <string>
#include <vector>

namespace endband::cutting {

struct Replayed {
  std::string fault;                 // empty: the plan holds
  std::vector<std::int64_t> counts;  // laid, of each piece
};

// `height`: of a roll, the length torn off; `trim_y`: of a roll, none.
inline Replayed replay(CutSheet const& plan, std::vector<Rect> const& pieces, std::int64_t width,
                       std::int64_t height, std::int64_t kerf, std::int64_t trim_x, std::int64_t trim_y) {
  struct Part {
    std::int64_t x, y, width, height;
  };
  Replayed out;
  out.counts.assign(pieces.size(), 0);
  std::map<int, Part> uncut{{0, {trim_x, trim_y, width - 2 * trim_x, height - 2 * trim_y}}};
  for (std::size_t k = 0; k < plan.cuts.size(); ++k) {
    Cut const& cut = plan.cuts[k];
    auto const found = uncut.find(cut.part);
    if (found == uncut.end()) return {"a cut of a part that is not there", out.counts};
    Part const part = found->second;
    uncut.erase(found);
    std::int64_t const whole = cut.across ? part.height : part.width, left = whole - cut.at - kerf;
    if (cut.at <= 0 || cut.at >= whole) return {"a cut that parts nothing", out.counts};
    int const number = 2 * static_cast<int>(k) + 1;
    uncut[number] =
        cut.across ? Part{part.x, part.y, part.width, cut.at} : Part{part.x, part.y, cut.at, part.height};
    if (left < 0) continue;
    uncut[number + 1] = cut.across ? Part{part.x, part.y + cut.at + kerf, part.width, left}
                                   : Part{part.x + cut.at + kerf, part.y, left, part.height};
  }
  for (Laid const& laid : plan.laid) {
    auto const found = uncut.find(laid.part);
    if (found == uncut.end()) return {"a piece that has no part", out.counts};
    Part const part = found->second;
    uncut.erase(found);
    Rect const& piece = pieces.at(static_cast<std::size_t>(laid.piece));
    if (laid.turned && !piece.turns) return {"a piece turned that may not be", out.counts};
    if (part.x != laid.x || part.y != laid.y) return {"a piece in another place", out.counts};
    if (part.width != (laid.turned ? piece.height : piece.width) ||
        part.height != (laid.turned ? piece.width : piece.height))
      return {"a part of another size", out.counts};
    ++out.counts[static_cast<std::size_t>(laid.piece)];
  }
  return out;
}

}  // namespace endband::cutting
