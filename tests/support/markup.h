// SPDX-License-Identifier: GPL-3.0-or-later
// Reads a page or drawing that was written, for tests: it has to be well-formed XML.
#pragma once
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace felloe::test {

class Markup {
 public:
  /// Throws std::runtime_error with the parser's words unless every tag is closed, every attribute
  /// quoted, every entity known and every byte UTF-8.
  explicit Markup(const std::string &text)
      : document_(xmlReadMemory(text.data(), static_cast<int>(text.size()), "page", nullptr,
                                XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_HUGE),
                  xmlFreeDoc) {
    if (!document_) {
      const auto *e = xmlGetLastError();
      throw std::runtime_error(e ? "line " + std::to_string(e->line) + ": " + e->message : "empty");
    }
    context_.reset(xmlXPathNewContext(document_.get()));
    xmlXPathRegisterNs(context_.get(), BAD_CAST "svg", BAD_CAST "http://www.w3.org/2000/svg");
  }

  /// Text of every element or attribute that the XPath finds. Elements of a drawing: svg:line.
  std::vector<std::string> all(const std::string &path) const {
    const std::unique_ptr<xmlXPathObject, void (*)(xmlXPathObject *)> found(
        xmlXPathEvalExpression(BAD_CAST path.c_str(), context_.get()), xmlXPathFreeObject);
    if (!found) throw std::runtime_error("not an XPath: " + path);
    std::vector<std::string> texts;
    for (int i = 0; found->nodesetval && i < found->nodesetval->nodeNr; ++i) {
      const std::unique_ptr<xmlChar, void (*)(void *)> text(
          xmlNodeGetContent(found->nodesetval->nodeTab[i]), xmlFree);
      texts.emplace_back(reinterpret_cast<const char *>(text.get()));
    }
    return texts;
  }

  std::string one(const std::string &path) const {
    const auto texts = all(path);
    if (texts.size() != 1)
      throw std::runtime_error(path + ": found " + std::to_string(texts.size()) + " times");
    return texts.front();
  }

  std::size_t count(const std::string &path) const { return all(path).size(); }

 private:
  std::unique_ptr<xmlDoc, void (*)(xmlDoc *)> document_;
  struct FreeContext {
    void operator()(xmlXPathContext *c) const { xmlXPathFreeContext(c); }
  };
  std::unique_ptr<xmlXPathContext, FreeContext> context_;
};

}  // namespace felloe::test
