#include "cli/document/terminal.h"

#include "cli/document/notice.h"
#include "cli/document/table_layout.h"
#include "cli/document/text.h"

#include <algorithm>
#include <string_view>

namespace endband::cli {
namespace {

constexpr std::size_t page_width = 80;
constexpr std::string_view bold = "\x1b[1m";
constexpr std::string_view accent = "\x1b[34m";
constexpr std::string_view plain = "\x1b[0m";

// What is a box on paper.
Table with_boxes(Table table) {
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    for (Row& row : table.rows)
      if (table.columns[c].box && row.cells.at(c).empty()) row.cells[c] = "[  ]";
  return table;
}

class Writer {
 public:
  Writer(TerminalStyle const& style, bool paper)
      : style_(style),
        fit_(style.person || paper),
        width_(paper ? std::min(style.width, page_width) : style.width) {}
  std::string take() { return std::move(out_); }

  void operator()(Heading const& heading) {
    space();
    for (std::string const& text : wrapped(printable(heading.text), width_)) line(styled(bold, text));
    if (heading.level == 1) space();
  }

  void operator()(Paragraph const& paragraph) {
    space();
    filled(printable(paragraph.text), "", "");
    space();
  }

  void operator()(KeyValues const& values) {
    std::size_t widest = 0;
    for (auto const& [key, value] : values.rows) widest = std::max(widest, display_width(key));
    std::string const hanging(widest + 2, ' ');
    for (auto const& [key, value] : values.rows)
      filled(printable(value), pad_right(printable(key), widest + 2), hanging);
    space();
  }

  void operator()(Table const& table) {
    if (table.rows.empty()) return;
    auto const lines = lay_out(with_boxes(table), fit_ ? width_ : 0);
    bool first = true;
    for (std::string const& text : lines) {
      line(first ? styled(bold, text) : text);
      first = false;
    }
    space();
  }

  // What goes to a file or a pipe keeps every byte; only a terminal would obey a control character.
  void operator()(Verbatim const& verbatim) {
    if (verbatim.text.empty()) return;
    if (style_.person) {
      std::string lines = verbatim.text;
      std::erase(lines, '\r');
      out_ += printable(lines, true);
    } else {
      out_ += verbatim.text;
    }
    if (!out_.empty() && out_.back() != '\n') out_ += '\n';
  }

  void operator()(Notice const& notice) {
    if (notice.kind == NoticeKind::next && !style_.person) return;
    std::string const label(notice_label(notice.kind));
    filled(printable(notice.text), label, std::string(label.size(), ' '), accent);
  }

  void operator()(SignHere const& sign) {
    space();
    std::string const rule(24, '_');
    std::string rules, labels;
    for (std::string const& label : sign.labels) {
      rules += rule + "  ";
      labels += pad_right(printable(label), rule.size() + 2);
    }
    line(rules);
    line(labels);
    space();
  }

  // A terminal draws nothing: the words of a drawing stand for it.
  void operator()(Drawing const& drawing) {
    space();
    filled(printable(drawing.title + ": " + drawing.words), "", "");
    space();
  }

  void operator()(PageBreak const&) { space(); }  // it has no pages

 private:
  std::string styled(std::string_view on, std::string text) const {
    if (!style_.colour || text.empty()) return text;
    return std::string(on) + text + std::string(plain);
  }

  std::vector<std::string> wrapped(std::string const& text, std::size_t width) const {
    return fit_ ? wrap(text, width) : std::vector<std::string>{text};
  }

  void line(std::string text) {
    while (text.ends_with(' ')) text.pop_back();
    out_ += text;
    out_ += '\n';
    wants_space_ = false;
  }

  // One empty line between blocks, none at the start, none twice.
  void space() {
    if (!out_.empty() && !out_.ends_with("\n\n")) wants_space_ = true;
    if (wants_space_) out_ += '\n';
    wants_space_ = false;
  }

  void filled(std::string const& text, std::string const& first, std::string const& hanging,
              std::string_view on = {}) {
    std::size_t const room = width_ > hanging.size() + 20 ? width_ - hanging.size() : 20;
    auto const lines = wrapped(text, room);
    for (std::size_t i = 0; i < lines.size(); ++i) line((i == 0 ? styled(on, first) : hanging) + lines[i]);
  }

  TerminalStyle style_;
  bool fit_;
  std::size_t width_;
  std::string out_;
  bool wants_space_ = false;
};

}  // namespace

std::string to_terminal(Document const& document, TerminalStyle const& style) {
  Writer writer(style, document.paper);
  for (Block const& block : document.blocks) std::visit(writer, block);
  std::string out = writer.take();
  while (out.ends_with("\n\n")) out.pop_back();
  return out;
}

}  // namespace endband::cli
