#include "cli/commands/shape_said.h"

#include "cli/commands/shape_text.h"
#include "cli/commands/svg_drawing.h"
#include "engine/cutting/geometry/outline.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

using cutting::OutlineFault;
using cutting::OutlineWrong;
using cutting::Point;
using cutting::Polygon;

constexpr std::string_view stations_example = "0 240, 250 230 240, 700 180 mm";
constexpr std::string_view corners_example = "0 0, 640 0, 600 480, 20 500 mm";
constexpr std::string_view flaw_example = "220 310 15 mm";

// Corners with what was said of them: a fault tells them so.
struct Ring {
  Polygon polygon;
  std::string said;                  // all of it
  std::vector<std::string> corners;  // empty: told by their millimetres
  std::string_view flag{};           // of what lies in the outline
  std::optional<Grade> grade{};      // of a zone; none: a flaw
};

std::string shortened(std::string_view text) {
  constexpr std::size_t most = 60;
  if (text.size() <= most) return std::string(text);
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
    --end;  // no half of a character
  return std::string(text.substr(0, end)) + " ...";
}

std::string corner(Ring const& ring, int index) {
  std::size_t const at = static_cast<std::size_t>(index) % ring.polygon.size();
  if (at < ring.corners.size()) return ring.corners[at];
  return fmt::format("{} {}", length_mm({ring.polygon[at].x}), length_mm({ring.polygon[at].y}));
}
std::string side(Ring const& ring, int first) {
  return fmt::format("{} to {}", corner(ring, first), corner(ring, first + 1));
}

class ShapeReader {
 public:
  explicit ShapeReader(ShapeTexts const& said) : said_(said) {}

  Read<endband::Shape> read() {
    if (said_.stations) read_stations(*said_.stations);
    if (said_.corners) read_corners(*said_.corners);
    if (said_.drawing) read_drawing(*said_.drawing);
    if (said_.flaw) read_rings("--flaw", *said_.flaw, std::nullopt);
    if (said_.flank) read_rings("--flank", *said_.flank, Grade::flank);
    if (said_.belly) read_rings("--belly", *said_.belly, Grade::belly);
    if (faults_.empty()) check();
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    endband::Shape shape{.outline = std::move(outline_.polygon), .flaws = {}, .zones = {}};
    for (Ring& ring : within_) {
      if (ring.grade)
        shape.zones.push_back({std::move(ring.polygon), static_cast<int>(*ring.grade)});
      else
        shape.flaws.push_back(std::move(ring.polygon));
    }
    return shape;
  }

 private:
  void add(FaultCode code, std::string_view flag, std::string_view found, std::string expected) {
    faults_.push_back({code, {{}, 0, 0, std::string(flag)}, shortened(found), std::move(expected), {}});
  }
  template <class T>
  bool take(Read<T> const& read, std::string_view flag) {
    if (read) return true;
    for (Fault fault : read.error()) {
      fault.where.field = flag;
      fault.found = shortened(fault.found);
      bool const told = std::ranges::any_of(faults_, [&](Fault const& other) {
        return other.where.field == flag && other.found == fault.found && other.code == fault.code;
      });
      if (!told) faults_.push_back(std::move(fault));
    }
    return false;
  }

  // --- widths along the backbone

  void read_stations(std::string_view text) {
    auto const groups = read_groups(text, stations_example);
    if (!take(groups, "--stations")) return;
    std::size_t const before = faults_.size();
    std::vector<cutting::Station> stations;
    for (std::size_t i = 0; i < groups->size(); ++i) {
      SaidGroup const& group = (*groups)[i];
      std::size_t const numbers = group.um.size();
      if (numbers != 2 && numbers != 3) {
        add(FaultCode::bad_value, "--stations", group.text,
            "a station: how far along, and how far to the left and to the right or how wide");
        continue;
      }
      std::int64_t const left = numbers == 3 ? group.um[1] : group.um[1] / 2;
      stations.push_back({group.um[0], left, numbers == 3 ? group.um[2] : group.um[1] - left});
      bool const an_end = i == 0 || i + 1 == groups->size();
      check_station(group, stations, an_end);
    }
    if (groups->size() < 2) add(FaultCode::bad_value, "--stations", text, "two stations or more");
    if (faults_.size() != before) return;
    outline_.said = text;
    std::int64_t const left = std::ranges::max_element(stations, {}, &cutting::Station::left)->left;
    shift_ = {left, -stations.front().along};
    take_outline(cutting::outline_of(stations), "--stations");
  }

