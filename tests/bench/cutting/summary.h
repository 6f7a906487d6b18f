// One line an instance, and the figures of each family.
#pragma once

#include "tests/bench/cutting/bench.h"

#include <map>

namespace endband::cutting::bench {

Json line_of(std::string const& family, std::string const& file, Result const& result);

class Summary {
 public:
  void add(std::string const& family, Result const& result);
  void skip(std::string const& family, std::string const& why) { ++skipped_[family + ": " + why]; }
  std::string text() const;
  bool all_valid() const;

 private:
  struct Mean {
    double sum = 0, most = 0;
    int count = 0;
    void add(double value);
    double mean() const { return count == 0 ? 0 : sum / count; }
  };
  struct Family {
    int instances = 0, planned = 0, known = 0, at_best = 0, proved = 0, invalid = 0, all_placed = 0;
    Mean excess, wall, cores, share, fill_plain, fill_zones;
  };
  static std::string text_of(std::string const& name, Family const& family);

  std::map<std::string, Family> families_;
  std::map<std::string, int> skipped_;
};

}  // namespace endband::cutting::bench
