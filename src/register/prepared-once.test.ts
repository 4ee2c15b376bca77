import Database from 'better-sqlite3';
import type { SqliteDatabase, SqliteStatement } from 'kysely';
import { expect, test } from 'vitest';
import { PreparedOnce, statementsMax } from './prepared-once.ts';

/** A database in memory, and every statement that was really prepared. */
function counting(): { database: PreparedOnce; prepared: string[] } {
  const memory = new Database(':memory:');
  const prepared: string[] = [];
  const counted: SqliteDatabase = {
    prepare: (sql): SqliteStatement => {
      prepared.push(sql);
      return memory.prepare(sql);
    },
    close: () => memory.close(),
  };
  return { database: new PreparedOnce(counted), prepared };
}

test('a statement that is run again is not prepared again, and gives what is there now', () => {
  const { database, prepared } = counting();
  database.prepare('create table a (x)').run([]);
  for (const x of [1, 2, 3]) database.prepare('insert into a values (?)').run([x]);
  expect(database.prepare('select sum(x) as sum from a').all([])).toEqual([{ sum: 6 }]);
  database.prepare('insert into a values (?)').run([4]);
  expect(database.prepare('select sum(x) as sum from a').all([])).toEqual([{ sum: 10 }]);
  expect(prepared).toEqual(['create table a (x)', 'insert into a values (?)', 'select sum(x) as sum from a']);
});

test('a table that changes makes every statement be prepared anew', () => {
  const { database } = counting();
  database.prepare('create table a (x)').run([]);
  database.prepare('insert into a values (1)').run([]);
  expect(database.prepare('select * from a').all([])).toEqual([{ x: 1 }]);
  database.prepare('alter table a add column y default 2').run([]);
  expect(database.prepare('select * from a').all([])).toEqual([{ x: 1, y: 2 }]);
});

test('as many statements as the bound are held; one more costs the one longest unused', () => {
  const { database, prepared } = counting();
  const ask = (n: number): unknown => database.prepare(`select ${n} as n`).all([]);
  for (let n = 0; n < statementsMax; n++) ask(n);
  ask(0);
  expect(prepared).toHaveLength(statementsMax);
  ask(statementsMax);
  ask(0);
  expect(prepared).toHaveLength(statementsMax + 1);
  ask(1);
  expect(prepared.at(-1)).toBe('select 1 as n');
});
