#include "engine/cutting/sheets/finish.h"

#include <algorithm>
#include <stdexcept>
#include <tuple>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

struct Place {
  std::int64_t x = 0, y = 0, width = 0, height = 0;
  bool used = false;
};

std::array<std::int64_t, 2> sides(Job const& job, Pattern const& pattern) {
  Kind const& kind = job.kinds[at(pattern.kind)];
  return {kind.width, kind.roll ? pattern.length : kind.height};
}

// The two rectangles that a step leaves of `room`: beside the shape in its strip, and beyond the strip.
std::array<Place, 2> parted(Place const& room, Step const& step) {
  std::int64_t const right = room.width - step.width, above = room.height - step.height;
  Place const beside = step.upright ? Place{room.x, room.y + step.height, step.width, above}
                                    : Place{room.x + step.width, room.y, right, step.height};
  Place const beyond = step.upright ? Place{room.x + step.width, room.y, right, room.height}
                                    : Place{room.x, room.y + step.height, room.width, above};
  return {beside, beyond};
}

std::vector<Place> places_within(std::vector<Step> const& steps, std::int64_t width, std::int64_t height) {
  std::vector<Place> places(2 * steps.size() + 1);
  places[0] = {0, 0, width, height};
  for (std::size_t j = 0; j < steps.size(); ++j) {
    Place& room = places[at(steps[j].rect)];
    auto const rest = parted(room, steps[j]);
    room.used = true;
    places[2 * j + 1] = rest[0];
    places[2 * j + 2] = rest[1];
  }
  return places;
}

std::vector<Place> places_of(Job const& job, Pattern const& pattern) {
  auto const [width, height] = sides(job, pattern);
  return places_within(pattern.steps, width, height);
}

// Worth first, then the largest rectangle kept, then the largest at all.
using Merit = std::tuple<std::int64_t, std::int64_t, std::int64_t>;
Merit merit_of(Job const& job, int kind, std::array<Place, 2> const& rest) {
  SheetRequest const& request = *job.request;
  Merit merit{0, 0, 0};
  for (Place const& place : rest) {
    std::int64_t const width = place.width - request.kerf, height = place.height - request.kerf;
    if (width <= 0 || height <= 0) continue;
    std::get<2>(merit) = std::max(std::get<2>(merit), width * height);
    if (!is_kept(request.least_kept, width, height)) continue;
    std::get<1>(merit) = std::max(std::get<1>(merit), width * height);
    if (job.worth_counts()) std::get<0>(merit) += worth_of(request, job.kinds[at(kind)].sheet, width, height);
  }
  return merit;
}

// Steps marked with rect -1 go, and the others are numbered anew.
void drop_dead(Pattern& pattern) {
  std::vector<int> number(pattern.steps.size(), -1);
  std::vector<Step> steps;
  for (std::size_t j = 0; j < pattern.steps.size(); ++j) {
    if (pattern.steps[j].rect < 0) continue;
    number[j] = static_cast<int>(steps.size());
    Step step = pattern.steps[j];
    if (step.rect > 0) step.rect = 2 * number[at((step.rect - 1) / 2)] + (step.rect - 1) % 2 + 1;
    steps.push_back(step);
  }
  pattern.steps = std::move(steps);
}

}  // namespace

std::vector<Spot> spots_of(Job const&, std::vector<Step> const& steps, std::int64_t width,
                           std::int64_t height) {
  std::vector<Place> const places = places_within(steps, width, height);
  std::vector<Spot> spots;
  for (Step const& step : steps)
    if (step.shape >= 0)
      spots.push_back({places[at(step.rect)].x, places[at(step.rect)].y, step.width, step.height});
  return spots;
}

std::vector<Left> left_of(Job const& job, Pattern const& pattern) {
  std::vector<Place> const places = places_of(job, pattern);
  std::vector<Left> left;
  std::int64_t const kerf = job.request->kerf;
  auto const add = [&](std::size_t i, std::int64_t width, std::int64_t height) {
    if (width > kerf && height > kerf)
      left.push_back({static_cast<int>(i), places[i].x, places[i].y, width, height});
  };
  for (std::size_t i = 0; i < places.size(); ++i)
    if (!places[i].used) add(i, places[i].width, places[i].height);
  for (Step const& step : pattern.steps)
    if (step.shape < 0) add(at(step.rect), step.width, step.height);
  return left;
}

