// SPDX-License-Identifier: MIT
#include "io/read/json_schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "io/read/format.h"

namespace linkwright {
namespace {

using Json = nlohmann::ordered_json;

Json Reference(std::string_view definition) {
  return {{"$ref", fmt::format("#/definitions/{}", definition)}};
}

// "spring_rate": the definition that holds a dimension's numbers and value strings.
std::string DefinitionName(Dimension dimension) {
  std::string name(DimensionName(dimension));
  std::replace(name.begin(), name.end(), ' ', '_');
  return name;
}

Json ValueDefinition(Dimension dimension) {
  return {{"description", WantedText(dimension)},
          {"anyOf",
           {{{"type", "number"}}, {{"type", "string"}, {"pattern", ValuePattern(dimension)}}}}};
}

// Only bounds that hold whatever the unit: the sign, and those of plain numbers.
void AddBounds(const Key& key, Json& json) {
  if (key.range.low == 0.0) {
    json[key.range.above_low ? "exclusiveMinimum" : "minimum"] = 0;
    json["pattern"] = "^ *[^- \u2212]";
  }
  if (key.dimension == Dimension::kNumber && key.range.high < 1e9) {
    json["maximum"] = key.range.high;
  }
}

Json NumberSchema(const Key& key) {
  Json number = {{"allOf", Json::array({Reference(DefinitionName(key.dimension))})}};
  AddBounds(key, number);
  if (key.words.empty()) return number;
  return {{"anyOf", Json::array({number, {{"enum", key.words}}})}};
}

Json ListOf(const Json& items, std::size_t least, std::size_t most) {
  Json list = {{"type", "array"}, {"items", items}};
  if (least > 0) list["minItems"] = least;
  if (most > 0) list["maxItems"] = most;
  return list;
}

Json OneSchema(const Key& key) {
  switch (key.kind) {
    case Kind::kText:
      return {{"type", {"string", "number", "boolean"}}, {"minLength", 1}};
    case Kind::kWord:
      return {{"enum", key.words}};
    case Kind::kWords:
      return ListOf({{"enum", key.words}}, 2, 2);
    case Kind::kFlag:
      return {{"type", "boolean"}};
    case Kind::kNumber:
      return NumberSchema(key);
    case Kind::kPoint:
      return ListOf(Reference(DefinitionName(Dimension::kLength)), 3, 3);
    case Kind::kSide:
      return ListOf(Reference(DefinitionName(Dimension::kLength)), 2, 2);
    case Kind::kCurve: {
      Json point = Json::array();
      for (const Key& item : ItemKeys(key)) point.push_back(NumberSchema(item));
      return ListOf(ListOf(point, 2, 2), 2, 0);
    }
    case Kind::kPaths:
      return {{"type", "object"}};
    case Kind::kGroup:
      return {{"allOf", Json::array({Reference(key.group)})}};
  }
  return {};
}

Json KeySchema(const Key& key) {
  Json one = OneSchema(key);
  const auto named = [](const Json& value) {
    return Json{
        {"type", "object"}, {"additionalProperties", value}, {"propertyNames", {{"minLength", 1}}}};
  };
  Json schema = {{"description", key.meaning}};
  if (!key.default_text.empty()) {
    schema["description"] = fmt::format("{} Unless given: {}.", key.meaning, key.default_text);
  }
  switch (key.many) {
    case Many::kOne:
      schema.update(one);
      break;
    case Many::kList:
      schema.update(ListOf(one, 0, 0));
      break;
    case Many::kNamed:
      schema.update(named(one));
      break;
    case Many::kNamedList:
      schema.update(named(ListOf(one, 0, 0)));
      break;
  }
  return schema;
}

void AddRule(const Rule& rule, Json& schema) {
  const auto required = [](std::string_view key) { return Json{{"required", Json::array({key})}}; };
  switch (rule.kind) {
    case RuleKind::kExactlyOne:
      for (const std::string_view key : rule.keys) schema["oneOf"].push_back(required(key));
      break;
    case RuleKind::kAtLeastOne:
      for (const std::string_view key : rule.keys) schema["anyOf"].push_back(required(key));
      break;
    case RuleKind::kAtMostOne:
      schema["not"] = {{"required", rule.keys}};
      break;
    case RuleKind::kNeeds:
      schema["dependencies"][std::string(rule.keys[0])] =
          std::vector<std::string_view>(rule.keys.begin() + 1, rule.keys.end());
      break;
  }
}

Json GroupSchema(const Group& group) {
  Json schema = {{"type", "object"}, {"additionalProperties", false}};
  // To other readers the rest of such a text is a key without value.
  if (group.takes_commas) schema["additionalProperties"] = {{"type", "null"}};
  for (const Key& key : group.keys) schema["properties"][std::string(key.name)] = KeySchema(key);
  for (const Key& key : group.keys) {
    if (key.required) schema["required"].push_back(key.name);
  }
  for (const Rule& rule : group.rules) AddRule(rule, schema);
  return schema;
}

// The dimensions that numbers in the table have, in the order they first come up.
std::vector<Dimension> UsedDimensions() {
  std::vector<Dimension> used = {Dimension::kLength, Dimension::kForce};  // of points and curves
  for (const Group& group : Format()) {
    for (const Key& key : group.keys) {
      const bool is_new = std::find(used.begin(), used.end(), key.dimension) == used.end();
      if (key.kind == Kind::kNumber && is_new) used.push_back(key.dimension);
    }
  }
  return used;
}

}  // namespace

std::string JsonSchema() {
  Json schema = {{"$schema", "http://json-schema.org/draft-07/schema#"},
                 {"title", "linkwright vehicle file"},
                 {"description", "A vehicle, or with 'base' a variant of one."},
                 {"if", {{"required", {"base"}}}},
                 {"then", Reference("variant")},
                 {"else", Reference("vehicle")}};
  for (const Group& group : Format()) {
    schema["definitions"][std::string(group.name)] = GroupSchema(group);
  }
  for (const Dimension dimension : UsedDimensions()) {
    schema["definitions"][DefinitionName(dimension)] = ValueDefinition(dimension);
  }
  return schema.dump(2) + "\n";
}

}  // namespace linkwright
