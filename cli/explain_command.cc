// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <cctype>
#include <optional>
#include <sstream>
#include <vector>

#include "cli/command.h"
#include "cli/explain.h"
#include "io/read/format.h"
#include "io/read/suggest.h"
#include "io/shown.h"
#include "io/write/finding_pages.h"
#include "io/write/finding_words.h"
#include "io/write/wrap.h"
#include "solver/study/findings/accepted.h"

namespace linkwright {
namespace {

constexpr std::array kHarms{Harm::kHurts, Harm::kHits, Harm::kWears, Harm::kLooksWrong,
                            Harm::kSlip};

struct Paragraph {
  std::string head, text;
};

std::vector<const Key*> AimsOf(const FindingPage& page) {
  std::vector<const Key*> aims;
  std::istringstream names{std::string(page.aims_keys)};
  for (std::string name; names >> name;) aims.push_back(&FindKey(page.aims_group, name));
  return aims;
}

// What it is held against and whose figure that is.
std::string AimText(const FindingPage& page) {
  const std::vector<const Key*> aims = AimsOf(page);
  if (aims.empty()) return fmt::format("Told {}.", page.fixed);
  std::string text;
  for (const Key* aim : aims) {
    text += (text.empty() ? "" : " ") + std::string(aim->meaning);
    if (!aim->default_text.empty()) text += fmt::format(" It is {}.", aim->default_text);
  }
  return text;
}

// How to set it.
std::string SetText(const FindingPage& page) {
  std::string keys;
  for (const Key* aim : AimsOf(page)) {
    keys += fmt::format("{}{}: {}", keys.empty() ? "" : ", ", aim->name,
                        aim->default_text.empty() ? "VALUE" : aim->default_text);
  }
  return fmt::format("In the vehicle file, {}: {{{}}}", FindGroup(page.aims_group).heading, keys);
}

std::vector<Paragraph> ParagraphsOf(FindingKind kind) {
  const FindingPage& page = FindingPageOf(kind);
  const char* slug = TraitOf(kind).slug;
  std::vector<Paragraph> paragraphs{{"Why it matters", std::string(page.why)},
                                    {"Aim", AimText(page)},
                                    {"Mend it", std::string(page.mend)}};
  if (!page.aims_keys.empty()) paragraphs.push_back({"Set the aim", SetText(page)});
  const bool hurts = TraitOf(kind).harm == Harm::kHurts;
  paragraphs.push_back(
      {"Accept it",
       fmt::format("In the vehicle file, accept: {{{}: why}}, or of one member alone, as the "
                   "finding names it, accept: {{{} MEMBER: why}}{}",
                   slug, slug,
                   hurts ? ". It can hurt someone: only where you have made sure that it cannot "
                           "come to that."
                         : "")});
  return paragraphs;
}

template <typename Visit>
void ForEachOf(Harm harm, const Visit& visit) {
  for (size_t i = 0; i < kFindingKinds; ++i) {
    const auto kind = static_cast<FindingKind>(i);
    if (TraitOf(kind).harm == harm) visit(kind);
  }
}

std::string AnswerExplain(const Question& asked, size_t width) {
  const std::string slug = WordOf(asked, "SLUG");
  if (slug.empty()) return ListOfFindings();
  if (const std::optional<FindingKind> kind = KindOf(slug)) return Explain(*kind, width);
  std::vector<std::string_view> slugs;
  for (size_t i = 0; i < kFindingKinds; ++i) {
    slugs.emplace_back(TraitOf(static_cast<FindingKind>(i)).slug);
  }
  const std::string nearest = NearestWord(slug, slugs);
  throw UsageError(fmt::format("explain: no finding is called {}; {}", Quoted(slug),
                               nearest.empty() ? "linkwright explain lists them all"
                                               : fmt::format("did you mean '{}'?", nearest)));
}

}  // namespace

std::string Explain(FindingKind kind, size_t width) {
  const FindingTrait& trait = TraitOf(kind);
  std::string text = Wrap(fmt::format("{}: {}", trait.slug, FindingPageOf(kind).meaning), width) +
                     HarmWords(trait.harm) + "\n";
  for (const Paragraph& paragraph : ParagraphsOf(kind)) {
    text += "\n" + Wrap(paragraph.head + ": " + paragraph.text, width, "", "  ");
  }
  return text;
}

std::string ListOfFindings() {
  constexpr size_t kSlugWidth = kUsualWidth - kMeaningWidth - 4;
  std::string text;
  for (const Harm harm : kHarms) {
    text += (text.empty() ? "" : "\n") + std::string(HarmWords(harm)) + "\n";
    ForEachOf(harm, [&](FindingKind kind) {
      text += fmt::format("  {:<{}}  {}\n", TraitOf(kind).slug, kSlugWidth,
                          FindingPageOf(kind).meaning);
    });
  }
  return text + "\nlinkwright explain SLUG says what one means, and what mends it.\n";
}

std::string FindingsDocument() {
  std::string text =
      "# Findings\n\n"
      "What `linkwright check` and the commands of one question point at, the worst harm first. "
      "`linkwright explain SLUG`\nprints one entry; this page is made from the same table, and a "
      "test holds it to that.\n";
  for (const Harm harm : kHarms) {
    text += fmt::format("\n## {}\n", HarmWords(harm));
    ForEachOf(harm, [&](FindingKind kind) {
      std::string meaning(FindingPageOf(kind).meaning);
      meaning[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(meaning[0])));
      text += fmt::format("\n### {}\n\n{}.\n", TraitOf(kind).slug, meaning);
      for (const Paragraph& paragraph : ParagraphsOf(kind)) {
        text += "\n" + Wrap("**" + paragraph.head + "**: " + paragraph.text, 120);
      }
    });
  }
  return text;
}

Command ExplainCommand() {
  return {.name = "explain",
          .help = "what a finding means, its aim and what mends it; without SLUG all of them",
          .asks = "What does this finding mean, and what mends it?",
          .example = "coil-preload",
          .options = {{.name = "SLUG",
                       .help = "of the finding, as check's --json and docs/findings.md have it",
                       .wanted = "the slug of a finding",
                       .is_word = true}},
          .say = AnswerExplain};
}

}  // namespace linkwright
