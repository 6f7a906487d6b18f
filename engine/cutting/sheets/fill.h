// One sheet filled by beam search; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/job.h"

#include <span>

namespace endband::cutting::many {

// Rectangle 0 is the sheet. Step j lays a shape into the lower left corner of rectangle `rect`, which is
// parted by a cut along the shape's right side (`upright`) or along its top, and then the strip that holds
// the shape by the other. What is beside the shape in its strip is rectangle 2j + 1, what is beyond the strip
// 2j + 2. Where the shape's other side is 0 the step is just a cut, and all of the strip lies beside.
struct Step {
  int rect = 0;
  int shape = -1;  // of the job; -1: nothing is laid there, the part stays empty
  bool upright = false;
  std::int64_t width = 0, height = 0;  // of the shape
};

struct Use {
  int type = 0;
  std::int64_t count = 0;
  friend bool operator==(Use const&, Use const&) = default;
};

struct Pattern {
  int kind = -1;
  std::int64_t length = 0;  // torn off, grown; of a sheet 0
  std::int64_t cost = 0;    // net of what is kept
  std::int64_t area = 0;    // of what is laid, grown
  std::int64_t value = 0;   // as the filling was asked to value it
  std::vector<Step> steps;
  std::vector<Use> uses;  // by type
  bool all = false;       // everything that was left is laid
};

struct Filling {
  std::int64_t width = 0, height = 0;
  std::span<std::int64_t const> left;    // of each type, at most so many
  std::span<std::int64_t const> values;  // of one of each type; below 2^44
  int beam = 1;
  int eager = 0;  // how much a further step counts, in 1024ths of its area
};

class Filler {
 public:
  explicit Filler(Job const& job) : job_(job) {}
  // The pattern of greatest value that was met; kind, length and cost are the caller's to set.
  Pattern fill(Filling const& filling);
  std::int64_t work() const { return work_; }

 private:
  static constexpr int deepest = 40;
  struct Rest {  // a rectangle not yet used
    std::int64_t width = 0, height = 0;
    int id = 0;
  };
  struct Node {
    std::int64_t value = 0;
    std::int64_t spent = 0;  // area laid or wasted, scaled
    std::uint64_t hash = 0;  // of what is left of the types
    int link = -1;
    int depth = 0;
    int laid = 0;
    std::array<Rest, deepest> rests;
  };
  struct Link {
    int parent = -1;
    Step step;
  };
  struct Local {  // a shape in this filling
    std::int64_t width = 0, height = 0, value = 0, area = 0;
    int type = 0;   // among the local ones
    int shape = 0;  // of the job
  };
  struct Corner {
    std::int64_t width = 0, height = 0;
  };
  struct Child {
    std::int64_t merit = 0;
    int node = 0;
    int local = 0;
    bool upright = false;
  };

  void gather(Filling const& filling);
  void least_sides(std::int16_t const* left);
  bool dead(std::int64_t width, std::int64_t height) const;
  void expand(int node);
  bool lay(Child const& child, int at);
  void seen(Node const& node);
  std::uint64_t state_hash(Node const& node) const;
  Pattern result() const;
  std::int64_t scaled(std::int64_t width, std::int64_t height) const {
    return (width * height) >> job_.shift;
  }

  Job const& job_;
  std::int64_t work_ = 0;
  std::vector<Local> locals_;  // the narrowest first
  std::vector<int> types_;     // of the job, by local type
  std::vector<std::int16_t> left_, next_left_;
  std::vector<Node> nodes_, next_;
  std::vector<Link> links_;
  std::vector<Child> children_;
  std::vector<Corner> corners_;
  std::vector<std::uint64_t> states_;
  std::int64_t density_ = 0;  // value by area, in 1024ths, less what `eager` takes off
  std::int64_t best_value_ = 0;
  std::int64_t all_pieces_ = 0;
  int best_link_ = -1;
  bool all_ = false;
};

// What a pattern uses and its area, from its steps.
void count_up(Job const& job, Pattern& pattern);

}  // namespace endband::cutting::many
