import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { compiledOnce } from './compiled-once.ts';
import { openDatabase } from './database.ts';
import { dialects } from './dialects.ts';

describe.each(dialects)('$name', (dialect) => {
  let db: Awaited<ReturnType<typeof openDatabase>>;
  beforeEach(async () => {
    db = await openDatabase(':memory:', dialect);
  });
  afterEach(() => db.destroy());

  let built = 0;
  const note = compiledOnce((on, id: string, folder: string) => {
    built += 1;
    return on
      .insertInto('places')
      .values({ id, folder })
      .onConflict((conflict) => conflict.column('id').doUpdateSet({ folder }));
  });
  const folderOf = compiledOnce((on, id: string, not: string) =>
    on.selectFrom('places').select('folder').where('folder', '!=', not).where('id', 'in', [id]),
  );

  test('is built once, and run with the values of each time, in and out of a transaction', async () => {
    built = 0;
    await note(db, 'one', '/a');
    await db.transaction().execute(async (transaction) => {
      await note(transaction, 'two', '/b');
      await note(transaction, 'one', '/c');
    });
    expect(built).toBe(1);
    expect(await folderOf(db, 'one', '/a')).toEqual([{ folder: '/c' }]);
    expect(await folderOf(db, 'two', '/b')).toEqual([]);
  });

  test('what is taken back in a transaction is not there', async () => {
    const back = db.transaction().execute(async (transaction) => {
      await note(transaction, 'three', '/d');
      throw new Error('taken back');
    });
    await expect(back).rejects.toThrow('taken back');
    expect(await folderOf(db, 'three', '')).toEqual([]);
  });

  test('another database of the same kind gets its own', async () => {
    await note(db, 'one', '/a');
    const other = await openDatabase(':memory:', dialect);
    expect(await folderOf(other, 'one', '')).toEqual([]);
    await other.destroy();
  });
});
