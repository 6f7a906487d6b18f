// How many steps each solver takes a millisecond of one core: problems that are the same every time, too
// large to be solved at once.
#include "tests/bench/cutting/bench.h"

namespace endband::cutting::bench {
namespace {

constexpr std::int64_t steps = 200'000;
constexpr double usual = 30'000;  // steps a millisecond, where nothing could be measured

class Chance {
 public:
  std::int64_t from(std::int64_t least, std::int64_t most) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return least + static_cast<std::int64_t>((state_ >> 33) % static_cast<std::uint64_t>(most - least + 1));
  }

 private:
  std::uint64_t state_ = 11;
};

std::int64_t lengths(Chance& chance, Budget const& budget) {
  LengthRequest request;
  request.rolls = {{100'000, 100, std::nullopt}, {77'777, 71, 4}, {61'111, 60, 3}};
  for (int i = 0; i < 40; ++i) request.pieces.push_back({chance.from(9'000, 43'000), chance.from(1, 3)});
  return plan_lengths(request, budget).proof.work;
}

std::int64_t one_sheet(Chance& chance, Budget const& budget) {
  std::vector<ValuedRect> pieces;
  for (int i = 0; i < 30; ++i) {
    Rect const rect{chance.from(60, 400), chance.from(60, 400), chance.from(1, 3), false};
    pieces.push_back({rect, rect.width * rect.height * chance.from(80, 120)});
  }
  return best_of_sheet({1000, 700, 1, 1}, pieces, 0, 0, budget).work;
}

std::int64_t sheets(Chance& chance, Budget const& budget) {
  SheetRequest request;
  request.sheets = {
      {1000, 700, 460, std::nullopt}, {500, 700, 240, std::nullopt}, {450, 443, 65, 2}, {374, 756, 72, 2}};
  for (int i = 0; i < 20; ++i)
    request.pieces.push_back({chance.from(60, 400), chance.from(60, 400), chance.from(1, 2), false});
  return plan_sheets(request, budget).proof.work;
}

std::int64_t skins(Chance& chance, Budget const& budget) {
  Skin skin;
  skin.outline = {{300'000, 0},       {600'000, 40'000},    {900'000, 300'000},
                  {880'000, 700'000}, {650'000, 1'000'000}, {420'000, 1'050'000},
                  {120'000, 900'000}, {0, 500'000},         {60'000, 150'000}};
  skin.flaws = {{{400'000, 400'000}, {430'000, 400'000}, {420'000, 440'000}}};
  std::vector<SkinPiece> pieces;
  for (int i = 0; i < 26; ++i) {
    SkinPiece piece;
    piece.shape = rectangle(chance.from(90, 330) * 1000, chance.from(90, 330) * 1000);
    piece.angles = {0, 90, 180, 270};
    pieces.push_back(piece);
  }
  return fill_skin(skin, pieces, 0, budget).work;
}

template <class Solve>
double rate(Solve const& solve) {
  Chance chance;
  Budget budget;
  budget.work = steps;
  double ms = 0, work = 0;
  for (int i = 0; i < 12 && ms < 60; ++i) {
    auto const [spent, took] = timed([&] { return solve(chance, budget); });
    ms += took.cores;
    work += static_cast<double>(spent);
  }
  return work < 1000 ? usual : work / ms;
}

}  // namespace

std::array<double, 4> measure_rates() { return {rate(lengths), rate(one_sheet), rate(sheets), rate(skins)}; }

}  // namespace endband::cutting::bench
