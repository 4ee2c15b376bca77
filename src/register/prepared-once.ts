import type { SqliteDatabase, SqliteStatement } from 'kysely';

/** Most statements held ready. The register asks about a hundred different ones; a list of ids is one for each length. */
export const statementsMax = 256;

/** What may be run again as it was prepared; anything else may change the tables it was prepared for. */
const repeatable = /^(select|insert|update|delete|begin|commit|rollback)\b/i;

/**
 * A database that prepares a statement once and not each time it is run, which is what Kysely asks for: measured, half
 * the processor time that a frame costs the register. For statements that are run to their end before the next.
 */
export class PreparedOnce implements SqliteDatabase {
  readonly #database: SqliteDatabase;
  /** The one longest unused first. */
  readonly #ready = new Map<string, SqliteStatement>();

  constructor(database: SqliteDatabase) {
    this.#database = database;
  }

  prepare(sql: string): SqliteStatement {
    if (!repeatable.test(sql)) {
      this.#ready.clear();
      return this.#database.prepare(sql);
    }
    const statement = this.#ready.get(sql) ?? this.#database.prepare(sql);
    this.#ready.delete(sql);
    this.#ready.set(sql, statement);
    const [oldest] = this.#ready.keys();
    if (this.#ready.size > statementsMax && oldest !== undefined) this.#ready.delete(oldest);
    return statement;
  }

  close(): void {
    this.#ready.clear();
    this.#database.close();
  }
}
