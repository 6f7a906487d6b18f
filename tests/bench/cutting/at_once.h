// Runs tasks on so many threads.
#pragma once

#include <functional>
#include <span>

namespace endband::cutting::bench {

std::function<void(std::span<std::function<void()> const>)> at_once(int threads);

}  // namespace endband::cutting::bench
