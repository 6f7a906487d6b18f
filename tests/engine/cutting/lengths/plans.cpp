#include "plans.h"

#include <algorithm>
#include <string>

namespace endband::cutting::plans {

Answer<CutRoll> plan(LengthRequest const& request, std::int64_t work) {
  Budget budget;
  budget.work = work;
  return plan_lengths(request, budget);
}

namespace {

std::int64_t remnant_of(std::int64_t length, std::int64_t pieces, std::int64_t count, std::int64_t kerf) {
  return std::max<std::int64_t>(0, length - pieces - count * kerf);
}

}  // namespace

std::string fault_of(LengthRequest const& request, Answer<CutRoll> const& answer) {
  if (answer.outcome != Outcome::planned) return "no plan";
  std::vector<std::int64_t> cut(request.pieces.size(), 0), used(request.rolls.size(), 0);
  std::int64_t cost = 0;
  for (auto const& roll : answer.used) {
    auto const r = static_cast<std::size_t>(roll.roll);
    if (r >= request.rolls.size() || roll.counts.size() != cut.size() || roll.times < 1) return "malformed";
    std::int64_t length = 0, count = 0;
    for (std::size_t p = 0; p < cut.size(); ++p) {
      if (roll.counts[p] < 0) return "negative count";
      cut[p] += roll.counts[p] * roll.times;
      length += roll.counts[p] * request.pieces[p].length;
      count += roll.counts[p];
    }
    if (count == 0) return "a roll for nothing";
    if (length + (count - 1) * request.kerf > request.rolls[r].length) return "too long";
    used[r] += roll.times;
    cost += request.rolls[r].cost * roll.times;
  }
  for (std::size_t p = 0; p < cut.size(); ++p) {
    if (cut[p] != request.pieces[p].copies) return "demand";
  }
  for (std::size_t r = 0; r < used.size(); ++r) {
    if (request.rolls[r].copies && used[r] > *request.rolls[r].copies) return "too many rolls";
  }
  if (cost != answer.proof.cost) return "cost";
  if (answer.proof.bound > cost) return "bound";
  return answer.obstacles.empty() ? "" : "obstacles";
}

std::int64_t longest_remnant(LengthRequest const& request, Answer<CutRoll> const& answer) {
  std::int64_t longest = 0;
  for (auto const& roll : answer.used) {
    std::int64_t length = 0, count = 0;
    for (std::size_t p = 0; p < roll.counts.size(); ++p) {
      length += roll.counts[p] * request.pieces[p].length;
      count += roll.counts[p];
    }
    std::int64_t const whole = request.rolls[static_cast<std::size_t>(roll.roll)].length;
    longest = std::max(longest, remnant_of(whole, length, count, request.kerf));
  }
  return longest;
}

namespace {

class BruteForce {
 public:
  explicit BruteForce(LengthRequest const& request) : request_(request) {
    for (auto const& piece : request.pieces) {
      for (std::int64_t c = 0; c < piece.copies; ++c) pieces_.push_back(piece.length);
    }
    for (auto const& roll : request.rolls) left_.push_back(roll.copies.value_or(INT64_MAX));
  }
  std::optional<Best> run() {
    place(0, 0);
    return best_;
  }

 private:
  struct Open {
    std::size_t roll;
    std::int64_t length, count;
  };

  void place(std::size_t piece, std::int64_t cost) {
    if (best_ && cost > best_->cost) return;
    if (piece == pieces_.size()) return finish(cost);
    for (std::size_t o = 0; o < open_.size(); ++o) {  // NOLINT(modernize-loop-convert): open_ grows within
      auto const room =
          request_.rolls[open_[o].roll].length - open_[o].length - open_[o].count * request_.kerf;
      if (pieces_[piece] > room) continue;
      open_[o].length += pieces_[piece];
      ++open_[o].count;
      place(piece + 1, cost);
      open_[o].length -= pieces_[piece];
      --open_[o].count;
    }
    for (std::size_t r = 0; r < left_.size(); ++r) {
      if (left_[r] == 0 || pieces_[piece] > request_.rolls[r].length) continue;
      --left_[r];
      open_.push_back({r, pieces_[piece], 1});
      place(piece + 1, cost + request_.rolls[r].cost);
      open_.pop_back();
      ++left_[r];
    }
  }

  void finish(std::int64_t cost) {
    std::int64_t remnant = 0;
    for (auto const& open : open_) {
      remnant = std::max(
          remnant, remnant_of(request_.rolls[open.roll].length, open.length, open.count, request_.kerf));
    }
    if (!best_ || cost < best_->cost || remnant > best_->remnant) best_ = {cost, remnant};
  }

  LengthRequest const& request_;
  std::vector<std::int64_t> pieces_;
  std::vector<std::int64_t> left_;
  std::vector<Open> open_;
  std::optional<Best> best_;
};

}  // namespace

std::optional<Best> brute_force(LengthRequest const& request) { return BruteForce(request).run(); }

}  // namespace endband::cutting::plans
