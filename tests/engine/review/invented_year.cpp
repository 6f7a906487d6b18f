#include "tests/engine/review/invented_year.h"

#include "engine/chance/draw.h"
#include "engine/chance/random.h"

#include <array>
#include <cmath>
#include <map>
#include <string_view>

namespace endband::invented {
namespace {

using enum OperationKind;

struct Timed {
  OperationKind operation;
  int minutes;
};
using Steps = std::vector<Timed>;

Steps operator+(Steps a, Steps const& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

Steps const office{{answer_enquiry, 69}, {draw_proof, 45},  {photograph, 32},   {order_materials, 19},
                   {pack_parcel, 34},    {post_parcel, 28}, {keep_accounts, 13}};
Steps const block{{cut_sheets, 22},     {fold_sheets, 22}, {press_sections, 13}, {pierce_stations, 23},
                  {make_endpapers, 31}, {glue_spine, 20},  {trim_edges, 45},     {put_down_endpapers, 48},
                  {final_press, 23},    {cut_boards, 32},  {mix_paste, 22}};
Steps const sewn{
    {sew_sections, 132}, {wax_thread, 5}, {set_up_frame, 18}, {round_spine, 17}, {back_spine, 42}};
Steps const laced{{shape_boards, 50}, {lace_boards, 58}, {drill_lacing, 37}, {sew_endbands, 88}};
Steps const skin{
    {cut_leather, 27}, {pare_edges, 37}, {cover_book, 124}, {turn_corners, 58}, {dress_leather, 15}};
Steps const cloth{{cut_cloth, 25}, {make_case, 76}, {case_in, 46}, {stick_endbands, 14}};
Steps const leaf{{size_lines, 27}, {lay_leaf, 42}, {varnish_leaf, 16}};
Steps const boxed{{cut_box_boards, 39}, {build_box, 68}, {cover_box, 65}, {line_box, 36}};

struct Kind {
  std::string_view binding;
  Steps steps;
  int materials;     // minor units
  int often;         // of a year's jobs
  bool to_the_fair;  // may go to the fair
};
std::vector<Kind> const& kinds() {
  static std::vector<Kind> const table{
      {"tapes", office + block + sewn + laced + skin, 39'00, 6, true},
      {"half-leather", office + block + sewn + skin + cloth + Steps{{put_on_corners, 44}, {letter_title, 90}},
       46'00, 6, true},
      {"case", office + block + sewn + cloth + Steps{{fix_registers, 10}}, 80'00, 5, true},
      {"raised-cords", office + block + sewn + laced + skin, 58'00, 6, true},
      {"single-section",
       office + Steps{{cut_sheets, 14}, {fold_sheets, 10}, {sew_pamphlet, 14}, {cut_wrapper, 30}}, 12'00, 2,
       false},
      {"raised-cords",
       office + block + sewn + laced + skin + leaf +
           Steps{{letter_title, 150},
                 {blind_lines, 42},
                 {fit_corners, 80},
                 {fit_clasps, 75},
                 {dye_leather, 23},
                 {fix_registers, 14}},
       140'00, 9, false},
      {"recessed-cords", office + block + sewn + laced + skin + leaf + Steps{{letter_title, 95}}, 48'00, 16,
       false},
      {"slipcased",
       office + block + sewn + laced + skin + leaf + boxed + Steps{{letter_title, 100}, {gild_edges, 139}},
       120'00, 12, false},
      {"box", office + boxed + Steps{{letter_title, 60}}, 40'00, 4, false},
      {"long-stitch", office + block + Steps{{long_stitch_sections, 55}, {make_ties, 19}}, 30'00, 2, false},
      {"link-stitch", office + block + Steps{{link_sections, 71}, {cover_boards, 39}}, 25'00, 3, true},
      {"album", office + block + skin + Steps{{set_guards, 51}, {cut_guards, 24}}, 62'00, 3, true},
      {"raised-cords", office + block + sewn + laced + skin + Steps{{letter_title, 80}, {fix_registers, 14}},
       60'00, 9, true},
      {"rebinding",
       office + sewn + laced + skin +
           Steps{{pull_block, 181}, {clean_leaves, 74}, {guard_folds, 158}, {resew_block, 213}},
       50'00, 4, false},
  };
  return table;
}

class Draws {
 public:
  explicit Draws(std::uint64_t seed) : random_(mixed(seed)) {}
  double share() { return (static_cast<double>(random_.next() >> 11U) + 0.5) * 0x1p-53; }
  std::int64_t below(std::int64_t limit) { return random_.below(limit); }
  // Log-normal of mean 1.
  double factor(double deviation) {
    return std::exp(deviation * normal_quantile(share()) - deviation * deviation / 2);
  }

 private:
  Random random_;
};

constexpr double an_hour = 33'35;  // pay and overhead

Kind const& drawn_kind(Draws& draws, bool for_the_fair) {
  std::int64_t all = 0;
  for (Kind const& kind : kinds())
    if (!for_the_fair || kind.to_the_fair) all += kind.often;
  std::int64_t at = draws.below(all);
  for (Kind const& kind : kinds()) {
    if (for_the_fair && !kind.to_the_fair) continue;
    if (at < kind.often) return kind;
    at -= kind.often;
  }
  return kinds().front();
}

double share_taken(Draws& draws, Timed const& step, bool fair, bool has_leaf, Truths const& truths,
                   Noise const& noise) {
  double share = draws.factor(noise.step);
  if (noise.rare > 0) share *= (draws.share() < noise.rare ? 3 : 1) / (1 + 2 * noise.rare);
  if (truths.under_timed == step.operation) return share / 0.75;
  if (truths.losing_outlet && fair && step.operation == answer_enquiry) share *= 3;
  if (truths.losing_outlet && fair && (step.operation == pack_parcel || step.operation == keep_accounts))
    share *= 3;
  if (truths.leaf_pays && has_leaf) share *= 0.67;
  return share;
}

PastJob quoted(Draws& draws, Kind const& kind, bool fair, std::int64_t number) {
  PastJob job;
  job.job = number;
  job.binding = kind.binding;
  job.outlet = fair ? "fair" : draws.below(5) == 0 ? "gallery" : draws.below(4) == 0 ? "post" : "";
  for (Timed const& step : kind.steps) {
    job.seconds_quoted += std::int64_t{60} * step.minutes;
    job.features |= features_made_by(step.operation);
  }
  return job;
}

}  // namespace

Year year(std::uint64_t seed, Truths const& truths, Noise const& noise, int jobs) {
  Draws draws(seed);
  Currency const eur = *read_currency("EUR");
  auto const euros = [eur](double minor) { return Money{std::llround(minor), eur}; };
  Year result;
  std::map<OperationKind, StepSeen> seen;
  for (int i = 0; i < jobs; ++i) {
    bool const fair = i % 5 == 0;
    Kind const& kind = drawn_kind(draws, fair);
    PastJob job = quoted(draws, kind, fair, i + 1);
    job.left_given = euros(0);
    bool const has_leaf = (job.features & features_made_by(lay_leaf)).any();

    double const of_job = draws.factor(noise.job);
    double taken = 0;
    for (Timed const& step : kind.steps) {
      double const minutes =
          std::round(step.minutes * of_job * share_taken(draws, step, fair, has_leaf, truths, noise));
      taken += 60 * minutes;
      StepSeen& of_step = seen.try_emplace(step.operation, StepSeen{step.operation, {}, {}}).first->second;
      of_step.jobs.push_back(result.jobs.size());
      of_step.times.push_back({60.0 * step.minutes, 60 * minutes});
    }
    job.seconds = std::llround(taken);
    double const fees = job.outlet == "gallery" ? 0.4 : 0, fixed = fair ? 600 : 0;
    double const materials = kind.materials, margin = 0.15 + 0.01 * static_cast<double>(draws.below(8));
    double const cost = 1.04 * (materials + an_hour * static_cast<double>(job.seconds_quoted) / 3600) + fixed;
    job.full_price = job.price = euros(500 * std::ceil(cost / (1 - margin - fees) / 500));
    auto const kept = static_cast<double>(job.price.minor) * (1 - fees);
    job.left_quoted = euros(kept - cost);
    job.left = euros(kept - materials * draws.factor(0.15) - an_hour * taken / 3600 -
                     (truths.losing_outlet && fair ? 185'00 : fixed));
    if (draws.below(12) == 0) {  // a tenth off for an old customer
      job.price = euros(static_cast<double>(job.full_price.minor) * 0.9);
      job.left = job.left - (job.full_price - job.price);
    }
    result.jobs.push_back(std::move(job));
  }
  for (auto& [operation, of_step] : seen) result.steps.push_back(std::move(of_step));
  return result;
}

}  // namespace endband::invented
