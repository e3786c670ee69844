#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace sherd {

/// Closed lists of the record. The words are what is stored and exchanged: do not change them.
enum class Deposit { use, dump, silting, make_up, cut, structure, mixed, unknown };
enum class Integrity { sealed, ordinary, disturbed };
enum class RelationKind { later, above, below, cuts, cut_by, fills, filled_by, same_as, contemporary, abuts };
/// Whether an abutment is taken for an order, as its recorder says.
enum class Orders { yes, no };
/// What became of a `same_as`: the two are one for the dates, or are looked at apart. Blank is merged.
enum class SameDecision { merged, apart };
enum class Certainty { sure, probable, possible };
enum class JoinKind { join_fresh, join_old, same_vessel, possibly_same };
enum class DateBasis { made, arrived, deposited };
enum class PhaseBasis { stratigraphy, documents, pottery };
/// The specialist's own judgement of how a line came into its context.
enum class Judgement { own, residual, intrusive };
/// How hard a piece of evidence is: a law, reign or registration; the years of making; only what is usual.
enum class Nature { limit, span, usual };
/// How a value came into a reference table.
enum class Known { read, memory, calculated };
/// How far the recording of a context has got, as its recorder says.
enum class Stage { to_do, begun, done };
/// A rough quantity: fewer than 10 sherds or so, up to 100 or so, more.
enum class Amount { S, M, L };
/// How deep a project records: a line a context; the basic record; the detailed one.
enum class Level { scan, basic, detailed };
/// A bag against the finds list.
enum class Received { expected, received, missing, empty };
enum class Cleaning { unwashed, washed, brushed, left_unwashed };
enum class Marking { unmarked, marked, not_to_mark };
/// What a fabric of ours is to one of another series: the same, or ours is broader or narrower, or they overlap.
enum class Equivalence { same, broader, narrower, overlaps };
/// How the angle was found at which a piece is drawn: on its rim plane, by eye, or not at all.
enum class Stance { measured, estimated, unknown };
enum class SectionSource { points, svg, traced, joined, landmarks };
/// Sides of a drawn outline; a handle as it stands out from it, and a cut through it.
enum class Side { outer, inner, handle, handle_section };
enum class Drawn { seen, conjectured };
enum class BandKind {
  groove,
  cordon,
  thumbing,
  frill,
  incision,
  wave,
  combing,
  combed_wave,
  rouletting,
  lattice,
  stamp,
  dots,
  burnish,
  slip,
  paint,
  glaze,
  other
};
enum class DrawingStatus { to_draw, sent, drawn, to_correct, checked, dropped };
/// Why a piece is out of its bag. The type series is where specimens are kept.
enum class Purpose { sample, drawing, photograph, display, type_series, handling, study, conservation };
/// Whether a piece is in its bag again. used_up: the analysis consumed it; kept: it stays where it is for good.
enum class Return { out, back, used_up, kept, lost };
/// What is done with pottery at the end: it goes into the archive or it does not.
enum class Decision { kept, deselected };
/// When it was decided: before the lines of the record were made, or of lines of the record.
enum class DecidedWhen { before_recording, after_recording };
/// How a mass fraction is written; mg/kg is ppm.
enum class FractionUnit { percent, ppm };
/// What was measured: a sherd, a reference material, a blank.
enum class ReadingRole { sherd, standard, blank };
/// What a cell of a reading says: an amount; less than the limit; more than the instrument reads; nothing.
enum class AmountState { measured, below, above, missing };
/// What an uncertainty on a certificate is: a standard uncertainty times k; the half-width of a tolerance interval; one
/// standard deviation; not given.
enum class UncertaintyKind { expanded, tolerance, sd, none };
enum class ValueStatus { certified, reference, information };
enum class SampleKind { thin_section, residue, chemistry, other };
/// What became of what was left of a sample.
enum class Remainder { returned, held, used_up };
/// What the specialist decides on an analyte, whatever the table of acceptance says.
enum class AnalyteDecision { use, with_care, leave_out };
/// Whether a table or figure stands in the report.
enum class Shown { yes, no };
/// What the amount of an estimate counts; `weight` in kilograms, `fixed` for what comes once.
enum class EstimateBasis { boxes, bags, weight, sherds, lines, vessels, samples, drawings, days, fixed };
enum class CountingRule { minimum, maximum, rims };
enum class CountedWhen { before_joining, after_joining };

template <class E>
struct Words;

