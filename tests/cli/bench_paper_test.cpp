// What paper for the bench needs of the writers: boxes, new pages, black, and drawings that keep their size.
#include "cli/document/html.h"
#include "cli/document/svg.h"
#include "cli/document/terminal.h"

#include <doctest/doctest.h>

#include <string>

using namespace endband::cli;

namespace {

bool has(std::string const& text, std::string const& part) { return text.find(part) != std::string::npos; }

Table steps() {
  Table table{{{"Done", Align::left, 0, true}, {"Step"}}, {}};
  table.add({"", "sew"});
  table.add({"yes", "glue"});
  return table;
}

Document sheet(bool bench) {
  Document document;
  document.bench = bench;
  Drawing drawing{.title = "Stations", .name = "stations", .shapes = {Segment{{0, 0}, {1, 1}, Pen::accent}}};
  drawing.true_size = true;
  frame(drawing, 1);
  document.add(steps()).add(PageBreak{}).add(std::move(drawing));
  return document;
}

}  // namespace

TEST_CASE("an empty cell to write in is a box, one that is written in is not") {
  std::string const html = to_html(sheet(true), {.title = "Sheet"});
  CHECK(has(html, "<td class=\"box\"><span></span></td><td class=\"one\">sew</td>"));
  CHECK(has(html, "<td class=\"one\">yes</td><td class=\"one\">glue</td>"));
  std::string const text = to_terminal(sheet(true), {});
  CHECK(has(text, "[  ]  sew"));
  CHECK(has(text, "yes   glue"));
}

TEST_CASE("a new page begins where it is asked for, and a template is never shrunk") {
  std::string const html = to_html(sheet(true), {.title = "Sheet"});
  CHECK(has(html, "</table></div>\n<div class=\"break\"></div>\n<figure class=\"true-size\">"));
  CHECK(has(html, "figure.true-size svg { max-width: none }"));
}

TEST_CASE("paper for the bench is black, other paper keeps its one colour") {
  CHECK_FALSE(has(to_html(sheet(true), {.title = "Sheet"}), "#0072B2"));
  CHECK(has(to_html(sheet(false), {.title = "Sheet"}), "#0072B2"));
  CHECK(has(to_html(sheet(true), {.title = "Sheet"}), "font-size: 12pt"));
  CHECK_FALSE(has(to_html(sheet(false), {.title = "Sheet"}), "font-size: 12pt"));
}
