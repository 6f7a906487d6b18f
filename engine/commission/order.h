// What a quote says beside its price: what one copy and the next one cost, between what repairs may lie, how
// large each volume of a set is, and what the customer left with the workshop.
#pragma once

#include "engine/book/structure.h"
#include "engine/labour/labour.h"
#include "engine/pricing/pricing.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// So many copies at the goal of the quote, without carriage.
struct CopyPrice {
  int copies = 1;
  Money shown;  // as the buyer sees it: with tax when tax is included
  Money cost;   // full cost
  Ratio seconds;
};

// Repairs cannot be known before the work is open: what they are quoted at, and what they would be if each of
// their steps took its low or its high time, all at the goal of the quote.
struct RepairRange {
  Ratio ceiling_share;      // over the likely price
  Money low, likely, high;  // as the buyer sees them
  Money ceiling;            // likely x (1 + share), to the price point at or above
};

struct VolumeMade {  // of a set
  std::string title;
  Length height, width, thickness;  // closed
  std::int64_t pages = 0, sections = 0;
  Mass mass;
};

// The day of which the buyer is told that the book can be sent by then, and how sure that is. It counts from
// the day on which the customer's word is there.
struct Promise {
  Date starts;
  std::optional<Date> asked_by;  // the day the customer asked for
  Date earliest;                 // were everything to take its low time
  Date half, four_fifths, sure;  // 50, 80, 95 %
  friend bool operator==(Promise const&, Promise const&) = default;
};

// What a simulated contingency was simulated with.
struct SimulatedWith {
  std::int64_t runs = 0, seed = 0;
  Ratio confidence;
  friend bool operator==(SimulatedWith const&, SimulatedWith const&) = default;
};

// Why a book is, or is not, made to order: what a consumer may do with it follows from that.
enum class MadeTo : std::uint8_t {
  spec,      // to the customer's own measures, drawing or text block
  personal,  // made the customer's own: initials, names, photographs
  options,   // picked from what the workshop offers
  stock,     // finished already
  business   // for somebody who is no consumer
};
std::string_view made_to_name(MadeTo made_to);
struct MadeToOrder {
  MadeTo what = MadeTo::spec;
  std::string because;
  friend bool operator==(MadeToOrder const&, MadeToOrder const&) = default;
};

// What the book would be otherwise: the differences of the whole book, computed anew, from the one described.
struct OptionPrice {
  std::string words, either;
  Money shown;  // as the buyer sees it
  Money cost, left;
  Ratio seconds;
  friend bool operator==(OptionPrice const&, OptionPrice const&) = default;
};

// How its carriage was found.
struct SentBy {
  std::string service;
  std::int64_t version = 0;  // of the service's table
  std::string country;
  Mass mass, volumetric, counted;
  Money price, insurance, insured;
  friend bool operator==(SentBy const&, SentBy const&) = default;
};

struct InCustody {
  std::string what, condition;
  std::optional<Money> declared;  // the customer's word; no value of ours
};

// The repairs of an offer, and what they would be at their low and high times. None where nothing is
// repaired. Faults as of `offer`. Throws Overflow.
struct RepairTerms {
  Bill const& bill;
  Work const& work;
  std::vector<Outside> const& outside;
  ShopRules const& shop;
  Delivery const& delivery;
  SellingRules const& selling;
  Goal const& goal;
};
Read<std::optional<RepairRange>> repair_range(RepairTerms const& terms, Offer const& offered,
                                              Ratio ceiling_share);

}  // namespace endband
