#include "cli/drawings/cut_layout.h"

#include "engine/cutting/geometry/worth.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace endband::cli {
namespace {

template <class T>
T const& at(std::vector<T> const& list, int index) {
  return list.at(static_cast<std::size_t>(index));
}

void count_laid(CutUse& use) {
  std::map<int, std::int64_t> counts;
  for (CutLaid const& laid : use.laid) ++counts[laid.piece];
  use.counts.assign(counts.begin(), counts.end());
}

// --- sheets and rolls

// Where a part of a sheet lies.
struct Made {
  std::int64_t x = 0, y = 0, width = 0, height = 0;
  CutMade what = CutMade::waste;
  int piece = 0;
};

class SheetUse {
 public:
  SheetUse(CutRequest const& request, cutting::SheetRequest const& asked, cutting::CutSheet const& cut)
      : request_(request), asked_(asked), cut_(cut), sheet_(at(asked.sheets, cut.sheet)) {}

  CutUse made() {
    use_.stock = cut_.sheet;
    use_.goods = sheet_.by_length ? CutGoods::roll : CutGoods::sheet;
    use_.width = sheet_.width;
    use_.height = sheet_.by_length ? cut_.length : sheet_.height;
    use_.whole = area(Length{use_.height}, Length{use_.width}).n;
    find_parts();
    for (cutting::Laid const& laid : cut_.laid) lay(laid);
    for (cutting::Offcut const& kept : cut_.kept) {
      part(kept.part).what = CutMade::kept;
      use_.left.push_back({kept.x, kept.y, kept.height, kept.width});
    }
    for (std::size_t i = 0; i < cut_.cuts.size(); ++i) add_step(i);
    count_laid(use_);
    return std::move(use_);
  }

 private:
  Made& part(int number) { return parts_.at(static_cast<std::size_t>(number)); }

  void find_parts() {
    std::int64_t const ends = sheet_.by_length ? 0 : asked_.trim;
    parts_.resize(1 + 2 * cut_.cuts.size());
    parts_[0] = {asked_.trim, ends, use_.width - 2 * asked_.trim, use_.height - 2 * ends};
    for (std::size_t i = 0; i < cut_.cuts.size(); ++i) {
      cutting::Cut const& cut = cut_.cuts[i];
      Made& whole = part(cut.part);
      whole.what = CutMade::cut_further;
      Made first{whole.x, whole.y, whole.width, whole.height};
      Made second = first;
      std::int64_t const on = cut.at + asked_.kerf;
      if (cut.across) {
        first.height = cut.at;
        second.y += on;
        second.height -= on;
      } else {
        first.width = cut.at;
        second.x += on;
        second.width -= on;
      }
      if (second.width <= 0 || second.height <= 0) second.what = CutMade::nothing;
      parts_[2 * i + 1] = first;
      parts_[2 * i + 2] = second;
    }
  }

  void lay(cutting::Laid const& laid) {
    Made& place = part(laid.part);
    place.what = CutMade::piece;
    place.piece = laid.piece;
    cutting::Rect const& rect = at(asked_.pieces, laid.piece);
    CutFor const& named = at(request_.pieces, laid.piece);
    // A piece whose grain runs along its width was asked for on its side.
    bool const on_its_side = rect.width != named.width.n;
    CutLaid one{laid.piece, laid.x, laid.y, rect.width, rect.height, on_its_side != laid.turned, 0, {}};
    if (laid.turned) std::swap(one.width, one.height);
    use_.taken = checked_add(use_.taken, area(Length{one.height}, Length{one.width}).n);
    use_.laid.push_back(std::move(one));
  }

  static CutPart as_part(Made const& part) {
    if (part.what == CutMade::nothing) return {};
    return {part.what, part.piece, part.height, part.width};
  }

  void add_step(std::size_t i) {
    cutting::Cut const& cut = cut_.cuts[i];
    Made const& whole = part(cut.part);
    use_.steps.push_back({as_part(whole), cut.across, cut.at, whole.x + (cut.across ? 0 : cut.at),
                          whole.y + (cut.across ? cut.at : 0), cut.across ? whole.width : whole.height,
                          as_part(parts_[2 * i + 1]), as_part(parts_[2 * i + 2])});
  }

