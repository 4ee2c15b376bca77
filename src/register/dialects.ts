import Database from 'better-sqlite3';
import { type Dialect, SqliteDialect } from 'kysely';
import { PreparedOnce } from './prepared-once.ts';

/** A database the register can live in. Tests loop over all of them. */
export interface RegisterDialect {
  readonly name: 'sqlite';
  /** Opens or makes the database at an address; for SQLite the path of its file. */
  open(address: string): Dialect;
}

/** The embedded one. */
export const sqlite: RegisterDialect = {
  name: 'sqlite',
  open(path) {
    const database = new Database(path);
    // Readers beside the writer. A lost last second is fetched from the journal again, so no sync is waited for.
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = NORMAL');
    return new SqliteDialect({ database: new PreparedOnce(database) });
  },
};

export const dialects: readonly RegisterDialect[] = [sqlite];
