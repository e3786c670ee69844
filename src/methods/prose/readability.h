#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace sherd::prose {

/// How hard a text is to read. Years of school are those of the United States; a child of twelve is in the sixth or
/// seventh.
struct Readability {
  std::int64_t sentences = 0, words = 0, syllables = 0, letters = 0;
  /// 0.39 words a sentence + 11.8 syllables a word - 15.59: Kincaid, Fishburne, Rogers & Chissom 1975, Derivation of
  /// new readability formulas, Research Branch Report 8-75, Naval Technical Training.
  double grade = 0;
  /// 206.835 - 1.015 words a sentence - 84.6 syllables a word: Flesch 1948, A new readability yardstick, Journal of
  /// Applied Psychology 32: 221-233. 100 is very easy.
  double ease = 0;
  /// 0.0588 letters a hundred words - 0.296 sentences a hundred words - 15.8: Coleman & Liau 1975, A computer
  /// readability formula designed for machine scoring, Journal of Applied Psychology 60: 283-284. Asks no syllables.
  double letter_grade = 0;
  double age = 0;                       ///< grade + 5: the years of a child in that grade, by common practice
  std::vector<std::string> long_words;  ///< of four syllables and more, once each, in their order

  template <class V>
  static void fields(V& v) {
    v.field("sentences", &Readability::sentences);
    v.field("words", &Readability::words);
    v.field("syllables", &Readability::syllables);
    v.field("letters", &Readability::letters);
    v.field("grade", &Readability::grade);
    v.field("ease", &Readability::ease);
    v.field("letter_grade", &Readability::letter_grade);
    v.field("age", &Readability::age);
    v.field("long_words", &Readability::long_words);
  }
};

/// Of plain text in English. A sentence ends at . ! ? before a blank, or at an empty line; "c. 1350", "e.g." and
/// initials end none. A text without words has nought of everything.
Readability readability(std::string_view text);

/// The grade above which a text is too hard at twelve.
inline constexpr double kGradeAtTwelve = 7.0;

}  // namespace sherd::prose
