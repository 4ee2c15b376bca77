import type { CompiledQuery, DialectAdapter, Kysely } from 'kysely';
import type { Tables } from './tables.ts';

/** What builds a query; Kysely's own builders do. */
export interface Compilable<Row> {
  compile(): CompiledQuery<Row>;
}

/** Stands for a value in a query that is built before there are values. */
class Hole {
  readonly index: number;

  constructor(index: number) {
    this.index = index;
  }
}

/**
 * A query that is built and compiled once for each kind of database, and run with other values each time: measured, building
 * costs more than running. `build` must put its values where values go, and decide nothing by them - no list of values, no
 * null that changes the sentence.
 */
export function compiledOnce<Values extends readonly (string | number | null)[], Row>(
  build: (db: Kysely<Tables>, ...values: Values) => Compilable<Row>,
): (db: Kysely<Tables>, ...values: Values) => Promise<Row[]> {
  const known = new WeakMap<DialectAdapter, CompiledQuery<Row>>();
  return async (db, ...values) => {
    const { adapter } = db.getExecutor();
    let query = known.get(adapter);
    if (query === undefined) {
      // A hole goes where the value would, and comes out among the parameters.
      const holes = Array.from({ length: values.length }, (_, index) => new Hole(index));
      query = build(db, ...(holes as unknown as Values)).compile();
      known.set(adapter, query);
    }
    const parameters = query.parameters.map((each) => (each instanceof Hole ? values[each.index] : each));
    return (await db.executeQuery<Row>({ ...query, parameters })).rows;
  };
}
