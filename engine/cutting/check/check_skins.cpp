#include "engine/cutting/check/faults.h"
#include "engine/cutting/check/sides.h"
#include "engine/cutting/geometry/worth.h"

#include <algorithm>
#include <map>
#include <set>

namespace endband::cutting {
namespace {

constexpr std::int64_t far = 10'000'000;  // beyond this nothing lies within an outline

struct Lies {  // a piece where it lies
  int index = 0;
  int piece = 0;
  Polygon polygon;
  std::int64_t left = 0, right = 0;
};

bool within_reach(Box const& box) {
  return std::min({box.left, box.bottom, box.right, box.top}) >= -far &&
         std::max({box.left, box.bottom, box.right, box.top}) <= far;
}
Polygon rectangle_of(Box const& box) {
  return {{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
}

class SkinCheck {
 public:
  SkinCheck(Skin const& skin, std::vector<SkinPiece> const& pieces, std::int64_t margin, int used,
            Faults& faults)
      : skin_(skin), pieces_(pieces), margin_(margin), used_(used), faults_(faults) {}

  void check(CutSkin const& cut, std::span<Wide> placed) {
    for (std::size_t i = 0; i < cut.laid.size(); ++i) lay(cut.laid[i], static_cast<int>(i), placed);
    for (Lies const& lies : laid_) {
      check_place(lies);
      check_grade(lies);
    }
    check_pairs();
    check_left(cut);
  }

 private:
  void fault_unless(bool right, Broken broken, int index) { faults_.unless(right, broken, used_, index); }

  void lay(LaidPiece const& laid, int index, std::span<Wide> placed) {
    if (!has(pieces_, laid.piece)) return faults_.add(Broken::no_such_piece, used_, index);
    at(placed, laid.piece) += 1;
    SkinPiece const& piece = at(pieces_, laid.piece);
    bool const allowed =
        std::find(piece.angles.begin(), piece.angles.end(), laid.angle) != piece.angles.end();
    fault_unless(allowed, Broken::angle, index);
    if (std::max(laid.at.x, laid.at.y) > far || std::min(laid.at.x, laid.at.y) < -far)
      return faults_.add(Broken::outside, used_, index);
    Lies lies{index, laid.piece, turned(piece.shape, laid.angle)};
    for (Point& corner : lies.polygon) corner = {corner.x + laid.at.x, corner.y + laid.at.y};
    auto const [least, most] = std::minmax_element(lies.polygon.begin(), lies.polygon.end());
    lies.left = least->x;
    lies.right = most->x;
    laid_.push_back(std::move(lies));
  }

  void check_place(Lies const& lies) {
    bool const inside = lies_within(lies.polygon, skin_.outline);
    fault_unless(inside, Broken::outside, lies.index);
    bool near = inside && margin_ > 0 && closer(lies.polygon, skin_.outline, margin_);
    for (Polygon const& flaw : skin_.flaws) {
      bool const hit = meet(lies.polygon, flaw);
      fault_unless(!hit, Broken::in_flaw, lies.index);
      near = near || (!hit && margin_ > 0 && closer(lies.polygon, flaw, margin_));
    }
    fault_unless(!near, Broken::margin, lies.index);
  }

  // Off every poorer zone; and where the skin outside its zones is too poor, covered by good ones.
  void check_grade(Lies const& lies) {
    int const least = at(pieces_, lies.piece).least_grade;
    Polygons shapes{&lies.polygon};
    bool good = true;
    for (Zone const& zone : skin_.zones) {
      if (zone.grade >= least)
        shapes.push_back(&zone.polygon);
      else
        good = good && !meet(lies.polygon, zone.polygon);
    }
    if (skin_.grade < least)
      good = good && !any_side(shapes, [](Inside const& in) {
               return in[0] && std::find(in.begin() + 1, in.end(), true) == in.end();
             });
    fault_unless(good, Broken::grade, lies.index);
  }

  // From left to right, so that only what lies side by side is compared.
  void check_pairs() {
    std::sort(laid_.begin(), laid_.end(), [](Lies const& a, Lies const& b) {
      return std::pair(a.left, a.index) < std::pair(b.left, b.index);
    });
    for (std::size_t i = 0; i < laid_.size(); ++i)
      for (std::size_t j = i + 1; j < laid_.size() && laid_[j].left < laid_[i].right + margin_; ++j)
        check_pair(laid_[i], laid_[j]);
  }
  void check_pair(Lies const& one, Lies const& other) {
    int const index = std::max(one.index, other.index);
    if (meet(one.polygon, other.polygon))
      faults_.add(Broken::overlap, used_, index);
    else if (margin_ > 0 && closer(one.polygon, other.polygon, margin_))
      faults_.add(Broken::margin, used_, index);
  }

  void check_left(CutSkin const& cut) {
    Wide area = twice_area_usable(skin_.outline, skin_.flaws);
    for (Lies const& lies : laid_) area -= twice_area_usable(lies.polygon, {});
    Wide const off = area - cut.twice_area_left;
    fault_unless(off >= -2 && off <= 2, Broken::left, -1);
    Box const& box = cut.largest_left;
    if (box.left == 0 && box.bottom == 0 && box.right == 0 && box.top == 0) return;
    fault_unless(is_free(box), Broken::left, -1);
  }
  bool is_free(Box const& box) const {
    if (!within_reach(box) || box.left >= box.right || box.bottom >= box.top) return false;
    Polygon const left = rectangle_of(box);
    auto const hit = [&](Polygon const& other) { return meet(left, other); };
    return lies_within(left, skin_.outline) && std::none_of(skin_.flaws.begin(), skin_.flaws.end(), hit) &&
           std::none_of(laid_.begin(), laid_.end(), [&](Lies const& lies) { return hit(lies.polygon); });
  }

  Skin const& skin_;
  std::vector<SkinPiece> const& pieces_;
  std::int64_t margin_;
  int used_;
  Faults& faults_;
  std::vector<Lies> laid_;
};

struct Group {
  bool one_skin = false;
  std::set<std::size_t> used;
  std::set<int> batches;
};

void check_groups(SkinRequest const& request, std::vector<CutSkin> const& used, Faults& faults) {
  std::map<int, Group> groups;
  for (SkinPiece const& piece : request.pieces)
    if (piece.group > 0 && piece.together == Together::one_skin) groups[piece.group].one_skin = true;
  for (std::size_t u = 0; u < used.size(); ++u)
    for (LaidPiece const& laid : used[u].laid) {
      if (!has(request.pieces, laid.piece) || !has(request.skins, used[u].skin)) continue;
      int const number = at(request.pieces, laid.piece).group;
      if (number <= 0) continue;
      groups[number].used.insert(u);
      groups[number].batches.insert(at(request.skins, used[u].skin).batch);
    }
  for (auto const& [number, group] : groups)
    faults.unless(group.one_skin ? group.used.size() <= 1 : group.batches.size() <= 1, Broken::group, -1,
                  number);
}

// What is kept of a skin is the largest rectangle left, if that is large enough.
Wide cost_of(Skin const& skin, CutSkin const& cut, SkinRequest const& request) {
  if (!within_reach(cut.largest_left)) throw std::logic_error("a rectangle left lies beyond any skin");
  std::int64_t const width = cut.largest_left.right - cut.largest_left.left;
  std::int64_t const height = cut.largest_left.top - cut.largest_left.bottom;
  if (!is_kept(request.least_kept, width, height)) return skin.cost;
  std::int64_t const usable = twice_area_usable(skin.outline, skin.flaws) / 2;
  return Wide{skin.cost} - kept_worth(request.worth, skin.cost, width, height, usable);
}

std::optional<Wide> cost_of(SkinRequest const& request, std::vector<CutSkin> const& used) try {
  Wide cost = 0;
  for (CutSkin const& cut : used) {
    if (!has(request.skins, cut.skin)) return std::nullopt;
    cost += cost_of(at(request.skins, cut.skin), cut, request);
  }
  return cost;
} catch (std::logic_error const&) {
  return std::nullopt;
}

}  // namespace

std::vector<PlanFault> check(SkinRequest const& request, Answer<CutSkin> const& answer) {
  Faults faults;
  if (!check_outcome(answer, request.pieces, faults)) return faults.take();
  std::vector<Wide> taken(request.skins.size(), 0);
  std::vector<Wide> placed(request.pieces.size(), 0);
  for (std::size_t u = 0; u < answer.used.size(); ++u) {
    CutSkin const& cut = answer.used[u];
    int const used = static_cast<int>(u);
    if (!has(request.skins, cut.skin)) {
      faults.add(Broken::no_such_stock, used);
      continue;
    }
    at(taken, cut.skin) += 1;
    SkinCheck(at(request.skins, cut.skin), request.pieces, request.margin, used, faults).check(cut, placed);
  }
  check_copies(request.skins, taken, faults);
  check_demand(request.pieces, placed, Demand::exact, faults);
  check_groups(request, answer.used, faults);
  check_proof(answer.proof, cost_of(request, answer.used), faults);
  return faults.take();
}

std::vector<PlanFault> check(Skin const& skin, std::vector<SkinPiece> const& pieces, std::int64_t margin,
                             Filled const& answer) {
  Faults faults;
  std::vector<Wide> placed(pieces.size(), 0);
  faults.unless(answer.cut.skin == 0, Broken::no_such_stock, 0);
  SkinCheck(skin, pieces, margin, 0, faults).check(answer.cut, placed);
  check_demand(pieces, placed, Demand::at_most, faults);
  Wide area = 0;
  bool all = true;
  std::map<int, std::pair<bool, bool>> groups;  // some copy is placed, some is not
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    area += placed[i] * twice_area_usable(pieces[i].shape, {});
    all = all && placed[i] == pieces[i].copies;
    if (pieces[i].group <= 0) continue;
    groups[pieces[i].group].first |= placed[i] > 0;
    groups[pieces[i].group].second |= placed[i] < pieces[i].copies;
  }
  for (auto const& [number, placing] : groups)
    faults.unless(!placing.first || !placing.second, Broken::group, 0, number);
  faults.unless(area == answer.twice_area, Broken::cost);
  faults.unless(all == answer.all, Broken::outcome);
  return faults.take();
}

}  // namespace endband::cutting
