// What may have been meant by a word that is not known.
#include "engine/fault/fault.h"

#include <algorithm>
#include <cstddef>

namespace endband {
namespace {

constexpr std::size_t shown_at_most = 3;

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// UTF-8 to letters: a lead byte and the bytes that continue it are one letter, so that a missing accent is
// one edit and not two. Malformed text is only compared, so it need not be refused here.
std::vector<std::string> letters(std::string_view word) {
  std::vector<std::string> result;
  for (char c : word) {
    bool const continues = (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
    if (continues && !result.empty())
      result.back() += c;
    else
      result.emplace_back(1, lower(c));
  }
  return result;
}

std::size_t apart(std::size_t a, std::size_t b) { return a > b ? a - b : b - a; }

std::size_t distance(std::vector<std::string> const& a, std::vector<std::string> const& b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      std::size_t const replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
      bool const swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) { return distance(letters(a), letters(b)); }

std::vector<std::string> nearest(std::string_view word, std::span<std::string_view const> known) {
  struct Candidate {
    std::size_t distance;
    std::string_view word;
  };
  auto const said = letters(word);
  std::size_t const limit = std::max<std::size_t>(2, said.size() / 3);
  std::vector<Candidate> candidates;
  for (std::string_view candidate : known) {
    auto const letters_of = letters(candidate);
    if (apart(said.size(), letters_of.size()) > limit) continue;
    std::size_t const d = distance(said, letters_of);
    // A word of which nothing is left has not been meant: "in" for "cm".
    if (d <= limit && d < std::max(said.size(), letters_of.size())) candidates.push_back({d, candidate});
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](Candidate const& a, Candidate const& b) { return a.distance < b.distance; });
  if (candidates.size() > shown_at_most) candidates.resize(shown_at_most);
  std::vector<std::string> result;
  result.reserve(candidates.size());
  for (Candidate const& candidate : candidates) result.emplace_back(candidate.word);
  return result;
}

}  // namespace endband
