// Asking the solver, and what its answer means in quantities of the material.
#include "engine/cutting/check/check.h"
#include "engine/cutting/geometry/worth.h"
#include "engine/cutting/request.h"

#include <algorithm>
#include <stdexcept>
#include <string>

namespace endband {
namespace {

template <class Request, class Answer>
CutAnswer checked(Request const& request, Answer answer) {
  auto const faults = cutting::check(request, answer);
  if (!faults.empty())
    throw std::logic_error("a cutting plan does not pass its check: " +
                           std::string(cutting::broken_name(faults.front().broken)));
  return answer;
}

template <class T>
T const& at(std::vector<T> const& list, int index) {
  return list.at(static_cast<std::size_t>(index));
}

cutting::Proof const& proof_in(CutAnswer const& answer) {
  return std::visit([](auto const& of) -> cutting::Proof const& { return of.proof; }, answer);
}

// --- what is opened, and what of it the pieces take

// What is kept of a sheet in thousandths of it, rounded down.
std::int64_t kept_of(cutting::CutSheet const& used, cutting::Sheet const& sheet) {
  std::int64_t kept = 0;
  for (cutting::Offcut const& offcut : used.kept)
    kept = checked_add(kept, area(Length{offcut.height}, Length{offcut.width}).n);
  return mul_div(kept, 1000, area(Length{sheet.height}, Length{sheet.width}).n, Rounding::down);
}

// Beside the pieces of a roll all that was torn off is cut away.
void add_quantities(PlanFacts& facts, cutting::SheetRequest const& asked, CutAnswer const& answer,
                    CutRequest const&) {
  for (cutting::CutSheet const& used : std::get<cutting::Answer<cutting::CutSheet>>(answer).used) {
    cutting::Sheet const& sheet = at(asked.sheets, used.sheet);
    facts.opened = checked_add(facts.opened, sheet.by_length ? used.length : 1000);
    facts.gross = checked_add(facts.gross, sheet.by_length ? used.length : 1000 - kept_of(used, sheet));
  }
}

void add_quantities(PlanFacts& facts, cutting::SkinRequest const& asked, CutAnswer const& answer,
                    CutRequest const& request) {
  std::int64_t const skin = request.sold.skin_area;
  Ratio const usable = request.sold.usable;
  for (cutting::CutSkin const& used : std::get<cutting::Answer<cutting::CutSkin>>(answer).used) {
    std::int64_t twice_cut = 0;
    for (cutting::LaidPiece const& laid : used.laid)
      twice_cut = checked_add(twice_cut, cutting::twice_area(at(asked.pieces, laid.piece).shape));
    std::int64_t const taken = mul_div(twice_cut / 2, usable.den(), usable.num(), Rounding::up);
    cutting::Box const left = used.largest_left;
    bool const kept = cutting::is_kept(asked.least_kept, left.right - left.left, left.top - left.bottom);
    facts.opened = checked_add(facts.opened, skin);
    facts.gross = checked_add(facts.gross, kept ? std::min(taken, skin) : skin);
  }
}

void add_quantities(PlanFacts& facts, cutting::LengthRequest const& asked, CutAnswer const& answer,
                    CutRequest const& request) {
  for (cutting::CutRoll const& used : std::get<cutting::Answer<cutting::CutRoll>>(answer).used) {
    std::int64_t cut = 0;
    for (std::size_t i = 0; i < asked.pieces.size(); ++i)
      cut = checked_add(cut, checked_mul(asked.pieces[i].length, used.counts.at(i)));
    std::int64_t const length = request.sold.by_the_metre ? cut : at(asked.rolls, used.roll).length;
    facts.opened = checked_add(facts.opened, checked_mul(length, used.times));
    facts.gross =
        checked_add(facts.gross, checked_mul(length - cut >= request.least_kept ? cut : length, used.times));
  }
}

// --- what is opened at the request's costs, whatever is kept of it

std::int64_t opened_cost(cutting::SheetRequest const& asked, CutAnswer const& answer) {
  std::int64_t sum = 0;
  for (cutting::CutSheet const& used : std::get<cutting::Answer<cutting::CutSheet>>(answer).used) {
    cutting::Sheet const& sheet = at(asked.sheets, used.sheet);
    sum = checked_add(
        sum, sheet.by_length ? cutting::torn_cost(sheet.cost, used.length, sheet.height) : sheet.cost);
  }
  return sum;
}
std::int64_t opened_cost(cutting::SkinRequest const& asked, CutAnswer const& answer) {
  std::int64_t sum = 0;
  for (cutting::CutSkin const& used : std::get<cutting::Answer<cutting::CutSkin>>(answer).used)
    sum = checked_add(sum, at(asked.skins, used.skin).cost);
  return sum;
}
std::int64_t opened_cost(cutting::LengthRequest const&, CutAnswer const& answer) {
  return proof_in(answer).cost;
}

// Where nothing that is kept counts, the plan is its own proof.
bool keeps_worth(CutRequest const& request) {
  if (std::holds_alternative<cutting::LengthRequest>(request.asked)) return false;
  if (auto const* const sheets = std::get_if<cutting::SheetRequest>(&request.asked)) {
    auto const roll = [](cutting::Sheet const& sheet) { return sheet.by_length; };
    return sheets->least_kept > 0 && sheets->worth.num > 0 && !std::ranges::all_of(sheets->sheets, roll);
  }
  auto const& skins = std::get<cutting::SkinRequest>(request.asked);
  return skins.least_kept > 0 && skins.worth.num > 0;
}

CutRequest without_worth(CutRequest request) {
  if (auto* const sheets = std::get_if<cutting::SheetRequest>(&request.asked)) sheets->worth = {};
  if (auto* const skins = std::get_if<cutting::SkinRequest>(&request.asked)) skins->worth = {};
  return request;
}

// --- the key: every number of a request, lists after their lengths

class Key {
 public:
  explicit Key(PlanKey& numbers) : numbers_(numbers) {}

