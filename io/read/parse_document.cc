// SPDX-License-Identifier: MIT
// From the YAML parser's events to the tree of document.h.
#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "io/read/document.h"
#include "io/read/report.h"
#include "io/shown.h"

namespace linkwright {
namespace {

// A full vehicle has some 500 nodes on 7 levels. The limits stop files whose aliases multiply.
constexpr std::size_t kMostNodes = 100'000;
constexpr std::size_t kMostLevels = 32;

std::size_t NodesIn(const Node& node) {
  std::size_t nodes = 1;
  for (const Node& item : node.items) nodes += NodesIn(item);
  for (const Entry& entry : node.entries) nodes += 1 + NodesIn(entry.value);
  return nodes;
}

std::size_t LevelsIn(const Node& node) {
  std::size_t levels = 0;
  for (const Node& item : node.items) levels = std::max(levels, LevelsIn(item));
  for (const Entry& entry : node.entries) levels = std::max(levels, LevelsIn(entry.value));
  return levels + 1;
}

// Thrown to leave the parser once a limit is passed; the error is in the report by then.
struct TooMuch {};

// Turns the parser's events into the tree.
class DocumentBuilder final : public YAML::EventHandler {
 public:
  // All three must outlive the builder; the file's lines are in the report.
  DocumentBuilder(const std::string& text, const std::string& file, Report& report)
      : text_(text), file_(file), report_(report), lines_(report.sources.back().lines) {
    line_starts_.push_back(0);
    for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 1)) {
      line_starts_.push_back(at + 1);
    }
  }

  // Where a mark of the parser (bytes, from 0) is for a reader (characters, from 1).
  [[nodiscard]] Place PlaceOf(const YAML::Mark& mark) {
    if (mark.is_null()) return {file_, 1, 1};
    const auto line = static_cast<std::size_t>(mark.line);
    const auto byte = static_cast<std::size_t>(mark.column);
    if (mark.line != last_.line || byte < last_.byte) last_ = {mark.line, 0, 0};
    for (; last_.byte < byte; ++last_.byte) {
      const bool inside = line < lines_.size() && last_.byte < lines_[line].size();
      if (!inside || StartsCharacter(lines_[line][last_.byte])) ++last_.character;
    }
    return {file_, mark.line + 1, last_.character + 1};
  }

  std::optional<Node> root;

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    if (ContinuesText(mark)) return;
    Node node;
    // The parser puts a value that is not there where the next thing stands.
    const bool of_a_key = !stack_.empty() && stack_.back().has_key;
    node.place = of_a_key ? stack_.back().key_place : PlaceOf(mark);
    Count(1, 1, node.place);
    Finish(std::move(node), anchor);
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    const Place place = PlaceOf(mark);
    const auto found = anchors_.find(anchor);
    if (found == anchors_.end()) {
      AddError(report_, place, Path(), "an alias ('*') cannot stand inside what it repeats");
      throw TooMuch{};
    }
    Count(NodesIn(found->second), LevelsIn(found->second), place);
    Node node = found->second;
    node.place = place;
    Finish(std::move(node), 0);
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    Node node;
    node.kind = NodeKind::kScalar;
    node.place = PlaceOf(mark);
    node.text = value;
    node.quoted = tag == "!";
    Count(1, 1, node.place);
    CheckTag(node.place, tag);
    if (node.quoted) CheckQuoteCloses(mark);
    Finish(std::move(node), anchor);
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override {
    Open(NodeKind::kList, mark, tag, anchor, style);
  }

  void OnSequenceEnd() override { Close(); }

  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override {
    Open(NodeKind::kMap, mark, tag, anchor, style);
  }

  void OnMapEnd() override { Close(); }

 private:
  // A list or map still being read.
  struct Frame {
    Node node;
    YAML::anchor_t anchor = 0;
    bool in_braces = false;  // {a: 1}, not one key a line
    bool has_key = false;    // a map's next node is a value
    bool keep = true;        // ... which goes into the map; else its key was refused
    std::string key;
    Place key_place;
    std::map<std::string, Place> seen;
  };

