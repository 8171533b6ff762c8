// SPDX-License-Identifier: MIT
#include "cli/answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <sstream>
#include <utility>

#include "cli/shown_buffer.h"
#include "io/read/source_map.h"
#include "io/read/suggest.h"
#include "io/shown.h"
#include "io/write/csv.h"
#include "io/write/finding_words.h"
#include "io/write/text_table.h"
#include "io/write/wrap.h"
#include "io/write/xlsx.h"
#include "solver/model/error.h"
#include "solver/study/findings/vehicle_findings.h"

namespace linkwright {
namespace {

bool AnyPast(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.past; });
}

// Whether `check` would find anything to look at: what --strict of the other commands asks too.
bool IsAnythingAmiss(const VehicleFile& file) {
  try {
    return AnyPast(FindAll(PrepareRig(file.vehicle), CheckVehicle(file.vehicle)).findings);
  } catch (const ModelError&) {
    return true;  // the command that needs what cannot be prepared has said so
  }
}

bool IsAnythingAmiss(const Answer& answer, const Question& asked) {
  if (answer.amiss || AnyPast(answer.findings)) return true;
  return !answer.all_findings &&
         std::any_of(asked.files.begin(), asked.files.end(),
                     [](const VehicleFile& file) { return IsAnythingAmiss(file); });
}

// "van.yaml:12:3: " of the line that is to blame: where something may be a slip.
std::string PlaceOf(const Finding& finding, const VehicleFile& file) {
  if (finding.part.empty() || TraitOf(finding.kind).harm != Harm::kSlip) return {};
  const SourceEntry* source = FindSource(file.places, finding.part);
  if (source == nullptr || source->place.line == 0) return {};
  return fmt::format("{}:{}:{}: ", source->place.file, source->place.line, source->place.column);
}

// Ends as it is called, or ends in that word: "margins" is in "front margins".
bool IsCalled(const NamedTable& table, const std::string& name) {
  return table.name == name || table.name.ends_with(" " + name);
}

bool IsShown(const NamedTable& table, const Answer& answer) {
  return std::any_of(answer.shown.begin(), answer.shown.end(),
                     [&](const std::string& name) { return IsCalled(table, name); });
}

// What --full prints.
const std::vector<NamedTable>& InFull(const Answer& answer) {
  return answer.in_full.empty() ? answer.tables : answer.in_full;
}

// All that --table can name.
std::vector<NamedTable> AllTables(const Answer& answer) {
  std::vector<NamedTable> all = answer.tables;
  for (const auto* more : {&answer.glance, &answer.in_full}) {
    all.insert(all.end(), more->begin(), more->end());
  }
  return all;
}

std::string Joined(const std::vector<std::string>& words) {
  std::string joined;
  for (const std::string& word : words) joined += (joined.empty() ? "" : ", ") + word;
  return joined;
}

std::vector<std::string> NamesOf(const std::vector<NamedTable>& tables) {
  std::vector<std::string> names;
  for (const NamedTable& named : tables) names.push_back(named.name);
  return names;
}

// The table that --table names, or those that it ends: "margins" is "front margins" and "rear
// margins". errors: UsageError
std::vector<NamedTable> AskedTables(const std::vector<NamedTable>& tables, const Question& asked) {
  const std::string name = WordOf(asked, "--table");
  std::vector<NamedTable> found;
  for (const NamedTable& named : tables) {
    if (named.name == name) return {named};
    if (IsCalled(named, name)) found.push_back(named);
  }
  if (!found.empty()) return found;
  const std::vector<std::string> names = NamesOf(tables);
  const std::string nearest = NearestWord(name, {names.begin(), names.end()});
  throw UsageError("--table: there is no table '" + name + "'; " +
                   (nearest.empty() ? "" : "did you mean '" + nearest + "'? ") +
                   "there are: " + Joined(names));
}

// "front margins" as a file's name.
std::string FileName(const std::string& table) {
  std::string name = table;
  for (char& c : name) {
    if (!std::isalnum(static_cast<unsigned char>(c)) && c != '.' && c != '-') c = '_';
  }
  return name + ".csv";
}