  void add(std::int64_t number) { numbers_.push_back(number); }
  void add(bool yes) { add(std::int64_t{yes}); }
  void add(int number) { add(std::int64_t{number}); }
  void add(std::optional<std::int64_t> const& number) { add(number.value_or(-1)); }
  void add(cutting::Worth worth) { all(worth.num, worth.den); }
  void add(cutting::Point point) { all(point.x, point.y); }
  void add(cutting::Sheet const& s) { all(s.width, s.height, s.cost, s.copies, s.by_length); }
  void add(cutting::Rect const& r) { all(r.width, r.height, r.copies, r.turns); }
  void add(cutting::Zone const& z) { all(z.polygon, z.grade); }
  void add(cutting::Skin const& s) { all(s.outline, s.flaws, s.zones, s.grade, s.cost, s.copies, s.batch); }
  void add(cutting::SkinPiece const& p) {
    all(p.shape, p.copies, p.angles, p.least_grade, p.group, static_cast<int>(p.together));
  }
  void add(cutting::Roll const& r) { all(r.length, r.cost, r.copies); }
  void add(cutting::Length1 const& l) { all(l.length, l.copies); }
  void add(cutting::SheetRequest const& r) { all(r.sheets, r.pieces, r.kerf, r.trim, r.least_kept, r.worth); }
  void add(cutting::SkinRequest const& r) { all(r.skins, r.pieces, r.margin, r.least_kept, r.worth); }
  void add(cutting::LengthRequest const& r) { all(r.rolls, r.pieces, r.kerf); }

  template <class T>
  void add(std::vector<T> const& list) {
    add(static_cast<std::int64_t>(list.size()));
    for (T const& one : list) add(one);
  }

 private:
  template <class... T>
  void all(T const&... each) {
    (add(each), ...);
  }
  PlanKey& numbers_;
};

}  // namespace

CutAnswer plan(CutRequest const& request, cutting::Budget const& budget) {
  if (auto const* sheets = std::get_if<cutting::SheetRequest>(&request.asked))
    return checked(*sheets, cutting::plan_sheets(*sheets, budget));
  if (auto const* skins = std::get_if<cutting::SkinRequest>(&request.asked))
    return checked(*skins, cutting::plan_skins(*skins, budget));
  auto const& lengths = std::get<cutting::LengthRequest>(request.asked);
  return checked(lengths, cutting::plan_lengths(lengths, budget));
}

cutting::Outcome outcome_of(CutAnswer const& answer) {
  return std::visit([](auto const& of) { return of.outcome; }, answer);
}

cutting::Proof const& proof_of(CutAnswer const& answer) { return proof_in(answer); }

cutting::Proof opened_proof(CutRequest const& request, CutAnswer const& answer,
                            cutting::Budget const& budget) {
  cutting::Proof proof =
      keeps_worth(request) ? proof_of(plan(without_worth(request), budget)) : proof_of(answer);
  proof.cost = std::visit([&](auto const& asked) { return opened_cost(asked, answer); }, request.asked);
  proof.bound = std::min(proof.cost, proof.bound);
  return proof;
}

PlanFacts plan_to_buy(CutRequest const& request, cutting::Budget const& budget) {
  CutAnswer const answer = plan(request, budget);
  PlanFacts facts;
  facts.outcome = outcome_of(answer);
  for (CutFrom const& from : request.stock) facts.guess = facts.guess || from.guess;
  if (facts.outcome != cutting::Outcome::planned) return facts;
  std::visit([&](auto const& asked) { add_quantities(facts, asked, answer, request); }, request.asked);
  cutting::Proof const opened = opened_proof(request, answer, budget);
  facts.cost = opened.cost;
  facts.bound = opened.bound;
  return facts;
}

PlanKey plan_key(CutRequest const& request, std::int64_t work) {
  PlanKey numbers{solver_version, work, static_cast<std::int64_t>(request.asked.index()), request.least_kept};
  Key key(numbers);
  std::visit([&](auto const& asked) { key.add(asked); }, request.asked);
  if (std::holds_alternative<cutting::SkinRequest>(request.asked)) {
    key.add(request.sold.skin_area);
    key.add(request.sold.usable.num());
    key.add(request.sold.usable.den());
  } else if (std::holds_alternative<cutting::LengthRequest>(request.asked)) {
    key.add(request.sold.by_the_metre);
  }
  return numbers;
}

}  // namespace endband
