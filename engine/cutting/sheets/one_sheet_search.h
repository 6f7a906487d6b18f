// Exact: blocks are built from below, the most promising first (Wang 1983; Viswanathan and Bagchi 1993; Hifi
// 1997; Cung, Hifi and Le Cun 2000). A block is worth building while its value and the most that can lie
// around it beat the best plan; what lies around it is bounded with copies unlimited, at values from which a
// price of each copy is taken.
#pragma once

#include "engine/cutting/sheets/one_sheet_limited.h"
#include "engine/cutting/sheets/one_sheet_table.h"

#include <unordered_map>

namespace endband::cutting::one_sheet {

// Values are multiplied by `scale`. For any plan: scale x value <= sum of `values` of its pieces +
// `constant`.
struct Pricing {
  std::vector<std::int64_t> values;
  std::int64_t constant = 0;
  std::vector<std::int64_t> around;
};
struct Bounds {
  Grid grid;
  std::int64_t scale = 1;
  std::vector<Pricing> pricings;  // one to three
};

class Search {
 public:
  // Only plans of more than `value` are looked for, and none of more than `bound` exists.
  Search(Task const& task, Packing const& packing, Bounds const& bounds, Limited const& rest,
         std::int64_t value, std::int64_t bound);

  void run(std::int64_t steps);
  bool found() const { return best_node_ >= 0; }
  Tree tree() const;
  std::int64_t value() const { return best_; }
  std::int64_t bound() const { return bound_; }
  std::int64_t steps() const { return steps_; }

 private:
  struct Node {
    std::int64_t width, height, value, most;  // most: scaled bound of what it leads to
    int first, second;                        // a piece: its want, or -2 - want where turned, and -1
    bool above, dead;
    int next;  // with the same counts
  };
  struct Closed {
    std::int64_t width, height, priced;
    int node;
  };
  static constexpr std::size_t most_pricings = 3;

  void add_piece(std::size_t want, bool turned);
  void add(Node node, Word const* counts, std::int64_t const* priced);
  bool dominated(Node const& node, Word const* counts, std::uint64_t hash);
  void expand(int node);
  void expand_beside(int node, bool above);
  void try_pair(int first, int second, bool above);
  void complete(int node);
  std::int64_t target() const { return (best_ + 1) * bounds_.scale; }
  Word const* counts(int node) const { return &counts_[static_cast<std::size_t>(node) * packing_.words()]; }
  std::int64_t const* priced(int node) const { return &priced_[static_cast<std::size_t>(node) * kinds_]; }
  int block(Tree& tree, int node) const;

  Task const& task_;
  Packing const& packing_;
  Bounds const& bounds_;
  Limited const& rest_;
  std::size_t kinds_;  // of pricings
  std::vector<Node> nodes_;
  std::vector<Word> counts_;
  std::vector<std::int64_t> priced_;
  std::vector<Closed> closed_;
  std::vector<std::pair<std::int64_t, int>> open_;  // a heap
  std::unordered_map<std::uint64_t, int> same_;     // hash of counts to the newest node; only looked up
  std::vector<std::int64_t> needed_;                // scratch of an expansion
  std::int64_t best_, bound_, steps_ = 0;
  int best_node_ = -1;
  int best_way_ = 0;  // 0: the node alone; 1, 2: completed, the strip beside or above it whole
  Tree completed_;
};

}  // namespace endband::cutting::one_sheet
