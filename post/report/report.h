// SPDX-License-Identifier: GPL-3.0-or-later
// report.html: what a release engineer reads, signs and mails.
#pragma once
#include <string>
#include <vector>

#include "post/hot_spots.h"
#include "post/html/page.h"
#include "post/results.h"

namespace felloe {

/// A value of the case in words, plain text.
struct ReportFact {
  std::string name, value;
};

/// Where a factor or datum comes from, plain text.
struct Provenance {
  std::string what, value, source, confidence;
};

struct ReportPicture {
  std::string test;                 ///< it shows; empty: not of one test
  std::string view;                 ///< "closeup", "front", ...; the file's name
  std::string bytes;                ///< the picture's file
  std::string type = "image/webp";  ///< of it, as a media type
  int width = 4, height = 3;        ///< pixels
};

/// What the report holds beyond the results, as plain values.
struct ReportInput {
  Results results;
  RatingRules rules;
  std::string case_text;  ///< the resolved case.toml, byte by byte as it is written
  std::string command;    ///< that made the folder
  std::string date;       ///< of the run, with time zone
  std::vector<ReportFact> wheel, loads;
  std::vector<Provenance> factors;
  HtmlFragment section;                 ///< drawing of the section
  std::vector<ReportPicture> pictures;  ///< the first one is shown large
  std::string pictures_note;            ///< what to know of them; empty: nothing
  /// An interactive view of the wheel for the section "view-3d"; its markup empty: the pictures
  /// alone. They stay there in any case, for paper and browsers without scripts.
  HtmlFragment view_3d;
};

/// The whole file: see html_page(). Stable ids of its sections: verdict, place, job, loads,
/// view-3d, hot-spots, life, mean-stress, one-turn, figures, gauges, spectrum, sensitivity,
/// accuracy, provenance, cautions, reproduce, signatures; those without content are left out, all
/// but the first and the last four.
std::string report_html(const ReportInput &);

}  // namespace felloe
