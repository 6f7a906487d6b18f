// A quote as the binder has to defend it: every line's rule with its numbers.
#pragma once

#include "cli/document/document.h"
#include "cli/document/json.h"
#include "db/quotes.h"
#include "engine/commission/commission.h"

#include <string>
#include <vector>

namespace endband::cli {

struct StepCaution {
  std::string step, caution;
};

struct Explained {
  db::QuoteHeader header;
  FrozenQuote quote;
  std::vector<StepCaution> cautions;  // of the steps used, as the library has them on the quote's day
};

Json to_json(Explained const& view);
Document to_document(Explained const& view);

}  // namespace endband::cli
