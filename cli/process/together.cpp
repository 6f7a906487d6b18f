#include "cli/process/together.h"

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <system_error>
#include <thread>
#include <vector>

namespace endband::cli {
namespace {

constexpr std::size_t most_threads = 2;

std::size_t threads_for(std::size_t tasks) {
  std::size_t const cores = std::max(1U, std::thread::hardware_concurrency());
  return std::min({cores, most_threads, tasks});
}

}  // namespace

void run_together(std::span<std::function<void()> const> tasks) {
  std::vector<std::exception_ptr> thrown(tasks.size());
  std::atomic<std::size_t> next{0};
  auto const work = [&] {
    for (std::size_t i = next++; i < tasks.size(); i = next++) {
      try {
        tasks[i]();
      } catch (...) {
        thrown[i] = std::current_exception();
      }
    }
  };
  std::vector<std::thread> others;
  try {
    for (std::size_t i = 1; i < threads_for(tasks.size()); ++i) others.emplace_back(work);
  } catch (std::system_error const&) {  // no thread to be had: this one does it all
  }
  work();
  for (std::thread& other : others) other.join();
  for (std::exception_ptr const& each : thrown)
    if (each) std::rethrow_exception(each);
}

}  // namespace endband::cli
