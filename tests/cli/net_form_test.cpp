// The sums of an open form, at every price: EN 16931-1, BR-CO-10 and BR-CO-13 to BR-CO-17.
#include "cli/forms/net_form.h"

#include "tests/cases.h"

#include <doctest/doctest.h>

#include <array>

using namespace endband;
using namespace endband::cli;

namespace {

Currency const euro = read_currency("EUR").value();
Money cents(std::int64_t minor) { return {minor, euro}; }

// Two components and carriage at one rate; all that the buyer sees.
BuyerQuote quote_of(std::int64_t goods, std::int64_t discount, std::int64_t carriage, TaxMode mode,
                    Ratio rate) {
  BuyerQuote quote;
  quote.lines = {{Component::text_block, cents(goods / 3)}, {Component::binding, cents(goods - goods / 3)}};
  quote.discount_shown = cents(discount);
  quote.goods_shown = cents(goods - discount);
  quote.carriage_shown = cents(carriage);
  quote.tax_mode = mode;
  quote.tax_rate = rate;
  Money const whole = cents(goods - discount + carriage);
  quote.tax = mode == TaxMode::included ? tax_within(whole, rate) : tax_added(whole, rate);
  quote.taxed = {{rate, quote.goods_shown, quote.carriage_shown, quote.tax}};
  quote.total = mode == TaxMode::included ? whole : whole + quote.tax;
  return quote;
}

bool adds_up(NetForm const& form) {
  Money lines = cents(0), tax = cents(0), net = cents(0);
  for (NetLine const& line : form.lines) lines += line.net;
  for (NetRate const& rate : form.rates) {
    tax += rate.tax;
    net += rate.net;
    if (rate.tax != tax_added(rate.net, rate.rate)) return false;
  }
  return lines == form.of_lines && tax == form.tax && net == form.without_tax &&
         form.without_tax == form.of_lines - form.of_allowances + form.of_charges &&
         form.with_tax == form.without_tax + form.tax && form.to_pay == form.with_tax + form.rounding;
}

// Under a sanitizer, which sees at once what it sees, some of the prices.
constexpr std::int64_t apart = testing::sanitized ? 41 : 1;

}  // namespace

TEST_CASE("every price to 1000.00 with its tax included adds up, a minor unit being rounded at most") {
  for (std::int64_t percent : {5, 7, 19, 20, 21, 25}) {
    std::array<std::int64_t, 3> off{};  // -1, 0, 1
    for (std::int64_t price = 1; price <= 100'000; price += apart) {
      NetForm const form =
          net_form(quote_of(price, 0, 0, TaxMode::included, {percent, 100}), PaperLevel::components);
      bool const near = form.rounding.minor >= -1 && form.rounding.minor <= 1;
      if (!near || !adds_up(form) || form.to_pay != cents(price)) FAIL_CHECK(percent, " %, ", price);
      if (near) ++off[static_cast<std::size_t>(form.rounding.minor + 1)];
    }
    // Of the sums n + round(n r) every (1 + r)/r-th or so is left out, and only those need a rounding.
    CHECK(off[0] + off[2] > 0);
    CHECK(off[1] > 70'000 / apart);
    for (std::int64_t net = 1, gross = 0; net < 80'000; net += apart) {
      gross = net + tax_added(cents(net), {percent, 100}).minor;
      NetForm const form =
          net_form(quote_of(gross, 0, 0, TaxMode::included, {percent, 100}), PaperLevel::one_price);
      if (form.rounding.minor != 0 || form.without_tax != cents(net)) FAIL_CHECK(percent, " %, net ", net);
    }
  }
}

TEST_CASE("with a discount and carriage it adds up too, and tax that is added is what the paper says") {
  for (std::int64_t price = 1; price <= 100'000; price += 37)
    for (TaxMode const mode : {TaxMode::included, TaxMode::added})
      for (std::int64_t const part : {8, 3, 1}) {
        BuyerQuote const quote = quote_of(price, price / part, 777, mode, {11, 200});
        NetForm const form = net_form(quote, PaperLevel::components);
        CHECK(adds_up(form));
        CHECK(form.lines.size() == 2);
        CHECK(form.to_pay == quote.total);
        if (mode == TaxMode::added) {
          CHECK(form.tax == quote.tax);
          CHECK(form.rounding == cents(0));
          CHECK(form.lines[1].net == quote.lines[1].shown);
        }
      }
}

TEST_CASE("a line that bears a rate of which nothing was taxed is a mistake of ours") {
  BuyerQuote quote = quote_of(1000, 0, 0, TaxMode::included, {19, 100});
  quote.tax_of_lines = {{Component::binding, "reduced", {7, 100}}};
  CHECK_THROWS_AS(net_form(quote, PaperLevel::components), std::logic_error);
}
