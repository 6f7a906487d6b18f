// What a command shows to people, before any writer has chosen a width, a font or a file format. Every word
// is already in it; amounts are text. The terminal writer is the first of its writers.
#pragma once

#include "cli/document/drawing.h"

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace endband::cli {

struct Heading {
  int level = 1;  // 1: of the document, 2: of a section
  std::string text;
};

struct Paragraph {
  std::string text;
};

struct KeyValues {
  std::vector<std::pair<std::string, std::string>> rows;
};

enum class Align : std::uint8_t { left, right, decimal };

struct Column {
  std::string title;  // a column of money names its currency here, once
  Align align = Align::left;
  int priority = 0;   // on a narrow terminal the highest goes first; 0 is never dropped
  bool box = false;   // to write in by hand: its empty cells are boxes, on paper of 5 mm at least
  bool bars = false;  // of characters: left out on paper, where a figure stands for them
};

struct Row {
  std::vector<std::string> cells;
  bool total = false;  // set apart from the rows above it
};

struct Table {
  std::vector<Column> columns;
  std::vector<Row> rows;
  void add(std::vector<std::string> cells) { rows.push_back({std::move(cells), false}); }
  void add_total(std::vector<std::string> cells) { rows.push_back({std::move(cells), true}); }
};

// Without the columns that are for a terminal alone.
Table on_paper(Table const& table);

// Text that keeps its own lines: a description file, a formula.
struct Verbatim {
  std::string text;
};

enum class NoticeKind : std::uint8_t {
  note,     // worth knowing
  warning,  // look at it before you go on
  caution,  // of the bench: a knife, a fume, a flame
  next,     // the command that comes next; shown to a person at a terminal only
};
struct Notice {
  NoticeKind kind = NoticeKind::note;
  std::string text;
};

// Room to write by hand: a line above each label.
struct SignHere {
  std::vector<std::string> labels;  // "Place and date", "Signature"
};

// What follows begins a new page on paper.
struct PageBreak {};

// Copied, moved and ended in document.cpp alone: what a variant generates for that costs each file that makes
// a page a third of its compilation.
struct Block
    : std::variant<Heading, Paragraph, KeyValues, Table, Verbatim, Notice, Drawing, SignHere, PageBreak> {
  using variant::variant;
  Block(Block const&);
  Block(Block&&) noexcept;
  Block& operator=(Block const&);
  Block& operator=(Block&&) noexcept;
  ~Block();
};

struct Document {
  std::vector<Block> blocks;
  bool paper = false;  // a page to hand to somebody: kept to a page's width wherever it is written
  bool bench = false;  // paper that lies on the bench: letters of 11 pt at least, numbers larger, all black

  Document& heading(std::string text, int level = 1) { return add(Heading{level, std::move(text)}); }
  Document& paragraph(std::string text) { return add(Paragraph{std::move(text)}); }
  Document& notice(NoticeKind kind, std::string text) { return add(Notice{kind, std::move(text)}); }
  Document& next(std::string command) { return notice(NoticeKind::next, std::move(command)); }
  Document& add(Block block) {
    blocks.push_back(std::move(block));
    return *this;
  }
};

}  // namespace endband::cli
