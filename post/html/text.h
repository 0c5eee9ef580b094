// SPDX-License-Identifier: GPL-3.0-or-later
// Foreign text made safe for markup.
#pragma once
#include <string>

namespace felloe {

/// UTF-8 text for the content of an element or an attribute value in double or single quotes, valid
/// in HTML and XML alike. Markup characters and quotes become entities; ill-formed bytes become
/// U+FFFD; control characters and those that turn the writing direction are spelled out
/// ("[U+202E]"), so that a name can neither act nor hide. Line breaks and tabs become spaces.
std::string html_text(const std::string &);

/// The same for text that never becomes markup, such as data that a script shows as text: without
/// the entities.
std::string plain_text(const std::string &);

/// Well-formed UTF-8 of at most `most` characters, the last one an ellipsis where text was cut.
std::string shortened(const std::string &, std::size_t most);

/// The text as an id or class: ASCII letters and digits in lower case, everything else one hyphen;
/// "vent edge, outer" -> "vent-edge-outer".
std::string html_id(const std::string &);

}  // namespace felloe
