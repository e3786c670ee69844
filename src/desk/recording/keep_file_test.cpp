#include "desk/recording/keep_file.h"

#include <gtest/gtest.h>

#include "desk/frame/session.h"
#include "desk/recording/recording_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using namespace std::string_literals;

// A PNG of 2 x 3 pixels: signature and IHDR after ISO/IEC 15948, sections 5.2 and 11.2.2, the rest cut off.
std::string png() {
  return "\x89PNG\r\n\x1A\n\0\0\0\x0DIHDR\0\0\0\x02\0\0\0\x03\x08\x02\0\0\0"s + std::string(8, '\0');
}
// A start of frame of 16 x 8 behind an APP0 segment, after ITU-T T.81 annex B.
std::string jpeg() { return "\xFF\xD8\xFF\xE0\0\x04\0\0\xFF\xC0\0\x0B\x08\0\x08\0\x10\x01\x01\x11\0"s; }
// RFC 9649 section 2.7: a VP8X chunk with canvas width and height minus one.
std::string webp() { return "RIFF\x20\0\0\0WEBPVP8X\x0A\0\0\0\0\0\0\0\x3F\0\0\x1F\0\0"s + std::string(4, '\0'); }

TEST(PictureType, is_told_by_the_bytes) {
  EXPECT_EQ(must(picture_type(png())).mime, "image/png");
  EXPECT_EQ(must(picture_type(png())).height, 3);
  EXPECT_EQ(must(picture_type(jpeg())).width, 16);
  EXPECT_EQ(must(picture_type(jpeg())).height, 8);
  EXPECT_EQ(must(picture_type(webp())).width, 64);
  EXPECT_EQ(must(picture_type(webp())).height, 32);
  for (const std::string& other : {"<svg xmlns=\"http://www.w3.org/2000/svg\"/>"s, "GIF89a"s, ""s, png().substr(0, 20),
                                   jpeg().substr(0, 12), "\xFF\xD8\xFF\xDA\0\x02"s, "%PDF-1.7"s})
    EXPECT_EQ(code_of(picture_type(other)), "not_a_picture");
}

class KeepFile : public RecordingBench {
 protected:
  KeepFile() : RecordingBench(store::in_memory()) {}
};

TEST_F(KeepFile, a_picture_is_kept_once_by_its_hash_and_given_back) {
  const FileResponse kept = must(keep_file("x.sherds", "", png(), desk_.environment));
  EXPECT_EQ(kept.name.substr(0, 6), "files/");
  EXPECT_TRUE(kept.name.ends_with(".png"));
  EXPECT_EQ(kept.width, 2);
  EXPECT_FALSE(kept.was_there);
  const auto before = desk_.everything();
  EXPECT_TRUE(must(keep_file("x.sherds", "", png(), desk_.environment)).was_there);
  EXPECT_EQ(desk_.everything(), before);
  const Document document = must(kept_file("x.sherds", "", kept.name, desk_.environment));
  EXPECT_EQ(document.bytes, png());
  EXPECT_EQ(document.mime, "image/png");
  make({adding("pictures", {{"picture", "P1"}, {"file", kept.name}, {"context", "1"}})});
}

TEST_F(KeepFile, nothing_but_pictures_is_kept_or_given_out) {
  EXPECT_EQ(code_of(keep_file("x.sherds", "", "<svg/>", desk_.environment)), "not_a_picture");
  EXPECT_EQ(code_of(keep_file("x.sherds", "", png() + std::string(kMostPictureBytes, ' '), desk_.environment)),
            "too_large");
  const auto writing = must(desk_.store().begin(change_note(desk_.environment, "list")));
  must(writing->put_document("SAL26", {"spot-dates/1", "text/html", "<script>"}));
  must(writing->put_document("SAL26", {"files/x.html", "text/html", "<script>"}));
  must(writing->commit());
  for (const char* name : {"spot-dates/1", "files/x.html", "files/none.png", ""})
    EXPECT_EQ(code_of(kept_file("x.sherds", "", name, desk_.environment)), "no_file") << name;
}

}  // namespace
}  // namespace sherd::desk
