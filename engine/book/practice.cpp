// What is done when nobody says otherwise.
#include "engine/book/embedded.h"
#include "engine/book/spec.h"

#include <stdexcept>
#include <vector>

namespace endband {
namespace {

BookText read_practice(std::string_view text, std::string const& name) {
  auto read = read_description(text, "practice", description_keys());
  if (!read) {
    Fault const& fault = read.error().front();
    throw std::logic_error("practice of " + name + ":" + std::to_string(fault.where.line) + ": " +
                           fault.where.field + ": " + fault.expected);
  }
  // Nobody has this text before him: a fault is told at the key, not at a line.
  for (Entry& entry : read->entries) entry.where = {"common practice", 0, 0, entry.key};
  return *std::move(read);
}

std::vector<BookText> read_all() {
  std::vector<BookText> texts;
  for (Style const& style : styles()) texts.push_back(read_practice(style.practice, std::string(style.name)));
  return texts;
}

}  // namespace

BookText const& practice() {
  static BookText const text = read_practice(embedded::practice_common, "every binding");
  return text;
}

BookText const& practice(Style const& style) {
  static std::vector<BookText> const texts = read_all();
  return texts.at(static_cast<std::size_t>(&style - styles().data()));
}

}  // namespace endband
