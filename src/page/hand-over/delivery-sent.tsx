import type { ReactNode } from 'react';
import type { Delivery, DeliveryState } from '../../contract/index.ts';
import { handOverLabels as hand, destinationLabels as labels, sentence } from '../../words/index.ts';
import { More } from './delivered-files.tsx';
import { ProgressLine } from './progress-line.tsx';

/** Files that were not sent and are listed; the manifest names them all. */
const listedMax = 100;

/** How far its files are at the place they are sent to; nothing where they stay here. */
export function DeliverySent({ delivery }: { readonly delivery: DeliveryState }): ReactNode {
  const { destination, filesSent, filesMade, bytesSent, bytesToSend, title } = delivery;
  if (destination === null) return null;
  const left = notSentCount(delivery);
  const words = `${labels.sent(filesSent, filesMade, bytesSent, bytesToSend)}${left === 0 ? '' : `. ${labels.notSent(left)}`}`;
  return (
    <>
      <p>
        {hand.destination} <strong>{destination}</strong>
      </p>
      {isSending(delivery) ? (
        <ProgressLine
          name={`${hand.destination} ${destination}${hand.about(title)}`}
          done={bytesSent}
          of={bytesToSend}
          words={words}
        />
      ) : (
        <p>{words}</p>
      )}
    </>
  );
}

/** Files of one that is done and could not send them all; 0 as long as it may still send them. */
export function notSentCount({ state, destination, filesSent, filesMade }: DeliveryState): number {
  return state === 'done' && destination !== null ? filesMade - filesSent : 0;
}

/** Whether all is made of one that is under way, and only its sending is left. */
export function isSending({ state, destination, frames, filesMade, filesMissing }: DeliveryState): boolean {
  return state === 'running' && destination !== null && filesMade + filesMissing === frames;
}

/** What was not sent, each with its reason. */
export function NotSent({ notSent }: Pick<Delivery, 'notSent'>): ReactNode {
  if (notSent.length === 0) return null;
  return (
    <>
      <h4>{labels.why}</h4>
      <ul className="hand-files">
        {notSent.slice(0, listedMax).map(({ file, finding }) => (
          <li key={file}>
            <strong>{file}</strong> {sentence(finding)}
          </li>
        ))}
      </ul>
      <More count={notSent.length - listedMax} />
    </>
  );
}
