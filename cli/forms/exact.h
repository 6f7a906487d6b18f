// Values as texts that are read back as they were, to the last unit: for files that are read again. Units are
// the trade's; a share that is no decimal stays a fraction.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <string>

namespace endband::cli {

std::string exact_decimal(std::int64_t n, int decimals);  // n / 10^decimals, shortest: "0.16"
std::string exact_share(Ratio share);                     // "2.5 %", "1/3"
std::string exact_number(Ratio value);                    // "1.17", "7/6"
std::string exact_thickness(Thickness thickness);         // "0.992188 mm"
std::string exact_amount(Amount amount, SoldBy sold_by);  // "50 sheets", "1.11483648 m2"

}  // namespace endband::cli
