// The search for plans over many sheets; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/rest.h"

#include <optional>

namespace endband::cutting::many {

constexpr std::int64_t many_pieces = 300;  // of more some ways of searching take too long

struct Selection;

// One line of search: improves its best plan until `work` is spent or the plan costs no more than the bound.
// Its result depends on nothing but its arguments.
class Strand {
 public:
  Strand(Job const& job, std::int64_t bound, int number);
  ~Strand();
  Strand(Strand const&) = delete;
  Strand& operator=(Strand const&) = delete;
  void run(std::int64_t work);
  // The plans that came near are cut anew so that what is left lies together.
  void shape_best(std::int64_t work);
  // What the best plan tears off rolls is planned anew.
  void shorten_rolls(std::int64_t work);
  void adopt(Plan const& plan);
  std::optional<Plan> const& best() const { return best_; }
  std::int64_t work() const { return filler_.work() + other_work_; }
  Pool const& pool() const { return pool_; }
  Pool& pool() { return pool_; }

 private:
  struct Taste {
    int beam = 1;
    int eager = 0;
    int large = 0;      // how much more a large piece is worth by area, in 1024ths
    int whim = 0;       // of the choice of kind, in 1024ths
    bool full = false;  // the kind that is filled best comes first, whatever it costs
  };
  bool done() const { return work() >= until_ || (best_ && best_->cost <= bound_); }
  Taste taste_of(int round);
  std::vector<std::int64_t> plain_values(int large) const;
  std::optional<Plan> pass(Rest rest, std::vector<std::int64_t> const& values, Taste const& taste,
                           std::int64_t below);
  struct Choice {
    Pattern pattern;
    Wide value = 0;
    std::int64_t cost = 0;
    std::int64_t whim = 0;
    bool before(Choice const& other) const {
      Wide const mine = value * other.cost, others = other.value * cost;
      return mine != others ? mine > others : value > other.value;
    }
  };
  std::optional<Pattern> fill_kind(std::size_t k, Rest const& rest, std::vector<std::int64_t> const& values,
                                   int beam, int eager);
  std::optional<Pattern> next_sheet(Rest const& rest, std::vector<std::int64_t> const& values,
                                    Taste const& taste, std::int64_t budget, std::optional<Pattern>& last);
  void make_do();
  void correct(Plan const& plan, std::vector<std::int64_t>& values);
  std::optional<Plan> with_rolls(Plan const& plan, Rest const& rest, Taste const& taste, std::int64_t below);
  bool roll_now(Plan const& plan, Rest const& rest);
  void offer(Plan plan);
  void sequence();
  void repair();
  void recombine();

  Job const& job_;
  std::int64_t bound_;
  Filler filler_;
  Chance chance_;
  Pool pool_;
  std::optional<Plan> best_;
  std::vector<Plan> near_;  // the best few, best first
  bool rolls_ = false;
  bool sheets_ = false;  // that are no rolls
  std::vector<std::int64_t> values_;
  std::int64_t until_ = 0;
  std::int64_t other_work_ = 0;
  int number_;
  int round_ = 0;
  std::vector<std::int64_t> unplaced_;  // of the last pass that failed, by type
  Plan failed_;                         // what it had planned till then
  std::vector<Selection> selections_;
  std::int64_t selected_below_ = -1;  // the cost of the plan they were made for
};

}  // namespace endband::cutting::many
