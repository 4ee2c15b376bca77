import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readingsEdition } from '../facts/index.ts';
import { openDatabase } from './database.ts';
import { dialects } from './dialects.ts';
import { selectLitFrames } from './light-queries.ts';

describe.each(dialects)('the light of the last frames on $name', (dialect) => {
  let db: Awaited<ReturnType<typeof openDatabase>>;

  beforeAll(async () => {
    db = await openDatabase(':memory:', dialect);
    const frame = (id: string, orderMs: number, change: object = {}) => ({
      id,
      job: 'QM-26',
      shot: null as string | null,
      placed: 'arrival',
      shotless: null,
      purpose: 'picture',
      spot: null,
      camera: 'cam1',
      name: `${id}.DNG`,
      order_ms: orderMs,
      listed: 1,
      first_byte_ms: null,
      last_byte_ms: null,
      kept_ms: null,
      version: 1,
      ...change,
    });
    const others = [{ camera: 'cam2' }, { shot: 's1' }, { job: 'QM-27' }, { listed: 0 }];
    const rows = [
      ...[1, 2, 3, 4].map((at) => frame(`f${at}`, at * 10)),
      ...others.map((change, at) => frame(`other${at}`, 25, change)),
      frame('unread', 26),
      frame('older-edition', 5),
    ];
    await db.insertInto('frames').values(rows).execute();
    for (const { id, order_ms } of rows) {
      if (id === 'unread') continue;
      const edition = id === 'older-edition' ? readingsEdition - 1 : readingsEdition;
      await db
        .insertInto('frame_facts')
        .values({
          frame: id,
          version: 0,
          readings: JSON.stringify({ edition, exposed: { source: 'raw' } }),
          reading_detail: JSON.stringify({ light: { columns: 1, rows: 1, stops: [order_ms] } }),
        })
        .execute();
    }
  });

  afterAll(() => db.destroy());

  test('up to a frame, of its shot and camera, in order, and only those that were read', async () => {
    const of = { job: 'QM-26', shot: null, camera: 'cam1', upTo: { orderMs: 30, id: 'f3' } };
    const all = await selectLitFrames(db, { ...of, limit: 10 });
    expect(all.map(({ id }) => id)).toEqual(['f1', 'f2', 'f3']);
    expect(all[0]).toEqual({
      id: 'f1',
      name: 'f1.DNG',
      orderMs: 10,
      purpose: 'picture',
      capture: null,
      source: 'raw',
      light: { columns: 1, rows: 1, stops: [10] },
    });
    const last = await selectLitFrames(db, { ...of, limit: 2 });
    expect(last.map(({ id }) => id)).toEqual(['f2', 'f3']);
    expect(await selectLitFrames(db, { ...of, shot: 's1', limit: 2 })).toHaveLength(1);
  });
});
