// The public face: kerf and trim come off here.
#include "engine/cutting/sheets/one_sheet.h"

#include <limits>
#include <stdexcept>

namespace endband::cutting {

namespace {

__extension__ using Wide = __int128;

void need(bool holds, char const* what) {
  if (!holds) throw std::logic_error(what);
}

constexpr std::int64_t longest = std::int64_t{1} << 40;
constexpr std::int64_t dearest = std::int64_t{1} << 62;

bool is_length(std::int64_t length) { return length > 0 && length <= longest; }

void check_request(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                   std::int64_t trim) {
  need(is_length(sheet.width) && is_length(sheet.height), "a sheet's sides");
  need(kerf >= 0 && kerf <= longest && trim >= 0 && trim <= longest, "kerf and trim");
  for (ValuedRect const& piece : pieces)
    need(is_length(piece.rect.width) && is_length(piece.rect.height) && piece.rect.copies >= 0,
         "a piece's sides and copies");
}

one_sheet::Frame frame_of(Sheet const& sheet, std::int64_t kerf, std::int64_t trim) {
  return {sheet.width, sheet.height, kerf, trim, sheet.by_length ? 0 : trim, 0};
}

one_sheet::Task task_of(one_sheet::Frame const& frame, std::vector<ValuedRect> const& pieces,
                        bool unlimited) {
  one_sheet::Task task;
  task.width = frame.width - 2 * frame.trim_x + frame.kerf;
  task.height = frame.height - 2 * frame.trim_y + frame.kerf;
  Wide const area = static_cast<Wide>(task.width) * task.height;
  Wide sum = 0;
  for (ValuedRect const& piece : pieces) {
    one_sheet::Want want{piece.rect.width + frame.kerf, piece.rect.height + frame.kerf, piece.value,
                         piece.rect.copies, piece.rect.turns};
    Wide const most = area / (static_cast<Wide>(want.width) * want.height);
    if (unlimited || want.copies > most)
      want.copies = static_cast<std::int64_t>(most > dearest ? dearest : most);
    if (want.value > 0 && want.copies > 0) sum += static_cast<Wide>(want.value) * want.copies;
    need(sum < dearest, "the sum of values");
    task.wants.push_back(want);
  }
  return task;
}

OneSheet best(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf, std::int64_t trim,
              std::int64_t work, bool unlimited) {
  check_request(sheet, pieces, kerf, trim);
  one_sheet::Frame frame = frame_of(sheet, kerf, trim);
  OneSheet answer;
  if (sheet.width <= 2 * frame.trim_x || sheet.height <= 2 * frame.trim_y) return answer;
  one_sheet::Task const task = task_of(frame, pieces, unlimited);
  one_sheet::Filling const filling =
      unlimited ? one_sheet::fill_unlimited(task) : one_sheet::fill(task, work);
  if (sheet.by_length && filling.tree.root >= 0) {
    frame.height = filling.tree.blocks[static_cast<std::size_t>(filling.tree.root)].height - kerf;
    answer.cut.length = frame.height;
  }
  std::int64_t const length = answer.cut.length;
  answer.cut = one_sheet::cut_sheet(filling.tree, frame);
  answer.cut.length = length;
  answer.value = filling.value;
  answer.bound = filling.bound;
  answer.work = filling.work;
  return answer;
}

}  // namespace

OneSheet best_of_sheet(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                       std::int64_t trim, Budget const& budget) {
  return best(sheet, pieces, kerf, trim, budget.work, false);
}

OneSheet best_of_sheet_unlimited(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                                 std::int64_t trim) {
  return best(sheet, pieces, kerf, trim, 0, true);
}

}  // namespace endband::cutting
