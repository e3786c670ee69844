#include "cli/command_pages.h"

/// man(7) of groff: .TH, .SH, .SS, .TP; a backslash, a leading dot or apostrophe and a minus are not themselves there.
namespace sherd::cli {

namespace {

std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else if ((c == '.' || c == '\'') && out.empty()) {
      out += "\\&";
      out += c;
    } else {
      out += c;
    }
  }
  return out;
}

std::string bold(std::string_view text) { return "\\fB" + roff(text) + "\\fR"; }

std::string slanted(std::string_view text) { return "\\fI" + roff(text) + "\\fR"; }

std::string spelt(const CommandField& field) {
  if (field.is_argument) return slanted(field.spelling);
  return field.value.empty() ? bold(field.spelling) : bold(field.spelling) + " " + slanted(field.value);
}

void write_fields(std::string& out, const std::vector<CommandField>& fields) {
  for (const CommandField& field : fields) out += ".TP\n" + spelt(field) + "\n" + roff(field.help) + "\n";
}

void write_command(std::string& out, const CommandPage& page) {
  out += ".SS " + roff(page.name) + "\n" + roff(page.help) + "\n.PP\n" + bold("sherdwright " + page.name);
  for (const CommandField& field : page.fields)
    out += "\n" + (field.is_required ? spelt(field) : "[" + spelt(field) + "]");
  out += "\n";
  write_fields(out, page.fields);
}

constexpr std::string_view kOpening =
    "sherdwright \\- from a box of sherds to a dated, measured, published assemblage\n"
    ".SH SYNOPSIS\n"
    "\\fBsherdwright\\fR \\fICOMMAND\\fR [\\fIARGUMENTS\\fR] [\\fIOPTIONS\\fR]\n"
    ".br\n"
    "\\fBsherdwright\\fR \\fICOMMAND\\fR \\fB\\-\\-help\\fR\n"
    ".br\n"
    "\\fBsherdwright\\fR \\fB\\-\\-help\\fR | \\fB\\-\\-version\\fR\n"
    ".SH DESCRIPTION\n"
    "Takes in what the field recorded of a site's pottery, shows what is wrong with it, counts it by the four "
    "measures\n"
    "(sherds, weight, vessels, EVE) and gives every context a first date with its reasons.\n"
    "A site is one file, the store; every change to it is kept, and any of them can be taken back.\n"
    "It needs no network.\n"
    ".PP\n"
    "\\fISTORE\\fR is a file such as tanyard.sherds, or the address of a store on a PostgreSQL server.\n"
    "Results go to standard output, everything else to standard error.\n";

constexpr std::string_view kEnd =
    ".SH EXIT STATUS\n"
    ".TP\n0\ndone\n.TP\n1\nthe data or the request is wrong\n.TP\n2\nwrong usage\n.TP\n3\ninternal\n.TP\n130\nstopped\n"
    ".SH ENVIRONMENT\n"
    ".TP\n\\fBSHERDWRIGHT_USER\\fR\nwho works, for the history; the login name unless said\n"
    ".TP\n\\fBXDG_STATE_HOME\\fR\nwhere \\fBopen\\fR keeps its list of recent stores, in sherdwright/recent.json;\n"
    "~/.local/state unless said\n"
    ".SH FILES\n"
    ".TP\n\\fI/etc/sherdwright/team.conf\\fR\nsettings of a team's server, read by sherdwright.service\n"
    ".TP\n\\fI/var/lib/sherdwright\\fR\nstore and accounts of a team's server\n"
    ".SH EXAMPLES\n"
    ".nf\n"
    "sherdwright demo demo\n"
    "sherdwright open demo/tanyard.sherds\n"
    "sherdwright new mill.sherds \\-\\-site MILL26\n"
    "sherdwright import mill.sherds sherds.csv \\-\\-as sherds \\-\\-dry\\-run\n"
    "sherdwright tally mill.sherds \\-\\-by fabric,context.phase\n"
    ".fi\n"
    ".SH SEE ALSO\n"
    "/usr/share/doc/sherdwright\n";

}  // namespace

std::string manual_page(std::string_view version) {
  std::string out = ".TH SHERDWRIGHT 1 \"\" \"Sherdwright " + roff(version) + "\" \"User commands\"\n.SH NAME\n";
  out += kOpening;
  out += ".SH OPTIONS OF EVERY COMMAND\n";
  write_fields(out, common_fields());
  out += ".SH COMMANDS\n";
  for (const CommandPage& page : command_pages()) write_command(out, page);
  out += kEnd;
  return out;
}

}  // namespace sherd::cli
