// What a listing would leave, as JSON and as a page.
#pragma once

#include "cli/commands/listed_book.h"
#include "cli/document/document.h"
#include "cli/document/json.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

struct LeftOut {
  std::string outlet, why;
};
struct ListingPriced {
  ListedBook book;
  std::vector<Through> through;
  std::optional<Money> one_price;
  std::vector<LeftOut> left_out;
  std::optional<Ratio> sale;
};
Json to_json(ListingPriced const& view);
Document to_document(ListingPriced const& view);

}  // namespace endband::cli
