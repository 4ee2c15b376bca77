import type { Finding } from '../facts/index.ts';
import { KeepState } from './core/keep-state.ts';
import type { Disk } from './disk.ts';
import type { HomeFolders } from './home-folders.ts';
import { type JournalEnd, replayJournal } from './journal-reader.ts';

/** What the journal says of a home. */
export interface Replayed {
  readonly state: KeepState;
  readonly end: JournalEnd;
  /** That of the last station that used the home. */
  readonly bootId: string | null;
  /** Records that did not fit what came before. */
  readonly strays: number;
}

/** Reads the whole journal. Rejects `journal-newer`, and what the disk rejects. */
export async function replayHome(disk: Disk, folders: HomeFolders): Promise<Replayed> {
  const state = new KeepState();
  let bootId: string | null = null;
  let strays = 0;
  const end = await replayJournal(disk, folders.journal, (record) => {
    if (record.type === 'opened') bootId = record.bootId;
    if (!state.apply(record)) strays += 1;
  });
  folders.claimKnown(state.originals());
  return { state, end, bootId, strays };
}

/** What replay could not read or make sense of. */
export function troublesOf({ end, strays }: Replayed): Finding[] {
  const damage = end.damage.map(({ seqFrom, seqTo }) => ({
    code: 'keep.journal-damaged',
    args: { seqFrom, seqTo, count: seqTo - seqFrom + 1 },
  }));
  return strays === 0 ? damage : [...damage, { code: 'keep.journal-strays', args: { count: strays } }];
}
