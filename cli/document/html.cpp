#include "cli/document/html.h"

#include "cli/document/markup.h"
#include "cli/document/notice.h"
#include "cli/document/svg.h"
#include "cli/document/text.h"

#include <fmt/format.h>

#include <string_view>
#include <variant>

namespace endband::cli {
namespace {

// Ink 17:1 and grey 7:1 on white (WCAG 2.2 asks for 4.5:1). Lengths are of the printed page.
constexpr std::string_view style = R"(
:root { color-scheme: light }
* { box-sizing: border-box }
body { margin: 0 auto; padding: 8mm 5mm; max-width: 178mm; background: #fff; color: #1b1b1b;
  font: 11pt/1.4 "EB Garamond", Garamond, "Palatino Linotype", "Book Antiqua", Georgia, serif;
  font-variant-numeric: lining-nums tabular-nums; overflow-wrap: break-word }
h1 { font-size: 19pt; font-weight: 500; margin: 7mm 0 4mm }
h2 { font-size: 13pt; font-weight: 700; margin: 6mm 0 2mm; break-after: avoid }
h3 { font-size: 11.5pt; font-weight: 700; margin: 4mm 0 1.5mm; break-after: avoid }
p { margin: 0 0 3mm; orphans: 3; widows: 3 }
pre { font: inherit; white-space: pre-wrap; margin: 0 0 3mm }
.table { overflow-x: auto; margin: 0 0 5mm }
table { border-collapse: collapse; width: 100% }
th, td { text-align: left; vertical-align: top; padding: 1.1mm 3mm 1.1mm 0 }
th:last-child, td:last-child { padding-right: 0 }
thead { display: table-header-group }
thead th { font-weight: 700; border-bottom: 0.3mm solid #1b1b1b }
tbody tr { break-inside: avoid; border-bottom: 0.1mm solid #c9c9c9 }
tbody tr.total { border-top: 0.3mm solid #1b1b1b; border-bottom: 0.3mm solid #1b1b1b; font-weight: 700 }
.n { text-align: right; white-space: nowrap }
.facts th { font-weight: 400; color: #595959; width: 1%; white-space: nowrap; padding-right: 6mm }
.facts tr, .sign tr { border: 0 }
.notice { border-left: 0.8mm solid #767676; padding-left: 3mm; break-inside: avoid }
.logo { float: right; max-width: 60mm; max-height: 22mm; margin: 0 0 3mm 6mm }
.mark { border: 0.5mm solid #1b1b1b; padding: 1.5mm 3mm; font-weight: 700; letter-spacing: 0.06em }
.sign td { height: 17mm; vertical-align: bottom; border-bottom: 0.2mm solid #1b1b1b }
.sign th { font-weight: 400; color: #595959; font-size: 9.5pt }
figure { margin: 0 0 5mm; break-inside: avoid }
figure svg { display: block; max-width: 100%; height: auto }
figcaption { color: #595959; font-size: 9.5pt }
td.box { width: 1%; vertical-align: middle }
td.box span { display: block; min-width: 7mm; height: 7mm; border: 0.35mm solid #1b1b1b }
.break { break-after: page }
figure.true-size { overflow-x: auto }
figure.true-size svg { max-width: none }
@media print { body { padding: 0; max-width: none } .table, figure.true-size { overflow: visible } }
)";

// Paper for the bench is read from where one stands, and nothing on it is grey.
constexpr std::string_view bench_style = R"(
body { font-size: 12pt; line-height: 1.3; color: #000 }
h1 { font-size: 22pt } h2 { font-size: 16pt }
th, td { padding: 1.4mm 3mm 1.4mm 0 }
td, .facts td { vertical-align: middle }
.facts th { color: #000 }
.facts td, td.n { font-size: 14pt }
.sign th { color: #000; font-size: 11pt }
thead th, tbody tr, tbody tr.total { border-color: #000 }
.notice, .mark, .sign td, td.box span { border-color: #000 }
td.box { min-width: 11mm }
td.one { white-space: nowrap }
figcaption { display: none }
)";

std::string text_of(std::string_view given) { return escaped(given, true); }

// Within a string of a style sheet.
std::string css_string(std::string_view given) {
  std::string out;
  for (char const c : printable(given)) {
    if (c == '"' || c == '\\' || c == '<')
      out += fmt::format("\\{:x} ", static_cast<unsigned char>(c));
    else
      out += c;
  }
  return out;
}

// Within HTML a picture needs no name space, whose address would be the only one in the file.
std::string without_namespace(std::string svg) {
  constexpr std::string_view name = " xmlns=\"http://www.w3.org/2000/svg\"";
  if (std::size_t const at = svg.find(name); at != std::string::npos) svg.erase(at, name.size());
  return svg;
}

class Writer {
 public:
  explicit Writer(bool bench) : bench_(bench) {}
  std::string take() { return std::move(out_); }

  void operator()(Heading const& heading) {
    out_ += fmt::format("<h{0}>{1}</h{0}>\n", heading.level, text_of(heading.text));
  }

  void operator()(Paragraph const& paragraph) { out_ += fmt::format("<p>{}</p>\n", text_of(paragraph.text)); }

  void operator()(KeyValues const& values) {
    if (values.rows.empty()) return;
    out_ += "<div class=\"table\"><table class=\"facts\"><tbody>\n";
    for (auto const& row : values.rows)
      out_ += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", text_of(row.first),
                          lines(row.second));
    out_ += "</tbody></table></div>\n";
  }

  void operator()(Table const& whole) {
    if (whole.rows.empty()) return;
    Table const table = on_paper(whole);
    out_ += "<div class=\"table\"><table><thead><tr>";
    for (Column const& column : table.columns)
      out_ += fmt::format("<th scope=\"col\"{}>{}</th>", number(column), text_of(column.title));
    out_ += "</tr></thead><tbody>\n";
    for (Row const& row : table.rows) write(table, row);
    out_ += "</tbody></table></div>\n";
  }

  void operator()(Verbatim const& verbatim) {
    if (!verbatim.text.empty()) out_ += fmt::format("<pre>{}</pre>\n", text_of(verbatim.text));
  }

  // What to type next is of no use on paper.
  void operator()(Notice const& notice) {
    if (notice.kind == NoticeKind::next) return;
    out_ += fmt::format("<p class=\"notice\">{}{}</p>\n", notice_label(notice.kind), text_of(notice.text));
  }

  void operator()(SignHere const& sign) {
    out_ += "<div class=\"table\"><table class=\"sign\"><tbody><tr>";
    for (std::size_t i = 0; i < sign.labels.size(); ++i) out_ += "<td></td>";
    out_ += "</tr><tr>";
    for (std::string const& label : sign.labels)
      out_ += fmt::format("<th scope=\"col\">{}</th>", text_of(label));
    out_ += "</tr></tbody></table></div>\n";
  }

  void operator()(Drawing const& drawing) {
    std::string const caption =
        drawing.titled ? "" : fmt::format("<figcaption>{}</figcaption>\n", text_of(drawing.title));
    out_ += fmt::format("<figure{}>\n{}{}</figure>\n", drawing.true_size ? " class=\"true-size\"" : "",
                        without_namespace(to_svg(drawing, bench_)), caption);
  }

  void operator()(PageBreak const&) { out_ += "<div class=\"break\"></div>\n"; }

 private:
  static std::string_view number(Column const& column) {
    return column.align == Align::left ? "" : " class=\"n\"";
  }

  // On the bench a code or a date is never broken at its hyphen: it is one word to read and to type.
  std::string_view number(Column const& column, std::string const& cell) const {
    bool const one_word = bench_ && cell.find_first_of(" \n") == std::string::npos;
    return column.align == Align::left && one_word ? " class=\"one\"" : number(column);
  }

  static std::string lines(std::string const& text) {
    std::string out;
    for (char const c : text_of(text)) {
      if (c == '\n')
        out += "<br>";
      else
        out += c;
    }
    return out;
  }

  void write(Table const& table, Row const& row) {
    out_ += row.total ? "<tr class=\"total\">" : "<tr>";
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      Column const& column = table.columns.at(i);
      if (column.box && row.cells[i].empty())
        out_ += "<td class=\"box\"><span></span></td>";
      else
        out_ += fmt::format("<td{}>{}</td>", number(column, row.cells[i]), lines(row.cells[i]));
    }
    out_ += "</tr>\n";
  }

  bool bench_;
  std::string out_;
};

}  // namespace

std::string to_html(Document const& document, Page const& page) {
  Writer writer(document.bench);
  for (Block const& block : document.blocks) std::visit(writer, block);
  std::string const mark =
      page.mark.empty() ? "" : fmt::format("<p class=\"mark\">{}</p>\n", text_of(page.mark));
  // What it shows is said in words beside it: the workshop's name.
  std::string const logo =
      page.logo.empty() ? ""
                        : fmt::format("<img class=\"logo\" alt=\"\" src=\"data:image/png;base64,{}\">\n",
                                      base64(page.logo));
  std::string const foot =
      document.bench ? "font: 11pt serif; color: #000" : "font: 8.5pt serif; color: #444";
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{0}</title>\n<style>"
      "@page {{ size: {1}; margin: 18mm 16mm 20mm; @bottom-left {{ content: \"{2}\"; {3} }} "
      "@bottom-right {{ content: \"{8} \" counter(page) \" {9} \" counter(pages); {3} }} }}"
      "{4}{5}</style>\n</head>\n<body>\n<main>\n{6}{7}</main>\n</body>\n</html>\n",
      text_of(page.title), page.letter ? "letter" : "A4", css_string(page.foot), foot, style,
      document.bench ? bench_style : "", mark + logo, writer.take(), css_string(page.page),
      css_string(page.page_of));
}

}  // namespace endband::cli
