// Outlines of skins as a workshop can give them: widths along the backbone, corner points, an SVG path, or no
// more than an area. Micrometres; the backbone runs up, along y; what is made here begins at (0, 0) with its
// box.
#pragma once

#include "engine/cutting/geometry/geometry.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace endband::cutting {

constexpr std::int64_t largest_length = 10'000'000;  // 10 m

enum class OutlineWrong : std::uint8_t {
  few_corners,  // fewer than three
  too_large,    // a length or coordinate above 10 m
  no_area,
  crosses,         // edges `first` and `second` cross, touch or fold back
  flaw_outside,    // no part of it lies in the outline
  few_stations,    // fewer than two
  station_order,   // station `first` lies not above the one before
  negative_width,  // at station `first`
  path_empty,
  path_syntax,   // at character `first`: neither a command nor what the command takes
  path_number,   // at character `first`: a number that cannot be read
  path_start,    // the first command is not M or m; at character `first`
  path_open,     // the subpath that begins at character `first` does not return to its start
  path_corners,  // more than 10,000 corners, at character `first`
};
struct OutlineFault {
  OutlineWrong wrong;
  int first = 0,
      second = 0;  // edges by the index of their first corner, a station, or characters of the path, from 0
  int flaw = -1;   // the flaw that is wrong; -1: the outline
};

// Every fault of an outline and its flaws. A flaw may reach over the outline and over other flaws.
std::vector<OutlineFault> validate(Polygon const& outline, std::span<Polygon const> flaws);

// How far the skin reaches to the left and to the right of the backbone, `along` from its tail. Symmetric:
// give half of the whole width to each.
struct Station {
  std::int64_t along = 0, left = 0, right = 0;
};
tl::expected<Polygon, OutlineFault> outline_of(std::span<Station const> stations);
// The last corner may repeat the first.
tl::expected<Polygon, OutlineFault> outline_of(std::span<Point const> corners);

// A round flaw as a 24-gon that holds the whole disc: at most 0.9 % of the radius and 1 um more. radius > 0.
Polygon round_flaw(Point centre, std::int64_t radius);

struct DrawnSkin {
  Polygon outline;
  std::vector<Polygon> flaws;
};
// The data of an SVG path (the d attribute; SVG 1.1 section 8.3, all commands). The first subpath is the
// outline, the others are flaws; each is closed by Z or returns to its start. A user unit is num / den um.
// SVG counts y downwards, here it runs up. Curves become chords at most 0.2 mm away from them: inside where
// the curve bends outwards. Numbers are read without locale and rounded to the micrometre after scaling; no
// function is used that differs between machines. What it draws is not validated but for having three
// corners.
struct Scale {
  std::int64_t num = 1000, den = 1;
};
tl::expected<DrawnSkin, OutlineFault> svg_path(std::string_view data, Scale scale);

// A guess at a skin of which no more is known than its area, and perhaps the largest rectangle said to be
// usable: neck up, tail down, symmetric, of the asked area within 6 mm2 (up to 3 m on a side). Back, flank
// and belly are grades 2, 1, 0: the inner half of the width, to four fifths of it, and the edges.
struct DefaultSkin {
  Polygon outline;
  std::vector<Zone> zones;  // of grades 1 and 0; what lies in none is of grade 2
  int grade = 2;
  Box usable;                // a rectangle that it contains
  bool holds_usable = true;  // false: the asked rectangle is larger than the area; `usable` is smaller
};
// Less than 1 cm2 is no area. A side not given: such that the rectangle has 7/10 of the area; none given: 5
// to 4, the longer along the backbone.
tl::expected<DefaultSkin, OutlineFault> default_skin(std::int64_t area,
                                                     std::optional<std::int64_t> usable_height,
                                                     std::optional<std::int64_t> usable_width);

}  // namespace endband::cutting
