// SPDX-License-Identifier: MIT
// Turns the YAML parser's events into the tree of document.h. Private to document.cc.
#pragma once

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/mark.h>

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/read/document.h"
#include "io/read/report.h"

namespace linkwright {

// Thrown to leave the parser once a limit is passed; the error is in the report by then.
struct TooMuch {};

class DocumentBuilder final : public YAML::EventHandler {
 public:
  // All three must outlive the builder; the file's lines are in the report.
  DocumentBuilder(const std::string& text, const std::string& file, Report& report);

  // Where a mark of the parser (bytes, from 0) is for a reader (characters, from 1).
  [[nodiscard]] Place PlaceOf(const YAML::Mark& mark);

  std::optional<Node> root;

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override;
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override;
  void OnSequenceEnd() override { Close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override;
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

  void CheckTag(const Place& place, const std::string& tag);
  void CheckQuoteCloses(const YAML::Mark& mark);
  bool ContinuesText(const YAML::Mark& mark);
  void Open(NodeKind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
            YAML::EmitterStyle::value style);
  void Close();
  void Finish(Node node, YAML::anchor_t anchor);
  void TakeKey(Frame& frame, const Node& node);
  void TakeValue(Frame& frame, Node node);
  void Count(std::size_t nodes, std::size_t levels, const Place& place);
  [[nodiscard]] std::string Path() const;
  [[nodiscard]] std::size_t OffsetOf(const YAML::Mark& mark) const;  // byte in the text

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

}  // namespace linkwright
