#include "cli/commands/workshop_text.h"

#include "cli/document/json_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <unordered_map>

namespace endband::cli {
namespace {

constexpr std::string_view kind = "workshop";
constexpr std::int64_t text_version = 1;
constexpr std::size_t piece = 1U << 20U;
constexpr std::size_t most_faults = 20;

void append_cell(std::string& out, db::Cell const& cell, std::string_view table) {
  if (auto const* number = std::get_if<std::int64_t>(&cell)) {
    char digits[24];
    out.append(digits, std::to_chars(std::begin(digits), std::end(digits), *number).ptr);
  } else if (auto const* words = std::get_if<std::string_view>(&cell)) {
    if (!append_json_words(out, *words))
      throw db::StoreError(FaultCode::not_a_workshop, fmt::format("{} holds text that is not UTF-8", table));
  } else {
    out += "null";
  }
}

void append_row(std::string& out, db::WholeTable const& table, std::span<db::Cell const> cells) {
  ((out += "{\"") += table.name) += "\":{";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    ((out += i == 0 ? "\"" : ",\"") += table.columns[i].name) += "\":";
    append_cell(out, cells[i], table.name);
  }
  out += "}}\n";
}

// What a member of a line says, where it is a whole number.
std::optional<std::int64_t> number_of(JsonLine const& line, std::string_view name) {
  for (auto const& [key, value] : line.members)
    if (key == name)
      if (auto const* number = std::get_if<std::int64_t>(&value)) return *number;
  return std::nullopt;
}

bool says_workshop(JsonLine const& line) {
  return std::ranges::any_of(line.members, [](auto const& member) {
    auto const* words = std::get_if<std::string>(&member.second);
    return member.first == "endband" && words != nullptr && *words == kind;
  });
}

class Reader {
 public:
  Reader(TextLines& text, std::string const& path) : text_(text), path_(path) {}

  Read<WorkshopRead> read() {
    auto const schema = head();
    if (!schema) return tl::unexpected(schema.error());
    filling_.emplace(path_, static_cast<int>(*schema));
    for (std::size_t i = 0; i < filling_->tables().size(); ++i)
      tables_.emplace(filling_->tables()[i].name, i);
    if (auto const all = rows(); !all) return tl::unexpected(all.error());
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    auto workshop = filling_->finish();
    if (!workshop) {
      for (Fault& fault : workshop.error()) fault.where.source = text_.source();
      return tl::unexpected(std::move(workshop.error()));
    }
    return WorkshopRead{std::move(*workshop), rows_};
  }

 private:
  void fault(Fault fault) {
    fault.where.source = text_.source();
    fault.where.line = std::max(text_.number(), 1);
    faults_.push_back(std::move(fault));
  }
  tl::unexpected<std::vector<Fault>> refused(Fault given) {
    fault(std::move(given));
    return tl::unexpected(std::move(faults_));
  }

  // The first line; gives back the number of its schema.
  Read<std::int64_t> head() {
    std::string_view line;
    auto const there = text_.next(line);
    if (!there) return tl::unexpected(there.error());
    std::string const wanted =
        fmt::format("a first line such as {{\"endband\":\"workshop\",\"version\":{},\"schema\":{}}}",
                    text_version, db::schema_version);
    if (!*there) return refused({FaultCode::bad_syntax, {}, "an empty text", wanted, {}});
    auto const version = [&](std::string_view name) { return number_of(line_, name); };
    if (!read_json_line(line, line_) || !says_workshop(line_) || !version("version") || !version("schema"))
      return refused({FaultCode::bad_syntax, {}, std::string(line.substr(0, 60)), wanted, {}});
    for (auto const& [name, known] : {std::pair<std::string_view, std::int64_t>{"version", text_version},
                                      {"schema", db::schema_version}}) {
      std::int64_t const said = *version(name);
      std::string const expected = fmt::format("1 to {}", known);
      if (said > known)
        return refused({FaultCode::newer_workshop,
                        {"", 0, 0, std::string(name)},
                        fmt::format("{} {}; this one knows {}", name, said, expected),
                        expected,
                        {}});
      if (said < 1)
        return refused(
            {FaultCode::out_of_range, {"", 0, 0, std::string(name)}, std::to_string(said), expected, {}});
    }
    return *version("schema");
  }

  // All lines up to the last, which counts them. A text with a fault is read on for others, but kept no more.
  Read<bool> rows() {
    std::string_view line;
    while (faults_.size() < most_faults) {
      auto const there = text_.next(line);
      if (!there) return tl::unexpected(there.error());
      if (!*there) {
        if (!counted_)
          fault({FaultCode::bad_syntax,
                 {},
                 "the end of the text",
                 fmt::format("it is cut off: a last line {{\"rows\":{}}} is missing", rows_),
                 {}});
        return true;
      }
      if (counted_)
        fault({FaultCode::bad_syntax,
               {},
               std::string(line.substr(0, 60)),
               "nothing after the count of rows",
               {}});
      else
        take(line);
    }
    return true;
  }

