// The time that each reader takes for n, 2 n and 4 n of what could make it slow. Ends with 1 where four times as much
// takes more than kMost times as long: in proportion it is 4, with the logarithm of a sort 5, and 16 where the time
// grows with the square.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <string>
#include <vector>

#include "access/accounts.h"
#include "base/csv.h"
#include "desk/frame/json_read.h"
#include "desk/recording/apply_edits.h"
#include "exchange/drawings/read_svg.h"
#include "exchange/drawings/read_tps.h"
#include "exchange/mapping.h"
#include "exchange/readings/raw_readings.h"
#include "exchange/readings/reading_tables.h"
#include "exchange/record_reader.h"
#include "exchange/sheets/row_source.h"
#include "notation/date.h"
#include "notation/edtf.h"
#include "notation/firing.h"
#include "notation/mark.h"
#include "notation/munsell.h"
#include "read_table.h"
#include "reference/tables.h"

namespace {

using namespace sherd;

constexpr double kMost = 8;
constexpr int kRuns = 5;  // the quickest of them counts

std::string times(std::size_t n, const std::string& text) {
  std::string all;
  all.reserve(n * text.size());
  for (std::size_t i = 0; i < n; ++i) all += text;
  return all;
}

/// A line a number, with `#` replaced by it.
std::string numbered(std::size_t n, const std::string& line) {
  std::string all;
  for (std::size_t i = 0; i < n; ++i) {
    std::string one = line;
    for (std::size_t at = one.find('#'); at != std::string::npos; at = one.find('#', at))
      one.replace(at, 1, std::to_string(i));
    all += one;
  }
  return all;
}

void read_table(const std::string& bytes) {
  exchange::ReadLimits limits;
  limits.max_columns = 1 << 20;
  const auto source = exchange::open_table(bytes, "input", {}, limits);
  if (!source) {
    fmt::print(stderr, "{}: {}\n", source.error().code, source.error().message);
    std::exit(1);
  }
  exchange::SheetRow row;
  for (auto more = (*source)->next(row); more && *more; more = (*source)->next(row)) continue;
}

std::string xlsx(const std::string& rows, const std::string& shared, const std::string& styles) {
  const std::string space = R"( xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main")";
  const std::string office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const std::string relation = R"(<Relationship Type=")" + office;
  return exchange::zip_of(
      {{"[Content_Types].xml", "<Types/>"},
       {"_rels/.rels", "<R>" + relation + R"(/officeDocument" Id="a" Target="workbook.xml"/></R>)"},
       {"workbook.xml",
        "<workbook" + space + R"( xmlns:r=")" + office + R"("><sheets><sheet name="S" r:id="a"/></sheets></workbook>)"},
       {"_rels/workbook.xml.rels", "<R>" + relation + R"(/worksheet" Id="a" Target="sheet.xml"/>)" + relation +
                                       R"(/sharedStrings" Id="b" Target="shared.xml"/>)" + relation +
                                       R"(/styles" Id="c" Target="styles.xml"/></R>)"},
       {"sheet.xml", "<worksheet" + space + "><sheetData>" + rows + "</sheetData></worksheet>"},
       {"shared.xml", "<sst" + space + ">" + shared + "</sst>"},
       {"styles.xml", "<styleSheet" + space + ">" + styles + "</styleSheet>"}});
}

std::string ods(const std::string& rows) {
  std::string names;
  for (const std::string prefix : {"office", "table", "text", "style"})
    names += " xmlns:" + prefix + "=\"urn:oasis:names:tc:opendocument:xmlns:" + prefix + ":1.0\"";
  return exchange::zip_of(
      {{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
       {"content.xml", "<office:document-content" + names +
                           "><office:body><office:spreadsheet><table:table table:name=\"S\">" + rows +
                           "</table:table></office:spreadsheet></office:body>"
                           "</office:document-content>"}});
}

/// A table of lines whose column `chosen` has n values, against as many that the mapping names or the record has.
void read_lines(const std::string& text) {
  exchange::ReadOptions options;
  options.known[Kind::fabrics].add("grey-1");
  const auto lines = static_cast<std::size_t>(std::ranges::count(text, '\n'));
  const bool chosen = text.starts_with("Lot");
  for (std::size_t i = 0; i < lines; ++i) {
    const std::string name = std::to_string(2 * i + 1'000'000);
    if (chosen) {
      options.mapping.only["Lot"].push_back(name);
    } else {
      options.known[Kind::contexts].add(name);
    }
  }
  if (chosen) options.known[Kind::contexts].add("101");
  const auto reader = exchange::RecordReader::open(Kind::sherds, text, "sherds.csv", std::move(options));
  if (!reader || !(*reader)->next(lines)) std::exit(1);
}

struct Reader {
  std::string name;
  std::size_t n;
  std::function<std::string(std::size_t n)> made;
  std::function<void(const std::string&)> read;
};

void svg(const std::string& text) { (void)exchange::read_svg(text); }
std::string drawing(const std::string& inside) {
  return R"(<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">)" + inside +
         "</svg>";
}
void edits(const std::string& text) {
  const auto given = desk::Given::json(text);
  if (given) (void)desk::read_request<desk::EditsRequest>(*given);
}
void date(const std::string& text) { (void)notation::read_date(text, notation::default_date_style()); }
void mark(const std::string& text) { (void)notation::read_mark(text, reference::diamonds(), reference::marks()); }
void readings(const std::string& text) {
  const auto raw = exchange::read_raw_readings(text, "input", "", {}, reference::atomic_weights());
  if (raw) (void)exchange::reading_tables(*raw, {.unit = FractionUnit::ppm, .errors = 1}, "x");
}

