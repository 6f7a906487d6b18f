// How a workshop writes on its papers: its own words for ours, and how its numbers look.
#pragma once

#include "db/workshop.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <map>
#include <string>
#include <string_view>

namespace endband::cli {

// "1234.50" as "1,234.50", "1.234,50" or "1 234,50"; the space is one that no line breaks at.
struct NumberStyle {
  std::string point = ".", group{};

  std::string number(std::string_view plain) const;  // an optional sign, digits, and a point with digits
  std::string money(Money money) const;              // without its currency
  std::string money_words(Money money) const;        // with it
  std::string percent(Ratio share) const;
};
NumberStyle number_style(std::string_view setting);

class PaperStyle {
 public:
  NumberStyle numbers{};
  // Names of db::paper_words(); any other is a mistake of ours.
  std::string word(std::string_view name) const;
  void say(std::string_view name, std::string words) {
    own_.insert_or_assign(std::string(name), std::move(words));
  }

 private:
  std::map<std::string, std::string, std::less<>> own_;
};
PaperStyle paper_style(db::Workshop& workshop, Date on);

}  // namespace endband::cli
