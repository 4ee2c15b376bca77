import { setTimeout as sleep } from 'node:timers/promises';
import { errorCode, errorMessage } from '../../base/index.ts';
import { checkCard } from '../card/check-card.ts';
import { putBack } from '../copies/put-back.ts';
import { readAgain } from './read-again.ts';
import type { ReadingPace } from './reading.ts';
import type { ReadingNews, ReadingRequest } from './reading-messages.ts';

/** Between two words about how far a card is. */
const wordEveryMs = 200;
/** How soon a pause that is over is noticed, and the longest rest after a file. */
const lookMs = 100;
const restMsMax = 60_000;

/** Carries a request out, and tells how it goes; the pace may change meanwhile. Settles, whatever happens. */
export async function carryOut(
  request: Exclude<ReadingRequest, { kind: 'pace' }>,
  pace: () => ReadingPace,
  tell: (news: ReadingNews) => void,
): Promise<void> {
  try {
    if (request.kind === 'card') await readCard(request, tell);
    else if (request.kind === 'put-back')
      tell({ kind: 'put-back-done', outcomes: await putBack(request.home, request.names) });
    else {
      const rest = (tookMs: number): Promise<void> => restAfter(tookMs, pace);
      await restAfter(0, pace);
      const end = await readAgain(request.options, (read) => tell({ kind: 'file', read }), rest);
      tell({ kind: 'again-done', end });
    }
  } catch (thrown) {
    tell({ kind: 'failed', code: errorCode(thrown), message: errorMessage(thrown) });
  }
}

async function readCard(
  { card }: Extract<ReadingRequest, { kind: 'card' }>,
  tell: (news: ReadingNews) => void,
): Promise<void> {
  const { home, folder, memoryCounts, cardDevice } = card;
  let saidMs = Number.NEGATIVE_INFINITY;
  const report = await checkCard(
    home,
    folder,
    (progress) => {
      if (performance.now() - saidMs < wordEveryMs) return;
      saidMs = performance.now();
      tell({ kind: 'card-progress', progress });
    },
    { memoryCounts, ...(cardDevice === undefined ? {} : { cardDevice: BigInt(cardDevice) }) },
  );
  tell({ kind: 'card-done', report });
}

/** Also lets a word about the pace be heard, which a thread that only reads never would. */
async function restAfter(tookMs: number, pace: () => ReadingPace): Promise<void> {
  const beganMs = performance.now();
  await sleep(0);
  while (pace().paused || performance.now() - beganMs < Math.min(restMsMax, tookMs * pace().restTimes))
    await sleep(Math.min(lookMs, Math.max(1, tookMs)));
}
