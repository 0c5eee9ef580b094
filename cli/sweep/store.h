// SPDX-License-Identifier: GPL-3.0-or-later
// The one file in which a sweep keeps its designs, their states and their figures.
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cli/case_keys.h"
#include "cli/sweep/design_figures.h"
#include "cli/sweep/workplace.h"

namespace felloe {

std::string to_text(Depth);  ///< "section", "wheel"

/// What a sweep is, apart from its designs.
struct SweepHead {
  std::string title, sweep_file, sweep_text, case_file;
  std::vector<std::string> keys, units;  ///< that vary, in the order of a design's values
  Depth first = Depth::wheel;            ///< depth of every design
  bool screened = false;                 ///< the wheel follows where the section is good enough
  double screen_utilisation = 0;         ///< largest share of the allowed stress to follow
  int workers = 0;                       ///< 0: one a processor
  bool shared_disk = false;  ///< several machines write: rollback journal in place of WAL
};

/// One design as planned.
struct PlannedDesign {
  std::vector<Value> values;  ///< of the keys that vary
  std::string case_text;      ///< resolved, complete
  std::string problem;        ///< why it can't be computed at all; empty: nothing known
};

/// A design to evaluate.
struct Job {
  long design = 0;
  Depth depth = Depth::wheel;
  int attempt = 0;  ///< 1: the first
  std::string case_text;
};

struct Counts {
  long designs = 0, queued = 0, running = 0, done = 0, failed = 0;  ///< evaluations but `designs`
  long finished() const { return done + failed; }
  long all() const { return queued + running + finished(); }
};

enum class JobState { queued, running, done, failed };

/// A design as it stands in the store, at the deepest depth that was queued for it.
struct StoredDesign {
  long id = 0;
  std::vector<Value> values;
  Depth depth = Depth::wheel;
  JobState state = JobState::queued;
  std::string reason;  ///< of a failure
  DesignFigures figures;
  int attempts = 0;
  double seconds = 0;
  std::string version, input_hash, host;
  /// Smallest ratio of the allowed to the computed stress, and of rated life to required cycles;
  /// infinity: no crack expected, or nothing is rated.
  double stress_margin() const;
  double life_margin() const;
  bool has_lives() const;  ///< life_margin() means something
  bool complete() const { return state == JobState::done; }
};

/// Designs in `designs.sqlite` of a folder. Several processes may work on one store: every change
/// is one transaction. All functions throw Error when the file can't be read or written.
class Store {
 public:
  static std::string file_of(const std::string &folder);
  static bool exists(const std::string &folder);

  enum class Use { read, write };
  Store(const std::string &folder, Use);
  ~Store();

  /// Makes the store where it is missing, and sets the plan: a design that is already there keeps
  /// its figures, designs that are no longer planned keep theirs and are left out from now on.
  /// Designs with the same case text are one. Returns the number of designs left.
  static long plan(const std::string &folder, const SweepHead &,
                   const std::vector<PlannedDesign> &);

  SweepHead head() const;

  /// Takes the next queued design for this process; none: nothing is queued.
  std::optional<Job> take(const Workplace &);
  /// Stores the figures; with a screen, queues the wheel. False (and nothing stored): the design
  /// was given to another process meanwhile.
  bool finish(const Job &, const Workplace &, const DesignFigures &, const std::string &version,
              double seconds);
  bool fail(const Job &, const Workplace &, const std::string &reason, const std::string &version,
            double seconds);

  /// What a process leaves that ended without a result: its design goes back to the queue, or is
  /// failed with `crash` when that happened for the second time. An empty `crash` blames nobody
  /// (killed from outside); after ten such attempts the design is failed all the same. Returns the
  /// designs concerned.
  std::vector<long> release(const Workplace &, const std::string &crash);
  /// Releases what ended processes left, of this and other machines. Returns how many designs.
  long release_ended(const Workplace &me);
  /// Throws Error when another machine works on a store that was planned for one machine.
  void refuse_other_machines(const Workplace &me) const;
  /// Says that the children of this process live.
  void report_alive(const Workplace &parent);
  /// Processors of this machine that running designs are bound to.
  std::vector<int> busy_processors(const Workplace &me) const;
  /// Failed designs back to the queue. Returns how many.
  long retry_failed();

  Counts counts() const;
  /// "lightest that passes 7.62 kg (design 57)", or an empty text.
  std::string lightest_that_passes() const;
  /// All planned designs in their order.
  std::vector<StoredDesign> designs() const;
  /// One of them with its case text; Error when there is none of that number.
  std::string case_text(long design) const;

  /// For tests: the file may not grow over this many pages.
  void limit_pages(long pages);

  struct Impl;

 private:
  std::unique_ptr<Impl> impl_;
};

/// A name for a text, the same for the same text (UUID of version 5).
std::string text_hash(const std::string &);

}  // namespace felloe
