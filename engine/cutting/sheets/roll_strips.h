// Strips across a roll that together hold all pieces, in little length.
#pragma once

#include "engine/cutting/sheets/one_sheet.h"

namespace endband::cutting::one_sheet {

struct Strip {
  Tree tree;
  std::int64_t height = 0;
  std::vector<std::int64_t> counts;  // of each want
};
std::int64_t height_of(std::vector<Strip> const& strips);
Tree stack(std::vector<Strip> const& strips);

// Every want fits the width of the task, whose height is not looked at.
class RollPacker {
 public:
  RollPacker(Task const& task, std::int64_t least) : task_(task), least_(least) {}

  void run(std::int64_t work);
  std::vector<Strip> const& strips() const { return best_; }
  std::int64_t height() const { return height_; }
  std::int64_t least() const { return least_; }  // no plan is shorter
  std::int64_t work() const { return work_; }

 private:
  void by_order(std::int64_t work);
  void by_parts(std::int64_t work);
  void by_whole(std::int64_t work);
  bool done() const { return height_ <= least_; }
  std::uint64_t next(std::uint64_t below);
  Task part_of(std::vector<std::size_t> const& chosen, std::int64_t height) const;

  Task const& task_;
  std::int64_t least_, height_ = 0, work_ = 0;
  std::vector<Strip> best_;
  std::uint64_t drawn_ = 0;
};

}  // namespace endband::cutting::one_sheet