// One table a file, or a folder with a file each.
//   errors   UsageError where a file cannot hold them all; WriteError for a folder that cannot be
//            made
void AddCsv(const Answer& answer, const std::vector<NamedTable>& tables, const Question& asked,
            std::vector<OutputFile>& outputs) {
  const std::string path = WordOf(asked, "--csv");
  if (path.ends_with(".xlsx")) {
    throw UsageError("--csv: '" + path + "' is a workbook's name: for one give --xlsx " + path);
  }
  if (path.ends_with('/') || IsFolder(path)) {
    const std::string folder = path.ends_with('/') ? path : path + "/";
    for (const NamedTable& named : tables) {
      outputs.push_back({folder + FileName(named.name), ToCsv(named.table)});
    }
    MakeFolder(folder);
    return;
  }
  if (tables.size() > 1 && !(answer.first_is_main && !IsGiven(asked, "--table"))) {
    throw UsageError("--csv: one file holds one table, and here are " + Joined(NamesOf(tables)) +
                     ": name one with --table, or give a folder: --csv " + path + "/");
  }
  outputs.push_back({path, ToCsv(tables.front().table)});
}

void WriteFiles(const Answer& answer, const std::vector<NamedTable>& tables, const Question& asked,
                Document document) {
  std::vector<std::string> inputs;
  for (const VehicleFile& file : asked.files) {
    document.file += (document.file.empty() ? "" : ", ") + file.path;
    inputs.insert(inputs.end(), file.inputs.begin(), file.inputs.end());
  }
  if (answer.standing) document.tables.push_back(*answer.standing);
  document.tables.insert(document.tables.end(), tables.begin(), tables.end());
  std::vector<OutputFile> outputs;
  if (IsGiven(asked, "--csv")) AddCsv(answer, tables, asked, outputs);
  if (IsGiven(asked, "--json")) outputs.push_back({WordOf(asked, "--json"), ToJson(document)});
  if (IsGiven(asked, "--xlsx")) outputs.push_back({WordOf(asked, "--xlsx"), ToXlsx(document)});
  if (answer.plan) outputs.push_back(*answer.plan);
  WriteTogether(outputs, inputs);
}

// What is printed, no wider than the window: text, and the colour it has where there is any.
class Page {
 public:
  explicit Page(size_t width) : width_(width) {}

  void Say(const std::string& sentence, const char* first = "", const char* rest = "") {
    Add(Wrap(sentence, width_, first, rest));
  }
  void Line(const std::string& text = {}) { Add(text + "\n"); }
  void Item(const std::string& sentence) { Add(Wrap(sentence, width_, "- ", "  ")); }
  void Below(const std::string& sentence) { Add(Wrap(sentence, width_, "    ", "    ")); }
  void Table(const NamedTable& named) { Add(ToText(named.name, named.table, width_) + "\n"); }
  void Heading(const std::string& text, const char* color) {
    pieces_.push_back({text, color}), Line();
  }
  void Append(const Page& page) {
    pieces_.insert(pieces_.end(), page.pieces_.begin(), page.pieces_.end());
  }

  [[nodiscard]] size_t Lines() const {
    size_t lines = 0;
    for (const Piece& piece : pieces_) {
      lines += static_cast<size_t>(std::count(piece.text.begin(), piece.text.end(), '\n'));
    }
    return lines;
  }
  void PrintOn(std::ostream& to, bool in_color) const {
    constexpr const char* kPlain = "\x1b[0m";
    for (const Piece& piece : pieces_) {
      const bool is_colored = in_color && *piece.color != '\0';
      if (is_colored) PassOn(to, piece.color);
      to << piece.text;
      if (is_colored) PassOn(to, kPlain);
    }
  }

 private:
  struct Piece {
    std::string text;
    const char* color = "";
  };
  void Add(const std::string& text) { pieces_.push_back({text}); }

  size_t width_;
  std::vector<Piece> pieces_;
};

// The lines that stand over every answer.
void PrintHeading(const std::vector<VehicleFile>& files, Page& page) {
  if (files.size() == 1) {
    page.Say(Shown(files[0].vehicle.title));
    page.Line(Shown(files[0].path));
  } else {
    for (size_t i = 0; i < 2; ++i) {
      page.Say(Shown(files[i].vehicle.title), i == 0 ? "first:  " : "second: ", "        ");
      page.Line("        " + Shown(files[i].path));
    }
    page.Line("change: second less first");
  }
  page.Line();
}

// Of the heading of a harm, which says the same in words: bold red, red, yellow, plain.
const char* ColorOf(Harm harm) {
  constexpr std::array kColors{"\x1b[1;31m", "\x1b[31m", "\x1b[33m", "", ""};
  return kColors.at(static_cast<size_t>(harm));
}

