// SPDX-License-Identifier: GPL-3.0-or-later
// SQLite with our errors: one open database, its statements and transactions.
#pragma once
#include <cstdint>
#include <string>

struct sqlite3;
struct sqlite3_stmt;

namespace felloe {

/// An open SQLite file. Every failure is an Error that names the file and says what to do.
class Database {
 public:
  enum class Use {
    read,   ///< looks only, also where nothing can be written
    write,  ///< the file is there
    make    ///< made where it is missing
  };
  Database(const std::string &path, Use);
  ~Database();
  Database(const Database &) = delete;
  Database &operator=(const Database &) = delete;

  /// Runs statements that give no rows.
  void run(const std::string &sql);
  /// Rows that the last statement changed.
  long long changed() const;
  /// Throws the Error that belongs to the last failure.
  [[noreturn]] void refuse() const;
  sqlite3 *get() const { return db_; }

 private:
  void open(const std::string &name, int flags);
  void open_to_read();
  std::string path_;
  sqlite3 *db_ = nullptr;
};

/// A prepared statement; places and columns count from 0.
class Statement {
 public:
  Statement(const Database &, const std::string &sql);
  ~Statement();
  Statement(const Statement &) = delete;
  Statement &operator=(const Statement &) = delete;

  Statement &put(int place, double);  ///< NaN becomes NULL
  Statement &put(int place, std::int64_t);
  Statement &put(int place, int value) { return put(place, std::int64_t(value)); }
  Statement &put(int place, const std::string &);
  /// Next row; false: there is none. After false the statement may be run again with new values.
  bool step();
  /// For statements without rows.
  void run();

  double number(int column) const;  ///< NULL is NaN
  std::int64_t whole(int column) const;
  std::string text(int column) const;
  bool is_null(int column) const;
  enum class Kind { number, whole, text, null };
  Kind kind(int column) const;

 private:
  const Database &database_;
  sqlite3_stmt *statement_ = nullptr;
};

/// A write transaction that holds the lock from its start (so that two writers wait for each other
/// and never dead-lock); undone unless committed.
class Transaction {
 public:
  explicit Transaction(Database &);
  ~Transaction();
  Transaction(const Transaction &) = delete;
  Transaction &operator=(const Transaction &) = delete;
  void commit();

 private:
  Database &database_;
  bool open_ = true;
};

}  // namespace felloe
