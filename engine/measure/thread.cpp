// Linen thread by its number.
#include "engine/measure/number.h"

#include <charconv>

namespace endband {
namespace {

constexpr int finest = 1000;
constexpr int most_plies = 100;

bool read_whole(std::string_view text, int& value) {
  auto const [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size();
}

}  // namespace

Read<ThreadNumber> read_thread_number(std::string_view text) {
  NumberWanted const wanted{trimmed(text), "a thread number such as 18/3 or 25"};
  std::size_t const slash = wanted.found.find('/');
  ThreadNumber thread;
  if (!read_whole(trimmed(wanted.found.substr(0, slash)), thread.number) ||
      (slash != std::string_view::npos && !read_whole(trimmed(wanted.found.substr(slash + 1)), thread.ply)))
    return refuse(wanted.fault(FaultCode::bad_value));
  if (thread.number < 1 || thread.number > finest || thread.ply < 1 || thread.ply > most_plies)
    return refuse(wanted.fault(FaultCode::out_of_range));
  return thread;
}

// A pound of single yarn is number x 300 yards (E&R, "sewing thread", dt3050); plies weigh as many times
// more, the take-up of the twist left aside. g/km = 453.59237 x 1000 x ply / (number x 300 x 0.9144).
Ratio tex(ThreadNumber thread) {
  return {std::int64_t{45'359'237} * thread.ply, std::int64_t{27'432} * thread.number};
}

}  // namespace endband
