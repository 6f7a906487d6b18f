#include "cli/document/document.h"

#include "cli/document/notice.h"

namespace endband::cli {

Block::Block(Block const&) = default;
Block::Block(Block&&) noexcept = default;
Block& Block::operator=(Block const&) = default;
Block& Block::operator=(Block&&) noexcept = default;
Block::~Block() = default;

Table on_paper(Table const& table) {
  Table kept;
  for (Column const& column : table.columns)
    if (!column.bars) kept.columns.push_back(column);
  if (kept.columns.size() == table.columns.size()) return table;
  for (Row const& row : table.rows) {
    Row& shorter = kept.rows.emplace_back(Row{{}, row.total});
    for (std::size_t c = 0; c < row.cells.size(); ++c)
      if (c >= table.columns.size() || !table.columns[c].bars) shorter.cells.push_back(row.cells[c]);
  }
  return kept;
}

std::string_view notice_label(NoticeKind kind) {
  switch (kind) {
    case NoticeKind::note: return "Note: ";
    case NoticeKind::warning: return "Look: ";
    case NoticeKind::caution: return "Care: ";
    case NoticeKind::next: return "Next: ";
  }
  return "";
}

}  // namespace endband::cli
