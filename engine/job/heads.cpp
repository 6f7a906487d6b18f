#include "engine/job/heads.h"

#include "engine/book/operation.h"

#include <algorithm>

namespace endband {
namespace {

HeadTimes& times_at(std::vector<HeadTimes>& all, Head const& head) {
  auto const found =
      std::find_if(all.begin(), all.end(), [&](HeadTimes const& each) { return each.head == head; });
  if (found != all.end()) return *found;
  all.push_back({head, {}, 0});
  return all.back();
}

}  // namespace

Heads::Heads(std::span<Worked const> worked) {
  for (Worked const& each : worked)
    if (each.part && !told(*each.part)) told_.push_back(*each.part);
}

bool Heads::told(Part part) const { return std::find(told_.begin(), told_.end(), part) != told_.end(); }

Head Heads::of(WorkLine const& line) const {
  if (told(line.part)) return {std::nullopt, line.part};
  return {line.kind, std::nullopt};
}

Head Heads::of(Worked const& worked, Work const& quoted) const {
  if (worked.part) return {std::nullopt, worked.part};
  std::optional<Head> of_a_part;
  for (WorkLine const& line : quoted.lines) {
    if (line.kind != worked.operation) continue;
    Head const head = of(line);
    if (head.operation) return head;
    if (!of_a_part) of_a_part = head;
  }
  if (of_a_part) return *of_a_part;
  Part const usual = operation_row(*worked.operation).part;
  return told(usual) ? Head{std::nullopt, usual} : Head{worked.operation, std::nullopt};
}

std::vector<HeadTimes> times_by_head(Heads const& heads, Work const& quoted, std::span<Worked const> worked) {
  std::vector<HeadTimes> all;
  for (WorkLine const& line : quoted.lines) times_at(all, heads.of(line)).quoted.add(line.mean_seconds);
  for (Worked const& each : worked) {
    HeadTimes& times = times_at(all, heads.of(each, quoted));
    times.worked = checked_add(times.worked, each.time.n);
  }
  return all;
}

Holding const* holding_of(JobRecord const& record, MaterialId material) {
  auto const found = std::find_if(record.taken.begin(), record.taken.end(),
                                  [&](Holding const& each) { return each.material == material; });
  return found == record.taken.end() ? nullptr : &*found;
}

BillLine const* line_of(Bill const& bill, MaterialId material) {
  auto const found = std::find_if(bill.lines.begin(), bill.lines.end(),
                                  [&](BillLine const& line) { return line.material == material; });
  return found == bill.lines.end() ? nullptr : &*found;
}

bool same_words(std::string_view a, std::string_view b) { return edit_distance(a, b) == 0; }

}  // namespace endband