  void take(std::string_view line) {
    auto const read = read_json_line(line, line_);
    if (read && line_.within.empty()) return count();
    ++rows_;
    if (read)
      row();
    else
      fault(read.error().front());
  }

  void count() {
    counted_ = true;
    auto const said = number_of(line_, "rows");
    if (!said || line_.members.size() != 1)
      fault({FaultCode::missing_key, {"", 0, 0, "the table's name"}, "", "a line is {\"table\":{...}}", {}});
    else if (*said != rows_)
      fault({FaultCode::contradiction,
             {"", 0, 0, "rows"},
             fmt::format("{} rows", *said),
             fmt::format("{}, as many as stand above: a line is gone, or there twice", rows_),
             {}});
  }

  void row() {
    auto const found = tables_.find(line_.within);
    if (found == tables_.end()) return unknown("table", line_.within, table_names());
    db::WholeTable const& table = filling_->tables()[found->second];
    if (!cells_of(table) || !faults_.empty()) return;
    if (auto const added = filling_->add(found->second, cells_); !added) fault(added.error().front());
  }

  // The members of the line in the order of the table's columns, which is their own in what we wrote.
  bool cells_of(db::WholeTable const& table) {
    std::size_t const had = faults_.size();
    cells_.assign(table.columns.size(), nullptr);
    filled_.assign(table.columns.size(), false);
    for (std::size_t i = 0; i < line_.members.size(); ++i) {
      auto const& [name, value] = line_.members[i];
      std::size_t const at =
          i < table.columns.size() && table.columns[i].name == name ? i : column(table, name);
      if (at == table.columns.size())
        unknown("column", table.name + "." + name, column_names(table));
      else if (filled_[at])
        fault({FaultCode::contradiction, {"", 0, 0, name}, name, "each column once", {}});
      else
        set(table, at, value);
    }
    for (std::size_t i = 0; i < table.columns.size(); ++i)
      if (!filled_[i])
        fault({FaultCode::missing_key,
               {"", 0, 0, table.name + "." + table.columns[i].name},
               "",
               table.columns[i].words ? "words" : "a whole number",
               {}});
    return faults_.size() == had;
  }

  void set(db::WholeTable const& table, std::size_t at, JsonLine::Value const& value) {
    db::WholeColumn const& column = table.columns[at];
    filled_[at] = true;
    if (auto const* number = std::get_if<std::int64_t>(&value); number != nullptr && !column.words)
      cells_[at] = *number;
    else if (auto const* words = std::get_if<std::string>(&value); words != nullptr && column.words)
      cells_[at] = std::string_view(*words);
    else if (!std::holds_alternative<std::nullptr_t>(value) || !column.may_be_null)
      fault({FaultCode::wrong_type,
             {"", 0, 0, table.name + "." + column.name},
             table.name + "." + column.name,
             fmt::format("{}{}", column.words ? "words" : "a whole number",
                         column.may_be_null ? ", or null" : ""),
             {}});
  }

  static std::size_t column(db::WholeTable const& table, std::string_view name) {
    auto const at = std::ranges::find(table.columns, name, &db::WholeColumn::name);
    return static_cast<std::size_t>(at - table.columns.begin());
  }

  void unknown(std::string_view what, std::string found, std::vector<std::string_view> const& names) {
    std::string_view const last = std::string_view(found).substr(found.find('.') + 1);
    std::vector<std::string> near = nearest(last, names);
    fault({FaultCode::unknown_key,
           {"", 0, 0, found},
           found,
           fmt::format("there is no such {}", what),
           std::move(near)});
  }
  std::vector<std::string_view> table_names() const {
    std::vector<std::string_view> names;
    for (db::WholeTable const& table : filling_->tables()) names.emplace_back(table.name);
    return names;
  }
  static std::vector<std::string_view> column_names(db::WholeTable const& table) {
    std::vector<std::string_view> names;
    for (db::WholeColumn const& column : table.columns) names.emplace_back(column.name);
    return names;
  }

  TextLines& text_;
  std::string path_;
  std::optional<db::Filling> filling_;
  std::unordered_map<std::string, std::size_t> tables_;
  std::vector<Fault> faults_;
  JsonLine line_;
  std::vector<db::Cell> cells_;
  std::vector<bool> filled_;
  std::int64_t rows_ = 0;
  bool counted_ = false;
};

}  // namespace

std::int64_t write_workshop(db::Workshop& workshop, std::function<bool(std::string_view)> const& take) {
  std::string out = fmt::format("{{\"endband\":\"{}\",\"version\":{},\"schema\":{}}}\n", kind, text_version,
                                db::schema_version);
  std::int64_t rows = 0;
  bool wanted = true;
  db::each_row(workshop, [&](db::WholeTable const& table, std::span<db::Cell const> cells) {
    ++rows;
    if (!wanted) return;
    append_row(out, table, cells);
    if (out.size() < piece) return;
    wanted = take(out);
    out.clear();
  });
  out += fmt::format("{{\"rows\":{}}}\n", rows);
  if (wanted) take(out);
  return rows;
}

Read<WorkshopRead> read_workshop(TextLines& text, std::string const& path) {
  return Reader(text, path).read();
}

}  // namespace endband::cli
