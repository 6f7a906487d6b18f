// Customers. Name and address live apart from quotes, which carry only the customer's id, so that they can be
// forgotten.
#pragma once

#include "db/workshop.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

struct Customer {
  std::int64_t id = 0;
  std::string code;  // "otter-stage"
  std::string name, email, address, country, notes;
  Date since;
};
Read<std::int64_t> add_customer(Writing& writing, Customer const& customer);
Read<std::int64_t> change_customer(Writing& writing, Customer const& customer);
Read<Customer> find_customer(Workshop& workshop, std::string_view code);  // unknown_code with near
std::vector<Customer> list_customers(Workshop& workshop);

}  // namespace endband::db
