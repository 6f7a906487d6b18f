// Polygons on a strip of given width, as short as may be: skins of one outline are filled, their length
// halved in on. A jigsaw that fills a square (a board and no length known) is one filling of that square.
#include "tests/bench/cutting/skin_lines.h"

#include <cmath>

namespace endband::cutting::bench {
namespace {

constexpr int probes = 8;

// So that the strip is some hundred millimetres wide: what the raster of a skin is made for.
std::int64_t scale_for(double width) {
  std::int64_t scale = 1;
  while (width * static_cast<double>(scale) < 100'000) scale *= 10;
  return scale;
}

Skin strip(double length, double width, std::int64_t scale) {
  Skin skin;
  skin.outline = rectangle(std::llround(length * static_cast<double>(scale)),
                           std::llround(width * static_cast<double>(scale)));
  return skin;
}

struct Probe {
  Skin skin;
  Filled filled;
  double length = 0;
};

class Search {
 public:
  Search(Json const& instance, std::vector<SkinPiece> const& pieces, std::int64_t scale,
         Budgets const& budgets)
      : pieces_(pieces), scale_(scale), width_(instance["strip_width"].get<double>()), budgets_(budgets) {
    double const unit = static_cast<double>(scale);
    area_ = total_area(pieces) / (2 * unit * unit);
  }

  // All pieces placed at this length?
  bool at(double length, std::int64_t parts) {
    Probe probe{strip(length, width_, scale_), {}, length};
    probe.filled = fill_skin(probe.skin, pieces_, 0, budgets_.of(Solver::skins, parts));
    work_ += probe.filled.work;
    bool const all = probe.filled.all;
    if (all || !best_.filled.all) best_ = std::move(probe);
    return all;
  }
  // By density, from 40 % on; the first probes find something that fits.
  void halve() {
    double dense = 1, loose = 0.4;
    for (int i = 0; i < probes; ++i) {
      double const density = i == 0 ? 0.6 : (dense + loose) / 2;
      (at(area_ / (density * width_), probes) ? loose : dense) = density;
    }
  }

  Probe const& best() const { return best_; }
  double area() const { return area_; }
  double width() const { return width_; }
  std::int64_t work() const { return work_; }

 private:
  std::vector<SkinPiece> const& pieces_;
  std::int64_t scale_;
  double width_;
  Budgets const& budgets_;
  double area_ = 0;
  Probe best_;
  std::int64_t work_ = 0;
};

}  // namespace

std::vector<Result> run_strip(Json const& instance, Budgets const& budgets) {
  std::int64_t const scale = scale_for(instance["strip_width"].get<double>());
  std::vector<SkinPiece> const pieces = read_skin_pieces(instance["items"], scale, 0);
  Json const known = instance.contains("values") && instance["values"].contains("strip")
                         ? instance["values"]["strip"]
                         : Json::object();
  Search search(instance, pieces, scale, budgets);
  bool const jigsaw = known.contains("optimum");
  auto const [none, took] = timed([&] {
    if (jigsaw) return search.at(search.width(), 1);
    return search.halve(), true;
  });
  Probe const& best = search.best();
  Result result;
  result.variant = jigsaw ? "jigsaw" : "strip";
  result.took = took;
  result.work = search.work();
  result.stated = best.length;
  result.bound = search.area() / search.width();
  result.outcome = best.filled.all ? "planned" : "not_found";
  result.proved = jigsaw && best.filled.all;
  result.faults = names_of(check(best.skin, pieces, 0, best.filled));
  if (known.contains("equivalent_length")) result.best_known = known["equivalent_length"].get<double>();
  if (jigsaw) result.best_known = search.width();
  result.more["all_placed"] = best.filled.all;
  result.more["area_share_pct"] = 100 * static_cast<double>(best.filled.twice_area) / total_area(pieces);
  result.more["density_pct"] = 100 * static_cast<double>(best.filled.twice_area) /
                               static_cast<double>(best.filled.twice_area + best.filled.cut.twice_area_left);
  add_laid(result.placements, 0, best.filled.cut, pieces, scale);
  return {result};
}

}  // namespace endband::cutting::bench
