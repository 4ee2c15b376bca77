import { basename, dirname, join } from 'node:path';
import { withPrivateFields, wordsOfFrame } from '../../deliver/index.ts';
import { noPictureWords } from '../../metadata/index.ts';
import { deliverFrame, type FrameMakers } from './deliver-frame.ts';
import type { DeliveryOrder, OrderedFrame } from './delivery-log.ts';

/** One frame of an order, with the words that are said of it. `folder`: where its file goes. Rejects as `deliverFrame`. */
export async function deliverOrdered(
  makers: FrameMakers,
  { specification, sheet }: Pick<DeliveryOrder, 'specification' | 'sheet'>,
  { frame, file, known }: OrderedFrame,
  folder: string,
  signal: AbortSignal,
): ReturnType<typeof deliverFrame> {
  const { words, findings } =
    sheet === null || known === null
      ? { words: noPictureWords, findings: [] }
      : wordsOfFrame(sheet, known, specification.metadata.fields);
  const wanted = withPrivateFields(specification, sheet);
  const wish = { frame, file, words, specification: wanted, folder, making: makingOf(folder) };
  const outcome = await deliverFrame(makers, wish, signal);
  if (!('made' in outcome)) return outcome;
  return { made: { ...outcome.made, findings: [...outcome.made.findings, ...findings] } };
}

/** Beside a delivery's folder: what comes between an original and its file. */
function makingOf(folder: string): string {
  return join(dirname(folder), `.${basename(folder)}.making`);
}

/** Names of such folders. */
export const makingName = /^\..+\.making$/;
