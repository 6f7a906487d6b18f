#include "engine/cutting/sheets/equal_pieces.h"

#include "engine/cutting/geometry/worth.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>

namespace endband::cutting {
namespace {

constexpr int most_pieces = 40;
constexpr std::size_t most_states = 20'000;

struct Split {
  bool across = false;
  std::int64_t at = 0;  // grown: a kerf longer than the first part
  int first = 0;        // pieces of the first part
};
struct Best {
  std::int64_t worth = 0;
  std::optional<Split> split;  // none: it is the piece itself, or is left whole
};

// Every way to cut a rectangle into equal pieces and rests by cuts from edge to edge, each at a whole number
// of pieces from an edge of what is cut: a rest is as good on one side as on the other. Sides are a kerf
// longer than they are.
class EqualPieces {
 public:
  EqualPieces(SheetRequest const& request, Sheet const& sheet, std::int64_t width, std::int64_t height)
      : request_(request), sheet_(sheet), width_(width + request.kerf), height_(height + request.kerf) {}

  // nullopt: they do not fit, or there are too many ways.
  std::optional<Best> best(std::int64_t width, std::int64_t height, int count) {
    if (count == 0) return Best{rest(width - request_.kerf, height - request_.kerf), std::nullopt};
    if (count > capacity(width, height)) return std::nullopt;
    if (count == 1 && width == width_ && height == height_) return Best{};
    auto const [place, fresh] = known_.try_emplace({width, height, count});
    if (!fresh) return place->second;
    if (known_.size() > most_states) full_ = true;
    std::optional<Best> found;
    if (!full_) {
      for (bool const across : {false, true}) try_cuts(width, height, count, across, found);
    }
    return known_[{width, height, count}] = found;
  }
  bool gave_up() const { return full_; }

 private:
  std::int64_t capacity(std::int64_t width, std::int64_t height) const {
    return (width / width_) * (height / height_);
  }
  std::int64_t rest(std::int64_t width, std::int64_t height) const {
    if (width <= 0 || height <= 0 || !is_kept(request_.least_kept, width, height)) return 0;
    return kept_worth(request_.worth, sheet_.cost, width, height, sheet_.width * sheet_.height);
  }
  void try_cuts(std::int64_t width, std::int64_t height, int count, bool across, std::optional<Best>& found) {
    std::int64_t const side = across ? height : width, step = across ? height_ : width_;
    // More steps than pieces would only leave a rest in the first part.
    for (std::int64_t at = step; at < side && at <= step * count; at += step) {
      std::int64_t const beyond = side - at;
      std::int64_t const holds = across ? capacity(width, at) : capacity(at, height);
      for (int first = 1; first <= std::min<std::int64_t>(count, holds); ++first) {
        auto const one = across ? best(width, at, first) : best(at, height, first);
        auto const other = across ? best(width, beyond, count - first) : best(beyond, height, count - first);
        if (full_) return;
        if (one && other && (!found || one->worth + other->worth > found->worth))
          found = Best{one->worth + other->worth, Split{across, at, first}};
      }
    }
  }

  SheetRequest const& request_;
  Sheet const& sheet_;
  std::int64_t width_, height_;  // of the piece
  std::map<std::tuple<std::int64_t, std::int64_t, int>, std::optional<Best>> known_;
  bool full_ = false;
};

struct Room {
  int part = 0;
  std::int64_t x = 0, y = 0, width = 0, height = 0;  // sides grown
  int count = 0;
};

// The cuts in the order they are made, each part after the one it comes from.
class Cutting {
 public:
  Cutting(SheetRequest const& request, EqualPieces& pieces, CutSheet const& before)
      : request_(request), pieces_(pieces), laid_(before.laid) {
    cut_.sheet = before.sheet;
  }
  CutSheet cut(Room const& whole) && {
    std::vector<Room> open{whole};
    while (!open.empty()) {
      Room const room = open.back();
      open.pop_back();
      take(room, open);
    }
    return std::move(cut_);
  }

 private:
  void take(Room const& room, std::vector<Room>& open) {
    auto const best = pieces_.best(room.width, room.height, room.count).value();
    if (!best.split) return end(room);
    Split const split = *best.split;
    int const number = static_cast<int>(cut_.cuts.size());
    cut_.cuts.push_back({room.part, split.across, split.at - request_.kerf});
    Room first = room, second = room;
    first.part = 2 * number + 1;
    second.part = 2 * number + 2;
    first.count = split.first;
    second.count = room.count - split.first;
    (split.across ? first.height : first.width) = split.at;
    (split.across ? second.height : second.width) -= split.at;
    (split.across ? second.y : second.x) += split.at;
    open.push_back(second);
    open.push_back(first);
  }
  void end(Room const& room) {
    std::int64_t const width = room.width - request_.kerf, height = room.height - request_.kerf;
    if (room.count == 1) {
      Laid laid = laid_.at(cut_.laid.size());
      laid.part = room.part;
      laid.x = room.x;
      laid.y = room.y;
      cut_.laid.push_back(laid);
    } else if (width > 0 && height > 0 && is_kept(request_.least_kept, width, height)) {
      cut_.kept.push_back({room.part, room.x, room.y, width, height});
    }
  }

  SheetRequest const& request_;
  EqualPieces& pieces_;
  std::vector<Laid> laid_;
  CutSheet cut_;
};

// The one size of all its pieces as they lie; nullopt: they differ.
std::optional<std::pair<std::int64_t, std::int64_t>> one_size(SheetRequest const& request,
                                                              CutSheet const& cut) {
  std::optional<std::pair<std::int64_t, std::int64_t>> size;
  for (Laid const& laid : cut.laid) {
    Rect const& piece = request.pieces.at(static_cast<std::size_t>(laid.piece));
    auto const own =
        laid.turned ? std::pair(piece.height, piece.width) : std::pair(piece.width, piece.height);
    if (size && *size != own) return std::nullopt;
    size = own;
  }
  return size;
}

}  // namespace

std::int64_t worth_kept(SheetRequest const& request, CutSheet const& cut) {
  Sheet const& sheet = request.sheets.at(static_cast<std::size_t>(cut.sheet));
  std::int64_t sum = 0;
  for (Offcut const& offcut : cut.kept)
    sum += kept_worth(request.worth, sheet.cost, offcut.width, offcut.height, sheet.width * sheet.height);
  return sum;
}

CutSheet keep_most(SheetRequest const& request, CutSheet const& cut) {
  Sheet const& sheet = request.sheets.at(static_cast<std::size_t>(cut.sheet));
  auto const size = one_size(request, cut);
  if (sheet.by_length || !size || cut.laid.size() > most_pieces) return cut;
  EqualPieces pieces(request, sheet, size->first, size->second);
  Room const whole{0,
                   request.trim,
                   request.trim,
                   sheet.width - 2 * request.trim + request.kerf,
                   sheet.height - 2 * request.trim + request.kerf,
                   static_cast<int>(cut.laid.size())};
  auto const best = pieces.best(whole.width, whole.height, whole.count);
  if (!best || pieces.gave_up() || best->worth <= worth_kept(request, cut)) return cut;
  return Cutting(request, pieces, cut).cut(whole);
}

}  // namespace endband::cutting
