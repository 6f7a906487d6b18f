#include "db/values.h"

#include <stdexcept>
#include <variant>

namespace endband::db {

void Sink::put(Money value) {
  if (value.currency != currency_)
    throw std::logic_error("money of '" + std::string(value.currency.code()) +
                           "' in a workshop that counts in " + std::string(currency_.code()));
  put_integer(value.minor);
}

void Sink::put(Goal const& goal) {
  if (auto const* margin = std::get_if<MarginGoal>(&goal))
    take("margin", margin->margin);
  else
    take("markup", std::get<MarkupGoal>(goal).markup);
}

}  // namespace endband::db
