// SPDX-License-Identifier: GPL-3.0-or-later
// Pages are well-formed, hold foreign text as text and allow nothing that they did not bring along.
#include <gtest/gtest.h>

#include <stdexcept>

#include "post/html/digest.h"
#include "post/html/page.h"
#include "post/html/style.h"
#include "post/html/table.h"
#include "post/html/text.h"
#include "tests/support/markup.h"

namespace felloe {
namespace {

using test::Markup;

TEST(HtmlText, MarkupBecomesText) {
  EXPECT_EQ(html_text("<script>alert('1 & \"2\"')</script>"),
            "&lt;script&gt;alert(&#39;1 &amp; &quot;2&quot;&#39;)&lt;/script&gt;");
}

TEST(HtmlText, TurnedWritingAndControlsAreSpelledOut) {
  EXPECT_EQ(html_text("a\u202Eb"), "a[U+202E]b");
  EXPECT_EQ(html_text(std::string("a\0b\x1b", 4)), "a[U+0000]b[U+001B]");
  EXPECT_EQ(html_text("a\nb\tc"), "a b c");
}

TEST(HtmlText, PlainTextKeepsMarkupCharactersAndCannotHide) {
  EXPECT_EQ(plain_text("<b> & \"'\n\u202E\xff"), "<b> & \"' [U+202E]\uFFFD");
}

TEST(HtmlText, IllFormedBytesAreReplacedOneByOne) {
  EXPECT_EQ(html_text("\xff\xfe"), "\uFFFD\uFFFD");
  EXPECT_EQ(html_text("\xc0\xaf"), "\uFFFD\uFFFD");            // overlong slash
  EXPECT_EQ(html_text("\xed\xa0\x80"), "\uFFFD\uFFFD\uFFFD");  // surrogate
  EXPECT_EQ(html_text("x\xe2\x82"), "x\uFFFD\uFFFD");          // cut
  EXPECT_EQ(html_text("µ € 𝛔"), "µ € 𝛔");
}

TEST(HtmlText, ShortenedCountsCharactersNotBytes) {
  EXPECT_EQ(shortened("µµµ", 3), "µµµ");
  EXPECT_EQ(shortened("µµµµ", 3), "µµ…");
}

TEST(HtmlText, IdsAreLettersDigitsHyphens) {
  EXPECT_EQ(html_id("Vent edge, outer (1)"), "vent-edge-outer-1");
  EXPECT_EQ(html_id("<>"), "");
}

// FIPS 180-2 test vectors; RFC 4648 section 10.
TEST(Digest, PublishedVectors) {
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_hex(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

TEST(HtmlPage, AllowsExactlyItsOwnStylesAndScripts) {
  HtmlPage page{"A < B", "<p>x</p>", {}, {}};
  page.add({"<p id=\"view\"></p>", {".x { color: red; }"}, {"const answer = 42;"}});
  const Markup read(html_page(page));
  EXPECT_EQ(read.one("//title"), "A < B");
  EXPECT_EQ(read.count("//p"), 2u);
  const std::string policy = read.one("//meta[@http-equiv='Content-Security-Policy']/@content");
  EXPECT_EQ(policy, "default-src 'none'; img-src data:; style-src 'sha256-" +
                        sha256_base64(read.all("//style").at(0)) + "' 'sha256-" +
                        sha256_base64(".x { color: red; }") + "'; script-src 'sha256-" +
                        sha256_base64("const answer = 42;") +
                        "'; base-uri 'none'; form-action 'none'");
  EXPECT_EQ(read.one("//script"), "const answer = 42;");
}

TEST(HtmlPage, WithoutScriptsNoneIsAllowed) {
  const Markup read(html_page({"t", "", {}, {}}));
  EXPECT_NE(read.one("//meta[@http-equiv]/@content").find("script-src 'none'"), std::string::npos);
  EXPECT_EQ(read.one("/html/@lang"), "en");
}

TEST(HtmlPage, AScriptMayNotEndItself) {
  EXPECT_THROW(html_page({"t", "", {}, {"'</script>'"}}), std::invalid_argument);
  EXPECT_THROW(html_page({"t", "", {"</style>"}, {}}), std::invalid_argument);
}

TEST(HtmlTable, HeadsAreScopedAndFiguresFlushRight) {
  HtmlTable t;
  t.id = "spots";
  t.caption = "Hot <spots>";
  t.columns = {{"place", "", false}, {"stress", "MPa", true}};
  t.rows = {{"vent &amp; edge", "182"}, {"toe", "90"}};
  t.row_classes = {"worst"};
  const Markup read(html_table(t));
  EXPECT_EQ(read.one("//caption"), "Hot <spots>");
  EXPECT_EQ(read.all("//thead//th[@scope='col']").at(1), "stress MPa");
  EXPECT_EQ(read.one("//tr[@class='worst']/th[@scope='row']"), "vent & edge");
  EXPECT_EQ(read.all("//td[@class='number']"), (std::vector<std::string>{"182", "90"}));
}

TEST(HtmlImage, BytesAreEmbedded) {
  const Markup read(embedded_image("foobar", "image/png", "a \"picture\"", 4, 3));
  EXPECT_EQ(read.one("/img/@src"), "data:image/png;base64,Zm9vYmFy");
  EXPECT_EQ(read.one("/img/@alt"), "a \"picture\"");
}

}  // namespace
}  // namespace felloe