  CutRequest const& request_;
  cutting::SheetRequest const& asked_;
  cutting::CutSheet const& cut_;
  cutting::Sheet const& sheet_;
  std::vector<Made> parts_;
  CutUse use_;
};

// --- skins

CutUse skin_use(CutRequest const& request, cutting::SkinRequest const& asked, cutting::CutSkin const& cut) {
  cutting::Skin const& skin = at(asked.skins, cut.skin);
  cutting::Box const box = cutting::box_of(skin.outline);
  auto const seen = [&](cutting::Polygon polygon) {
    for (cutting::Point& corner : polygon) corner = {corner.x - box.left, box.top - corner.y};
    return polygon;
  };
  CutUse use;
  use.stock = cut.skin;
  use.goods = CutGoods::skin;
  use.width = box.right - box.left;
  use.height = box.top - box.bottom;
  use.outline = seen(skin.outline);
  for (cutting::Polygon const& flaw : skin.flaws) use.flaws.push_back(seen(flaw));
  for (cutting::Zone const& zone : skin.zones) use.zones.push_back({seen(zone.polygon), zone.grade});
  use.backbone = box.left < 0 && box.right > 0 ? -box.left : use.width / 2;
  std::int64_t twice = 0;
  for (cutting::LaidPiece const& laid : cut.laid) {
    cutting::Polygon const& shape = at(asked.pieces, laid.piece).shape;
    twice = checked_add(twice, cutting::twice_area(shape));
    CutLaid one;
    one.piece = laid.piece;
    one.shape = seen(cutting::moved(cutting::turned(shape, laid.angle), laid.at));
    cutting::Box const lies = cutting::box_of(one.shape);
    one.x = lies.left;
    one.y = lies.bottom;  // y runs down
    one.width = lies.right - lies.left;
    one.height = lies.top - lies.bottom;
    one.turned = laid.angle % 180 == 90;
    one.angle = laid.angle % 90 == 0 ? 0 : laid.angle;
    use.laid.push_back(std::move(one));
  }
  use.taken = twice / 2;
  use.whole = checked_add(twice, cut.twice_area_left) / 2;
  cutting::Box const& left = cut.largest_left;
  std::int64_t const wide = left.right - left.left;
  std::int64_t const high = left.top - left.bottom;
  if (cutting::is_kept(request.least_kept, wide, high))
    use.left.push_back({left.left - box.left, box.top - left.top, high, wide});
  count_laid(use);
  return use;
}

// --- lengths

CutUse length_use(CutRequest const& request, cutting::LengthRequest const& asked, cutting::CutRoll const& cut,
                  Material const& material) {
  CutUse use;
  use.stock = cut.roll;
  use.times = cut.times;
  bool const bought = at(request.stock, cut.roll).lot == 0;
  bool const by_the_metre = bought && material.price && is_by_the_metre(*material.price);
  use.goods = by_the_metre ? CutGoods::by_the_metre : CutGoods::length;
  std::int64_t count = 0;
  for (std::size_t i = 0; i < cut.counts.size(); ++i) {
    if (cut.counts[i] == 0) continue;
    use.counts.emplace_back(static_cast<int>(i), cut.counts[i]);
    use.taken = checked_add(use.taken, checked_mul(asked.pieces[i].length, cut.counts[i]));
    count += cut.counts[i];
  }
  use.height = by_the_metre ? use.taken : at(asked.rolls, cut.roll).length;
  use.whole = use.height;
  std::int64_t const left = use.whole - use.taken - checked_mul(asked.kerf, count);
  if (left > 0 && left >= request.least_kept) use.left.push_back({0, 0, left, 0});
  return use;
}

bool alike(CutUse const& a, CutUse const& b) {
  auto const laid = [](CutLaid const& each) {
    return std::tie(each.piece, each.x, each.y, each.width, each.height, each.turned, each.angle);
  };
  auto const step = [](CutStep const& each) {
    return std::tie(each.across, each.at, each.x, each.y, each.length);
  };
  auto const left = [](CutLeft const& each) { return std::tie(each.x, each.y, each.height, each.width); };
  auto const equal = [](auto const& one, auto const& other, auto const& of) {
    return std::ranges::equal(one, other, [&](auto const& p, auto const& q) { return of(p) == of(q); });
  };
  return a.stock == b.stock && a.height == b.height && a.counts == b.counts && equal(a.laid, b.laid, laid) &&
         equal(a.steps, b.steps, step) && equal(a.left, b.left, left);
}

}  // namespace

std::vector<CutUse> cut_uses(CutRequest const& request, CutAnswer const& answer, Material const& material,
                             int first_number) {
  std::vector<CutUse> uses;
  auto const add = [&](CutUse use) {
    auto const same = std::ranges::find_if(uses, [&](CutUse const& before) { return alike(before, use); });
    if (same != uses.end()) {
      same->times = checked_add(same->times, use.times);
      return;
    }
    use.number = first_number + static_cast<int>(uses.size());
    uses.push_back(std::move(use));
  };
  if (auto const* sheets = std::get_if<cutting::SheetRequest>(&request.asked)) {
    for (auto const& used : std::get<cutting::Answer<cutting::CutSheet>>(answer).used)
      add(SheetUse(request, *sheets, used).made());
  } else if (auto const* skins = std::get_if<cutting::SkinRequest>(&request.asked)) {
    for (auto const& used : std::get<cutting::Answer<cutting::CutSkin>>(answer).used)
      add(skin_use(request, *skins, used));
  } else {
    auto const& lengths = std::get<cutting::LengthRequest>(request.asked);
    for (auto const& used : std::get<cutting::Answer<cutting::CutRoll>>(answer).used)
      add(length_use(request, lengths, used, material));
  }
  return uses;
}

}  // namespace endband::cli
