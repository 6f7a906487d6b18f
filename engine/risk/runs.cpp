#include "engine/risk/runs.h"

#include <algorithm>
#include <array>

namespace endband::risk {
namespace {

constexpr std::int64_t block_runs = 1024;
constexpr std::int64_t seconds_an_hour = 3600;
// A piece ruined more often than this costs its mean for the rest: no chance below 97 % gets there.
constexpr std::int64_t most_drawn_again = 1000;

// What a draw is of; the lower bits tell the draws of one purpose apart.
enum class Of : std::uint64_t { time, wait, spoil, ruin, redo, again };
constexpr std::uint64_t which(Of purpose, std::uint64_t detail = 0) {
  return static_cast<std::uint64_t>(purpose) << 56 | detail;
}

using Row = std::array<std::int64_t, block_runs>;
using Bits = std::array<std::uint64_t, block_runs>;

// The runs of one block, side by side.
class Block {
 public:
  Block(Model const& model, std::uint64_t seed, std::int64_t first, std::int64_t end)
      : model_(model),
        seed_(seed),
        first_(static_cast<std::uint32_t>(first)),
        size_(static_cast<std::size_t>(end - first)) {}

  // Line by line, so that one table at a time is at hand; two lines share a block of the generator.
  void draw_times() {
    Bits even;
    Bits odd;
    for (std::size_t i = 0; i < model_.lines.size(); i += 2) {
      for (std::size_t run = 0; run < size_; ++run) {
        TwoDraws const both =
            two_draws(seed_, run_at(run), static_cast<std::uint32_t>(i / 2), which(Of::time));
        even[run] = both.even;
        odd[run] = both.odd;
      }
      add_line(model_.lines[i], even);
      if (i + 1 < model_.lines.size()) add_line(model_.lines[i + 1], odd);
    }
  }

  void draw_rest() {
    for (std::size_t run = 0; run < size_; ++run) {
      extra_[run] = model_.fixed_cost;
      draw_waits(run);
      draw_spoils(run);
      for (RuinModel const& ruin : model_.ruins) draw_ruin(run, ruin);
      draw_redos(run);
    }
  }

  std::int64_t work(std::size_t run) const { return at_the_workshops_[run] + at_own_rates_[run]; }
  std::int64_t wait(std::size_t run) const { return wait_[run]; }
  std::int64_t cost(std::size_t run) const {
    std::int64_t const labour = times(at_the_workshops_[run], model_.rates.labour);
    std::int64_t const own = divided(owed_[run]);
    std::int64_t const overhead = times(work(run), model_.rates.overhead);
    return checked_add(checked_add(extra_[run], labour), checked_add(own, overhead));
  }
  std::size_t size() const { return size_; }

 private:
  std::uint32_t run_at(std::size_t run) const { return first_ + static_cast<std::uint32_t>(run); }

  // ms x minor units a second are thousandths of a minor unit.
  static std::int64_t times(std::int64_t ms, Ratio rate) {
    return mul_div(ms, rate.num(), rate.den(), Rounding::half_away);
  }
  static std::int64_t divided(std::int64_t owed) {
    return owed == 0 ? 0 : mul_div(owed, 1, seconds_an_hour, Rounding::half_away);
  }

  void add_line(TimeModel const& line, Bits const& bits) {
    Row& sum = line.rate ? at_own_rates_ : at_the_workshops_;
    std::int64_t const rate = line.rate.value_or(0);
    if (!line.draw) {
      for (std::size_t run = 0; run < size_; ++run) sum[run] += line.fixed;
      if (line.rate)
        for (std::size_t run = 0; run < size_; ++run) owed_[run] += line.fixed * rate;
      return;
    }
    BetaPertDraw const& draw = *line.draw;
    if (!line.rate) {
      for (std::size_t run = 0; run < size_; ++run) sum[run] += draw.at(bits[run]);
      return;
    }
    for (std::size_t run = 0; run < size_; ++run) {
      std::int64_t const time = draw.at(bits[run]);
      sum[run] += time;
      owed_[run] += time * rate;
    }
  }

  void draw_waits(std::size_t run) {
    for (std::size_t i = 0; i < model_.lines.size(); ++i) {
      TimeModel const& line = model_.lines[i];
      std::int64_t wait = line.wait_low;
      if (line.wait_low < line.wait_high)
        wait = whole_between(draw(seed_, run_at(run), static_cast<std::uint32_t>(i), which(Of::wait)),
                             line.wait_low, line.wait_high);
      wait_[run] += wait * thousandths;
    }
  }

