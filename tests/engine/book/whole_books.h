// The plain book, and the book of everything.
#pragma once

#include "tests/engine/book/made.h"

namespace endband::tests {

struct Plain {
  Catalogue catalogue = fixtures::sample_catalogue();
  BookSpec spec = fixtures::sample_spec(catalogue);
  Structure made() const { return structure(spec, catalogue); }
};
struct Everything : Plain {
  Everything() { spec = fixtures::sample_spec_with_everything(catalogue); }
};

}  // namespace endband::tests