  void check_station(SaidGroup const& group, std::vector<cutting::Station> const& stations, bool an_end) {
    cutting::Station const& at = stations.back();
    bool const below_nothing = std::ranges::any_of(group.um, [](std::int64_t um) { return um < 0; });
    if (below_nothing)
      add(FaultCode::out_of_range, "--stations", group.text, "0 or more, along and to either side");
    else if (at.left + at.right == 0 && !an_end)
      add(FaultCode::contradiction, "--stations", group.text,
          "a width above 0 between the ends: there the skin would fall in two");
    if (stations.size() > 1 && at.along <= stations[stations.size() - 2].along)
      add(FaultCode::contradiction, "--stations", group.text,
          "a station further along than the one before it: they rise from the tail to the neck");
  }

  // --- corners

  void read_corners(std::string_view text) {
    auto const groups = read_groups(text, corners_example);
    if (!take(groups, "--corners")) return;
    auto ring = ring_of(*groups, "--corners", text);
    if (!ring) return;
    outline_ = std::move(*ring);
    cutting::Box const box = cutting::box_of(outline_.polygon);
    shift_ = {-box.left, -box.bottom};
    take_outline(cutting::outline_of(outline_.polygon), "--corners");
  }

  std::optional<Ring> ring_of(SaidGroups const& groups, std::string_view flag, std::string_view text) {
    std::size_t const before = faults_.size();
    Ring ring{{}, std::string(text), {}};
    for (SaidGroup const& group : groups) {
      if (group.um.size() != 2) {
        add(FaultCode::bad_value, flag, group.text, "a corner: across and along, two numbers");
        continue;
      }
      ring.polygon.push_back({group.um[0], group.um[1]});
      ring.corners.push_back(group.text);
    }
    if (ring.polygon.size() > 3 && ring.polygon.front() == ring.polygon.back()) {
      ring.polygon.pop_back();
      ring.corners.pop_back();
    }
    if (groups.size() < 3) add(FaultCode::bad_value, flag, text, "three corners or more");
    if (faults_.size() == before) refuse_empty_sides(ring, flag);
    if (faults_.size() != before) return std::nullopt;
    return ring;
  }

  void refuse_empty_sides(Ring const& ring, std::string_view flag) {
    std::size_t const corners = ring.polygon.size();
    for (std::size_t i = 0; i < corners; ++i)
      if (ring.polygon[i] == ring.polygon[(i + 1) % corners])
        add(FaultCode::contradiction, flag, side(ring, static_cast<int>(i)),
            "two corners that differ: this side has no length");
  }

  void take_outline(tl::expected<Polygon, OutlineFault> outline, std::string_view flag) {
    if (outline)
      outline_.polygon = std::move(*outline);
    else
      tell(outline.error(), outline_, flag);
  }

  // --- a drawing

  void read_drawing(std::string const& text) {
    auto const unit = read_unit();
    auto path = first_path(text);
    if (!path) tell_drawing(std::move(path.error()));
    if (!unit || !path) return;
    auto skin = cutting::svg_path(path->data, {unit->num(), unit->den()});
    if (!skin) return tell_path(skin.error(), *path);
    outline_ = {std::move(skin->outline), said_.drawing_name, {}};
    int part = 1;
    for (Polygon& flaw : skin->flaws)
      within_.push_back({std::move(flaw), fmt::format("part {} of the path", ++part), {}, "--outline", {}});
    drawn_ = within_.size();
  }

  std::optional<Ratio> read_unit() {
    if (!said_.svg_unit) {
      add(FaultCode::contradiction, "--outline", said_.drawing_name,
          "--svg-unit with it, how long one unit of the drawing is: \"1 mm\"");
      return std::nullopt;
    }
    auto const unit = read_svg_unit(*said_.svg_unit);
    return take(unit, "--svg-unit") ? std::optional(*unit) : std::nullopt;
  }

  void tell_drawing(std::vector<Fault> faults) {
    for (Fault& fault : faults) {
      fault.where.field = "--outline";
      if (fault.where.line > 0) {
        fault.where.source = said_.drawing_name;
        fault.expected += " (--outline)";
      } else {
        fault.found = said_.drawing_name;
      }
      faults_.push_back(std::move(fault));
    }
  }

