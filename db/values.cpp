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
  struct Put {
    Sink& sink;
    void operator()(MarginGoal const& goal) const { sink.take("margin", goal.margin); }
    void operator()(MarkupGoal const& goal) const { sink.take("markup", goal.markup); }
    void operator()(ProfitGoal const& goal) const { sum("profit", goal.left); }
    void operator()(HourlyGoal const& goal) const { sum("hourly", goal.an_hour); }
    void operator()(LeaveGoal const& goal) const { sum("leave", goal.yours); }
    void sum(std::string_view name, Money money) const { sink.take(name, money, std::int64_t{1}); }
  };
  std::visit(Put{*this}, goal);
}

}  // namespace endband::db
