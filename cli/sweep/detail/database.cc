// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/detail/database.h"

#include <sqlite3.h>
#include <sys/resource.h>

#include <cerrno>
#include <cmath>
#include <cstring>
#include <filesystem>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr int patience_ms = 60000;

bool file_sizes_are_limited() {
  rlimit limit = {};
  return ::getrlimit(RLIMIT_FSIZE, &limit) == 0 && limit.rlim_cur != RLIM_INFINITY;
}

/// What the user reads. SQLite keeps the system's reason apart from its own code.
std::string message(const std::string &path, int code, int system_code, const std::string &text) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  const std::string again = "then 'felloe sweep " + folder + "' goes on where it stopped";
  const int kind = code & 0xff;
  // SQLite tells neither a quota nor a limit on file sizes from other failures to write
  const bool write = code == SQLITE_IOERR_WRITE || code == SQLITE_IOERR_SHMSIZE ||
                     code == SQLITE_IOERR_FSYNC || code == SQLITE_IOERR_TRUNCATE;
  if (write && file_sizes_are_limited())
    return path + ": can't be written: the limit on file sizes is reached; raise it, " + again;
  if (kind == SQLITE_FULL || write)
    return path + ": can't be written: the disk is full" +
           (write ? ", over its quota or broken; make room, " : "; make room, ") + again;
  if (kind == SQLITE_READONLY || kind == SQLITE_PERM ||
      (kind == SQLITE_CANTOPEN && std::filesystem::exists(path)))
    return path +
           ": can't be written: the file or its folder is read-only for you; change the access "
           "rights, " +
           again + " ('felloe sweep " + folder + " --table' only reads)";
  if (kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB)
    return path + ": is damaged or not the store of a sweep (" + text +
           "); move it away and start the sweep again";
  if (kind == SQLITE_BUSY || kind == SQLITE_LOCKED)
    return path + ": another process kept it locked for " + std::to_string(patience_ms / 1000) +
           " s; end that process, " + again;
  return path + ": " + text + (system_code ? std::string(": ") + std::strerror(system_code) : "") +
         "; repair this, " + again;
}

}  // namespace

Database::Database(const std::string &path, Use use) : path_(path) {
  if (use != Use::make && !std::filesystem::exists(path))
    throw Error(path + ": there is no such store; give the folder of a sweep");
  if (use != Use::read)
    open(path, SQLITE_OPEN_READWRITE | (use == Use::make ? SQLITE_OPEN_CREATE : 0));
  else
    open_to_read();
}

void Database::open_to_read() {
  try {
    open(path_, SQLITE_OPEN_READONLY);
  } catch (const Error &) {
    // WAL needs a file of its own beside the store even to read. Where none can be made nobody can
    // write either, and without a log the file alone is complete.
    const std::string log = path_ + "-wal";
    if (std::filesystem::exists(log) && std::filesystem::file_size(log) > 0) throw;
    open("file:" + path_ + "?immutable=1", SQLITE_OPEN_READONLY | SQLITE_OPEN_URI);
  }
}

void Database::open(const std::string &name, int flags) {
  sqlite3_close_v2(db_);
  db_ = nullptr;
  const int code = sqlite3_open_v2(name.c_str(), &db_, flags, nullptr);
  sqlite3_extended_result_codes(db_, 1);
  sqlite3_busy_timeout(db_, patience_ms);
  try {
    if (code != SQLITE_OK) refuse();
    Statement(*this, "SELECT count(*) FROM sqlite_master").step();  // opening alone reads nothing
  } catch (...) {
    sqlite3_close_v2(db_);
    db_ = nullptr;
    throw;
  }
}

Database::~Database() { sqlite3_close_v2(db_); }

void Database::refuse() const {
  throw Error(message(path_, sqlite3_extended_errcode(db_), sqlite3_system_errno(db_),
                      sqlite3_errmsg(db_)));
}

void Database::run(const std::string &sql) {
  if (sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) refuse();
}

long long Database::changed() const { return sqlite3_changes(db_); }

Statement::Statement(const Database &database, const std::string &sql) : database_(database) {
  if (sqlite3_prepare_v2(database.get(), sql.c_str(), -1, &statement_, nullptr) != SQLITE_OK)
    database.refuse();
}

Statement::~Statement() { sqlite3_finalize(statement_); }

Statement &Statement::put(int place, double value) {
  if (std::isnan(value))
    sqlite3_bind_null(statement_, place + 1);
  else
    sqlite3_bind_double(statement_, place + 1, value);
  return *this;
}

Statement &Statement::put(int place, std::int64_t value) {
  sqlite3_bind_int64(statement_, place + 1, value);
  return *this;
}

Statement &Statement::put(int place, const std::string &value) {
  sqlite3_bind_text(statement_, place + 1, value.data(), int(value.size()), SQLITE_TRANSIENT);
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) {
    try {
      database_.refuse();
    } catch (...) {
      sqlite3_reset(statement_);
      throw;
    }
  }
  sqlite3_reset(statement_);
  return false;
}

void Statement::run() {
  while (step()) {
  }
}

double Statement::number(int column) const {
  return is_null(column) ? std::nan("") : sqlite3_column_double(statement_, column);
}

std::int64_t Statement::whole(int column) const { return sqlite3_column_int64(statement_, column); }

std::string Statement::text(int column) const {
  const auto *bytes = reinterpret_cast<const char *>(sqlite3_column_text(statement_, column));
  return bytes ? std::string(bytes, std::size_t(sqlite3_column_bytes(statement_, column)))
               : std::string();
}

bool Statement::is_null(int column) const {
  return sqlite3_column_type(statement_, column) == SQLITE_NULL;
}

Statement::Kind Statement::kind(int column) const {
  switch (sqlite3_column_type(statement_, column)) {
    case SQLITE_INTEGER:
      return Kind::whole;
    case SQLITE_FLOAT:
      return Kind::number;
    case SQLITE_NULL:
      return Kind::null;
    default:
      return Kind::text;
  }
}

Transaction::Transaction(Database &database) : database_(database) {
  database_.run("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  if (open_) sqlite3_exec(database_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  database_.run("COMMIT");
  open_ = false;
}

}  // namespace felloe