  void tell_path(OutlineFault const& wrong, DrawnPath const& path) {
    std::string_view const data = path.data;
    std::size_t const first = std::min(static_cast<std::size_t>(std::max(wrong.first, 0)), data.size());
    std::string_view const word = data.substr(first, data.find_first_of(" ,\t\r\n", first + 1) - first);
    std::string const character = fmt::format(", at character {} of the path", first + 1);
    auto const at_place = [&](FaultCode code, std::string expected) {
      Fault fault{code, place_in(*said_.drawing, path.at + first), std::string(word.substr(0, 20)), {}, {}};
      fault.expected = std::move(expected) + character;
      tell_drawing({std::move(fault)});
    };
    switch (wrong.wrong) {
      case OutlineWrong::path_syntax:
        return at_place(FaultCode::bad_syntax, "a letter of a path or the numbers it takes were due");
      case OutlineWrong::path_number:
        return at_place(FaultCode::bad_syntax, "a number that can be read was due");
      case OutlineWrong::path_start: return at_place(FaultCode::bad_syntax, "a path begins with M or m");
      case OutlineWrong::path_open:
        return at_place(FaultCode::contradiction,
                        "a closed part: it ends with Z, or returns to where it began");
      case OutlineWrong::path_corners:
        return at_place(FaultCode::contradiction,
                        "at most 10000 corners, curves counted as the chords they take");
      case OutlineWrong::path_empty:
        return add(FaultCode::bad_value, "--outline", said_.drawing_name,
                   "a drawing whose first path draws something");
      default: return tell(wrong, {{}, said_.drawing_name, {}}, "--outline");
    }
  }

  // --- flaws and zones

  void read_rings(std::string_view flag, std::string_view text, std::optional<Grade> grade) {
    auto const lists = read_lists(text, flaw_example);
    if (!take(lists, flag)) return;
    for (SaidGroups const& groups : *lists) {
      std::string said;
      for (SaidGroup const& group : groups) said += (said.empty() ? "" : ", ") + group.text;
      if (groups.size() == 1 && groups.front().um.size() == 3)
        add_round(groups.front().um, said, flag, grade);
      else if (groups.size() < 3)
        add(FaultCode::bad_value, flag, said, "across, along and how wide it is, or three corners or more");
      else if (auto ring = ring_of(groups, flag, said)) {
        ring->flag = flag;
        ring->grade = grade;
        within_.push_back(std::move(*ring));
      }
    }
  }

  void add_round(std::vector<std::int64_t> const& um, std::string const& said, std::string_view flag,
                 std::optional<Grade> grade) {
    if (um[2] <= 0) return add(FaultCode::out_of_range, flag, said, "wider than nothing");
    within_.push_back({cutting::round_flaw({um[0], um[1]}, (um[2] + 1) / 2), said, {}, flag, grade});
  }

  // --- all of it

  void check() {
    std::vector<Polygon> within;
    for (std::size_t i = 0; i < within_.size(); ++i) {
      if (i >= drawn_) within_[i].polygon = cutting::moved(std::move(within_[i].polygon), shift_);
      within.push_back(within_[i].polygon);
    }
    std::string_view const flag = said_.drawing ? "--outline" : said_.corners ? "--corners" : "--stations";
    for (OutlineFault const& wrong : cutting::validate(outline_.polygon, within)) {
      if (wrong.flaw < 0) {
        tell(wrong, outline_, flag);
      } else {
        Ring const& ring = within_[static_cast<std::size_t>(wrong.flaw)];
        tell(wrong, ring, ring.flag);
      }
    }
  }

  void tell(OutlineFault const& wrong, Ring const& ring, std::string_view flag) {
    switch (wrong.wrong) {
      case OutlineWrong::crosses:
        return add(FaultCode::contradiction, flag, side(ring, wrong.first),
                   fmt::format("a side that neither crosses nor touches the one from {}{}; the corners go "
                               "round in order",
                               side(ring, wrong.second), ring.corners.empty() ? ", in mm" : ""));
      case OutlineWrong::flaw_outside:
        return add(FaultCode::contradiction, flag, ring.said,
                   ring.grade ? "a part of the skin, at least in part on it"
                              : "a flaw that lies in the skin, at least with a part");
      case OutlineWrong::too_large:
        return add(FaultCode::out_of_range, flag, ring.said, "at most 10 m, along and across");
      case OutlineWrong::few_corners:
        return add(FaultCode::bad_value, flag, ring.said, "three corners or more");
      default:
        return add(FaultCode::contradiction, flag, ring.said,
                   "an outline with something in it: its corners lie on one line");
    }
  }

  ShapeTexts const& said_;
  Ring outline_;
  std::vector<Ring> within_;  // flaws and zones
  std::size_t drawn_ = 0;     // the first of them
  Point shift_;               // from what was said to an outline that begins at 0, 0
  std::vector<Fault> faults_;
};

}  // namespace

Read<endband::Shape> read_shape(ShapeTexts const& said) { return ShapeReader(said).read(); }

}  // namespace endband::cli
