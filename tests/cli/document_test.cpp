// Documents as the terminal writer writes them.
#include "cli/document/document.h"

#include "cli/document/json.h"
#include "cli/document/terminal.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::cli;

namespace {

Table prices() {
  Table table{{{"What"}, {"Remark", Align::left, 2}, {"EUR", Align::decimal}}, {}};
  table.add({"leather", "by the skin", "61.00"});
  table.add({"a small sundry of some kind", "", "1234.5"});
  table.add_total({"in all", "", "1295.50"});
  return table;
}

std::string written(Block block, TerminalStyle const& style = {}) {
  Document document;
  document.add(std::move(block));
  return to_terminal(document, style);
}

}  // namespace

TEST_CASE("amounts stand with point under point, and a total under a stroke") {
  CHECK(written(prices()) ==
        "What                         Remark           EUR\n"
        "leather                      by the skin    61.00\n"
        "a small sundry of some kind               1234.5\n"
        "                                          -------\n"
        "in all                                    1295.50\n");
}

TEST_CASE(
    "on a narrow terminal the least important column goes first and then the longest words are wrapped") {
  CHECK(written(prices(), {.width = 30, .person = true}) ==
        "What                       EUR\n"
        "leather                  61.00\n"
        "a small sundry of      1234.5\n"
        "some kind\n"
        "                       -------\n"
        "in all                 1295.50\n");
}

TEST_CASE("what is no terminal gets every column whole") {
  CHECK(written(prices(), {.width = 30, .person = false}) == written(prices()));
}

TEST_CASE("a paper keeps to its page wherever it is written") {
  Document document;
  document.paper = true;
  document.paragraph(std::string(60, 'a') + " " + std::string(60, 'b'));
  CHECK(to_terminal(document, {.width = 200}) == std::string(60, 'a') + "\n" + std::string(60, 'b') + "\n");
}

TEST_CASE("the next command is told to a person at a terminal only") {
  CHECK(written(Notice{NoticeKind::next, "endband quote show 1"}).empty());
  CHECK(written(Notice{NoticeKind::next, "endband quote show 1"}, {.person = true}) ==
        "Next: endband quote show 1\n");
}

TEST_CASE("a drawing is told in its words where nothing can be drawn") {
  CHECK(written(Drawing{
            .title = "Cover leather", .words = "357 mm high, 523 mm wide", .width = 523, .height = 357}) ==
        "Cover leather: 357 mm high, 523 mm wide\n");
}

TEST_CASE("colour tells nothing that the text does not") {
  Notice const notice{NoticeKind::warning, "the swell is small"};
  std::string coloured = written(notice, {.colour = true});
  CHECK(coloured.find('\x1b') != std::string::npos);
  for (std::size_t at = 0; (at = coloured.find('\x1b')) != std::string::npos;)
    coloured.erase(at, coloured.find('m', at) - at + 1);
  CHECK(coloured == written(notice));
}

TEST_CASE("JSON keeps the order of keys and shows what is not UTF-8 as a sign") {
  CHECK(json_text(Json::Object{{"b", 1}, {"a", Json::Array{true, nullptr, "x"}}}, false) ==
        "{\"b\":1,\"a\":[true,null,\"x\"]}\n");
  CHECK(json_text(Json("\xFF"), false) == "\"\xEF\xBF\xBD\"\n");
}

TEST_CASE("money and amounts in JSON name their unit") {
  CHECK(json_text(money_json({1250, read_currency("EUR").value()}), false) ==
        "{\"amount\":\"12.50\",\"currency\":\"EUR\"}\n");
  CHECK(json_text(amount_json({Dimension::area, 7}), false) == "{\"area_um2\":7}\n");
}
