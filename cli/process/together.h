// Tasks at once, on as many threads as serve.
#pragma once

#include <functional>
#include <span>

namespace endband::cli {

// Runs all of them, two at a time where the machine has more than one core. What the first of them threw, in
// their order, is thrown here once all have ended.
void run_together(std::span<std::function<void()> const> tasks);

}  // namespace endband::cli