template <>
struct Words<Deposit> {
  static constexpr std::array<std::string_view, 8> kNames{"use", "dump",      "silting", "make_up",
                                                          "cut", "structure", "mixed",   "unknown"};
};
template <>
struct Words<Integrity> {
  static constexpr std::array<std::string_view, 3> kNames{"sealed", "ordinary", "disturbed"};
};
template <>
struct Words<RelationKind> {
  static constexpr std::array<std::string_view, 10> kNames{"later", "above",     "below",   "cuts",         "cut_by",
                                                           "fills", "filled_by", "same_as", "contemporary", "abuts"};
};
template <>
struct Words<Orders> {
  static constexpr std::array<std::string_view, 2> kNames{"yes", "no"};
};
template <>
struct Words<SameDecision> {
  static constexpr std::array<std::string_view, 2> kNames{"merged", "apart"};
};
template <>
struct Words<Certainty> {
  static constexpr std::array<std::string_view, 3> kNames{"sure", "probable", "possible"};
};
template <>
struct Words<JoinKind> {
  static constexpr std::array<std::string_view, 4> kNames{"join_fresh", "join_old", "same_vessel", "possibly_same"};
};
template <>
struct Words<DateBasis> {
  static constexpr std::array<std::string_view, 3> kNames{"made", "arrived", "deposited"};
};
template <>
struct Words<PhaseBasis> {
  static constexpr std::array<std::string_view, 3> kNames{"stratigraphy", "documents", "pottery"};
};
template <>
struct Words<Judgement> {
  static constexpr std::array<std::string_view, 3> kNames{"own", "residual", "intrusive"};
};
template <>
struct Words<Nature> {
  static constexpr std::array<std::string_view, 3> kNames{"limit", "span", "usual"};
};
template <>
struct Words<Known> {
  static constexpr std::array<std::string_view, 3> kNames{"read", "memory", "calculated"};
};
template <>
struct Words<Stage> {
  static constexpr std::array<std::string_view, 3> kNames{"to_do", "begun", "done"};
};
template <>
struct Words<Amount> {
  static constexpr std::array<std::string_view, 3> kNames{"S", "M", "L"};
};
template <>
struct Words<Level> {
  static constexpr std::array<std::string_view, 3> kNames{"scan", "basic", "detailed"};
};
template <>
struct Words<Received> {
  static constexpr std::array<std::string_view, 4> kNames{"expected", "received", "missing", "empty"};
};
template <>
struct Words<Cleaning> {
  static constexpr std::array<std::string_view, 4> kNames{"unwashed", "washed", "brushed", "left_unwashed"};
};
template <>
struct Words<Marking> {
  static constexpr std::array<std::string_view, 3> kNames{"unmarked", "marked", "not_to_mark"};
};
template <>
struct Words<Equivalence> {
  static constexpr std::array<std::string_view, 4> kNames{"same", "broader", "narrower", "overlaps"};
};
template <>
struct Words<Stance> {
  static constexpr std::array<std::string_view, 3> kNames{"measured", "estimated", "unknown"};
};
template <>
struct Words<SectionSource> {
  static constexpr std::array<std::string_view, 5> kNames{"points", "svg", "traced", "joined", "landmarks"};
};
template <>
struct Words<Side> {
  static constexpr std::array<std::string_view, 4> kNames{"outer", "inner", "handle", "handle_section"};
};
template <>
struct Words<Drawn> {
  static constexpr std::array<std::string_view, 2> kNames{"seen", "conjectured"};
};
template <>
struct Words<BandKind> {
  static constexpr std::array<std::string_view, 17> kNames{
      "groove",  "cordon", "thumbing", "frill",   "incision", "wave",  "combing", "combed_wave", "rouletting",
      "lattice", "stamp",  "dots",     "burnish", "slip",     "paint", "glaze",   "other"};
};
template <>
struct Words<DrawingStatus> {
  static constexpr std::array<std::string_view, 6> kNames{"to_draw",    "sent",    "drawn",
                                                          "to_correct", "checked", "dropped"};
};
template <>
struct Words<Purpose> {
  static constexpr std::array<std::string_view, 8> kNames{"sample",      "drawing",  "photograph", "display",
                                                          "type_series", "handling", "study",      "conservation"};
};
template <>
struct Words<Return> {
  static constexpr std::array<std::string_view, 5> kNames{"out", "back", "used_up", "kept", "lost"};
};
template <>
struct Words<Decision> {
  static constexpr std::array<std::string_view, 2> kNames{"kept", "deselected"};
};
template <>
struct Words<DecidedWhen> {
  static constexpr std::array<std::string_view, 2> kNames{"before_recording", "after_recording"};
};
template <>
struct Words<FractionUnit> {
  static constexpr std::array<std::string_view, 2> kNames{"percent", "ppm"};
};
template <>
struct Words<ReadingRole> {
  static constexpr std::array<std::string_view, 3> kNames{"sherd", "standard", "blank"};
};
template <>
struct Words<AmountState> {
  static constexpr std::array<std::string_view, 4> kNames{"measured", "below", "above", "missing"};
};
template <>
struct Words<UncertaintyKind> {
  static constexpr std::array<std::string_view, 4> kNames{"expanded", "tolerance", "sd", "none"};
};
template <>
struct Words<ValueStatus> {
  static constexpr std::array<std::string_view, 3> kNames{"certified", "reference", "information"};
};
template <>
struct Words<SampleKind> {
  static constexpr std::array<std::string_view, 4> kNames{"thin_section", "residue", "chemistry", "other"};
};
template <>
struct Words<Remainder> {
  static constexpr std::array<std::string_view, 3> kNames{"returned", "held", "used_up"};
};
template <>
struct Words<AnalyteDecision> {
  static constexpr std::array<std::string_view, 3> kNames{"use", "with_care", "leave_out"};
};
template <>
struct Words<Shown> {
  static constexpr std::array<std::string_view, 2> kNames{"yes", "no"};
};
template <>
struct Words<EstimateBasis> {
  static constexpr std::array<std::string_view, 10> kNames{"boxes",   "bags",    "weight",   "sherds", "lines",
                                                           "vessels", "samples", "drawings", "days",   "fixed"};
};
template <>
struct Words<CountingRule> {
  static constexpr std::array<std::string_view, 3> kNames{"minimum", "maximum", "rims"};
};
template <>
struct Words<CountedWhen> {
  static constexpr std::array<std::string_view, 2> kNames{"before_joining", "after_joining"};
};

template <class E>
concept WordList = requires { Words<E>::kNames; };

template <WordList E>
constexpr std::string_view word(E value) {
  return Words<E>::kNames[static_cast<std::size_t>(value)];
}

template <WordList E>
constexpr std::optional<E> from_word(std::string_view text) {
  for (std::size_t i = 0; i < Words<E>::kNames.size(); ++i) {
    if (Words<E>::kNames[i] == text) return static_cast<E>(i);
  }
  return std::nullopt;
}

}  // namespace sherd
