import type { Migration } from 'kysely';
import { firstTables } from './0001-first-tables.ts';
import { cameras } from './0002-cameras.ts';
import { copies } from './0003-copies.ts';
import { noCounters } from './0004-no-counters.ts';
import { whenSaid } from './0005-when-said.ts';
import { jobsAndShots } from './0006-jobs-and-shots.ts';
import { believedOrder } from './0007-believed-order.ts';
import { slates } from './0008-slates.ts';
import { readings } from './0009-readings.ts';
import { handOver } from './0010-hand-over.ts';
import { colour } from './0011-colour.ts';
import { focusSpots } from './0012-focus-spots.ts';
import { keptLooks } from './0013-kept-looks.ts';
import { shotScales } from './0014-shot-scales.ts';
import { strike } from './0015-strike.ts';
import { remarks } from './0016-remarks.ts';
import { shotless } from './0017-shotless.ts';

/** Every step of the tables' life, in order. Only ever added to: a released step is history. */
export const migrations: Readonly<Record<string, Migration>> = {
  '0001-first-tables': firstTables,
  '0002-cameras': cameras,
  '0003-copies': copies,
  '0004-no-counters': noCounters,
  '0005-when-said': whenSaid,
  '0006-jobs-and-shots': jobsAndShots,
  '0007-believed-order': believedOrder,
  '0008-slates': slates,
  '0009-readings': readings,
  '0010-hand-over': handOver,
  '0011-colour': colour,
  '0012-focus-spots': focusSpots,
  '0013-kept-looks': keptLooks,
  '0014-shot-scales': shotScales,
  '0015-strike': strike,
  '0016-remarks': remarks,
  '0017-shotless': shotless,
};
