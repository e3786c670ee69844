#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// Which fabric of a series a sherd is: what is seen under the lens against what each fabric is described as.
namespace sherd::series {

/// How two values of a feature are compared.
enum class Compared {
  words,    ///< alike where they share a word
  ordered,  ///< by their distance on a scale
  colour    ///< by their distance in the Munsell system
};

/// A colour in Munsell's terms; `hue` 0 to 100 from the start of R. A neutral has chroma 0 and any hue.
struct Colour {
  double hue = 0, value = 0, chroma = 0;
};

/// Nickerson's index of fading, 0.4 C dH + 6 dV + 3 dC with C the chroma of the first colour and dH the shorter way
/// round the hues (Nickerson 1936). 0 is the same colour; one chip of value is 6.
double nickerson(const Colour& first, const Colour& second);
/// The same with the lesser of the two chromas, so that the order does not matter.
double colour_distance(const Colour& a, const Colour& b);

/// Places on an ordered scale: from the least class to the most that is meant; one class has both ends alike.
struct Span {
  double low = 0, high = 0;
};

/// What is seen, or described, of one feature. Only what its comparison needs is looked at.
struct Value {
  std::string text;  ///< as it is shown
  std::vector<std::string> words = {};
  Span span = {};
  std::vector<Colour> colours = {};  ///< more than one: the ends of a range
};

struct Feature {
  std::string key;
  Compared compared = Compared::words;
  double weight = 1;
  double range = 1;  ///< the distance at which nothing is left of the likeness; ordered and colour
};

/// A fabric and what is known of each feature, in the order of the features; nothing: it does not say.
struct Described {
  std::string code;
  std::vector<std::optional<Value>> values;
};

struct Question {
  std::vector<Feature> features;
  std::vector<std::optional<Value>> seen;  ///< in the order of the features
  std::vector<Described> fabrics;
};

/// 1 where two values are alike, 0 where nothing is left of it (Gower 1971; for ordered classes Podani 1999).
double likeness(const Feature& feature, const Value& a, const Value& b);

struct FeatureFit {
  std::size_t feature = 0;
  double likeness = 0;
};

struct Fit {
  std::size_t fabric = 0;
  std::optional<double> fit;  ///< Gower's coefficient over what is both seen and described; nothing where nothing is
  double heard = 0;           ///< the share of the weight of what is seen that the fabric's description speaks to
  double share = 0;           ///< of all fabrics of the question, 0 to 1; they add up to 1
  std::vector<FeatureFit> features;  ///< what it says of what is seen
};

/// What one may see next, and how much it would tell.
struct Answer {
  std::string text;
  double share = 0;        ///< how often it is to be expected
  std::size_t fabric = 0;  ///< the likeliest then
};
struct NextLook {
  std::size_t feature = 0;
  double bits = 0;  ///< expected entropy saved
  std::vector<Answer> answers;
};

struct Identification {
  std::vector<Fit> fits;       ///< the likeliest first
  double bits = 0;             ///< entropy of the shares: 0 is settled, log2 of the number of fabrics is nothing known
  std::vector<NextLook> next;  ///< most telling first; what tells nothing is left out
};

/// Ranks the fabrics.
///
///     fit    = sum of w s / sum of w, over the features that are both seen and described (s: likeness, w: weight)
///     share ~ product over the features seen of max(s, kDoubt)^w; a fabric that does not say takes the mean of those
///             that do, so that silence neither helps nor harms
///
/// `next`: for each feature not seen, the answers are the values that fabrics are described with. A fabric gives an
/// answer in proportion to likeness (max(s, kDoubt)^w), one that does not say as the others do on the average; the bits
/// are the mutual information of answer and fabric, at least 0.
Identification identify(const Question& question);

constexpr double kDoubt = 0.02;

}  // namespace sherd::series
