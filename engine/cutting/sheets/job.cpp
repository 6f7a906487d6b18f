#include "engine/cutting/sheets/job.h"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <tuple>

namespace endband::cutting::many {
namespace {

constexpr std::int64_t area_limit = std::int64_t{1} << 61;

std::int64_t area_within_limit(std::int64_t a, std::int64_t b) {
  Wide const area = static_cast<Wide>(a) * b;
  if (area > area_limit) throw std::logic_error("an area leaves its range");
  return static_cast<std::int64_t>(area);
}

void require(SheetRequest const& request) {
  auto const refuse = [](bool bad) {
    if (bad) throw std::logic_error("sheets are asked for that cannot be");
  };
  refuse(request.kerf < 0 || request.trim < 0 || request.least_kept < 0);
  refuse(request.worth.num < 0 || request.worth.den <= 0 || request.worth.num > request.worth.den);
  for (Sheet const& sheet : request.sheets)
    refuse(sheet.width <= 0 || sheet.height <= 0 || sheet.cost < 0 || sheet.copies.value_or(0) < 0);
  for (Rect const& piece : request.pieces) refuse(piece.width <= 0 || piece.height <= 0 || piece.copies < 0);
}

std::vector<Type> types_of(SheetRequest const& request) {
  std::vector<Type> types;
  for (std::size_t i = 0; i < request.pieces.size(); ++i) {
    Rect const& piece = request.pieces[i];
    if (piece.copies == 0) continue;
    Type type;
    type.width = plus(piece.width, request.kerf);
    type.height = plus(piece.height, request.kerf);
    type.turns = piece.turns && piece.width != piece.height;
    if (type.turns && type.width > type.height) std::swap(type.width, type.height);
    type.area = area_within_limit(type.width, type.height);
    type.count = piece.copies;
    type.pieces = {static_cast<int>(i)};
    types.push_back(std::move(type));
  }
  auto const key = [](Type const& t) { return std::tuple(-t.area, -t.height, t.width, t.turns); };
  std::stable_sort(types.begin(), types.end(), [&](Type const& a, Type const& b) { return key(a) < key(b); });
  std::vector<Type> merged;
  for (Type& type : types) {
    if (merged.empty() || key(merged.back()) != key(type)) {
      merged.push_back(std::move(type));
      continue;
    }
    merged.back().count = plus(merged.back().count, type.count);
    merged.back().pieces.push_back(type.pieces.front());
  }
  return merged;
}

std::vector<Shape> shapes_of(std::vector<Type>& types) {
  std::vector<Shape> shapes;
  for (std::size_t i = 0; i < types.size(); ++i) {
    Type& type = types[i];
    type.shape = static_cast<int>(shapes.size());
    shapes.push_back({static_cast<int>(i), false, type.width, type.height});
    if (type.turns) shapes.push_back({static_cast<int>(i), true, type.height, type.width});
  }
  return shapes;
}

}  // namespace

std::int64_t plus(std::int64_t a, std::int64_t b) {
  std::int64_t sum = 0;
  if (__builtin_add_overflow(a, b, &sum)) throw std::logic_error("a sum leaves 64 bits");
  return sum;
}

std::int64_t times(std::int64_t a, std::int64_t b) {
  std::int64_t product = 0;
  if (__builtin_mul_overflow(a, b, &product)) throw std::logic_error("a product leaves 64 bits");
  return product;
}

std::array<std::int64_t, 2> usable(Sheet const& sheet, std::int64_t trim) {
  std::int64_t const side =
      std::min(trim, std::max(sheet.width, sheet.height));  // so that twice it is in range
  std::int64_t const both = times(2, side);
  return {sheet.width - both, sheet.by_length ? sheet.height : sheet.height - both};
}

std::int64_t worth_of(SheetRequest const& request, int sheet, std::int64_t width, std::int64_t height) {
  Sheet const& from = request.sheets[static_cast<std::size_t>(sheet)];
  return kept_worth(request.worth, from.cost, width, height, times(from.width, from.height));
}

Job job_of(SheetRequest const& request) {
  require(request);
  Job job;
  job.request = &request;
  job.types = types_of(request);
  job.shapes = shapes_of(job.types);
  for (Type const& type : job.types) {
    job.pieces = plus(job.pieces, type.count);
    job.area = plus(job.area, area_within_limit(type.area, type.count));
  }
  std::int64_t largest = 1, dearest = 0;
  for (std::size_t i = 0; i < request.sheets.size(); ++i) {
    Sheet const& sheet = request.sheets[i];
    auto const [width, height] = usable(sheet, request.trim);
    if (width <= 0 || height <= 0 || sheet.copies == 0) continue;
    Kind kind{static_cast<int>(i),
              plus(width, request.kerf),
              plus(height, request.kerf),
              0,
              sheet.cost,
              std::min(sheet.copies.value_or(job.pieces), job.pieces),
              sheet.by_length};
    bool const fits = std::any_of(job.shapes.begin(), job.shapes.end(), [&](Shape const& shape) {
      return shape.width <= kind.width && shape.height <= kind.height;
    });
    if (!fits) continue;
    kind.area = area_within_limit(kind.width, kind.height);
    largest = std::max(largest, kind.area);
    dearest = plus(dearest, times(kind.cost, kind.copies));  // so no sum of costs leaves its range
    job.kinds.push_back(kind);
  }
  std::stable_sort(job.kinds.begin(), job.kinds.end(), [](Kind const& a, Kind const& b) {
    return static_cast<Wide>(a.cost) * b.area < static_cast<Wide>(b.cost) * a.area;
  });
  while ((largest >> job.shift) >= (std::int64_t{1} << 31)) ++job.shift;
  return job;
}

namespace {

struct Shortage {
  std::int64_t over = std::numeric_limits<std::int64_t>::max();
  Side side = Side::none;
};

// Of one way to lie on one sheet: the side that lacks more, by how much. nothing lacking: over <= 0.
Shortage shortage(std::array<std::int64_t, 2> room, std::int64_t width, std::int64_t height) {
  std::int64_t const by_width = plus(width, -room[0]);
  std::int64_t const by_height = plus(height, -room[1]);
  return by_width >= by_height ? Shortage{by_width, Side::width} : Shortage{by_height, Side::height};
}

}  // namespace

std::vector<Obstacle> misfits(SheetRequest const& request) {
  std::vector<Obstacle> found;
  for (std::size_t i = 0; i < request.pieces.size(); ++i) {
    Rect const& piece = request.pieces[i];
    if (piece.copies == 0) continue;
    Shortage upright, turned;
    for (Sheet const& sheet : request.sheets) {
      if (sheet.copies == 0) continue;
      auto const room = usable(sheet, request.trim);
      if (auto const s = shortage(room, piece.width, piece.height); s.over < upright.over) upright = s;
      if (auto const s = shortage(room, piece.height, piece.width); s.over < turned.over) turned = s;
    }
    if (upright.over <= 0 || (piece.turns && turned.over <= 0)) continue;
    if (upright.side == Side::none) {  // no sheet at all
      found.push_back({static_cast<int>(i), Why::not_enough, Side::none, 0});
      continue;
    }
    bool const by_grain = !piece.turns && turned.over <= 0;
    Shortage nearest = upright;
    if (piece.turns && turned.over < upright.over)  // sides are the piece's own
      nearest = {turned.over, turned.side == Side::width ? Side::height : Side::width};
    found.push_back(
        {static_cast<int>(i), by_grain ? Why::grain : Why::too_large, nearest.side, nearest.over});
  }
  return found;
}

}  // namespace endband::cutting::many