// "4 more (wears or drives badly: 2; looks wrong: 2): --full tells them."
std::string RestWords(const std::vector<Finding>& rest, const std::string& by) {
  std::string counts;
  for (size_t at = 0; at < rest.size();) {
    const Harm harm = TraitOf(rest[at].kind).harm;
    size_t end = at;
    while (end < rest.size() && TraitOf(rest[end].kind).harm == harm) ++end;
    std::string words = HarmWords(harm);
    words.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(words.front())));
    counts += fmt::format("{}{}: {}", counts.empty() ? "" : "; ", words, end - at);
    at = end;
  }
  return fmt::format("{} more ({}): {} tells {}.", rest.size(), counts, by,
                     rest.size() == 1 ? "it" : "them");
}

// The first `count` of those past their aims under the heading of their harm; of the others, how
// many there are.
void AddFindings(const std::vector<Finding>& past, size_t count, const Answer& answer,
                 const Question& asked, Page& page) {
  const VehicleFile& file = asked.files.front();
  std::optional<Harm> under;
  for (size_t i = 0; i < count; ++i) {
    const Harm harm = TraitOf(past[i].kind).harm;
    if (under != harm) page.Heading(HarmWords(harm), ColorOf(harm));
    under = harm;
    if (answer.remedies) {
      page.Item(PlaceOf(past[i], file) + Words(past[i], file.vehicle, asked.units));
      continue;
    }
    page.Item(PlaceOf(past[i], file) + Line(past[i], file.vehicle, asked.units));
    if (IsGiven(asked, "--full")) {
      page.Below(TraitOf(past[i].kind).slug + std::string(": ") +
                 Words(past[i], file.vehicle, asked.units));
    }
  }
  if (count < past.size()) {
    const auto rest = past.begin() + static_cast<std::ptrdiff_t>(count);
    page.Say(RestWords({rest, past.end()}, answer.rest_by));
  }
  if (!past.empty()) page.Line();
}

// The worst harm first, as many as there is room for.
//   others   lines that are printed beside them
void PrintFindings(const Answer& answer, const Question& asked, size_t width, size_t others,
                   Page& page) {
  std::vector<Finding> past = answer.findings;
  std::erase_if(past, [](const Finding& finding) { return !finding.past; });
  const bool all = IsGiven(asked, "--full");
  size_t count = past.size();
  if (!all && answer.most_findings > 0) count = std::min(count, answer.most_findings);
  const auto hurts =
      static_cast<size_t>(std::count_if(past.begin(), past.end(), [](const Finding& finding) {
        return TraitOf(finding.kind).harm == Harm::kHurts;
      }));
  for (;; --count) {
    Page listed(width);
    AddFindings(past, count, answer, asked, listed);
    const bool fits = all || answer.most_lines == 0 || others + listed.Lines() <= answer.most_lines;
    if (!fits && count > std::max(hurts, answer.least_findings)) continue;
    page.Append(listed);
    return;
  }
}

// "2 findings are accepted: coil-preload rear coil, no-bump-stop", as the file names them.
void PrintAccepted(const std::vector<AcceptedFinding>& accepted, Page& page) {
  if (accepted.empty()) return;
  std::vector<std::string> names;
  for (const AcceptedFinding& each : accepted) {
    if (std::find(names.begin(), names.end(), each.by.of) == names.end()) {
      names.push_back(each.by.of);
    }
  }
  page.Say(fmt::format("{} accepted: {}.",
                       accepted.size() == 1 ? std::string("1 finding is")
                                            : std::to_string(accepted.size()) + " findings are",
                       Joined(names)));
  page.Line();
}

// What else there is to see and how.
void PrintMore(const Answer& answer, Page& page) {
  std::vector<std::string> others;
  for (const NamedTable& named : InFull(answer)) {
    if (!IsShown(named, answer)) others.push_back(named.name);
  }
  std::vector<std::string> more;
  if (AnyPast(answer.findings) && !answer.remedies) {
    more.push_back("what mends each and its slug for linkwright explain SLUG");
  }
  constexpr size_t kFew = 8;
  if (others.size() > kFew) {
    more.push_back(std::to_string(others.size()) + " more tables");
  } else if (!others.empty()) {
    more.push_back((others.size() == 1 ? "the table " : "the tables ") + Joined(others) +
                   " (one alone: --table NAME)");
  }
  if (!answer.notes.empty()) more.push_back("what is assumed and how it was reckoned");
  if (more.empty()) return;
  if (more.size() > 1) more.back().insert(0, "and ");
  page.Say("With --full also " + Joined(more) + ".");
}

