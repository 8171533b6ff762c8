// SPDX-License-Identifier: MIT
#include "io/read/document.h"

#include <fmt/format.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>

#include "io/read/document_builder.h"

namespace linkwright {
namespace {

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

const Entry* FindEntry(const Node& map, std::string_view key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(),
                                  [&](const Entry& entry) { return entry.key == key; });
  return found == map.entries.end() ? nullptr : &*found;
}

Entry* FindEntry(Node& map, std::string_view key) {
  return const_cast<Entry*>(FindEntry(static_cast<const Node&>(map), key));
}

Place BlameFor(const Node& map, std::string_view key, const Place& otherwise) {
  // The last one counts: a plan of a plan may have put it back and taken it away again.
  const auto found = std::find_if(map.removals.rbegin(), map.removals.rend(),
                                  [&](const Removal& removal) { return removal.key == key; });
  return found == map.removals.rend() ? otherwise : found->place;
}

const Node* Find(const Node& map, std::string_view key) {
  const Entry* entry = FindEntry(map, key);
  return entry == nullptr ? nullptr : &entry->value;
}

std::string JoinPath(std::string_view path, std::string_view key) {
  return path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
}

std::string ItemPath(std::string_view path, std::size_t index) {
  return fmt::format("{}[{}]", path, index + 1);
}

std::optional<Node> ParseDocument(const std::string& text, const std::string& file,
                                  Report& report) {
  DocumentBuilder builder(text, file, report);
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
    AddError(report, place, "", SyntaxMessage(error.msg, ExcerptAt(report, place).text));
    return std::nullopt;
  } catch (const TooMuch&) {
    return std::nullopt;  // already reported
  }
  return std::move(builder.root);
}

}  // namespace linkwright
