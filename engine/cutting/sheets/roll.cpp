#include "engine/cutting/sheets/roll.h"

#include "engine/cutting/geometry/worth.h"
#include "engine/cutting/sheets/roll_strips.h"

#include <algorithm>
#include <stdexcept>

namespace endband::cutting {

namespace {

__extension__ using Wide = __int128;

// Both sides, as a piece may lie on the roll.
struct Way {
  std::int64_t width, height;
};
std::vector<Way> ways(Rect const& rect) {
  if (!rect.turns || rect.width == rect.height) return {{rect.width, rect.height}};
  return {{rect.width, rect.height}, {rect.height, rect.width}};
}

std::int64_t short_by(Sheet const& roll, std::int64_t width, Way const& way) {
  return std::max<std::int64_t>({0, way.width - width, way.height - roll.height});
}

std::vector<Obstacle> obstacles(Sheet const& roll, std::int64_t width, std::vector<Rect> const& pieces) {
  std::vector<Obstacle> all;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (pieces[i].copies == 0) continue;
    std::vector<Way> const allowed = ways(pieces[i]);
    Way const& way = *std::min_element(allowed.begin(), allowed.end(), [&](Way const& a, Way const& b) {
      return short_by(roll, width, a) < short_by(roll, width, b);
    });
    std::int64_t const over = short_by(roll, width, way);
    if (over == 0) continue;
    bool const turned_fits = short_by(roll, width, {pieces[i].height, pieces[i].width}) == 0;
    all.push_back({static_cast<int>(i), turned_fits ? Why::grain : Why::too_large,
                   way.width - width == over ? Side::width : Side::height, over});
  }
  return all;
}

// No plan is shorter, padded: by the widths as they are, and with the wide ones as wide as the roll where as
// much is taken off the narrow ones (dual feasible functions; Fekete and Schepers 2004).
std::int64_t least_height(one_sheet::Task const& task) {
  std::int64_t least = 1;
  std::vector<std::int64_t> narrow{0};
  for (one_sheet::Want const& want : task.wants) {
    std::int64_t lowest = 0;
    for (Way const& way : ways({want.width, want.height, 1, want.turns})) {
      if (way.width > task.width) continue;
      lowest = lowest == 0 ? way.height : std::min(lowest, way.height);
      if (way.width <= task.width / 2) narrow.push_back(way.width);
    }
    least = std::max(least, lowest);
  }
  for (std::int64_t const from : narrow) {
    Wide area = 0;
    for (one_sheet::Want const& want : task.wants) {
      Wide smallest = -1;
      for (Way const& way : ways({want.width, want.height, 1, want.turns})) {
        if (way.width > task.width) continue;
        std::int64_t width = way.width < from ? 0 : way.width;
        if (from > 0 && way.width > task.width - from) width = task.width;
        Wide const own = static_cast<Wide>(width) * way.height;
        if (smallest < 0 || own < smallest) smallest = own;
      }
      area += smallest * want.copies;
    }
    least = std::max(least, static_cast<std::int64_t>((area + task.width - 1) / task.width));
  }
  return least;
}

one_sheet::Task task_of(std::int64_t width, SheetRequest const& request, std::vector<int>& piece_of) {
  one_sheet::Task task;
  task.width = width + request.kerf;
  Wide area = 0;
  for (std::size_t i = 0; i < request.pieces.size(); ++i) {
    Rect const& rect = request.pieces[i];
    if (rect.copies == 0) continue;
    task.wants.push_back({rect.width + request.kerf, rect.height + request.kerf, 1, rect.copies, rect.turns});
    piece_of.push_back(static_cast<int>(i));
    area += static_cast<Wide>(rect.width + request.kerf) * (rect.height + request.kerf) * rect.copies;
    if (area >= Wide{1} << 61) throw std::logic_error("the pieces' area");
  }
  return task;
}

// What a length of at least `length` costs, less the worth of all that could be kept of it.
std::int64_t least_cost(Sheet const& roll, SheetRequest const& request, std::int64_t length) {
  Wide area = 0;
  for (Rect const& rect : request.pieces) area += static_cast<Wide>(rect.width) * rect.height * rect.copies;
  Wide const waste = static_cast<Wide>(roll.width) * length - area;
  Worth const worth = request.least_kept > 0 ? request.worth : Worth{};
  using cost_detail::times;
  Wide const above = times(roll.cost, times(times(roll.width, length), worth.den) - times(worth.num, waste));
  Wide const below = times(times(roll.width, roll.height), worth.den);
  return static_cast<std::int64_t>((above + below - 1) / below);
}

std::int64_t cost_of(Sheet const& roll, SheetRequest const& request, CutSheet const& cut) {
  std::int64_t cost = torn_cost(roll.cost, cut.length, roll.height);
  for (Offcut const& kept : cut.kept)
    cost -= kept_worth(request.worth, roll.cost, kept.width, kept.height, roll.width * roll.height);
  return cost;
}

}  // namespace

Answer<CutSheet> plan_roll(Sheet const& roll, SheetRequest const& request, Budget const& budget) {
  Answer<CutSheet> answer;
  std::int64_t const width = roll.width - 2 * request.trim;
  answer.obstacles = obstacles(roll, width, request.pieces);
  if (!answer.obstacles.empty()) {
    answer.outcome = Outcome::impossible;
    return answer;
  }
  std::vector<int> piece_of;
  one_sheet::Task const task = task_of(width, request, piece_of);
  if (task.wants.empty()) {
    answer.outcome = Outcome::planned;
    return answer;
  }
  one_sheet::RollPacker packer(task, least_height(task));
  packer.run(budget.work);
  std::int64_t const length = packer.height() - request.kerf, least = packer.least() - request.kerf;
  answer.proof.work = packer.work();
  answer.proof.bound = least_cost(roll, request, std::max<std::int64_t>(least, 1));
  if (length > roll.height) {
    bool const only = roll.copies && *roll.copies <= 1;
    answer.outcome = only && least > roll.height ? Outcome::impossible : Outcome::not_found;
    if (answer.outcome == Outcome::impossible)
      for (int const piece : piece_of) answer.obstacles.push_back({piece, Why::not_enough, Side::none, 0});
    return answer;
  }
  one_sheet::Frame const frame{roll.width, length, request.kerf, request.trim, 0, request.least_kept};
  CutSheet cut = one_sheet::cut_sheet(one_sheet::stack(packer.strips()), frame);
  cut.length = length;
  for (Laid& laid : cut.laid) laid.piece = piece_of[static_cast<std::size_t>(laid.piece)];
  answer.outcome = Outcome::planned;
  answer.proof.cost = cost_of(roll, request, cut);
  answer.proof.bound = std::min(answer.proof.bound, answer.proof.cost);
  answer.used.push_back(std::move(cut));
  return answer;
}

}  // namespace endband::cutting