// Everything for --full: findings that are judged and well, and the notes.
void PrintNotes(const Answer& answer, const Question& asked, Page& page) {
  const VehicleFile& file = asked.files.front();
  for (const Finding& finding : answer.findings) {
    if (!finding.past) page.Item(Words(finding, file.vehicle, asked.units));
  }
  for (const std::string& note : answer.notes) page.Item(note);
}

Page PageOf(const Answer& answer, const Question& asked, size_t width) {
  Page page(width);
  if (IsGiven(asked, "--table")) {
    for (const NamedTable& named : AskedTables(AllTables(answer), asked)) page.Table(named);
    return page;
  }
  PrintHeading(asked.files, page);
  if (!answer.about.empty()) page.Line(answer.about), page.Line();
  for (const std::string& sentence : answer.said) page.Say(sentence);
  if (!answer.said.empty()) page.Line();
  Page under(width);
  const bool full = IsGiven(asked, "--full");
  if (!full) {
    for (const NamedTable& named : answer.glance) under.Table(named);
  }
  for (const NamedTable& named : InFull(answer)) {
    if (full) {
      under.Table(named);
    } else if (IsShown(named, answer)) {
      under.Table({named.name, WithoutDetail(named.table)});
    }
  }
  for (const std::string& sentence : answer.foot) under.Say(sentence);
  if (full) {
    PrintNotes(answer, asked, under);
  } else {
    PrintMore(answer, under);
  }
  std::istringstream cautions(answer.cautions);
  for (std::string line; std::getline(cautions, line);) under.Say(line);
  Page accepted(width);
  PrintAccepted(answer.accepted, accepted);
  PrintFindings(answer, asked, width, page.Lines() + accepted.Lines() + under.Lines(), page);
  page.Append(accepted);
  page.Append(under);
  return page;
}

}  // namespace

std::string Cautions() {
  return "\nA prediction of geometry, not an approval: strength, welds, brakes and handling are "
         "outside it. "
         "Local codes decide and licensed people sign. Coils hold energy when the truck is on "
         "stands.\n";
}

std::string LoadLine(const Load* load) {
  return load == nullptr ? "as measured" : "load: " + Shown(load->name);
}

void AddNotes(const std::vector<std::string>& notes, Answer& to) {
  to.notes.insert(to.notes.end(), notes.begin(), notes.end());
}

int HandOut(const std::string& command, const Answer& answer, const Question& asked,
            const Window& window, std::ostream& out, std::ostream& err) {
  const VehicleFile& file = asked.files.front();
  Answer sorted = answer;
  for (AcceptedFinding& each : TakeAccepted(file.vehicle, sorted.findings)) {
    sorted.accepted.push_back(std::move(each));
  }
  SortByHarm(sorted.findings);
  std::vector<NamedTable> tables = IsGiven(asked, "--table") ? AllTables(answer) : answer.tables;
  if (!sorted.findings.empty()) {
    tables.push_back(FindingsTable(sorted.findings, file.vehicle, asked.units,
                                   [&](const Finding& finding) { return PlaceOf(finding, file); }));
  }
  if (!sorted.accepted.empty()) {
    tables.push_back(AcceptedTable(sorted.accepted, file.vehicle, asked.units));
  }
  std::vector<std::string> sentences = answer.said;
  sentences.insert(sentences.end(), answer.foot.begin(), answer.foot.end());
  WriteFiles(answer, IsGiven(asked, "--table") ? AskedTables(tables, asked) : tables, asked,
             {.command = command,
              .file = {},
              .title = file.vehicle.title,
              .answer = sentences,
              .tables = {},
              .notes = answer.notes});
  if (IsGiven(asked, "--table")) sorted.tables = tables, sorted.glance = sorted.in_full = {};
  PageOf(sorted, asked, window.width).PrintOn(out, window.color);
  out.flush();
  err << answer.complaint;
  if (!IsGiven(asked, "--strict") || !IsAnythingAmiss(sorted, asked)) return answer.exit;
  err << "linkwright: under --strict the answer is no: something in the file is to be looked at; "
         "linkwright check names it\n";
  return answer.exit == kDone ? kAnswerIsNo : answer.exit;
}

}  // namespace linkwright
