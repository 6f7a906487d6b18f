// What a bench can fold and sew: held against the dimensions that the book comes to, not only those that are
// said.
#include "engine/book/making.h"
#include "engine/book/resolve.h"
#include "engine/book/rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string>
#include <utility>

namespace endband {
namespace {

using enum FigureId;

// The figures as far as they follow without the parts being made.
Figures figures_of(BookSpec const& spec, Catalogue const& catalogue) {
  Structure book;
  book.figures = spec.given;
  Making making(spec, catalogue, book);
  complete(making);
  apply_rules(book.figures, spec.ways);
  return book.figures;
}

class Limits {
 public:
  explicit Limits(Resolving& to) : to_(to), is_(figures_of(to.spec, to.catalogue)) {}

  void check() {
    check_section();
    check_guards();
    check_thickness();
    check_supports();
    if (check_measured()) check_spine();
  }

 private:
  bool know(std::initializer_list<FigureId> ids) const {
    return std::all_of(ids.begin(), ids.end(), [&](FigureId id) { return is_.has(id); });
  }
  // At the first key that is there: it is what has to be said otherwise.
  void fault(FaultCode code, std::initializer_list<std::size_t> keys, std::string found,
             std::string expected) {
    Where where{to_.layers.source(), 0, 0, std::string(path_of(*keys.begin()))};
    for (std::size_t const index : keys)
      if (Hit const& hit = to_.layers[index]) {
        where = hit.entry->where;
        break;
      }
    to_.fault(code, std::move(where), std::move(found), std::move(expected));
  }

  void check_section() {
    Hit const& thickest = to_.layers[key("text.thickest_section")];
    if (!thickest || !know({section_thickness}) || is_.value(block_given) != 0) return;
    double const most = number_of(ValueType::length, thickest.entry->value);
    if (is_.value(section_thickness) <= most) return;
    double const of_sheet = is_.value(section_thickness) / is_.value(sheets_per_section);
    double const sheets_most = std::floor(most / of_sheet);
    std::string const at_most =
        sheets_most < 1
            ? fmt::format("a paper of at most {:.3g} mm, or fewer folds", most / std::exp2(is_.value(folds)))
            : fmt::format("at most {:g} sheets in a section, or thinner paper", sheets_most);
    std::string const found = fmt::format("a section of {:.3g} mm", is_.value(section_thickness));
    std::string const expected =
        fmt::format("{}: one of more than {:g} mm is too thick to fold", at_most, most);
    if (to_.parts.is(Way::pamphlet))
      fault(FaultCode::out_of_range, {key("pages"), key("text.sheets")}, found, expected);
    else
      fault(FaultCode::out_of_range, {key("text.sheets_per_section")}, found, expected);
  }

  void check_guards() {
    if (!to_.parts.has(Part::guards) || !know({guard_width, leaf_width})) return;
    if (is_.value(guard_width) >= is_.value(leaf_width))
      fault(FaultCode::out_of_range, {key("guards.width")}, fmt::format("{:g} mm", is_.value(guard_width)),
            fmt::format("guards narrower than a leaf, {:g} mm", is_.value(leaf_width)));
  }

  // What is computed ends where what is measured does.
  void check_thickness() {
    double const most = key_table::rows[key("text.thickness")].row.most;
    if (!know({block_thickness}) || is_.value(block_thickness) <= most) return;
    bool const mounted = to_.parts.has(Part::guards);
    fault(FaultCode::out_of_range,
          {key("guards.mounted"), key("pages"), key("text.sheets"), key("text.sections")},
          fmt::format("a block of {:.0f} mm", is_.value(block_thickness)),
          fmt::format("at most {:g} mm thick: fewer leaves, {}", most,
                      mounted ? "or less mounted on them" : "or thinner paper"));
  }

  void check_spine() {
    if (!to_.parts.has(Part::sewing) || !know({spine_width, support_thickness})) return;
    double const support = is_.value(support_thickness);
    if (is_.value(spine_width) >= support) return;
    fault(FaultCode::out_of_range,
          {key("pages"), key("text.sheets"), key("text.sections"), key("text.thickness")},
          fmt::format("a spine of {:.3g} mm", is_.value(spine_width)),
          fmt::format("more leaves, or thinner supports than {:g} mm: they are as wide as the spine or wider",
                      support));
  }

  // Cords side by side are as wide as they are thick.
  void check_supports() {
    if (!to_.parts.has(Part::sewing) || !know({supports, support_thickness, kettle_setback})) return;
    double const width =
        to_.parts.is(Way::tapes) ? is_.value_or(support_width, 0) : is_.value(support_thickness);
    double const room = is_.value(leaf_height) - 2 * is_.value(kettle_setback);
    double const taken = is_.value(supports) * width;
    if (taken < room) return;
    fault(FaultCode::out_of_range, {key("sewing.supports"), key("sewing.tape_width")},
          fmt::format("{:g} supports of {:g} mm", is_.value(supports), width),
          fmt::format("fewer or narrower: between the kettle stitches there are {:g} mm", room));
  }

  // A measured block has its free endpapers in it.
  bool check_measured() {
    if (!to_.spec.given.has(block_thickness) || !know({endpaper_thickness})) return true;
    if (is_.value(endpaper_thickness) < is_.value(block_thickness)) return true;
    fault(FaultCode::contradiction, {key("text.thickness")},
          fmt::format("{:g} mm", is_.value(block_thickness)),
          fmt::format("more than its {:g} mm of endpapers", is_.value(endpaper_thickness)));
    return false;
  }

  Resolving& to_;
  Figures is_;
};

}  // namespace

void check_limits(Resolving& to) { Limits(to).check(); }

}  // namespace endband
