#include "tests/bench/cutting/at_once.h"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace endband::cutting::bench {

std::function<void(std::span<std::function<void()> const>)> at_once(int threads) {
  return [threads](std::span<std::function<void()> const> tasks) {
    std::atomic<std::size_t> next{0};
    auto const work = [&] {
      for (std::size_t i = next++; i < tasks.size(); i = next++) tasks[i]();
    };
    std::vector<std::jthread> others;
    std::size_t const wanted = std::min(static_cast<std::size_t>(threads), tasks.size());
    for (std::size_t i = 1; i < wanted; ++i) others.emplace_back(work);
    work();
  };
}

}  // namespace endband::cutting::bench
