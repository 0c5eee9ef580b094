// SPDX-License-Identifier: GPL-3.0-or-later
// Handing out designs and taking their figures back.
#include "cli/sweep/detail/store_impl.h"
#include "mesher/error.h"

namespace felloe {
namespace {

constexpr int crashes_allowed = 1;    ///< the second one fails the design
constexpr int attempts_allowed = 10;  ///< without a result, whoever ended them

/// Who holds a design, as a condition on a row; the places follow each other.
const char *held_by =
    "state = 'running' AND lease_boot = ? AND lease_pid_names = ? AND lease_pid = ? AND "
    "lease_start = ?";

void put_holder(Statement &s, int place, const Workplace &w) {
  s.put(place, w.boot).put(place + 1, w.pid_names).put(place + 2, w.pid).put(place + 3, w.start);
}

void store_figures(Store::Impl &store, const Job &job, const DesignFigures &f) {
  Statement s(store.database,
              "UPDATE evaluations SET mass_kg = ?, disc_mass_kg = ?, tilt_Nm_per_deg = ?, "
              "axial_N_per_mm = ?, radial_N_per_mm = ?, verdict = ?, dofs = ?, setup_seconds = ?, "
              "solve_seconds = ?, rating_seconds = ? WHERE design = ? AND depth = ?");
  s.put(0, f.mass_kg).put(1, f.disc_mass_kg).put(2, f.tilt_Nm_per_deg).put(3, f.axial_N_per_mm);
  s.put(4, f.radial_N_per_mm).put(5, to_string(f.verdict)).put(6, std::int64_t(f.dofs));
  s.put(7, f.setup_seconds).put(8, f.solve_seconds).put(9, f.rating_seconds);
  s.put(10, std::int64_t(job.design)).put(11, to_text(job.depth)).run();
  Statement t(store.database,
              "INSERT OR REPLACE INTO test_figures VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  for (std::size_t i = 0; i < f.tests.size(); ++i) {
    const TestFigures &test = f.tests[i];
    t.put(0, std::int64_t(job.design)).put(1, to_text(job.depth)).put(2, int(i));
    t.put(3, test.test).put(4, test.feature).put(5, test.stress_MPa);
    t.put(6, test.allowed_stress_MPa).put(7, test.error_percent).put(8, test.life_p50);
    t.put(9, test.life_design).put(10, test.required_cycles).put(11, to_string(test.verdict));
    t.run();
  }
}

/// Ends the row of a job; false: this process does not hold it any more.
bool end_job(Store::Impl &store, const Job &job, const Workplace &me, const char *state,
             const std::string &reason, const std::string &version, double seconds) {
  Statement s(store.database,
              "UPDATE evaluations SET state = ?, reason = ?, version = ?, input_hash = ?, host = "
              "?, seconds = ?, finished_at = ?, lease_pid = NULL WHERE design = ? AND depth = ? "
              "AND " +
                  std::string(held_by));
  s.put(0, std::string(state)).put(1, reason).put(2, version);
  s.put(3, text_hash(job.case_text + "\n" + to_text(job.depth) + "\n" + version));
  s.put(4, me.host).put(5, seconds).put(6, now_seconds());
  s.put(7, std::int64_t(job.design)).put(8, to_text(job.depth));
  put_holder(s, 9, me);
  s.run();
  return store.database.changed() == 1;
}

}  // namespace

void Store::Impl::queue_wheels(double largest_utilisation, std::int64_t design) {
  Statement s(
      database,
      "INSERT OR IGNORE INTO evaluations (design, depth, state, reason) "
      "SELECT e.design, 'wheel', 'queued', '' FROM evaluations e "
      "WHERE e.depth = 'section' AND e.state = 'done' AND (?2 = 0 OR e.design = ?2) AND NOT "
      "EXISTS (SELECT 1 FROM test_figures t WHERE t.design = e.design AND t.depth = "
      "'section' AND t.allowed_stress_MPa > 0 AND t.stress_MPa > ?1 * t.allowed_stress_MPa)");
  s.put(0, largest_utilisation).put(1, design).run();
}

std::optional<Job> Store::take(const Workplace &me) {
  Transaction transaction(impl_->database);
  Job job;
  {
    // designs that an earlier attempt left unfinished come last: they may be the ones that kill
    Statement s(impl_->database,
                "SELECT e.design, e.depth, e.attempts, d.case_text FROM evaluations e JOIN designs "
                "d ON d.id = e.design WHERE e.state = 'queued' AND d.place IS NOT NULL ORDER BY "
                "e.attempts, e.depth, e.design LIMIT 1");
    if (!s.step()) return {};
    job = {long(s.whole(0)), depth_of(s.text(1)), int(s.whole(2)) + 1, s.text(3)};
  }
  Statement s(impl_->database,
              "UPDATE evaluations SET state = 'running', attempts = ?, lease_host = ?, lease_boot "
              "= ?, lease_pid_names = ?, lease_pid = ?, lease_start = ?, lease_parent = ?, "
              "lease_parent_start = ?, lease_processor = ?, lease_seen = ? WHERE design = ? AND "
              "depth = ?");
  s.put(0, job.attempt).put(1, me.host).put(2, me.boot).put(3, me.pid_names).put(4, me.pid);
  s.put(5, me.start).put(6, me.parent).put(7, me.parent_start).put(8, me.processor);
  s.put(9, now_seconds());
  s.put(10, std::int64_t(job.design)).put(11, to_text(job.depth)).run();
  transaction.commit();
  return job;
}

bool Store::finish(const Job &job, const Workplace &me, const DesignFigures &figures,
                   const std::string &version, double seconds) {
  Transaction transaction(impl_->database);
  if (!end_job(*impl_, job, me, "done", "", version, seconds)) return false;
  store_figures(*impl_, job, figures);
  if (job.depth == Depth::section && impl_->meta("screened") == "yes")
    impl_->queue_wheels(std::stod(impl_->meta("screen_utilisation")), job.design);
  transaction.commit();
  return true;
}

bool Store::fail(const Job &job, const Workplace &me, const std::string &reason,
                 const std::string &version, double seconds) {
  Transaction transaction(impl_->database);
  const bool held = end_job(*impl_, job, me, "failed", reason, version, seconds);
  if (held) transaction.commit();
  return held;
}

std::vector<long> Store::release(const Workplace &ended, const std::string &crash) {
  Transaction transaction(impl_->database);
  Statement held(
      impl_->database,
      "SELECT design, depth, attempts, crashes FROM evaluations WHERE " + std::string(held_by));
  put_holder(held, 0, ended);
  Statement back(impl_->database,
                 "UPDATE evaluations SET state = ?, reason = ?, crashes = ?, lease_pid = NULL "
                 "WHERE design = ? AND depth = ?");
  struct Held {
    long design;
    std::string depth;
    int attempts, crashes;
  };
  std::vector<Held> all;
  while (held.step())
    all.push_back({long(held.whole(0)), held.text(1), int(held.whole(2)), int(held.whole(3))});
  std::vector<long> designs;
  for (const Held &h : all) {
    const int crashes = h.crashes + (crash.empty() ? 0 : 1);
    std::string reason;
    if (crashes > crashes_allowed)
      reason = "ended its process " + std::to_string(crashes) + " times: " + crash;
    else if (h.attempts >= attempts_allowed)
      reason = std::to_string(h.attempts) + " attempts ended without a result";
    back.put(0, std::string(reason.empty() ? "queued" : "failed")).put(1, reason).put(2, crashes);
    back.put(3, std::int64_t(h.design)).put(4, h.depth).run();
    designs.push_back(h.design);
  }
  if (!designs.empty()) transaction.commit();
  return designs;
}

long Store::release_ended(const Workplace &me) {
  std::vector<Workplace> ended;
  {
    Statement s(
        impl_->database,
        "SELECT lease_host, lease_boot, lease_pid_names, lease_pid, lease_start, "
        "lease_parent, lease_parent_start, lease_seen FROM evaluations WHERE state = 'running'");
    while (s.step()) {
      Workplace w;
      w.host = s.text(0);
      w.boot = s.text(1);
      w.pid_names = s.text(2);
      w.pid = s.whole(3);
      w.start = s.whole(4);
      w.parent = s.whole(5);
      w.parent_start = s.whole(6);
      if (has_ended(w, s.number(7), me)) ended.push_back(w);
    }
  }
  long n = 0;
  for (const Workplace &w : ended) n += long(release(w, "").size());
  return n;
}

void Store::refuse_other_machines(const Workplace &me) const {
  if (impl_->meta("shared_disk") == "yes") return;
  Statement s(impl_->database,
              "SELECT lease_host FROM evaluations WHERE state = 'running' AND lease_boot <> ? AND "
              "lease_host <> ? AND lease_seen > ? LIMIT 1");
  s.put(0, me.boot).put(1, me.host).put(2, now_seconds() - silence_limit);
  if (s.step())
    throw Error(impl_->path + ": the machine '" + s.text(0) +
                "' works on it, and the sweep was planned for one machine at a time; write "
                "shared_disk = true into the sweep file and plan it into a new folder");
}

void Store::report_alive(const Workplace &parent) {
  Transaction transaction(impl_->database);
  Statement s(
      impl_->database,
      "UPDATE evaluations SET lease_seen = ? WHERE state = 'running' AND lease_boot = ? AND "
      "lease_pid_names = ? AND lease_parent = ?");
  s.put(0, now_seconds()).put(1, parent.boot).put(2, parent.pid_names).put(3, parent.pid).run();
  transaction.commit();
}

std::vector<int> Store::busy_processors(const Workplace &me) const {
  Statement s(impl_->database,
              "SELECT lease_processor FROM evaluations WHERE state = 'running' AND lease_boot = ? "
              "AND lease_processor >= 0");
  s.put(0, me.boot);
  std::vector<int> all;
  while (s.step()) all.push_back(int(s.whole(0)));
  return all;
}

long Store::retry_failed() {
  Transaction transaction(impl_->database);
  // designs that could never be tried keep their reason: trying changes nothing
  Statement s(impl_->database,
              "UPDATE evaluations SET state = 'queued', crashes = 0, attempts = 0, reason = '' "
              "WHERE state = 'failed' AND attempts > 0");
  s.run();
  const long n = long(impl_->database.changed());
  transaction.commit();
  return n;
}

}  // namespace felloe