  std::string Path() const {
    std::string path;
    for (const Frame& frame : stack_) {
      if (frame.node.kind == NodeKind::kList) {
        path = ItemPath(path, frame.node.items.size());
      } else if (frame.has_key) {
        path = JoinPath(path, frame.key);
      }
    }
    return path;
  }

  void Count(std::size_t nodes, std::size_t levels, const Place& place) {
    nodes_ += nodes;
    if (nodes_ > kMostNodes) {
      AddError(report_, place, Path(),
               fmt::format("the file grows beyond {} values here{}", kMostNodes,
                           nodes > 1 ? "; its aliases ('*') repeat too much" : ""));
      throw TooMuch{};
    }
    if (stack_.size() + levels > kMostLevels) {
      AddError(
          report_, place, "",
          fmt::format("lists and maps stand more than {} deep in each other here", kMostLevels));
      throw TooMuch{};
    }
  }

  void CheckTag(const Place& place, const std::string& tag) {
    if (tag.empty() || tag == "?" || tag == "!") return;
    constexpr std::string_view kStandard = "tag:yaml.org,2002:";  // written !!
    const std::string shown =
        tag.starts_with(kStandard) ? "!!" + tag.substr(kStandard.size()) : tag;
    AddError(report_, place, Path(),
             fmt::format("tags such as {} are not used; take it out", Quoted(shown)));
  }

  std::size_t OffsetOf(const YAML::Mark& mark) const {
    const auto line = static_cast<std::size_t>(std::max(mark.line, 0));
    if (line >= line_starts_.size()) return text_.size();
    return line_starts_[line] + static_cast<std::size_t>(std::max(mark.column, 0));
  }

  // The parser takes a quote that is still open at the end of the file for closed.
  void CheckQuoteCloses(const YAML::Mark& mark) {
    std::size_t at = OffsetOf(mark);
    if (at >= text_.size()) return;
    const char quote = text_[at];
    if (quote != '"' && quote != '\'') return;
    for (++at; at < text_.size(); ++at) {
      const bool pair = at + 1 < text_.size() && text_[at] == '\'' && text_[at + 1] == '\'';
      if (quote == '"' ? text_[at] == '\\' : pair) {
        ++at;
      } else if (text_[at] == quote) {
        return;
      }
    }
    AddError(report_, PlaceOf(mark), Path(), "a quote is opened here and never closed");
    throw TooMuch{};
  }

  // In braces a comma ends a text, so {item: doors, glass, mass: 30} has a key `glass` of no value.
  // Where no ':' follows such a key, it is the rest of the text before it.
  //   mark   of the value that is not there: of the ',' or '}' after the key
  bool ContinuesText(const YAML::Mark& mark) {
    if (stack_.empty() || !stack_.back().has_key || !stack_.back().in_braces) return false;
    Frame& frame = stack_.back();
    std::vector<Entry>& entries = frame.node.entries;
    if (entries.empty() || entries.back().value.kind != NodeKind::kScalar) return false;
    if (entries.back().value.quoted) return false;
    const std::size_t end = std::min(OffsetOf(mark), text_.size());
    const auto last = text_.find_last_not_of(" \t\r\n", end == 0 ? 0 : end - 1);
    if (last == std::string::npos || text_[last] == ':') return false;
    entries.back().value.text += ", " + frame.key;
    frame.has_key = false;
    return true;
  }

  void Open(NodeKind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
            YAML::EmitterStyle::value style) {
    Frame frame;
    frame.in_braces = kind == NodeKind::kMap && style == YAML::EmitterStyle::Flow;
    frame.node.kind = kind;
    frame.node.place = PlaceOf(mark);
    frame.anchor = anchor;
    Count(1, 1, frame.node.place);
    CheckTag(frame.node.place, tag);
    stack_.push_back(std::move(frame));
  }

  void Close() {
    Frame frame = std::move(stack_.back());
    stack_.pop_back();
    Finish(std::move(frame.node), frame.anchor);
  }

