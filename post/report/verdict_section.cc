// SPDX-License-Identifier: GPL-3.0-or-later
// The answer: every rig test with its margin, its worst place and that place's life.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/confidence.h"
#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"
#include "post/results_json.h"
#include "post/worst_first.h"

namespace felloe {
namespace {

std::string stamp(Verdict v, const char *size) {
  std::string word = verdict_text(v);
  std::transform(word.begin(), word.end(), word.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return fmt::format("<span class=\"stamp{} {}\">{}</span>", size, verdict_class(v), word);
}

std::string sentence(const Results &r) {
  const auto count = [&](Verdict v) {
    return std::count_if(r.tests.begin(), r.tests.end(),
                         [v](const TestVerdict &t) { return t.verdict == v; });
  };
  if (r.tests.empty()) return "The case asks for no rig test: stresses only, nothing is rated.";
  std::string text = fmt::format("{} of {} rig test{} passed, calculated at {:g} % survival.",
                                 count(Verdict::pass), r.tests.size(),
                                 r.tests.size() == 1 ? "" : "s", r.survival_percent);
  if (count(Verdict::not_rated) > 0)
    text += fmt::format(" {} not rated.", count(Verdict::not_rated));
  return text;
}

std::string place_text(const HotSpot &h) {
  return fmt::format("No. {}: {} ({}), r {} mm, \u03B8 {}\u00B0, z {} mm", h.id,
                     name_markup(h.feature), html_text(h.side), fixed_text(h.r, 1),
                     fixed_text(h.theta_deg, 1), fixed_text(h.z, 1));
}

std::string used_stress(const HotSpot &h) {
  if (!(utilisation(h) > 0)) return "\u2013";
  return fmt::format("{} % ({} of {} MPa, fully reversed)", fixed_text(100 * utilisation(h), 0),
                     fixed_text(h.fully_reversed, 0), fixed_text(h.allowed, 0));
}

/// "life infinite", "2.54 times the required cycles".
std::string times_required(double life, double required) {
  const double factor = life / required;
  return std::isinf(factor) ? std::string("life infinite")
                            : figure_text(factor, 3) + " times the required cycles";
}

std::string shortest_life(const HotSpot &shortest, const HotSpot &worst) {
  const std::string times = times_required(shortest.life_design, shortest.required_cycles);
  if (shortest.id == worst.id) return "the same, " + times;
  return fmt::format("No. {}, {}: {}, {}", shortest.id, name_markup(shortest.feature),
                     cycles_words(shortest.life_design), times);
}

/// No calculation is sure of the last thousandth.
std::string chance(double share) {
  if (share > 0.999) return "over 99.9 %";
  if (share < 0.001) return "under 0.1 %";
  return figure_text(100 * share, 3) + " %";
}

std::vector<HtmlFact> facts(const ReportInput &in, const TestVerdict &t, const HotSpot *h) {
  std::vector<HtmlFact> all = {
      {"Load", html_text(figure_text(t.load) + " " + t.load_unit)},
      {"Required cycles", cycles_words(t.required_cycles)},
  };
  if (!h) return all;
  const double survival = in.rules.survival;
  all.push_back({"Worst place", place_text(*h), true});
  all.push_back({"Allowed stress used", used_stress(*h), true});
  all.push_back({fmt::format("Life at {:g} % survival", in.results.survival_percent),
                 cycles_words(h->life_design)});
  all.push_back({"Its range by the error bar", life_range(*h, survival)});
  all.push_back({"Life at 50 % survival", cycles_words(h->life_p50)});
  const HotSpot &shortest = *shortest_lived(in.results.hot_spots, t.name);
  all.push_back({"Shortest life of all places", shortest_life(shortest, *h), true});
  if (t.pass_probability >= 0)
    all.push_back({fmt::format("Chance that {} pass{}",
                               t.wheels == 1 ? std::string("one wheel")
                                             : fmt::format("all {} wheels", t.wheels),
                               t.wheels == 1 ? "es" : ""),
                   chance(t.pass_probability)});
  return all;
}

std::string test_box(const ReportInput &in, std::size_t i) {
  const TestVerdict &t = in.results.tests[i];
  const HotSpot *h = worst_of(in.results.hot_spots, t.name);
  std::string out = fmt::format(
      "<div class=\"verdict\" id=\"verdict-{}\">\n<h3><span>{} {} <span class=\"quiet\">"
      "({})</span></span> {}</h3>\n",
      i + 1, series_key(static_cast<int>(i)), name_markup(t.name), html_text(t.kind),
      stamp(t.verdict, " small"));
  out += html_facts(facts(in, t, h));
  if (h && within_error(*h, in.rules.survival))
    out += fmt::format(
        "<p class=\"note\"><strong>The verdict turns within the error bar of \u00B1{} %.</strong> "
        "Treat it as undecided until a finer mesh or a test has decided.</p>\n",
        figure_text(h->error_percent, 2));
  return out + "</div>\n";
}

std::string heed(const ReportInput &in) {
  const auto weak = std::count_if(in.factors.begin(), in.factors.end(),
                                  [](const Provenance &p) { return low_confidence(p.confidence); });
  if (weak == 0 && in.results.cautions.empty()) return "";
  std::string out = "<div class=\"heed\"><p><strong>Before you sign:</strong> ";
  if (weak > 0)
    out += fmt::format(
        "{} of {} factors behind these figures come from memory, second hand or "
        "common practice (<a href=\"#provenance\">provenance</a>). ",
        weak, in.factors.size());
  return out +
         "A calculation never releases a wheel: tests by an accredited laboratory decide, and "
         "local "
         "codes and licensed engineers take precedence (<a href=\"#cautions\">cautions</a>).</p>"
         "</div>\n";
}

}  // namespace

std::string verdict_section(const ReportInput &in) {
  const Results &r = in.results;
  std::string out = fmt::format("<div class=\"overall\">{}<p>{}</p></div>\n",
                                stamp(overall_verdict(r), ""), sentence(r));
  if (!r.tests.empty()) out += "<div class=\"verdicts\">\n";
  for (std::size_t i = 0; i < r.tests.size(); ++i) out += test_box(in, i);
  if (!r.tests.empty()) out += "</div>\n";
  return out + heed(in);
}

}  // namespace felloe
