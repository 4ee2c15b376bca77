import type { Expression, ExpressionBuilder, SqlBool } from 'kysely';
import { SetsideError } from '../base/index.ts';
import { parseCursor } from './cursor.ts';
import { type FramesQuery, pageFramesMax } from './rows.ts';
import type { Tables } from './tables.ts';

/** Throws `bad-limit`. */
export function assertLimit(limit: number): void {
  if (Number.isInteger(limit) && limit >= 1 && limit <= pageFramesMax) return;
  throw new SetsideError('bad-limit', `expected 1 to ${pageFramesMax} frames a page, got ${limit}`);
}

/** What a query asks of listed `frames`, to which `marks` are joined. Throws `bad-cursor`. */
export function asksFor(
  eb: ExpressionBuilder<Tables, 'frames' | 'marks'>,
  query: FramesQuery,
): Expression<SqlBool> {
  const conditions: Expression<SqlBool>[] = [];
  if (query.ids !== undefined) conditions.push(eb('frames.id', 'in', [...query.ids]));
  if (query.job !== undefined) conditions.push(eb('frames.job', '=', query.job));
  if (query.notJob !== undefined) conditions.push(eb('frames.job', '!=', query.notJob));
  if (query.camera !== undefined) conditions.push(eb('frames.camera', '=', query.camera));
  if (query.shot !== undefined) {
    conditions.push(query.shot === null ? eb('frames.shot', 'is', null) : eb('frames.shot', '=', query.shot));
  }
  if (query.mark === 'none') {
    conditions.push(eb.or([eb('marks.mark', 'is', null), eb('marks.mark', '=', 'none')]));
  } else if (query.mark !== undefined) {
    conditions.push(eb('marks.mark', '=', query.mark));
  }
  const place = eb.refTuple('frames.order_ms', 'frames.id');
  if (query.behind !== undefined) {
    const { orderMs, id } = query.behind;
    conditions.push(eb(place, '>', eb.tuple(orderMs, id)));
  }
  if (query.after !== undefined) {
    const { orderMs, id } = parseCursor(query.after);
    conditions.push(eb(place, query.newestFirst === true ? '<' : '>', eb.tuple(orderMs, id)));
  }
  return eb.and(conditions);
}

/** How order and id are sorted, as the index has them: both ways alike. */
export function frameOrder({ newestFirst }: FramesQuery): ['desc' | undefined, 'desc' | undefined] {
  return newestFirst === true ? ['desc', 'desc'] : [undefined, undefined];
}
