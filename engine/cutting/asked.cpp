#include "engine/cutting/asked.h"

#include <algorithm>

namespace endband {
namespace {

constexpr std::int64_t most_work = 1'000'000;
constexpr std::int64_t most_listed = 1'000;
constexpr std::int64_t most_mark = 1'000'000'000;  // of a grade, a batch, a group
constexpr std::int64_t most_copies = 10'000;
constexpr std::int64_t most_micrometres = 100'000'000;
constexpr std::int64_t most_area = most_micrometres * 1'000'000'000;
constexpr std::int64_t most_cost = 1'000'000'000'000'000;

// Reads in the order in which Key of plan.cpp writes. After a number that cannot be, all that follows is
// nothing.
class KeyReader {
 public:
  explicit KeyReader(PlanKey const& key) : key_(key) {}

  bool good() const { return good_; }
  bool at_end() const { return next_ == key_.size(); }

  std::int64_t number(std::int64_t least, std::int64_t most) {
    if (!good_ || at_end() || key_[next_] < least || key_[next_] > most) {
      good_ = false;
      return 0;
    }
    return key_[next_++];
  }

  void take(cutting::SheetRequest& r) {
    list(r.sheets);
    list(r.pieces);
    r.kerf = side(0);
    r.trim = side(0);
    r.least_kept = side(0);
    take(r.worth);
  }
  void take(cutting::SkinRequest& r) {
    list(r.skins);
    list(r.pieces);
    r.margin = side(0);
    r.least_kept = side(0);
    take(r.worth);
  }
  void take(cutting::LengthRequest& r) {
    list(r.rolls);
    list(r.pieces);
    r.kerf = side(0);
  }
  void take_skin(CutSold& sold) {
    sold.skin_area = number(0, most_area);
    std::int64_t const num = number(1, most_cost), den = number(std::max<std::int64_t>(num, 1), most_cost);
    if (good_) sold.usable = Ratio(num, den);
  }
  bool flag() { return number(0, 1) == 1; }

 private:
  std::int64_t side(std::int64_t least = 1) { return number(least, most_micrometres); }
  std::int64_t copies() { return number(1, most_copies); }
  std::int64_t cost() { return number(0, most_cost); }
  int small() { return static_cast<int>(number(-most_mark, most_mark)); }

  void take(cutting::Worth& w) {
    w.num = number(0, most_cost);
    w.den = number(std::max<std::int64_t>(w.num, 1), most_cost);
  }
  void take(std::optional<std::int64_t>& copies) {
    std::int64_t const said = number(-1, most_copies);
    copies = said < 0 ? std::nullopt : std::optional(said);
  }
  void take(int& value) { value = small(); }
  void take(cutting::Point& p) {
    p.x = number(-most_micrometres, most_micrometres);
    p.y = number(-most_micrometres, most_micrometres);
  }
  void take(cutting::Sheet& s) {
    s.width = side();
    s.height = side();
    s.cost = cost();
    take(s.copies);
    s.by_length = flag();
  }
  void take(cutting::Rect& r) {
    r.width = side();
    r.height = side();
    r.copies = copies();
    r.turns = flag();
  }
  void take(cutting::Zone& z) {
    list(z.polygon);
    z.grade = small();
  }
  void take(cutting::Skin& s) {
    list(s.outline);
    list(s.flaws);
    list(s.zones);
    s.grade = small();
    s.cost = cost();
    take(s.copies);
    s.batch = small();
  }
  void take(cutting::SkinPiece& p) {
    list(p.shape);
    p.copies = copies();
    list(p.angles);
    p.least_grade = small();
    p.group = small();
    p.together = flag() ? cutting::Together::one_batch : cutting::Together::one_skin;
  }
  void take(cutting::Roll& r) {
    r.length = side();
    r.cost = cost();
    take(r.copies);
  }
  void take(cutting::Length1& l) {
    l.length = side();
    l.copies = copies();
  }
  template <class T>
  void take(std::vector<T>& list) {
    this->list(list);
  }

  template <class T>
  void list(std::vector<T>& all) {
    all.clear();  // a piece of skin has one angle from the start
    std::int64_t const count = number(0, most_listed);
    for (std::int64_t i = 0; good_ && i < count; ++i) take(all.emplace_back());
  }

  PlanKey const& key_;
  std::size_t next_ = 0;
  bool good_ = true;
};

// As many stock pieces as the request knows, each bought new: a skin's outline is then a guess.
std::vector<CutFrom> bought(CutRequest const& request) {
  if (auto const* const skins = std::get_if<cutting::SkinRequest>(&request.asked))
    return std::vector<CutFrom>(skins->skins.size(), {0, true});
  if (auto const* const sheets = std::get_if<cutting::SheetRequest>(&request.asked))
    return std::vector<CutFrom>(sheets->sheets.size());
  return std::vector<CutFrom>(std::get<cutting::LengthRequest>(request.asked).rolls.size());
}

}  // namespace

std::optional<Asked> asked_by(PlanKey const& key) {
  KeyReader reader(key);
  if (reader.number(solver_version, solver_version) != solver_version) return std::nullopt;
  Asked asked;
  asked.work = reader.number(0, most_work);
  switch (reader.number(0, 2)) {
    case 0: asked.request.asked = cutting::SheetRequest{}; break;
    case 1: asked.request.asked = cutting::SkinRequest{}; break;
    default: asked.request.asked = cutting::LengthRequest{}; break;
  }
  asked.request.least_kept = reader.number(0, most_micrometres);
  std::visit([&](auto& request) { reader.take(request); }, asked.request.asked);
  if (std::holds_alternative<cutting::SkinRequest>(asked.request.asked))
    reader.take_skin(asked.request.sold);
  else if (std::holds_alternative<cutting::LengthRequest>(asked.request.asked))
    asked.request.sold.by_the_metre = reader.flag();
  if (!reader.good() || !reader.at_end()) return std::nullopt;
  asked.request.stock = bought(asked.request);
  return asked;
}

}  // namespace endband
