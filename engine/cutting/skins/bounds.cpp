#include "engine/cutting/skins/bounds.h"

#include "engine/cutting/geometry/fit.h"
#include "engine/cutting/skins/lines.h"

#include <algorithm>
#include <limits>
#include <set>

namespace endband::cutting::skins {
namespace {

__extension__ using Wide = __int128;

constexpr std::size_t most_pairs = 2000;  // of edges; beyond, no proof is tried

// The zones that a piece of the grade may not touch.
std::vector<Polygon> poorer(Skin const& skin, int grade) {
  std::vector<Polygon> zones;
  for (Zone const& zone : skin.zones)
    if (zone.grade < grade) zones.push_back(zone.polygon);
  return zones;
}

// Looked for along some lines from the middle outwards, then among all seeds: true is a place, false says
// nothing.
bool lies_somewhere(Lines& lines, Site const& site, int skin, int shape) {
  for (std::int64_t part = 0; part < 8; ++part)
    if (!lines.at(skin, shape, Axis::column, site.columns * (part % 2 == 0 ? 8 - part : 8 + part) / 24)
             .empty())
      return true;
  return !lines.seeds(skin, shape).empty();
}

}  // namespace

Bounds::Bounds(SkinRequest const& request, Space const& space) : request_{request}, space_{space} {
  for (SkinPiece const& piece : request.pieces) grades_.push_back(piece.least_grade);
  std::ranges::sort(grades_);
  grades_.erase(std::unique(grades_.begin(), grades_.end()), grades_.end());
  find_usable();
  find_needs();
  find_takes();
}

void Bounds::find_usable() {
  for (Skin const& skin : request_.skins) {
    std::vector<std::int64_t> by_level{twice_usable(skin.outline, skin.flaws)};
    for (int const grade : grades_)
      by_level.push_back(twice_usable(skin.outline, skin.flaws, skin.zones, skin.grade, grade));
    usable_.push_back(std::move(by_level));
  }
}

void Bounds::find_needs() {
  needed_.assign(grades_.size() + 1, 0);
  for (Kind const& kind : space_.kinds) {
    std::int64_t least = kind.twice_area;
    for (int shape = kind.first_shape; shape < kind.last_shape; ++shape)
      least = std::min(least, space_.shapes[at(shape)].twice_area);
    least_area_.push_back(least);
    for (std::size_t level = 0; level < needed_.size(); ++level)
      if (level == 0 || kind.least_grade >= grades_[level - 1])
        needed_[level] += least * std::ssize(kind.pieces);
  }
}

// `no` only with a proof.
Takes Bounds::fits(int kind, int skin, bool flaws, bool grades, bool any_quarter_turn) const {
  Kind const& what = space_.kinds[at(kind)];
  Skin const& on = request_.skins[at(skin)];
  std::vector<Polygon> const poor = grades ? poorer(on, what.least_grade) : std::vector<Polygon>{};
  bool const covered = grades && on.grade < what.least_grade;  // by good zones it must be
  Ground const ground{on.outline, flaws ? std::span<Polygon const>{on.flaws} : std::span<Polygon const>{},
                      poor};
  Takes answer = Takes::no;
  for (int shape = what.first_shape; shape < what.last_shape; ++shape)
    for (int const turn : {0, 90, 180, 270}) {
      if (turn > 0 && !any_quarter_turn) break;
      SkinPiece const& piece = request_.pieces[at(what.pieces.front())];
      Polygon const lies = turned(piece.shape, (space_.shapes[at(shape)].angle + turn) % 360);
      if (lies.size() * (on.outline.size() + 8 * on.flaws.size()) > most_pairs) return Takes::unsure;
      Fit const fit = fits_somewhere(ground, lies, request_.margin);
      if (fit.fits == Fits::somewhere && !covered) return Takes::yes;
      if (fit.fits != Fits::nowhere) answer = Takes::unsure;
    }
  return answer;
}

void Bounds::find_takes() {
  Lines lines(space_);
  for (int kind = 0; kind < std::ssize(space_.kinds); ++kind)
    for (int skin = 0; skin < std::ssize(request_.skins); ++skin) {
      Kind const& what = space_.kinds[at(kind)];
      Takes answer = Takes::no;
      for (int shape = what.first_shape; shape < what.last_shape && answer == Takes::no; ++shape)
        if (lies_somewhere(lines, space_.sites[at(skin)], skin, shape)) answer = Takes::yes;
      bool const asked = answer == Takes::no && !what.pieces.empty();
      if (asked && usable_[at(skin)][at(what.level) + 1] >= least_area_[at(kind)])
        answer = space_.sites[at(skin)].regions[at(what.level)].nowhere ? Takes::no
                                                                        : fits(kind, skin, true, true, false);
      takes_.push_back(answer);
    }
}

Obstacle Bounds::why_nowhere(int kind) const {
  Kind const& what = space_.kinds[at(kind)];
  Obstacle obstacle{what.pieces.front(), Why::grade, Side::none, 0};
  auto const anywhere = [&](bool flaws, bool quarter_turns) {
    for (int skin = 0; skin < std::ssize(request_.skins); ++skin)
      if (request_.skins[at(skin)].copies != 0 && fits(kind, skin, flaws, false, quarter_turns) != Takes::no)
        return true;
    return false;
  };
  if (anywhere(true, false)) return obstacle;
  obstacle.why = Why::flaws;
  if (anywhere(false, false)) return obstacle;
  obstacle.why = anywhere(true, true) ? Why::grain : Why::too_large;
  // By how much it is larger than the box of the nearest skin, as it must lie.
  std::int64_t least = std::numeric_limits<std::int64_t>::max();
  for (int shape = what.first_shape; shape < what.last_shape; ++shape)
    for (Skin const& skin : request_.skins) {
      if (skin.copies == 0) continue;
      Box const box = box_of(skin.outline);
      std::int64_t const wide = space_.shapes[at(shape)].width + 2 * request_.margin - (box.right - box.left);
      std::int64_t const high =
          space_.shapes[at(shape)].height + 2 * request_.margin - (box.top - box.bottom);
      if (std::max(wide, high) >= least) continue;
      least = std::max(wide, high);
      obstacle.over = std::max<std::int64_t>(least, 0);
      obstacle.side = least <= 0 ? Side::none : wide >= high ? Side::width : Side::height;
    }
  return obstacle;
}

bool Bounds::group_fits(std::vector<int> const& kinds, std::vector<int> const& skins, bool one) const {
  auto const takes_any = [&](int kind) {
    return std::ranges::any_of(skins, [&](int skin) { return takes(kind, skin) != Takes::no; });
  };
  if (!std::ranges::all_of(kinds, takes_any)) return false;
  for (std::size_t level = 0; level <= grades_.size(); ++level) {
    Wide need = 0, have = 0;
    for (int const kind : kinds)
      if (level == 0 || space_.kinds[at(kind)].least_grade >= grades_[level - 1])
        need += least_area_[at(kind)];
    for (int const skin : skins) {
      std::optional<std::int64_t> const copies = request_.skins[at(skin)].copies;
      if (!copies && !one) return true;
      have += Wide{usable_[at(skin)][level]} * (one ? 1 : *copies);
    }
    if (need > have) return false;
  }
  return true;
}

std::vector<Obstacle> Bounds::obstacles() const {
  std::vector<Obstacle> found;
  for (int kind = 0; kind < std::ssize(space_.kinds); ++kind) {
    if (space_.kinds[at(kind)].pieces.empty()) continue;
    bool any = false;
    for (int skin = 0; skin < std::ssize(request_.skins); ++skin)
      any = any || (request_.skins[at(skin)].copies != 0 && takes(kind, skin) != Takes::no);
    if (!any) found.push_back(why_nowhere(kind));
  }
  if (!found.empty()) return found;
  for (Unit const& unit : space_.units) {
    if (unit.kinds.size() < 2) continue;
    std::set<int> batches;
    std::vector<std::vector<int>> choices;
    for (int skin = 0; skin < std::ssize(request_.skins); ++skin) {
      if (request_.skins[at(skin)].copies == 0) continue;
      if (unit.together == Together::one_skin)
        choices.push_back({skin});
      else if (batches.insert(request_.skins[at(skin)].batch).second) {
        choices.emplace_back();
        for (int other = 0; other < std::ssize(request_.skins); ++other)
          if (request_.skins[at(other)].batch == request_.skins[at(skin)].batch &&
              request_.skins[at(other)].copies != 0)
            choices.back().push_back(other);
      }
    }
    if (std::ranges::none_of(choices, [&](std::vector<int> const& skins) {
          return group_fits(unit.kinds, skins, unit.together == Together::one_skin);
        }))
      found.push_back({unit.pieces.front(), Why::group, Side::none, 0});
  }
  if (!found.empty()) return found;
  std::vector<std::int64_t> all;
  for (Skin const& skin : request_.skins)
    all.push_back(skin.copies.value_or(static_cast<std::int64_t>(space_.units.size()) + 1'000'000));
  if (!may_hold(all)) found.push_back({space_.units.front().pieces.front(), Why::not_enough, Side::none, 0});
  return found;
}

bool Bounds::may_hold(std::vector<std::int64_t> const& copies) const {
  for (std::size_t level = 0; level < needed_.size(); ++level) {
    Wide have = 0;
    for (std::size_t skin = 0; skin < copies.size(); ++skin)
      have += Wide{usable_[skin][level]} * copies[skin];
    if (have < needed_[level]) return false;
  }
  std::int64_t alone = 0, skins = 0;
  for (std::int64_t const count : copies) skins += count;
  for (int kind = 0; kind < std::ssize(space_.kinds); ++kind) {
    Kind const& what = space_.kinds[at(kind)];
    if (what.pieces.empty()) continue;
    bool taken = false, large = true;
    for (int skin = 0; skin < std::ssize(request_.skins); ++skin) {
      if (copies[at(skin)] == 0) continue;
      taken = taken || takes(kind, skin) != Takes::no;
      Site const& site = space_.sites[at(skin)];
      // Two rectangles of more than half the skin each way share no skin.
      for (int shape = what.first_shape; shape < what.last_shape; ++shape) {
        Shape const& lies = space_.shapes[at(shape)];
        large = large && lies.upright && lies.width * 2 > site.width && lies.height * 2 > site.height;
      }
    }
    if (!taken) return false;
    if (large) alone += std::ssize(what.pieces);
  }
  return alone <= skins;
}

// What is kept of a skin is worth at most worth x cost x (usable - used) / usable: the pieces take their
// area, at the least cost of a unit of area of all skins, from what may be kept.
std::int64_t Bounds::least_cost(std::vector<std::int64_t> const& copies) const {
  std::int64_t whole = 0;
  for (std::size_t skin = 0; skin < copies.size(); ++skin) whole += request_.skins[skin].cost * copies[skin];
  Worth const worth = request_.worth;
  if (worth.num == 0 || request_.least_kept <= 0) return whole;
  // Of all skins, so that more skins never bound less: cost / usable at its least, as a ratio.
  Wide cost = 0, usable = 1;
  bool first = true;
  for (std::size_t skin = 0; skin < request_.skins.size(); ++skin) {
    if (request_.skins[skin].copies == 0 || usable_[skin].front() <= 0) continue;
    if (!first && Wide{request_.skins[skin].cost} * usable >= cost * usable_[skin].front()) continue;
    cost = request_.skins[skin].cost;
    usable = usable_[skin].front();
    first = false;
  }
  Wide const taken = cost * needed_.front() / usable;  // rounded down
  Wide const kept = std::max<Wide>(Wide{whole} - taken, 0);
  Wide const kept_worth = (kept * worth.num + worth.den - 1) / worth.den + 1;
  return static_cast<std::int64_t>(Wide{whole} - std::min<Wide>(kept_worth, whole));
}

}  // namespace endband::cutting::skins
