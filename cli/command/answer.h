// What a command computed, of whatever type, and the two ways to show it. A view is a plain struct with,
// beside it,
//   Json to_json(View const&);  Document to_document(View const&);
// and, where it has figures,
//   std::vector<Drawing> drawings_of(View const&);
// Computing it makes no text for people; showing it computes nothing. The JSON of a list has one array, its
// rows.
#pragma once

#include "cli/document/document.h"
#include "cli/document/json.h"

#include <memory>
#include <utility>
#include <vector>

namespace endband::cli {

class Answer {
 public:
  template <class View>
  explicit Answer(View view) : shown_(std::make_unique<ViewOf<View>>(std::move(view))) {}

  Json json() const { return shown_->json(); }
  Document document() const { return shown_->document(); }
  // The figures that belong to it; none where a view has no `drawings_of`.
  std::vector<Drawing> drawings() const { return shown_->drawings(); }

  // 1 where the command did its work and what it found is bad: a check that found a fault.
  int exit() const { return exit_; }
  Answer ending_with(int code) && {
    exit_ = code;
    return std::move(*this);
  }

 private:
  struct Shown {
    virtual ~Shown() = default;
    virtual Json json() const = 0;
    virtual Document document() const = 0;
    virtual std::vector<Drawing> drawings() const = 0;
  };
  template <class View>
  struct ViewOf final : Shown {
    explicit ViewOf(View v) : view(std::move(v)) {}
    Json json() const override { return to_json(view); }
    Document document() const override { return to_document(view); }
    std::vector<Drawing> drawings() const override {
      if constexpr (requires { drawings_of(view); }) return drawings_of(view);
      return {};
    }
    View view;
  };
  std::unique_ptr<Shown> shown_;
  int exit_ = 0;
};

}  // namespace endband::cli
