#include "cli/process/stream_together.h"

#include <algorithm>
#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace endband::cli {
namespace {

constexpr std::size_t most_threads = 2, most_ahead = 8;

class Stream {
 public:
  Stream() {
    try {
      for (std::size_t i = 0; i < most_threads; ++i) threads_.emplace_back([this] { work(); });
    } catch (std::system_error const&) {  // no thread to be had: this one does it all
    }
  }
  ~Stream() {
    {
      std::lock_guard const lock(mutex_);
      ended_ = true;
    }
    to_do_.notify_all();
    for (std::thread& thread : threads_) thread.join();
  }
  Stream(Stream const&) = delete;
  Stream& operator=(Stream const&) = delete;

  void push(Streamed streamed) {
    while (size() >= most_ahead) finish_first();
    {
      std::lock_guard const lock(mutex_);
      slots_.push_back({std::move(streamed), State::waiting, {}});
    }
    to_do_.notify_one();
    while (first_is_done()) finish_first();
  }
  void finish_all() {
    while (size() > 0) finish_first();
  }

 private:
  enum class State { waiting, running, done };
  struct Slot {
    Streamed streamed;
    State state;
    std::exception_ptr thrown;
  };

  std::size_t size() {
    std::lock_guard const lock(mutex_);
    return slots_.size();
  }
  bool first_is_done() {
    std::lock_guard const lock(mutex_);
    return !slots_.empty() && slots_.front().state == State::done;
  }

  // The place of a slot holds while others are pushed behind and taken before it.
  static void run(Slot& slot) {
    try {
      slot.streamed.work();
    } catch (...) {
      slot.thrown = std::current_exception();
    }
  }
  bool run_one(std::unique_lock<std::mutex>& lock) {
    auto const slot = std::find_if(slots_.begin(), slots_.end(),
                                   [](Slot const& each) { return each.state == State::waiting; });
    if (slot == slots_.end()) return false;
    Slot& chosen = *slot;
    chosen.state = State::running;
    lock.unlock();
    run(chosen);
    lock.lock();
    chosen.state = State::done;
    done_.notify_one();
    return true;
  }

  void work() {
    std::unique_lock lock(mutex_);
    while (!ended_)
      if (!run_one(lock)) to_do_.wait(lock);
  }

  // Until it is done, this thread does what nobody else has begun.
  void finish_first() {
    std::unique_lock lock(mutex_);
    while (slots_.front().state != State::done)
      if (!run_one(lock)) done_.wait(lock, [this] { return slots_.front().state == State::done; });
    Slot first = std::move(slots_.front());
    slots_.pop_front();
    lock.unlock();
    if (first.thrown) std::rethrow_exception(first.thrown);
    first.streamed.finish();
  }

  std::mutex mutex_;
  std::condition_variable to_do_, done_;
  std::deque<Slot> slots_;  // in the order of the stream
  bool ended_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace

void stream_together(std::function<std::optional<Streamed>()> const& next) {
  Stream stream;
  while (std::optional<Streamed> streamed = next()) stream.push(*std::move(streamed));
  stream.finish_all();
}

}  // namespace endband::cli
