#include "cli/words/paper_style.h"

#include "cli/words/values.h"
#include "db/paper_words.h"
#include "db/settings.h"

#include <algorithm>
#include <stdexcept>

namespace endband::cli {
namespace {

constexpr std::string_view unbroken_space = "\xC2\xA0";

}  // namespace

std::string NumberStyle::number(std::string_view plain) const {
  std::size_t const first = plain.starts_with('-') || plain.starts_with('+') ? 1 : 0;
  std::size_t const end = std::min(plain.find('.'), plain.size());
  std::string out(plain.substr(0, first));
  for (std::size_t i = first; i < end; ++i) {
    out += plain[i];
    std::size_t const behind = end - i - 1;
    if (behind > 0 && behind % 3 == 0) out += group;
  }
  if (end < plain.size()) out.append(point).append(plain.substr(end + 1));
  return out;
}

std::string NumberStyle::money(Money money) const { return number(money_text(money)); }

std::string NumberStyle::money_words(Money money) const {
  return this->money(money) + " " + std::string(money.currency.code());
}

std::string NumberStyle::percent(Ratio share) const {
  std::string const plain = cli::percent(share);
  std::size_t const end = plain.find(' ');
  return number(plain.substr(0, end)) + plain.substr(end);
}

NumberStyle number_style(std::string_view setting) {
  if (setting == "1,234.50") return {".", ","};
  if (setting == "1.234,50") return {",", "."};
  if (setting == "1 234,50") return {",", std::string(unbroken_space)};
  return {};
}

std::string PaperStyle::word(std::string_view name) const {
  if (auto const own = own_.find(name); own != own_.end()) return own->second;
  db::PaperWord const* const row = db::paper_word(name);
  if (row == nullptr) throw std::logic_error("no word of papers is called " + std::string(name));
  return std::string(row->ours);
}

PaperStyle paper_style(db::Workshop& workshop, Date on) {
  PaperStyle style;
  for (db::Setting const& setting : db::settings(workshop, on)) {
    if (setting.value.empty()) continue;  // taken back
    if (setting.name == "paper.numbers") style.numbers = number_style(setting.value);
    constexpr std::string_view family = "word.";
    if (setting.name.starts_with(family)) style.say(setting.name.substr(family.size()), setting.value);
  }
  return style;
}

}  // namespace endband::cli