  // Puts a finished node where it belongs: into the list, or as key or value into the map.
  void Finish(Node node, YAML::anchor_t anchor) {
    if (anchor != 0) {
      Count(NodesIn(node), 0, node.place);
      anchors_[anchor] = node;
    }
    if (stack_.empty()) {
      root = std::move(node);
      return;
    }
    Frame& frame = stack_.back();
    if (frame.node.kind == NodeKind::kList) {
      frame.node.items.push_back(std::move(node));
    } else if (frame.has_key) {
      TakeValue(frame, std::move(node));
    } else {
      TakeKey(frame, node);
    }
  }

  void TakeKey(Frame& frame, const Node& node) {
    frame.key = node.kind == NodeKind::kScalar ? node.text : "?";
    frame.key_place = node.place;
    frame.has_key = true;
    frame.keep = false;
    const auto refuse = [&](std::string message) {
      AddError(report_, node.place, Path(), std::move(message));
    };
    if (node.kind != NodeKind::kScalar)
      return refuse("a key is a word; a list or map cannot be one");
    if (frame.key.empty()) return refuse("a key cannot be empty");
    if (std::any_of(frame.key.begin(), frame.key.end(), [](char c) { return c >= 0 && c < ' '; })) {
      return refuse("a key stands on one line");
    }
    if (frame.key == "<<" && !node.quoted) {
      return refuse("merge keys ('<<') are not supported; write the values out, or use a variant");
    }
    frame.keep = true;
  }

  void TakeValue(Frame& frame, Node node) {
    if (frame.keep) {
      const auto [seen, is_new] = frame.seen.emplace(frame.key, frame.key_place);
      const Place& first = seen->second;
      const Place& again = frame.key_place;
      if (is_new) {
        frame.node.entries.push_back({frame.key, frame.key_place, std::move(node)});
      } else {
        AddError(
            report_, again, first, Path(),
            first.line == again.line
                ? fmt::format("this key is given twice on line {}, columns {} and {}; keep one",
                              first.line, first.column, again.column)
                : fmt::format("this key is given twice, lines {} and {}; keep one", first.line,
                              again.line));
      }
    }
    frame.has_key = false;
  }

  const std::string& text_;
  const std::string& file_;
  Report& report_;
  const std::vector<std::string> lines_;
  std::vector<std::size_t> line_starts_;  // bytes
  std::vector<Frame> stack_;
  std::map<YAML::anchor_t, Node> anchors_;  // finished nodes that an alias may repeat
  std::size_t nodes_ = 0;
  struct {
    int line = -1;
    std::size_t byte = 0;
    int character = 0;
  } last_;  // the place last asked for: marks mostly move forward
};

// The parser's complaint in the words of the shop; its own where there are no better ones.
std::string SyntaxMessage(const std::string& parser_message, const std::string& line) {
  struct Translation {
    std::string_view from;
    std::string_view to;
  };
  static constexpr Translation kTranslations[] = {
      {"end of sequence flow not found", "a ',' or the closing ']' is missing before this place"},
      {"end of map flow not found", "a ',' or the closing '}' is missing before this place"},
      {"end of map not found",
       "this line does not fit the ones above: check how far it is "
       "indented, and for a missing ':' or quote"},
      {"end of sequence not found",
       "this line does not fit the list above: check how far it is "
       "indented, and for a missing '-' or quote"},
      {"illegal map value",
       "a ':' cannot stand here: one 'key: value' a line, and quotes around "
       "a text that holds ': '"},
      {"unknown token", "this character cannot start a key or value; put quotes around the text"},
      {"illegal EOF in scalar", "a quote is opened here and never closed"},
      {"the referenced anchor is not defined", "no '&' anchor of this name stands before this '*'"},
      {"illegal block entry", "a list item ('- ') cannot stand here; check how far it is indented"},
      {"illegal flow end", "this is not the bracket that closes what was opened last"},
  };
  const auto blanks = line.substr(0, line.find_first_not_of(" \t"));
  if (blanks.find('\t') != std::string::npos) return "a tab cannot indent a line; use spaces";
  for (const Translation& translation : kTranslations) {
    if (parser_message.starts_with(translation.from)) return std::string(translation.to);
  }
  return fmt::format("this is not YAML ({})", parser_message);
}

