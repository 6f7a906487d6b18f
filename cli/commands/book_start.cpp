// Starts a description from a model that is built in.
#include "cli/commands/commands.h"
#include "cli/process/put_files.h"
#include "cli/process/taken.h"
#include "engine/book/spec.h"

namespace endband::cli {
namespace {

struct ModelList {
  std::vector<Model> models;
};

Json to_json(ModelList const& view) {
  auto const model_json = [](Model const& model) {
    return Json(Json::Object{{"model", model.name}, {"what", model.what}});
  };
  return Json::Object{{"models", json_array(view.models, model_json)},
                      {"model", Json()},
                      {"text", Json()},
                      {"file", Json()},
                      {"dry_run", false}};
}

Document to_document(ModelList const& view) {
  Document document;
  Table table{{{"Model"}, {"What it is"}}, {}};
  for (Model const& model : view.models) table.add({std::string(model.name), std::string(model.what)});
  document.add(std::move(table));
  document.next("endband book start raised-cords -o book.toml");
  return document;
}

struct Started {
  Model model;
  std::optional<std::string> file;  // absent: shown, not written
  bool dry_run = false;
};

Json to_json(Started const& view) {
  return Json::Object{{"models", Json::Array{}},
                      {"model", view.model.name},
                      {"text", view.model.text},
                      {"file", view.file},
                      {"dry_run", view.dry_run}};
}

Document to_document(Started const& view) {
  Document document;
  if (!view.file) return document.add(Verbatim{std::string(view.model.text)}), document;
  document.paragraph((view.dry_run ? "Would write " : "Wrote ") + *view.file + ", " +
                     std::string(view.model.what) + (view.dry_run ? ". Nothing is saved." : "."));
  document.next("change it, then endband quote make " + *view.file);
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  if (args.has("--list")) return Answer(ModelList{{models().begin(), models().end()}});
  if (args.word_count() == 0)
    return refuse(
        {FaultCode::bad_command, args.where("MODEL"), "", "a model of endband book start --list", {}});
  std::string const& name = args.word(0);
  auto const text = located(model_text(name), args.where("MODEL"));
  if (!text) return tl::unexpected(text.error());
  Started view{.model = {}, .file = args.text("--output"), .dry_run = context.dry_run};
  for (Model const& model : models())
    if (model.name == name) view.model = model;
  if (view.file == "-") view.file.reset();
  if (!view.file) return Answer(std::move(view));
  if (auto fault = taken(*view.file, args.where("--output"), context.yes)) return refuse(std::move(*fault));
  if (!context.dry_run)
    if (auto const put = put_file(*view.file, std::string(view.model.text)); !put)
      return tl::unexpected(put.error());
  return Answer(std::move(view));
}

}  // namespace

Command book_start() {
  return {
      .noun = "book",
      .verb = "start",
      .summary = "Start the description of a book from a model",
      .about = "Without -o the text is shown. A model names no material: your habits do, or the description.",
      .words = {{.name = "MODEL",
                 .type = FlagType::model,
                 .help = "one of --list",
                 .needed = false,
                 .many = false}},
      .flags = {{"--list", FlagType::on, "the models there are"},
                {"--output", FlagType::file, "the file to write", 'o'}},
      .examples = {"book start --list", "book start raised-cords -o book.toml"},
      .refused_when = "the file is there already, and --yes is not said",
      .writes = true,
      .writes_with = {"--output"},
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
