#include "exchange/sheets/xml_names.h"

#include <gtest/gtest.h>

#include <vector>

// "Namespaces in XML 1.0" (third edition), sections 3, 6.1 and 6.2.
namespace sherd::exchange {
namespace {

constexpr const char* kTable = "urn:oasis:names:tc:opendocument:xmlns:table:1.0";
constexpr const char* kSheet = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

void open(XmlNames& names, std::vector<const char*> attributes = {}) {
  attributes.push_back(nullptr);
  names.open(attributes.data());
}

TEST(XmlNames, a_prefix_stands_for_what_it_was_declared) {
  XmlNames names;
  open(names, {"xmlns:t", kTable, "xmlns:u", "urn:unknown", "id", "1"});
  EXPECT_EQ(names.element("t:table").space, XmlSpace::table);
  EXPECT_EQ(names.element("t:table").local, "table");
  EXPECT_EQ(names.element("u:table").space, XmlSpace::other);
  EXPECT_EQ(names.element("v:table").space, XmlSpace::other);
  EXPECT_EQ(names.element("table").space, XmlSpace::none);
}

TEST(XmlNames, the_default_namespace_covers_elements_but_not_attributes) {
  XmlNames names;
  open(names, {"xmlns", kSheet});
  EXPECT_EQ(names.element("row").space, XmlSpace::sheet);
  EXPECT_EQ(names.attribute("r").space, XmlSpace::none);
}

TEST(XmlNames, a_declaration_ends_with_its_element) {
  XmlNames names;
  open(names, {"xmlns", kSheet, "xmlns:t", kTable});
  open(names, {"xmlns", "urn:unknown", "xmlns:t", "urn:unknown"});
  EXPECT_EQ(names.element("row").space, XmlSpace::other);
  EXPECT_EQ(names.element("t:table").space, XmlSpace::other);
  open(names, {"xmlns", ""});
  EXPECT_EQ(names.element("row").space, XmlSpace::none);
  names.close();
  EXPECT_EQ(names.element("row").space, XmlSpace::other);
  names.close();
  EXPECT_EQ(names.element("row").space, XmlSpace::sheet);
  EXPECT_EQ(names.element("t:table").space, XmlSpace::table);
  names.close();
  EXPECT_EQ(names.element("row").space, XmlSpace::none);
}

TEST(XmlNames, a_prefix_bound_again_at_the_same_place_keeps_the_inner_meaning) {
  XmlNames names;
  open(names, {"xmlns:t", "urn:unknown"});
  open(names, {"xmlns:t", kTable});
  EXPECT_EQ(names.attribute("t:name").space, XmlSpace::table);
  names.close();
  EXPECT_EQ(names.attribute("t:name").space, XmlSpace::other);
}

}  // namespace
}  // namespace sherd::exchange
