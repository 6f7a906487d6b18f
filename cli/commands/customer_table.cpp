// Customers out to a spreadsheet and in from one.
#include "cli/commands/commands.h"
#include "cli/commands/customer_record.h"
#include "cli/commands/spreadsheet_columns.h"
#include "cli/commands/spreadsheets.h"

#include <map>

namespace endband::cli {

std::vector<SpreadsheetColumn> customer_columns() {
  std::vector<SpreadsheetColumn> columns = columns_of(customer_flags());
  columns.insert(columns.begin(), {{"--code", FlagType::code, "the customer's code"}, true});
  return columns;
}

namespace {

Read<Answer> run_export(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  std::vector<SheetFields> rows;
  for (db::Customer const& customer : db::list_customers(**workshop)) {
    SheetFields& row = rows.emplace_back(fields_of(customer));
    row.insert(row.begin(), {"code", customer.code});
  }
  return exported(context, args, {"customer", "customers"}, customer_columns(), rows);
}

// All customers are read once: a file has many rows.
class CustomerKeeper {
 public:
  explicit CustomerKeeper(Date on) : on_(on) {}

  Read<ImportedRow> operator()(db::Writing& writing, SpreadsheetRow const& row) {
    std::string const code = *row.said.text("--code");
    if (!read_) {
      for (db::Customer& customer : db::list_customers(writing.workshop()))
        kept_.emplace(customer.code, std::move(customer));
      read_ = true;
    }
    auto const before = kept_.find(code);
    return before == kept_.end() ? add(writing, row.said, code) : change(writing, row.said, before->second);
  }

 private:
  Read<ImportedRow> add(db::Writing& writing, Args const& said, std::string const& code) const {
    auto const customer = customer_said(said, code, on_);
    if (!customer) return tl::unexpected(customer.error());
    auto const added = db::add_customer(writing, *customer);
    if (!added) return tl::unexpected(added.error());
    return ImportedRow{0, code, true, changes_between({}, fields_of(*customer))};
  }

  static Read<ImportedRow> change(db::Writing& writing, Args const& said, db::Customer const& before) {
    db::Customer const after = customer_changed(said, before);
    ImportedRow row{0, before.code, false, changes_between(fields_of(before), fields_of(after))};
    if (row.changes.empty()) return row;
    auto const done = db::change_customer(writing, after);
    if (!done) return tl::unexpected(done.error());
    return row;
  }

  Date on_;
  bool read_ = false;
  std::map<std::string, db::Customer, std::less<>> kept_;
};

Read<Answer> run_import(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto sheet = sheet_said(context, args, "customer import", customer_columns());
  if (!sheet) return tl::unexpected(sheet.error());
  refuse_repeated(*sheet, "--code");
  Imported view{.noun = "customer", .file = args.word(0), .next = "endband customer list"};
  auto done = import_rows(context, **workshop, *sheet, std::move(view), CustomerKeeper(context.on));
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(*done));
}

std::string const about_import =
    std::string(import_about) +
    " A code that is not known is a new customer. Names and addresses are not kept twice, so an import of "
    "them is not taken back by endband workshop undo: try it with --dry-run.";

}  // namespace

Command customer_export() {
  return {.noun = "customer",
          .verb = "export",
          .summary = "Write the customers as a table for a spreadsheet",
          .about = export_about,
          .words = {},
          .flags = export_flags(),
          .examples = {"customer export --output customers.csv", "customer export --separator tab"},
          .refused_when = "the file is there already",
          .writes = true,
          .writes_with = {"--output"},
          .run = run_export};
}

Command customer_import() {
  return {.noun = "customer",
          .verb = "import",
          .summary = "Keep customers from a table of a spreadsheet",
          .about = about_import,
          .words = {import_word},
          .flags = import_flags(),
          .examples = {"customer import customers.csv --dry-run",
                       "customer import customers.csv --separator comma"},
          .refused_when = "a rule of customer add or customer change forbids a row",
          .writes = true,
          .run = run_import};
}

}  // namespace endband::cli
