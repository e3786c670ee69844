#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <string>

#include "methods/prose/readability.h"
#include "methods/prose/syllables.h"

namespace sherd::prose {
namespace {

/// tests/prose/SOURCE.md: Carnegie Mellon University Pronouncing Dictionary.
TEST(Syllables, agree_with_a_pronouncing_dictionary_in_nineteen_words_of_twenty) {
  std::ifstream file(SHERD_SOURCE_DIR "/tests/prose/syllables.csv");
  std::string line;
  std::getline(file, line);
  int words = 0, right = 0;
  double counted = 0, true_sum = 0;
  while (std::getline(file, line)) {
    const std::size_t comma = line.find(',');
    const std::string known = ";" + line.substr(comma + 1) + ";";
    const int found = syllables(line.substr(0, comma));
    ++words;
    right += known.find(";" + std::to_string(found) + ";") != std::string::npos ? 1 : 0;
    counted += found;
    true_sum += known[1] - '0';
  }
  ASSERT_GT(words, 450);
  EXPECT_GE(right, words * 95 / 100) << right << " of " << words;
  EXPECT_NEAR(counted / true_sum, 1.0, 0.02);
}

TEST(Syllables, of_words_about_pots) {
  const auto check = [](std::string_view word, int n) { EXPECT_EQ(syllables(word), n) << word; };
  check("pot", 1);
  check("potter", 2);
  check("handle", 2);
  check("handles", 2);
  check("glaze", 1);
  check("glazed", 1);
  check("glazes", 2);
  check("dishes", 2);
  check("made", 1);
  check("pottery", 3);
  check("archaeology", 5);
  check("medieval", 4);
  check("residual", 4);
  check("creamware", 2);
  check("metre", 2);
  check("quartz", 1);
  check("clay", 1);
  check("drying", 2);
  check("played", 1);
  check("cooking-pot", 3);
  check("1350", 4);
  check("", 1);
}

// The sentence and its numbers: Wikipedia, "Flesch-Kincaid readability tests": 24 syllables, 13 words, grade 11.3.
TEST(Readability, of_the_platypus_is_as_published) {
  const Readability found =
      readability("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.");
  EXPECT_EQ(found.words, 13);
  EXPECT_EQ(found.sentences, 1);
  EXPECT_EQ(found.syllables, 24);
  EXPECT_NEAR(found.grade, 11.3, 0.05);
}

// The same page: 121.22 is the easiest there is, every sentence a word of one syllable; the lowest grade is -3.4.
TEST(Readability, ends_where_its_formula_does) {
  const Readability found = readability("Stop. Look! Go?");
  EXPECT_EQ(found.sentences, 3);
  EXPECT_NEAR(found.ease, 121.22, 1e-9);
  EXPECT_NEAR(found.grade, -3.4, 1e-9);
}

// Grades as the page f1lt3r.io/coleman-liau-readability-index gives them: 3.3 and 16.5.
TEST(Readability, by_letters_is_as_published) {
  EXPECT_NEAR(readability("The quick fox jumped over the lazy dog.").letter_grade, 3.3, 0.05);
  EXPECT_NEAR(
      readability("The quick, sly omnivorous mammal jumped energetically over the sullen, sleepy canine.").letter_grade,
      16.5, 0.05);
}

TEST(Readability, takes_no_shortened_word_or_number_for_the_end_of_a_sentence) {
  EXPECT_EQ(readability("Made c. 1350 by J. Potter, e.g. for wine. It held 1.5 litres.").sentences, 2);
  EXPECT_EQ(readability("One line\n\nanother line").sentences, 2);
}

TEST(Readability, names_long_words_once) {
  const Readability found = readability("Archaeology is slow. Archaeology needs care and stratigraphy.");
  EXPECT_EQ(found.long_words, (std::vector<std::string>{"archaeology", "stratigraphy"}));
}

TEST(Readability, of_nothing_is_nothing) {
  const Readability found = readability(" ... ");
  EXPECT_EQ(found.words, 0);
  EXPECT_EQ(found.sentences, 0);
  EXPECT_EQ(found.grade, 0);
}

}  // namespace
}  // namespace sherd::prose
