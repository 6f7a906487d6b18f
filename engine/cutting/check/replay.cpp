#include "engine/cutting/check/replay.h"

namespace endband::cutting {
namespace {

struct Part {
  std::int64_t x = 0, y = 0, width = 0, height = 0;
  bool cut = false;
  bool taken = false;  // by a piece or an offcut
  bool exists() const { return width > 0 && height > 0; }
};

class Replay {
 public:
  Replay(Sheet const& sheet, CutSheet const& cut, SheetRules const& rules, int used, Faults& faults)
      : kerf_(rules.kerf), used_(used), faults_(faults) {
    parts_.reserve(2 * cut.cuts.size() + 1);
    std::int64_t const width = sheet.width - 2 * rules.trim;
    if (sheet.by_length)
      parts_.push_back({rules.trim, 0, width, cut.length});
    else
      parts_.push_back({rules.trim, rules.trim, width, sheet.height - 2 * rules.trim});
    for (std::size_t k = 0; k < cut.cuts.size(); ++k) make(cut.cuts[k], static_cast<int>(k));
  }

  // Takes the part, or says why it cannot be had.
  Part const* take(int part, int index) {
    if (!has(parts_, part) || !at(parts_, part).exists()) return fault(Broken::no_such_part, index);
    Part& taken = at(parts_, part);
    if (taken.cut) return fault(Broken::cut_twice, index);
    if (taken.taken) return fault(Broken::part_used_twice, index);
    taken.taken = true;
    return &taken;
  }

 private:
  Part const* fault(Broken broken, int index) {
    faults_.add(broken, used_, index);
    return nullptr;
  }

  // A cut that cannot be made leaves two parts that do not exist, so that the numbers of the others stay.
  void make(Cut const& cut, int index) {
    std::pair<Part, Part> const halves = parted(cut, index);
    parts_.push_back(halves.first);
    parts_.push_back(halves.second);
  }

  std::pair<Part, Part> parted(Cut const& cut, int index) {
    if (!has(parts_, cut.part) || !at(parts_, cut.part).exists())
      return fault(Broken::no_such_part, index), std::pair<Part, Part>{};
    Part& part = at(parts_, cut.part);
    if (part.cut) return fault(Broken::cut_twice, index), std::pair<Part, Part>{};
    std::int64_t const side = cut.across ? part.height : part.width;
    if (cut.at <= 0 || cut.at >= side) return fault(Broken::cut_outside, index), std::pair<Part, Part>{};
    part.cut = true;
    std::int64_t const beyond = side - cut.at - kerf_;
    if (cut.across)
      return {{part.x, part.y, part.width, cut.at}, {part.x, part.y + cut.at + kerf_, part.width, beyond}};
    return {{part.x, part.y, cut.at, part.height}, {part.x + cut.at + kerf_, part.y, beyond, part.height}};
  }

  std::vector<Part> parts_;
  std::int64_t kerf_;
  int used_;
  Faults& faults_;
};

void check_laid(Laid const& laid, std::span<Rect const> pieces, Replay& replay, int used, int index,
                std::span<Wide> placed, Faults& faults) {
  Part const* const part = replay.take(laid.part, index);
  if (!has(pieces, laid.piece)) return faults.add(Broken::no_such_piece, used, index);
  at(placed, laid.piece) += 1;
  Rect const& rect = at(pieces, laid.piece);
  faults.unless(rect.turns || !laid.turned, Broken::grain, used, index);
  if (part == nullptr) return;
  std::int64_t const width = laid.turned ? rect.height : rect.width;
  std::int64_t const height = laid.turned ? rect.width : rect.height;
  faults.unless(part->width == width && part->height == height, Broken::part_size, used, index);
  faults.unless(part->x == laid.x && part->y == laid.y, Broken::part_place, used, index);
}

// `inner` from `start` on lies within `outer` from `begin` on; no sum leaves 64 bits.
bool spans(std::int64_t begin, std::int64_t outer, std::int64_t start, std::int64_t inner) {
  return start >= begin && inner > 0 && inner <= outer && Wide{start} + inner <= Wide{begin} + outer;
}

void check_kept(Sheet const& sheet, Offcut const& kept, Replay& replay, SheetRules const& rules, int used,
                int index, Faults& faults) {
  Part const* const part = replay.take(kept.part, index);
  bool const large =
      rules.least_kept > 0 && kept.width >= rules.least_kept && kept.height >= rules.least_kept;
  bool const inside = part == nullptr || (spans(part->x, part->width, kept.x, kept.width) &&
                                          spans(part->y, part->height, kept.y, kept.height));
  faults.unless(large && inside && !sheet.by_length, Broken::kept, used, index);
}

}  // namespace

void check_sheet(Sheet const& sheet, CutSheet const& cut, std::span<Rect const> pieces,
                 SheetRules const& rules, int used, std::span<Wide> placed, Faults& faults) {
  bool const length = sheet.by_length ? cut.length > 0 && cut.length <= sheet.height : cut.length == 0;
  faults.unless(length, Broken::length, used);
  Replay replay(sheet, cut, rules, used, faults);
  for (std::size_t i = 0; i < cut.laid.size(); ++i)
    check_laid(cut.laid[i], pieces, replay, used, static_cast<int>(i), placed, faults);
  for (std::size_t i = 0; i < cut.kept.size(); ++i)
    check_kept(sheet, cut.kept[i], replay, rules, used, static_cast<int>(i), faults);
}

}  // namespace endband::cutting
