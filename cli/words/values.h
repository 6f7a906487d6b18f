// Values as people write them: shares, prices with their currency, sizes, properties of materials.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace endband::cli {

std::string percent(Ratio share);               // "5 %", "2.5 %", "33.33 %"
std::string number(Ratio value);                // "1.17", at most four decimals
std::string money_words(Money money);           // "12.50 EUR"
std::string signed_text(Money change);          // "+12.50", "-0.40", "0.00"
std::string millimetres(Length length);         // "250 mm"
std::string tenths_mm(Length length);           // "223.3": what a knife can follow
std::string sheet_words(SheetSize sheet);       // "640 x 900 mm"
std::string thread_words(ThreadNumber thread);  // "18/3"
std::string hours_words(Ratio seconds);         // "14 h 20 min", to the minute

// "50 sheets", "0.6 m2", "25 leaves", "1 piece": an amount in the words of how its material is sold;
// lengths to the millimetre, areas to a square centimetre or a tenth of one.
std::string sold_words(Amount amount, SoldBy sold_by);

bool same_words(std::string_view a, std::string_view b);  // capital letters or small

// "a, b and c"
std::string listed(std::vector<std::string> const& words, std::string_view last = "and");
// All of four; of more the first three: "a, b, c and 34 more".
std::string listed_few(std::vector<std::string> words);

}  // namespace endband::cli
