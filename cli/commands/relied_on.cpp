#include "cli/commands/relied_on.h"

#include "db/materials.h"
#include "db/outlets.h"
#include "db/settings.h"
#include "db/steps.h"
#include "engine/book/operation.h"

namespace endband::cli {

Versions versions_in_force(db::Workshop& workshop, std::span<std::string const> codes, Date on) {
  Versions versions;
  // A code that has gone unknown is simply not among the versions.
  for (std::string const& code : codes) {
    auto const material = db::find_material(workshop, code, on);
    if (!material) continue;
    versions["material " + code] = material->version;
    if (material->price) versions["price of " + code] = material->price->version;
  }
  for (Step const& step : db::load_steps(workshop, on).steps)
    versions["step " + std::string(operation_row(step.kind).name)] = step.version;
  for (db::Setting const& setting : db::settings(workshop, on))
    versions["setting " + setting.name] = setting.version;
  for (db::TextVersion const& outlet : db::texts_in_force(workshop, db::TextOf::outlet, on))
    versions["outlet " + outlet.code] = outlet.id;
  for (db::TextVersion const& service : db::texts_in_force(workshop, db::TextOf::carriage, on))
    versions["carriage " + service.code] = service.id;
  return versions;
}

std::vector<Fault> changes_since(Versions const& then, Versions const& now) {
  std::vector<Fault> faults;
  auto const changed = [&](std::string const& name) {
    faults.push_back(
        {FaultCode::changed_meanwhile, {"quote make", 0, 0, name}, name, "to run the command again", {}});
  };
  for (auto const& [name, version] : then) {
    auto const is = now.find(name);
    if (is == now.end() || is->second != version) changed(name);
  }
  for (auto const& [name, version] : now)
    if (!then.contains(name)) changed(name);
  return faults;
}

}  // namespace endband::cli
