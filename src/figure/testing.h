#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <map>
#include <string>
#include <vector>

#include "figure/svg.h"

/// For tests only: reads a drawing back, apart from the writer, and looks for what no figure may have.
namespace sherd::figure {

struct Element {
  std::string name;
  std::map<std::string, std::string> attributes;
  std::string text;  ///< up to the next tag

  double number(const std::string& attribute) const {
    const auto found = attributes.find(attribute);
    return found == attributes.end() ? 0 : std::strtod(found->second.c_str(), nullptr);
  }
  std::string value(const std::string& attribute) const {
    const auto found = attributes.find(attribute);
    return found == attributes.end() ? "" : found->second;
  }
};

std::string unescaped(std::string text);
std::vector<Element> elements_of(const std::string& svg);
/// Where a text stands, in mm, by its measured width.
Box box_of_text(const Element& text, const std::string& words);
/// Every mark lies on the page and has a title; no not-a-number, no style, no identity; sizes of type and line; no text
/// over another.
void expect_sound(const std::string& svg);

}  // namespace sherd::figure
