#include "engine/cutting/geometry/worth.h"
#include "engine/cutting/skins/bounds.h"
#include "engine/cutting/skins/pack.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <queue>
#include <stdexcept>
#include <tuple>

namespace endband::cutting {
namespace skins {
namespace {

constexpr std::size_t most_choices = 20'000;  // of skins looked at
constexpr int most_trials = 40;               // of them packed
constexpr std::size_t most_retries = 60;
constexpr std::size_t many_units = 250;
constexpr std::size_t many_bins = 12;  // beyond, skins are filled one after another

std::size_t index(std::int64_t value) { return static_cast<std::size_t>(value); }

struct Choice {
  std::int64_t least_cost = 0;
  std::vector<std::int64_t> copies;
  std::size_t last = 0;  // skins before it are settled
  friend bool operator>(Choice const& a, Choice const& b) {
    return std::tie(a.least_cost, a.copies) > std::tie(b.least_cost, b.copies);
  }
};

class Planner {
 public:
  Planner(SkinRequest const& request, Budget const& budget)
      : request_{request},
        budget_{budget},
        packer_{request.skins, request.pieces, request.margin},
        bounds_{request, packer_.space()},
        units_(packer_.space().units.size()) {
    std::iota(units_.begin(), units_.end(), 0);
  }

  Answer<CutSkin> plan() {
    if (units_.empty()) {
      answer_.outcome = Outcome::planned;
      return answer_;
    }
    answer_.obstacles = bounds_.obstacles();
    if (!answer_.obstacles.empty()) {
      answer_.outcome = Outcome::impossible;
      return answer_;
    }
    if (units_.size() > many_units)
      fill_all_at_once();
    else
      fill_one_after_another();
    try_choices();
    shape_what_is_left();
    finish();
    return answer_;
  }

 private:
  Packed pack(std::vector<int> const& bins, std::vector<int> const& units, std::int64_t work) {
    Budget part = budget_;
    part.work = std::max<std::int64_t>(work, 0);
    Packed packed = packer_.pack(bins, units, part);
    spent_ += packed.work;
    return packed;
  }
  std::int64_t left() const { return budget_.work - spent_; }

  // Keeps the plan if it costs less, or as much and leaves a larger rectangle.
  bool offer(std::vector<int> const& bins, std::vector<std::vector<LaidPiece>> laid) {
    std::vector<CutSkin> used;
    std::int64_t cost = 0, largest = 0;
    for (std::size_t bin = 0; bin < bins.size(); ++bin) {
      if (laid[bin].empty()) continue;
      CutSkin cut = cut_of(request_.skins, bins[bin], request_.pieces, std::move(laid[bin]));
      std::int64_t const width = cut.largest_left.right - cut.largest_left.left;
      std::int64_t const height = cut.largest_left.top - cut.largest_left.bottom;
      Skin const& skin = request_.skins[index(cut.skin)];
      cost += skin.cost;
      if (is_kept(request_.least_kept, width, height))
        cost -= kept_worth(request_.worth, skin.cost, width, height, bounds_.twice_usable_of(cut.skin) / 2);
      largest = std::max(largest, width * height);
      used.push_back(std::move(cut));
    }
    if (planned_ && (cost > answer_.proof.cost || (cost == answer_.proof.cost && largest <= largest_)))
      return false;
    planned_ = true;
    largest_ = largest;
    answer_.used = std::move(used);
    answer_.proof.cost = cost;
    return true;
  }

