// Under which head work is compared: by operation, but by part where hours were told of a part; for the .cpp
// files of this module and of engine/review.
#pragma once

#include "engine/job/job.h"
#include "engine/labour/seconds.h"

#include <span>
#include <vector>

namespace endband {

struct Head {
  std::optional<OperationKind> operation;
  std::optional<Part> part;  // exactly one of the two
  friend bool operator==(Head const&, Head const&) = default;
};

// Quoted and worked under one head.
struct HeadTimes {
  Head head;
  SecondsSum quoted;
  std::int64_t worked = 0;
};

class Heads {
 public:
  explicit Heads(std::span<Worked const> worked);

  // Where a quoted line stands: with its part, when hours were told of that.
  Head of(WorkLine const& line) const;
  // Where hours worked stand in a quote of these lines: an operation whose lines all stand with a part stands
  // there too.
  Head of(Worked const& worked, Work const& quoted) const;

 private:
  bool told(Part part) const;
  std::vector<Part> told_;
};

// All heads, in the order of the quote, then the unquoted in the order they were told.
std::vector<HeadTimes> times_by_head(Heads const& heads, Work const& quoted, std::span<Worked const> worked);

// What the job holds of a material; nullptr: never touched.
Holding const* holding_of(JobRecord const& record, MaterialId material);
BillLine const* line_of(Bill const& bill, MaterialId material);

// Capital letters or small.
bool same_words(std::string_view a, std::string_view b);

}  // namespace endband
