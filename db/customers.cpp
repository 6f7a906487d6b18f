#include "db/customers.h"

#include "db/codes.h"
#include "db/statement.h"

namespace endband::db {
namespace {

constexpr std::string_view columns =
    "SELECT c.id, c.code, a.name, a.email, a.address, a.country, a.notes, c.since "
    "FROM customer c JOIN customer_address a ON a.customer = c.id ";

std::optional<std::int64_t> id_of(Connection& connection, std::string_view code) {
  Statement select(connection, "SELECT id FROM customer WHERE code = ?");
  if (!select.bind(code).step()) return std::nullopt;
  return select.value<std::int64_t>();
}

Customer read_customer(Statement& select) {
  Customer c;
  select.read(c.id, c.code, c.name, c.email, c.address, c.country, c.notes, c.since);
  return c;
}

Fault unknown(Workshop& workshop, std::string_view code, std::string source) {
  Statement select(workshop.connection(), "SELECT code FROM customer");
  std::vector<std::string> codes;
  while (select.step()) codes.push_back(select.value<std::string>());
  return {FaultCode::unknown_code,
          {std::move(source), 0, 0, "customer"},
          std::string(code),
          "a customer's code",
          near_codes(code, codes)};
}

}  // namespace

Read<std::int64_t> add_customer(Writing& writing, Customer const& customer) {
  Where const where{"customer add", 0, 0, "code"};
  Connection& connection = writing.workshop().connection();
  if (auto fault = check_code(customer.code, where)) return refuse(*std::move(fault));
  if (id_of(connection, customer.code))
    return refuse({FaultCode::already_exists, where, customer.code, "a code that is free", {}});
  Statement insert(connection, "INSERT INTO customer (code, since, entry) VALUES (?, ?, ?)");
  std::int64_t const id = insert.bind(customer.code, customer.since, writing.entry()).insert();
  Statement address(connection,
                    "INSERT INTO customer_address (customer, name, email, address, country, notes, entry) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?)");
  address
      .bind(id, customer.name, customer.email, customer.address, customer.country, customer.notes,
            writing.entry())
      .run();
  return id;
}

Read<std::int64_t> change_customer(Writing& writing, Customer const& customer) {
  Workshop& workshop = writing.workshop();
  std::optional<std::int64_t> const id = id_of(workshop.connection(), customer.code);
  if (!id) return refuse(unknown(workshop, customer.code, "customer change"));
  Statement update(
      workshop.connection(),
      "UPDATE customer_address SET name = ?, email = ?, address = ?, country = ?, notes = ?, entry = ? "
      "WHERE customer = ?");
  update
      .bind(customer.name, customer.email, customer.address, customer.country, customer.notes,
            writing.entry(), *id)
      .run();
  return *id;
}

Read<Customer> find_customer(Workshop& workshop, std::string_view code) {
  static std::string const sql = std::string(columns) + "WHERE c.code = ?";
  Statement select(workshop.connection(), sql);
  if (select.bind(code).step()) return read_customer(select);
  return refuse(unknown(workshop, code, ""));
}

std::vector<Customer> list_customers(Workshop& workshop) {
  static std::string const sql = std::string(columns) + "ORDER BY c.code";
  Statement select(workshop.connection(), sql);
  std::vector<Customer> customers;
  while (select.step()) customers.push_back(read_customer(select));
  return customers;
}

}  // namespace endband::db
