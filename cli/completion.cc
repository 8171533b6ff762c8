// SPDX-License-Identifier: MIT
#include "cli/completion.h"

#include <algorithm>
#include <exception>
#include <optional>
#include <string_view>

#include "io/read/suggest.h"
#include "io/write/sweep_columns.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

struct Shell {
  std::string_view name, script;
};

// Each takes the names of files where the program has nothing to offer.
constexpr Shell kShells[]{{"bash",
                           R"(# Put it where bash looks: linkwright completion bash >
# ~/.local/share/bash-completion/completions/linkwright
_linkwright() {
  local word quote= offered
  local -a words=("${COMP_WORDS[@]:1:COMP_CWORD}")
  local last=$((${#words[@]} - 1))
  case ${words[last]} in [\"\']*) quote=${words[last]:0:1}; words[last]=${words[last]:1};; esac
  for word in "${!words[@]}"; do
    ((word < last)) && eval "words[word]=${words[word]}" 2>/dev/null
  done
  COMPREPLY=()
  while IFS= read -r offered; do
    if [[ -z $quote ]]; then printf -v offered %q "$offered"; fi
    COMPREPLY+=("$offered")
  done < <("${COMP_WORDS[0]}" __complete "${words[@]}" 2>/dev/null)
}
complete -o bashdefault -o default -F _linkwright linkwright
)"},
                          {"zsh",
                           R"(#compdef linkwright
# Put it where zsh looks: linkwright completion zsh > a folder of $fpath/_linkwright
_linkwright() {
  local -a offered
  offered=("${(@f)$("${words[1]}" __complete "${(@Q)words[2,CURRENT]}" 2>/dev/null)}")
  if [[ -n "${offered[*]}" ]]; then
    compadd -a offered
  else
    _files
  fi
}
if [[ ${funcstack[1]} = _linkwright ]]; then
  _linkwright "$@"
else
  compdef _linkwright linkwright
fi
)"},
                          {"fish",
                           R"(# Put it where fish looks: linkwright completion fish >
# ~/.config/fish/completions/linkwright.fish
function __linkwright_complete
  set -l words (commandline -opc)
  set -l offered ($words[1] __complete $words[2..-1] (commandline -ct) 2>/dev/null)
  if test (count $offered) -gt 0
    printf '%s\n' $offered
  else
    __fish_complete_path (commandline -ct)
  end
end
complete -c linkwright -f -a '(__linkwright_complete)'
)"}};

std::vector<std::string> LoadsIn(const Vehicle& vehicle) {
  std::vector<std::string> names;
  if (IsGeometryOnly(vehicle)) return names;
  for (const Load& load : vehicle.loads) names.push_back(load.name);
  return names;
}

std::vector<std::string> ColumnsIn(const VehicleFile& file) {
  Sweep none;
  if (!IsGeometryOnly(file.vehicle)) none.stance.emplace();
  none.axle = file.vehicle.only_axle;
  std::vector<std::string> names;
  for (const Column& column : SweepTable(file.vehicle, none, file.units).columns) {
    names.push_back(column.name);
  }
  return names;
}

// A command line as far as it is written.
struct Written {
  const Command* command;
  std::vector<std::string> words;  // after the command's name, without the last
  const Option* open = nullptr;    // the option whose word comes next; null: none
  std::vector<std::string> files = {};
};

const Option* FindOption(const std::vector<Option>& options, const std::string& name) {
  const auto found = std::find_if(options.begin(), options.end(),
                                  [&](const Option& option) { return option.name == name; });
  return found == options.end() || IsFile(*found) ? nullptr : &*found;
}

// errors: none; refers to `options`
void Follow(const std::vector<Option>& options, Written& written) {
  int left = 0;  // words that the open option still takes; below 0: any number
  for (const std::string& word : written.words) {
    if (const Option* option = FindOption(options, word)) {
      written.open = option->count == kFlag ? nullptr : option;
      left = option->count;
      continue;
    }
    if (written.open == nullptr) {
      written.files.push_back(word);
      continue;
    }
    if (left > 0 && --left == 0) written.open = nullptr;
  }
}

std::vector<std::string> WordsFor(const Option& option, const std::vector<std::string>& files) {
  if (!option.choices.empty()) return option.choices;
  if (option.name != "--load" && option.name != "--column") return {};
  for (const std::string& path : files) {
    try {
      const VehicleFile file = ReadVehicleFile(path);
      return option.name == "--load" ? LoadsIn(file.vehicle) : ColumnsIn(file);
    } catch (const std::exception&) {
      continue;  // what cannot be read has no names; the command will say why
    }
  }
  return {};
}

std::vector<std::string> Offered(const std::vector<std::string>& words,
                                 const std::vector<Command>& commands) {
  const std::string& last = words.back();
  std::vector<std::string> names;
  if (words.size() == 1) {
    if (last.starts_with('-')) return {"--help", "--version", "--man"};
    for (const Command& command : commands) {
      if (command.name != kPageName) names.push_back(command.name);
    }
    names.emplace_back(kCompletionName);
    return names;
  }
  if (words.front() == kCompletionName) {
    for (const Shell& shell : kShells) names.emplace_back(shell.name);
    return names;
  }
  const Command* command = FindCommand(words.front(), commands);
  Written written{.command = command,
                  .words = {words.begin() + (command == nullptr ? 0 : 1), words.end() - 1}};
  if (command == nullptr) written.command = FindCommand(kPageName, commands);
  std::vector<Option> options = OptionsOf(*written.command);
  Follow(options, written);
  if (written.open != nullptr && !last.starts_with("--")) {
    return WordsFor(*written.open, written.files);
  }
  if (!last.starts_with('-')) return {};
  for (const Option& option : options) {
    if (!IsFile(option)) names.push_back(option.name);
  }
  names.emplace_back("--help");
  return names;
}

}  // namespace

std::string CompletionScript(const std::vector<std::string>& words) {
  std::string all;
  for (const Shell& shell : kShells) {
    if (words.size() == 1 && words.front() == shell.name) return std::string(shell.script);
    all += (all.empty() ? "" : ", ") + std::string(shell.name);
  }
  throw UsageError(std::string(kCompletionName) + ": a shell is wanted: " + all);
}

std::vector<std::string> Complete(const std::vector<std::string>& words,
                                  const std::vector<Command>& commands) {
  if (words.empty()) return {};
  std::vector<std::string> offered = Offered(words, commands);
  std::erase_if(offered, [&](const std::string& each) { return !each.starts_with(words.back()); });
  return offered;
}

}  // namespace linkwright
