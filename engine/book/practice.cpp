// What is done when nobody says otherwise.
#include "engine/book/embedded.h"
#include "engine/book/spec.h"

#include <stdexcept>

namespace endband {
namespace {

BookText read_practice() {
  auto text = read_description(embedded::practice, "practice", description_keys());
  if (!text) {
    Fault const& fault = text.error().front();
    throw std::logic_error("practice.toml:" + std::to_string(fault.where.line) + ": " + fault.expected);
  }
  return *std::move(text);
}

}  // namespace

BookText const& practice() {
  static BookText const text = read_practice();
  return text;
}

}  // namespace endband