  void draw_spoils(std::size_t run) {
    for (SpoilModel const& spoil : model_.spoils) {
      std::int64_t const pieces = spoil.pieces.at(draw(seed_, run_at(run), spoil.line, which(Of::spoil)));
      extra_[run] = checked_add(extra_[run], spoil.cost[static_cast<std::size_t>(pieces)]);
    }
  }

  void draw_ruin(std::size_t run, RuinModel const& ruin) {
    std::int64_t const times =
        draw_geometric(ruin.chance, draw(seed_, run_at(run), ruin.line, which(Of::ruin)));
    if (times == 0) return;
    extra_[run] = checked_add(extra_[run], checked_mul(times, ruin.piece));
    std::int64_t const drawn = std::min(times, most_drawn_again);
    for (std::uint32_t const step : ruin.again) {
      TimeModel const& line = model_.lines[step];
      std::int64_t time = checked_mul(times - drawn, line.fixed);
      for (std::int64_t again = 0; again < drawn; ++again) {
        auto const detail = std::uint64_t{ruin.line} << 24 | static_cast<std::uint64_t>(again);
        time = checked_add(time, line.at(draw(seed_, run_at(run), step, which(Of::again, detail))));
      }
      add_time(run, line, time);
    }
  }

  void add_time(std::size_t run, TimeModel const& line, std::int64_t time) {
    std::int64_t& sum = (line.rate ? at_own_rates_ : at_the_workshops_)[run];
    sum = checked_add(sum, time);
    if (line.rate) owed_[run] = checked_add(owed_[run], checked_mul(time, *line.rate));
  }

  void draw_redos(std::size_t run) {
    for (RedoModel const& redo : model_.redos) {
      std::int64_t const times =
          draw_geometric(redo.chance, draw(seed_, run_at(run), redo.index, which(Of::redo)));
      extra_[run] = checked_add(extra_[run], checked_mul(times, redo.price));
    }
  }

  Model const& model_;
  std::uint64_t seed_;
  std::uint32_t first_;
  std::size_t size_;
  Row at_the_workshops_{}, at_own_rates_{};  // ms
  Row owed_{};                               // ms x own rate
  Row wait_{};                               // ms
  Row extra_{};                              // cost beside the times'
};

// Calls `of_block(first, end)` for every block of runs; each writes to places of its own.
template <class OfBlock>
void for_blocks(std::int64_t runs, RunAll const& run_all, OfBlock const& of_block) {
  std::vector<std::function<void()>> tasks;
  for (std::int64_t first = 0; first < runs; first += block_runs)
    tasks.emplace_back(
        [&of_block, first, end = std::min(first + block_runs, runs)] { of_block(first, end); });
  do_all(tasks, run_all);
}

}  // namespace

void do_all(std::vector<std::function<void()>> const& tasks, RunAll const& run_all) {
  if (run_all) return run_all(tasks);
  for (std::function<void()> const& task : tasks) task();
}

Runs run(Model const& model, RiskRules const& rules, RunAll const& run_all) {
  auto const size = static_cast<std::size_t>(rules.runs);
  Runs runs{std::vector<std::int64_t>(size), std::vector<std::int64_t>(size),
            std::vector<std::int64_t>(size)};
  for_blocks(rules.runs, run_all, [&](std::int64_t first, std::int64_t end) {
    Block block(model, rules.seed, first, end);
    block.draw_times();
    block.draw_rest();
    for (std::size_t i = 0; i < block.size(); ++i) {
      std::size_t const at = static_cast<std::size_t>(first) + i;
      runs.work[at] = block.work(i);
      runs.wait[at] = block.wait(i);
      runs.cost[at] = block.cost(i);
    }
  });
  return runs;
}

std::vector<std::int64_t> run_times(Model const& model, RiskRules const& rules, RunAll const& run_all) {
  std::vector<std::int64_t> work(static_cast<std::size_t>(rules.runs));
  for_blocks(rules.runs, run_all, [&](std::int64_t first, std::int64_t end) {
    Block block(model, rules.seed, first, end);
    block.draw_times();
    for (std::size_t i = 0; i < block.size(); ++i) work[static_cast<std::size_t>(first) + i] = block.work(i);
  });
  return work;
}

}  // namespace endband::risk