std::vector<Reader> tables() {
  return {
      {"CSV, rows", 50'000, [](std::size_t n) { return "context,count\n" + numbered(n, "#,3\n"); }, read_table},
      {"CSV, columns", 50'000, [](std::size_t n) { return numbered(n, "c#,") + "x\n" + times(n, "1,") + "2\n"; },
       read_table},
      {"CSV, one quoted cell", 200'000, [](std::size_t n) { return "a,b\n\"" + times(n / 2, "\"\"") + "\",1\n"; },
       read_table},
      {"CSV, an open quote", 200'000, [](std::size_t n) { return "a,b\n\"" + times(n, "x\n"); }, read_table},
      {"CSV, blank lines", 200'000, [](std::size_t n) { return "a,b\n" + times(n, "\n") + "1,2\n"; }, read_table},
      {"CSV of ours", 100'000, [](std::size_t n) { return "a,b\n" + numbered(n, "#,\"x\"\"y\"\n"); },
       [](const std::string& text) { (void)parse_csv(text); }},
      {"accounts", 2'000,
       [](std::size_t n) {
         return "name,recorder,role,since,must_change,password\n" + numbered(n, "n#,r#,reader,0,no,x\n");
       },
       [](const std::string& text) { (void)access::Accounts::read(text); }},
      {"XLSX, rows", 20'000,
       [](std::size_t n) { return xlsx(times(n, "<row><c><v>1</v></c><c><v>2</v></c></row>"), "", ""); }, read_table},
      {"XLSX, shared strings", 20'000,
       [](std::size_t n) {
         return xlsx(numbered(n, "<row><c t=\"s\"><v>#</v></c></row>"), numbered(n, "<si><t>s#</t></si>"), "");
       },
       read_table},
      {"XLSX, styles", 20'000,
       [](std::size_t n) {
         return xlsx("<row><c s=\"1\"><v>1</v></c></row>", "",
                     "<numFmts>" + numbered(n, "<numFmt numFmtId=\"#\" formatCode=\"yyyy#\"/>") +
                         "</numFmts><cellXfs>" + numbered(n, "<xf numFmtId=\"#\"/>") + "</cellXfs>");
       },
       read_table},
      {"XLSX, one text in runs", 50'000,
       [](std::size_t n) {
         return xlsx("<row><c t=\"inlineStr\"><is>" + times(n, "<r><t>a</t></r>") + "</is></c></row>", "", "");
       },
       read_table},
      {"ODS, rows", 10'000,
       [](std::size_t n) {
         return ods(times(n,
                          "<table:table-row><table:table-cell "
                          "office:value-type=\"string\"><text:p>a</text:p></table:table-cell></table:table-row>"));
       },
       read_table},
      {"ODS, paragraphs of a cell", 20'000,
       [](std::size_t n) {
         return ods("<table:table-row><table:table-cell office:value-type=\"string\">" +
                    times(n, "<text:p>a<text:s/>b</text:p>") + "</table:table-cell></table:table-row>");
       },
       read_table},
      {"lines, chosen by a list of values", 10'000,
       [](std::size_t n) { return "Lot,context,fabric,count\n" + numbered(n, "100#,101,grey-1,1\n"); }, read_lines},
      {"lines, names that the record lacks", 10'000,
       [](std::size_t n) { return "context,fabric,count\n" + numbered(n, "100#7,grey-1,1\n"); }, read_lines},
      {"readings, rows", 5'000,
       [](std::size_t n) { return "sample,Fe_ppm,Zr_ppm,Zr_err\n" + numbered(n, "s#,12.5,<LOD,3\n"); }, readings},
      {"readings, an amount a row", 5'000,
       [](std::size_t n) { return "sample,element,value\n" + numbered(n, "s#,Fe,12\ns#,Zr,5\n"); }, readings},
  };
}

std::vector<Reader> texts() {
  return {
      {"SVG, paths", 5'000, [](std::size_t n) { return drawing(times(n, "<path d=\"M0 0L5 5\"/>")); }, svg},
      {"SVG, one long path", 20'000,
       [](std::size_t n) { return drawing("<path d=\"M0 0" + times(n, "l1 1") + "\"/>"); }, svg},
      {"SVG, parts of a path", 20'000,
       [](std::size_t n) { return drawing("<path d=\"" + times(n, "M0 0h1z") + "\"/>"); }, svg},
      {"SVG, transforms", 20'000,
       [](std::size_t n) {
         return drawing("<g transform=\"" + times(n, "rotate(1)") + "\"><path d=\"M0 0L5 5\"/></g>");
       },
       svg},
      {"SVG, points", 20'000, [](std::size_t n) { return drawing("<polyline points=\"" + times(n, "1,2 ") + "\"/>"); },
       svg},
      {"landmarks", 20'000, [](std::size_t n) { return fmt::format("LM={}\n", n) + times(n, "1.5 2.5\n") + "ID=a\n"; },
       [](const std::string& text) { (void)exchange::read_tps(text); }},
      {"landmarks, specimens", 10'000, [](std::size_t n) { return numbered(n, "LM=1\n1 2\nID=#\n"); },
       [](const std::string& text) { (void)exchange::read_tps(text); }},
      {"a change, steps", 5'000,
       [](std::size_t n) {
         return R"({"change":"1","steps":[)" + numbered(n, R"({"do":"add","kind":"sherds","values":{"count":"#"}},)") +
                R"({"do":"add"}]})";
       },
       edits},
      {"a change, values of a step", 10'000,
       [](std::size_t n) {
         return R"({"change":"1","steps":[{"do":"add","values":{)" + numbered(n, R"("c#":"1",)") + R"("x":"1"}}]})";
       },
       edits},
      {"a change, names it does not know", 10'000,
       [](std::size_t n) { return "{" + numbered(n, R"("c#":1,)") + R"("x":1})"; }, edits},
      {"JSON, brackets", 100'000, [](std::size_t n) { return R"({"steps":)" + times(n, "[") + times(n, "]") + "}"; },
       edits},
      {"a query", 20'000, [](std::size_t n) { return numbered(n, "where=a%3D#&"); },
       [](const std::string& text) {
         const auto given = desk::Given::query(text);
         std::vector<std::string> where;
         if (given) (void)given->read("where", where);
       }},
      {"a mapping", 5'000,
       [](std::size_t n) { return R"({"codes":{"part":{)" + numbered(n, R"("k#":"rim",)") + R"("x":"base"}}})"; },
       [](const std::string& text) { (void)exchange::read_mapping(text, Kind::sherds); }},
      {"a date, words", 20'000, [](std::size_t n) { return times(n, "late "); }, date},
      {"a date, figures", 50'000, [](std::size_t n) { return times(n, "1"); }, date},
      {"a date, dashes", 50'000, [](std::size_t n) { return "1200" + times(n, "-") + "1300"; }, date},
      {"a date, brackets", 50'000, [](std::size_t n) { return times(n, "(") + "1200" + times(n, ")"); }, date},
      {"EDTF", 50'000, [](std::size_t n) { return "[" + times(n, "1200,") + "1201]"; },
       [](const std::string& text) { (void)notation::read_edtf(text); }},
      {"a mark, words", 5'000, [](std::size_t n) { return times(n, "staffordshire england "); }, mark},
      {"a mark, a diamond", 20'000, [](std::size_t n) { return "diamond " + times(n, "a1 "); }, mark},
      {"a colour", 50'000, [](std::size_t n) { return times(n, "10YR 5/3 "); },
       [](const std::string& text) { (void)notation::read_colour(text, reference::munsell()); }},
      {"a firing", 20'000, [](std::size_t n) { return times(n, "outside oxidised, "); },
       [](const std::string& text) { (void)notation::read_firing(text); }},
  };
}

double milliseconds(const Reader& reader, std::size_t n) {
  const std::string text = reader.made(n);
  double best = 1e9;
  for (int run = 0; run < kRuns; ++run) {
    const std::clock_t begun = std::clock();  // of the processor: others at work beside it do not count
    reader.read(text);
    best = std::min(best, 1000.0 * static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC);
  }
  return best;
}

}  // namespace

int main() {
  int grown = 0;
  fmt::print("| | n | n, ms | 2 n, ms | 4 n, ms | 4 n / n |\n|---|---|---|---|---|---|\n");
  std::vector<Reader> all = tables();
  for (Reader& one : texts()) all.push_back(std::move(one));
  for (const Reader& reader : all) {
    std::size_t n = reader.n;
    double once = milliseconds(reader, n);
    for (; once < 10 && n < (std::size_t{1} << 22); once = milliseconds(reader, n)) n *= 4;  // too quick to be measured
    const double twice = milliseconds(reader, 2 * n), fourfold = milliseconds(reader, 4 * n);
    const bool grows = once >= 1 && fourfold > kMost * once;
    grown += grows ? 1 : 0;
    fmt::print("| {} | {} | {:.1f} | {:.1f} | {:.1f} | {:.1f}{} |\n", reader.name, n, once, twice, fourfold,
               fourfold / once, grows ? " GROWS" : "");
  }
  fmt::print("\n{}\n",
             grown == 0 ? "every reader's time grows in proportion" : fmt::format("{} grow out of proportion", grown));
  return grown == 0 ? 0 : 1;
}