// A line of block style that should be "key:" or "key: value" and has no ':', where the parser
// stumbles over it only further down.
//   before   the line of the complaint, from 1
std::optional<Place> LineWithoutColon(const Report& report, const Place& complaint) {
  for (int line = complaint.line - 1; line > 0; --line) {
    std::string text = ExcerptAt(report, {complaint.file, line, 1}).text;
    text.resize(std::min(text.find(" #"), text.size()));
    text.resize(text.find_last_not_of(" \t") + 1);
    const std::size_t begin = text.find_first_not_of(" \t");
    if (begin == std::string::npos || text[begin] == '#') continue;
    if (text[begin] == '-' || text.find_first_of(":,[]{}'\"") != std::string::npos)
      return std::nullopt;
    const auto end = std::count_if(text.begin(), text.end(), StartsCharacter);
    return Place{complaint.file, line, static_cast<int>(end) + 1};
  }
  return std::nullopt;
}

// "150 #/in" and "100 #": to YAML a '#' behind a blank begins a remark, and the unit would be lost
// in silence.
void RefuseUnitsInRemarks(const std::string& file, Report& report) {
  std::vector<std::pair<Place, std::string>> found;
  for (const SourceText& source : report.sources) {
    if (source.file != file) continue;
    for (std::size_t i = 0; i < source.lines.size(); ++i) {
      const std::string& line = source.lines[i];
      const std::size_t mark = line.find(" #");
      if (mark == std::string::npos || line.find('#') != mark + 1) continue;
      const std::size_t number = line.find_last_not_of(' ', mark);
      if (number == std::string::npos ||
          std::isdigit(static_cast<unsigned char>(line[number])) == 0) {
        continue;
      }
      const std::string unit = line.substr(mark + 1, line.find_last_not_of(" \t") - mark);
      if (unit != "#" && !unit.starts_with("#/in")) continue;
      const auto column = std::count_if(
          line.begin(), line.begin() + static_cast<std::ptrdiff_t>(mark) + 1, StartsCharacter);
      found.emplace_back(Place{file, static_cast<int>(i) + 1, static_cast<int>(column) + 1}, unit);
    }
  }
  for (const auto& [place, unit] : found) {
    AddError(
        report, place, "",
        fmt::format("'#' begins a remark here, so this unit is not read; wanted: quotes around "
                    "the value, '150 {}', or lb{}",
                    unit, unit.substr(1)));
  }
}

// Notes where something begins where nothing more may come.
struct SecondDocument final : YAML::EventHandler {
  YAML::Mark mark;
  void OnDocumentStart(const YAML::Mark& at) override { mark = at; }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark&, YAML::anchor_t) override {}
  void OnAlias(const YAML::Mark&, YAML::anchor_t) override {}
  void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t,
                const std::string&) override {}
  void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {}
  void OnSequenceEnd() override {}
  void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                  YAML::EmitterStyle::value) override {}
  void OnMapEnd() override {}
};

}  // namespace

std::optional<Node> ParseDocument(const std::string& text, const std::string& file,
                                  Report& report) {
  DocumentBuilder builder(text, file, report);
  RefuseUnitsInRemarks(file, report);
  try {
    std::istringstream in(text);
    YAML::Parser parser(in);
    const bool any = parser.HandleNextDocument(builder);
    if (!any || !builder.root || builder.root->kind == NodeKind::kNull) {
      AddError(report, {file, 1, 1}, "", "the file is empty; a vehicle file begins with 'title:'");
      return std::nullopt;
    }
    SecondDocument second;
    if (parser.HandleNextDocument(second)) {
      AddError(report, builder.PlaceOf(second.mark), "",
               "a second document begins here; a file holds one vehicle");
    }
  } catch (const YAML::Exception& error) {
    const Place place = builder.PlaceOf(error.mark);
    if (const auto bare = LineWithoutColon(report, place)) {
      AddError(report, *bare, "", "this line has no ':'; wanted: 'key:', or 'key: value'");
    } else {
      AddError(report, place, "", SyntaxMessage(error.msg, ExcerptAt(report, place).text));
    }
    return std::nullopt;
  } catch (const TooMuch&) {
    return std::nullopt;  // already reported
  }
  return std::move(builder.root);
}

}  // namespace linkwright
