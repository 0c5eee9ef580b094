// SPDX-License-Identifier: GPL-3.0-or-later
// How pages of the program look on a screen, a phone and paper.
#pragma once
#include <string>

namespace felloe {

/// The style sheet of every page. Classes:
///   page              the column of the sheet
///   title-block       fields of a drawing's title block: <dl> of <div><dt/><dd/></div>
///   stamp, pass / fail / not-rated    a verdict in words, framed
///   word-pass / word-fail / word-not-rated    the same within a line or a table
///   facts             <dl> of names and values in columns
///   table-box         scrolls a wide table; number: a column of figures; unit: in a column's head
///   wide-table        round a table of many columns: smaller letters
///   together          not broken into lines; remarks: a long list in small print
///   plots             figures side by side; plot: an SVG that takes the width it gets
///   wide-only         left out on paper
///   note, quiet       small print; text of less weight
///   sign              a table of signatures with room to write
/// Paper: A4, heads of tables repeat, neither rows nor figures are cut.
std::string house_style();

}  // namespace felloe
