// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/options.h"

#include <boost/program_options.hpp>

#include <algorithm>
#include <cmath>

#include "cli/command_table.h"
#include "cli/nearest.h"
#include "mesher/error.h"

namespace felloe {
namespace {

namespace po = boost::program_options;

po::options_description options_of(const std::string &command) {
  po::options_description d;
  for (const OptionRow &o : find_command(command)->options) {
    const std::string names = o.name + (o.letter ? std::string(",") + o.letter : "");
    if (o.value.empty())
      d.add_options()(names.c_str(), "");
    else
      d.add_options()(names.c_str(), po::value<std::string>(), "");
  }
  return d;
}

std::string see(const std::string &command) { return "; see 'felloe help " + command + "'"; }

[[noreturn]] void unknown_option(const std::string &command, std::string found) {
  std::vector<std::string> known;
  for (const OptionRow &o : find_command(command)->options)
    if (!o.hidden) known.push_back(o.name);
  found.erase(0, std::min(found.find_first_not_of('-'), found.size()));
  const std::string near = nearest(found, known);
  throw Error(command + ": unknown option '" + (found.size() > 1 ? "--" : "-") + found + "'" +
              (near.empty() ? "" : "; did you mean '--" + near + "'?") + see(command));
}

/// Options and file names of one command. Every file name is in `names`.
po::variables_map parsed(const std::string &command, const std::vector<std::string> &arguments,
                         std::vector<std::string> &names) {
  po::options_description all = options_of(command);
  all.add_options()("names", po::value<std::vector<std::string>>(), "");
  po::positional_options_description positional;
  positional.add("names", -1);
  using namespace po::command_line_style;
  const int style = (unix_style | allow_long) & ~allow_guessing;
  po::variables_map given;
  try {
    po::store(
        po::command_line_parser(arguments).options(all).positional(positional).style(style).run(),
        given);
  } catch (const po::unknown_option &e) {
    unknown_option(command, e.get_option_name());
  } catch (const po::multiple_occurrences &e) {
    throw Error(command + ": " + e.get_option_name() + ": given more than once; give it once");
  } catch (const po::error_with_option_name &e) {
    throw Error(command + ": " + e.get_option_name() + ": " +
                (dynamic_cast<const po::invalid_command_line_syntax *>(&e)
                     ? "needs a value, or has one that it does not take"
                     : "can't be understood") +
                see(command));
  } catch (const po::error &e) {
    throw Error(command + ": " + e.what() + see(command));
  }
  if (given.count("names")) names = given["names"].as<std::vector<std::string>>();
  return given;
}

std::string text_option(const po::variables_map &given, const char *name) {
  return given.count(name) ? given[name].as<std::string>() : std::string();
}

std::string only_case(const std::string &command, const std::vector<std::string> &names) {
  if (names.empty())
    throw Error(command + ": no case file given; write for example 'felloe " + command +
                " wheel.toml" + (command == "check" ? "'" : " -o out'"));
  if (names.size() > 1)
    throw Error(command + ": takes one case file, found " + listed(names) + see(command));
  return names.front();
}

double density_option(const std::string &command, const std::string &text) {
  if (text.empty()) return 0;
  char *end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (*end != '\0' || !std::isfinite(value))
    throw Error(command + ": --density " + text + ": not a number; accepted: 0.25 to 4");
  if (value < 0.25 || value > 4)
    throw Error(command + ": --density " + text + ": " +
                (value < 0.25 ? "too small" : "too large") + "; accepted: 0.25 to 4");
  return value;
}

Options read_check(const po::variables_map &given, const std::vector<std::string> &names) {
  Options o;
  o.command = Command::check;
  o.check = {only_case("check", names), text_option(given, "output"), text_option(given, "drawing"),
             given.count("json") > 0};
  if (given.count("output") && given.count("drawing"))
    throw Error("check: --output and --drawing given together; keep one of the two");
  for (const char *name : {"output", "drawing"})
    if (given.count(name) && text_option(given, name).empty())
      throw Error(std::string("check: --") + name + ": the name is empty; give a name");
  return o;
}

/// run and thin take the same.
Options read_run(const std::string &command, const po::variables_map &given,
                 const std::vector<std::string> &names) {
  Options o;
  o.command = command == "run" ? Command::run : Command::thin;
  o.case_path = only_case(command, names);
  o.run.output = text_option(given, "output");
  if (o.run.output.empty())
    throw Error(command + ": no output folder; add '-o FOLDER', for example 'felloe " + command +
                " " + o.case_path + " -o out'");
  o.run.json = given.count("json") > 0;
  o.run.quiet = given.count("quiet") > 0;
  if (given.count("density") && text_option(given, "density").empty())
    throw Error(command + ": --density: no value; accepted: 0.25 to 4");
  o.density = density_option(command, text_option(given, "density"));
  return o;
}

/// A whole number that an option takes; `absent` where it is not given.
long whole_option(const po::variables_map &given, const std::string &command, const char *name,
                  long smallest, long largest, long absent) {
  if (!given.count(name)) return absent;
  const std::string text = text_option(given, name);
  char *end = nullptr;
  const long value = std::strtol(text.c_str(), &end, 10);
  if (text.empty() || *end != '\0' || value < smallest || value > largest)
    throw Error(command + ": --" + name + " " + text + ": accepted: a whole number, " +
                std::to_string(smallest) + " to " + std::to_string(largest));
  return value;
}

Options read_sweep_options(const po::variables_map &given, const std::vector<std::string> &names) {
  Options o;
  o.command = Command::sweep;
  if (names.size() != 1)
    throw Error(std::string("sweep: ") +
                (names.empty() ? "no sweep given" : "takes one name, found " + listed(names)) +
                "; write for example 'felloe sweep sweep.toml -o designs', later 'felloe sweep "
                "designs'");
  SweepOptions &s = o.sweep;
  s.source = names.front();
  s.output = text_option(given, "output");
  s.workers = int(whole_option(given, "sweep", "workers", 0, 1024, -1));
  s.best = whole_option(given, "sweep", "best", 1, 1000000, 0);
  s.design = whole_option(given, "sweep", "design", 1, 1000000000, 0);
  s.plan = given.count("plan") > 0;
  s.scatter = given.count("scatter") > 0;
  s.table = given.count("table") > 0;
  s.retry = given.count("retry") > 0;
  s.json = given.count("json") > 0;
  s.quiet = given.count("quiet") > 0;
  s.worker = given.count("worker") > 0;
  if (int(s.table) + int(s.scatter) + int(s.best > 0) + int(s.design > 0) > 1)
    throw Error("sweep: of --table, --scatter, --best and --design give one at a time");
  return o;
}

/// A number of percent, or the standard where the option is not given.
double percent_option(const po::variables_map &given, const char *name, double standard, double low,
                      double high) {
  if (!given.count(name)) return standard;
  const std::string text = text_option(given, name);
  char *end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (text.empty() || *end != '\0' || !(value >= low && value <= high))
    throw Error("fit: --" + std::string(name) + " " + text + ": not a number of percent in range" +
                "; accepted: " + std::to_string(std::lround(low)) + " to " +
                std::to_string(high).substr(0, 5));
  return value;
}

Options read_rate(const po::variables_map &given, const std::vector<std::string> &names) {
  if (names.empty() || names.size() > 2)
    throw Error(names.empty()
                    ? "rate: no folder of a run given; write for example 'felloe rate out'"
                    : "rate: takes a folder and a case file, found " + listed(names) + see("rate"));
  Options o;
  o.command = Command::rate;
  o.rate.folder = names[0];
  if (names.size() == 2) o.rate.case_path = names[1];
  o.rate.output = text_option(given, "output");
  if (given.count("output") && o.rate.output.empty())
    throw Error("rate: --output: the name is empty; give a name");
  o.rate.thickness = given.count("thickness") > 0;
  o.rate.json = given.count("json") > 0;
  o.rate.quiet = given.count("quiet") > 0;
  return o;
}

Options read_fit(const po::variables_map &given, const std::vector<std::string> &names) {
  if (names.size() != 1)
    throw Error(names.empty()
                    ? "fit: no table of lives given; write for example 'felloe fit "
                      "lives.csv -o out'"
                    : "fit: takes one table of lives, found " + listed(names) + see("fit"));
  Options o;
  o.command = Command::fit;
  o.fit.lives = names.front();
  o.fit.output = text_option(given, "output");
  if (given.count("output") && o.fit.output.empty())
    throw Error("fit: --output: the name is empty; give a name");
  o.fit.weibull = given.count("weibull") > 0;
  o.fit.staircase = given.count("staircase") > 0;
  o.fit.json = given.count("json") > 0;
  o.fit.use_for = text_option(given, "use-for");
  o.fit.survival_percent = percent_option(given, "survival", 90, 50, 99.99);
  o.fit.confidence_percent = percent_option(given, "confidence", 95, 50, 99.99);
  return o;
}

Options about(Command command, const std::string &name, const std::vector<std::string> &names,
              bool json = false) {
  if (names.size() > 1) throw Error(name + ": takes one word, found " + listed(names) + see(name));
  Options o;
  o.command = command;
  o.json = json;
  o.topic = names.empty() ? "" : names.front();
  return o;
}

}  // namespace

Options read_options(int argc, const char *const *argv) {
  if (argc < 2) return {};
  const std::string first = argv[1];
  if (first == "--help" || first == "-h") return {};
  if (first == "--version") {
    Options o;
    o.command = Command::version;
    return o;
  }
  if (!find_command(first)) {
    if (!first.empty() && first[0] == '-')
      throw Error(first + ": unknown option; 'felloe --help' shows what there is");
    const bool file = first.size() > 5 && first.compare(first.size() - 5, 5, ".toml") == 0;
    throw Error("'" + first + "': unknown command" +
                (file ? "; write 'felloe check " + first + "' or 'felloe run " + first + " -o out'"
                      : did_you_mean(first, command_names())) +
                " (known: " + listed(command_names()) + ")");
  }
  std::vector<std::string> names;
  const auto given = parsed(first, std::vector<std::string>(argv + 2, argv + argc), names);
  if (given.count("help")) return about(Command::help, first, {first});
  if (first == "check") return read_check(given, names);
  if (first == "run" || first == "thin") return read_run(first, given, names);
  if (first == "sweep") return read_sweep_options(given, names);
  if (first == "rate") return read_rate(given, names);
  if (first == "fit") return read_fit(given, names);
  return about(first == "list" ? Command::list : Command::help, first, names,
               given.count("json") > 0);
}

}  // namespace felloe
