// The bindings that a bench makes. A binding is one row: the ways it is usually made, those it refuses with
// the sentence the user sees, the parts it cannot have, and the practice it brings. Nothing after `resolve`
// asks which binding it was.
#pragma once

#include "engine/book/way.h"

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

namespace endband {

struct RefusedWay {
  Ways ways;
  std::string_view because;
};
struct RefusedPart {
  Part part;
  std::string_view because;
};

// The parts that are there without being asked for.
enum class Body : std::uint8_t {
  book,      // text block, sewing, spine, cover, and boards unless it has none
  box_alone  // nothing but the box
};

struct Style {
  std::string_view name;  // "raised-cords"; the name of its plain model too
  std::string_view what;  // "a laced-on binding on raised cords"
  Body body = Body::book;
  Ways usual;  // one of each axis
  std::span<RefusedWay const> refused_ways;
  std::span<RefusedPart const> refused_parts;
  std::string_view practice;  // what is done when nobody says otherwise: a description text

  // Why not, or empty: this binding may have it.
  std::string_view refuses(Way way) const;
  std::string_view refuses(Part part) const;
};
std::span<Style const> styles();
Style const* style_named(std::string_view name);  // nullptr: there is none

// A way of one axis that brings a way of another with it, unless that one is said: boards in a case have a
// loose back.
struct Follows {
  Way way;
  Ways brings;
};
std::span<Follows const> following_ways();

// Ways that no book can have together.
struct Excludes {
  Way way;
  Ways never;
  std::string_view because;
};
std::span<Excludes const> excluded_ways();

}  // namespace endband
