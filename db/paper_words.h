// The words that stand on a workshop's papers, each of which its owner may replace by a setting of its own:
// word.total="Zu zahlen". Sentences that describe a book are not among them.
#pragma once

#include <span>
#include <string_view>

namespace endband::db {

struct PaperWord {
  std::string_view name;  // "total": the setting is word.total
  std::string_view ours;  // "Total to pay"
};
std::span<PaperWord const> paper_words();
PaperWord const* paper_word(std::string_view name);

}  // namespace endband::db
