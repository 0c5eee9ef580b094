// SPDX-License-Identifier: GPL-3.0-or-later
// Making the store and planning its designs.
#include "cli/sweep/store.h"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>

#include <cstdlib>
#include <filesystem>

#include "cli/sweep/detail/store_impl.h"
#include "mesher/error.h"

namespace felloe {
namespace {

/// The form of the tables; a store of another form is refused.
const char *form = "1";

const char *tables = R"(
CREATE TABLE IF NOT EXISTS sweep (name TEXT PRIMARY KEY, value TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS swept_keys (place INTEGER PRIMARY KEY, key TEXT, unit TEXT);
CREATE TABLE IF NOT EXISTS designs (
  id INTEGER PRIMARY KEY, place INTEGER, case_hash TEXT UNIQUE, case_text TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS design_values (
  design INTEGER, place INTEGER, value, PRIMARY KEY (design, place)) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS evaluations (
  design INTEGER, depth TEXT, state TEXT, attempts INTEGER DEFAULT 0, crashes INTEGER DEFAULT 0,
  lease_host TEXT, lease_boot TEXT, lease_pid_names TEXT, lease_pid INTEGER, lease_start INTEGER,
  lease_parent INTEGER, lease_parent_start INTEGER, lease_processor INTEGER, lease_seen REAL,
  input_hash TEXT, version TEXT, host TEXT, finished_at REAL, reason TEXT,
  mass_kg REAL, disc_mass_kg REAL, tilt_Nm_per_deg REAL, axial_N_per_mm REAL, radial_N_per_mm REAL,
  verdict TEXT, dofs INTEGER, seconds REAL, setup_seconds REAL, solve_seconds REAL,
  rating_seconds REAL,
  PRIMARY KEY (design, depth)) WITHOUT ROWID;
CREATE INDEX IF NOT EXISTS by_state ON evaluations (state, attempts, depth, design);
CREATE TABLE IF NOT EXISTS test_figures (
  design INTEGER, depth TEXT, place INTEGER, test TEXT, feature TEXT, stress_MPa REAL,
  allowed_stress_MPa REAL, error_percent REAL, life_p50 REAL, life_design REAL,
  required_cycles REAL, verdict TEXT, PRIMARY KEY (design, depth, place)) WITHOUT ROWID;
)";

void write_head(Store::Impl &store, const SweepHead &head);

}  // namespace

std::string to_text(Depth depth) { return depth == Depth::section ? "section" : "wheel"; }

Depth depth_of(const std::string &text) {
  return text == "section" ? Depth::section : Depth::wheel;
}

std::string text_hash(const std::string &text) {
  static const boost::uuids::uuid space =
      boost::uuids::name_generator_sha1(boost::uuids::ns::url())("felloe/sweep");
  return boost::uuids::to_string(boost::uuids::name_generator_sha1(space)(text));
}

Value stored_value(const Statement &s, int column) {
  // yes and no are kept as text: SQLite has no type for them
  if (s.kind(column) == Statement::Kind::whole) return int(s.whole(column));
  if (s.kind(column) == Statement::Kind::number) return s.number(column);
  const std::string text = s.text(column);
  if (text == "true" || text == "false") return text == "true";
  return text;
}

void put_value(Statement &s, int place, const Value &value) {
  if (const auto *d = std::get_if<double>(&value))
    s.put(place, *d);
  else if (const auto *i = std::get_if<int>(&value))
    s.put(place, *i);
  else if (const auto *b = std::get_if<bool>(&value))
    s.put(place, std::string(*b ? "true" : "false"));
  else
    s.put(place, std::get<std::string>(value));
}

std::string Store::Impl::meta(const std::string &name) const {
  Statement s(database, "SELECT value FROM sweep WHERE name = ?");
  s.put(0, name);
  return s.step() ? s.text(0) : std::string();
}

void Store::Impl::set_meta(const std::string &name, const std::string &value) {
  Statement s(database, "INSERT OR REPLACE INTO sweep VALUES (?, ?)");
  s.put(0, name).put(1, value).run();
}

std::string Store::file_of(const std::string &folder) {
  return (std::filesystem::path(folder.empty() ? "." : folder) / "designs.sqlite").string();
}

bool Store::exists(const std::string &folder) {
  return std::filesystem::is_regular_file(file_of(folder));
}

Store::~Store() = default;

Store::Store(const std::string &folder, Use use)
    : impl_(std::make_unique<Impl>(folder,
                                   use == Use::read ? Database::Use::read : Database::Use::write)) {
  Statement s(impl_->database, "SELECT count(*) FROM sqlite_master WHERE name = 'sweep'");
  s.step();
  if (s.whole(0) == 0)
    throw Error(impl_->path +
                ": holds no sweep (it was never planned to the end); plan it again with 'felloe "
                "sweep SWEEP.toml -o " +
                folder + "'");
  s.step();
  if (impl_->meta("form") != form)
    throw Error(impl_->path + ": was written by another version of felloe (form " +
                impl_->meta("form") + ", this one knows " + form +
                "); use that version, or start "
                "the sweep in a new folder");
  // A finished design survives a power cut: every commit reaches the disk.
  if (use == Use::write) impl_->database.run("PRAGMA synchronous = FULL");
}

long Store::plan(const std::string &folder, const SweepHead &head,
                 const std::vector<PlannedDesign> &designs) {
  Impl store(folder, Database::Use::make);
  store.database.run("PRAGMA synchronous = FULL");
  store.database.run(std::string("PRAGMA journal_mode = ") + (head.shared_disk ? "DELETE" : "WAL"));
  Transaction transaction(store.database);
  store.database.run(tables);
  if (const std::string found = store.meta("form"); !found.empty() && found != form)
    throw Error(store.path + ": was written by another version of felloe; choose a new folder");
  write_head(store, head);
  store.database.run("UPDATE designs SET place = NULL; DELETE FROM design_values");
  Statement find(store.database, "SELECT id, place FROM designs WHERE case_hash = ?");
  Statement add(store.database,
                "INSERT INTO designs (place, case_hash, case_text) VALUES (?, ?, ?) RETURNING id");
  Statement place(store.database, "UPDATE designs SET place = ? WHERE id = ?");
  Statement value(store.database, "INSERT INTO design_values VALUES (?, ?, ?)");
  Statement queue(store.database,
                  "INSERT OR IGNORE INTO evaluations (design, depth, state, reason) "
                  "VALUES (?, ?, ?, ?)");
  long n = 0;
  for (const PlannedDesign &d : designs) {
    const std::string hash = text_hash(d.case_text);
    std::int64_t id = 0;
    bool twice = false;
    find.put(0, hash);
    if (find.step()) {
      id = find.whole(0);
      twice = !find.is_null(1);
      find.run();
    }
    if (twice) continue;
    if (id > 0) {
      place.put(0, std::int64_t(n)).put(1, id).run();
    } else {
      add.put(0, std::int64_t(n)).put(1, hash).put(2, d.case_text);
      add.step();
      id = add.whole(0);
      add.run();
    }
    ++n;
    for (std::size_t k = 0; k < d.values.size(); ++k) {
      value.put(0, id).put(1, int(k));
      put_value(value, 2, d.values[k]);
      value.run();
    }
    queue.put(0, id).put(1, to_text(head.first));
    queue.put(2, std::string(d.problem.empty() ? "queued" : "failed")).put(3, d.problem).run();
  }
  if (head.screened) store.queue_wheels(head.screen_utilisation, 0);
  transaction.commit();
  return n;
}

SweepHead Store::head() const {
  SweepHead h;
  h.title = impl_->meta("title");
  h.sweep_file = impl_->meta("sweep_file");
  h.sweep_text = impl_->meta("sweep_text");
  h.case_file = impl_->meta("case_file");
  h.first = depth_of(impl_->meta("first"));
  h.screened = impl_->meta("screened") == "yes";
  h.screen_utilisation = std::strtod(impl_->meta("screen_utilisation").c_str(), nullptr);
  h.workers = std::atoi(impl_->meta("workers").c_str());
  h.shared_disk = impl_->meta("shared_disk") == "yes";
  Statement s(impl_->database, "SELECT key, unit FROM swept_keys ORDER BY place");
  while (s.step()) {
    h.keys.push_back(s.text(0));
    h.units.push_back(s.text(1));
  }
  return h;
}

void Store::limit_pages(long pages) {
  Statement s(impl_->database, "PRAGMA max_page_count = " + std::to_string(pages));
  s.run();
}

namespace {

void write_head(Store::Impl &store, const SweepHead &head) {
  store.set_meta("form", form);
  store.set_meta("title", head.title);
  store.set_meta("sweep_file", head.sweep_file);
  store.set_meta("sweep_text", head.sweep_text);
  store.set_meta("case_file", head.case_file);
  store.set_meta("first", to_text(head.first));
  store.set_meta("screened", head.screened ? "yes" : "no");
  store.set_meta("screen_utilisation", plain_number(head.screen_utilisation));
  store.set_meta("workers", std::to_string(head.workers));
  store.set_meta("shared_disk", head.shared_disk ? "yes" : "no");
  store.database.run("DELETE FROM swept_keys");
  Statement key(store.database, "INSERT INTO swept_keys VALUES (?, ?, ?)");
  for (std::size_t k = 0; k < head.keys.size(); ++k)
    key.put(0, int(k)).put(1, head.keys[k]).put(2, head.units[k]).run();
}

}  // namespace
}  // namespace felloe