  // Very many pieces: laid in shelves over the skins whose area costs least, three times as much as the
  // pieces have.
  void fill_all_at_once() {
    std::vector<int> const order = cheapest_area_first();
    std::vector<int> bins;
    std::int64_t left = 3 * needed_area();
    for (int const skin : order)
      for (std::int64_t copy = 0; copy < request_.skins[index(skin)].copies.value_or(std::ssize(units_));
           ++copy) {
        if (left < 0 && copy > 0) break;
        left -= bounds_.twice_usable_of(skin);
        bins.push_back(skin);
      }
    Packed packed = pack(bins, units_, budget_.work / 2);
    if (packed.all) offer(bins, std::move(packed.bins));
  }
  std::vector<int> cheapest_area_first() const {
    __extension__ using Wide = __int128;
    std::vector<int> order(request_.skins.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(order, [&](int a, int b) {
      return Wide{request_.skins[index(a)].cost} * bounds_.twice_usable_of(b) <
             Wide{request_.skins[index(b)].cost} * bounds_.twice_usable_of(a);
    });
    return order;
  }
  std::int64_t needed_area() const {
    std::int64_t need = 0;
    for (Unit const& unit : packer_.space().units) need += unit.twice_area;
    return need;
  }

  // The skin to fill next: of those that take any unit that waits, where the area placed costs least. A plan
  // at once.
  void fill_one_after_another() {
    std::vector<std::int64_t> copies_left;
    for (Skin const& skin : request_.skins)
      copies_left.push_back(skin.copies.value_or(std::numeric_limits<std::int64_t>::max()));
    std::vector<int> waiting = units_, bins;
    std::vector<std::vector<LaidPiece>> laid;
    std::vector<int> const order = cheapest_area_first();
    std::int64_t const share = budget_.work / 8 / std::max<std::int64_t>(expected_skins(), 1);
    while (!waiting.empty()) {
      int best_skin = -1;
      Packed best;
      for (int const skin : order) {
        if (best_skin >= 0 && spent_ > budget_.work / 8) break;
        if (copies_left[index(skin)] == 0) continue;
        Packed packed = pack({skin}, waiting, share / std::ssize(request_.skins));
        if (packed.twice_area == 0 || (best_skin >= 0 && !dearer(best_skin, best, skin, packed))) continue;
        best_skin = skin;
        best = std::move(packed);
      }
      if (best_skin < 0) return;
      --copies_left[index(best_skin)];
      bins.push_back(best_skin);
      laid.push_back(std::move(best.bins.front()));
      std::erase_if(waiting, [&](int unit) { return best.placed[index(unit)] != 0; });
    }
    offer(bins, std::move(laid));
  }
  // One skin with what it holds costs more, for the area, than the other; when all is placed, the cost alone
  // counts.
  bool dearer(int one, Packed const& with, int other, Packed const& with_other) const {
    __extension__ using Wide = __int128;
    std::int64_t const cost = request_.skins[index(one)].cost, other_cost = request_.skins[index(other)].cost;
    if (with.all && with_other.all) return cost > other_cost;
    return Wide{cost} * with_other.twice_area > Wide{other_cost} * with.twice_area ||
           (cost == other_cost && with.twice_area < with_other.twice_area);
  }
  std::int64_t expected_skins() const {
    std::int64_t most = 1;
    for (int skin = 0; skin < std::ssize(request_.skins); ++skin)
      most = std::max(most, bounds_.twice_usable_of(skin));
    return needed_area() / most + 1;
  }

  // Choices of skins by their least cost: the first that may hold all bounds every plan; they are packed
  // until none can cost less than the best plan.
  void try_choices() {
    look_through_choices();
    // What work is left goes to those that failed, the cheapest first, each from new beginnings.
    std::int64_t const reserve = request_.least_kept > 0 ? budget_.work / 3 : budget_.work / 50;
    for (std::size_t again = 0; left() > reserve && again < failed_.size() && again < most_retries; ++again) {
      Choice const choice = failed_[again];  // which may be added once more
      if (planned_ && choice.least_cost >= answer_.proof.cost) continue;
      try_choice(choice);
    }
  }

  void look_through_choices() {
    std::priority_queue<Choice, std::vector<Choice>, std::greater<>> waiting;
    waiting.push({0, std::vector<std::int64_t>(request_.skins.size(), 0), 0});
    bool bounded = false;
    int trials = 0;
    std::int64_t pieces = 0;  // no plan needs more skins
    for (Unit const& unit : packer_.space().units) pieces += std::ssize(unit.pieces);
    for (std::size_t looked = 0; !waiting.empty(); ++looked) {
      Choice const choice = waiting.top();
      if (!bounded) answer_.proof.bound = choice.least_cost;
      if ((planned_ && choice.least_cost >= answer_.proof.cost) || looked > most_choices ||
          trials > most_trials)
        return;
      waiting.pop();
      for (std::size_t skin = choice.last; skin < choice.copies.size(); ++skin) {
        std::optional<std::int64_t> const most = request_.skins[skin].copies;
        if (choice.copies[skin] >= most.value_or(pieces)) continue;
        Choice more = choice;
        ++more.copies[skin];
        more.last = skin;
        more.least_cost = bounds_.least_cost(more.copies);
        waiting.push(std::move(more));
      }
      if (!bounds_.may_hold(choice.copies)) continue;
      bounded = true;
      if (left() <= 0 || std::accumulate(choice.copies.begin(), choice.copies.end(), std::int64_t{0}) >
                             std::int64_t{many_bins})
        return;
      trials += try_choice(choice) ? 1 : 0;
    }
    // All were looked at.
    if (!bounded && !planned_) {
      answer_.outcome = Outcome::impossible;
      answer_.obstacles.push_back(
          {packer_.space().units.front().pieces.front(), Why::not_enough, Side::none, 0});
    }
  }

  // A third of the work left for each; little where the pieces nearly fill the skins.
  bool try_choice(Choice const& choice) {
    std::vector<int> bins;
    std::int64_t usable = 0;
    for (int skin = 0; skin < std::ssize(choice.copies); ++skin) {
      bins.insert(bins.end(), index(choice.copies[index(skin)]), skin);
      usable += bounds_.twice_usable_of(skin) * choice.copies[index(skin)];
    }
    std::int64_t const filled = needed_area() / std::max<std::int64_t>(usable / 100, 1);  // per cent
    if (filled > 96) return false;
    Packed packed = pack(bins, units_, filled > 88 ? left() / 16 : left() / 3);
    if (packed.all)
      offer(bins, std::move(packed.bins));
    else
      failed_.push_back(choice);
    return true;
  }

  // The pieces once more around a larger rectangle that is to be left: ever larger, until none is found.
  void shape_what_is_left() {
    if (!planned_ || request_.least_kept <= 0 || request_.worth.num == 0 || answer_.used.size() > many_bins)
      return;
    std::vector<int> bins;
    for (CutSkin const& cut : answer_.used) bins.push_back(cut.skin);
    std::int64_t part = 1024;  // by how much larger, in 4096ths of each side
    for (int trial = 0; trial < 8 && left() > 0; ++trial) {
      Box const box = widest_left();
      std::int64_t const width = std::max(box.right - box.left, request_.least_kept);
      std::int64_t const height = std::max(box.top - box.bottom, request_.least_kept);
      SkinPiece kept;
      kept.shape =
          rectangle(width + width * part / 4096, trial % 2 == 0 ? height : height + height * part / 4096);
      kept.angles = {0, 90};
      kept.least_grade = std::numeric_limits<int>::min();
      if (!leave(bins, kept)) part = part * 3 / 5;
    }
  }
  Box widest_left() const {
    Box best;
    for (CutSkin const& cut : answer_.used) {
      Box const& box = cut.largest_left;
      if ((box.right - box.left) * (box.top - box.bottom) >
          (best.right - best.left) * (best.top - best.bottom))
        best = box;
    }
    return best;
  }
  bool leave(std::vector<int> const& bins, SkinPiece const& kept) {
    std::vector<SkinPiece> pieces = request_.pieces;
    pieces.push_back(kept);
    Packer packer(request_.skins, pieces, request_.margin);
    std::vector<int> units(packer.space().units.size());
    std::iota(units.begin(), units.end(), 0);
    Budget part = budget_;
    part.work = left() / 6;
    Packed packed = packer.pack(bins, units, part);
    spent_ += packed.work;
    if (!packed.all) return false;
    for (auto& bin : packed.bins)
      std::erase_if(bin, [&](LaidPiece const& laid) { return index(laid.piece) + 1 == pieces.size(); });
    return offer(bins, std::move(packed.bins));
  }

  void finish() {
    answer_.proof.work = spent_;
    if (planned_) {
      answer_.outcome = Outcome::planned;
      answer_.proof.bound = std::min(answer_.proof.bound, answer_.proof.cost);
    }
  }

  SkinRequest const& request_;
  Budget const& budget_;
  Packer packer_;
  Bounds bounds_;
  std::vector<int> units_;
  Answer<CutSkin> answer_;
  std::vector<Choice> failed_;
  bool planned_ = false;
  std::int64_t largest_ = 0, spent_ = 0;
};

}  // namespace
}  // namespace skins

Answer<CutSkin> plan_skins(SkinRequest const& request, Budget const& budget) {
  if (request.least_kept < 0 || request.worth.num < 0 || request.worth.den <= 0 ||
      request.worth.num > request.worth.den)
    throw std::logic_error("a worth or a least side that cannot be");
  return skins::Planner(request, budget).plan();
}

}  // namespace endband::cutting