void tidy(Job const& job, Pattern& pattern) {
  if (pattern.steps.empty()) return;
  std::vector<Place> const places = places_of(job, pattern);
  std::vector<bool> used(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) used[i] = places[i].used;
  for (std::size_t j = pattern.steps.size(); j-- > 0;) {
    Step& step = pattern.steps[j];
    if (used[2 * j + 1] || used[2 * j + 2]) continue;
    if (step.shape < 0) {
      used[at(step.rect)] = false;
      step.rect = -1;
      continue;
    }
    Place const& room = places[at(step.rect)];
    Step other = step;
    other.upright = !step.upright;
    if (merit_of(job, pattern.kind, parted(room, step)) < merit_of(job, pattern.kind, parted(room, other)))
      step = other;
  }
  drop_dead(pattern);
}

void set_cost(Job const& job, Pattern& pattern) {
  Kind const& kind = job.kinds[at(pattern.kind)];
  Sheet const& sheet = job.request->sheets[at(kind.sheet)];
  std::int64_t const kerf = job.request->kerf;
  pattern.cost = kind.roll ? torn_cost(sheet.cost, pattern.length - kerf, sheet.height) : sheet.cost;
  if (kind.roll || !job.worth_counts()) return;
  for (Left const& left : left_of(job, pattern))
    if (is_kept(job.request->least_kept, left.width - kerf, left.height - kerf))
      pattern.cost -= worth_of(*job.request, kind.sheet, left.width - kerf, left.height - kerf);
}

std::int64_t largest_kept(Job const& job, Pattern const& pattern) {
  std::int64_t largest = 0;
  std::int64_t const kerf = job.request->kerf;
  if (job.kinds[at(pattern.kind)].roll || job.request->least_kept == 0) return 0;
  for (Left const& left : left_of(job, pattern))
    if (is_kept(job.request->least_kept, left.width - kerf, left.height - kerf))
      largest = std::max(largest, (left.width - kerf) * (left.height - kerf));
  return largest;
}

Dealer::Dealer(Job const& job) : job_(job), place_(job.types.size()), dealt_(job.types.size()) {}

int Dealer::next_piece(int type) {
  std::vector<int> const& pieces = job_.types[at(type)].pieces;
  std::size_t& place = place_[at(type)];
  while (place < pieces.size() && dealt_[at(type)] == job_.request->pieces[at(pieces[place])].copies) {
    ++place;
    dealt_[at(type)] = 0;
  }
  if (place == pieces.size()) throw std::logic_error("more pieces are laid than were asked for");
  ++dealt_[at(type)];
  return pieces[place];
}

CutSheet Dealer::cut_sheet(Pattern const& pattern) {
  SheetRequest const& request = *job_.request;
  Kind const& kind = job_.kinds[at(pattern.kind)];
  CutSheet sheet;
  sheet.sheet = kind.sheet;
  std::int64_t const dx = request.trim, dy = kind.roll ? 0 : request.trim;
  if (kind.roll) sheet.length = pattern.length - request.kerf;
  std::vector<Place> const places = places_of(job_, pattern);
  std::vector<int> parts(places.size(), 0);
  auto const cut = [&](int part, bool across, std::int64_t where) {
    sheet.cuts.push_back({part, across, where});
    return 2 * static_cast<int>(sheet.cuts.size()) - 1;
  };
  std::vector<std::pair<int, int>> empty;  // parts of steps that lay nothing, by their rectangle
  for (std::size_t j = 0; j < pattern.steps.size(); ++j) {
    Step const& step = pattern.steps[j];
    Place const& room = places[at(step.rect)];
    int part = parts[at(step.rect)];
    auto const part_off = [&](bool across, std::size_t rest) {
      if ((across ? step.height : step.width) == 0) {  // just a cut: all of the strip is what lies beside
        parts[rest] = part;
        return;
      }
      if ((across ? step.height : step.width) == (across ? room.height : room.width)) return;
      part = cut(part, across, (across ? step.height : step.width) - request.kerf);
      parts[rest] = part + 1;
    };
    part_off(!step.upright, 2 * j + 2);
    part_off(step.upright, 2 * j + 1);
    if (step.shape < 0) {
      empty.emplace_back(step.rect, part);
      continue;
    }
    Shape const& shape = job_.shapes[at(step.shape)];
    int const piece = next_piece(shape.type);
    bool const turned = request.pieces[at(piece)].width + request.kerf != shape.width;
    sheet.laid.push_back({piece, part, room.x + dx, room.y + dy, turned});
  }
  if (kind.roll) return sheet;
  for (Left const& left : left_of(job_, pattern)) {
    std::int64_t const width = left.width - request.kerf, height = left.height - request.kerf;
    if (!is_kept(request.least_kept, width, height)) continue;
    auto const void_part =
        std::find_if(empty.begin(), empty.end(), [&](auto const& e) { return e.first == left.rect; });
    int const part = void_part == empty.end() ? parts[at(left.rect)] : void_part->second;
    sheet.kept.push_back({part, left.x + dx, left.y + dy, width, height});
  }
  return sheet;
}

}  // namespace endband::cutting::many
