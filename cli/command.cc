// SPDX-License-Identifier: MIT
#include "cli/command.h"

#include <spdlog/logger.h>

#include "cli/progress.h"
#include "cli/settled.h"
#include "io/read/vehicle_file.h"
#include "solver/model/error.h"

namespace linkwright {
namespace {

VehicleFile ReadFor(const std::string& path, const Streams& streams) {
  VehicleFile file = ReadVehicleFile(path);
  for (const std::string& input : file.inputs) streams.log.info("read {}", input);
  for (const size_t i : AxlesOf(file.vehicle)) {
    const Axle& axle = file.vehicle.axles[i];
    streams.log.info("{} axle: {} links, {} coils, {} stops, {} dampers", axle.name,
                     axle.links.size(), axle.springs.size(), axle.bump_stops.size(),
                     axle.dampers.size());
  }
  return file;
}

Answer AnswerOf(const Command& command, const Question& asked, const Streams& streams) {
  const Progress progress(command.name, streams.window.progress ? &streams.err : nullptr);
  return command.answer(asked);
}

}  // namespace

std::vector<Option> OptionsOf(const Command& command) {
  std::vector<Option> options = command.options;
  if (command.say != nullptr) return options;  // it asks about no vehicle
  for (const Option& option : CommonOptions()) options.push_back(option);
  return options;
}

const Command* FindCommand(std::string_view name, const std::vector<Command>& commands) {
  for (const Command& command : commands) {
    if (command.name == name) return &command;
  }
  return nullptr;
}

int RunCommand(const Command& command, std::vector<Given> given, const Streams& streams) {
  Question asked{.given = std::move(given), .files = {}};
  if (command.say != nullptr) {
    streams.out << command.say(asked, streams.window.width);
    return kDone;
  }
  if (IsGiven(asked, "--verbose")) streams.log.set_level(spdlog::level::info);
  for (const Given& each : asked.given) {
    if (IsFile(each.option)) asked.files.push_back(ReadFor(each.words.front(), streams));
  }
  const VehicleFile& file = asked.files.front();
  asked.units = ParseUnitSystem(WordOf(asked, "--units")).value_or(file.units);
  try {
    return HandOut(command.name, AnswerOf(command, asked, streams), asked, streams.window,
                   streams.out, streams.err);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  } catch (const NoRest& refusal) {
    streams.err << refusal.what();
    return kAnswerIsNo;
  }
}

}  // namespace linkwright
