import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { briefPageQuery } from './brief-queries.ts';
import { openDatabase } from './database.ts';
import { dialects, type RegisterDialect } from './dialects.ts';
import { framesPageQuery } from './frame-queries.ts';
import type { FramesQuery } from './rows.ts';

/** The tail of the SQL that each database is sent, written by hand from what the query is to mean. */
const cases: readonly {
  readonly query: FramesQuery;
  readonly sql: Readonly<Record<RegisterDialect['name'], string>>;
  readonly parameters: readonly unknown[];
}[] = [
  {
    query: { limit: 10 },
    sql: {
      sqlite: 'where "frames"."listed" > ? and 1 = 1 order by "frames"."order_ms", "frames"."id" limit ?',
    },
    parameters: [0, 11],
  },
  {
    query: { job: 'QM-26', shot: null, mark: 'none', after: '1000~f1', limit: 1 },
    sql: {
      sqlite:
        'where "frames"."listed" > ? and ("frames"."job" = ? and "frames"."shot" is null' +
        ' and ("marks"."mark" is null or "marks"."mark" = ?)' +
        ' and ("frames"."order_ms", "frames"."id") > (?, ?))' +
        ' order by "frames"."order_ms", "frames"."id" limit ?',
    },
    parameters: [0, 'QM-26', 'none', 1000, 'f1', 2],
  },
  {
    query: { newestFirst: true, after: '1000~f1', limit: 1 },
    sql: {
      sqlite:
        'where "frames"."listed" > ? and ("frames"."order_ms", "frames"."id") < (?, ?)' +
        ' order by "frames"."order_ms" desc, "frames"."id" desc limit ?',
    },
    parameters: [0, 1000, 'f1', 2],
  },
];

describe.each(dialects)('queries on $name', (dialect) => {
  let db: Awaited<ReturnType<typeof openDatabase>>;

  beforeAll(async () => {
    db = await openDatabase(':memory:', dialect);
  });

  afterAll(() => db.destroy());

  test.each(cases)('a page for $query is asked for as written by hand', ({ query, sql, parameters }) => {
    const compiled = framesPageQuery(db, query).compile();
    expect(compiled.sql.slice(compiled.sql.lastIndexOf('where'))).toBe(sql[dialect.name]);
    expect(compiled.parameters).toEqual(parameters);
  });

  test.each([
    { limit: 50 },
    { job: 'QM-26', limit: 50 },
    { job: 'QM-26', after: '5~f', limit: 50 },
    { newestFirst: true, after: '5~f', limit: 50 },
  ])('a page for %o is read off an index: no sorting of twenty thousand frames', async (query) => {
    for (const compiled of [framesPageQuery(db, query).compile(), briefPageQuery(db, query).compile()]) {
      // EXPLAIN QUERY PLAN (SQLite documentation, "EXPLAIN QUERY PLAN" section 1.2) names a sorting step this way.
      const plan = await db.executeQuery({ ...compiled, sql: `explain query plan ${compiled.sql}` });
      const details = JSON.stringify(plan.rows);
      expect(details).not.toContain('USE TEMP B-TREE');
      expect(details).toContain('frames_by_');
    }
  });
});
